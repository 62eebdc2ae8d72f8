#include "lakebound/bath/bath_plan.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "kitchen_bath.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

BathPlan plan(const BathWish& wish) { return plan_bath(wish, usual_laking(), usual_wash_habits()); }

} // namespace

TEST_CASE("100 g of roots and 50 g of alum", "[reference]") {
    const BathPlan p = plan(roots_and_alum());
    // Domain brief A.2 and B.4, own computation there: 2.0 L in two pulls leave 6.9 %, 1.70 L drain off.
    CHECK(p.pulls.size() == 2);
    CHECK(p.pulls.back().left.value() == Approx(.069).margin(.001));
    CHECK(in_litres(p.liquor) == Approx(1.70).epsilon(1e-9));
    // B.1 and B.4: soda 16.757 g for the book; 2.6 and 2.6 +- .15 x 1.645 hydroxides by proportion.
    CHECK(in_grams(p.book_alkali) == Approx(16.757).margin(.002));
    CHECK(in_grams(p.alkali.middle) == Approx(16.757 * 2.6 / 3).margin(.003));
    CHECK(in_grams(p.alkali.low) == Approx(16.757 * (2.6 - 1.645 * .15) / 3).margin(.003));
    CHECK(in_grams(p.alkali.high) == Approx(16.757 * (2.6 + 1.645 * .15) / 3).margin(.003));
    CHECK(in_millilitres(p.high_volume) == Approx(in_grams(p.alkali.high) * 10).epsilon(1e-9)); // 10 % w/v
    CHECK(in_millilitres(p.first_portion) == Approx(.8 * in_grams(p.alkali.middle) * 10).epsilon(1e-9));
    CHECK(in_millilitres(p.aluminium_solution.volume) == Approx(500).epsilon(1e-9));
    // Half as much soda as alum, both of 10 %: 49 % too much (domain brief B.9; common practice, no source).
    CHECK(p.half_measure_excess == Approx(.49).margin(.003));
    // Domain brief E.1: about 10.7 g (.90 recovered of 11.9 g) and 1.77 +- .10 g/cm3.
    REQUIRE(p.lake);
    CHECK(in_grams(p.lake->mass) == Approx(11.5).margin(1.0));
    CHECK(in_grams_per_cubic_centimetre(p.lake->density) == Approx(1.77).margin(.05));
    // By hand: a cake drained to 80 % holds 3.33 mL to a gram of lake, and 1.63 times that nine
    // times in ten at most, so 1 % of it is 1.85 g/L; .3 stays with each wash.
    const double strength = in_kilograms_per_cubic_metre(p.salts_strength.value);
    CHECK(p.washes == static_cast<unsigned>(std::ceil(std::log(strength / 1.848) / std::log(1 / .3))));
    CHECK(p.washes == 2);
    CHECK(p.cautions.front() == BathCaution::never_closed);
}

TEST_CASE("doubling everything doubles everything but times and numbers", "[identity]") {
    BathWish one = roots_and_alum(), two = roots_and_alum();
    one.vessel = litres(6);
    two.vessel = litres(12);
    two.plant->mass = grams(200);
    two.aluminium_mass = grams(100);
    const BathPlan a = plan(one), b = plan(two);
    CHECK(in_litres(b.liquor) == Approx(2 * in_litres(a.liquor)).epsilon(1e-9));
    CHECK(in_grams(b.alkali.high) == Approx(2 * in_grams(a.alkali.high)).epsilon(1e-9));
    CHECK(in_grams(b.lake->mass) == Approx(2 * in_grams(a.lake->mass)).epsilon(1e-9));
    CHECK(in_grams(b.salts) == Approx(2 * in_grams(a.salts)).epsilon(1e-9));
    CHECK(in_litres(b.foam->gas) == Approx(2 * in_litres(a.foam->gas)).epsilon(1e-9));
    CHECK(in_seconds(b.foam->pouring) == Approx(in_seconds(a.foam->pouring)).epsilon(1e-9));
    CHECK(b.washes == a.washes);
    CHECK(in_kilograms_per_cubic_metre(b.lake->density) == Approx(in_kilograms_per_cubic_metre(a.lake->density)).epsilon(1e-9));
}

TEST_CASE("the size of a bath by the lake, or by the plant", "[identity]") {
    BathWish wish = roots_and_alum();
    wish.aluminium_mass.reset();
    const BathPlan by_plant = plan(wish);
    CHECK(by_plant.by == AmountBy::plant);
    CHECK(in_grams(by_plant.aluminium) == Approx(50));
    wish.lake = grams(20);
    const BathPlan by_lake = plan(wish);
    CHECK(by_lake.by == AmountBy::lake);
    CHECK(in_grams(by_lake.lake->mass) == Approx(20).epsilon(1e-6));
    wish.plant->fresh = true;
    wish.lake.reset();
    CHECK(in_grams(*plan(wish).plant_dry) == Approx(27));
}

TEST_CASE("a small pot takes more pulls", "[unit]") {
    BathWish wish = roots_and_alum();
    wish.pot = litres(1.0);
    const BathPlan p = plan(wish);
    CHECK(p.more_pulls_for_pot);
    CHECK(p.pulls.size() == 3);
    wish.pot = millilitres(300);
    CHECK_THROWS_AS(plan(wish), DomainError);
    wish.pot = litres(1.0);
    wish.pulls = 2; // asked for, and it does not fit
    CHECK_THROWS_AS(plan(wish), DomainError);
}

TEST_CASE("a vessel too small is refused with the size that does", "[errors]") {
    BathWish wish = roots_and_alum();
    wish.vessel = litres(2.5);
    std::string valid;
    try {
        plan(wish);
    } catch (const DomainError& error) {
        valid = error.valid();
    }
    CHECK_THAT(valid, Catch::Contains("L or more"));
    wish.vessel = litres(std::stod(valid));
    CHECK_NOTHROW(plan(wish)); // and that size does
    wish.foam_life = minutes(10); // a plant that lathers
    CHECK_THROWS_AS(plan(wish), DomainError);
}

TEST_CASE("a fizzing bath reads low, and the curves part", "[unit]") {
    const BathPlan p = plan(roots_and_alum());
    REQUIRE(p.over_by_tenth);
    CHECK(p.over_by_tenth->at_rest.value() - p.over_by_tenth->fizzing.value() > 1.0);
    CHECK(p.over_by_tenth->at_rest.value() - p.over_by_tenth->fizzing.value() < 2.5);
    REQUIRE(p.hydroxide_curve.size() == p.basic_curve.size());
    CHECK_FALSE(p.hydroxide_curve.front().ph);
    CHECK(*p.basic_curve[30].ph > *p.hydroxide_curve[30].ph); // 2.7 hydroxides: past one stop, not the other
}

TEST_CASE("chalk makes another pigment, acetate and lime are not planned", "[errors]") {
    BathWish wish = roots_and_alum();
    wish.alkali = chalk_salt();
    const BathPlan p = plan(wish);
    REQUIRE(p.chalk);
    REQUIRE(p.lake);
    CHECK(in_grams(p.lake->mass) > 2.0 * in_grams(plan(roots_and_alum()).lake->mass)); // gypsum besides
    CHECK(p.washes == 3);
    // Only the alumina and the dye hold water: of 33 g they are 9.7, so 17 % become about 6, and it is denser.
    CHECK(p.lake_inputs->water.value().value() == Approx(.06).margin(.01));
    CHECK(in_grams_per_cubic_centimetre(p.lake->density) == Approx(2.15).margin(.05));
    CHECK(p.hydroxide_curve.empty());
    CHECK(p.chalk->alumina_share.value() < .4);
    wish.aluminium_mass.reset();
    wish.lake = grams(10);
    CHECK_THROWS_AS(plan(wish), DomainError);
    BathWish lime = roots_and_alum(), acetate = roots_and_alum(), turned = roots_and_alum(), empty = roots_and_alum();
    lime.alkali = slaked_lime();
    CHECK_THROWS_AS(plan(lime), DomainError);
    acetate.aluminium = basic_aluminium_acetate();
    CHECK_THROWS_AS(plan(acetate), DomainError);
    turned.aluminium = soda_ash();
    CHECK_THROWS_AS(plan(turned), DomainError);
    turned = roots_and_alum();
    turned.alkali = potash_alum();
    CHECK_THROWS_AS(plan(turned), DomainError);
    empty.plant.reset();
    empty.aluminium_mass.reset();
    CHECK_THROWS_AS(plan(empty), DomainError);
    empty.aluminium_mass = grams(0);
    CHECK_THROWS_AS(plan(empty), DomainError);
}

TEST_CASE("the curves of a plan run from nothing to two fifths too much in 40 steps", "[unit]") {
    const BathPlan p = plan(roots_and_alum());
    REQUIRE(p.hydroxide_curve.size() == 41);
    CHECK(p.basic_curve.size() == 41);
    CHECK(in_grams(p.hydroxide_curve.front().alkali) == Approx(0.0).margin(1e-12));
    const double whole = in_grams(p.hydroxide_curve.back().alkali);
    for (std::size_t i = 0; i < 41; ++i)
        CHECK(in_grams(p.hydroxide_curve[i].alkali) == Approx(whole * static_cast<double>(i) / 40).margin(1e-9));
}

TEST_CASE("ammonia water is an alkali without foam", "[reference]") {
    // Domain brief B.1: 107.7 g of ammonia of 10 % to 100 g of potassium alum, three hydroxides to an aluminium.
    const Salt ammonia{.id = "ammonia-10", .name = "Ammonia water (10 %)", .formula = "NH4OH.7.508H2O", .hydrate_water = 7.508,
                       .gives = [] { Ions ions; ions[Ion::ammonium] = ions[Ion::hydroxide] = 1.0; return ions; }()};
    CHECK(is_consistent(ammonia));
    CHECK(in_grams(alkali_needed(potash_alum(), grams(100), ammonia, HydroxidesPerAluminium::of(3.0))) == Approx(107.7).margin(.1));
    BathWish wish;
    wish.aluminium = potash_alum();
    wish.aluminium_mass = grams(50);
    wish.alkali = ammonia;
    wish.water = litres(1.5);
    const BathPlan plan = plan_bath(wish, usual_laking(), usual_wash_habits());
    CHECK_FALSE(plan.foam);
    CHECK(in_millilitres(plan.alkali_solution.volume) == Approx(10 * in_grams(plan.alkali.high)).epsilon(1e-9)); // 10 g in 100 mL
    CHECK(plan.over_by_tenth.value().at_rest > Ph::of(7.5)); // a tenth too much: ammonia is free
    CHECK(plan.lake);
    REQUIRE(plan.hydroxide_curve.back().ph);
    CHECK(*plan.hydroxide_curve.back().ph < Ph::of(10)); // weaker than soda in air
    CHECK(std::find(plan.cautions.begin(), plan.cautions.end(), BathCaution::ammonia) != plan.cautions.end());
}

TEST_CASE("a salt without sulphate takes the books' hydroxide, and its plan reaches its own stop", "[unit]") {
    auto wish = roots_and_alum();
    const auto laking = usual_laking();
    const auto washing = usual_wash_habits();
    CHECK(usual_hydroxides(potash_alum(), laking).mean == Approx(2.6));
    CHECK(usual_hydroxides(aluminium_chloride(), laking).mean == Approx(book_hydroxides));
    CHECK(usual_hydroxides(aluminium_chloride(), laking).standard_uncertainty == Approx(laking.hydroxides.standard_uncertainty().value()));
    wish.aluminium = aluminium_chloride();
    const BathPlan plan = plan_bath(wish, laking, washing);
    CHECK(plan.basic_curve.empty());
    CHECK(in_grams(plan.alkali.middle) == Approx(in_grams(plan.book_alkali)));
    // Its own curve comes to the stop between the lowest and the highest amount that is made up.
    const auto at = std::find_if(plan.hydroxide_curve.begin(), plan.hydroxide_curve.end(),
                                 [&](const TitrationPoint& point) { return point.ph && *point.ph >= plan.stop.low; });
    REQUIRE(at != plan.hydroxide_curve.end());
    CHECK(at->alkali > plan.alkali.low);
    CHECK(at->alkali < plan.alkali.high);
    // Amounts go with the hydroxides, beyond the books' three too.
    CHECK(in_grams(plan.alkali.high) / in_grams(plan.book_alkali) == Approx((3.0 + 1.6448536 * .15) / 3.0));
}
