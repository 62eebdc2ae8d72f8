// How far apart two figures of a file may lie before they contradict each other, from both sides, and what is assumed of what is
// typed without its doubt.

#include <catch2/catch.hpp>

#include <chrono>
#include <cmath>
#include <string>

#include "faults_of.hpp"
#include "lakebound/shelf/entry_file.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/entry_typed.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/typed_bath.hpp"
#include "small_shelf.hpp"
#include "support/bench_practice.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

struct Desk {
    SmallShelf shelf;
    Library library = shelf.library();
    Jar jar = library.jar(shelf.dir().write("jars/jar.yaml", plain_jar));
    EntryWords words{{"test-family"}, {}};

    std::string jar_told(const std::string& lines) {
        return summary(faults_of([&] { (void)read_jar_file(shelf.dir().write("jars/own.yaml", plain_jar + lines), library); }));
    }
    std::string recipe_told(const std::string& first, const std::string& second) {
        const auto text = changed(changed(plain_recipe, "share: 70 % w/w", "share: " + first), "share: 30 % w/w", "share: " + second);
        return summary(faults_of([&] { (void)library.recipe(shelf.dir().write("recipes/own.yaml", text), &jar); }));
    }
    ReadEntry entry(const std::string& what, const std::string& lines) {
        return read_entry(load_document("e.yaml", "kind: entry\njar: jar\ndate: 2026-03-02\nwhat: " + what + "\n" + lines), "jar/one", jar, library, words);
    }
    std::string entry_told(const std::string& what, const std::string& lines) {
        return summary(faults_of([&] { (void)entry(what, lines); }));
    }

private:
    static Jar read_jar_file(const std::string& path, Library& library) { return library.jar(path); }
};

std::string settling_told(const std::string& second, const std::string& third) {
    return summary(faults_of([&] {
        (void)read_settling_test(load_document("s.yaml", "kind: settling test\nname: S\nblanket:\n  - {time: 0 h, height: 100 mm}\n  - {time: " + second +
                                                             ", height: 62 mm}\n  - {time: " + third + ", height: 48 mm}\n"),
                                 "s");
    }));
}

std::string screens_told(const std::string& second) {
    return summary(faults_of([&] {
        (void)read_sieve_test(load_document("t.yaml", "kind: sieve test\nname: T\nretained:\n  - {screen: 100 um, mass: 1 g}\n  - {screen: " + second + ", mass: 1 g}\npan: 1 g\n"), "t");
    }));
}

} // namespace

TEST_CASE("a jar gives what it had, to a millionth", "[errors]") {
    Desk desk; // of 24 g
    const auto drawn = [&](const std::string& mass) { return desk.jar_told("drawn:\n  - {date: 2026-03-02, mass: 20 g, for: a}\n  - {date: 2026-03-03, mass: " + mass + ", for: b}\n"); };
    CHECK(drawn("4.00001 g").empty());
    CHECK(drawn("4.00003 g") == "jar-overdrawn 7:30");
}

TEST_CASE("shares of a recipe make up the whole, to a thousandth", "[errors]") {
    Desk desk;
    CHECK(desk.recipe_told("70 % w/w", "30.09 % w/w").empty());
    CHECK(desk.recipe_told("70 % w/w", "29.91 % w/w").empty());
    CHECK(desk.recipe_told("70 % w/w", "30.11 % w/w") == "share-sum 4:1");
    CHECK(desk.recipe_told("70 % w/w", "29.89 % w/w") == "share-sum 4:1");
}

TEST_CASE("heights of a blanket are read at equal times, to a fiftieth", "[errors]") {
    CHECK(settling_told("2 h", "4.039 h").empty());
    CHECK(settling_told("2 h", "3.961 h").empty());
    CHECK(settling_told("2 h", "4.041 h") == "blanket-readings 6:5");
    CHECK(settling_told("2 h", "3.959 h") == "blanket-readings 6:5");
    CHECK(settling_told("0 h", "2 h") == "blanket-readings 6:5");
    CHECK(settling_told("0.001 s", "0.002 s").empty()); // however short
    const auto read = read_settling_test(load_document("s.yaml", "kind: settling test\nname: S\nblanket:\n  - {time: 1 h, height: 100 mm}\n  - {time: 3 h, height: 62 mm}\n"
                                                                 "  - {time: 5.02 h, height: 48 mm}\n"), "s").record;
    CHECK(in_hours(read.blanket->interval) == Approx(2.01).epsilon(1e-9)); // the mean of the two
    CHECK(in_millimetres(read.blanket->second) == Approx(62));
}

TEST_CASE("two screens are one where their apertures agree to a billionth", "[errors]") {
    CHECK(screens_told("100.00000005 um") == "screen-twice 5:14");
    CHECK(screens_told("99.99999995 um") == "screen-twice 5:14");
    CHECK(screens_told("100.0000002 um") == "screen-order 5:14");
    CHECK(screens_told("99.9999998 um").empty());
}

TEST_CASE("the dry binder of a batch is that of its medium, to half as much again", "[errors]") {
    Desk desk; // gum 1 to water 2, of the gum 87 % at 1.5 g/cm3: 30 g hold 5.8 mL
    const auto batch = [&](const std::string& binder, const std::string& more = "") {
        return desk.entry_told("batch", "family: test-family\npigment: 12 g\ndry_binder: " + binder + "\nk_spread: 0.02\nmedium: gum-water\nmedium_mass: 30 g\n" + more);
    };
    CHECK(batch("8.69 mL").empty());
    CHECK(batch("3.87 mL").empty());
    CHECK(batch("8.71 mL") == "entry-contradicts 7:13");
    CHECK(batch("3.86 mL") == "entry-contradicts 7:13");
    CHECK(batch("8.71 mL", "blend: yes\n").empty()); // others brought binder too
}

TEST_CASE("a rub-out is kept as sure as its weighings", "[reference]") {
    Desk desk;
    const auto spread = [&](const char* lines) { return std::get<RubOutEntry>(desk.entry("rub-out", lines).entry.what).reading_spread; };
    // A net mass is two roundings of .01 g: .01 / sqrt(6) of 2 g and of 1.3 g.
    const double u = .01 / std::sqrt(6.0);
    const double alone = spread("pigment: 2.00 g\noil: 1.30 g\nscale: 0.01 g\n");
    CHECK(alone == Approx(std::hypot(u / 2, u / 1.3)).epsilon(1e-3));
    CHECK(spread("pigment: 2.0 g\noil: 1.3 g\nscale: 0.1 g\n") == Approx(10 * alone).epsilon(5e-3));
}

TEST_CASE("a day is one since 1900, and tomorrow at most", "[errors]") {
    Desk desk;
    const auto since = [&](const std::string& day) { return desk.jar_told("since: " + day + "\n"); };
    CHECK(since("1899-12-31") == "date-form 5:8");
    CHECK(since("1900-01-01").empty());
    const auto today = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
    CHECK(since(iso_text(today + std::chrono::days(1))).empty());
    CHECK(since(iso_text(today + std::chrono::days(3))) == "date-form 5:8");
}

TEST_CASE("the smallest figures of a test are kept with five digits", "[unit]") {
    const TempDir folder;
    EntryContext context{"weld", "2026-05-02", {}, {}, bare_bench()};
    context.bench.scales = {{"pocket", grams(.01), {}, {}}};
    const auto path = folder.write("s.yaml", "kind: settling test\nname: S\ngrains: {size: 0.0011 um, depth: 1 mm, time: 0.001 s}\n");
    CHECK(typed_settling(context, path).text.find("{size: 0.0011000 um, depth: 1.0000 mm, time: 0.0010000 s}") != std::string::npos);
    const auto large = folder.write("l.yaml", "kind: settling test\nname: S\ngrains: {size: 4999.96 um, depth: 4.99996 m, time: 123456.7 s}\n");
    CHECK(typed_settling(context, large).text.find("{size: 5000.0 um, depth: 5000.0 mm, time: 123457 s}") != std::string::npos);
}

TEST_CASE("a setting of a bath is its plan and the shelf's habits, figure by figure", "[unit]") {
    Library library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}});
    const WashHabits washing = library.wash_habits();
    const LakingHabits laking = library.laking_habits();
    const PowderHabits powder = library.powder_habits();
    BathTexts texts;
    texts.alum = "potash-alum, 50 g", texts.alkali = "soda-ash", texts.vessel = "7 L";
    BathWish wish = bath_wish(texts, library);
    const BathPlan plan = plan_bath(wish, laking, washing);
    Bench bench;
    bench.scales = {{"scale", grams(.1), {}, {}}, {"fine", grams(.01), {}, {}}};
    const BathSetting s = bath_setting(plan, laking, washing, powder, bench);
    const auto close = [](double x) { return Approx(x).epsilon(1e-12); };
    CHECK(in_grams(s.bath.mass) == close(50));
    CHECK(s.hydroxides.mean == close(usual_hydroxides(wish.aluminium, laking).mean));
    CHECK(s.hydroxides.standard_uncertainty == close(laking.hydroxides.standard_uncertainty().value()));
    CHECK(s.stop.low == laking.stop.low);
    CHECK(s.stop.high == laking.stop.high);
    CHECK(in_litres(s.dye_liquor) == close(in_litres(plan.liquor)));
    CHECK(in_litres(s.headspace) == close(7 - in_litres(plan.liquid)));
    CHECK(in_degrees_celsius(s.warmth) == close(in_degrees_celsius(laking.laying_warmth.value())));
    CHECK(s.foam_fill.value() == close(laking.foam_fill.value().value()));
    CHECK(in_litres(s.bed.value()) == close(in_litres(plan.wash.bed)));
    CHECK(s.bed.relative_uncertainty() == close(std::log(1 + washing.bed_read_to.value().value())));
    CHECK(in_litres(s.filled.value()) == close(in_litres(plan.wash.filled)));
    CHECK(s.filled.relative_uncertainty() == close(std::log(1 + washing.filled_read_to.value().value())));
    CHECK(in_microsiemens_per_centimetre(s.pen.step) == close(1));
    CHECK(s.pen.compensation == Compensation::to_25_degrees);
    CHECK(in_grams(s.scale.step) == close(.1));
    CHECK(s.planned_washes == plan.washes);
    CHECK(s.height_read_to == powder.height_read_to.value());
    CHECK(s.decant_within == powder.decant_within.value());
    // Salts are what is left where the lake is laid: potassium of the alum, sodium of the soda.
    CHECK(s.salts.ions[Ion::sodium] / s.salts.ions[Ion::potassium] == close(s.hydroxides.mean));
    CHECK(s.salts.ions[Ion::sulphate] / s.salts.ions[Ion::potassium] == close(2 - .5 * (3 - s.hydroxides.mean)));
    // A maker's own hydroxides, and no gas, for which the good vessel leaves room.
    wish.hydroxides = HydroxideBelief{2.8, .05};
    const BathPlan own = plan_bath(wish, laking, washing);
    CHECK(bath_setting(own, laking, washing, powder, bench).hydroxides.mean == close(2.8));
    texts.alkali = "ammonia-10", texts.vessel.reset();
    if (library.find(ShelfKind::salt, "ammonia-10")) {
        const BathPlan quiet = plan_bath(bath_wish(texts, library), laking, washing);
        REQUIRE_FALSE(quiet.headspace);
        CHECK(in_litres(bath_setting(quiet, laking, washing, powder, bench).headspace) == close(in_litres(quiet.vessel_good - quiet.liquid)));
    }
    // What is weighed without its doubt is good to a hundredth, a moisture to a tenth of itself.
    texts.alkali = "soda-ash", texts.weighed = "10.4 g", texts.moisture = "14 % w/w", texts.water_ph = "6.8, strip";
    const BathJar jar = bath_jar(texts, plan, bath_standing({}, s), washing);
    CHECK(jar.net_mass.relative_uncertainty() == close(.01));
    CHECK(jar.moisture.relative_uncertainty() == close(.1));
    CHECK(jar.ph->standard_uncertainty().value() == close(washing.ph_read_to.strip.value()));
}
