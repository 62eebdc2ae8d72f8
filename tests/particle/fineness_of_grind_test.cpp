#include "lakebound/particle/fineness_of_grind.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {
using Readings = std::vector<FinenessReading>;
Readings even(double a, double b, double c) {
    return {{minutes(0), micrometres(a)}, {minutes(10), micrometres(b)}, {minutes(20), micrometres(c)}};
}
} // namespace

TEST_CASE("Hegman numbers", "[reference]") {
    // mckay-grind-gage: 0 = 4.0 mil = 101.6 um, 1 = 88.9, 2 = 76.2, 3 = 63.5, 4 = 50.8; the rest derived
    // from the same rule: 38.1, 25.4, 12.7, 0.
    const double um[] = {101.6, 88.9, 76.2, 63.5, 50.8, 38.1, 25.4, 12.7, 0};
    for (int h = 0; h <= 8; ++h) {
        CHECK(in_micrometres(fineness_of_hegman(h)) == Approx(um[h]).epsilon(1e-12).margin(1e-12));
        CHECK(hegman_of_fineness(micrometres(um[h])) == Approx(h).epsilon(1e-12).margin(1e-12));
    }
    CHECK_THROWS_AS(fineness_of_hegman(8.5), DomainError);
    CHECK_THROWS_AS(fineness_of_hegman(-1), DomainError);
    CHECK_THROWS_AS(hegman_of_fineness(micrometres(120)), DomainError);
    CHECK_THROWS_AS(fineness_of_hegman(8.001), DomainError);
    CHECK_THROWS_AS(fineness_of_hegman(-.001), DomainError);
    CHECK_THROWS_AS(hegman_of_fineness(micrometres(101.61)), DomainError);
    CHECK_THROWS_AS(hegman_of_fineness(micrometres(-.01)), DomainError);
}

TEST_CASE("worked mulling", "[reference]") {
    // Domain brief B.8 (own computation): 60, 38, 27 um at 0, 10, 20 min: d_inf 16, tau 14.4 min.
    const auto m = fit_mulling(even(60, 38, 27));
    CHECK(in_micrometres(m.end) == Approx(16).epsilon(1e-12));
    CHECK(in_minutes(m.tau) == Approx(14.4).margin(.06));
    // Stop when ten more minutes gain less than 2 um: 44 exp(-t/tau)(1 - 1/2) = 2, t = tau ln 11.
    CHECK(in_minutes(stop_time(m, micrometres(2), minutes(10))) == Approx(10 / std::log(2.0) * std::log(11.0)).epsilon(1e-12));
    const Time stop = stop_time(m, micrometres(2), minutes(10));
    CHECK(in_micrometres(fineness_at(m, stop) - fineness_at(m, stop + minutes(10))) ==
          Approx(2.0).epsilon(1e-10));
}

TEST_CASE("an exponential gives itself back, from three readings or seven", "[identity]") {
    for (const double end : {0.5, 12.0, 30.0})
        for (const double tau : {4.0, 15.0}) {
            const auto d = [&](double t) { return end + (80 - end) * std::exp(-t / tau); };
            Readings uneven;
            for (const double t : {0., 3., 7., 12., 18., 26., 35.})
                uneven.push_back({minutes(5 + t), micrometres(d(t))});
            for (const auto& m : {fit_mulling(even(d(0), d(10), d(20))), fit_mulling(uneven)}) {
                CHECK(in_micrometres(m.end) == Approx(end).epsilon(1e-6));
                CHECK(in_minutes(m.tau) == Approx(tau).epsilon(1e-6));
                CHECK(in_micrometres(m.start) == Approx(80).epsilon(1e-6));
                CHECK(in_micrometres(fineness_at(m, time_to_fineness(m, micrometres(40)))) ==
                      Approx(40).epsilon(1e-9));
                CHECK(in_seconds(time_to_fineness(m, micrometres(90))) == 0.0);
                double last = 1e9;
                for (double t = 0; t < 100; t += 5) {
                    CHECK(in_micrometres(fineness_at(m, minutes(t))) < last);
                    last = in_micrometres(fineness_at(m, minutes(t)));
                }
            }
        }
}

TEST_CASE("the stated uncertainty of the end is what the gauge does", "[identity]") {
    const auto stated = fit_mulling(even(90, 40, 25));
    RandomEngine engine(17);
    double sum = 0, squares = 0;
    const int n = 4000;
    for (int i = 0; i < n; ++i) {
        const auto off = [&] {
            return 0.1 * (2 * uniform(engine) - 1) * gauge_half_width_um;
        }; // a tenth: nearly linear
        const double end = in_micrometres(fit_mulling(even(90 + off(), 40 + off(), 25 + off())).end);
        sum += end, squares += end * end;
    }
    CHECK(10 * std::sqrt(squares / n - sum * sum / n / n) ==
          Approx(in_micrometres(stated.end_uncertainty)).epsilon(0.05));
}

TEST_CASE("drawdowns that tell no end are refused", "[errors]") {
    CHECK_THROWS_AS(fit_mulling(Readings{}), DomainError);
    CHECK_THROWS_AS(fit_mulling(even(60, 50, 40)), DomainError);
    CHECK_THROWS_AS(fit_mulling(even(60, 61, 40)), DomainError);
    CHECK_THROWS_AS(fit_mulling(even(60, 40, 0)), DomainError);
    CHECK_THROWS_AS(fit_mulling(even(100, 60, 21)), DomainError); // an end below 0
    auto shuffled = even(60, 38, 27);
    std::swap(shuffled[0], shuffled[1]);
    CHECK_THROWS_AS(fit_mulling(shuffled), DomainError);
    Readings straight;
    for (int i = 0; i < 5; ++i)
        straight.push_back({minutes(i * i), micrometres(60 - i * i)});
    CHECK_THROWS_AS(fit_mulling(straight), DomainError);
    Readings level = even(60, 38, 27); // ends where it began
    level.push_back({minutes(30), micrometres(60)});
    CHECK_THROWS_WITH(fit_mulling(level), Catch::Contains("last fineness of grind"));
    const auto m = fit_mulling(even(60, 38, 27));
    CHECK_THROWS_AS(time_to_fineness(m, micrometres(16)), DomainError);
    CHECK_THROWS_AS(stop_time(m, micrometres(0), minutes(10)), DomainError);
    CHECK_THROWS_AS(fineness_at(m, minutes(-1)), DomainError);
}

TEST_CASE("a refused drawdown tells its figure", "[errors]") {
    CHECK(told([] { fineness_of_hegman(8.5); }) == "Hegman number: 8.5");
    CHECK(told([] { fineness_of_hegman(8.0); }) == "taken");
    CHECK(told([] { hegman_of_fineness(micrometres(-1)); }) == "fineness of grind: -1 um");
    CHECK(told([] { hegman_of_fineness(micrometres(101.7)); }) == "fineness of grind: 101.7 um");
    CHECK(told([] { hegman_of_fineness(micrometres(101.6)); }) == "taken");
    // By hand: d_inf = (100 x 21 - 60^2)/(100 + 21 - 120) = -1500.
    CHECK(told([] { fit_mulling(even(100, 60, 21)); }) == "end of the fineness of grind: -1500 um");
    CHECK(told([] { fineness_at(fit_mulling(even(60, 38, 27)), minutes(-1)); }) == "time since the first drawdown: -1 min");
    // An end at 0 is one: 80, 40, 20.
    CHECK(in_micrometres(fit_mulling(even(80, 40, 20)).end) == Approx(0.0).margin(1e-9));
}

TEST_CASE("mulling that gains less than is wanted stops at once", "[unit][errors]") {
    const auto m = fit_mulling(even(60, 38, 27)); // down to 16 um, halving what is left in 10 min
    // By hand: of 44 um a half goes in the first 10 min, 22 um; each 10 min gain half of the last. 11 um are left to gain
    // in an interval that begins after 10 min.
    CHECK(in_minutes(stop_time(m, micrometres(11), minutes(10))) == Approx(10.0).epsilon(1e-9));
    CHECK(in_minutes(stop_time(m, micrometres(22), minutes(10))) == Approx(0.0).margin(1e-9));
    CHECK(in_minutes(stop_time(m, micrometres(23), minutes(10))) == Approx(0.0).margin(1e-12));
    CHECK(told([&] { (void)stop_time(m, micrometres(5), minutes(0)); }) == "interval of mulling: 0 min");
    CHECK(told([&] { (void)stop_time(m, micrometres(5), minutes(-2)); }) == "interval of mulling: -2 min");
    // A fall that is even within the gauge tells no end.
    Readings nearly;
    for (int i = 0; i < 6; ++i)
        nearly.push_back({minutes(10 * i), micrometres(60 - 5.0 * i + 0.002 * i * i)});
    CHECK(told([&] { (void)fit_mulling(nearly); }) == "drawdowns: falling evenly");
}
