// Whole plans worked out by hand, figure by figure: plain arithmetic on atomic weights and the habits of the test's kitchen.

#include "lakebound/bath/bath_plan.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

#include "kitchen_bath.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

// Atomic weights as iupac-atomic-weights-2021 abridges them.
constexpr double H = 1.0080, C = 12.011, N = 14.007, O = 15.999, Na = 22.990, Al = 26.982, S = 32.06, Cl = 35.45, K = 39.098, Ca = 40.078;
constexpr double water = 2 * H + O, sulphate = S + 4 * O, carbonate = C + 3 * O, hydroxide = Al + 3 * (O + H);
constexpr double alum = K + Al + 2 * sulphate + 12 * water, ammonia_alum = N + 4 * H + Al + 2 * sulphate + 12 * water,
                 chloride = Al + 3 * Cl + 6 * water, soda = 2 * Na + carbonate, bicarbonate = Na + H + carbonate, chalk = Ca + carbonate;
constexpr double z90 = 1.6448536269514722; // of nine in ten

BathPlan planned(const BathWish& wish) { return plan_bath(wish, usual_laking(), usual_wash_habits()); }

Approx exact(double x) { return Approx(x).epsilon(1e-9).margin(1e-15); }

/// mL of carbon dioxide at the laying's 50 degC and 1 atm.
double gas_of(double moles_of_it) { return moles_of_it * 8.314462618 * 323.15 / 101325 * 1e6; }

/// All that follows of the amounts: liquor and alum solution (mL), alkali (g) to the stop, g/mol and gas of a mole of it.
void check_room_and_foam(const BathPlan& p, double liquor, double alkali_high, double per_mole, double gas_per_mole) {
    const double liquid = liquor + 10 * in_grams(p.aluminium) + 10 * alkali_high, gas = gas_of(gas_per_mole * alkali_high / per_mole);
    CHECK(in_millilitres(p.liquid) == exact(liquid));
    // Foam that lives a minute, poured within half an hour at most, may fill .7 of what is free.
    const double least = std::max(1.5 * liquid, liquid + gas / 30 / .7), good = std::max(3 * liquid, least);
    CHECK(in_millilitres(p.vessel_least) == exact(least));
    CHECK(in_millilitres(p.vessel_good) == exact(good));
    REQUIRE(p.headspace);
    REQUIRE(p.foam);
    const double free = (p.wish.vessel ? in_millilitres(*p.wish.vessel) : good) - liquid;
    CHECK(in_millilitres(*p.headspace) == exact(free));
    CHECK(in_millilitres(p.foam->gas) == exact(gas));
    CHECK(in_millilitres(p.foam->headspace) == exact(free));
    CHECK(in_seconds(p.foam->pouring) == exact(60 * gas / (.7 * free)));
    CHECK(p.foam->portions == static_cast<unsigned>(std::ceil(gas / (.7 * free))));
    CHECK(in_millilitres(p.wash.filled) == exact(liquid));
    CHECK(in_millilitres(p.wash.bed) == exact(.3 * liquid));
    CHECK(in_millilitres(p.wash_water) == exact(p.washes * .7 * liquid));
}

/// Alkali in grams at 2.6 hydroxides, at nine in ten of .15 about it, and of the books' 3; all made up at 10 g to 100 mL.
void check_alkali(const BathPlan& p, double book, double mean) {
    CHECK(in_grams(p.book_alkali) == exact(book));
    CHECK(in_grams(p.alkali.middle) == exact(book * mean / 3));
    CHECK(in_grams(p.alkali.low) == exact(book * (mean - z90 * .15) / 3));
    CHECK(in_grams(p.alkali.high) == exact(book * (mean + z90 * .15) / 3));
    CHECK(in_millilitres(p.middle_volume) == exact(10 * book * mean / 3));
    CHECK(in_millilitres(p.high_volume) == exact(10 * book * (mean + z90 * .15) / 3));
    CHECK(in_millilitres(p.first_portion) == exact(8 * book * mean / 3));
    CHECK(in_millilitres(p.aluminium_solution.volume) == exact(10 * in_grams(p.aluminium)));
    CHECK(in_grams(p.alkali_solution.salt) == exact(in_grams(p.alkali.high)));
    CHECK(p.half_measure_excess == exact(.5 * in_grams(p.aluminium) / book - 1));
}

/// The curves and the bath over by a tenth are those of the titration that the plan stands on.
void check_titration(const BathPlan& p) {
    const Titration bath = titration_of(p);
    CHECK(bath.mass == p.aluminium);
    CHECK(in_millilitres(bath.liquor) == exact(in_millilitres(p.liquor) + 10 * in_grams(p.aluminium)));
    CHECK(in_millilitres_per_gram(bath.solution) == exact(in_millilitres(p.high_volume) / in_grams(p.alkali.high)));
    REQUIRE(p.over_by_tenth);
    const auto over = [&](const CarbonDioxide& gas) { return after_alkali(bath, 1.1 * p.book_alkali, LakeSolid::hydroxide, gas).ph.value(); };
    CHECK(p.over_by_tenth->fizzing.value() == Approx(over(fizzing())).margin(1e-8));
    CHECK(p.over_by_tenth->at_rest.value() == Approx(over(stirred())).margin(1e-8));
    for (const auto& [curve, solid] : {std::pair(p.hydroxide_curve, LakeSolid::hydroxide), std::pair(p.basic_curve, LakeSolid::basic_sulphate)}) {
        if (curve.empty()) continue;
        REQUIRE(curve.size() == 41);
        for (std::size_t i = 0; i < curve.size(); ++i) {
            CHECK(curve[i].hydroxides == exact(.09 * static_cast<double>(i)));
            const auto rest = after_alkali(bath, curve[i].alkali, solid, stirred());
            CHECK(curve[i].laid.value() == Approx(rest.laid.value()).margin(1e-8));
            CHECK(curve[i].ph.has_value() == rest.cloudy());
            if (curve[i].ph) CHECK(curve[i].ph->value() == Approx(rest.ph.value()).margin(1e-8));
        }
    }
}

/// Washes to where a cake that holds nine in ten times no more than `much` keeps 1 %.
unsigned washes_to(double strength) {
    const double held = .8 * .83 / .2 / .998207; // mL/g, of 80 and 17 % of water; water of 20 degC
    const double spread = std::hypot(.06 / (.8 * .2), .05 / .83), much = held * std::exp(1.2815515655446004 * spread);
    return static_cast<unsigned>(std::max(0.0, std::ceil(std::log(strength / (10 / much)) / std::log(1 / .3))));
}

} // namespace

TEST_CASE("the whole plan of 50 g of alum with soda", "[reference]") {
    const BathPlan p = planned(roots_and_alum());
    CHECK(p.by == AmountBy::salt);
    CHECK(in_grams(*p.plant_dry) == exact(100));
    REQUIRE(p.pulls.size() == 2);
    CHECK(in_millilitres(p.pulls[0].water) == exact(1000));
    CHECK(in_millilitres(p.pulls[1].water) == exact(1000));
    CHECK(in_millilitres(p.pulls[0].liquor) == exact(700));
    CHECK(in_millilitres(p.pulls[1].liquor) == exact(1000));
    CHECK(p.pulls[0].left.value() == exact(.3));
    CHECK(p.pulls[1].left.value() == exact(.3 * .3 / 1.3));
    REQUIRE(p.pot_needed);
    CHECK(in_millilitres(*p.pot_needed) == exact(1.25 * (1000 + 100 / 1.45)));
    CHECK_FALSE(p.more_pulls_for_pot);
    CHECK(in_degrees_celsius(p.heat_limit) == exact(70));
    CHECK(in_millilitres(p.liquor) == exact(1700));
    const double aluminium = 50 / alum, book = 1.5 * aluminium * soda, poured = 2.6 / 2 * aluminium;
    check_alkali(p, book, 2.6);
    check_room_and_foam(p, 1700, book * (2.6 + z90 * .15) / 3, soda, 1);
    check_titration(p);
    CHECK(p.basic_curve.size() == 41);
    CHECK(in_grams(p.aluminium_for_ten_millilitres) == exact(1 / soda * 2 / 2.6 * alum));
    CHECK(p.stop.low.value() == exact(6));
    CHECK(p.stop.high.value() == exact(7));
    CHECK(p.rests_within.value() == exact(.2));
    // A fifth of a sulphate stays with each aluminium; of the soda nothing is left.
    const double salts = aluminium * (K + 1.8 * sulphate) + 2 * poured * Na;
    CHECK(in_grams(p.salts) == exact(salts));
    CHECK(in_kilograms_per_cubic_metre(p.salts_strength.value) == exact(1e3 * salts / in_millilitres(p.liquid)));
    CHECK(p.washes == washes_to(1e3 * salts / in_millilitres(p.liquid)));
    REQUIRE(p.lake_inputs);
    CHECK(in_moles(p.lake_inputs->aluminium.value()) == exact(aluminium));
    CHECK(p.lake_inputs->hydroxides.value().value() == exact(2.6));
    CHECK(p.lake_inputs->hydroxides.standard_uncertainty().value() == exact(.15));
    CHECK(in_grams(p.lake_inputs->dye.value()) == exact(.18 * aluminium * hydroxide));
    CHECK(p.lake_inputs->dye.relative_uncertainty() == exact(.5));
    CHECK(p.lake_inputs->water.value().value() == exact(.17));
    CHECK(p.lake_inputs->salts.value().value() == exact(.02));
    CHECK(p.lake_inputs->recovered.value().value() == exact(.9));
    CHECK(in_grams(p.lake->mass) == exact(in_grams(expected_lake(*p.lake_inputs).mass)));
    CHECK_FALSE(p.chalk);
}

TEST_CASE("the whole plan of aluminium chloride with bicarbonate, in a vessel of one's own", "[reference]") {
    BathWish wish;
    wish.aluminium = aluminium_chloride();
    wish.aluminium_mass = grams(20);
    wish.alkali = baking_soda();
    wish.water = litres(1.2); // no plant: the liquor at hand
    wish.vessel = litres(5);
    wish.foam_life = seconds(60);
    const BathPlan p = planned(wish);
    CHECK(p.pulls.empty());
    CHECK_FALSE(p.pot_needed);
    CHECK_FALSE(p.plant_dry);
    const double aluminium = 20 / chloride, book = 3 * aluminium * bicarbonate;
    check_alkali(p, book, 3);
    check_room_and_foam(p, 1200, book * (3 + z90 * .15) / 3, bicarbonate, 1);
    check_titration(p);
    CHECK(p.basic_curve.empty());
    CHECK(in_grams(p.aluminium_for_ten_millilitres) == exact(1 / bicarbonate / 3 * chloride));
    const double salts = aluminium * 3 * (Na + Cl); // the salt of the kitchen
    CHECK(in_grams(p.salts) == exact(salts));
    CHECK(p.washes == washes_to(1e3 * salts / in_millilitres(p.liquid)));
    CHECK(p.lake_inputs->hydroxides.value().value() == exact(3));
    CHECK(in_grams(p.lake_inputs->dye.value()) == exact(.18 * aluminium * hydroxide));
}

TEST_CASE("the whole plan of a maker's own hydroxides, of ammonium alum", "[reference]") {
    BathWish wish = roots_and_alum();
    wish.aluminium = ammonium_alum();
    wish.aluminium_mass = grams(30);
    wish.plant = PlantLot{grams(200), true, PlantPart::leaf}; // 18 % of it dry
    wish.hydroxides = HydroxideBelief{2.7, .05};
    wish.strength = Strength{.2, StrengthBasis::by_volume};
    wish.pulls = 3;
    const BathPlan p = planned(wish);
    CHECK(in_grams(*p.plant_dry) == exact(36));
    REQUIRE(p.pulls.size() == 3);
    CHECK(in_millilitres(p.pulls[2].water) == exact(240));
    CHECK(in_millilitres(p.liquor) == exact(720 - 108));
    CHECK(in_millilitres(*p.pot_needed) == exact(1.25 * (240 + 36 / 1.45)));
    const double aluminium = 30 / ammonia_alum, book = 1.5 * aluminium * soda;
    CHECK(in_grams(p.book_alkali) == exact(book));
    CHECK(in_grams(p.alkali.middle) == exact(book * .9));
    CHECK(in_grams(p.alkali.low) == exact(book * (2.7 - z90 * .05) / 3));
    CHECK(in_grams(p.alkali.high) == exact(book * (2.7 + z90 * .05) / 3));
    CHECK(in_millilitres(p.middle_volume) == exact(5 * book * .9));
    CHECK(in_millilitres(p.aluminium_solution.volume) == exact(150));
    CHECK(in_grams(p.aluminium_for_ten_millilitres) == exact(2 / soda * 2 / 2.7 * ammonia_alum));
    CHECK(p.lake_inputs->hydroxides.value().value() == exact(2.7));
    CHECK(p.lake_inputs->hydroxides.standard_uncertainty().value() == exact(.05));
    const double salts = aluminium * (N + 4 * H + 1.85 * sulphate) + 2.7 * aluminium * Na;
    CHECK(in_grams(p.salts) == exact(salts));
}

TEST_CASE("the whole plan of a bath with chalk", "[reference]") {
    BathWish wish = roots_and_alum();
    wish.alkali = chalk_salt();
    const BathPlan p = planned(wish);
    const double aluminium = 50 / alum, book = 1.5 * aluminium * chalk, middle = book * 2.6 / 3;
    CHECK(in_grams(p.book_alkali) == exact(book));
    CHECK(in_grams(p.alkali.middle) == exact(middle));
    // Stirred up in water, 10 mL to the gram.
    const double high = book * (2.6 + z90 * .15) / 3;
    CHECK(in_grams(p.alkali_solution.water) == exact(10 * high));
    CHECK(in_millilitres(p.alkali_solution.volume) == exact(10 * high));
    CHECK(p.alkali_solution.by_mass.value() == exact(1 / 11.0));
    CHECK(in_grams_per_cubic_centimetre(p.alkali_solution.density) == exact(1.1));
    CHECK_FALSE(p.alkali_dissolves);
    CHECK(in_millilitres(p.first_portion) == exact(8 * middle));
    // Gas, gypsum and alumina of what chalk went in; 2.4 g of gypsum dissolve to a litre.
    const double liquid = 1700 + 500 + 10 * high;
    CHECK(in_millilitres(p.liquid) == exact(liquid));
    CHECK(in_millilitres(p.foam->gas) == exact(gas_of(high / chalk)));
    REQUIRE(p.chalk);
    const double used = middle / chalk, gypsum = used * (Ca + sulphate + 2 * water), gone = 2.4e-3 * liquid, alumina = used / 1.5 * hydroxide;
    CHECK(in_grams(p.chalk->gypsum) == exact(gypsum));
    CHECK(in_grams(p.chalk->gypsum_dissolved) == exact(gone));
    CHECK(in_grams(p.chalk->alumina) == exact(alumina));
    CHECK(in_grams(p.chalk->chalk_left) == Approx(0).margin(1e-12));
    CHECK(in_grams(p.chalk->solids) == exact(gypsum - gone + alumina));
    // Water with the alumina and the dye alone, .17 to .81 of them; all of it with 2 % of salts.
    const double dye = .18 * aluminium * hydroxide, held = .17 / .81 * (alumina + dye), whole = (gypsum - gone + alumina + dye + held) / .98;
    CHECK(p.lake_inputs->water.value().value() == exact(held / whole));
    CHECK(p.lake_inputs->water.standard_uncertainty().value() == exact(.05 * held / whole / .17));
    CHECK(p.washes == 3);
    CHECK(in_millilitres(p.wash.bed) == exact(.3 * liquid));
    CHECK(in_millilitres(p.wash_water) == exact(3 * .7 * liquid));
    CHECK(in_grams(p.lake->mass) == exact(.9 * whole));
    CHECK_FALSE(p.over_by_tenth);
}

TEST_CASE("ammonia water is thinned to its strength", "[reference]") {
    const Salt ammonia{.id = "ammonia-10", .name = "Ammonia water (10 %)", .formula = "NH4OH.7.508H2O", .hydrate_water = 7.508,
                       .gives = [] { Ions ions; ions[Ion::ammonium] = ions[Ion::hydroxide] = 1.0; return ions; }()};
    BathWish wish = roots_and_alum();
    wish.alkali = ammonia;
    const BathPlan p = planned(wish);
    const double per_mole = N + 5 * H + O + 7.508 * water, book = 3 * 50 / alum * per_mole, high = book * (2.6 + z90 * .15) / 3;
    CHECK(in_grams(p.book_alkali) == exact(book));
    CHECK(in_millilitres(p.alkali_solution.volume) == exact(10 * high));
    CHECK(in_grams(p.alkali_solution.water) == exact(9.94 * high - high)); // .994 g/cm3, a value from memory of the header
    CHECK(in_grams_per_cubic_centimetre(p.alkali_solution.density) == exact(.994));
    CHECK(p.alkali_solution.by_mass.value() == exact(1 / 9.94));
    CHECK_FALSE(p.foam);
    CHECK_FALSE(p.headspace);
    CHECK(in_millilitres(p.vessel_least) == exact(1.5 * in_millilitres(p.liquid)));
    CHECK(in_millilitres(p.vessel_good) == exact(3 * in_millilitres(p.liquid)));
}

TEST_CASE("the size of a bath by what alone is known", "[reference]") {
    BathWish wish = roots_and_alum();
    wish.aluminium_mass.reset();
    CHECK(in_grams(planned(wish).aluminium) == exact(50)); // half as much as dry plant
    const double dry[] = {.27, .25, .18, .20, .42};
    for (std::size_t part = 0; part < 5; ++part) {
        wish.plant = PlantLot{grams(300), true, static_cast<PlantPart>(part)};
        CHECK(in_grams(*planned(wish).plant_dry) == exact(300 * dry[part]));
        CHECK(in_grams(planned(wish).aluminium) == exact(150 * dry[part]));
    }
    // Without a plant as much liquor as the plant of so much alum would give: 2 g of it to a gram, 20 mL to each.
    wish.plant.reset();
    wish.aluminium_mass = grams(30);
    CHECK(in_millilitres(planned(wish).liquor) == exact(1200));
    wish.aluminium_mass.reset();
    wish.lake = grams(8);
    const BathPlan p = planned(wish);
    CHECK(p.by == AmountBy::lake);
    CHECK(in_grams(p.lake->mass) == Approx(8).epsilon(1e-9));
    // A lake of nothing, or of a plant of nothing, is no bath.
    wish.lake = grams(0);
    CHECK_THROWS_WITH(planned(wish), Catch::Contains("mass of the aluminium salt"));
    wish = roots_and_alum();
    wish.plant->mass = grams(0);
    CHECK_THROWS_WITH(planned(wish), Catch::Contains("mass of the plant"));
}

TEST_CASE("a pot that just takes a pull takes no more pulls, a hair less does", "[reference]") {
    BathWish wish = roots_and_alum();
    wish.alkali = soda_ash();
    const auto pot_of = [](double pulls) { return 1.25 * (2000 / pulls + 100 / 1.45); };
    for (unsigned pulls = 2; pulls < 7; ++pulls) {
        wish.pot = millilitres(pot_of(pulls) * (1 + 1e-9));
        CHECK(planned(wish).pulls.size() == pulls);
        CHECK(planned(wish).more_pulls_for_pot == (pulls > 2));
        wish.pot = millilitres(pot_of(pulls) * (1 - 1e-6));
        if (pulls < 6) CHECK(planned(wish).pulls.size() == pulls + 1);
        else CHECK_THROWS_WITH(planned(wish), Catch::Contains("pot is 0.50 L") && Catch::Contains("0.50 L or more"));
    }
    // As many pulls as were asked for: the pot that takes them is named.
    wish.pulls = 4;
    wish.pot = millilitres(pot_of(4) * (1 + 1e-9));
    CHECK(planned(wish).pulls.size() == 4);
    wish.pot = millilitres(pot_of(4) * .9);
    CHECK_THROWS_WITH(planned(wish), Catch::Contains("0.71 L or more")); // 1.25 x 569 mL
}

TEST_CASE("a vessel that just takes liquor and foam is taken, a hair less is refused", "[reference]") {
    BathWish wish = roots_and_alum();
    const double least = in_millilitres(planned(wish).vessel_least);
    wish.vessel = millilitres(least * (1 + 1e-9));
    CHECK(in_millilitres(*planned(wish).headspace) == Approx(least - in_millilitres(planned(wish).liquid)).epsilon(1e-6));
    wish.vessel = millilitres(least * (1 - 1e-6));
    CHECK_THROWS_WITH(planned(wish), Catch::Contains("3.5 L") && Catch::Contains("3.7 L or more")); // 1.5 x 2.36 L; a twentieth more
    // Foam that lives for ten minutes asks for more room than half the liquid.
    wish.foam_life = minutes(10);
    wish.vessel.reset();
    const BathPlan p = planned(wish);
    const double liquid = in_millilitres(p.liquid), gas = in_millilitres(p.foam->gas);
    CHECK(gas / 3 / .7 > .5 * liquid - 1);
    CHECK(in_millilitres(p.vessel_least) == exact(std::max(1.5 * liquid, liquid + gas / 3 / .7)));
    wish.foam_life = minutes(60);
    CHECK(in_millilitres(planned(wish).vessel_least) == exact(liquid + 2 * gas / .7));
    CHECK(in_millilitres(planned(wish).vessel_good) == exact(std::max(3 * liquid, liquid + 2 * gas / .7)));
}
