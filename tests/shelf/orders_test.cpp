// Figures that must rise or fall, at their turning: what is equal, what lies by a hair on either side; and what a reader tells of
// dates, origins and doubts, each in its own words.

#include <catch2/catch.hpp>

#include <string>

#include "faults_of.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/bench_practice_file.hpp"
#include "lakebound/shelf/family_file.hpp"
#include "lakebound/shelf/fineness_target_file.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/salt_file.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const std::string oil_family_text =
    "kind: family\nname: Oil\nprocess: oil\nstart: 1.4\nwindow: {amber_low: 1.0, green_low: 1.2, green_high: 1.8, amber_high: 2.4}\n"
    "cohesion: {none_below: 30 %, weak_below: 50 %, evidence: {origin: estimate}}\nbinder_index: {value: 1, origin: common practice}\n"
    "method_transfer: {value: 0.1, origin: estimate}\nbinder_solids_spread: {value: 0.04, origin: estimate}\nbinder_density_spread: {value: 0.04, origin: estimate}\n"
    "most_excess_water: {value: 12 % w/w, origin: estimate}\ncured_oil_loses: {least: 2 %, most: 15 %, evidence: {origin: estimate}}\nevidence: {origin: estimate}\n";

std::string family_told(const std::string& from, const std::string& to, const std::string& text = plain_family) {
    return summary(faults_of([&] { (void)read_family(load_document("f.yaml", changed(text, from, to)), "f"); }));
}
std::string bench_told(const std::string& from, const std::string& to) {
    const std::string text = std::string(plain_bench) + "syringes:\n  - {name: small, step: 0.1 mL, capacity: 5 mL}\n";
    return summary(faults_of([&] { (void)read_bench(load_document("b.yaml", changed(text, from, to))); }));
}

/// "id: message; hint" of the first fault in a figure.
template <class Q> std::string figure_told(const std::string& value, const Range& range, FigureStyle style = FigureStyle::by_maker) {
    Document document = load_document("f.yaml", "a: " + value + "\n");
    const auto faults = faults_of([&] {
        const MapReader map(document.root, "the file", {"a"}, document.faults);
        (void)map.optional_figure<Q>("a", range, style);
        document.faults.throw_if_any();
    });
    return faults.empty() ? "taken" : faults[0].id + ": " + faults[0].message + "; " + faults[0].hint;
}

std::string date_told(const std::string& value) {
    Document document = load_document("f.yaml", "a: " + value + "\n");
    const auto faults = faults_of([&] {
        (void)read_date(*document.root.find("a"), "a", document.faults);
        document.faults.throw_if_any();
    });
    return faults.empty() ? "taken" : faults[0].id + " " + faults[0].message + "; " + faults[0].hint;
}

} // namespace

TEST_CASE("limits of a family may be equal, and none may fall", "[errors]") {
    for (const auto& [from, equal, less, place] :
         {std::tuple{"green_low: 1.2", "green_low: 1.0", "green_low: 0.9999", "window-order 5:37"}, {"green_high: 1.8", "green_high: 1.2", "green_high: 1.1999", "window-order 5:54"},
          {"amber_high: 2.4", "amber_high: 1.8", "amber_high: 1.7999", "window-order 5:71"}, {"weak_below: 50 %", "weak_below: 30 %", "weak_below: 29.99 %", "window-order 6:42"},
          {"most: 0.5", "most: 0.15", "most: 0.1499", "window-order"}, {"good_from: 25 %", "good_from: 20 %", "good_from: 19.99 %", "window-order"},
          {"good_to: 48 %", "good_to: 25 %", "good_to: 24.99 %", "window-order"}, {"soft_to: 55 %", "soft_to: 48 %", "soft_to: 47.99 %", "window-order"},
          {"sets_to: 70 %", "sets_to: 55 %", "sets_to: 54.99 %", "window-order"}}) {
        CAPTURE(from);
        CHECK(family_told(from, equal).empty());
        CHECK(family_told(from, less).rfind(place, 0) == 0);
    }
    CHECK(family_told("start: 1.4", "start: 1.0").empty());
    CHECK(family_told("start: 1.4", "start: 0.9999").rfind("window-order 4:8", 0) == 0);
    CHECK(family_told("start: 1.4", "start: 2.4").empty());
    CHECK(family_told("start: 1.4", "start: 2.4001").rfind("window-order 4:8", 0) == 0);
    CHECK(family_told("most: 15 %", "most: 2 %", oil_family_text).empty());
    CHECK(family_told("most: 15 %", "most: 1.99 %", oil_family_text).rfind("window-order 12:37", 0) == 0);
    CHECK(family_told("method_transfer: {value: 0.1", "method_transfer: {value: 2").empty());
    CHECK(family_told("method_transfer: {value: 0.1", "method_transfer: {value: 2.01").rfind("out-of-range", 0) == 0);
    // What one process has no other has.
    CHECK(family_told("evidence: {origin: estimate}\n", "medium_keeps: {value: 4 h, origin: estimate}\nevidence: {origin: estimate}\n", oil_family_text.substr(0, oil_family_text.rfind("evidence")) + "evidence: {origin: estimate}\n").find("key-unknown") != std::string::npos);
    const Family oil = read_family(load_document("f.yaml", oil_family_text), "f");
    CHECK(oil.most_excess_water.value() == Approx(.12));
    CHECK(oil.cured_oil_loses.least.value() == Approx(.02));
    CHECK(oil.cured_oil_loses.most.value() == Approx(.15));
    CHECK(oil.window.amber_low.value() == Approx(1));
    CHECK(oil.window.green_low.value() == Approx(1.2));
    CHECK(oil.window.green_high.value() == Approx(1.8));
    CHECK(oil.window.amber_high.value() == Approx(2.4));
    CHECK(oil.cohesion.none_below.value() == Approx(.3));
    CHECK(oil.cohesion.weak_below.value() == Approx(.5));
}

TEST_CASE("what a scale carries is more than its step, what a syringe holds is one step at least", "[errors]") {
    CHECK(bench_told("capacity: 100 g", "capacity: 0.0101 g").empty());
    CHECK_FALSE(bench_told("capacity: 100 g", "capacity: 0.01 g").empty());
    CHECK(bench_told("capacity: 5 mL", "capacity: 0.1 mL").empty());
    CHECK_FALSE(bench_told("capacity: 5 mL", "capacity: 0.0999 mL").empty());
}

TEST_CASE("wet screening may end where dry sieving does, not above it", "[errors]") {
    const auto told = [](const char* wet) {
        return summary(faults_of([&] {
            (void)read_fineness_target(load_document("t.yaml", "kind: fineness target\nname: T\ngrain: {value: 25 um, origin: estimate}\nresidue_screen: No. 325\n"
                                                               "allowed_residue: {value: 0.5 % w/w, origin: estimate}\ndry_sieving_ends: {value: 75 um, origin: estimate}\n"
                                                               "wet_screening_ends: {value: " + std::string(wet) + ", origin: estimate}\n"), "t");
        }));
    };
    CHECK(told("75 um").empty());
    CHECK(told("75.001 um") == "target-order 7:21");
}

TEST_CASE("strengths of stocks fall, and points of a solubility rise", "[errors]") {
    const auto stocks = [](const char* values) {
        return summary(faults_of([&] { (void)read_bench_practice(load_document("p.yaml", changed(plain_practice, "[10 % w/w, 1 % w/w]", values))); }));
    };
    CHECK(stocks("[10 % w/w, 9.999 % w/w]").empty());
    CHECK_FALSE(stocks("[10 % w/w, 10 % w/w]").empty());
    CHECK_FALSE(stocks("[10 % w/w, 10.001 % w/w]").empty());
    const auto salt = [](const char* second) {
        return "kind: salt\nname: Alum\nformula: KAl(SO4)2.12H2O\nwater_of_crystallisation: 12\ngives: {potassium: 1, aluminium: 1, sulphate: 2}\norigin: computed\nsource: iupac-weights\n"
               "solubility:\n  origin: memory\n  source: a book\n  points:\n    - {at: 10 degC, in_100_g_water: 8 g}\n    - {at: " + std::string(second) + ", in_100_g_water: 14 g}\n";
    };
    const auto told = [&](const char* second) { return summary(faults_of([&] { (void)read_salt(load_document("s.yaml", salt(second)), "s"); })); };
    CHECK(told("10.001 degC").empty());
    CHECK(told("10 degC") == "salt-solubility 13:7");
    const Salt alum = read_salt(load_document("s.yaml", salt("20 degC")), "s");
    REQUIRE(alum.solubility.size() == 2);
    CHECK(alum.solubility[1].per_water == Approx(.14).epsilon(1e-12));
    CHECK(in_degrees_celsius(alum.solubility[1].at) == Approx(20));
    for (std::size_t i = 0; i < ion_count; ++i)
        CHECK(alum.gives.count[i] == Approx(i == static_cast<std::size_t>(Ion::sulphate) ? 2 : i == static_cast<std::size_t>(Ion::potassium) || i == static_cast<std::size_t>(Ion::aluminium) ? 1 : 0).margin(1e-15));
}

TEST_CASE("a day is told by its form, by the calendar, and by what has not come", "[errors]") {
    const std::string form = "date-form 'a' must be a date written year-month-day, got ", like = "; write it like 2026-03-02";
    CHECK(date_told("2026-03-02") == "taken");
    for (const char* text : {"2026-3-02", "2026-03-2", "2026/03-02", "2026-03/02", "2026-03-021", "x026-03-02", "2026-x3-02", "2026-03-0x", "20260-3-02", "2026-0-302", "2-026-03-0", "2 March 2026"})
        CHECK(date_told(text) == form + "'" + text + "'" + like);
    for (const char* text : {"2026-00-10", "2026-13-10", "2026-02-29", "2026-04-31", "2026-04-00"})
        CHECK(date_told(text) == "date-form '" + std::string(text) + "' is no day of the calendar; write year-month-day, like 2026-03-02");
    CHECK(date_told("1899-12-31") == "date-form '1899-12-31' lies before 1900; check the year");
    CHECK(date_told("2999-01-01") == "date-form '2999-01-01' has not come yet; check day, month and year");
    CHECK(date_told("2024-02-29") == "taken");
}

TEST_CASE("an uncertainty as large as its value is refused of what must be above 0 alone", "[errors]") {
    CHECK(figure_told<Mass>("1 +- 1 g", range::not_negative) == "taken");
    CHECK(figure_told<Mass>("1 +- 0.99 g", range::positive) == "taken");
    const std::string wide = " is as large as its value; write a factor, as in '65 x/ 1.35 g/100g', when it may be a third larger or smaller";
    CHECK(figure_told<Mass>("1 +- 1 g", range::positive) == "spread-too-wide: the uncertainty of a" + wide);
    CHECK(figure_told<MassDensity>("1.9 +- 1.9 g/cm3", range::density) == "spread-too-wide: the uncertainty of a" + wide);
    CHECK(figure_told<OilAbsorption>("65 +- 65 g/100g", range::any) == "spread-too-wide: the uncertainty of a" + wide); // by its kind
    CHECK(figure_told<OilAbsorption>("65 +- 64.9 g/100g", range::any) == "taken");
}

TEST_CASE("an origin that another can look up names its source", "[errors]") {
    for (const auto& row : WordTable<Origin>::rows) {
        CAPTURE(row.word);
        const bool needs = row.value == Origin::published || row.value == Origin::memory || row.value == Origin::computed;
        const std::string bare = figure_told<Mass>("{value: 1 g, origin: " + std::string(row.word) + "}", range::positive, FigureStyle::with_origin);
        CHECK((bare == "taken") != needs);
        if (needs) CHECK(bare == "source-missing: a figure of origin '" + std::string(row.word) + "' must name its source; add 'source: ' and a key of the page references.md or a sentence");
        CHECK(figure_told<Mass>("{value: 1 g, origin: " + std::string(row.word) + ", source: a book}", range::positive, FigureStyle::with_origin) == "taken");
    }
}

TEST_CASE("a share beyond all is told in the words that it was written in", "[errors]") {
    CHECK(figure_told<MassFraction>("120 % w/w", range::any) == "fraction-above-one: a must be 0 to 100 % w/w, got '120 % w/w'; a fraction is 100 % at most");
    CHECK(figure_told<MassFraction>("1.2 g/g", range::any) == "fraction-above-one: a must be 0 to 1 g/g, got '1.2 g/g'; a fraction is 1 at most");
    CHECK(figure_told<MassFraction>("1 g/g", range::any) == "taken");
    CHECK(figure_told<PigmentVolumeConcentration>("100 %", range::aim_pvc) == "out-of-range: a must be 0.1 to 99 %, got '100 %'; without binder there is no paint");
    CHECK(figure_told<PigmentVolumeConcentration>("99 %", range::aim_pvc) == "taken");
    CHECK(figure_told<MassFraction>("-1 % w/w", range::not_negative) == "quantity-negative: a must be 0 or more, got '-1 % w/w'; drop the sign");
    CHECK(figure_told<Mass>("0 g", range::positive) == "quantity-negative: a must be above 0, got '0 g'; ");
}

TEST_CASE("the name of a file is its stem, whatever its folders", "[unit]") {
    CHECK(id_of_path("a/b/weld.yaml") == "weld");
    CHECK(id_of_path("w.yaml") == "w");
    CHECK(id_of_path(".yaml") == ".yaml"); // no more than an ending
    CHECK(id_of_path("a/.yaml") == ".yaml");
    CHECK(id_of_path("weld.yml") == "weld.yml");
    CHECK(id_of_path("weld.yaml/x") == "x");
    CHECK(id_of_path("yaml") == "yaml");
}
