#include "lakebound/bath/washing.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {
WeightPerVolume grams_a_litre(double x) { return {kilograms_per_cubic_metre(x)}; }
double in_grams_a_litre(const WeightPerVolume& w) { return in_kilograms_per_cubic_metre(w.value); }
const DecantWash kitchen{litres(.45), litres(1.5)};

/// A bed of .45 in 1.5 L under 10.7 g of lake; doubts as a kitchen has them.
WashedLake lake_in(double strength, double u) {
    WashedLake w{};
    w.water.strength = grams_a_litre(strength);
    w.water.standard_uncertainty = kilograms_per_cubic_metre(u);
    w.water.scale = Share::of(.05);
    w.bed = Estimate<Volume>::lognormal(litres(.45), 1.08, {});
    w.filled = Estimate<Volume>::lognormal(litres(1.5), 1.03, {});
    w.lake = Estimate<Mass>::lognormal(grams(10.7), 1.10, {});
    w.stirred_to = Estimate<Share>::exact(Share::of(.10), {});
    return w;
}
const MassFraction one_per_cent = MassFraction::of(.01);
const Estimate<MassDensity> pure = Estimate<MassDensity>::exact(kilograms_per_cubic_metre(0), {});
} // namespace

TEST_CASE("published extraction in portions", "[reference]") {
    // iupac-extraction and expertsmind-extraction (read): 50 mL of water, a solvent that takes up 10 times as much by
    // volume; one portion of 100 mL leaves .04762, five of 20 mL .00032. For a wash: 50 mL of bed, water of 10 times
    // the volume.
    const auto left = [](double portion, unsigned n) {
        return in_grams_a_litre(strength_after(grams_a_litre(1), {}, {millilitres(50), millilitres(50 + 10 * portion)}, n));
    };
    CHECK(left(100, 1) == Approx(.04762).margin(5e-6));
    CHECK(left(20, 5) == Approx(.00032).margin(5e-7));
}

TEST_CASE("worked washing of the kitchen lake", "[reference]") {
    // Worked apart from this code: 31.64 g of salts in 1.5 L, bed .45 L; to 1 % of 10.7 g in the bed, .2378 g/L.
    const auto start = grams_a_litre(31.64 / 1.5);
    const auto target = grams_a_litre(.107 / .45);
    CHECK(in_grams_a_litre(start) == Approx(21.09).margin(.005));
    CHECK(in_grams_a_litre(target) == Approx(.2378).margin(5e-5));
    CHECK(washes_needed(start, {}, kitchen, target) == 4u);
    const double left[] = {9.49, 2.85, .854, .256, .077};
    for (unsigned n = 0; n < 5; ++n)
        CHECK(in_grams(salts_dried_in(strength_after(start, {}, kitchen, n), litres(.45))) == Approx(left[n]).margin(.005));
    const struct {
        double share;
        unsigned washes;
        double litres_of_water;
    } rows[] = {{.2, 3, 3.6}, {.3, 4, 4.2}, {.4, 6, 5.4}, {.5, 8, 6.0}};
    for (const auto& row : rows) {
        const DecantWash wash{litres(1.5 * row.share), litres(1.5)};
        CHECK(washes_needed(start, {}, wash, grams_a_litre(.107 / (1.5 * row.share))) == row.washes);
        CHECK(in_litres(water_for(wash, row.washes)) == Approx(row.litres_of_water));
    }
}

TEST_CASE("published flows of counter-current leaching", "[reference]") {
    // geankoplis-leaching, copper sulphate (read in a copy): 10 000 kg/h of gangue, 1 200 of copper sulphate, 400 of
    // water, .5 kg gangue to 1 kg of solution, 95 % recovered at 8 %: L_N 20 000, y_N .0030, V_1 14 250 kg/h. The
    // copy prints 9 stages, which these flows do not give; they are not held here.
    const auto flows = counter_current_flows({kilograms(10000), kilograms(1200), kilograms(400)}, Share::of(.95),
                                             MassFraction::of(.08), 2.0);
    CHECK(in_kilograms(flows.kept_solution) == Approx(20000));
    CHECK(flows.kept_strength.value() == Approx(.0030));
    CHECK(in_kilograms(flows.strong_solution) == Approx(14250));
    CHECK(in_kilograms(flows.fresh_water) == Approx(32650));
    // Ideal stages, r = 2, 3, 4 and n = 1 to 4; computed apart from this code, three figures.
    const double rows[3][4] = {{.667, .857, .933, .968}, {.750, .923, .975, .992}, {.800, .952, .988, .997}};
    for (int r = 2; r <= 4; ++r)
        for (unsigned n = 1; n <= 4; ++n)
            CHECK(counter_current_recovery(r, n).value() == Approx(rows[r - 2][n - 1]).margin(5.1e-4));
    CHECK(counter_current_recovery(1.0, 3).value() == Approx(.75));
    CHECK(counter_current_recovery(1.0 + 1e-9, 3).value() == Approx(.75).epsilon(1e-8));
    CHECK(counter_current_recovery(.5, 0).value() == Approx(0).margin(1e-12));
    CHECK(counter_current_recovery(.5, 40).value() == Approx(.5).epsilon(1e-9)); // no more than the water can carry
}

TEST_CASE("washes needed are the fewest", "[identity]") {
    for (const double bed : {.1, .45, .9, 1.4})
        for (const double target : {5.0, .5, .05}) {
            const DecantWash wash{litres(bed), litres(1.5)};
            const auto tap = grams_a_litre(.02);
            const auto n = washes_needed(grams_a_litre(20), tap, wash, grams_a_litre(target));
            REQUIRE(n);
            CHECK(in_grams_a_litre(strength_after(grams_a_litre(20), tap, wash, *n)) <= target * (1 + 1e-9));
            if (*n > 0) CHECK(in_grams_a_litre(strength_after(grams_a_litre(20), tap, wash, *n - 1)) > target);
        }
    CHECK(washes_needed(grams_a_litre(1), {}, kitchen, grams_a_litre(2)) == 0u);
    CHECK_FALSE(washes_needed(grams_a_litre(1), grams_a_litre(.3), kitchen, grams_a_litre(.2)));
    CHECK(washes_needed(grams_a_litre(1), {}, kitchen, grams_a_litre(.09)) == 2u); // .3^2 exactly
}

TEST_CASE("more washes never leave more salt", "[identity]") {
    for (const double bed : {.1, .45, 1.4})
        for (const double strength : {.05, .5, 5.0}) {
            auto lake = lake_in(strength, .02);
            lake.bed = Estimate<Volume>::lognormal(litres(bed), 1.3, {}); // so unsure that its spread outgrows its median
            double salts = 1e9, chance = 0;
            for (unsigned n = 0; n < 12; ++n) {
                const double left = in_grams_a_litre(
                    strength_after(grams_a_litre(strength), grams_a_litre(.01), {litres(bed), litres(1.5)}, n));
                CHECK(left <= salts);
                salts = left;
                const double now = chance_of_clean(lake, one_per_cent, n).value();
                CHECK(now >= chance);
                chance = now;
            }
        }
}

TEST_CASE("doubling bath and lake changes no strength and no chance", "[identity]") {
    auto one = lake_in(1.2, .05), two = one;
    two.bed = Estimate<Volume>::lognormal(litres(.9), 1.08, {});
    two.filled = Estimate<Volume>::lognormal(litres(3), 1.03, {});
    two.lake = Estimate<Mass>::lognormal(grams(21.4), 1.10, {});
    for (unsigned n = 0; n < 4; ++n)
        CHECK(chance_of_clean(one, one_per_cent, n).value() == Approx(chance_of_clean(two, one_per_cent, n).value()).epsilon(1e-9));
    CHECK(wash_outlook(one, one_per_cent, pure).left.value() == Approx(wash_outlook(two, one_per_cent, pure).left.value()));
}

TEST_CASE("where the washing stands", "[unit]") {
    // 2 g/L: .9 g in 10.7 g, 8.4 %. Two ideal washes leave .76 %, three .23 %.
    const auto dirty = wash_outlook(lake_in(2.0, .03), one_per_cent, pure);
    CHECK(dirty.left.value() == Approx(.0841).margin(5e-4));
    CHECK(dirty.left_low < dirty.left);
    CHECK(dirty.left < dirty.left_high);
    CHECK(dirty.clean.value() < .001);
    CHECK(dirty.likely == 2u);
    CHECK(dirty.sure == 3u);
    CHECK(in_litres(dirty.water_for_sure) == Approx(3 * 1.05));
    REQUIRE(dirty.clean_after_one);
    CHECK(dirty.clean_after_one->value() < .1);
    // ln of left is normal but for the readings: +- 1.645 times the root of ln(1.08)^2 + ln(1.1)^2 + .05^2 + (.03/2)^2.
    const double sd = std::sqrt(std::pow(std::log(1.08), 2) + std::pow(std::log(1.1), 2) + .0025 + .000225);
    CHECK(std::log(dirty.left_high.value() / dirty.left.value()) == Approx(1.645 * sd).epsilon(.03));
    // The course: as the ideal washes have it, its band and its chance along.
    REQUIRE(dirty.course.size() == 5);
    for (std::size_t n = 0; n < dirty.course.size(); ++n) {
        const auto& at = dirty.course[n];
        CHECK(at.washes == n);
        CHECK(at.left.value() == Approx(.0841 * std::pow(.3, n)).epsilon(.006));
        CHECK(at.low < at.left);
        CHECK(at.left < at.high);
        CHECK(at.clean.value() == Approx(chance_of_clean(lake_in(2.0, .03), one_per_cent, static_cast<unsigned>(n)).value()));
        // Nine in ten: chances of 5 and 95 % of the band's ends.
        CHECK(chance_of_clean(lake_in(2.0, .03), at.high, static_cast<unsigned>(n)).value() == Approx(.95).margin(.002));
    }
    // .238 g/L is 1 %: an even chance now, one wash more for nine in ten.
    const auto edge = wash_outlook(lake_in(.2378, .006), one_per_cent, pure);
    CHECK(edge.clean.value() == Approx(.5).margin(.02));
    CHECK(edge.sure == 1u);
    // Clean: nothing more, and the two readings' doubt bounds it.
    const auto clean = wash_outlook(lake_in(0, .02), one_per_cent, pure);
    CHECK(clean.sure == 0u);
    CHECK(clean.left.value() == Approx(0).margin(1e-12));
    CHECK(clean.left_low.value() == Approx(0).margin(1e-12));
    CHECK(clean.left_high.value() == Approx(1.645 * .02 * .45 / 10.7).epsilon(.05));
    CHECK_FALSE(clean.clean_after_one);
    // A bed that cannot be thinned in 20 washes.
    auto full = lake_in(20, .3);
    full.filled = Estimate<Volume>::lognormal(litres(.5), 1.03, {});
    CHECK_FALSE(wash_outlook(full, one_per_cent, pure).sure);
    CHECK(wash_outlook(full, one_per_cent, pure).course.size() == 7);
}

TEST_CASE("a drained cake keeps less than its bed", "[unit]") {
    auto lake = lake_in(2.0, .03);
    lake.held = Estimate<SpecificVolume>::lognormal(millilitres_per_gram(30 / 10.7), 1.2, {});
    const auto drained = wash_outlook(lake, one_per_cent, Estimate<MassDensity>::exact(kilograms_per_cubic_metre(.3), {}));
    CHECK(drained.left.value() == Approx(2.0 * .030 / 10.7).epsilon(1e-9));
    CHECK(drained.sure == 0u);
    CHECK(drained.from_wash_water.value() == Approx(.3 * .030 / 10.7).epsilon(1e-9));
    // Hard tap water, .3 g/L, that dries in with the whole bed is a per cent by itself.
    CHECK(wash_outlook(lake_in(2.0, .03), one_per_cent, Estimate<MassDensity>::exact(kilograms_per_cubic_metre(.3), {}))
              .from_wash_water.value() == Approx(.0126).margin(1e-4));
}

TEST_CASE("liquid of a drained cake", "[unit]") {
    // By hand: 100 g of cake at 80 % have 80 mL of water and 20 g that lie in air with 17 % more: 80 / (20 / .83) = 3.32.
    CHECK(in_millilitres_per_gram(held_by_drained_cake(MassFraction::of(.8), MassFraction::of(.17))) == Approx(3.32 / .9982).epsilon(1e-4));
    CHECK(in_millilitres_per_gram(held_by_drained_cake(MassFraction::of(0), MassFraction::of(.17))) == Approx(0).margin(1e-12));
    CHECK_THROWS_AS(held_by_drained_cake(MassFraction::of(1), MassFraction::of(.17)), DomainError);
    CHECK_THROWS_AS(held_by_drained_cake(MassFraction::of(.8), MassFraction::of(1)), DomainError);
    // Of a drained cake no chance hangs on how much lake it is, for the cake holds so much to a gram.
    auto one = lake_in(6.0, .05), two = one;
    one.held = two.held = Estimate<SpecificVolume>::lognormal(millilitres_per_gram(3.3), 1.4, {});
    two.lake = Estimate<Mass>::lognormal(grams(40), 1.8, {});
    CHECK(chance_of_clean(one, one_per_cent, 1).value() == Approx(chance_of_clean(two, one_per_cent, 1).value()).epsilon(1e-12));
    // By hand, n = 0: 6 g/L x 3.3 mL/g = 1.98 %, two readings sure: Phi(ln(1/1.98)/ln 1.4) but for the pen's .05 of scale.
    one.water.standard_uncertainty = kilograms_per_cubic_metre(0);
    CHECK(chance_of_clean(one, one_per_cent, 0).value() ==
          Approx(standard_normal_cdf(std::log(1 / 1.98) / std::hypot(std::log(1.4), one.water.scale.value()))).margin(1e-3));
}

TEST_CASE("what a wash really kept, from two readings", "[unit]") {
    const auto lake = lake_in(2.0, .03);
    const auto kept = kept_by_reading(lake_in(6, .05).water, lake_in(3, .03).water, lake.bed, lake.filled);
    CHECK(kept.observed == Approx(.5));
    CHECK(kept.expected == Approx(.3));
    CHECK(kept.log_standard_uncertainty ==
          Approx(std::sqrt(std::pow(.05 / 6, 2) + 1e-4 + std::pow(std::log(1.08), 2) + std::pow(std::log(1.03), 2))).epsilon(1e-6));
    CHECK_THROWS_AS(kept_by_reading(lake_in(0, .05).water, lake_in(3, .03).water, lake.bed, lake.filled), DomainError);
}

TEST_CASE("a chance of clean is as often true", "[identity]") {
    // Lakes whose truth is drawn as the doubts say about what was read; sorted by the chance stated.
    RandomEngine engine(8);
    double stated = 0, true_ones = 0;
    int count = 0;
    const auto normal = [&] { return standard_normal(engine); };
    for (int i = 0; i < 400; ++i) {
        const double read = .05 + 1.5 * uniform(engine);
        const auto lake = lake_in(read, .03);
        const unsigned n = static_cast<unsigned>(3 * uniform(engine));
        const double chance = chance_of_clean(lake, one_per_cent, n).value();
        for (int j = 0; j < 25; ++j) {
            const double c = std::max(0.0, read + .03 * normal()) * std::exp(.05 * normal());
            const double bed = .45 * std::exp(std::log(1.08) * normal()), filled = 1.5 * std::exp(std::log(1.03) * normal());
            const double f = bed / filled * std::exp(.10 * normal()), mass = 10.7 * std::exp(std::log(1.10) * normal());
            stated += chance;
            true_ones += c * std::pow(f, n) * bed / mass <= .01 ? 1 : 0;
            ++count;
        }
    }
    CHECK(true_ones / count == Approx(stated / count).margin(.012));
}

TEST_CASE("washes that cannot be are refused", "[errors]") {
    CHECK_THROWS_AS(kept_by_a_wash({litres(1.5), litres(1.5)}), DomainError);
    CHECK_THROWS_AS(kept_by_a_wash({litres(0), litres(1.5)}), DomainError);
    CHECK_THROWS_AS(strength_after(grams_a_litre(-1), {}, kitchen, 1), DomainError);
    CHECK_THROWS_AS(strength_after(grams_a_litre(1), grams_a_litre(-1), kitchen, 1), DomainError);
    CHECK_THROWS_AS(salts_dried_in(grams_a_litre(1), litres(-1)), DomainError);
    CHECK_THROWS_AS(chance_of_clean(lake_in(1, .1), MassFraction::of(0), 1), DomainError);
    auto nothing = lake_in(1, .1);
    nothing.lake = Estimate<Mass>::exact(grams(0), {});
    CHECK_THROWS_AS(wash_outlook(nothing, one_per_cent, pure), DomainError);
    auto dry = lake_in(1, .1);
    dry.held = Estimate<SpecificVolume>::exact(millilitres_per_gram(0), {});
    CHECK_THROWS_AS(wash_outlook(dry, one_per_cent, pure), DomainError);
    const WashFeed feed{kilograms(1), kilograms(.1), kilograms(.1)};
    CHECK_THROWS_AS(counter_current_flows(feed, Share::of(1), MassFraction::of(.1), 1), DomainError);
    CHECK_THROWS_AS(counter_current_flows({kilograms(1), kilograms(0), kilograms(1)}, Share::of(.9), MassFraction::of(.1), 1), DomainError);
    CHECK_THROWS_AS(counter_current_flows({kilograms(1), kilograms(1), kilograms(-.1)}, Share::of(.9), MassFraction::of(.1), 1), DomainError);
    CHECK_THROWS_AS(counter_current_flows(feed, Share::of(.9), MassFraction::of(0), 1), DomainError);
    CHECK_THROWS_AS(counter_current_flows(feed, Share::of(.9), MassFraction::of(.1), 0), DomainError);
    CHECK_THROWS_AS(counter_current_flows(feed, Share::of(.9), MassFraction::of(.95), .05), DomainError); // no water left
    CHECK_THROWS_AS(counter_current_flows({kilograms(0), kilograms(1), kilograms(1)}, Share::of(.9), MassFraction::of(.1), 1),
                    DomainError);
    CHECK_THROWS_AS(counter_current_recovery(0, 2), DomainError);
}

TEST_CASE("a lake is likely clean at one in two, and surely at nine in ten", "[unit]") {
    const auto outlook = [](double strength) { return wash_outlook(lake_in(strength, .006), one_per_cent, pure); };
    // The strength at which the chance without a wash falls to p, halved down to the last digits.
    const auto strength_at = [](double p) {
        double low = .05, high = 2;
        for (int i = 0; i < 45; ++i) {
            const double middle = .5 * (low + high);
            (chance_of_clean(lake_in(middle, .006), one_per_cent, 0).value() >= p ? low : high) = middle;
        }
        return low;
    };
    const double surely = strength_at(.9), likely = strength_at(.5);
    CHECK(surely < likely);
    CHECK(*outlook(surely).sure == 0);
    CHECK_FALSE(outlook(surely).clean_after_one);
    CHECK(*outlook(surely + 1e-9).sure == 1);
    CHECK(outlook(surely + 1e-9).clean_after_one->value() == Approx(chance_of_clean(lake_in(surely, .006), one_per_cent, 1).value()));
    CHECK(*outlook(likely).likely == 0);
    CHECK(*outlook(likely + 1e-9).likely == 1);
}
