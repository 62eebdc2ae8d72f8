#include "lakebound/particle/fineness_of_grind.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "lakebound/estimate/exponential_approach.hpp"
#include "lakebound/estimate/least_squares.hpp"
#include "lakebound/quantity/error.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

void check(std::span<const FinenessReading> readings) {
    if (readings.size() < 3)
        throw DomainError("drawdowns", std::to_string(readings.size()), "three at least",
                          "mull on and draw down again");
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (!(in_micrometres(readings[i].fineness) > 0.0))
            throw_out_of_range("fineness of grind", in_micrometres(readings[i].fineness), "um", "above 0");
        if (i > 0 && !(readings[i].time > readings[i - 1].time))
            throw_out_of_range("time of a drawdown", in_minutes(readings[i].time), "min",
                               "later than the one before it");
    }
}

bool three_even(std::span<const FinenessReading> r) {
    if (r.size() != 3) return false;
    const double a = in_seconds(r[1].time - r[0].time), b = in_seconds(r[2].time - r[1].time);
    return std::abs(a - b) <= 1e-6 * a;
}

struct Curve {
    double start, end, tau, end_uncertainty; // um, um, s, um
};

Curve exact(std::span<const FinenessReading> r) {
    const double first = in_micrometres(r[0].fineness), second = in_micrometres(r[1].fineness),
                 third = in_micrometres(r[2].fineness);
    const auto fit =
        exponential_approach("fineness of grind", first, second, third, in_seconds(r[1].time - r[0].time), "um");
    // end = d3 - b q with b = d2 - d3 and q = b / (a - b), a = d1 - d2: its slopes against the three readings.
    const double q = (second - third) / ((first - second) - (second - third));
    const double slope = std::hypot(q * q, 2.0 * q * (1.0 + q), (1.0 + q) * (1.0 + q));
    return {first, fit.end, fit.tau, slope * gauge_half_width_um / std::sqrt(3.0)};
}

Curve by_least_squares(std::span<const FinenessReading> r) {
    const double first = in_micrometres(r.front().fineness), last = in_micrometres(r.back().fineness);
    const double length = in_seconds(r.back().time - r.front().time);
    if (!(first > last)) throw_out_of_range("last fineness of grind", last, "um", "below the first");
    const auto residuals = [&](std::span<const double> p, std::span<double> out) {
        for (std::size_t i = 0; i < r.size(); ++i) {
            const double t = in_seconds(r[i].time - r.front().time);
            out[i] = p[0] + std::exp(p[1] - t / std::exp(p[2])) - in_micrometres(r[i].fineness);
        }
    };
    LeastSquaresOptions options;
    options.residual_standard_deviation = gauge_half_width_um / std::sqrt(3.0);
    const std::array<double, 3> start{last - 0.1 * (first - last), std::log(1.1 * (first - last)),
                                      std::log(0.4 * length)};
    const auto fit = least_squares(residuals, r.size(), start, options);
    // A straight fall fits ever better with an ever lower end and a longer tau.
    if (!fit.converged() || std::exp(fit.parameters[2]) > 20.0 * length)
        throw DomainError("drawdowns", "falling evenly", "levelling off, so that an end can be told",
                          "mull on and draw down again");
    return {fit.parameters[0] + std::exp(fit.parameters[1]), fit.parameters[0], std::exp(fit.parameters[2]),
            fit.standard_uncertainty(0)};
}

} // namespace

Length fineness_of_hegman(double hegman) {
    if (!(hegman >= 0.0 && hegman <= 8.0))
        throw DomainError("Hegman number", number_text(hegman), "0 to 8",
                          "read it anew: 0 is the deep end of the gauge and 8 the shallow one");
    return micrometres(12.7 * (8.0 - hegman));
}

double hegman_of_fineness(Length fineness) {
    const double um = in_micrometres(fineness);
    if (!(um >= 0.0 && fineness <= deepest_hegman * (1.0 + 1e-12)))
        throw_out_of_range("fineness of grind", um, "um", "0 to 101.6 um");
    return std::max(0.0, 8.0 - um / 12.7);
}

Mulling fit_mulling(std::span<const FinenessReading> readings) {
    check(readings);
    const Curve curve = three_even(readings) ? exact(readings) : by_least_squares(readings);
    if (!(curve.end >= 0.0))
        throw_out_of_range("end of the fineness of grind", curve.end, "um",
                           "0 or more: it has not begun to level off, mull on");
    return {micrometres(curve.start), micrometres(curve.end), seconds(curve.tau), micrometres(curve.end_uncertainty)};
}

Length fineness_at(const Mulling& m, Time since_first) {
    if (!(in_seconds(since_first) >= 0.0))
        throw_out_of_range("time since the first drawdown", in_minutes(since_first), "min", "0 or more");
    return m.end + (m.start - m.end) * std::exp(-in_seconds(since_first) / in_seconds(m.tau));
}

Time stop_time(const Mulling& m, Length gain, Time interval) {
    if (!(in_micrometres(gain) > 0.0))
        throw_out_of_range("gain worth mulling for", in_micrometres(gain), "um", "above 0");
    if (!(in_seconds(interval) > 0.0))
        throw_out_of_range("interval of mulling", in_minutes(interval), "min", "above 0");
    const double first_gain =
        in_metres(m.start - m.end) * -std::expm1(-in_seconds(interval) / in_seconds(m.tau));
    const double ratio = first_gain / in_metres(gain);
    return ratio <= 1.0 ? seconds(0) : m.tau * std::log(ratio);
}

Time time_to_fineness(const Mulling& m, Length target) {
    if (!(target > m.end))
        throw DomainError("fineness wanted", micrometre_text(target),
                          "above " + micrometre_text(m.end) + ", where mulling ends",
                          "grind in the mortar and sieve, or levigate, before mulling");
    if (target >= m.start) return seconds(0);
    return m.tau * std::log(in_metres(m.start - m.end) / in_metres(target - m.end));
}

} // namespace lakebound
