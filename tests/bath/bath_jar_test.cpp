#include "lakebound/bath/bath_jar.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "usual_habits.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
BathEnd kitchen_end() {
    BathEnd end{.lake = usual_lake(usual_wash_habits()), .poured = {}, .laid_with_chalk = false, .chalk = {}, .washed = {},
                .dried = {}, .ph = {}, .colour = {}, .weighed = {}, .moisture = {}};
    end.poured = {{"potassium alum dodecahydrate", grams(50)}, {"soda ash", grams(14)}};
    return end;
}
Estimate<Ph> ph_of_lake(double ph, double u) { return Estimate<Ph>::normal(Ph::of(ph), Ph::Difference::of(u), {}); }
bool says(const BathJar& jar, JarRemark remark) {
    return std::find(jar.remarks.begin(), jar.remarks.end(), remark) != jar.remarks.end();
}
WashOutlook washed(double left, double high, double from_water = 0) {
    WashOutlook w{};
    w.left = MassFraction::of(left);
    w.left_high = MassFraction::of(high);
    w.from_wash_water = MassFraction::of(from_water);
    return w;
}
} // namespace

TEST_CASE("a jar of which nothing was read stands on the bath alone", "[unit]") {
    const auto jar = jar_from(kitchen_end(), usual_wash_habits());
    CHECK(jar.provenance == "computed from the bath: 50.0 g potassium alum dodecahydrate, 14.0 g soda ash");
    CHECK(jar.net_mass.provenance().origin == Origin::computed);
    CHECK(jar.net_mass.provenance().source == jar.provenance);
    CHECK(jar.density.provenance().origin == Origin::computed);
    CHECK(jar.state == MoistureState::as_weighed);
    CHECK(jar.net_mass.value() == jar.expected.mass);
    CHECK(in_grams_per_cubic_centimetre(jar.density.value()) == Approx(1.75).margin(.1));
    CHECK(jar.moisture.value().value() == Approx(.17));
    CHECK_FALSE(jar.ph);
    CHECK_FALSE(jar.benzoate_dead);
    CHECK(jar.remarks == std::vector{JarRemark::salts_unread, JarRemark::ph_unread, JarRemark::moisture_unweighed});
}

TEST_CASE("what was read takes the place of what was expected", "[unit]") {
    auto end = kitchen_end();
    end.weighed = Estimate<Mass>::normal(grams(10.7), grams(.06), {Origin::measured, {}, false});
    end.moisture = Estimate<MassFraction>::normal(MassFraction::of(.12), MassFraction::Difference::of(.01), {Origin::measured, {}, false});
    end.washed = washed(.004, .006);
    end.ph = ph_of_lake(6.5, .3);
    const auto alone = jar_from(kitchen_end(), usual_wash_habits());
    const auto jar = jar_from(end, usual_wash_habits());
    CHECK(in_grams(jar.net_mass.value()) == Approx(10.7));
    CHECK(jar.net_mass.provenance().origin == Origin::measured);
    CHECK(jar.moisture.value().value() == Approx(.12));
    CHECK(jar.salts.value().value() == Approx(.004));
    CHECK(jar.salts.relative_uncertainty() == Approx(std::log(1.5) / 1.645).epsilon(1e-9));
    CHECK(jar.density.value() > alone.density.value()); // drier
    CHECK(jar.density.standard_uncertainty() < .75 * alone.density.standard_uncertainty());
    CHECK(jar.remarks == std::vector{JarRemark::benzoate_dead, JarRemark::sorbate_dead}); // 5 % active: to pH 5.5 and 6.0
    REQUIRE(jar.sorbate_dead);
    CHECK(jar.sorbate_dead->value() < jar.benzoate_dead->value());
}

TEST_CASE("salts, alkali and water that paint does not bear are said", "[unit]") {
    const auto with = [](auto&& change) {
        auto end = kitchen_end();
        end.washed = washed(.002, .004);
        end.ph = ph_of_lake(5.0, .2);
        end.moisture = Estimate<MassFraction>::normal(MassFraction::of(.15), MassFraction::Difference::of(.01), {});
        change(end);
        return jar_from(end, usual_wash_habits());
    };
    CHECK(with([](BathEnd&) {}).remarks.empty());
    CHECK(says(with([](BathEnd& e) { e.washed = washed(.03, .04); }), JarRemark::salts_for_paint));
    CHECK_FALSE(says(with([](BathEnd& e) { e.washed = washed(.03, .04); }), JarRemark::salts_for_oil));
    CHECK(says(with([](BathEnd& e) { e.washed = washed(.007, .009); }), JarRemark::salts_for_oil));
    CHECK(says(with([](BathEnd& e) { e.washed = washed(.002, .004, .006); }), JarRemark::hard_wash_water));
    CHECK(says(with([](BathEnd& e) { e.ph = ph_of_lake(8.5, .2); }), JarRemark::alkaline));
    CHECK(says(with([](BathEnd& e) { e.ph = ph_of_lake(5.7, .2); }), JarRemark::benzoate_dead));
    CHECK_FALSE(says(with([](BathEnd& e) { e.ph = ph_of_lake(5.7, .2); }), JarRemark::sorbate_dead));
    CHECK(says(with([](BathEnd& e) { e.weighed = Estimate<Mass>::exact(grams(5), {}); }), JarRemark::less_than_expected));
    CHECK(says(with([](BathEnd& e) { e.weighed = Estimate<Mass>::exact(grams(25), {}); }), JarRemark::more_than_expected));
    CHECK(says(with([](BathEnd& e) { e.dried.emplace(); }), JarRemark::still_wet));
    CHECK(says(with([](BathEnd& e) { e.dried.emplace().state = DryingState::stuck; }), JarRemark::stuck));
    CHECK_FALSE(says(with([](BathEnd& e) { e.dried.emplace().state = DryingState::constant; }), JarRemark::still_wet));
    // Clean within the pen's doubt: what may still be there is halved and doubted as wide.
    const auto clean = with([](BathEnd& e) { e.washed = washed(0, .002); });
    CHECK(clean.salts.value().value() == Approx(.001));
    // So it is where no doubt is told beside what is left.
    CHECK(with([](BathEnd& e) { e.washed = washed(.004, .004); }).salts.value().value() == Approx(.002));
    // Falling, but as likely as not dry: no word of water.
    const auto falling = [&](double dry) {
        return says(with([&](BathEnd& e) { e.dried.emplace().dry_now = Probability::of(dry); }), JarRemark::still_wet);
    };
    CHECK(falling(.499));
    CHECK_FALSE(falling(.5));
}

TEST_CASE("a chalk-laid lake becomes a jar of its own kind", "[unit]") {
    auto end = kitchen_end();
    end.laid_with_chalk = true;
    CHECK_THROWS_AS(jar_from(end, usual_wash_habits()), DomainError);
    ChalkLake laid{};
    laid.chalk_left = grams(3.67);
    laid.gypsum = grams(10.9);
    laid.gypsum_dissolved = grams(2.4);
    laid.alumina = grams(3.29);
    end.chalk = laid;
    const auto jar = jar_from(end, usual_wash_habits());
    CHECK(says(jar, JarRemark::chalk_laid));
    const auto parts = chalk_lake_parts(laid, grams(1.5), MassFraction::of(.17), MassFraction::of(.02),
                                        {grams_per_cubic_centimetre(1.5), grams_per_cubic_centimetre(2.68)});
    CHECK(in_grams(jar.net_mass.value()) == Approx(.9 * in_grams(parts.whole)));
    CHECK(in_grams_per_cubic_centimetre(jar.density.value()) == Approx(in_grams_per_cubic_centimetre(parts.density)));
    CHECK(jar.expected.mass_kg.low < in_kilograms(jar.net_mass.value()));
}

TEST_CASE("doubling the bath doubles the jar and changes no density", "[identity]") {
    auto one = kitchen_end(), two = one;
    two.lake.aluminium = sure(2.0 * one.lake.aluminium.value());
    two.lake.dye = Estimate<Mass>::lognormal(grams(3), std::exp(.5), {});
    const auto a = jar_from(one, usual_wash_habits()), b = jar_from(two, usual_wash_habits());
    CHECK(in_grams(b.net_mass.value()) == Approx(2 * in_grams(a.net_mass.value())).epsilon(1e-9));
    CHECK(in_grams_per_cubic_centimetre(b.density.value()) == Approx(in_grams_per_cubic_centimetre(a.density.value())).epsilon(1e-9));
}

TEST_CASE("a figure just at its limit draws no remark, one just beyond it does", "[unit]") {
    const auto habits = usual_wash_habits();
    const auto with = [&](double left, double from_water) {
        auto end = kitchen_end();
        end.washed = washed(left, 2 * left, from_water);
        return jar_from(end, habits);
    };
    CHECK_FALSE(says(with(.005, 0), JarRemark::salts_for_oil));
    CHECK(says(with(.00501, 0), JarRemark::salts_for_oil));
    CHECK(says(with(.01, 0), JarRemark::salts_for_oil));
    CHECK_FALSE(says(with(.01, 0), JarRemark::salts_for_paint));
    CHECK(says(with(.0101, 0), JarRemark::salts_for_paint));
    CHECK_FALSE(says(with(.0101, 0), JarRemark::salts_for_oil));
    CHECK_FALSE(says(with(.001, .005), JarRemark::hard_wash_water));
    CHECK(says(with(.001, .00501), JarRemark::hard_wash_water));
    auto end = kitchen_end();
    end.ph = ph_of_lake(8.0, .1);
    CHECK_FALSE(says(jar_from(end, habits), JarRemark::alkaline));
    end.ph = ph_of_lake(8.01, .1);
    CHECK(says(jar_from(end, habits), JarRemark::alkaline));
    DryingOutlook dried;
    dried.dry_now = Probability::of(.5);
    end.dried = dried;
    CHECK_FALSE(says(jar_from(end, habits), JarRemark::still_wet));
    end.dried->dry_now = Probability::of(.499);
    CHECK(says(jar_from(end, habits), JarRemark::still_wet));
    end.dried->state = DryingState::constant;
    CHECK_FALSE(says(jar_from(end, habits), JarRemark::still_wet));
    end.dried->state = DryingState::stuck;
    CHECK(says(jar_from(end, habits), JarRemark::stuck));
    // What is left as read is its median, its high end 1.645 standard deviations of ln above.
    const auto read = with(.004, 0).salts;
    CHECK(read.distribution().location == Approx(.004));
    CHECK(read.distribution().scale == Approx(std::log(2.0) / 1.645));
    // Clean within the doubt: from nothing to the high end, which is a millionth at least.
    auto clean = kitchen_end();
    clean.washed = washed(1e-6, .003);
    CHECK(jar_from(clean, habits).salts.value().value() == Approx(.0015));
    clean.washed = washed(0, 0);
    CHECK(jar_from(clean, habits).salts.value().value() == Approx(5e-7));
}
