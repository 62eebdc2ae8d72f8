#include "lakebound/record/demand_belief.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "demand_check.hpp"
#include "demand_trials.hpp"
#include "lakebound/estimate/probability.hpp"

namespace lakebound {
namespace {

constexpr double cell_width = 0.7; ///< of like nodes, in sd of the normal about them

template <class Of> double weighted(const DemandBelief& belief, Of of) {
    double sum = 0.0;
    for (const auto& part : belief.parts)
        for (const auto& n : part.nodes)
            sum += n.weight * of(part, n);
    return sum;
}

NormalMixture mixture(const DemandBelief& belief, double sign, double further_spread) {
    std::vector<NormalPart> normals;
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
    struct Cell {
        double weight = 0.0, first = 0.0, second = 0.0;
    };
    std::vector<NormalPart> normals;
    std::vector<Cell> cells;
    for (const auto& part : parts) {
        const double sd = std::hypot(part.critical_spread, batch_spread);
        const auto [least, greatest] = std::minmax_element(
            part.nodes.begin(), part.nodes.end(),
            [](const DemandNode& a, const DemandNode& b) { return a.critical < b.critical; });
        const double low = least->critical, width = std::max(sd, (greatest->critical - low) / 300.0) * cell_width + 1e-12;
        cells.assign(static_cast<std::size_t>((greatest->critical - low) / width) + 1, {});
        for (const auto& n : part.nodes) {
            Cell& cell = cells[static_cast<std::size_t>((n.critical - low) / width)];
            cell.weight += n.weight;
            cell.first += n.weight * (n.critical - low);
            cell.second += n.weight * (n.critical - low) * (n.critical - low);
        }
        for (const Cell& c : cells) {
            if (!(c.weight > 0.0)) continue;
            const double mean = c.first / c.weight, within = std::max(c.second / c.weight - mean * mean, 0.0);
            normals.push_back({c.weight, -(low + mean), std::sqrt(sd * sd + within)});
        }
    }
    return NormalMixture(std::move(normals));
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
    const double mean = belief.flip_mean(), reach = 10.0 * belief.flip_spread() + width;
    double low = mean - reach, high = mean + reach;
    while (high - low > 1e-9) {
        const double middle = 0.5 * (low + high);
        const double lean = weighted(belief, [&](const DemandPart&, const DemandNode& n) {
            return logistic((n.flip - middle) / width);
        });
        (lean > 0.5 ? low : high) = middle;
    }
    return BinderSufficiency::of(std::exp(belief.lean_edge + 0.5 * (low + high)));
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
