#include "lakebound/bath/bath_progress.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "kitchen_bath.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
bool doubts(const BathStanding& standing, BathDoubt doubt) {
    return std::find(standing.doubts.begin(), standing.doubts.end(), doubt) != standing.doubts.end();
}
PenReading reads(double us) { return {microsiemens_per_centimetre(us), degrees_celsius(25), {}}; }
} // namespace

TEST_CASE("a bath of which nothing was read is to be begun", "[unit]") {
    const auto standing = bath_standing({}, kitchen_bath());
    CHECK(standing.stage == BathStage::planned);
    CHECK(standing.next == BathStep::begin);
    CHECK(in_grams(standing.expected.mass) == Approx(11).margin(2));
    CHECK_FALSE(standing.alkali);
}

TEST_CASE("at the filter", "[unit]") {
    BathReadings r{};
    r.filter = {{minutes(5), litres(.3)}};
    CHECK(bath_standing(r, kitchen_bath()).next == BathStep::read_filter_again);
    r.filter = {{minutes(30), litres(.3)}, {hours(2), litres(.6)}};
    r.to_filter = litres(1.7);
    auto standing = bath_standing(r, kitchen_bath());
    CHECK(standing.stage == BathStage::straining);
    CHECK(standing.next == BathStep::fold_second_paper);
    r.to_filter = litres(.62);
    r.filter = {{minutes(1), litres(.3)}, {minutes(2.5), litres(.6)}};
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::let_it_run);
    REQUIRE(standing.filter);
    CHECK(in_minutes(standing.filter->finish.middle) < 4);
}

TEST_CASE("alkali is poured until the bath says stop", "[unit]") {
    // 50 g of potassium alum: 14.5 g of soda ash at 2.6 hydroxides, 12.5 to 16.8 nine in ten (2.6 +- .15, to 3 at most).
    BathReadings r{};
    r.alkali = {grams(5)};
    auto standing = bath_standing(r, kitchen_bath());
    CHECK(standing.stage == BathStage::laying);
    CHECK(standing.next == BathStep::pour_alkali);
    REQUIRE(standing.alkali);
    CHECK(in_grams(standing.alkali->needed) == Approx(.10540 * 2.6 / 2 * 105.988).epsilon(1e-3));
    CHECK(in_grams(standing.alkali->needed_low) == Approx(.10540 * (2.6 - .24675) / 2 * 105.988).epsilon(1e-3));
    CHECK(in_grams(standing.alkali->needed_high) == Approx(.10540 * (2.6 + .24675) / 2 * 105.988).epsilon(1e-3));
    CHECK(in_grams(*standing.alkali->pour_now) == Approx(.8 * (14.523 - 5)).epsilon(2e-3));
    CHECK(doubts(standing, BathDoubt::hydroxides_unknown));
    CHECK_FALSE(standing.alkali->foam);
    r.foam_life = seconds(60);
    standing = bath_standing(r, kitchen_bath());
    REQUIRE(standing.alkali->foam);
    CHECK(standing.alkali->foam->pouring > minutes(1));
    // Poured in one or in many portions, it stands the same.
    r.alkali = {grams(2), grams(1), grams(2)};
    CHECK(in_grams(*bath_standing(r, kitchen_bath()).alkali->pour_now) == Approx(in_grams(*standing.alkali->pour_now)));
}

TEST_CASE("a fizzing bath is not believed", "[unit]") {
    BathReadings r{};
    r.alkali = {grams(14.5)};
    r.ph = {{Ph::of(6.5), PhMeans::pen, true}};
    const auto standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::stir_and_read);
    CHECK(doubts(standing, BathDoubt::fizzing_reads_low));
    CHECK(standing.alkali->ph.value().low.value() == Approx(7.5));
    CHECK(standing.alkali->ph.value().high.value() == Approx(9.0));
    CHECK_FALSE(standing.alkali->learned);
    // Read once at rest it is not believed either.
    r.ph = {{Ph::of(6.5), PhMeans::pen, true}, {Ph::of(6.6), PhMeans::pen, false}};
    CHECK(bath_standing(r, kitchen_bath()).next == BathStep::stir_and_read);
    CHECK(doubts(bath_standing(r, kitchen_bath()), BathDoubt::read_once));
}

TEST_CASE("the stop, and both ways to miss it", "[unit]") {
    BathReadings r{};
    r.alkali = {grams(14.5)};
    r.ph = {{Ph::of(6.6), PhMeans::pen, false}, {Ph::of(6.5), PhMeans::pen, false}};
    auto standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::settle_and_wash);
    CHECK(standing.alkali->at_rest);
    REQUIRE(standing.alkali->learned);
    // 14.5 g over 13.964 g / 2.5: 2.596 poured; .15 and .10 become .083.
    CHECK(standing.alkali->hydroxides_poured == Approx(14.5 / 105.988 * 2 / .10540).epsilon(1e-3));
    CHECK(standing.alkali->learned->standard_uncertainty == Approx(.0832).margin(5e-4));
    CHECK_FALSE(standing.alkali->pour_now);
    CHECK_FALSE(standing.alkali->add_aluminium);
    r.ph = {{Ph::of(5.2), PhMeans::pen, false}, {Ph::of(5.1), PhMeans::pen, false}};
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::pour_rest_by_drops);
    REQUIRE(standing.alkali->pour_now);
    CHECK(standing.alkali->pour_now->value() > 0);
    // Far too much, as the common 10 % solutions make it: 25 g.
    r.alkali = {grams(25)};
    r.ph = {{Ph::of(9.4), PhMeans::pen, false}, {Ph::of(9.5), PhMeans::pen, false}};
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::add_aluminium);
    CHECK(in_grams(*standing.alkali->add_aluminium) == Approx((25 - 14.523) / 105.988 * 2 / 2.6 * 474.372).epsilon(2e-3));
    // A strip that reads 4 there means another salt.
    r.ph = {{Ph::of(3.0), PhMeans::strip, false}, {Ph::of(3.0), PhMeans::strip, false}};
    CHECK(bath_standing(r, kitchen_bath()).next == BathStep::look_at_the_salt);
    r.ph.clear();
    r.alkali = {grams(-1)};
    CHECK_THROWS_AS(bath_standing(r, kitchen_bath()), DomainError);
}

TEST_CASE("through the washes", "[unit]") {
    BathReadings r{};
    r.decants = {reads(12000)};
    auto standing = bath_standing(r, kitchen_bath());
    CHECK(standing.stage == BathStage::washing);
    CHECK(standing.next == BathStep::read_wash_water);
    CHECK(doubts(standing, BathDoubt::water_unread));
    r.wash_water = reads(200);
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::wash_again);
    REQUIRE(standing.washed);
    CHECK(standing.washed->sure.value_or(99) == 2);
    CHECK(doubts(standing, BathDoubt::if_drained));
    // As the volumes say: .3 of it is left.
    r.decants.push_back(reads(200 + 4130));
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.kept->observed == Approx(.3).margin(.03));
    CHECK_FALSE(doubts(standing, BathDoubt::salts_trapped));
    CHECK(standing.washed->sure.value_or(99) == 1);
    // A wash that leaves two thirds: the bed is not stirred up, and more such washes are wanted.
    r.decants.back() = reads(200 + 8300);
    standing = bath_standing(r, kitchen_bath());
    CHECK(doubts(standing, BathDoubt::salts_trapped));
    CHECK(*standing.washed->sure > 2u);
    // Clean.
    r.decants = {reads(3000), reads(1050), reads(450), reads(260)};
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::drain_and_dry);
    // The same over hard water, which leaves more than is allowed by itself.
    r.wash_water = reads(6000);
    r.decants = {reads(6060)};
    CHECK(bath_standing(r, kitchen_bath()).next == BathStep::wash_with_pure_water);
    r.decants = {reads(500)};
    CHECK_THROWS_AS(bath_standing(r, kitchen_bath()), DomainError);
}

TEST_CASE("on the scale", "[unit]") {
    BathReadings r{};
    r.weighings = weighed_daily({38.6, 24.9});
    auto standing = bath_standing(r, kitchen_bath());
    CHECK(standing.stage == BathStage::drying);
    CHECK(standing.next == BathStep::weigh_tomorrow);
    r.weighings = weighed_daily({60, 50, 40});
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::weigh_tomorrow);
    CHECK(doubts(standing, BathDoubt::end_open));
    r.weighings = weighed_daily({38.6, 24.9, 17.9});
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::keep_drying);
    REQUIRE(standing.dried);
    CHECK(in_grams(standing.dried->end) == Approx(10.7).margin(.5));
    r.weighings = weighed_daily({38.6, 24.9, 17.9, 17.9, 17.9});
    CHECK(bath_standing(r, kitchen_bath()).next == BathStep::break_the_cake);
    r.weighings = weighed_daily({38.6, 24.9, 17.9, 14.3, 12.5, 11.5, 11.1, 10.8, 10.7, 10.65, 10.62});
    standing = bath_standing(r, kitchen_bath());
    CHECK(standing.next == BathStep::jar_it);
    CHECK(standing.stage == BathStage::at_rest);
    r.weighings = weighed_daily({386, 249, 179});
    CHECK(doubts(bath_standing(r, kitchen_bath()), BathDoubt::unlike_the_bath));
    r.weighings = weighed_daily({38.6, 24.9, 30});
    CHECK_THROWS_AS(bath_standing(r, kitchen_bath()), DomainError);
}

TEST_CASE("the latest kind of reading says how far a bath has come", "[unit]") {
    BathReadings r{};
    r.filter = {{minutes(1), litres(.3)}, {minutes(2.5), litres(.6)}};
    r.alkali = {grams(14.5)};
    r.wash_water = reads(200);
    r.decants = {reads(260)};
    r.weighings = weighed_daily({38.6, 24.9, 17.9});
    const auto standing = bath_standing(r, kitchen_bath());
    CHECK(standing.stage == BathStage::drying);
    CHECK(standing.readings.weighings.size() == 3);
    CHECK(standing.readings.decants.size() == 1);
    CHECK(standing.salts_allowed.value() == Approx(.01));
    CHECK(standing.filter);
    CHECK(standing.alkali);
    CHECK(standing.washed);
    CHECK_FALSE(doubts(standing, BathDoubt::hydroxides_unknown));
}

TEST_CASE("a bath that rests at the very edge of its stop has reached it", "[unit]") {
    // A strip is read to whole numbers, and the stop goes from pH 6 to 7.
    BathReadings r{};
    r.alkali = {grams(14.5)};
    const auto next = [&](double ph) {
        r.ph = {{Ph::of(ph), PhMeans::strip, false}, {Ph::of(ph), PhMeans::strip, false}};
        return bath_standing(r, kitchen_bath()).next;
    };
    CHECK(next(6.0) == BathStep::settle_and_wash);
    CHECK(next(7.0) == BathStep::settle_and_wash);
    CHECK(next(5.9) == BathStep::pour_rest_by_drops);
    CHECK(next(7.1) == BathStep::add_aluminium);
}

TEST_CASE("the gas still to come is that of the carbonate or bicarbonate still to pour", "[reference]") {
    // By hand: .10540 mol of aluminium at 2.6 hydroxides want .27404 mol of bicarbonate, 23.02 g; of 5 g too little eight
    // tenths, .8 x (23.02 - 5)/84.007 = .1716 mol of gas, and half as much of soda, which takes two for one.
    BathReadings r{};
    r.alkali = {grams(5)};
    r.foam_life = seconds(60);
    auto s = kitchen_bath();
    s.headspace = litres(0); // no room for foam, no plan of it
    CHECK_FALSE(bath_standing(r, s).alkali->foam);
    s = kitchen_bath();
    s.bath.alkali = baking_soda();
    const auto of_bicarbonate = bath_standing(r, s).alkali;
    REQUIRE(of_bicarbonate->foam);
    CHECK(in_litres(of_bicarbonate->foam->gas) == Approx(.1716 * .082057 * 313.15).epsilon(5e-3)); // 1 atm, 40 degC
    const auto of_soda = bath_standing(r, kitchen_bath()).alkali;
    CHECK(in_litres(of_soda->foam->gas) == Approx(.8 * (14.523 - 5) / 105.988 * .082057 * 313.15).epsilon(5e-3));
}

TEST_CASE("alum that was added counts, and so does the lake it brings", "[unit]") {
    BathReadings r{};
    r.alkali = {grams(20)};
    const auto over = bath_standing(r, kitchen_bath());
    r.aluminium = {grams(19)};
    const auto mended = bath_standing(r, kitchen_bath());
    REQUIRE(mended.alkali);
    CHECK(in_grams(mended.alkali->needed) == Approx(in_grams(over.alkali->needed) * 69 / 50).epsilon(1e-9));
    CHECK(mended.alkali->hydroxides_poured == Approx(over.alkali->hydroxides_poured * 50 / 69).epsilon(1e-9));
    CHECK(in_grams(mended.expected.mass) > 1.2 * in_grams(over.expected.mass));
}

TEST_CASE("a blanket that sinks says when to draw off", "[reference]") {
    BathReadings r{};
    r.alkali = {grams(14.5)};
    r.ph = {{Ph::of(6.5), PhMeans::pen, false}, {Ph::of(6.6), PhMeans::pen, false}};
    r.blanket = InterfaceHeights{millimetres(100), millimetres(62), millimetres(48), hours(2)};
    // By hand: end (100 x 48 - 62^2)/(148 - 124) = 39.83 mm, tau 2 h / ln(38/14) = 2.003 h; a tenth above the end after
    // tau ln(60.17/3.983) = 5.44 h, a twentieth after tau ln(60.17/1.992) = 6.83 h.
    for (const auto& [within, h] : {std::pair{.1, 5.44}, {.05, 6.827}}) {
        auto setting = kitchen_bath();
        setting.decant_within = Share::of(within);
        const auto standing = bath_standing(r, setting);
        CHECK(standing.next == BathStep::let_it_sink);
        REQUIRE(standing.sinking);
        CHECK(in_hours(standing.sinking->draw_off) == Approx(h).margin(.01));
        CHECK(in_millimetres(standing.sinking->blanket) == Approx((1.0 + within) * 39.833).margin(.01));
        CHECK(standing.sinking->low < standing.sinking->draw_off);
        // Heights read more roughly leave it wider open.
        setting.height_read_to = millimetres(2);
        CHECK(bath_standing(r, setting).sinking->low < standing.sinking->low);
    }
}

TEST_CASE("colour left in the clear liquor, and what a second laying takes", "[unit]") {
    auto s = kitchen_bath();
    s.dye_liquor = litres(1.0);
    BathReadings r{};
    r.alkali = {grams(14.5)};
    r.colour = ColourMatch{5.78};
    const auto standing = bath_standing(r, s);
    REQUIRE(standing.second);
    // 1.3 L of liquor with alum and 145 mL of soda solution, out of 1.0 L of dye liquor: 1.445 / 5.78 = a quarter.
    CHECK(standing.second->laying.left.value() == Approx(.25).margin(1e-6));
    CHECK(in_grams(standing.second->aluminium) == Approx(50.0 / 3).margin(.01));
    CHECK(in_grams(standing.second->alkali) == Approx(14.523 / 3).margin(.01));
}

TEST_CASE("a decant that holds more than the one before is told", "[unit]") {
    BathReadings r{};
    r.wash_water = reads(300);
    r.decants = {reads(900), reads(1500)};
    CHECK(doubts(bath_standing(r, kitchen_bath()), BathDoubt::salts_rose));
    r.decants = {reads(1500), reads(900)};
    const auto falls = bath_standing(r, kitchen_bath());
    CHECK_FALSE(doubts(falls, BathDoubt::salts_rose));
    REQUIRE(falls.dry_after);
    CHECK(in_hours(falls.dry_after->likely) ==
          Approx(in_hours(usual_drying(kitchen_bath().habits.drying).likely) + 12.0 * *falls.washed->sure));
}

TEST_CASE("a bath with chalk goes by its own rule", "[unit]") {
    auto s = kitchen_bath();
    s.bath.alkali = chalk_salt();
    s.chalk = chalk_lake(potash_alum(), grams(50), chalk_salt(), grams(15), litres(1.5), kilograms_per_cubic_metre(2.4));
    const auto next = [&](std::vector<Mass> poured, double ph) {
        BathReadings r{};
        r.alkali = std::move(poured);
        r.ph = {{Ph::of(ph), PhMeans::pen, false}, {Ph::of(ph), PhMeans::pen, false}};
        return bath_standing(r, s).next;
    };
    CHECK(next({grams(5)}, 4.0) == BathStep::pour_rest_by_drops);
    CHECK(next({grams(16)}, 4.0) == BathStep::stir_and_read); // there is enough of it: it is slow
    CHECK(next({grams(14)}, 6.5) == BathStep::settle_and_wash);
    CHECK(next({grams(16)}, 8.0) == BathStep::settle_and_wash); // what is over stays as chalk
    CHECK(next({grams(16)}, 11.5) == BathStep::look_at_the_salt); // lime
    BathReadings washed{};
    washed.decants = {reads(3000), reads(2500)};
    CHECK(bath_standing(washed, s).next == BathStep::wash_again);
    CHECK(doubts(bath_standing(washed, s), BathDoubt::gypsum_on_the_pen));
    washed.decants.push_back(reads(2400));
    const auto done = bath_standing(washed, s);
    CHECK(done.next == BathStep::drain_and_dry);
    CHECK_FALSE(done.washed);
    // 8.2 g of alumina, 27 g of gypsum less what dissolves, and the dye and water that any lake holds.
    CHECK(done.expected.mass > 2.0 * bath_standing({}, kitchen_bath()).expected.mass);
    // By hand: 8.2 g of alumina (2.42), 23.6 of gypsum (2.32) and 1.5 of dye (1.50) make 2.29 g/cm3; with 17 % of water and
    // 2 % of salts 1/(.81/2.29 + .17 + .02/2.68) = 1.88.
    CHECK(in_grams_per_cubic_centimetre(done.expected.density) == Approx(1.88).margin(.03));
}

TEST_CASE("cautions are those of the stage", "[unit]") {
    std::vector<BathCaution> all;
    for (const auto& [caution, word] : WordTable<BathCaution>::rows)
        all.push_back(caution);
    const auto has = [&](BathStage stage, BathCaution caution) {
        const auto chosen = cautions_at(stage, all);
        CHECK(chosen.back() == BathCaution::data_sheet);
        return std::find(chosen.begin(), chosen.end(), caution) != chosen.end();
    };
    CHECK(has(BathStage::laying, BathCaution::never_closed));
    CHECK_FALSE(has(BathStage::laying, BathCaution::mould));
    for (const auto stage : {BathStage::planned, BathStage::straining}) {
        CHECK(has(stage, BathCaution::never_closed));
        CHECK(has(stage, BathCaution::drain));
        CHECK_FALSE(has(stage, BathCaution::dust));
    }
    CHECK(has(BathStage::washing, BathCaution::drain));
    CHECK_FALSE(has(BathStage::drying, BathCaution::scald));
    CHECK(has(BathStage::drying, BathCaution::mould));
    CHECK(has(BathStage::jarred, BathCaution::dust));
}

TEST_CASE("what is written down of the colour, and the pH at which a bath came to rest", "[unit]") {
    BathReadings r{};
    CHECK_FALSE(colour_written_down(bath_standing(r, kitchen_bath())).any());
    r.alkali = {grams(14.5)};
    r.ph = {{Ph::of(6.6), PhMeans::pen, false}};
    CHECK_FALSE(colour_written_down(bath_standing(r, kitchen_bath())).strike); // once is not at rest
    r.ph.push_back({Ph::of(6.5), PhMeans::strip, false});
    r.hue = "warm rose";
    r.swatch = 12;
    const auto colour = colour_written_down(bath_standing(r, kitchen_bath()));
    CHECK(colour.hue == "warm rose");
    CHECK(colour.swatch == 12u);
    REQUIRE(colour.strike);
    CHECK(colour.strike->value().value() == Approx(6.5));
    CHECK(colour.strike->standard_uncertainty().value() == Approx(.5)); // a strip
    // Later readings leave it.
    r.wash_water = reads(200);
    r.decants = {reads(8000)};
    CHECK(colour_written_down(bath_standing(r, kitchen_bath())).strike->value().value() == Approx(6.5));
}

TEST_CASE("a lake that is laid has its washes by the plan until a pen tells", "[unit]") {
    auto s = kitchen_bath();
    s.planned_washes = 2;
    BathReadings r{};
    r.alkali = {grams(14.5)};
    r.ph = {{Ph::of(6.6), PhMeans::pen, false}};
    CHECK_FALSE(bath_standing(r, s).washes_by_plan); // not yet at rest
    r.ph.push_back({Ph::of(6.5), PhMeans::pen, false});
    const auto laid = bath_standing(r, s);
    CHECK(laid.washes_by_plan == 2u);
    REQUIRE(laid.dry_after);
    CHECK(in_hours(laid.dry_after->late) == Approx(24 + in_hours(usual_drying(s.habits.drying).late)));
    CHECK_FALSE(bath_standing(r, kitchen_bath()).washes_by_plan); // nothing was planned
    r.decants = {reads(12000)};
    CHECK_FALSE(bath_standing(r, s).washes_by_plan);
    CHECK_FALSE(bath_standing(r, s).dry_after); // the wash water was not read
    r.decants.clear();
    r.weighings = weighed_daily({38.6, 24.9, 17.9});
    CHECK_FALSE(bath_standing(r, s).washes_by_plan);
}
