#include "lakebound/particle/cushioned_law.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"
#include "residue_target.hpp"

namespace lakebound {
namespace {

double z_of(double residue, double c) { return (1.0 + c) * std::log(residue) - c * residue; }

/// R of z, at most 1; z rises with R.
double residue_of(double z, double c) {
    if (z >= z_of(1.0, c)) return 1.0;
    // In y = ln R: dz/dy = 1 + c - c R, and z is close to straight in y.
    double y = (z + c) / (1.0 + c);
    for (int i = 0; i < 60; ++i) {
        const double r = std::exp(y), step = ((1.0 + c) * y - c * r - z) / (1.0 + c - c * r);
        y -= step;
        if (std::abs(step) <= 1e-14 * (1.0 + std::abs(y))) break;
    }
    return std::min(1.0, std::exp(y));
}

/// The straight line z = start - rate t for one c.
struct Line {
    double c = 0.0, start = 0.0, rate = 0.0;
    double mean_time = 0.0, weights = 0.0, spread = 0.0; // sum of w, sum of w (t - mean)^2
    double chi2 = 0.0, weighed = 0.0;                    // weighed: with the prior
};

Line line_for(std::span<const ResidueReading> readings, double c) {
    Line line;
    line.c = c;
    const auto weight = [&](const ResidueReading& r) {
        const double R = r.residue.value(), u = r.standard_uncertainty * ((1.0 + c) / R - c);
        return 1.0 / (u * u);
    };
    double mean_z = 0.0, product = 0.0;
    for (const auto& r : readings)
        line.weights += weight(r);
    for (const auto& r : readings) {
        line.mean_time += weight(r) * in_seconds(r.time) / line.weights;
        mean_z += weight(r) * z_of(r.residue.value(), c) / line.weights;
    }
    for (const auto& r : readings) {
        const double t = in_seconds(r.time) - line.mean_time;
        line.spread += weight(r) * t * t;
        product += weight(r) * t * (z_of(r.residue.value(), c) - mean_z);
    }
    line.rate = -product / line.spread;
    line.start = mean_z + line.rate * line.mean_time;
    for (const auto& r : readings) {
        const double e = z_of(r.residue.value(), c) - line.start + line.rate * in_seconds(r.time);
        line.chi2 += weight(r) * e * e;
    }
    return line;
}

} // namespace

CushionedLaw fit_cushioned_law(std::span<const ResidueReading> readings, const CushioningPrior& prior,
                               unsigned draws) {
    (void)fit_first_order(readings); // refuses what cannot be fitted
    for (const auto& r : readings)
        if (!(r.standard_uncertainty > 0.0))
            throw_out_of_range("standard uncertainty of the residue", r.standard_uncertainty, "", "above 0");
    constexpr int net = 160;
    std::vector<Line> lines;
    double least = std::numeric_limits<double>::infinity(), least_chi2 = least;
    std::size_t best = 0;
    for (int i = 0; i <= net; ++i) {
        const double deviations = -3.0 + 6.0 * i / net;
        const double latent = prior.latent + deviations * prior.latent_deviation;
        Line line = line_for(readings, cushioning_of_latent(latent));
        line.weighed = line.chi2 + deviations * deviations;
        least_chi2 = std::min(least_chi2, line.c > 0.0 ? line.chi2 : least_chi2);
        if (line.rate > 0.0 && line.weighed < least) least = line.weighed, best = lines.size();
        lines.push_back(line);
    }
    CushionedLaw law;
    law.start = lines[best].start;
    law.rate = BreakageRate::from_value(lines[best].rate);
    law.cushioning = lines[best].c;
    law.misfit_gain = std::max(0.0, line_for(readings, 0.0).chi2 - least_chi2);
    double sum = 0.0;
    std::vector<double> upto;
    for (const auto& line : lines)
        upto.push_back(sum += std::exp(-0.5 * (line.weighed - least)));
    RandomEngine engine(20260103);
    for (unsigned d = 0; d < draws; ++d) {
        const double at = sum * (d + uniform(engine)) / draws; // stratified over c
        const auto& line = lines[static_cast<std::size_t>(
            std::min<std::ptrdiff_t>(std::lower_bound(upto.begin(), upto.end(), at) - upto.begin(), net))];
        const double rate = line.rate + standard_normal(engine) / std::sqrt(line.spread);
        const double middle = line.start - line.rate * line.mean_time +
                              standard_normal(engine) / std::sqrt(line.weights);
        law.draws.push_back({middle + rate * line.mean_time, rate, line.c});
    }
    return law;
}

double residue_at(const CushionedLaw& law, Time time) {
    if (!(in_seconds(time) >= 0.0)) throw_out_of_range("grinding time", in_minutes(time), "min", "0 or more");
    return residue_of(law.start - law.rate.value() * in_seconds(time), law.cushioning);
}

Share uncushioned_passing(const CushionedLaw& law, Time time) {
    if (!(in_seconds(time) >= 0.0)) throw_out_of_range("grinding time", in_minutes(time), "min", "0 or more");
    return Share::of(-std::expm1(-law.rate.value() * in_seconds(time)));
}

Time time_to_residue(const CushionedLaw& law, double target) {
    check_target(target);
    return seconds(std::max(0.0, (law.start - z_of(target, law.cushioning)) / law.rate.value()));
}

PredictedResidue predicted_residue(const CushionedLaw& law, Time time, double coverage) {
    PredictedResidue out;
    out.residue = residue_at(law, time);
    std::vector<double> values;
    for (const auto& draw : law.draws)
        values.push_back(residue_of(draw.start - draw.rate * in_seconds(time), draw.cushioning));
    const auto summary = summarise(values, coverage);
    out.interval = summary.symmetric;
    out.standard_deviation = summary.standard_deviation;
    return out;
}

PredictedTime predicted_time(const CushionedLaw& law, double target, double coverage) {
    check_target(target);
    PredictedTime out;
    out.time = time_to_residue(law, target);
    std::vector<double> times;
    for (const auto& draw : law.draws)
        times.push_back(draw.rate > 0.0
                            ? std::max(0.0, (draw.start - z_of(target, draw.cushioning)) / draw.rate)
                            : std::numeric_limits<double>::max());
    out.low = seconds(sample_quantile(times, 0.5 - 0.5 * coverage));
    const double high = sample_quantile(times, 0.5 + 0.5 * coverage);
    if (high < in_seconds(hours(1000))) out.high = seconds(high);
    return out;
}

} // namespace lakebound
