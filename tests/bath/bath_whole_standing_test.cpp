// Where a bath stands, whole: every figure is that of its own topic for these readings, and each step turns where it should.

#include "lakebound/bath/bath_progress.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>
#include <vector>

#include "kitchen_bath.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

Approx to_last(double x) { return Approx(x).epsilon(1e-10).margin(1e-15); }
PenReading pen_shows(double us) { return {microsiemens_per_centimetre(us), degrees_celsius(25), {}}; }
bool has_doubt(const BathStanding& standing, BathDoubt doubt) {
    return std::find(standing.doubts.begin(), standing.doubts.end(), doubt) != standing.doubts.end();
}
std::vector<PhSeen> twice(double ph, PhMeans means = PhMeans::pen) { return {{Ph::of(ph), means, false}, {Ph::of(ph), means, false}}; }

// 50 g of potassium alum, 474.372 g/mol, with soda, 105.988 g/mol.
constexpr double aluminium_mol = 50 / 474.372, soda_mol = 105.988;
double soda_for(double hydroxides) { return aluminium_mol * hydroxides / 2 * soda_mol; }

/// x between low and high, where `above` begins to hold; it does not at low, and does at high.
double turning(double low, double high, const std::function<bool(double)>& above) {
    REQUIRE_FALSE(above(low));
    REQUIRE(above(high));
    for (int i = 0; i < 45; ++i) {
        const double middle = .5 * (low + high);
        (above(middle) ? high : low) = middle;
    }
    return high;
}

} // namespace

TEST_CASE("what is expected of a bath grows with the alum against too much", "[reference]") {
    const auto s = kitchen_bath();
    BathReadings r{};
    CHECK(in_grams(bath_standing(r, s).expected.mass) == to_last(in_grams(expected_lake(s.lake).mass)));
    CHECK(bath_standing(r, s).to_expect_kg.low == to_last(expected_lake(s.lake).mass_kg.low));
    CHECK(bath_standing(r, s).to_expect_kg.high == to_last(expected_lake(s.lake).mass_kg.high));
    r.aluminium = {grams(.1)}; // two thousandths
    auto hardly = s.lake;
    hardly.aluminium = Estimate<AmountOfSubstance>::exact(1.002 * s.lake.aluminium.value(), {});
    CHECK(in_grams(bath_standing(r, s).expected.mass) == to_last(in_grams(expected_lake(hardly).mass)));
    r.aluminium = {grams(5), grams(20)};
    LakeEstimate more = s.lake;
    more.aluminium = sure(1.5 * s.lake.aluminium.value());
    CHECK(in_grams(bath_standing(r, s).expected.mass) == to_last(in_grams(expected_lake(more).mass)));
    // No chalk, no pH: of a bath with chalk the lake is that of its chalk.
    auto c = s;
    c.bath.alkali = chalk_salt();
    c.chalk = chalk_lake(potash_alum(), grams(50), chalk_salt(), grams(15), litres(1.5), kilograms_per_cubic_metre(2.4));
    CHECK(in_grams(bath_standing({}, c).expected.mass) == to_last(in_grams(expected_chalk_lake(*c.chalk, c.lake).mass)));
}

TEST_CASE("the alkali of a bath by what is believed of its hydroxides", "[reference]") {
    const auto s = kitchen_bath(); // 2.6 +- .15
    BathReadings r{};
    r.alkali = {grams(2), grams(1.5)};
    const auto a = bath_standing(r, s).alkali.value();
    CHECK(in_grams(a.poured) == to_last(3.5));
    CHECK(in_grams(a.needed) == to_last(soda_for(2.6)));
    CHECK(in_grams(a.needed_low) == to_last(soda_for(2.6 - 1.645 * .15)));
    CHECK(in_grams(a.needed_high) == to_last(soda_for(2.6 + 1.645 * .15)));
    CHECK(a.hydroxides_poured == to_last(3.5 / soda_mol * 2 / aluminium_mol));
    CHECK(in_grams(a.pour_now.value()) == to_last(.8 * (soda_for(2.6) - 3.5)));
    CHECK_FALSE(a.add_aluminium);
    CHECK_FALSE(a.ph);
    // A maker whose hydroxides lie at an end: nothing beyond 2 and 3 is believed.
    auto own = s;
    own.hydroxides = {2.9, .15};
    CHECK(in_grams(bath_standing(r, own).alkali->needed_high) == to_last(soda_for(3)));
    own.hydroxides = {2.1, .15};
    CHECK(in_grams(bath_standing(r, own).alkali->needed_low) == to_last(soda_for(2)));
    // Poured until the least that may be wanted is in; then it is stirred and read.
    const auto next = [&](double soda) {
        r.alkali = {grams(soda)};
        return bath_standing(r, s).next;
    };
    CHECK(next(soda_for(2.6 - 1.645 * .15) - 1e-6) == BathStep::pour_alkali);
    CHECK(next(soda_for(2.6 - 1.645 * .15) + 1e-6) == BathStep::stir_and_read);
}

TEST_CASE("a portion against too little, and alum against too much, to the last figure", "[reference]") {
    const auto s = kitchen_bath();
    BathReadings r{};
    const auto at = [&](double soda, double ph) {
        r.alkali = {grams(soda)}, r.ph = twice(ph, PhMeans::strip);
        return bath_standing(r, s).alkali.value();
    };
    const double middle = soda_for(2.6), high = soda_for(2.6 + 1.645 * .15), low = soda_for(2.6 - 1.645 * .15);
    CHECK(in_grams(at(middle - 1, 5.5).pour_now.value()) == to_last(.8));
    CHECK(in_grams(at(middle + .5, 5.5).pour_now.value()) == to_last(.8 * (high - middle - .5)));
    CHECK(in_grams(at(high + .1, 5.5).pour_now.value()) == to_last(.8 * .01 * middle));
    const auto alum_for = [](double soda, double n) { return soda / soda_mol * 2 / n * 474.372; };
    CHECK(in_grams(at(middle + 1, 7.5).add_aluminium.value()) == to_last(alum_for(1, 2.6)));
    CHECK(in_grams(at(middle - .5, 7.5).add_aluminium.value()) == to_last(alum_for(middle - .5 - low, 2.6 - 1.645 * .15)));
    auto own = s; // of one who knows that it takes more: below all that is believed a hundredth of the alum
    own.hydroxides = {2.95, .01};
    r.alkali = {grams(soda_for(2.9))}, r.ph = twice(7.5, PhMeans::strip);
    CHECK(in_grams(bath_standing(r, own).alkali->add_aluminium.value()) == to_last(.01 * 50));
    // At the stop the end point is learned: normal on normal, .15 and .1.
    const auto learned = at(14, 6.5).learned.value();
    const double n = 14 / soda_mol * 2 / aluminium_mol;
    CHECK(learned.mean == to_last((2.6 / .0225 + n / .01) / (1 / .0225 + 1 / .01)));
    CHECK(learned.standard_uncertainty == to_last(1 / std::sqrt(1 / .0225 + 1 / .01)));
    CHECK_FALSE(at(14, 6.5).pour_now);
    CHECK_FALSE(at(14, 6.5).add_aluminium);
}

TEST_CASE("a pH is open by its means, and what it may be by the model", "[reference]") {
    auto s = kitchen_bath();
    BathReadings r{};
    r.alkali = {grams(14)};
    for (const auto& [means, u] : {std::pair{PhMeans::strip, .5}, {PhMeans::pen, .2}}) {
        r.ph = twice(6.4, means);
        const auto a = bath_standing(r, s).alkali.value();
        CHECK(a.ph->low.value() == to_last(6.4 - u));
        CHECK(a.ph->high.value() == to_last(6.4 + u));
        CHECK(a.read_to.value() == to_last(u));
        CHECK(a.possible->low == possible_ph(s.bath, grams(14)).low);
        CHECK(a.possible->high == possible_ph(s.bath, grams(14)).high);
        // Two of its own doubts beyond what is possible the salt is looked at.
        const auto next = [&](double ph) {
            r.ph = twice(ph, means);
            return bath_standing(r, s).next;
        };
        CHECK(next(a.possible->low.value() - 2 * u + 1e-6) != BathStep::look_at_the_salt);
        CHECK(next(a.possible->low.value() - 2 * u - 1e-6) == BathStep::look_at_the_salt);
        if (a.possible->high.value() + 2 * u < 14) {
            CHECK(next(a.possible->high.value() + 2 * u - 1e-6) != BathStep::look_at_the_salt);
            CHECK(next(a.possible->high.value() + 2 * u + 1e-6) == BathStep::look_at_the_salt);
        }
    }
    // With chalk no more than chalk can bring, 9.9, and what the reading leaves open.
    s.bath.alkali = chalk_salt();
    s.chalk = chalk_lake(potash_alum(), grams(50), chalk_salt(), grams(15), litres(1.5), kilograms_per_cubic_metre(2.4));
    const auto chalk = [&](double ph) {
        r.ph = twice(ph);
        return bath_standing(r, s);
    };
    CHECK(chalk(10.29).next == BathStep::settle_and_wash);
    CHECK(chalk(10.31).next == BathStep::look_at_the_salt);
    CHECK(has_doubt(chalk(6.5), BathDoubt::chalk_is_slow));
    CHECK_FALSE(chalk(6.5).alkali->possible);
    CHECK_FALSE(chalk(6.5).alkali->learned);
    CHECK_FALSE(has_doubt(chalk(5), BathDoubt::hydroxides_unknown));
    // Sour, and as much as may be wanted is in: it is slow. By 2.6 + 1.645 x .15 hydroxides of 100.086 g/mol.
    const double enough = aluminium_mol * (2.6 + 1.645 * .15) / 2 * 100.086;
    const auto sour = [&](double grams_of_chalk) {
        r.alkali = {grams(grams_of_chalk)}, r.ph = twice(5);
        return bath_standing(r, s).next;
    };
    CHECK(sour(enough - 1e-3) == BathStep::pour_rest_by_drops);
    CHECK(sour(enough + 1e-3) == BathStep::stir_and_read);
}

TEST_CASE("foam of what is still to be poured, in the room that there is", "[reference]") {
    auto s = kitchen_bath();
    BathReadings r{};
    r.alkali = {grams(5)}, r.foam_life = seconds(60);
    const auto foam = bath_standing(r, s).alkali->foam.value();
    const double gas = .8 * (soda_for(2.6) - 5) / soda_mol * 8.314462618 * 313.15 / 101325 * 1e3; // L, at 40 degC
    CHECK(in_litres(foam.gas) == to_last(gas));
    CHECK(in_litres(foam.headspace) == to_last(1.5));
    CHECK(in_seconds(foam.pouring) == to_last(60 * gas / 1.05));
    CHECK(foam.portions == static_cast<unsigned>(std::ceil(gas / 1.05)));
    s.headspace = litres(1e-4); // a thimble is room too
    CHECK(bath_standing(r, s).alkali->foam);
    s = kitchen_bath();
    s.bath.alkali = salt_of("NaOH", 0, {{Ion::sodium, 1}, {Ion::hydroxide, 1}}); // no gas
    CHECK_FALSE(bath_standing(r, s).alkali->foam);
}

TEST_CASE("at the filter, with all of the liquor where none is said", "[reference]") {
    auto s = kitchen_bath();
    BathReadings r{};
    r.filter = {{minutes(10), litres(.3)}, {minutes(30), litres(.6)}};
    CHECK(in_litres(bath_standing(r, s).filter->rest) == to_last(0)); // no liquor is known: what has run
    s.dye_liquor = litres(1.7);
    CHECK(in_litres(bath_standing(r, s).filter->rest) == to_last(1.1));
    r.to_filter = litres(.9);
    CHECK(in_litres(bath_standing(r, s).filter->rest) == to_last(.3));
    // A second paper as soon as it is likelier to pay than not.
    const auto standing = [&](double whole) {
        r.to_filter = litres(whole);
        return bath_standing(r, s);
    };
    const double from = turning(.61, 3, [&](double whole) { return standing(whole).filter->second_pays.value() > .5; });
    CHECK(standing(from).next == BathStep::fold_second_paper);
    CHECK(standing(from - 1e-6).next == BathStep::let_it_run);
    const double surely = turning(.61, 3, [&](double whole) { return standing(whole).filter->second_pays.value() > .6; });
    CHECK(surely > from + 1e-3);
}

TEST_CASE("in the wash every figure is its own topic's", "[reference]") {
    const auto s = kitchen_bath();
    BathReadings r{};
    r.wash_water = pen_shows(200);
    r.decants = {pen_shows(5000), pen_shows(2100)};
    const auto at = bath_standing(r, s);
    const auto salts = [&](double us) { return salts_in_decant(pen_shows(us), *r.wash_water, s.pen, s.salts); };
    CHECK(in_kilograms_per_cubic_metre(at.water->strength.value) == to_last(in_kilograms_per_cubic_metre(salts(2100).strength.value)));
    CHECK(at.kept->observed == to_last(salts(2100).strength.value / salts(5000).strength.value));
    CHECK(at.kept->expected == to_last(.3));
    const auto expected = expected_lake(s.lake);
    WashedLake lake{};
    lake.water = salts(2100), lake.bed = s.bed, lake.filled = s.filled, lake.stirred_to = s.habits.stirred_to, lake.held = usual_held(s.habits);
    lake.lake = Estimate<Mass>::lognormal(expected.mass, std::exp((expected.mass_standard_uncertainty / expected.mass).value()), {});
    auto whole = wash_outlook(lake, MassFraction::of(.01), solids_of_wash_water(microsiemens_per_centimetre(200), s.habits));
    CHECK(at.washed->left.value() == to_last(whole.left.value()));
    CHECK(at.washed->left_high.value() == to_last(whole.left_high.value()));
    CHECK(at.washed->clean.value() == to_last(whole.clean.value()));
    CHECK(at.washed->from_wash_water.value() == to_last(whole.from_wash_water.value()));
    REQUIRE(at.washed->sure == whole.sure);
    // Twelve hours for each wash, then the drying that is usual.
    const auto dry = usual_drying(s.habits.drying);
    CHECK(in_hours(at.dry_after->early) == to_last(12.0 * *whole.sure + in_hours(dry.early)));
    CHECK(in_hours(at.dry_after->likely) == to_last(12.0 * *whole.sure + in_hours(dry.likely)));
    CHECK(in_hours(at.dry_after->late) == to_last(12.0 * *whole.sure + in_hours(dry.late)));
    // What the volumes promise is kept or not: at two standard uncertainties of the logarithm washes are taken as they go.
    const auto kept = [&](double us) {
        r.decants = {pen_shows(5000), pen_shows(us)};
        return bath_standing(r, s);
    };
    const auto surprise = [&](double us) {
        const auto k = *kept(us).kept;
        return std::log(k.observed / k.expected) / k.log_standard_uncertainty;
    };
    const double trapped = turning(1500, 4500, [&](double us) { return surprise(us) > 2; });
    CHECK_FALSE(has_doubt(kept(trapped - 1e-6), BathDoubt::salts_trapped));
    const auto slow = kept(trapped + 1e-6);
    CHECK(has_doubt(slow, BathDoubt::salts_trapped));
    lake.water = *slow.water;
    lake.filled = Estimate<Volume>::lognormal(litres(.45 / slow.kept->observed), 1.03, {});
    whole = wash_outlook(lake, MassFraction::of(.01), solids_of_wash_water(microsiemens_per_centimetre(200), s.habits));
    CHECK(slow.washed->left.value() == to_last(whole.left.value()));
    CHECK(slow.washed->course.back().left.value() == to_last(whole.course.back().left.value()));
    CHECK(slow.washed->course.back().high.value() == to_last(whole.course.back().high.value()));
    CHECK(has_doubt(kept(5000), BathDoubt::salts_rose)); // none was washed out
    CHECK_FALSE(has_doubt(kept(5000), BathDoubt::salts_trapped));
    CHECK_FALSE(has_doubt(kept(4999), BathDoubt::salts_rose));
    // The first of two must hold more than twice what is open of it: 2 sqrt(u^2 + u^2) over the water's 200.
    const auto compared = [&](double us) {
        r.decants = {pen_shows(us), pen_shows(205)};
        return bath_standing(r, s).kept.has_value();
    };
    const double enough = turning(200.5, 260, compared);
    const auto before = salts(enough);
    CHECK(in_kilograms_per_cubic_metre(before.strength.value) == Approx(2 * in_kilograms_per_cubic_metre(before.standard_uncertainty)).epsilon(1e-6));
}

TEST_CASE("a lake that was weighed while it dried is as large as it was weighed", "[reference]") {
    const auto s = kitchen_bath();
    BathReadings r{};
    r.wash_water = pen_shows(200), r.decants = {pen_shows(800)}, r.weighings = weighed_daily({38.6, 24.9, 17.9, 14.2});
    const auto at = bath_standing(r, s);
    REQUIRE(at.dried);
    const auto expected = expected_lake(s.lake);
    const auto prior = Estimate<Mass>::lognormal(expected.mass, std::exp((expected.mass_standard_uncertainty / expected.mass).value()), {});
    const auto dried = drying_outlook(r.weighings, s.scale, s.habits.drying, prior);
    CHECK(in_grams(at.dried->end) == to_last(in_grams(dried.end)));
    CHECK(in_grams(at.dried->end_high) == to_last(in_grams(dried.end_high)));
    CHECK(in_hours(at.dried->sure.value()) == to_last(in_hours(dried.sure.value())));
    CHECK(at.to_expect_kg.low == to_last(in_kilograms(dried.end_low)));
    CHECK(at.to_expect_kg.high == to_last(in_kilograms(dried.end_high)));
    WashedLake lake{};
    lake.water = salts_in_decant(pen_shows(800), *r.wash_water, s.pen, s.salts), lake.bed = s.bed, lake.filled = s.filled;
    lake.stirred_to = s.habits.stirred_to, lake.held = usual_held(s.habits);
    lake.lake = Estimate<Mass>::lognormal(dried.end, std::exp((dried.end_high - dried.end_low).value() / (3.29 * dried.end.value())), {});
    const auto whole = wash_outlook(lake, MassFraction::of(.01), solids_of_wash_water(microsiemens_per_centimetre(200), s.habits));
    CHECK(at.washed->left_high.value() == to_last(whole.left_high.value()));
    CHECK_FALSE(has_doubt(at, BathDoubt::if_drained));
    CHECK_FALSE(at.dry_after);
    // Far from what its bath lets expect it is the bath's again.
    r.weighings = weighed_daily({386, 249, 179, 142});
    const auto unlike = bath_standing(r, s);
    CHECK(has_doubt(unlike, BathDoubt::unlike_the_bath));
    CHECK(unlike.to_expect_kg.low == to_last(expected.mass_kg.low));
}

TEST_CASE("on the scale each word turns where its figure does", "[reference]") {
    const auto s = kitchen_bath();
    BathReadings r{};
    // Nine in ten that it is dry, while it still falls: jarred; less: kept.
    const auto falling = [&](double hours_on) {
        r.weighings = weighed_daily({38.6, 24.9, 17.9, 14.3, 12.5});
        r.weighings.push_back({hours(hours_on), grams(10.6 + 28 * std::exp(-hours_on / 35.7)), false});
        return bath_standing(r, s);
    };
    const double dry = turning(150, 260, [&](double h) { return falling(h).dried->dry_now.value() >= .9; });
    REQUIRE(falling(dry).dried->state == DryingState::falling);
    CHECK(falling(dry + 1e-6).next == BathStep::jar_it);
    CHECK(falling(dry + 1e-6).stage == BathStage::at_rest);
    CHECK(falling(dry - 1e-3).next == BathStep::keep_drying);
    CHECK(falling(dry - 1e-3).stage == BathStage::drying);
    // A fifth of the end between the two ends of nine in ten.
    const auto spread = [&](double repeats_to) {
        auto rough = s;
        rough.scale.repeatability = grams(repeats_to);
        r.weighings = weighed_daily({38.6, 24.9, 17.9, 14.2});
        return bath_standing(r, rough);
    };
    const auto wide = [&](double repeats_to) {
        const auto d = *spread(repeats_to).dried;
        return d.end_high - d.end_low > .2 * d.end;
    };
    const double open = turning(.001, 1, wide);
    CHECK(has_doubt(spread(open + 1e-9), BathDoubt::end_open));
    CHECK_FALSE(has_doubt(spread(open - 1e-9), BathDoubt::end_open));
    // Two weighings of it tell nothing yet, three at an even rate that the end is open.
    r.weighings = weighed_daily({60, 50});
    CHECK_FALSE(has_doubt(bath_standing(r, s), BathDoubt::end_open));
    r.weighings = weighed_daily({60, 50, 40});
    CHECK(has_doubt(bath_standing(r, s), BathDoubt::end_open));
}

TEST_CASE("a blanket and the colour in its liquor, to the last figure", "[reference]") {
    auto s = kitchen_bath();
    s.dye_liquor = litres(1);
    BathReadings r{};
    r.alkali = {grams(14)}, r.aluminium = {grams(10)}, r.colour = ColourMatch{4};
    const auto second = bath_standing(r, s).second.value();
    const auto laying = second_laying({4}, litres(1.3 + .14), litres(1), s.habits.colour);
    CHECK(second.laying.left.value() == to_last(.36));
    CHECK(second.laying.alumina.value() == to_last(laying.alumina.value()));
    CHECK(second.laying.pays.value() == to_last(laying.pays.value()));
    CHECK(in_grams(second.aluminium) == to_last(60 * laying.alumina.value()));
    CHECK(in_grams(second.alkali) == to_last(1.2 * soda_for(2.6) * laying.alumina.value()));
    r.blanket = InterfaceHeights{millimetres(100), millimetres(62), millimetres(48), hours(2)};
    const auto sinking = bath_standing(r, s).sinking.value();
    const auto zone = fit_zone_settling(*r.blanket);
    const auto open = zone_interval(*r.blanket, millimetres(1), Share::of(.05), .9);
    CHECK(in_hours(sinking.draw_off) == to_last(in_hours(decant_time(zone, Share::of(.05)))));
    CHECK(in_hours(sinking.low) == to_last(in_hours(open.decant_low)));
    CHECK(in_hours(sinking.high.value()) == to_last(in_hours(open.decant_high.value())));
    CHECK(in_millimetres(sinking.blanket) == to_last(in_millimetres(interface_height(zone, sinking.draw_off))));
    CHECK(bath_standing(r, s).stage == BathStage::washing);
    r.decants = {pen_shows(900)}, r.wash_water = pen_shows(200);
    r.weighings = weighed_daily({38.6, 24.9, 17.9});
    CHECK(bath_standing(r, s).stage == BathStage::drying); // a blanket does not set it back
}
