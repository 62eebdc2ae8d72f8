#include "lakebound/particle/zone_settling.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {
InterfaceHeights heights(double a, double b, double c) {
    return {millimetres(a), millimetres(b), millimetres(c), hours(2)};
}
} // namespace

TEST_CASE("worked zone settling", "[reference]") {
    // Domain brief B.7 (own computation): 100, 62, 48 mm at 0, 2, 4 h: end 39.8 mm, tau 2.0 h, decant after 6.8
    // h.
    const auto zone = fit_zone_settling(heights(100, 62, 48));
    CHECK(in_millimetres(zone.end_height) == Approx(39.8).margin(.06));
    CHECK(in_hours(zone.tau) == Approx(2.0).margin(.05));
    CHECK(in_hours(decant_time(zone, Share::of(.05))) == Approx(6.8).margin(.06));
}

TEST_CASE("an exponential gives itself back", "[identity]") {
    for (const double end : {5.0, 40.0, 90.0})
        for (const double tau : {0.5, 3.0, 20.0}) {
            const auto h = [&](double t) { return end + (120 - end) * std::exp(-t / tau); };
            const auto zone = fit_zone_settling(heights(h(0), h(2), h(4)));
            CHECK(in_millimetres(zone.end_height) == Approx(end).epsilon(1e-8));
            CHECK(in_hours(zone.tau) == Approx(tau).epsilon(1e-8));
            for (const double t : {0.0, 2.0, 4.0, 50.0})
                CHECK(in_millimetres(interface_height(zone, hours(t))) == Approx(h(t)).epsilon(1e-8));
            const Time when = decant_time(zone, Share::of(.05));
            if (in_hours(when) > 0)
                CHECK(in_millimetres(interface_height(zone, when)) == Approx(1.05 * end).epsilon(1e-9));
        }
    CHECK(in_hours(decant_time(fit_zone_settling(heights(100, 98, 97)), Share::of(.5))) == 0.0);
}

TEST_CASE("readings that have not begun to slow are refused", "[errors]") {
    CHECK_THROWS_AS(fit_zone_settling(heights(100, 80, 60)), DomainError);
    CHECK_THROWS_AS(fit_zone_settling(heights(60, 50, 40)), DomainError);
    CHECK_THROWS_AS(fit_zone_settling(heights(100, 100, 90)), DomainError);
    CHECK_THROWS_AS(fit_zone_settling(heights(100, 80, 85)), DomainError);
    CHECK_THROWS_AS(fit_zone_settling(heights(100, 60, 21)), DomainError); // would end below the bottom
    auto h = heights(100, 62, 48);
    h.interval = hours(0);
    CHECK_THROWS_AS(fit_zone_settling(h), DomainError);
    CHECK_THROWS_AS(decant_time(fit_zone_settling(heights(100, 62, 48)), Share::of(0)), DomainError);
}

TEST_CASE("clear water ends a margin above the interface, never above the first reading", "[identity]") {
    const auto zone = fit_zone_settling(heights(100, 62, 48));
    for (const double t : {1.0, 4.0, 7.0})
        CHECK(in_millimetres(clear_water_ends(zone, hours(t), millimetres(15))) ==
              Approx(in_millimetres(interface_height(zone, hours(t))) + 15.0).epsilon(1e-12));
    CHECK(in_millimetres(clear_water_ends(zone, hours(0), millimetres(15))) == Approx(100.0));
    CHECK_THROWS_AS(clear_water_ends(zone, hours(1), millimetres(-1)), DomainError);
}

TEST_CASE("90 % intervals of end and decanting time hold the truth of 1 000 blankets read to 1 mm", "[identity]") {
    RandomEngine engine(5);
    int end_held = 0, time_held = 0, made = 0;
    while (made < 1000) {
        const double end = 20 + 40 * uniform(engine), tau = 1 + 3 * uniform(engine);
        const auto h = [&](double t) { return end + (120 - end) * std::exp(-t / tau); };
        const InterfaceHeights read = heights(h(0) + standard_normal(engine), h(2) + standard_normal(engine),
                                              h(4) + standard_normal(engine));
        ZoneInterval found;
        try {
            found = zone_interval(read, millimetres(1), Share::of(.05), .90);
        } catch (const DomainError&) {
            continue; // the maker is told to read again later
        }
        ++made;
        const double truth = tau * std::log((120 - end) / (.05 * end));
        end_held += found.end_height_m.low * 1e3 <= end && end <= found.end_height_m.high * 1e3;
        time_held +=
            in_hours(found.decant_low) <= truth && (!found.decant_high || truth <= in_hours(*found.decant_high));
    }
    INFO(end_held << " " << time_held);
    CHECK(end_held >= 850);
    CHECK(end_held <= 950);
    CHECK(time_held >= 850);
    CHECK(time_held <= 950);
}

TEST_CASE("readings that hardly slow leave the end open, exact ones leave nothing open", "[unit]") {
    const auto open = zone_interval(heights(100, 80, 66), millimetres(1), Share::of(.05), .90);
    CHECK(open.still_falling > 0.05);
    CHECK_FALSE(open.decant_high);
    const auto exact = zone_interval(heights(100, 62, 48), millimetres(0), Share::of(.05), .90);
    CHECK(exact.end_height_m.width() < 1e-12);
    CHECK(exact.end_height_m.low * 1e3 == Approx(39.8).margin(.06));
    CHECK_THROWS_AS(zone_interval(heights(100, 62, 48), millimetres(-1), Share::of(.05), .90), DomainError);
    CHECK_THROWS_AS(zone_interval(heights(100, 62, 48), millimetres(1), Share::of(.05), 1.0), DomainError);
    CHECK_THROWS_AS(zone_interval(heights(100, 62, 48), millimetres(1), Share::of(.05), 0.0), DomainError);
    CHECK_THROWS_AS(fit_zone_settling(heights(100, 62, 0)), DomainError);
    CHECK_THROWS_AS(interface_height(fit_zone_settling(heights(100, 62, 48)), seconds(-1)), DomainError);
}

TEST_CASE("a refused blanket tells its figure, and an end that is reached asks for no wait", "[errors]") {
    const auto zone = fit_zone_settling(heights(100, 62, 48));
    CHECK(told([&] { clear_water_ends(zone, hours(1), millimetres(-2)); }) == "margin above the interface: -2 mm");
    CHECK(told([&] { interface_height(zone, seconds(-3)); }) == "time since the first reading: -3 s");
    CHECK(told([&] { decant_time(zone, Share::of(0)); }) == "share above the end height: 0");
    CHECK(in_millimetres(clear_water_ends(zone, hours(1), millimetres(0))) ==
          Approx(in_millimetres(interface_height(zone, hours(1)))).epsilon(1e-12));
    // d_inf by hand: (100 x 48 - 62^2)/(148 - 124) = 39.833; (100 - end)/end is 1.51 of it, so 1 of it takes tau ln 1.51.
    const double end = (4800.0 - 3844.0) / 24.0;
    CHECK(in_millimetres(zone.end_height) == Approx(end).epsilon(1e-9));
    CHECK(in_seconds(decant_time(zone, Share::of(1.0))) ==
          Approx(in_seconds(zone.tau) * std::log((100 - end) / end)).epsilon(1e-9));
    const auto shallow = fit_zone_settling(heights(100, 80, 70)); // end 60: (100 - 60)/60 is below 1 of it
    CHECK(in_seconds(decant_time(shallow, Share::of(0.7))) == Approx(0.0).margin(1e-300));
    CHECK(in_seconds(decant_time(shallow, Share::of(0.6))) > 0.0);
}
