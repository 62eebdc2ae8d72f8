#include "lakebound/record/demand_belief.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "demand_check.hpp"
#include "demand_trials.hpp"
#include "gathered_nodes.hpp"
#include "lakebound/estimate/probability.hpp"

namespace lakebound {
namespace {

template <class Of> double weighted(const DemandBelief& belief, Of of) {
    double sum = 0.0;
    for (const auto& part : belief.parts)
        for (const auto& n : part.nodes)
            sum += n.weight * of(part, n);
    return sum;
}

NormalMixture mixture(const DemandBelief& belief, double sign, double further_spread) {
    std::size_t nodes = 0;
    for (const auto& part : belief.parts)
        nodes += part.nodes.size();
    std::vector<NormalPart> normals;
    normals.reserve(nodes);
    for (const auto& part : belief.parts) {
        const double sd = std::hypot(part.critical_spread, further_spread);
        for (const auto& n : part.nodes)
            normals.push_back({n.weight, sign * n.critical, sd});
    }
    return NormalMixture(std::move(normals));
}

} // namespace

NormalMixture DemandBelief::critical() const { return mixture(*this, 1.0, 0.0); }

NormalMixture DemandBelief::doubt(double batch_spread) const {
    check_spread(batch_spread, "ln-sd of a batch");
    return mixture(*this, -1.0, batch_spread);
}

NormalMixture DemandBelief::gathered_doubt(double batch_spread) const {
    check_spread(batch_spread, "ln-sd of a batch");
    std::vector<double> weights;
    weights_of(*this, weights);
    return GatheredNodes(*this, batch_spread).doubt(weights);
}

double DemandBelief::flip_mean() const {
    return weighted(*this, [](const DemandPart&, const DemandNode& n) { return n.flip; });
}

double DemandBelief::flip_spread() const {
    const double mean = flip_mean();
    return std::sqrt(weighted(*this, [&](const DemandPart&, const DemandNode& n) {
        return (n.flip - mean) * (n.flip - mean);
    }));
}

double DemandBelief::odd_weight() const {
    double sum = 0.0;
    for (const auto& part : parts)
        if (part.odd_maker) sum += part.weight;
    return sum;
}

BinderSufficiency even_bet(const DemandBelief& belief, double weighing_spread) {
    check_spread(weighing_spread, "ln-sd of a swatch");
    const double width = widened(belief.lean_width, weighing_spread);
    // The nodes of a grid of two quantities stand in rows of one z.
    std::vector<std::pair<double, double>> rows; // z, weight
    for (const auto& part : belief.parts)
        for (const auto& n : part.nodes)
            if (!rows.empty() && std::abs(rows.back().first - n.flip) < 1e-14) rows.back().second += n.weight;
            else rows.emplace_back(n.flip, n.weight);
    const double mean = belief.flip_mean(), reach = 10.0 * belief.flip_spread() + width;
    double low = mean - reach, high = mean + reach, at = mean;
    for (int i = 0; i < 100 && high - low > 1e-9; ++i) { // Newton, halving where it leaves what is enclosed
        double lean = 0.0, slope = 0.0;
        for (const auto& [z, weight] : rows) {
            const double p = logistic((z - at) / width);
            lean += weight * p;
            slope += weight * p * (1.0 - p) / width;
        }
        (lean > 0.5 ? low : high) = at;
        const double step = slope > 0.0 ? (lean - 0.5) / slope : reach;
        if (std::abs(step) < 1e-10) break;
        at = at + step > low && at + step < high ? at + step : 0.5 * (low + high);
    }
    return BinderSufficiency::of(std::exp(belief.lean_edge + at));
}

Probability chance_of_trial(const DemandBelief& belief, const PaintTrial& trial) {
    check_spread(trial.weighing_spread, "ln-sd of a trial");
    check_spread(trial.library_k.value(), "k of a trial by the library", false);
    const double x = std::log(trial.library_k.value());
    double sum = 0.0;
    for (const auto& part : belief.parts) {
        const OutcomeChances chances(belief, part, x, trial.weighing_spread, trial.in_use);
        for (const auto& n : part.nodes)
            sum += n.weight * chances.of(trial.outcome, n);
    }
    return Probability::from_proven(std::min(1.0, sum));
}

Probability chance_of_rub_out(const DemandBelief& belief, OilAbsorption reading) {
    check_spread(reading.value(), "oil absorption of a rub-out", false);
    const double y = std::log(reading.value() / belief.reference.value());
    const auto beyond = [&](double side) {
        return weighted(belief, [&](const DemandPart& part, const DemandNode& n) {
            return standard_normal_cdf(side * (y - n.rub_out) / std::sqrt(part.rub_out.variance));
        });
    };
    return Probability::from_proven(std::min(1.0, 2.0 * std::min(beyond(+1.0), beyond(-1.0))));
}

} // namespace lakebound
