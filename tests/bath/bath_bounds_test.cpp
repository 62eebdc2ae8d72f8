// What the bath takes at its bounds and refuses beyond them: a bound is in or out as the headers say, and what lies above
// nothing may lie as little above it as you like.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "lakebound/bath/colour_left.hpp"
#include "lakebound/bath/conductivity.hpp"
#include "lakebound/bath/drying.hpp"
#include "lakebound/bath/equilibrium.hpp"
#include "lakebound/bath/filtration.hpp"
#include "lakebound/bath/gas.hpp"
#include "lakebound/bath/liquor.hpp"
#include "lakebound/bath/precipitation.hpp"
#include "lakebound/bath/solution.hpp"
#include "lakebound/bath/titration.hpp"
#include "lakebound/bath/washing.hpp"
#include "lakebound/quantity/error.hpp"
#include "salts.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
constexpr double little = 1e-4;
template <class Q> Estimate<Q> certain(const Q& value) { return Estimate<Q>::exact(value, {}); }
Temperature room() { return degrees_celsius(20); }
WeightPerVolume strong(double grams_a_litre) { return {kilograms_per_cubic_metre(grams_a_litre)}; }
PenReading shows(double us, double celsius = 25) { return {microsiemens_per_centimetre(us), degrees_celsius(celsius), {}}; }
ConductivityPen plain_pen() {
    ConductivityPen pen{};
    pen.per_kelvin = .02, pen.step = microsiemens_per_centimetre(1);
    pen.calibrated_to = certain(Share::of(.03)), pen.repeats_to = certain(Share::of(.01));
    return pen;
}
} // namespace

TEST_CASE("solutions at their bounds", "[errors]") {
    CHECK_NOTHROW(solution_density(soda_ash(), MassFraction::of(.1), degrees_celsius(55)));
    CHECK_THROWS_AS(solution_density({{Solute::sodium_sulphate, MassFraction::of(.3)}}, room()), DomainError);
    CHECK_NOTHROW(solution_density({{Solute::sodium_sulphate, MassFraction::of(.2999)}}, room()));
    CHECK(in_grams(made_up(soda_ash(), grams(0), {.1, StrengthBasis::by_mass}, room()).water) == Approx(0).margin(1e-15));
    CHECK(in_grams(salt_in(soda_ash(), millilitres(0), {.1, StrengthBasis::by_mass}, room())) == Approx(0).margin(1e-15));
    CHECK_NOTHROW(made_up(soda_ash(), grams(1), {little, StrengthBasis::by_mass}, room()));
    // The alum's own salts are .54 of it, so that nearly half of it stays within the densities.
    CHECK_NOTHROW(made_up(potash_alum(), grams(1), {.4999, StrengthBasis::by_mass}, room()));
    CHECK_THROWS_WITH(made_up(potash_alum(), grams(1), {.5, StrengthBasis::by_mass}, room()), Catch::Contains("strength"));
    CHECK(in_moles(amount_of(potash_alum(), grams(0))) == Approx(0).margin(1e-15));
}

TEST_CASE("a salt whose acids are shared falls into both solutes", "[unit]") {
    // By hand: AlSO4Cl is a third of Al2(SO4)3 and a third of AlCl3; 342.132/3 and 133.332/3 of 158.492 g.
    const Salt mixed = salt_of("AlSO4Cl", 0, {{Ion::aluminium, 1}, {Ion::sulphate, 1}, {Ion::chloride, 1}});
    const auto parts = solutes_of(mixed);
    REQUIRE(parts);
    REQUIRE(parts->size() == 2);
    CHECK((*parts)[0].solute == Solute::aluminium_sulphate);
    CHECK((*parts)[0].share.value() == Approx(114.048 / 158.492).epsilon(1e-4));
    CHECK((*parts)[1].share.value() == Approx(44.444 / 158.492).epsilon(1e-4));
}

TEST_CASE("filters at their bounds", "[errors]") {
    const FilterLaw law{TimePerVolumeSquared::from_value(1e9), TimePerVolume::from_value(1e5)};
    const auto set = [&](double viscosity, double area, double pressure, double solids) {
        return filter_constants(law, {pascal_seconds(viscosity), Area::from_value(area), pascals(pressure),
                                      kilograms_per_cubic_metre(solids)});
    };
    CHECK_NOTHROW(set(little, little, little, little));
    CHECK_THROWS_AS(set(0, 1, 1, 1), DomainError);
    CHECK_THROWS_AS(set(1, 0, 1, 1), DomainError);
    CHECK_THROWS_AS(set(1, 1, 0, 1), DomainError);
    CHECK_THROWS_AS(set(1, 1, 1, 0), DomainError);
    CHECK_NOTHROW(fit_filter(std::vector<FilterReading>{{seconds(1e-5), millilitres(1e-3)}, {seconds(2.1e-5), millilitres(2e-3)}}));
    CHECK_THROWS_AS(fit_filter(std::vector<FilterReading>{{seconds(0), millilitres(1)}, {seconds(2), millilitres(2)}}), DomainError);
    CHECK_THROWS_AS(fit_filter(std::vector<FilterReading>{{seconds(1), millilitres(0)}, {seconds(2), millilitres(2)}}), DomainError);
    CHECK_THROWS_AS(fit_filter(std::vector<FilterReading>{}), DomainError);
    CHECK_THROWS_AS(time_with_second_filter(law, litres(-1), litres(3)), DomainError);
    CHECK_THROWS_AS(time_with_second_filter(law, litres(2), litres(-1)), DomainError);
    // A rest of a drop takes its time, however short.
    const Volume drop = millilitres(1e-6);
    CHECK(in_seconds(time_with_second_filter(law, litres(0), drop)) == Approx(in_seconds(law.paper * drop) / 2).epsilon(1e-6));
}

TEST_CASE("washes at their bounds", "[errors]") {
    const DecantWash kitchen{litres(.45), litres(1.5)};
    CHECK(kept_by_a_wash({millilitres(1e-6), litres(1)}).value() == Approx(1e-9));
    CHECK(in_kilograms_per_cubic_metre(strength_after(strong(0), strong(0), kitchen, 3).value) == Approx(0).margin(1e-15));
    CHECK_THROWS_AS(washes_needed(strong(1), strong(0), kitchen, strong(-1e-6)), DomainError);
    CHECK_THROWS_AS(washes_needed(strong(-1e-6), strong(0), kitchen, strong(1)), DomainError);
    CHECK_THROWS_AS(washes_needed(strong(1), strong(-1e-6), kitchen, strong(1)), DomainError);
    // Clean as it is; as strong as the wash water for ever; met exactly by two washes.
    CHECK(washes_needed(strong(1), strong(0), kitchen, strong(1)) == 0u);
    CHECK(washes_needed(strong(1), strong(.2), kitchen, strong(.2)) == std::nullopt);
    CHECK(washes_needed(strong(1), strong(.2), kitchen, strong(.2 + 1e-7)) == 14u); // ln(8e6)/ln(1.5/.45), by hand 13.2
    CHECK(washes_needed(strong(1), strong(0), kitchen, strong(.09)) == 2u);
    CHECK(washes_needed(strong(1), strong(0), kitchen, strong(.0899)) == 3u);
    CHECK(in_litres(water_for(kitchen, 2)) == Approx(2.1));
    CHECK(in_grams(salts_dried_in(strong(3), litres(0))) == Approx(0).margin(1e-15));
    CHECK_NOTHROW(held_by_drained_cake(MassFraction::of(.9999), MassFraction::of(.9999)));
    const WashFeed feed{kilograms(little), kilograms(little), kilograms(0)};
    // As little of everything, and fresh water of just nothing or more: .5/.5 + 1 - 1 - 0 parts.
    const auto flows = counter_current_flows(feed, Share::of(.5), MassFraction::of(.5), 1);
    CHECK(in_kilograms(flows.fresh_water) == Approx(little));
    CHECK(flows.kept_strength.value() == Approx(.5));
    CHECK(in_kilograms(counter_current_flows(feed, Share::of(.5), MassFraction::of(1), .5).fresh_water) == Approx(0).margin(1e-18));
    CHECK_NOTHROW(counter_current_flows({kilograms(1), kilograms(little), kilograms(0)}, Share::of(.5), MassFraction::of(little), little));
    // Another formula for the same: 1 - 1/(1 + r + ... + r^n).
    for (const double r : {little, .5, .999999, 1.0, 1.000001, 3.0})
        for (const unsigned n : {0u, 1u, 2u, 5u}) {
            double sum = 0.0;
            for (unsigned i = 0; i <= n; ++i)
                sum += std::pow(r, i);
            CHECK(counter_current_recovery(r, n).value() == Approx(1 - 1 / sum).margin(1e-12));
        }
    CHECK_THROWS_AS(counter_current_recovery(INFINITY, 1), DomainError);
    WashedLake lake{};
    lake.water.strength = strong(1);
    lake.bed = certain(litres(.4));
    lake.filled = certain(litres(1.6));
    lake.stirred_to = certain(Share::of(0));
    lake.lake = certain(kilograms(little));
    // Without any doubt: 1 g/L, .4 L in .1 g of lake are 4 g/g, and 1/16 of that after two washes.
    const auto clean = [&](double target, unsigned washes) { return chance_of_clean(lake, MassFraction::of(target), washes).value(); };
    CHECK(clean(.2499, 2) == Approx(0).margin(1e-15));
    CHECK(clean(.2501, 2) == Approx(1));
    CHECK(clean(little, 20) == Approx(1));
    lake.water.strength = strong(0);
    CHECK(clean(1e-6, 0) == Approx(1));
    lake.held = certain(millilitres_per_gram(0));
    CHECK_THROWS_AS(clean(.5, 0), DomainError);
    lake.held = certain(millilitres_per_gram(little));
    CHECK_NOTHROW(clean(.5, 0));
}

TEST_CASE("the pen at its bounds", "[errors]") {
    const auto salts = salts_of_alum_and_soda();
    const auto pen = plain_pen();
    CHECK(in_kilograms_per_cubic_metre(salts_in_decant(shows(0), shows(0), pen, salts).strength.value) == Approx(0).margin(1e-9));
    CHECK_NOTHROW(salts_in_decant(shows(900, 45), shows(200, 0), pen, salts));
    CHECK_THROWS_AS(salts_in_decant(shows(900), shows(200, 45.01), pen, salts), DomainError);
    CHECK_THROWS_AS(salts_in_decant(shows(900, -.01), shows(200), pen, salts), DomainError);
    CHECK_THROWS_AS(salts_in_decant(shows(900), shows(-.1), pen, salts), DomainError);
    // Two readings of 300 leave 2 sqrt(9 + 9 + 2/12) = 8.52 uS/cm open; of 292 a little less than that.
    CHECK_NOTHROW(salts_in_decant(shows(292), shows(300), pen, salts));
    CHECK_THROWS_AS(salts_in_decant(shows(291), shows(300), pen, salts), DomainError);
    for (const double factor : {.3, 1.0})
        CHECK(in_microsiemens_per_centimetre(shown_as_solids(strong(.3), factor)) == Approx(300 / factor));
    CHECK(in_microsiemens_per_centimetre(salts_conductivity(salts, strong(0), room())) == Approx(0).margin(1e-12));
    CHECK(in_kilograms_per_cubic_metre(strength_of(salts, microsiemens_per_centimetre(0), room()).value) == Approx(0).margin(1e-9));
    CHECK_THROWS_AS(sulphate_equivalent_conductivity(Ion::sodium, Molality::from_value(.50001), degrees_celsius(25)), DomainError);
    // At no strength the published limiting rows themselves: a t2 + b t + c at 25 degC.
    CHECK(in_siemens_square_centimetres_per_equivalent(
              sulphate_equivalent_conductivity(Ion::sodium, Molality::from_value(0), degrees_celsius(25))) ==
          Approx(.009501 * 625 + 2.317 * 25 + 66.58));
    // The most that is taken: half a mole of sulphate a litre of pure sodium sulphate, 142.04 g/mol.
    DissolvedSalts sodium{};
    sodium.ions[Ion::sodium] = 2;
    sodium.ions[Ion::sulphate] = 1;
    CHECK(in_grams(mass_per_equivalent(sodium)) == Approx(142.04 / 2).epsilon(1e-4));
    CHECK_NOTHROW(salts_conductivity(sodium, strong(71.01), room()));
    CHECK_THROWS_AS(salts_conductivity(sodium, strong(71.04), room()), DomainError);
    const auto most = salts_conductivity(sodium, strong(71.01), room());
    CHECK(in_kilograms_per_cubic_metre(strength_of(sodium, most, room()).value) == Approx(71.01).epsilon(1e-9));
    CHECK_THROWS_AS(strength_of(sodium, 1.001 * most, room()), DomainError);
    // Charges balance to 1e-6 of all: 3 mol take a gap of 3e-6.
    sodium.ions[Ion::sulphate] = 1 + 1.4e-6;
    CHECK_NOTHROW(check(sodium));
    sodium.ions[Ion::sulphate] = 1 + 1.6e-6;
    CHECK_THROWS_AS(check(sodium), DomainError);
    sodium.ions[Ion::sulphate] = 1 - 1.6e-6;
    CHECK_THROWS_AS(check(sodium), DomainError);
    // Limiting conductivities as the header's source lists them, S cm2/eq.
    for (const auto& [ion, table] : {std::pair{Ion::sodium, 50.1}, std::pair{Ion::potassium, 73.5}, std::pair{Ion::ammonium, 73.5},
                                     std::pair{Ion::calcium, 59.5}, std::pair{Ion::aluminium, 61.0}, std::pair{Ion::sulphate, 80.0},
                                     std::pair{Ion::bicarbonate, 44.5}, std::pair{Ion::carbonate, 69.3}})
        CHECK(in_siemens_square_centimetres_per_equivalent(limiting_conductivity(ion)) == Approx(table));
    // A pen without compensation reads 2 % more for each kelvin.
    auto bare = pen;
    bare.compensation = Compensation::none;
    CHECK(in_microsiemens_per_centimetre(at_25_degrees(shows(440, 30), bare)) == Approx(400));
    CHECK(in_microsiemens_per_centimetre(at_25_degrees(shows(440, 30), pen)) == Approx(440));
}

TEST_CASE("gas, pulls, pots and colours at their bounds", "[errors]") {
    CHECK(in_moles(dissolved_gas(litres(0), standard_atmospheres(1))) == Approx(0).margin(1e-15));
    CHECK(in_moles(dissolved_gas(litres(1), standard_atmospheres(0))) == Approx(0).margin(1e-15));
    CHECK(in_moles(dissolved_gas(litres(2), standard_atmospheres(.5))) == Approx(std::pow(10, -1.468)));
    CHECK_NOTHROW(gas_volume(moles(1), room(), pascals(little)));
    CHECK_NOTHROW(plan_foam(moles(.1), room(), litres(little), seconds(little), Share::of(little)));
    // Just enough water for what the plant holds is none that drains off; a drop more is.
    const auto pull = [](double millilitres_of_water, double grams_of_plant) {
        return plan_pulls(grams(grams_of_plant), millilitres(millilitres_of_water), 1, millilitres_per_gram(2));
    };
    CHECK_THROWS_AS(pull(8, 4), DomainError);
    CHECK_NOTHROW(pull(8.001, 4));
    CHECK_NOTHROW(pull(8, little));
    CHECK_NOTHROW(plan_pulls(grams(4), millilitres(600), 6, millilitres_per_gram(2)));
    CHECK(in_grams(dry_plant(grams(0), Share::of(.2))) == Approx(0).margin(1e-15));
    CHECK(in_grams(dry_plant(grams(10), Share::of(little))) == Approx(1e-3));
    CHECK_NOTHROW(pot_for(litres(1), grams(10), kilograms_per_cubic_metre(little), Share::of(.2)));
    const ColourHabits sharp{certain(Share::of(0)), certain(Share::of(.5)), certain(Share::of(.15))};
    for (const double volume : {0.0, -1.0}) {
        CHECK_THROWS_AS(second_laying({2.0}, litres(volume), litres(1), sharp), DomainError);
        CHECK_THROWS_AS(second_laying({2.0}, litres(1), litres(volume), sharp), DomainError);
    }
    CHECK_NOTHROW(second_laying({2.0}, millilitres(little), litres(1), sharp));
    CHECK_NOTHROW(second_laying({1000.0}, millilitres(little), millilitres(little), sharp));
    CHECK(second_laying({1.0}, litres(1), litres(1), sharp).left.value() == Approx(.999)); // all of it: capped
    CHECK_THROWS_AS(second_laying({1.0}, litres(1.001), litres(1), sharp), DomainError);
}

TEST_CASE("what is laid down at its bounds", "[errors]") {
    const auto n = HydroxidesPerAluminium::of(2.6);
    CHECK_NOTHROW(alkali_balance(potash_alum(), grams(little), soda_ash(), grams(0), n));
    CHECK_NOTHROW(hydroxides_poured(potash_alum(), grams(little), soda_ash(), grams(0)));
    CHECK(learn_hydroxides({2.6, little}, {}).standard_uncertainty == Approx(little));
    const std::vector<EndPoint> blind{{2.7, 0.0}};
    CHECK_THROWS_AS(learn_hydroxides({2.6, .1}, blind), DomainError);
    // All bases count: 2 x .5 of carbonate, .25 of bicarbonate, .125 of hydroxide.
    BathContents bath;
    bath.ions[Ion::carbonate] = .5;
    bath.ions[Ion::bicarbonate] = .25;
    bath.ions[Ion::hydroxide] = .125;
    CHECK(in_moles(base_in(bath)) == Approx(1.375));
    CHECK_THROWS_AS(precipitate(bath, n), DomainError);
    // Of little alum as of much; of hydroxide first, then carbonate, then bicarbonate.
    bath.ions[Ion::aluminium] = little;
    bath.ions[Ion::sodium] = 1.375 - little;
    bath.ions[Ion::sulphate] = little;
    const auto found = precipitate(bath, HydroxidesPerAluminium::of(3));
    CHECK(in_moles(found.solid_aluminium) == Approx(little));
    CHECK(found.liquor[Ion::hydroxide] == Approx(.125 - 3 * little));
    CHECK(in_moles(found.base_left) == Approx(1.375 - 3 * little));
    BathContents mixed = bath;
    mixed.ions[Ion::aluminium] = .4; // 1.2 of base: .125, 1.0, and .075 of the bicarbonate
    mixed.ions[Ion::sulphate] = .6;
    const auto all = precipitate(mixed, HydroxidesPerAluminium::of(3));
    CHECK(all.liquor[Ion::hydroxide] == Approx(0).margin(1e-15));
    CHECK(all.liquor[Ion::carbonate] == Approx(0).margin(1e-15));
    CHECK(all.liquor[Ion::bicarbonate] == Approx(.175));
    CHECK(in_moles(all.carbon_dioxide) == Approx(.575));
    CHECK(in_moles(all.base_left) == Approx(.175));
    mixed.ions[Ion::calcium] = little;
    CHECK_THROWS_AS(precipitate(mixed, n), DomainError);
    mixed.ions[Ion::calcium] = 0;
    mixed.ions[Ion::acetate] = little;
    CHECK_THROWS_AS(precipitate(mixed, n), DomainError);
    // Too little of the acid that a basic salt keeps: .5 x .4 x .4 of sulphate wanted.
    mixed.ions[Ion::acetate] = 0;
    mixed.ions[Ion::sulphate] = .0799;
    CHECK_THROWS_AS(precipitate(mixed, n), DomainError);
    mixed.ions[Ion::sulphate] = .0801;
    CHECK_NOTHROW(precipitate(mixed, n));
    mixed.ions[Ion::sulphate] = 0;
    mixed.ions[Ion::chloride] = .159;
    CHECK_THROWS_AS(precipitate(mixed, n), DomainError);
    mixed.ions[Ion::chloride] = .161;
    CHECK_NOTHROW(precipitate(mixed, n));
    // No chalk, no solids: no share of alumina either, and the smallest grain has its own.
    const auto chalk = [](double grams_of_chalk) {
        return chalk_lake(potash_alum(), grams(20), chalk_salt(), grams(grams_of_chalk), litres(0), kilograms_per_cubic_metre(2.4));
    };
    CHECK(chalk(0).alumina_share.value() == Approx(0).margin(1e-15));
    // 3 CaCO3 lay 2 Al(OH)3 and 3 gypsum: 2 x 78.003 of 156.006 + 3 x 172.164.
    CHECK(chalk(little).alumina_share.value() == Approx(156.006 / (156.006 + 516.492)).epsilon(1e-3));
}

TEST_CASE("drying at its bounds", "[errors]") {
    const auto of = [](double solids, double area, double rate) {
        return Tray{kilograms(solids), Area::from_value(area), DryingRate::from_value(rate)};
    };
    CHECK_NOTHROW(constant_rate_time(of(little, little, little), .5, 0));
    CHECK(in_hours(constant_rate_time(of(1, 1, 1), .5, .5)) == Approx(0).margin(1e-15));
    CHECK_NOTHROW(falling_rate_time(of(1, 1, 1), .5, little, 0));
    const auto law = drying_through_three(grams(38.6), grams(24.9), grams(17.9), hours(24));
    CHECK(in_hours(dry_within(law, Share::of(little))) == Approx(in_hours(law.tau) * std::log(law.over / law.end / little)));
    // Half of its end over it: within .4999 of it after 2e-4 of tau, within .5001 of it from the start.
    const DryingLaw half{grams(10), hours(36), grams(5), hours(7)};
    CHECK(in_hours(dry_within(half, Share::of(.4999))) == Approx(7 + 36 * 2.0002e-4));
    CHECK(in_hours(dry_within(half, Share::of(.5001))) == Approx(7));
    CHECK(in_hours(dry_within(half, Share::of(.25))) == Approx(7 + 36 * std::log(2)));
    const Instrument<Mass> scale{grams(.1), grams(.0287)};
    DryingHabits habits{};
    habits.usual_tau = Estimate<Time>::lognormal(hours(36), 2, {});
    habits.weighing_repeats_to = certain(Share::of(0));
    habits.dry_within = certain(Share::of(.01));
    habits.constant_within = certain(Share::of(.005));
    habits.constant_over = certain(hours(24));
    // A net rise of 2.5 sqrt(2) sqrt(.01/12 + .0287^2) = .144 g is let pass: not .145.
    CHECK_NOTHROW(drying_outlook(weighed_daily({38.6, 15.0, 11.0, 11.143}), scale, habits));
    CHECK_THROWS_AS(drying_outlook(weighed_daily({38.6, 15.0, 11.0, 11.146}), scale, habits), DomainError);
    // Losses of 10 and 9.5 g are no fall, 9.49 is one.
    CHECK(dries_evenly(weighed_daily({60, 50, 40.49})));
    CHECK_FALSE(dries_evenly(weighed_daily({60, 50, 40.51})));
    CHECK(dries_evenly(weighed_daily({60, 50})));
    CHECK(dries_evenly({}));
    // Agreement to .005 of the last, over a day: at the bound it stands, beyond it it does not.
    const auto state = [&](double before, double later) {
        auto w = weighed_daily({38.6, 24.9, 17.9, 14.2, 12.0});
        w.push_back({hours(200), grams(before), false});
        w.push_back({hours(200 + later), grams(10.0), false});
        return drying_outlook(w, scale, habits).state;
    };
    CHECK(state(10.0499, 24) == DryingState::constant);
    CHECK(state(10.0501, 24) == DryingState::falling);
    CHECK(state(10.0, 24) == DryingState::constant);
    CHECK(state(10.0, 23.99) == DryingState::falling);
    // A cake that must take more than a year to dry has no day.
    habits.usual_tau = Estimate<Time>::lognormal(hours(2000), 1.05, {});
    const auto slow = weighed_daily({60, 58.2, 56.46, 54.78, 53.16, 51.6});
    CHECK_THROWS_AS(end_mass_quantile(DryingBelief{}, 1), DomainError);
    CHECK_THROWS_AS(drying_mass_quantile(DryingBelief{}, hours(1), 0), DomainError);
    CHECK_NOTHROW(dries_evenly(slow));
    DryingBelief one{};
    one.nodes = {{hours(1000).value(), .05, .03, 0.0, 1.0}};
    // 1000 h ln(.03/(.05 within)): 366 days are 8784 h, by hand at a share of .6 exp(-8.784).
    CHECK(time_dry_with(one, Share::of(.6 * std::exp(-8.78)), .5));
    CHECK_FALSE(time_dry_with(one, Share::of(.6 * std::exp(-8.79)), .5));
    CHECK(in_hours(*time_dry_with(one, Share::of(.6 * std::exp(-5)), .5)) == Approx(5000).epsilon(1e-8));
    CHECK(in_hours(*time_dry_with(one, Share::of(.6001), .5)) == Approx(0).margin(1e-12));
}

TEST_CASE("soda to a pH is where the bath itself has it", "[identity]") {
    // The bath put together by hand and solved as a whole, in place of the pouring that goes step by step.
    const Titration bath{potash_alum(), grams(50), litres(1.5), soda_ash(), millilitres_per_gram(12)};
    const auto whole = [&](double soda, LakeSolid solid, const CarbonDioxide& gas) {
        Ions ions = ions_of(bath.aluminium, bath.mass);
        ions += ions_of(bath.alkali, grams(soda));
        return equilibrium(ions, litres(1.5 + .012 * soda), solid, gas);
    };
    for (const LakeSolid solid : {LakeSolid::hydroxide, LakeSolid::basic_sulphate})
        for (const double ph : {4.0, 5.0, 6.5, 7.5}) {
            const auto soda = alkali_to_ph(bath, Ph::of(ph), solid, stirred());
            if (!soda) { // beyond what the curve reaches, on either side
                CHECK((whole(0, solid, stirred()).ph.value() > ph || whole(33.51, solid, stirred()).ph.value() < ph)); // 6 hydroxides
                continue;
            }
            CHECK(whole(in_grams(*soda), solid, stirred()).ph.value() == Approx(ph).margin(1e-4));
        }
    CHECK(alkali_to_ph(bath, Ph::of(10.0), LakeSolid::hydroxide, open_to_air()).has_value() ==
          (whole(33.52, LakeSolid::hydroxide, open_to_air()).ph.value() >= 10.0)); // 6 hydroxides
    for (const double soda : {1.0, 12.0, 16.757, 25.0}) {
        double low = 14, high = 0;
        for (const LakeSolid solid : {LakeSolid::hydroxide, LakeSolid::basic_sulphate})
            for (const auto& gas : {closed_jar(), fizzing(), stirred(), open_to_air()}) {
                const auto rest = whole(soda, solid, gas);
                low = std::min(low, rest.laid.value() > .02 ? rest.ph.value() : 2.8);
                high = std::max(high, rest.ph.value());
            }
        const auto found = possible_ph(bath, grams(soda));
        CHECK(found.low.value() == Approx(low - .8).margin(1e-6));
        CHECK(found.high.value() == Approx(std::min(14.0, high + .8)).margin(1e-6));
    }
    const auto curve = titration_curve(bath, LakeSolid::hydroxide, stirred(), 6.0, 7);
    for (std::size_t i = 0; i < 7; ++i) {
        CHECK(curve[i].hydroxides == Approx(static_cast<double>(i)).margin(1e-12));
        const auto rest = whole(in_grams(curve[i].alkali), LakeSolid::hydroxide, stirred());
        CHECK(curve[i].laid.value() == Approx(rest.laid.value()).margin(1e-9));
        if (curve[i].ph) CHECK(curve[i].ph->value() == Approx(rest.ph.value()).margin(1e-9));
    }
    CHECK_NOTHROW(titration_curve(bath, LakeSolid::hydroxide, stirred(), little, 2));
    CHECK_NOTHROW(titration_curve(bath, LakeSolid::hydroxide, stirred(), 3.0, 2000));
    CHECK_THROWS_AS(titration_curve(bath, LakeSolid::hydroxide, stirred(), 6.0001, 2), DomainError);
    CHECK_NOTHROW(alkali_to_ph(bath, Ph::of(10.0), LakeSolid::hydroxide, stirred()));
    // A reading stands for both solids: the middle of the two, and half of what lies between with what the pH leaves.
    const double u = std::hypot(.3, ph_model_doubt.value());
    double at[2], slope = 0;
    for (int i = 0; i < 2; ++i) {
        const LakeSolid solid = i == 0 ? LakeSolid::hydroxide : LakeSolid::basic_sulphate;
        const auto n = [&](double ph) {
            return hydroxides_poured(bath.aluminium, bath.mass, bath.alkali, *alkali_to_ph(bath, Ph::of(ph), solid, stirred()));
        };
        at[i] = n(6.5);
        slope = std::max(slope, (n(6.5 + u) - n(6.5 - u)) / 2);
    }
    const auto believed = hydroxides_at_ph(bath, Ph::of(6.5), Ph::Difference::of(.3));
    REQUIRE(believed);
    CHECK(believed->mean == Approx((at[0] + at[1]) / 2).epsilon(1e-6));
    CHECK(believed->standard_uncertainty == Approx(std::hypot((at[0] - at[1]) / 2, slope)).epsilon(1e-5));
    CHECK_NOTHROW(hydroxides_at_ph(bath, Ph::of(6.5), Ph::Difference::of(little)));
    CHECK_NOTHROW(after_alkali(bath, grams(0), LakeSolid::hydroxide, stirred()));
}

TEST_CASE("a pH just beyond what the curve spans is told as out of reach", "[unit]") {
    // So thin that it has a pH above 4 before any soda.
    const Titration thin{potash_alum(), grams(.5), litres(10), soda_ash(), millilitres_per_gram(0)};
    const double first = after_alkali(thin, grams(0), LakeSolid::hydroxide, stirred()).ph.value();
    REQUIRE(first > 4.01);
    CHECK_FALSE(alkali_to_ph(thin, Ph::of(first - 5e-4), LakeSolid::hydroxide, stirred()));
    CHECK(alkali_to_ph(thin, Ph::of(first + 5e-4), LakeSolid::hydroxide, stirred()));
    // Six hydroxides to an aluminium are three moles of soda.
    const double last = after_alkali(thin, mass_of(soda_ash(), 3.0 * amount_of(potash_alum(), grams(.5))), LakeSolid::hydroxide, stirred()).ph.value();
    REQUIRE(last < 9.99);
    CHECK_FALSE(alkali_to_ph(thin, Ph::of(last + 5e-4), LakeSolid::hydroxide, stirred()));
    CHECK(alkali_to_ph(thin, Ph::of(last - 5e-4), LakeSolid::hydroxide, stirred()));
}
