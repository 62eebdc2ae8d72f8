// Figures of the bath to their last digit, by the formulas of the headers written out, and the limits between their words.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

#include "kitchen_bath.hpp"
#include "lakebound/bath/bath_jar.hpp"
#include "lakebound/bath/colour_left.hpp"
#include "lakebound/bath/gas.hpp"
#include "lakebound/estimate/input.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

Approx digit(double x) { return Approx(x).epsilon(1e-11).margin(1e-16); }
constexpr double nine_tenths = 1.6448536269514722; // standard deviations
template <class Q> Estimate<Q> fixed(const Q& value) { return Estimate<Q>::exact(value, {}); }
double below(double z) { return .5 * std::erfc(-z / std::sqrt(2.0)); }

double davies(double charge, double strength) {
    const double root = std::sqrt(strength);
    return std::pow(10, -.509 * charge * charge * (root / (1 + root) - .3 * strength));
}

const Instrument<Mass> one_gram_in_ten{grams(.1), grams(.0287)};
DryingHabits drying_of(double repeats_to = .002) {
    DryingHabits h = usual_wash_habits().drying;
    h.weighing_repeats_to = fixed(Share::of(repeats_to));
    return h;
}

} // namespace

TEST_CASE("a drained cake dries as it usually does, and nine in ten do between", "[reference]") {
    for (const auto& [water, doubt, tau, factor, within] :
         {std::tuple{.8, .06, 36.0, 2.0, .01}, {.7, .1, 20.0, 1.3, .02}, {.9, .0, 48.0, 1.5, .005}, {.6, .05, 30.0, 1.000001, .1}}) {
        DryingHabits h{};
        h.drained_water = Estimate<MassFraction>::normal(MassFraction::of(water), MassFraction::Difference::of(doubt), {});
        h.usual_tau = Estimate<Time>::lognormal(hours(tau), factor, {});
        h.dry_within = fixed(Share::of(within));
        const double falls = std::log(water / (1 - water) / within);
        const double spread = std::hypot(std::log(factor), doubt / water / (1 - water) / falls);
        const auto found = usual_drying(h);
        CHECK(in_hours(found.likely) == digit(tau * falls));
        CHECK(in_hours(found.early) == digit(tau * falls * std::exp(-nine_tenths * spread)));
        CHECK(in_hours(found.late) == digit(tau * falls * std::exp(nine_tenths * spread)));
    }
}

TEST_CASE("colour that is left, by the even partition", "[reference]") {
    for (const double spread : {.2, .05, .5})
        for (const double dilution : {1.05, 2.0, 5.78, 60.0, 1000.0}) {
            CAPTURE(spread, dilution);
            const double depth = .5, least = .15, left = 1.445 / 1.4 / dilution;
            const auto found = second_laying({dilution}, litres(1.445), litres(1.4), {fixed(Share::of(spread)), fixed(Share::of(depth)), fixed(Share::of(least))});
            const double held = std::min(left, .999);
            CHECK(found.left.value() == digit(held));
            CHECK(found.left_low.value() == digit(std::min(.999, left * std::exp(-nine_tenths * spread))));
            CHECK(found.left_high.value() == digit(std::min(.999, left * std::exp(nine_tenths * spread))));
            const double k = 1 / held - 1; // K A of the first
            const double part = std::min(1.0, (1 / depth - 1) / k);
            CHECK(found.alumina.value() == digit(part));
            CHECK(found.colour.value() == digit(held - held / (1 + k * part)));
            // Worth it from where part is least: left = 1 / (1 + (1 / depth - 1) / least).
            CHECK(found.pays.value() == digit(below(std::log(left * (1 + (1 / depth - 1) / least)) / spread)));
        }
    const ColourHabits sharp{fixed(Share::of(0)), fixed(Share::of(.5)), fixed(Share::of(.25))}; // from .2 on, to the last bit
    CHECK(second_laying({5.001}, litres(1), litres(1), sharp).pays.value() == digit(0));
    CHECK(second_laying({4.999}, litres(1), litres(1), sharp).pays.value() == digit(1));
    // More than all of it is let pass within twice the eye's doubt.
    const ColourHabits eye{fixed(Share::of(.2)), fixed(Share::of(.5)), fixed(Share::of(.15))};
    CHECK_NOTHROW(second_laying({1}, litres(std::exp(.3999)), litres(1), eye));
    CHECK_THROWS_AS(second_laying({1}, litres(std::exp(.4001)), litres(1), eye), DomainError);
}

TEST_CASE("portions of foam are one at least and a thousand at most", "[reference]") {
    const auto portions = [](double litres_of_gas) {
        const double moles_of_it = litres_of_gas * 1e-3 * 101325 / 8.314462618 / 323.15;
        return plan_foam(moles(moles_of_it), degrees_celsius(50), litres(2), seconds(60), Share::of(.5)).portions;
    };
    CHECK(portions(0) == 1);
    CHECK(portions(.999) == 1);
    CHECK(portions(1.001) == 2);
    CHECK(portions(1.999) == 2);
    CHECK(portions(999.5) == 1000);
    CHECK(portions(5000) == 1000);
}

TEST_CASE("aluminium that a liquor holds, species by species", "[reference]") {
    for (const double ph : {2.5, 4.0, 6.5, 9.0, 12.0})
        for (const double sulphate : {0.0, 1e-5, .02, .3})
            for (const double strength : {0.0, .001, .1, .7}) {
                CAPTURE(ph, sulphate, strength);
                const double h = std::pow(10, -ph), s = sulphate * davies(2, strength);
                const double per = 1 / davies(3, strength) + std::pow(10, -5.0) / h / davies(2, strength) + std::pow(10, -10.1) / h / h / davies(1, strength) +
                                   std::pow(10, -16.9) / h / h / h + std::pow(10, -22.7) / std::pow(h, 4) / davies(1, strength) +
                                   (std::pow(10, 3.5) * s + std::pow(10, 5.0) * s * s) / davies(1, strength);
                const auto held = [&](LakeSolid solid) { return in_moles_per_litre(aluminium_dissolved(Ph::of(ph), sulphate, strength, solid)); };
                CHECK(held(LakeSolid::hydroxide) == digit(std::pow(10, 10.8) * h * h * h * per));
                if (sulphate > 0) CHECK(held(LakeSolid::basic_sulphate) == digit(std::pow(std::pow(10, 22.7) * std::pow(h, 10) / s, .25) * per));
            }
}

TEST_CASE("an alum's own base counts as alkali that was poured", "[reference]") {
    // Al(OH)SO4 brings one of the hydroxides: two more are a mole of soda.
    const Salt basic = salt_of("AlOHSO4", 0, {{Ion::aluminium, 1}, {Ion::hydroxide, 1}, {Ion::sulphate, 1}});
    const double per_mole = 26.982 + 15.999 + 1.008 + 32.06 + 4 * 15.999;
    const Titration bath{basic, grams(per_mole / 10), litres(2), soda_ash(), millilitres_per_gram(0)};
    const auto curve = titration_curve(bath, LakeSolid::hydroxide, stirred(), 3, 7);
    for (std::size_t i = 0; i < 7; ++i) {
        const double n = .5 * static_cast<double>(i);
        CHECK(curve[i].hydroxides == digit(n));
        CHECK(in_grams(curve[i].alkali) == digit(.1 * std::max(0.0, n - 1) / 2 * 105.988));
    }
    CHECK(in_grams(alkali_needed(basic, grams(per_mole / 10), soda_ash(), HydroxidesPerAluminium::of(2.5))) == digit(.1 * 1.5 / 2 * 105.988));
    CHECK(hydroxides_poured(basic, grams(per_mole / 10), soda_ash(), grams(10.5988)) == digit(1 + 2.0));
    CHECK(in_grams(aluminium_needed(soda_ash(), grams(105.988), basic, HydroxidesPerAluminium::of(3))) == digit(per_mole));
}

TEST_CASE("what a salt gives but a little of counts as given", "[unit]") {
    // No pen tells a little chloride; a little sulphate makes the basic salt possible, a little carbonate gas.
    Salt chloride = aluminium_chloride();
    const Titration without{chloride, grams(50), litres(1.5), soda_ash(), millilitres_per_gram(0)};
    chloride.gives[Ion::sulphate] = 5e-4;
    const Titration with{chloride, grams(50), litres(1.5), soda_ash(), millilitres_per_gram(0)};
    CHECK(possible_ph(with, grams(30)).low != possible_ph(without, grams(30)).low);
    CHECK(usual_hydroxides(chloride, usual_laking()).mean == digit(2.6));
    CHECK(usual_hydroxides(aluminium_chloride(), usual_laking()).mean == digit(3));
    BathWish wish = roots_and_alum();
    wish.alkali = salt_of("NaOH", 0, {{Ion::sodium, 1}, {Ion::hydroxide, 1}});
    CHECK_FALSE(plan_bath(wish, usual_laking(), usual_wash_habits()).foam);
    wish.alkali.gives[Ion::carbonate] = 5e-4;
    CHECK(plan_bath(wish, usual_laking(), usual_wash_habits()).foam);
    // Acid and base are told by a little of them too.
    Salt hardly = salt_of("NaCl", 0, {{Ion::sodium, 1}, {Ion::chloride, 1}});
    CHECK_FALSE(is_alkali(hardly));
    CHECK_FALSE(is_aluminium_salt(hardly));
    hardly.gives[Ion::bicarbonate] = 5e-4;
    CHECK(is_alkali(hardly));
    hardly.gives[Ion::aluminium] = 5e-4;
    CHECK(is_aluminium_salt(hardly));
    CHECK_FALSE(is_alkali(hardly));
}

TEST_CASE("one in ten draws of a lake may be none, no more", "[errors]") {
    // Water that lies below nothing in one draw of ten: by its normal law at 1.2816 standard deviations.
    const auto expected = [](double z) {
        LakeEstimate lake = usual_lake(usual_wash_habits());
        lake.hydroxides = fixed(HydroxidesPerAluminium::of(2.6));
        lake.water = Estimate<MassFraction>::normal(MassFraction::of(.1), MassFraction::Difference::of(.1 / z), {});
        return expected_lake(lake);
    };
    CHECK_NOTHROW(expected(1.30));
    CHECK_THROWS_AS(expected(1.26), DomainError);
}

TEST_CASE("nine in ten lakes lie between the ends of mass and density", "[reference]") {
    const auto of = [](double dye_density, double recovered) {
        LakeEstimate one = usual_lake(usual_wash_habits());
        one.aluminium = fixed(moles(50 / 474.372)), one.hydroxides = fixed(HydroxidesPerAluminium::of(2.6)), one.dye = fixed(grams(1.5));
        one.water = fixed(MassFraction::of(.17)), one.salts = fixed(MassFraction::of(.02)), one.recovered = fixed(Share::of(recovered));
        one.dye_density = fixed(grams_per_cubic_centimetre(dye_density)), one.salts_density = fixed(grams_per_cubic_centimetre(2.68));
        return one;
    };
    const double z = 1.6448536269514722; // of a normal belief in one input both ends are that input's
    LakeEstimate lake = of(1.5, .8);
    lake.recovered = Estimate<Share>::normal(Share::of(.8), Share::Difference::of(.05), {});
    const auto mass = expected_lake(lake);
    CHECK(mass.mass_kg.low == Approx(in_kilograms(expected_lake(of(1.5, .8 - z * .05)).mass)).epsilon(3e-4));
    CHECK(mass.mass_kg.high == Approx(in_kilograms(expected_lake(of(1.5, .8 + z * .05)).mass)).epsilon(3e-4));
    lake = of(1.5, .8);
    lake.dye_density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.5), kilograms_per_cubic_metre(100), {});
    const auto density = expected_lake(lake);
    CHECK(density.density_kg_m3.low == Approx(in_kilograms_per_cubic_metre(expected_lake(of(1.5 - z * .1, .8)).density)).epsilon(1e-4));
    CHECK(density.density_kg_m3.high == Approx(in_kilograms_per_cubic_metre(expected_lake(of(1.5 + z * .1, .8)).density)).epsilon(1e-4));
}

TEST_CASE("mass and density of a lake are those of its parts, drawn or not", "[reference]") {
    const double Al = 26.982, O = 15.999, H = 1.008, S = 32.06;
    const double hydroxide = Al + 3 * (O + H), basic = Al + 2.5 * (O + H) + .25 * (S + 4 * O);
    for (const double n : {2.0, 2.5, 2.6, 3.0}) {
        CAPTURE(n);
        const double x = (3 - n) / .5, per = (1 - x) * hydroxide + x * basic;
        CHECK(in_grams_per_mole(solid_per_aluminium(HydroxidesPerAluminium::of(n))) == digit(per));
        const double density = per / ((1 - x) * hydroxide / 2.42 + x * basic / 2.12);
        CHECK(in_grams_per_cubic_centimetre(solid_density(HydroxidesPerAluminium::of(n))) == digit(density));
        LakeEstimate lake = usual_lake(usual_wash_habits());
        lake.hydroxides = fixed(HydroxidesPerAluminium::of(n)), lake.dye = fixed(grams(1.5)), lake.water = fixed(MassFraction::of(.17));
        lake.salts = fixed(MassFraction::of(.02)), lake.dye_density = fixed(grams_per_cubic_centimetre(1.5)), lake.recovered = fixed(Share::of(.9));
        const double solid = 50 / 474.372 * per, whole = (solid + 1.5) / .81;
        const auto found = expected_lake(lake);
        CHECK(in_grams(found.mass) == digit(.9 * whole));
        CHECK(in_grams(found.mass_standard_uncertainty) == Approx(0).margin(1e-9));
        CHECK(found.mass_kg.low * 1e3 == digit(.9 * whole));
        CHECK(found.mass_kg.high * 1e3 == digit(.9 * whole));
        const double lies = 1 / ((solid / density + 1.5 / 1.5) / whole + .17 / in_grams_per_cubic_centimetre(sorbed_water_density()) + .02 / 2.68);
        CHECK(in_grams_per_cubic_centimetre(found.density) == digit(lies));
        CHECK(found.density_kg_m3.high == digit(1e3 * lies));
        CHECK(in_grams_per_cubic_centimetre(found.dry_density) == digit(.83 / (1 / lies - .17 / in_grams_per_cubic_centimetre(sorbed_water_density()))));
    }
    // Of chalk: calcite 2.71, gypsum 2.32 and alumina 2.42 (crc-densities).
    ChalkLake chalk{};
    chalk.chalk_left = grams(4), chalk.gypsum = grams(11), chalk.gypsum_dissolved = grams(2), chalk.alumina = grams(3);
    const auto parts = chalk_lake_parts(chalk, grams(1), MassFraction::of(.1), MassFraction::of(.05), {grams_per_cubic_centimetre(1.5), grams_per_cubic_centimetre(2.68)});
    CHECK(in_grams(parts.solid) == digit(16));
    CHECK(in_grams(parts.whole) == digit(17 / .85));
    const double solids = (4 / 2.71 + 9 / 2.32 + 3 / 2.42 + 1 / 1.5) / (17 / .85);
    CHECK(in_grams_per_cubic_centimetre(parts.density) == digit(1 / (solids + .05 / 2.68 + .1 / in_grams_per_cubic_centimetre(sorbed_water_density()))));
}

TEST_CASE("a cake that stands is stuck from where its past or its bath forbids it", "[reference]") {
    const DryingHabits h = drying_of();
    // It follows its law for so many hours, and a day later weighs what it weighed then.
    const auto weighed = [](double stands_from) {
        auto w = weighed_daily({38.6, 24.9, 17.9, 14.3});
        const Mass last = grams(10.587 + 28.013 * std::exp(-stands_from / 35.742));
        w.push_back({hours(stands_from), last, false});
        w.push_back({hours(stands_from + 24), last, false});
        return w;
    };
    const auto allowed = [&](double stands_from) {
        auto before = weighed(stands_from);
        const Mass last = before.back().mass;
        before.pop_back();
        const double u = in_grams(weighing_doubt(last, one_gram_in_ten, h));
        return in_grams(last) - 2 * u <= in_grams(drying_mass_quantile(drying_belief(before, one_gram_in_ten, h), hours(stands_from + 24), .975));
    };
    double stuck = 80, rests = 260;
    REQUIRE_FALSE(allowed(stuck));
    REQUIRE(allowed(rests));
    for (int i = 0; i < 30; ++i) {
        const double middle = .5 * (stuck + rests);
        (allowed(middle) ? rests : stuck) = middle;
    }
    CHECK(drying_outlook(weighed(stuck - 1e-5), one_gram_in_ten, h).state == DryingState::stuck);
    CHECK(drying_outlook(weighed(rests + 1e-5), one_gram_in_ten, h).state == DryingState::constant);
    // By its bath: above 39 of 40 of what is expected.
    for (const auto& expected : {Estimate<Mass>::normal(grams(9), grams(.5), {}), Estimate<Mass>::lognormal(grams(9), 1.06, {})}) {
        const double most = 1e3 * quantile(expected.distribution(), .975);
        const auto masses = [&](double last) { return weighed_daily({most + 3, last, last}); };
        const auto state = [&](double last) { return drying_outlook(masses(last), one_gram_in_ten, h, expected).state; };
        CHECK(state(most + 1e-6) == DryingState::stuck);
        CHECK(state(most - 1e-6) == DryingState::constant);
    }
    // A bath that is known for sure forbids nothing: it has no doubt to compare with.
    CHECK(drying_outlook(weighed_daily({20, 17, 17}), one_gram_in_ten, h, fixed(grams(9))).state == DryingState::constant);
}

TEST_CASE("weighings and bath exclude each other from one in a thousand on", "[reference]") {
    const DryingHabits h = drying_of();
    const auto weighings = weighed_daily({38.6, 24.9, 17.9, 14.2});
    const auto belief = drying_belief(weighings, one_gram_in_ten, h);
    const double high = in_grams(end_mass_quantile(belief, .999)), low = in_grams(end_mass_quantile(belief, .001));
    const double z = standard_normal_quantile(.999), u = .4;
    const auto unexpected = [&](double mean) {
        return drying_outlook(weighings, one_gram_in_ten, h, Estimate<Mass>::normal(grams(mean), grams(u), {})).unexpected;
    };
    CHECK(unexpected(high + z * u + 1e-6));
    CHECK_FALSE(unexpected(high + z * u - 1e-6));
    CHECK(unexpected(low - z * u - 1e-6));
    CHECK_FALSE(unexpected(low - z * u + 1e-6));
}

TEST_CASE("what a drying cake's nodes say, added up by hand", "[reference]") {
    DryingBelief belief{};
    belief.origin = hours(5);
    belief.nodes = {{hours(20).value(), .010, .020, .0010, .2}, {hours(30).value(), .012, .015, .0002, .5}, {hours(50).value(), .009, .030, .0030, .3}};
    const auto chance = [&](double h, double within) {
        double sum = 0;
        for (const auto& n : belief.nodes) {
            const double e = std::exp(-(h - 5) * 3600 / n.tau);
            sum += n.weight * below((within * n.end - n.over * e) / (n.over_sd * e));
        }
        return sum;
    };
    for (const double h : {5.0, 60.0, 120.0, 300.0})
        for (const double within : {.05, .3})
            CHECK(chance_dry(belief, hours(h), Share::of(within)).value() == digit(chance(h, within)));
    for (const double p : {.1, .5, .9}) {
        const auto dry = time_dry_with(belief, Share::of(.05), p);
        REQUIRE(dry);
        CHECK(chance(in_hours(*dry), .05) == Approx(p).margin(1e-7));
        const double mass = in_kilograms(drying_mass_quantile(belief, hours(40), p));
        double under = 0;
        for (const auto& n : belief.nodes) {
            const double e = std::exp(-35.0 * 3600 / n.tau);
            under += n.weight * below((mass - n.end - n.over * e) / (n.over_sd * e));
        }
        CHECK(under == Approx(p).margin(1e-10));
    }
    // Ends in their order: .009 (.3), .010 (.5), .012 (1).
    CHECK(in_grams(end_mass_quantile(belief, .2999)) == digit(9));
    CHECK(in_grams(end_mass_quantile(belief, .3001)) == digit(10));
    CHECK(in_grams(end_mass_quantile(belief, .4999)) == digit(10));
    CHECK(in_grams(end_mass_quantile(belief, .5001)) == digit(12));
    CHECK(in_grams(end_mass_quantile(belief, .9999999)) == digit(12));
}

TEST_CASE("two decants say what a wash kept, as surely as both were read", "[reference]") {
    SaltsInWater first{}, second{};
    first.strength = {kilograms_per_cubic_metre(4)}, first.standard_uncertainty = kilograms_per_cubic_metre(.1);
    second.strength = {kilograms_per_cubic_metre(1.5)}, second.standard_uncertainty = kilograms_per_cubic_metre(.06);
    const auto bed = Estimate<Volume>::lognormal(litres(.5), 1.1, {}), filled = Estimate<Volume>::lognormal(litres(1.6), 1.03, {});
    const auto kept = kept_by_reading(first, second, bed, filled);
    CHECK(kept.observed == digit(.375));
    CHECK(kept.expected == digit(.5 / 1.6));
    CHECK(kept.log_standard_uncertainty == digit(std::sqrt(.025 * .025 + .04 * .04 + std::pow(std::log(1.1), 2) + std::pow(std::log(1.03), 2))));
    second.strength = {kilograms_per_cubic_metre(0)};
    CHECK(kept_by_reading(first, second, bed, filled).log_standard_uncertainty == Approx(6e7)); // .06 to a billionth
    CHECK(kept_by_reading(first, second, bed, filled).observed == digit(0));
}

TEST_CASE("how much dissolves, at its points, between them and just there", "[reference]") {
    Salt alum = potash_alum();
    alum.solubility = {{degrees_celsius(10), .1}, {degrees_celsius(20), .2}, {degrees_celsius(40), .5}};
    const auto at = [&](double celsius) { return solubility_at(alum, degrees_celsius(celsius)); };
    for (const auto& [celsius, most] : {std::pair{10.0, .1}, {12.5, .125}, {20.0, .2}, {25.0, .275}, {39.0, .485}, {40.0, .5}})
        CHECK(at(celsius).value() == digit(most));
    CHECK_FALSE(at(9.99));
    CHECK_FALSE(at(40.01));
    // Of .2 to a gram of water a sixth of the solution.
    CHECK(*dissolves(alum, MassFraction::of(1 / 6.0 - 1e-9), degrees_celsius(20)));
    CHECK_FALSE(*dissolves(alum, MassFraction::of(1 / 6.0 + 1e-9), degrees_celsius(20)));
}
