// What tests leave open: of a grinding law, of where mulling and a blanket end, each by a search or a sum written out here.

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/particle/fineness_of_grind.hpp"
#include "lakebound/particle/first_order_grinding.hpp"
#include "lakebound/particle/mull_answer.hpp"
#include "lakebound/particle/zone_settling.hpp"
#include "support/whole_refusal.hpp"

using namespace lakebound;

namespace {

FirstOrderLaw law_of(double start, double rate_per_second, double u_start, double u_rate, double correlation) {
    FirstOrderLaw law;
    law.log_initial_residue = std::log(start);
    law.rate = BreakageRate::from_value(rate_per_second);
    law.covariance = FirstOrderLaw::Covariance{u_start * u_start, u_rate * u_rate, correlation * u_start * u_rate};
    return law;
}

using Readings = std::vector<FinenessReading>;
Readings readings_of(const std::vector<std::pair<double, double>>& min_and_um) {
    Readings readings;
    for (const auto& [min, um] : min_and_um)
        readings.push_back({minutes(min), micrometres(um)});
    return readings;
}
std::string mulled(const std::vector<std::pair<double, double>>& min_and_um) {
    return whole_refusal([&] { (void)fit_mulling(readings_of(min_and_um)); });
}

} // namespace

TEST_CASE("the times that a law leaves open are those at which its line passes near enough", "[reference]") {
    // A walk in small steps and halving at each edge: |ln R0 - k t - ln target| against z u, u^2 = v0 - 2 t v01 + t^2 v1.
    struct Row {
        double start, rate, u_start, u_rate, correlation, target;
    };
    const Row rows[] = {{0.64, 1.1e-3, 0.03, 5e-5, 0.5, 0.01},  {0.64, 1.1e-3, 0.03, 5e-5, 0.0, 0.3}, {0.9, 1e-4, 0.02, 4e-6, 0.6, 0.02},
                        {0.64, 1.1e-3, 0.03, 2e-4, 0.9, 0.05},  {0.5, 1e-4, 0.30, 2e-5, 0.3, 0.45},   {0.5, 1e-3, 0.05, 5e-5, 0.3, 0.9},
                        {0.64, 1.1e-3, 0.10, 9e-4, 0.95, 0.05}, {0.64, 1.1e-3, 0.50, 9e-4, 0.5, 0.6}, {0.64, 2e-4, 0.03, 1.9e-4, 0.2, 0.6383},
                        {0.64, 2e-4, 0.03, 1.9e-4, 0.2, 0.6058}};
    int open = 0, from_none = 0;
    for (const auto& row : rows)
        for (const double coverage : {0.5, 0.9, 0.99}) {
            const auto law = law_of(row.start, row.rate, row.u_start, row.u_rate, row.correlation);
            const double z = standard_normal_quantile(0.5 + 0.5 * coverage);
            const auto excess = [&](double t) {
                const double miss = std::log(row.start) - row.rate * t - std::log(row.target);
                const double u2 = row.u_start * row.u_start - 2.0 * t * row.correlation * row.u_start * row.u_rate + t * t * row.u_rate * row.u_rate;
                return miss * miss - z * z * u2;
            };
            const auto edge = [&](double outside, double inside) {
                for (int i = 0; i < 200; ++i)
                    (excess(0.5 * (outside + inside)) > 0.0 ? outside : inside) = 0.5 * (outside + inside);
                return inside;
            };
            const double full = std::abs(std::log(row.start / row.target)) / row.rate, step = full / 5000;
            double low = -1.0, high = -1.0;
            bool inside = excess(0.0) <= 0.0;
            if (inside) low = 0.0;
            for (double t = step; t < 1000 * full; t += step * std::max(1.0, t / full)) {
                const bool now = excess(t) <= 0.0;
                if (now && !inside && low < 0.0) low = edge(t - step * std::max(1.0, t / full) * 1.01, t);
                if (!now && inside) high = edge(t, t - step * std::max(1.0, t / full) * 1.01);
                inside = now;
            }
            INFO(row.start << " " << row.target << " " << coverage);
            const auto span = time_interval(law, row.target, coverage);
            if (low < 0.0) { // wholly before the beginning
                CHECK(in_seconds(span.low) == 0.0);
                REQUIRE(span.high);
                CHECK(in_seconds(*span.high) == 0.0);
                continue;
            }
            CHECK(in_seconds(span.low) == Approx(low).epsilon(1e-7).margin(1e-9 * full));
            CHECK(span.high.has_value() == !inside);
            if (span.high && !inside) CHECK(in_seconds(*span.high) == Approx(high).epsilon(1e-7));
            open += !span.high, from_none += low == 0.0;
        }
    CHECK(open >= 2);
    CHECK(from_none >= 2);
    // Nothing in doubt: the time itself, and none where the beginning is the target.
    const auto sure = law_of(0.5, 1e-3, 0.0, 0.0, 0.0);
    CHECK(in_seconds(time_interval(sure, 0.1, 0.9).low) == Approx(std::log(5.0) / 1e-3).epsilon(1e-7)); // a root of nearly 0
    CHECK(in_seconds(*time_interval(sure, 0.1, 0.9).high) == Approx(std::log(5.0) / 1e-3).epsilon(1e-7));
    CHECK(in_seconds(time_interval(sure, 0.5, 0.9).low) == 0.0);
    CHECK(in_seconds(*time_interval(sure, 0.5, 0.9).high) == 0.0);
    for (const double coverage : {0.0, 1.0, -0.5})
        CHECK(whole_refusal([&] { (void)time_interval(sure, 0.1, coverage); }).find("; valid: above 0 and below 1") != std::string::npos);
    CHECK(whole_refusal([&] { (void)time_interval(sure, 0.1, 5e-4); }) == "taken");
}

TEST_CASE("a later reading at two deviations is not yet slow", "[unit]") {
    // One of ten thousandth of its doubt more or less than 2.
    const auto law = law_of(0.6, 1e-3, 0.0, 0.0, 0.0);
    const auto off = [&](double deviations) {
        const double seen = 0.6 * std::exp(-1.8 + 0.01 * deviations);
        return check_later_reading(law, {minutes(30), MassFraction::of(seen), 0.01 * seen});
    };
    CHECK(off(1.9999).deviations == Approx(1.9999).epsilon(1e-9));
    CHECK_FALSE(off(1.9999).slowing);
    CHECK(off(2.0001).slowing);
    CHECK_FALSE(off(-1.9999).faster);
    CHECK(off(-2.0001).faster);
}

TEST_CASE("the doubt of an end by three readings is that of the formula's slopes", "[reference]") {
    // end = (d1 d3 - d2^2) / (d1 + d3 - 2 d2); its slopes by small steps to both sides; the gauge is even over +- 2 um.
    CHECK(gauge_half_width_um == 2.0); // grindometer-sheet
    for (const auto& d : {std::array{60.0, 38.0, 27.0}, std::array{90.0, 40.0, 25.0}, std::array{80.0, 60.0, 46.0}}) {
        const auto end = [](double a, double b, double c) { return (a * c - b * b) / (a + c - 2 * b); };
        const double h = 1e-4;
        const double one = (end(d[0] + h, d[1], d[2]) - end(d[0] - h, d[1], d[2])) / (2 * h),
                     two = (end(d[0], d[1] + h, d[2]) - end(d[0], d[1] - h, d[2])) / (2 * h),
                     three = (end(d[0], d[1], d[2] + h) - end(d[0], d[1], d[2] - h)) / (2 * h);
        const auto fit = fit_mulling(readings_of({{3, d[0]}, {13, d[1]}, {23, d[2]}}));
        CHECK(in_micrometres(fit.end) == Approx(end(d[0], d[1], d[2])).epsilon(1e-12));
        CHECK(in_micrometres(fit.start) == Approx(d[0]).epsilon(1e-12));
        CHECK(in_minutes(fit.tau) == Approx(10.0 / std::log((d[0] - d[1]) / (d[1] - d[2]))).epsilon(1e-12));
        CHECK(in_micrometres(fit.end_uncertainty) ==
              Approx(std::sqrt(one * one + two * two + three * three) * 2.0 / std::sqrt(3.0)).epsilon(1e-7));
    }
}

TEST_CASE("three readings are even to a millionth of their interval, else a curve is laid through them", "[reference]") {
    const auto on_curve = [](std::vector<double> times, double end, double drop, double tau) {
        std::vector<std::pair<double, double>> points;
        for (const double t : times)
            points.push_back({t, end + drop * std::exp(-t / tau)});
        return points;
    };
    const auto uneven = fit_mulling(readings_of(on_curve({0, 10, 25}, 12, 60, 9)));
    CHECK(in_micrometres(uneven.end) == Approx(12).epsilon(1e-6));
    CHECK(in_minutes(uneven.tau) == Approx(9).epsilon(1e-6));
    // A straight fall is refused by either, in other words.
    const std::string by_formula = "fineness of grind is 40 um; valid: above 40 um, so that the second fall is the smaller; "
                                   "it has not begun to slow: go on, and read again later";
    const std::string by_curve = "drawdowns is falling evenly; valid: levelling off, so that an end can be told; mull on and draw down again";
    const double hair = 3e-4 / 60.0; // 5 in 10 million of 10 min
    CHECK(mulled({{0, 60}, {10, 50}, {20, 40}}) == by_formula);
    CHECK(mulled({{0, 60}, {10, 50}, {20 + hair, 40}}) == by_formula);
    CHECK(mulled({{0, 60}, {10, 50}, {20 + 100 * hair, 40}}) == by_curve);
    // What levels off within twenty lengths of the readings does, later it does not.
    const std::vector<double> times{0, 10, 20, 35, 50};
    const auto slow = fit_mulling(readings_of(on_curve(times, 3, 57, 19 * 50.0)));
    CHECK(in_micrometres(slow.end) == Approx(3).epsilon(1e-3));
    CHECK(mulled(on_curve(times, 3, 57, 21 * 50.0)) == by_curve);
}

TEST_CASE("drawdowns of nothing, out of order or too few are told", "[errors]") {
    CHECK(mulled({{0, 60}, {10, 38}}) == "drawdowns is 2; valid: three at least; mull on and draw down again");
    CHECK(mulled({{0, -1}, {10, 38}, {20, 27}}) == "fineness of grind is -1 um; valid: above 0");
    CHECK(mulled({{0, 0}, {10, 38}, {20, 27}}) == "fineness of grind is 0 um; valid: above 0");
    CHECK(mulled({{0, 60}, {10, 38}, {20, 0}}) == "fineness of grind is 0 um; valid: above 0");
    CHECK(mulled({{10, 60}, {0, 38}, {20, 27}}) == "time of a drawdown is 0 min; valid: later than the one before it");
    CHECK(mulled({{0, 60}, {20, 38}, {10, 27}}) == "time of a drawdown is 10 min; valid: later than the one before it");
    CHECK(mulled({{0, 0.0041}, {10, 0.0012}, {20, 0.0005}}) == "taken"); // finer than any gauge, but a fineness
    CHECK(mulled({{0, 60}, {10, 38}, {20, 27}, {30, 60}}) == "last fineness of grind is 60 um; valid: below the first");
    CHECK(whole_refusal([] { (void)hegman_of_fineness(micrometres(101.60005)); }) == "fineness of grind is 101.60005 um; valid: 0 to 101.6 um");
    CHECK(in_micrometres(deepest_hegman) == Approx(101.6).epsilon(1e-12));
}

TEST_CASE("mulling for a gain or a fineness, by hand", "[reference]") {
    // 60, 38, 27 um every 10 min: down to 16 um, half of what is left every 10 min.
    const auto m = fit_mulling(readings_of({{0, 60}, {10, 38}, {20, 27}}));
    const double tau = 10.0 / std::log(2.0);
    const auto stop = [&](double gain, double interval) { return in_minutes(stop_time(m, micrometres(gain), minutes(interval))); };
    CHECK(stop(20, 10) == Approx(tau * std::log(1.1)).epsilon(1e-9));
    CHECK(stop(5e-4, 10) == Approx(tau * std::log(22.0 / 5e-4)).epsilon(1e-9));
    CHECK(stop(1e-6, 1e-5) == Approx(tau * std::log(44.0 * -std::expm1(-1e-5 / tau) / 1e-6)).epsilon(1e-9)); // 0.6 ms
    CHECK(whole_refusal([&] { (void)stop(0, 10); }) == "gain worth mulling for is 0 um; valid: above 0");
    CHECK(whole_refusal([&] { (void)stop(-1, 10); }) == "gain worth mulling for is -1 um; valid: above 0");
    CHECK(in_minutes(time_to_fineness(m, micrometres(17.1))) == Approx(tau * std::log(44.0 / 1.1)).epsilon(1e-9));
    CHECK(in_minutes(time_to_fineness(m, micrometres(60))) == Approx(0.0).margin(1e-12));
    CHECK(whole_refusal([&] { (void)time_to_fineness(m, micrometres(12.3456)); }) ==
          "fineness wanted is 12.346 um; valid: above 16 um, where mulling ends; grind in the mortar and sieve, or levigate, before mulling");
    CHECK(whole_refusal([&] { (void)time_to_fineness(m, m.end); }) != "taken");
    CHECK(in_micrometres(fineness_at(m, seconds(0))) == Approx(60).epsilon(1e-12));
    // The whole of an answer.
    const auto answer = plan_mulling({readings_of({{2, 60}, {12, 38}, {22, 27}}), micrometres(20), micrometres(2), minutes(10)});
    CHECK(in_minutes(answer.so_far) == Approx(20));
    CHECK(in_minutes(answer.stop) == Approx(tau * std::log(11.0)).epsilon(1e-9));
    CHECK(in_minutes(answer.more_to_stop) == Approx(tau * std::log(11.0) - 20).epsilon(1e-9));
    CHECK(in_minutes(answer.reached.value()) == Approx(tau * std::log(11.0)).epsilon(1e-9)); // 44 / 4
    CHECK(in_minutes(*answer.more_to_target) == Approx(15).epsilon(1e-9));                    // 14.6 upward
    CHECK(in_minutes(answer.in_all) == Approx(35).epsilon(1e-9));
    // A target that was met at a reading asks for no minute more.
    const auto met = plan_mulling({readings_of({{0, 60}, {10, 38}, {20, 27}}), micrometres(27), micrometres(2), minutes(10)});
    CHECK(in_minutes(*met.more_to_target) == Approx(0.0).margin(1e-9));
}

TEST_CASE("what redrawn heights of a blanket leave open, set by set", "[reference]") {
    // The same 2 000 sets by the same stream; ends, times and their order by formulas written out. Those that have not begun
    // to slow, or would end at the bottom, end at 0 and are never ready; the rank of a share p is the nearest to p of the way.
    struct Row {
        double first, second, third, u, within;
    };
    const Row rows[] = {{100, 62, 48, 1.0, 0.05}, {100, 70, 52, 2.5, 0.05},        {100, 72, 55, 3.0, 0.1}, {100, 80, 64.5, 1.0, 0.05},
                        {100, 80, 64.05, 5.0, 0.05}, {100, 95.1, 91, 0.01, 0.05}, {100.1, 48.02, 48.0, 1e-3, 0.05}};
    bool mostly_never = false;
    for (const auto& row : rows) {
        const InterfaceHeights heights{millimetres(row.first), millimetres(row.second), millimetres(row.third), hours(2)};
        RandomEngine engine(20260102);
        std::vector<double> ends, times;
        std::size_t never = 0;
        for (int i = 0; i < 2000; ++i) {
            const double a = row.first + row.u * standard_normal(engine), b = row.second + row.u * standard_normal(engine),
                         c = row.third + row.u * standard_normal(engine);
            const double end = (a * c - b * b) / (a + c - 2 * b), tau = 2.0 / std::log((a - b) / (b - c)), ratio = (a - end) / (row.within * end);
            if (!(c > 0.0 && b > c && a - b > b - c && end > 0.0)) {
                ++never;
                continue;
            }
            ends.push_back(end);
            times.push_back(ratio > 1.0 ? tau * std::log(ratio) : 0.0);
        }
        std::sort(ends.begin(), ends.end()), std::sort(times.begin(), times.end());
        ends.insert(ends.begin(), never, 0.0);
        mostly_never = mostly_never || never > 1000;
        const auto shares = [&] {
            std::vector<double> all{0.5, 0.9, 0.997, 0.9985};
            // Where the never ones just reach a rank, or the others just end.
            for (const double rank : {double(never), double(never) - 1, double(times.size()), double(times.size()) - 1})
                for (const double coverage : {2.0 * rank / 1999 - 1.0, 1.0 - 2.0 * rank / 1999})
                    if (coverage > 0.001 && coverage < 0.9995) all.push_back(coverage);
            return all;
        }();
        const auto zone = fit_zone_settling(heights);
        for (const double coverage : shares) {
            INFO(row.third << " " << row.u << " never " << never << " coverage " << coverage);
            const auto found = zone_interval(heights, millimetres(row.u), Share::of(row.within), coverage);
            const auto low = static_cast<std::size_t>(std::floor((0.5 - 0.5 * coverage) * 1999 + 0.5)),
                       high = static_cast<std::size_t>(std::floor((0.5 + 0.5 * coverage) * 1999 + 0.5));
            CHECK(found.still_falling == Approx(double(never) / 2000).epsilon(1e-12).margin(1e-15));
            CHECK(1e3 * found.end_height_m.low == Approx(ends[low]).epsilon(1e-7).margin(1e-9));
            CHECK(1e3 * found.end_height_m.high == Approx(ends[high]).epsilon(1e-7).margin(1e-9));
            CHECK(in_hours(found.decant_low) ==
                  Approx(low < times.size() ? times[low] : in_hours(decant_time(zone, Share::of(row.within)))).epsilon(1e-7));
            CHECK(found.decant_high.has_value() == (high < times.size()));
            if (found.decant_high && high < times.size()) CHECK(in_hours(*found.decant_high) == Approx(times[high]).epsilon(1e-7));
        }
    }
    CHECK(mostly_never);
    // A fall of half a thousandth that slows by four in a hundred thousand of it slows.
    const InterfaceHeights nearly{millimetres(100.10004), millimetres(100.05), millimetres(100), hours(2)};
    CHECK(zone_interval(nearly, millimetres(0), Share::of(0.05), 0.9).still_falling == 0.0);
}
