#include "lakebound/estimate/tilted_grid.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr std::size_t half_of_one = 70;
constexpr int half_of_two = 18;
constexpr double reach_of_two = 6.5;
constexpr double far_corner = 46.0; ///< p^2 + q^2, in sd: beyond lies less than 1e-9 of a normal
constexpr double negligible = 1e-9;

struct Triangle {
    double a, b, c; ///< the covariance is L L^T, L = (a 0; b c)
};
Triangle factor(const JointNormal& n) {
    const double v = n.variance(0), u = n.covariance_of(0, 1);
    const double left = v > 0.0 ? n.variance(1) - u * u / v : 0.0;
    if (!(v > 0.0 && left > 0.0))
        throw DomainError("covariance of two quantities", "singular", "positive definite");
    return {std::sqrt(v), u / std::sqrt(v), std::sqrt(left)};
}

void normalise(std::vector<GridNode>& nodes) {
    double sum = 0.0;
    for (const auto& n : nodes)
        sum += n.weight;
    for (auto& n : nodes)
        n.weight /= sum;
}

} // namespace

std::vector<GridNode> tilted_grid(const JointNormal& cavity, std::span<const LogisticTrials> trials,
                                  const JointNormal& about) {
    if (cavity.size() < 1 || cavity.size() > 2 || trials.size() != cavity.size())
        throw DomainError("quantities of a grid", std::to_string(cavity.size()), "1 or 2, each with its trials");
    std::vector<GridNode> nodes;
    if (cavity.size() == 1) {
        for (const auto& n : tilted_nodes(cavity.mean[0], cavity.variance(0), trials[0], half_of_one))
            nodes.push_back({n.value, 0.0, n.weight});
        return nodes;
    }
    if (about.size() != 2) throw DomainError("belief that lays the grid", std::to_string(about.size()), "of both");
    const Triangle to = factor(about), from = factor(cavity);
    constexpr int side = 2 * half_of_two + 1;
    constexpr double step = reach_of_two / half_of_two;
    nodes.reserve(side * side);
    std::array<double, side> of_firsts{}, of_seconds{};
    log_likelihoods(trials[0], about.mean[0] - to.a * reach_of_two, to.a * step, of_firsts);
    double greatest = -1e300;
    for (int i = -half_of_two; i <= half_of_two; ++i) {
        const double p = step * i, first = about.mean[0] + to.a * p;
        const double z = (first - cavity.mean[0]) / from.a;
        const double of_first = of_firsts[static_cast<std::size_t>(i + half_of_two)] - 0.5 * z * z;
        const int side_reach = std::min(half_of_two, static_cast<int>(std::sqrt(far_corner - p * p) / step));
        const double centre = about.mean[1] + to.b * p;
        const std::span row(of_seconds.data(), static_cast<std::size_t>(2 * side_reach + 1));
        log_likelihoods(trials[1], centre - to.c * step * side_reach, to.c * step, row);
        for (int j = -side_reach; j <= side_reach; ++j) {
            GridNode n{first, centre + to.c * step * j, 0.0};
            const double y = (n.second - cavity.mean[1] - from.b * z) / from.c;
            n.weight = of_first + row[static_cast<std::size_t>(j + side_reach)] - 0.5 * y * y;
            greatest = std::max(greatest, n.weight);
            nodes.push_back(n);
        }
    }
    for (auto& n : nodes)
        n.weight = std::exp(n.weight - greatest);
    normalise(nodes);
    std::erase_if(nodes, [](const GridNode& n) { return n.weight < negligible / (side * side); });
    normalise(nodes);
    return nodes;
}

} // namespace lakebound
