// Amounts next to nothing, which are amounts all the same: less than a gram, a millimetre, a thousandth of a second; and
// nothing itself, where it is taken.

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <string>

#include "faults_of.hpp"
#include "lakebound/shelf/bench_reading_file.hpp"
#include "lakebound/shelf/entry_typed.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/typed_bath_reading.hpp"
#include "lakebound/shelf/typed_grinding.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "lakebound/shelf/typed_parts.hpp"
#include "lakebound/shelf/typed_salt.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"
#include "lakebound/shelf/weigh_sheet_file.hpp"
#include "own_studio.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// "id: message" of each fault.
template <class Code> std::string words_of(Code&& code) {
    std::string text;
    for (const auto& fault : faults_of(std::forward<Code>(code)))
        text += (text.empty() ? "" : "; ") + fault.id + ": " + fault.message;
    return text;
}

std::string number_told(const std::string& number, const Range& range) {
    Document document = load_document("f.yaml", "a: " + number + "\n");
    Faults faults;
    (void)read_plain_number(*document.root.find("a"), "a", range, faults);
    return words_of([&] { faults.throw_if_any(); });
}

struct Bottle {
    SmallShelf shelf;
    Library library = shelf.library();
    Jar jar(const std::string& text) { return read_jar(load_document("jar.yaml", text), "jar", library); }
    Jar own = jar(plain_jar);
    EntryWords words{{"test-family"}, {}};
    std::string entry_told(const std::string& what, const std::string& lines) {
        return words_of([&] { (void)read_entry(load_document("e.yaml", "kind: entry\njar: jar\ndate: 2026-03-02\nwhat: " + what + "\n" + lines), "jar/one", own, library, words); });
    }
};

const std::string half_a_gram = "kind: jar\nname: Jar\npigment: test-lake\nnet_mass: 0.5 g\n";

/// A weigh sheet of one lake; everything in it is in grams.
std::string small_sheet(const std::string& pigment, const std::string& medium, const std::string& more = "") {
    return R"({"schema_version": 4, "kind": "batch",
"recipe": {"id": "test-paint", "name": "Test paint", "family": "test-family", "medium": "gum-water"},
"record": {"sigma_ln_demand": 0.0005},
"pigments": [{"id": "test-lake", "name": "Test lake", "class": "lake", "density_state": "as weighed",
  "density_g_per_cm3": {"value": 1.9, "standard_uncertainty": 0.0005, "provenance": {"origin": "estimate"}},
  "oil_absorption_g_per_100g": {"value": 65, "standard_uncertainty": 0.0005, "provenance": {"origin": "measured"}},
  "test_oil_density_g_per_cm3": {"value": 0.93, "standard_uncertainty": 0, "provenance": {"origin": "estimate"}},
  "moisture": {"value": 0.0005, "standard_uncertainty": 0.0001, "provenance": {"origin": "measured"}}, "excess_water": 0.0005, "step_from_oil": 0.05}],
"batch": {"weigh": [
  {"part": "pigment", "id": "test-lake", )" + pigment + R"(},
)" + more + R"(
  {"part": "medium", "id": "gum-water", )" + medium + R"(}]}
})";
}

std::string grams_of(double exact, double to_weigh, double rounded) {
    const auto text = [](double x) { return fixed_text(x, 6); };
    return "\"exact_g\": " + text(exact) + ", \"to_weigh_g\": " + text(to_weigh) + ", \"rounded_g\": " + text(rounded);
}

} // namespace

TEST_CASE("a number is below 0, above the whole, or out of its range, and told so", "[errors]") {
    const Range from_tiny{1e-4, 2.0, false, "0.0001 to 2", ""}, to_whole{0.0, 1.0, false, "0 to 1", ""}, from_below{-5.0, 5.0, false, "-5 to 5", ""};
    const Range above{0.0, 1.2, true, "above 0, at most 1.2", ""}, narrow{0.5, 0.9, false, "0.5 to 0.9", ""}, hinted{0.0, 1.0, false, "0 to 1", "own hint"};
    CHECK(number_told("0.0005", from_tiny).empty());
    CHECK(number_told("0.0001", from_tiny).empty());
    CHECK(number_told("0.00005", from_tiny) == "out-of-range: a must be 0.0001 to 2, got '0.00005'");
    CHECK(number_told("0", from_tiny) == "quantity-negative: a must be 0.0001 to 2, got '0'");
    CHECK(number_told("-1", from_tiny) == "quantity-negative: a must be 0.0001 to 2, got '-1'");
    CHECK(number_told("2.1", from_tiny) == "out-of-range: a must be 0.0001 to 2, got '2.1'");
    CHECK(number_told("1.1", to_whole) == "fraction-above-one: a must be 0 to 1, got '1.1'");
    CHECK(number_told("-0.0005", to_whole) == "quantity-negative: a must be 0 to 1, got '-0.0005'");
    CHECK(number_told("0", to_whole).empty());
    CHECK(number_told("1", to_whole).empty());
    CHECK(number_told("-6", from_below) == "out-of-range: a must be -5 to 5, got '-6'");
    CHECK(number_told("6", from_below) == "out-of-range: a must be -5 to 5, got '6'");
    CHECK(number_told("0", above) == "quantity-negative: a must be above 0, at most 1.2, got '0'");
    CHECK(number_told("0.0005", above).empty());
    CHECK(number_told("1.3", above) == "out-of-range: a must be above 0, at most 1.2, got '1.3'");
    CHECK(number_told("0.95", narrow) == "out-of-range: a must be 0.5 to 0.9, got '0.95'");
    CHECK(number_told("1", narrow) == "out-of-range: a must be 0.5 to 0.9, got '1'");
    CHECK(number_told("1.01", narrow) == "fraction-above-one: a must be 0.5 to 0.9, got '1.01'");
    CHECK(number_told("0.0005", narrow) == "out-of-range: a must be 0.5 to 0.9, got '0.0005'");
    const auto hint = [](const std::string& number, const Range& range) {
        Document document = load_document("f.yaml", "a: " + number + "\n");
        Faults faults;
        (void)read_plain_number(*document.root.find("a"), "a", range, faults);
        return faults_of([&] { faults.throw_if_any(); }).at(0).hint;
    };
    CHECK(hint("1.1", to_whole) == "a fraction is 1 at most");
    CHECK(hint("1.1", hinted) == "own hint");
    CHECK(hint("2.1", from_tiny).empty());
}

TEST_CASE("a spread as wide as its value is told where the value cannot be nothing", "[errors]") {
    const auto told = [](const std::string& value, const Range& range) {
        Document document = load_document("f.yaml", "a: " + value + "\n");
        Faults faults;
        const MapReader map(document.root, "the file", {"a"}, faults);
        (void)map.figure<Mass>("a", range, FigureStyle::by_maker);
        return words_of([&] { faults.throw_if_any(); });
    };
    const std::string wide = "spread-too-wide: the uncertainty of a is as large as its value";
    CHECK(told("0.4 +- 0.4 g", range::positive) == wide);
    CHECK(told("0.4 +- 0.5 g", range::positive) == wide);
    CHECK(told("0.4 +- 0.39 g", range::positive).empty());
    CHECK(told("0.4 +- 0.5 g", range::not_negative).empty());
    CHECK(told("0.4 +- 0.5 g", {1e-4, 1.0, false, "0.1 to 1000 g", ""}) == wide);
    CHECK(told("0.4 x/ 3 g", range::positive).empty());
    const auto share = [](const std::string& value, const Range& range) {
        Document document = load_document("f.yaml", "a: " + value + "\n");
        Faults faults;
        (void)MapReader(document.root, "the file", {"a"}, faults).figure<MassFraction>("a", range, FigureStyle::by_maker);
        return words_of([&] { faults.throw_if_any(); });
    };
    CHECK(share("5 +- 6 % w/w", range::not_negative).empty()); // may be nothing
    CHECK(share("5 +- 6 % w/w", range::positive) == wide);
}

TEST_CASE("of half a gram in a jar what was drawn is taken off, and no more", "[unit][errors]") {
    Bottle bottle;
    const auto drawn = [&](const std::string& mass) { return half_a_gram + "drawn:\n  - {date: 2026-03-02, mass: " + mass + ", for: a}\n"; };
    CHECK(in_grams(bottle.jar(drawn("0.3 g")).net_mass.value()) == Approx(0.2));
    CHECK(words_of([&] { (void)bottle.jar(drawn("0.6 g")); }) == "jar-overdrawn: with this, 0.60 g were drawn, more than there was");
    // Nothing drawn leaves a factor a factor; a faulty mass is told, not what was drawn of it.
    const std::string factor = changed(half_a_gram, "0.5 g", "0.5 x/ 1.1 g");
    CHECK(bottle.jar(factor).net_mass.distribution().shape == Shape::lognormal);
    CHECK(bottle.jar(changed(drawn("0.3 g"), "net_mass: 0.5 g", "net_mass: 0.5 x/ 1.1 g")).net_mass.distribution().shape == Shape::normal);
    CHECK(bottle.jar(drawn("0.3 g")).net_mass.distribution().shape == Shape::exact);
    for (const char* net : {"net_mass: much\n", "net_mass: 0 g\n", ""})
        CHECK(words_of([&] { (void)bottle.jar(changed(drawn("0.3 g"), "net_mass: 0.5 g\n", net)); }).find("overdrawn") == std::string::npos);
}

TEST_CASE("a batch of half a gram of medium is held against its binder like any other", "[errors]") {
    Bottle bottle; // gum 1 to water 2, of the gum 87 % at 1.5 g/cm3: half a gram holds .0967 mL
    const auto batch = [&](const std::string& binder) {
        return bottle.entry_told("batch", "family: test-family\npigment: 0.2 g\nmedium: gum-water\nmedium_mass: 0.5 g\ndry_binder: " + binder + "\nk_spread: 0.0005\n");
    };
    CHECK(batch("0.0967 mL").empty());
    CHECK(batch("0.2 mL") == "entry-contradicts: this is not the dry binder of that mass of medium: 0.10 mL");
    CHECK(batch("0.05 mL") == "entry-contradicts: this is not the dry binder of that mass of medium: 0.10 mL");
    const auto rub_out = [&](const std::string& oil) { return bottle.entry_told("rub-out", "pigment: 2.00 g\noil: " + oil + "\nscale: 0.01 g\ndropper: {drops: 1, weighed: 0.9 g}\n"); };
    CHECK(rub_out("0 drops").starts_with("quantity-negative: the drops must be above 0"));
    CHECK(rub_out("0.0005 drops").find("quantity-negative") == std::string::npos);
    CHECK(rub_out("2 drops").empty());
}

TEST_CASE("a dropper is of whole drops, one to a thousand", "[errors]") {
    const auto told = [](const std::string& drops) {
        return words_of([&] {
            (void)read_bench_reading(load_document("r.yaml", "kind: bench reading\nname: R\ntest: rub-out\nscale: 0.01 g\ndropper: {drops: " + drops +
                                                                 ", weighed: 1.81 g}\nrub_outs:\n  - {pigment: 2.00 g, oil: 43 drops}\n"));
        });
    };
    CHECK(told("50").empty());
    CHECK(told("49.5") == "out-of-range: drops of the dropper must be whole ones");
    CHECK(told("50.0005") == "out-of-range: drops of the dropper must be whole ones");
    CHECK(told("0.5") == "out-of-range: drops must be 1 to 1000, got '0.5'");
    CHECK(told("1000.5") == "out-of-range: drops must be 1 to 1000, got '1000.5'");
    CHECK(told("1001") == "out-of-range: drops must be 1 to 1000, got '1001'");
    CHECK(told("0") == "quantity-negative: drops must be 1 to 1000, got '0'");
}

TEST_CASE("a sheet of milligrams is read back as one of grams", "[unit]") {
    const SmallShelf shelf;
    auto library = shelf.library();
    const auto read_small = [&](const std::string& text) { return read_weighed_paint(load_document("sheet.json", text), library); };
    const std::string stock = "  {\"part\": \"additive\", \"id\": \"test-gum\", " + grams_of(.00005, .0008, .0004) + ", \"stock_solution\": {\"carrier_taken_off\": \"medium\", \"carrier_g\": 0.0006}},\n"
                              "  {\"part\": \"additive\", \"id\": \"test-gum\", " + grams_of(.0001, .0001, 0) + ", \"drops\": {\"drops\": 1}},\n"
                              "  {\"part\": \"additive\", \"id\": \"test-gum\", " + grams_of(0, 0, 0) + "},";
    const auto paint = read_small(small_sheet(grams_of(.0008, .0008, .0008), grams_of(.0009, .0008, .0009), stock));
    CHECK(in_grams(paint.pigment) == Approx(.0008));
    // The stock went in by half: half of its carrier came back. The drops are in what was weighed as medium.
    CHECK(paint.medium_per_pigment.value() == Approx((.0009 * .0009 / (.0009 + .0001) + .0003) / .0008).epsilon(1e-9));
    REQUIRE(paint.recipe.additives.size() == 3);
    CHECK(paint.recipe.additives[0].dose.value() == Approx(.000025 / .0008).epsilon(1e-9));
    CHECK(paint.recipe.additives[1].dose.value() == Approx(.0001 / .0008).epsilon(1e-9));
    CHECK(paint.recipe.additives[2].dose.value() == 0.0); // a line of nothing is one
    REQUIRE(paint.learned_spread);
    CHECK(*paint.learned_spread == Approx(.0005));
    const Pigment& pigment = paint.recipe.pigments.at(0).pigment;
    CHECK(pigment.excess_water.value() == Approx(.0005));
    CHECK(pigment.moisture->value().value() == Approx(.0005));
    CHECK(paint.recipe.pigments[0].step_from_oil == Approx(.05));
    const auto told = [&](const std::string& from, const std::string& to) {
        return words_of([&] { (void)read_small(changed(small_sheet(grams_of(4, 4, 4), grams_of(20, 20, 20)), from, to)); });
    };
    CHECK(told("\"excess_water\": 0.0005", "\"excess_water\": 0").empty());
    CHECK(told("\"sigma_ln_demand\": 0.0005", "\"sigma_ln_demand\": 0").empty());
    CHECK(told("\"sigma_ln_demand\": 0.0005", "\"sigma_ln_demand\": 5").empty());
    CHECK(told("\"sigma_ln_demand\": 0.0005", "\"sigma_ln_demand\": 5.01") == "out-of-range: sigma_ln_demand must be 0 to 5, got '5.01'");
    CHECK(told("\"sigma_ln_demand\": 0.0005", "\"sigma_ln_demand\": -0.0005") == "quantity-negative: sigma_ln_demand must be 0 to 5, got '-0.0005'");
    CHECK(told("\"excess_water\": 0.0005", "\"excess_water\": 0.991") == "out-of-range: excess_water must be 0 to 0.99, got '0.991'");
    CHECK(told("\"excess_water\": 0.0005", "\"excess_water\": -1") == "quantity-negative: excess_water must be 0 to 0.99, got '-1'");
    CHECK(told("\"value\": 0.0005", "\"value\": 0.991") == "out-of-range: value must be 0 to 0.99, got '0.991'");
    CHECK(told("\"value\": 0.0005", "\"value\": 0").empty());
    CHECK(told("\"step_from_oil\": 0.05", "\"step_from_oil\": 0.0499") == "out-of-range: step_from_oil must be 0.05 to 20, got '0.0499'");
    CHECK(told("\"step_from_oil\": 0.05", "\"step_from_oil\": 20").empty());
    CHECK(told("\"step_from_oil\": 0.05", "\"step_from_oil\": 20.1") == "out-of-range: step_from_oil must be 0.05 to 20, got '20.1'");
    CHECK(told("\"value\": 65", "\"value\": 1.99") == "out-of-range: value must be 2 to 400 g/100g, got '1.99'");
    CHECK(told("\"value\": 65", "\"value\": 2").empty());
    CHECK(told("\"value\": 65", "\"value\": 400").empty());
    CHECK(told("\"value\": 65", "\"value\": 400.1") == "out-of-range: value must be 2 to 400 g/100g, got '400.1'");
    CHECK(told(grams_of(4, 4, 4), grams_of(4, 4, 0)).find("quantity-negative: the sheet weighs no pigment") != std::string::npos);
    CHECK(told("\"moisture\"", "\"damp\"").empty());
}

TEST_CASE("a test of milligrams is a test, and a screen whose dish was empty kept nothing", "[unit][errors]") {
    const auto read = [](const std::string& masses, const std::string& pan) {
        return read_sieve_test(load_document("t.yaml", "kind: sieve test\nname: T\nretained:\n  - {screen: 100 um, " + masses + "}\npan: " + pan + "\n"), "t").record;
    };
    CHECK(in_grams(read("mass: 0.0002 g", "0.0003 g").test.pan) == Approx(.0003));
    CHECK(words_of([&] { (void)read("mass: 0 g", "0 g"); }) == "sieve-empty: nothing was kept and nothing passed");
    CHECK(in_grams(read("gross: 200 g, tare: 200 g", "1 g").test.screens.at(0).retained) == 0.0);
    CHECK(words_of([&] { (void)read("gross: 199.9999 g, tare: 200 g", "1 g"); }) == "tare-over-gross: loaded it weighs less than empty");
    const auto blanket = [](const std::string& second, const std::string& third) {
        return read_settling_test(load_document("s.yaml", "kind: settling test\nname: S\nblanket:\n  - {time: 0.001 s, height: 100 mm}\n  - {time: " + second +
                                                              ", height: 62 mm}\n  - {time: " + third + ", height: 48 mm}\n"), "s").record;
    };
    CHECK(in_seconds(blanket("0.0014 s", "0.0018 s").blanket.value().interval) == Approx(.0004));
    CHECK(words_of([&] { (void)blanket("0.001 s", "0.001 s"); }) == "blanket-readings: the readings must be equally far apart in time");
}

TEST_CASE("a figure of nothing is written as 0 in an entry", "[unit]") {
    const TempDir folder;
    const EntryContext context{"weld", "2026-05-02", {}, {}, studio_bench()};
    const auto sieved = typed_sieving(context, folder.write("t.yaml", "kind: sieve test\nname: T\ngrinding_time: 0 min\nretained:\n  - {screen: 75 um, mass: 0 g}\npan: 2 g\n"));
    CHECK(sieved.text.find("  grinding_time: 0 min\n") != std::string::npos);
    CHECK(sieved.text.find("mass: 0 g}\n") != std::string::npos);
    const auto settled = typed_settling(context, folder.write("s.yaml", "kind: settling test\nname: S\ntemperature: 0 degC\ngrains: {size: 1 nm, depth: 1 mm, time: 0.001 s}\n").c_str());
    CHECK(settled.text.find("  temperature: ") != std::string::npos);
    CHECK(settled.text.find("{size: 0.0010000 um, depth: 1.0000 mm, time: 0.0010000 s}") != std::string::npos);
}

TEST_CASE("what is typed of next to nothing is taken, and nothing where it may be", "[unit][errors]") {
    GrindTexts texts;
    texts.handling = "0.001 s", texts.drying = "0 s", texts.emptier = "0.0005", texts.loss = "0.01 %";
    const GrindSay say = grind_say(texts);
    CHECK(in_seconds(say.handling.value()) == Approx(.001));
    CHECK(in_seconds(say.drying.value()) == 0.0);
    CHECK(say.emptier_is_faster.value().value() == Approx(.0005));
    CHECK(say.loss.value().value() == Approx(.0001));
    const auto told = [](void (*change)(GrindTexts&, const char*), const char* text) {
        GrindTexts one;
        change(one, text);
        return words_of([&] { (void)grind_say(one); });
    };
    const auto emptier = [](GrindTexts& t, const char* text) { t.emptier = text; };
    const auto loss = [](GrindTexts& t, const char* text) { t.loss = text; };
    const auto handling = [](GrindTexts& t, const char* text) { t.handling = text; };
    for (const char* good : {"0", "2", "1.99"})
        CHECK(told(emptier, good).empty());
    for (const char* none : {"-0.0005", "2.01"})
        CHECK(told(emptier, none) == std::string("out-of-range: --emptier \"") + none + "\": must be 0 to 2");
    CHECK(told(loss, "50 %").empty());
    CHECK(told(loss, "50.1 %") == "out-of-range: --loss \"50.1 %\": must be at most 50 %");
    CHECK(told(handling, "-0.001 s") == "out-of-range: --handling \"-0.001 s\": must be 0 or more");
    CHECK(in_seconds(series_option("--drying", "1 g, 2 g, 3 g every 0.001 s", "x").interval) == Approx(.001));
    CHECK(words_of([] { (void)series_option("--drying", "1 g, 2 g, 3 g every 0 s", "x"); }) ==
          "out-of-range: --drying \"1 g, 2 g, 3 g every 0 s\": the time between readings must be above 0");
    bool filled = false;
    const auto damp = figure_option<MassFraction>("--moisture", "0.05 % w/w", .1, filled, {0.0, 0.5, false, "0 to 50 % w/w", ""});
    CHECK(damp.value().value() == Approx(.0005));
    CHECK(damp.relative_uncertainty() == Approx(.1));
    CHECK(filled);
    const auto parts = typed_parts("0.0005 binder : 1 pigment by weight");
    REQUIRE(parts);
    CHECK(parts->first.number == Approx(.0005));
    CHECK_FALSE(typed_parts("0 binder : 1 pigment by weight"));
    CHECK(chance_option("--sure", "0.01 %").value() == Approx(.0001));
    CHECK(words_of([] { (void)chance_option("--sure", "0.0005"); }) == "unit-missing: --sure \"0.0005\": a chance is written in per cent");
    CHECK(words_of([] { (void)chance_option("--sure", "99.9"); }) == "unit-missing: --sure \"99.9\": a chance is written in per cent");
    for (const char* other : {"100", "101", "0", "-5"})
        CHECK(words_of([&] { (void)chance_option("--sure", other); }).find("a chance is written in per cent") == std::string::npos);
    for (const char* length : {"0.0005 mm", "1 um"})
        CHECK(words_of([&] { (void)positive_option<Length>("--size", length); }).empty());
}

TEST_CASE("a solution is of half a per cent to a quarter", "[errors]") {
    const auto told = [](const char* text) { return words_of([&] { (void)typed_strength("--strength", text); }); };
    for (const char* good : {"0.5 % w/v", "0.51 % w/w", "24.9 % w/v", "25 % w/w", "0.6 g per 100 mL water", "24.9 g per 100 mL water"})
        CHECK(told(good).empty());
    for (const char* none : {"0.49 % w/v", "25.1 % w/w", "0.4 g per 100 mL water", "30 g per 100 mL water"})
        CHECK(told(none) == std::string("strength-form: --strength \"") + none + "\": a solution of 0.5 to 25 % is wanted");
}

TEST_CASE("a few drops of a binder are measured by drops, and as sure", "[unit]") {
    const SmallShelf shelf;
    shelf.dir().write("bench.yaml", std::string(plain_bench) + "drop: 0.05 mL\nteaspoon: 5 mL\n");
    auto library = shelf.library();
    const auto question = [&](const std::vector<std::string>& binders) {
        PaintTexts texts;
        texts.pigments = {"test-lake: 0.2 g"}, texts.binders = binders, texts.family = "test-family";
        return paint_question(texts, library, []() -> std::string { return {}; });
    };
    const double filling = library.practice().spoon_filling;
    const auto drops = question({"gum-water: 10 drops"});
    const double density = in_grams_per_cubic_centimetre(medium_properties(library.medium("gum-water")).density);
    CHECK(drops.request.medium_spooned == Approx(filling));
    CHECK(drops.request.aim.has_value());
    CHECK(std::get<MediumPerPigment>(*drops.request.aim).value() == Approx(10 * .05 * density / .2));
    // Of two, one weighed: the doubt is shared by mass.
    const auto both = question({"gum-water: 10 drops", "gum-water: 0.3 g"});
    CHECK(both.request.medium_spooned == Approx(filling * .5 * density / (.5 * density + .3)));
    CHECK(question({"gum-water: 0.4 g"}).request.medium_spooned == 0.0);
}
