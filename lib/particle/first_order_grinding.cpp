#include "lakebound/particle/first_order_grinding.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"
#include "residue_target.hpp"

namespace lakebound {
namespace {

void check_residue(const ResidueReading& reading) {
    if (!(reading.residue.value() > 0.0)) throw DomainError("residue", "0 %", "above 0: a clean screen tells no rate");
}

} // namespace

FirstOrderLaw fit_first_order(std::span<const ResidueReading> readings) {
    if (readings.size() < 2)
        throw DomainError("sieve tests of the grinding", std::to_string(readings.size()),
                          "two at least, at different times", "grind on for a known time and sieve again");
    bool weighted = true;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const auto& r = readings[i];
        if (!(in_seconds(r.time) >= 0.0))
            throw_out_of_range("grinding time", in_minutes(r.time), "min", "0 or more");
        check_residue(r);
        if (!(r.standard_uncertainty >= 0.0))
            throw_out_of_range("standard uncertainty of the residue", r.standard_uncertainty, "", "0 or more");
        weighted = weighted && r.standard_uncertainty > 0.0;
        for (std::size_t j = 0; j < i; ++j)
            if (std::abs(in_seconds(r.time - readings[j].time)) <= 1e-9 * in_seconds(r.time))
                throw_out_of_range("time of a second sieve test", in_minutes(r.time), "min",
                                   "different from the other tests");
    }
    double sw = 0, mt = 0, my = 0;
    const auto weight = [&](const ResidueReading& r) {
        const double u = r.standard_uncertainty / r.residue.value();
        return weighted ? 1.0 / (u * u) : 1.0;
    };
    for (const auto& r : readings)
        sw += weight(r);
    for (const auto& r : readings) {
        mt += weight(r) * in_seconds(r.time) / sw;
        my += weight(r) * std::log(r.residue.value()) / sw;
    }
    double stt = 0, sty = 0, rest = 0;
    for (const auto& r : readings) {
        const double t = in_seconds(r.time) - mt, y = std::log(r.residue.value()) - my;
        stt += weight(r) * t * t;
        sty += weight(r) * t * y;
    }
    const double slope = sty / stt;
    if (!(slope < 0.0))
        throw DomainError("residue of the later sieve test", "not below the earlier",
                          "falling with grinding time", "check which test is which");
    FirstOrderLaw law;
    law.rate = BreakageRate::from_value(-slope);
    law.log_initial_residue = my - slope * mt;
    for (const auto& r : readings) {
        const double e = std::log(r.residue.value()) - law.log_initial_residue - slope * in_seconds(r.time);
        rest += weight(r) * e * e;
    }
    // Stated uncertainties are taken at their word; without them the scatter of three or more tells.
    if (weighted || readings.size() > 2) {
        const double s2 = weighted ? 1.0 : rest / (static_cast<double>(readings.size()) - 2.0);
        law.covariance = FirstOrderLaw::Covariance{s2 * (1.0 / sw + mt * mt / stt), s2 / stt, s2 * mt / stt};
    }
    return law;
}

double residue_at(const FirstOrderLaw& law, Time time) {
    if (!(in_seconds(time) >= 0.0)) throw_out_of_range("grinding time", in_minutes(time), "min", "0 or more");
    return std::min(1.0, std::exp(law.log_initial_residue - law.rate.value() * in_seconds(time)));
}

Time time_to_residue(const FirstOrderLaw& law, double target) {
    check_target(target);
    return seconds(std::max(0.0, (law.log_initial_residue - std::log(target)) / law.rate.value()));
}

TimeInterval time_interval(const FirstOrderLaw& law, double target, double coverage) {
    check_target(target);
    if (!(coverage > 0.0 && coverage < 1.0))
        throw_out_of_range("coverage", coverage, "", "above 0 and below 1");
    if (!law.covariance)
        throw DomainError("uncertainty of the grinding law", "unknown", "stated readings, or three of them",
                          "give the scale step of the sieve tests");
    // (c - k t)^2 <= z^2 (v0 - 2 v01 t + v1 t^2) with c = ln R0 - ln target; ln R = ln R0 - k t.
    const double z = standard_normal_quantile(0.5 + 0.5 * coverage), z2 = z * z;
    const double c = law.log_initial_residue - std::log(target), k = law.rate.value();
    const auto& v = *law.covariance;
    const double A = k * k - z2 * v.rate, B = -2.0 * (c * k - z2 * v.both), C = c * c - z2 * v.log_residue;
    TimeInterval out;
    const double discriminant = std::max(0.0, B * B - 4.0 * A * C);
    const double root = std::sqrt(discriminant);
    if (A > 0.0) {
        // The stable pair of roots; B is negative whenever the target lies ahead.
        const double q = -0.5 * (B - (B > 0.0 ? -root : root));
        const double r1 = q / A, r2 = std::abs(q) > 0.0 ? C / q : 0.0;
        out.low = seconds(std::max(0.0, std::min(r1, r2)));
        out.high = seconds(std::max(0.0, std::max(r1, r2)));
    } else {
        // k itself is not told from 0: the set is open above.
        double low = 0.0;
        if (C > 0.0) low = 2.0 * C / (-B + root);
        out.low = seconds(std::max(0.0, low));
    }
    return out;
}

LaterReading check_later_reading(const FirstOrderLaw& law, const ResidueReading& later) {
    check_residue(later);
    const double t = in_seconds(later.time);
    LaterReading out;
    out.predicted = residue_at(law, later.time);
    const double own = later.standard_uncertainty / later.residue.value();
    double variance = own * own;
    if (law.covariance)
        variance += law.covariance->log_residue - 2.0 * law.covariance->both * t + law.covariance->rate * t * t;
    if (!(variance > 0.0))
        throw DomainError("uncertainty of the sieve tests", "unknown", "known for the tests or the later one",
                          "give the scale step of the sieve tests");
    const double log_predicted = law.log_initial_residue - law.rate.value() * t;
    out.deviations = (std::log(later.residue.value()) - log_predicted) / std::sqrt(variance);
    out.slowing = out.deviations > 2.0;
    out.faster = out.deviations < -2.0;
    return out;
}

} // namespace lakebound
