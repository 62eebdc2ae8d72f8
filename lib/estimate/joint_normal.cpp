#include "lakebound/estimate/joint_normal.hpp"

#include <cmath>
#include <numbers>
#include <string>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include "eigen_index.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

using Index = Eigen::Index;
using RowMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
using ConstMatrix = Eigen::Map<const RowMatrix>;
using ConstVector = Eigen::Map<const Eigen::VectorXd>;

/// Sum of the variances of the sources that both name.
double shared(const std::vector<std::size_t>& a, const std::vector<std::size_t>& b, std::span<const double> v) {
    double sum = 0.0;
    for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
        if (a[i] == b[j]) sum += v[a[i++]], ++j;
        else if (a[i] < b[j]) ++i;
        else ++j;
    }
    return sum;
}

void check_sizes(const JointNormal& joint, std::size_t first, const char* what) {
    if (joint.covariance.size() != joint.size() * joint.size())
        throw DomainError("covariance", std::to_string(joint.covariance.size()) + " entries",
                          "the square of " + std::to_string(joint.size()));
    if (first > joint.size())
        throw DomainError(what, std::to_string(first), "at most " + std::to_string(joint.size()));
}

} // namespace

JointNormal joint_of_sums(std::span<const NormalSum> sums, std::span<const double> source_variances) {
    for (const double v : source_variances)
        if (!(v >= 0.0 && std::isfinite(v)))
            throw_out_of_range("variance of a source", v, "", "0 or more, finite");
    const std::size_t n = sums.size();
    JointNormal joint{std::vector<double>(n), std::vector<double>(n * n)};
    for (std::size_t i = 0; i < n; ++i) {
        const auto& sources = sums[i].sources;
        for (std::size_t s = 0; s < sources.size(); ++s)
            if (sources[s] >= source_variances.size() || (s > 0 && sources[s] <= sources[s - 1]))
                throw DomainError("source of a sum", std::to_string(sources[s]), "listed, in rising order");
        joint.mean[i] = sums[i].offset;
        for (std::size_t j = 0; j <= i; ++j)
            joint.covariance[i * n + j] = joint.covariance[j * n + i] =
                shared(sources, sums[j].sources, source_variances);
    }
    return joint;
}

ConditionedNormal conditioned_on_first(const JointNormal& joint, std::span<const double> values) {
    check_sizes(joint, values.size(), "number of observed values");
    if (values.empty()) return {joint, 0.0};
    const Index n = index(joint.size()), m = index(values.size()), rest = n - m;
    const ConstMatrix k(joint.covariance.data(), n, n);
    const Eigen::VectorXd difference =
        ConstVector(values.data(), m) - ConstVector(joint.mean.data(), m);
    if (!difference.allFinite()) throw DomainError("observed value", "not finite", "finite");
    const Eigen::LLT<Eigen::MatrixXd> factor(k.topLeftCorner(m, m));
    if (factor.info() != Eigen::Success)
        throw DomainError("covariance of the readings", "singular", "positive definite",
                          "give each reading its own scatter");
    const Eigen::VectorXd whitened = factor.matrixL().solve(difference);
    const Eigen::MatrixXd gain = factor.matrixL().solve(k.topRightCorner(m, rest));

    ConditionedNormal answer;
    const auto left = static_cast<std::size_t>(rest);
    answer.rest = {std::vector<double>(left), std::vector<double>(left * left)};
    Eigen::Map<Eigen::VectorXd>(answer.rest.mean.data(), rest) =
        ConstVector(joint.mean.data() + m, rest) + gain.transpose() * whitened;
    // One triangle, for the other is its mirror image.
    Eigen::MatrixXd left_over = k.bottomRightCorner(rest, rest);
    left_over.selfadjointView<Eigen::Lower>().rankUpdate(gain.transpose(), -1.0);
    Eigen::Map<RowMatrix>(answer.rest.covariance.data(), rest, rest) = left_over.selfadjointView<Eigen::Lower>();
    answer.log_evidence = -0.5 * whitened.squaredNorm() -
                          0.5 * static_cast<double>(m) * std::log(2.0 * std::numbers::pi);
    for (Index i = 0; i < m; ++i)
        answer.log_evidence -= std::log(factor.matrixLLT()(i, i));
    return answer;
}

NormalRegression regression_on_first(const JointNormal& joint, std::size_t given) {
    check_sizes(joint, given, "number of given quantities");
    const std::size_t n = joint.size(), rest = n - given;
    // Gauss's elimination, one given quantity after another; a pivot that is used up is passed over.
    std::vector<double> c = joint.covariance, slope(rest * given, 0.0);
    std::vector<bool> counts(given, false);
    for (std::size_t g = 0; g < given; ++g) {
        const double pivot = c[g * n + g];
        counts[g] = pivot > 1e-12 * joint.variance(g) && pivot > 0.0;
        if (!counts[g]) continue;
        for (std::size_t i = g + 1; i < n; ++i) {
            const double factor = c[i * n + g] / pivot;
            for (std::size_t j = g + 1; j < n; ++j)
                c[i * n + j] -= factor * c[g * n + j];
        }
    }
    // Back-substitution: slopes of the later given quantities pass through the earlier ones.
    NormalRegression line{given, std::vector<double>(rest), std::move(slope), std::vector<double>(rest * rest)};
    for (std::size_t r = 0; r < rest; ++r) {
        double* s = line.slope.data() + r * given;
        for (std::size_t g = given; g-- > 0;) {
            if (!counts[g]) continue;
            double right = c[g * n + given + r];
            for (std::size_t h = g + 1; h < given; ++h)
                right -= c[g * n + h] * s[h];
            s[g] = right / c[g * n + g];
        }
        line.intercept[r] = joint.mean[given + r];
        for (std::size_t g = 0; g < given; ++g)
            line.intercept[r] -= s[g] * joint.mean[g];
        for (std::size_t q = 0; q < rest; ++q)
            line.covariance[r * rest + q] = c[(given + r) * n + given + q];
    }
    return line;
}

} // namespace lakebound
