#pragma once
// Rows of tables that scripts have printed, and what such tables say of a drying cake.

#include <catch2/catch.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "lakebound/bath/drying.hpp"

namespace lakebound::testing {

/// The figures of a row, one after the other.
class RowReader {
public:
    explicit RowReader(const std::vector<double>& row) : row_(row) {}
    double next() { return row_.at(at_++); }
    bool done() const { return at_ == row_.size(); }
    /// Ours is the next figure to a share of it, or to the margin.
    void hold(double ours, double share, double margin = 0.0) { CHECK(ours == Approx(next()).epsilon(share).margin(margin)); }

private:
    const std::vector<double>& row_;
    std::size_t at_ = 0;
};

inline double mean_of(const DryingBelief& belief, double DryingNode::* what) {
    double sum = 0.0;
    for (const auto& n : belief.nodes)
        sum += n.weight * n.*what;
    return sum;
}
inline double sd_of(const DryingBelief& belief, double DryingNode::* what, double DryingNode::* own = nullptr) {
    const double mean = mean_of(belief, what);
    double sum = 0.0;
    for (const auto& n : belief.nodes)
        sum += n.weight * ((n.*what - mean) * (n.*what - mean) + (own ? n.*own * n.*own : 0.0));
    return std::sqrt(sum);
}

} // namespace lakebound::testing
