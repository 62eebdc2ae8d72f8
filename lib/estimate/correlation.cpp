#include "lakebound/estimate/correlation.hpp"

#include <cmath>
#include <string>

#include <Eigen/Cholesky>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

CorrelationMatrix::CorrelationMatrix(std::size_t size) : size_(size), r_(size * size, 0.0) {
    for (std::size_t i = 0; i < size; ++i)
        r_[i * size + i] = 1.0;
}

bool CorrelationMatrix::correlated(std::size_t i) const noexcept {
    for (std::size_t j = 0; j < size_; ++j)
        if (j != i && r_[i * size_ + j] != 0.0) return true;
    return false;
}

bool CorrelationMatrix::independent() const noexcept {
    for (std::size_t i = 0; i < size_; ++i)
        if (correlated(i)) return false;
    return true;
}

void CorrelationMatrix::set(std::size_t i, std::size_t j, double r) {
    if (i >= size_ || j >= size_ || i == j)
        throw DomainError("place of a correlation coefficient", std::to_string(i) + ", " + std::to_string(j),
                          "two different inputs of " + std::to_string(size_));
    if (!(r >= -1.0 && r <= 1.0)) throw_out_of_range("correlation coefficient", r, "", "-1 to 1");
    r_[i * size_ + j] = r_[j * size_ + i] = r;
}

std::vector<double> CorrelationMatrix::factor() const {
    using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
    const auto n = static_cast<Eigen::Index>(size_);
    std::vector<double> out(size_ * size_);
    if (size_ == 0) return out;
    const Eigen::Map<const Matrix> r(r_.data(), n, n);
    // Pivoted LDL^T rather than plain Cholesky, which fails on complete correlation.
    const Eigen::LDLT<Matrix> ldlt(r);
    Eigen::VectorXd d = ldlt.vectorD();
    Matrix f = ldlt.matrixL();
    // A semidefinite matrix leaves rounding in d, and D alone cannot vouch for the indefinite case.
    for (Eigen::Index i = 0; i < n; ++i) {
        d[i] = std::sqrt(std::max(d[i], 0.0));
        f.col(i) *= d[i];
    }
    // P on both sides keeps an independent input on its own variate.
    f = ldlt.transpositionsP().transpose() * f;
    f = f * ldlt.transpositionsP();
    if (!((f * f.transpose() - r).cwiseAbs().maxCoeff() <= 1e-10))
        throw DomainError("correlation matrix", "one that no set of variables can have",
                          "positive semidefinite", "check the signs of the coefficients");
    Eigen::Map<Matrix>(out.data(), n, n) = f;
    return out;
}

} // namespace lakebound
