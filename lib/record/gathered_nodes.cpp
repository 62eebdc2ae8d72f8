#include "gathered_nodes.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lakebound {
namespace {

constexpr double cell_width = 0.7; ///< of like nodes, in sd of the normal about them
constexpr double most_cells = 120; ///< side by side
constexpr double like_widths = 0.1; ///< by how much of itself a normal's sd may differ from those it shares cells with
constexpr double negligible_cell = 1e-7; ///< of all weight: a cell of less is left out

} // namespace

void weights_of(const DemandBelief& belief, std::vector<double>& weights) {
    weights.clear();
    for (const auto& part : belief.parts)
        for (const auto& n : part.nodes)
            weights.push_back(n.weight);
}

void GatheredNodes::lay(const DemandBelief& belief, double batch_spread) {
    struct Row { // of cells
        double sd, low, high, width = 0.0;
        std::size_t first = 0, last = 0;
    };
    std::vector<Row> rows;
    std::vector<std::size_t> row_of;
    std::size_t nodes = 0;
    for (const auto& part : belief.parts) {
        const double sd = std::hypot(part.critical_spread, batch_spread);
        const auto [least, greatest] = std::minmax_element(
            part.nodes.begin(), part.nodes.end(),
            [](const DemandNode& a, const DemandNode& b) { return a.critical < b.critical; });
        std::size_t r = 0;
        while (r < rows.size() && !(std::abs(sd - rows[r].sd) <= like_widths * rows[r].sd))
            ++r;
        if (r == rows.size()) rows.push_back({sd, least->critical, greatest->critical});
        rows[r].low = std::min(rows[r].low, least->critical);
        rows[r].high = std::max(rows[r].high, greatest->critical);
        row_of.push_back(r);
        nodes += part.nodes.size();
    }
    origins_.clear();
    for (Row& row : rows) {
        const double span = row.high - row.low;
        row.width = std::max(row.sd, span / most_cells) * cell_width + 1e-12;
        row.first = origins_.size();
        row.last = row.first + static_cast<std::size_t>(span / row.width);
        for (std::size_t i = 0; i <= row.last - row.first; ++i)
            origins_.push_back(row.low + static_cast<double>(i) * row.width);
    }
    places_.clear();
    places_.reserve(nodes);
    for (std::size_t p = 0; p < belief.parts.size(); ++p) {
        const Row& row = rows[row_of[p]];
        const double sd = std::hypot(belief.parts[p].critical_spread, batch_spread);
        const double per_width = 1.0 / row.width, variance = sd * sd;
        for (const auto& n : belief.parts[p].nodes) {
            const auto steps = static_cast<std::size_t>((n.critical - row.low) * per_width);
            const std::size_t cell = std::min(row.first + steps, row.last);
            const double off = n.critical - origins_[cell];
            places_.push_back({cell, off, off * off + variance});
        }
    }
}

NormalMixture GatheredNodes::doubt(std::span<const double> weights) const {
    struct Sums {
        double weight = 0.0, first = 0.0, second = 0.0;
    };
    std::vector<Sums> cells(origins_.size());
    double total = 0.0;
    for (std::size_t i = 0; i < places_.size(); ++i) {
        Sums& cell = cells[places_[i].cell];
        cell.weight += weights[i];
        cell.first += weights[i] * places_[i].off;
        cell.second += weights[i] * places_[i].square;
        total += weights[i];
    }
    std::vector<NormalPart> normals;
    normals.reserve(cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const Sums& c = cells[i];
        if (!(c.weight > negligible_cell * total)) continue;
        const double mean = c.first / c.weight, variance = std::max(c.second / c.weight - mean * mean, 0.0);
        normals.push_back({c.weight, -(origins_[i] + mean), std::sqrt(variance)});
    }
    return NormalMixture(std::move(normals));
}

} // namespace lakebound
