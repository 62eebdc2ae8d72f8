// What a fitted breakage foretells: curves, residues and times, with the interval of the redrawn fits.

#include <algorithm>
#include <cmath>
#include <string>

#include "lakebound/particle/breakage_fit.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void need_draws(const BreakageFit& fit) {
    if (fit.draws.size() < 20)
        throw DomainError("bootstrap draws", std::to_string(fit.draws.size()), "20 at least for an interval",
                          "fit with resamples");
}

double residue_after(const BreakageModel& model, std::vector<double> feed, std::size_t limit, Time time) {
    PopulationBalance(model).grind(feed, time);
    return residue_above(feed, limit);
}

Time since_start(const BreakageFit& fit, Time time) {
    if (!(in_seconds(time) >= in_seconds(fit.start) * (1.0 - 1e-12)))
        throw_out_of_range("grinding time", in_minutes(time), "min", "at or after the first sieve test");
    return seconds(std::max(0.0, in_seconds(time) - in_seconds(fit.start)));
}

} // namespace

BreakageModel drawn_model(const BreakageFit& fit, const BreakageDraw& draw) {
    BreakageModel model = fit.model;
    model.selection = {BreakageRate::from_value(std::exp(draw.log_rate)), std::exp(draw.log_exponent)};
    model.breakage.gamma = std::exp(draw.log_gamma);
    model.cushioning = draw.cushioning;
    return model;
}

std::vector<double> predicted_fractions(const BreakageFit& fit, Time time) {
    std::vector<double> w = fit.feed;
    PopulationBalance(fit.model).grind(w, since_start(fit, time));
    return w;
}

PredictedResidue predicted_residue(const BreakageFit& fit, std::size_t limit, Time time, double coverage) {
    need_draws(fit);
    const Time since = since_start(fit, time);
    PredictedResidue out;
    out.residue = residue_after(fit.model, fit.feed, limit, since);
    std::vector<double> values;
    for (const auto& draw : fit.draws)
        values.push_back(residue_after(drawn_model(fit, draw), draw.feed, limit, since));
    const auto summary = summarise(values, coverage);
    out.interval = summary.symmetric;
    out.standard_deviation = summary.standard_deviation;
    return out;
}

PredictedTime predicted_time(const BreakageFit& fit, std::size_t limit, double target, double coverage,
                             Time longest) {
    need_draws(fit);
    if (!(coverage > 0.0 && coverage < 1.0))
        throw_out_of_range("coverage", coverage, "", "above 0 and below 1");
    PredictedTime out;
    out.time = fit.start + time_to_residue(PopulationBalance(fit.model), fit.feed, limit, target, longest);
    std::vector<double> times;
    std::size_t never = 0;
    for (const auto& draw : fit.draws) {
        try {
            times.push_back(in_seconds(
                time_to_residue(PopulationBalance(drawn_model(fit, draw)), draw.feed, limit, target, longest)));
        } catch (const DomainError&) {
            ++never;
        }
    }
    std::sort(times.begin(), times.end());
    const double count = static_cast<double>(times.size() + never), out_each = 0.5 * (1.0 - coverage);
    const auto index = [&](double p) { return static_cast<std::size_t>(std::ceil(p * count) - 1.0); };
    const std::size_t low = index(out_each), high = index(1.0 - out_each);
    out.low = low < times.size() ? fit.start + seconds(times[low]) : out.time;
    if (high < times.size()) out.high = fit.start + seconds(times[high]);
    return out;
}

LaterTest check_later_test(const BreakageFit& fit, const GrindingTest& later, std::size_t limit) {
    if (later.fractions.size() != fit.feed.size())
        throw DomainError("classes of the later sieve test", std::to_string(later.fractions.size()),
                          std::to_string(fit.feed.size()) + ", the same screens as before");
    const auto foreseen = predicted_residue(fit, limit, later.time);
    LaterTest out;
    out.predicted = foreseen.residue;
    out.observed = residue_above(later.fractions, limit);
    // The error of a sum of classes, each divided by the sum of all.
    const double R = out.observed, above = static_cast<double>(limit);
    const double below = static_cast<double>(later.fractions.size()) - above;
    const double own2 =
        fit.fraction_deviation * fit.fraction_deviation * (above * (1 - R) * (1 - R) + below * R * R);
    const double u = std::sqrt(foreseen.standard_deviation * foreseen.standard_deviation + own2);
    out.deviations = u > 0.0 ? (out.observed - out.predicted) / u : 0.0;
    out.slowing = out.deviations > 2.0;
    out.faster = out.deviations < -2.0;
    return out;
}

} // namespace lakebound
