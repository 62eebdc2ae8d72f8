#include "gathered_nodes.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace lakebound {
namespace {

constexpr double cell_width = 0.7; ///< of like nodes, in sd of the normal about them
constexpr double most_cells = 120; ///< of a part
constexpr double negligible_cell = 1e-7; ///< of all weight: a cell of less is left out

} // namespace

void weights_of(const DemandBelief& belief, std::vector<double>& weights) {
    weights.clear();
    for (const auto& part : belief.parts)
        for (const auto& n : part.nodes)
            weights.push_back(n.weight);
}

void GatheredNodes::lay(const DemandBelief& belief, double batch_spread) {
    places_.clear();
    origins_.clear();
    for (const auto& part : belief.parts) {
        const double sd = std::hypot(part.critical_spread, batch_spread);
        const auto [least, greatest] = std::minmax_element(
            part.nodes.begin(), part.nodes.end(),
            [](const DemandNode& a, const DemandNode& b) { return a.critical < b.critical; });
        const double low = least->critical, span = greatest->critical - low;
        const double width = std::max(sd, span / most_cells) * cell_width + 1e-12;
        const std::size_t first = origins_.size();
        origins_.resize(first + static_cast<std::size_t>(span / width) + 1, {low, sd * sd});
        const double per_width = 1.0 / width;
        const std::size_t last = origins_.size() - 1;
        for (const auto& n : part.nodes) {
            const double off = n.critical - low;
            places_.push_back({std::min(first + static_cast<std::size_t>(off * per_width), last), off});
        }
    }
}

NormalMixture GatheredNodes::doubt(std::span<const double> weights) const {
    struct Sums {
        double weight = 0.0, first = 0.0, second = 0.0;
    };
    std::vector<Sums> cells(origins_.size());
    for (std::size_t i = 0; i < places_.size(); ++i) {
        Sums& cell = cells[places_[i].cell];
        cell.weight += weights[i];
        const double moment = weights[i] * places_[i].off;
        cell.first += moment;
        cell.second += moment * places_[i].off;
    }
    const double least = negligible_cell * std::accumulate(weights.begin(), weights.end(), 0.0);
    std::vector<NormalPart> normals;
    normals.reserve(cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const Sums& c = cells[i];
        if (!(c.weight > least)) continue;
        const double mean = c.first / c.weight, within = std::max(c.second / c.weight - mean * mean, 0.0);
        normals.push_back({c.weight, -(origins_[i].low + mean), std::sqrt(origins_[i].variance + within)});
    }
    return NormalMixture(std::move(normals));
}

} // namespace lakebound
