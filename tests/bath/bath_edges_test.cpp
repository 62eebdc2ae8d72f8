// The edges of where a bath stands: a reading just on either side of what turns the answer.
#include "lakebound/bath/bath_progress.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "kitchen_bath.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
bool still_doubts(const BathStanding& standing, BathDoubt doubt) {
    return std::find(standing.doubts.begin(), standing.doubts.end(), doubt) != standing.doubts.end();
}
PenReading pen_reads(double us) { return {microsiemens_per_centimetre(us), degrees_celsius(25), {}}; }
} // namespace

TEST_CASE("in its jar a bath has nothing left to do, and no day to be dry", "[unit]") {
    BathReadings r{};
    r.wash_water = pen_reads(200);
    r.decants = {pen_reads(260)};
    REQUIRE(bath_standing(r, kitchen_bath()).dry_after);
    r.jarred = true;
    const auto standing = bath_standing(r, kitchen_bath());
    CHECK(standing.stage == BathStage::jarred);
    CHECK(standing.next == BathStep::in_its_jar);
    CHECK_FALSE(standing.dry_after);
    CHECK(standing.washed);
}

TEST_CASE("a pH, or salt against too much, alone says that a bath is being laid", "[unit]") {
    BathReadings r{};
    r.aluminium = {grams(0)};
    CHECK(bath_standing(r, kitchen_bath()).stage == BathStage::laying);
    r.aluminium = {grams(-.1)};
    CHECK_THROWS_AS(bath_standing(r, kitchen_bath()), DomainError);
    r.aluminium.clear();
    r.ph = {{Ph::of(3.4), PhMeans::strip, true}};
    CHECK(bath_standing(r, kitchen_bath()).stage == BathStage::laying);
}

TEST_CASE("what a reading leaves open ends where the scale does", "[unit]") {
    BathReadings r{};
    const auto open = [&](double ph, bool fizzing) {
        r.ph = {{Ph::of(ph), PhMeans::strip, fizzing}}; // a strip reads to .5
        return bath_standing(r, kitchen_bath()).alkali->ph.value();
    };
    CHECK(open(.3, false).low == Ph::of(0));
    CHECK(open(.3, false).high.value() == Approx(.8));
    CHECK(open(13.6, false).low.value() == Approx(13.1));
    CHECK(open(13.6, false).high == Ph::of(14));
    CHECK(open(12.5, true).low.value() == Approx(13.5)); // while it fizzes 1 to 2.5 too low
    CHECK(open(12.5, true).high == Ph::of(14));
}

TEST_CASE("two readings rest when they agree to what the shelf says", "[unit]") {
    BathReadings r{};
    r.alkali = {grams(14.5)};
    const double within = kitchen_bath().habits.ph_rests_within.value();
    const auto rests = [&](double before) {
        r.ph = {{Ph::of(before), PhMeans::pen, false}, {Ph::of(6.5), PhMeans::pen, false}};
        const auto standing = bath_standing(r, kitchen_bath());
        CHECK(standing.alkali->at_rest != still_doubts(standing, BathDoubt::read_once));
        return standing.alkali->at_rest;
    };
    CHECK(rests(6.5 + within));
    CHECK(rests(6.5 - within));
    CHECK_FALSE(rests(6.5 + 1.01 * within));
    CHECK_FALSE(rests(6.5 - 1.01 * within));
}

TEST_CASE("a pH that what was poured cannot have brought, on either side", "[unit]") {
    BathReadings r{};
    r.alkali = {grams(5)};
    r.ph = {{Ph::of(9.0), PhMeans::pen, false}};
    CHECK(bath_standing(r, kitchen_bath()).next == BathStep::look_at_the_salt);
    r.alkali = {grams(25)};
    r.ph = {{Ph::of(4.0), PhMeans::pen, false}};
    CHECK(bath_standing(r, kitchen_bath()).next == BathStep::look_at_the_salt);
}

TEST_CASE("a pH that asks for more is never answered with none", "[unit]") {
    // 14.523 g at 2.6 hydroxides, 15.901 at 2.847 (1.645 of .15 more) and 13.145 at 2.353, of which the first portion is .8.
    BathReadings r{};
    const auto at = [&](double poured, double ph) {
        r.alkali = {grams(poured)};
        r.ph = {{Ph::of(ph), PhMeans::strip, false}, {Ph::of(ph), PhMeans::strip, false}};
        return *bath_standing(r, kitchen_bath()).alkali;
    };
    const double middle = .10540 * 2.6 / 2 * 105.988, high = .10540 * 2.84675 / 2 * 105.988, low = .10540 * 2.35325 / 2 * 105.988;
    REQUIRE(at(middle + .5, 5.5).pour_now);
    CHECK(in_grams(*at(middle + .5, 5.5).pour_now) == Approx(.8 * (high - middle - .5)).epsilon(.005));
    REQUIRE(at(high + .01, 5.5).pour_now);
    CHECK(in_grams(*at(high + .01, 5.5).pour_now) == Approx(.8 * .01 * middle).epsilon(.005));
    REQUIRE(at(middle - .5, 7.5).add_aluminium);
    CHECK(in_grams(*at(middle - .5, 7.5).add_aluminium) == Approx((middle - .5 - low) / 105.988 * 2 / 2.35325 * 474.372).epsilon(.005));
}

TEST_CASE("two decants tell how a wash kept only where there were salts", "[unit]") {
    BathReadings r{};
    r.wash_water = pen_reads(200);
    r.decants = {pen_reads(200), pen_reads(200)}; // as clean as the water itself: nothing to compare
    CHECK_FALSE(bath_standing(r, kitchen_bath()).kept);
    r.decants = {pen_reads(3000), pen_reads(200)}; // clean at once: hardly anything was kept
    CHECK(bath_standing(r, kitchen_bath()).kept->observed < 1e-6);
    r.decants = {pen_reads(3000), pen_reads(1050)};
    CHECK(bath_standing(r, kitchen_bath()).kept);
}

TEST_CASE("weighings of a wet surface tell of no even rate", "[unit]") {
    BathReadings r{};
    r.weighings = weighed_daily({64, 54, 44});
    CHECK(still_doubts(bath_standing(r, kitchen_bath()), BathDoubt::end_open));
    for (auto& each : r.weighings) each.surface_wet = true;
    CHECK_FALSE(still_doubts(bath_standing(r, kitchen_bath()), BathDoubt::end_open));
}
