#include "lakebound/estimate/least_squares.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include <Eigen/QR>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

using Vector = Eigen::VectorXd;
using Index = Eigen::Index;

/// The matrices of a fit of any size, on the heap.
struct AnySize {
    using Jacobian = Eigen::MatrixXd;
    using Augmented = Eigen::MatrixXd;
    using Square = Eigen::MatrixXd;
    using Residuals = Eigen::VectorXd;
    using Parameters = Eigen::VectorXd;
    using Right = Eigen::VectorXd;
};
/// Two parameters and few residuals, as every size fit has: the same arithmetic on the stack, where the
/// heap would take most of the time.
struct TwoParameters {
    static constexpr int most_residuals = 32;
    using Jacobian = Eigen::Matrix<double, Eigen::Dynamic, 2, Eigen::ColMajor, most_residuals, 2>;
    using Augmented = Eigen::Matrix<double, Eigen::Dynamic, 2, Eigen::ColMajor, most_residuals + 2, 2>;
    using Square = Eigen::Matrix2d;
    using Residuals = Eigen::Matrix<double, Eigen::Dynamic, 1, Eigen::ColMajor, most_residuals, 1>;
    using Parameters = Eigen::Vector2d;
    using Right = Eigen::Matrix<double, Eigen::Dynamic, 1, Eigen::ColMajor, most_residuals + 2, 1>;
};

constexpr double worst_condition = 1e10;   ///< beyond it half the digits of J are noise
constexpr double finished_offset = 1e-9;   ///< stop: nothing left to gain
constexpr double convincing_offset = 1e-5; ///< of a standard uncertainty
constexpr double convincing_step = 1e-9;   ///< of the parameters, for exact fits
constexpr double most_damping = 1e30;

template <class V> std::span<double> span_of(V& v) { return {v.data(), static_cast<std::size_t>(v.size())}; }
template <class V> std::span<const double> span_of(const V& v) {
    return {v.data(), static_cast<std::size_t>(v.size())};
}

template <class P, class R> bool evaluate(const ResidualModel& model, const P& p, R& r) {
    try {
        model(span_of(p), span_of(r));
    } catch (const DomainError&) {
        return false;
    }
    return r.allFinite() && std::isfinite(r.squaredNorm());
}

/// Fills J; false where the model accepts no neighbour on either side.
template <class P, class R, class J>
bool differences(const ResidualModel& model, const P& p, const R& r, J& j) {
    static const double step = std::cbrt(std::numeric_limits<double>::epsilon());
    P q = p;
    R above(r.size()), below(r.size());
    for (Index k = 0; k < p.size(); ++k) {
        const double h = step * (p[k] != 0.0 ? std::abs(p[k]) : 1.0);
        q[k] = p[k] + h;
        const double hp = q[k] - p[k];
        const bool up = evaluate(model, q, above);
        q[k] = p[k] - h;
        const double hm = q[k] - p[k];
        const bool down = evaluate(model, q, below);
        q[k] = p[k];
        if (up && down)
            j.col(k) = (above - below) / (hp - hm);
        else if (up)
            j.col(k) = (above - r) / hp;
        else if (down)
            j.col(k) = (below - r) / hm;
        else
            return false;
    }
    return j.allFinite();
}

/// What the Jacobian at the present place says about it.
template <class Size> struct Standing {
    double offset = std::numeric_limits<double>::infinity(); ///< step left, in standard uncertainties
    double step = std::numeric_limits<double>::infinity();   ///< step left, relative to the parameters
    double condition = std::numeric_limits<double>::infinity();
    bool full_rank = false;
    typename Size::Square inverse; ///< (J^T J)^-1, only when of full rank
    Standing() { inverse.setZero(); }
};

template <class Size> Standing<Size> standing(const typename Size::Jacobian& j,
                                              const typename Size::Parameters& p,
                                              const typename Size::Residuals& r) {
    using Square = typename Size::Square;
    Standing<Size> s;
    const Index m = j.rows(), n = j.cols();
    const typename Size::Parameters length = j.colwise().norm().transpose();
    if (!(length.minCoeff() > std::numeric_limits<double>::min())) return s;
    const typename Size::Jacobian scaled = j * length.cwiseInverse().asDiagonal();
    const Eigen::ColPivHouseholderQR<typename Size::Jacobian> qr(scaled);
    const Square triangle = qr.matrixR().topLeftCorner(n, n).template triangularView<Eigen::Upper>();
    // The triangle of a pivoted QR understates the condition by a small factor only.
    s.condition = std::abs(triangle(0, 0)) / std::abs(triangle(n - 1, n - 1));
    if (!(s.condition < worst_condition)) return s;

    const Square inverse_triangle =
        triangle.template triangularView<Eigen::Upper>().solve(Square::Identity(n, n));
    const Square rows = length.cwiseInverse().asDiagonal() * (qr.colsPermutation() * inverse_triangle);
    s.inverse = rows * rows.transpose();
    s.full_rank = true;

    const typename Size::Residuals in_basis = qr.householderQ().adjoint() * r;
    const double explained = in_basis.head(n).norm(), left = in_basis.tail(m - n).norm();
    if (m > n && left > 0.0)
        s.offset =
            (explained / std::sqrt(static_cast<double>(n))) / (left / std::sqrt(static_cast<double>(m - n)));
    const typename Size::Parameters newton = rows * in_basis.head(n);
    const double size = length.cwiseProduct(p).norm();
    s.step = size > 0.0 ? length.cwiseProduct(newton).norm() / size : length.cwiseProduct(newton).norm();
    if (r.squaredNorm() == 0.0) s.offset = s.step = 0.0;
    return s;
}

template <class Size> bool convincing(const Standing<Size>& s) {
    return s.condition < worst_condition && (s.offset <= convincing_offset || s.step <= convincing_step);
}

template <class Size, class Derive> LeastSquaresFit minimise(const ResidualModel& model, Derive derive,
                                                             std::size_t count, std::span<const double> start,
                                                             const LeastSquaresOptions& options) {
    using Parameters = typename Size::Parameters;
    if (start.empty()) throw DomainError("number of parameters", "0", "1 or more");
    if (count < start.size())
        throw DomainError("number of residuals", std::to_string(count),
                          "at least the " + std::to_string(start.size()) + " parameters");
    if (options.residual_standard_deviation && !(*options.residual_standard_deviation > 0.0))
        throw_out_of_range("residual standard deviation", *options.residual_standard_deviation, "", "above 0");
    const auto m = static_cast<Index>(count), n = static_cast<Index>(start.size());
    Parameters p = Eigen::Map<const Vector>(start.data(), n), trial_p = p;
    typename Size::Residuals r(m), trial_r(m);
    if (!p.allFinite() || !evaluate(model, p, r))
        throw DomainError("start of the fit", "a set of parameters that the model refuses",
                          "one with finite residuals");

    LeastSquaresFit fit;
    typename Size::Jacobian j(m, n);
    typename Size::Augmented augmented(m + n, n);
    typename Size::Right right(m + n);
    Parameters scale = Parameters::Zero(n);
    double sum = r.squaredNorm(), mu = 1e-3, growth = 2.0;
    Standing<Size> here;
    bool moving = true;
    for (; moving && fit.iterations < options.most_iterations; ++fit.iterations) {
        if (!derive(p, r, j)) {
            here = {};
            moving = false;
            break;
        }
        here = standing<Size>(j, p, r);
        if (here.condition < worst_condition && (here.offset <= finished_offset || here.step <= 1e-15)) break;
        scale = scale.cwiseMax(j.colwise().norm().transpose());
        const double greatest = scale.maxCoeff();
        if (!(greatest > 0.0)) {
            moving = false;
            break;
        }
        // A column of zeros must not divide by zero, and must not move either.
        const Parameters d = scale.cwiseMax(1e-30 * greatest);
        for (moving = false; !moving && mu <= most_damping;) {
            augmented.topRows(m) = j;
            augmented.bottomRows(n).setZero();
            augmented.bottomRows(n).diagonal() = std::sqrt(mu) * d;
            right.head(m) = -r;
            right.tail(n).setZero();
            const Parameters s = augmented.householderQr().solve(right);
            trial_p = p + s;
            const double predicted = sum - (r + j * s).squaredNorm();
            if (!s.allFinite() || (trial_p.array() == p.array()).all()) break; // below the last digit
            const bool good = evaluate(model, trial_p, trial_r);
            const double gained = good ? sum - trial_r.squaredNorm() : -1.0;
            const double ratio = predicted > 0.0 ? gained / predicted : -1.0;
            if (gained > 0.0 && ratio > 1e-4) {
                moving = true;
                p = trial_p;
                r = trial_r;
                sum = r.squaredNorm();
                mu = std::max(mu * std::max(1.0 / 3.0, 1.0 - std::pow(2.0 * ratio - 1.0, 3)), 1e-30);
                growth = 2.0;
            } else {
                mu *= growth;
                growth *= 2.0;
            }
        }
    }
    if (moving && fit.iterations == options.most_iterations)
        here = derive(p, r, j) ? standing<Size>(j, p, r) : Standing<Size>{};

    fit.parameters.assign(p.data(), p.data() + n);
    fit.residual_sum_of_squares = sum;
    fit.degrees_of_freedom = count - start.size();
    fit.condition = here.condition;
    fit.status = convincing(here) ? FitStatus::converged
                 : moving         ? FitStatus::iterations_used_up
                                  : FitStatus::stalled;
    const bool known = options.residual_standard_deviation.has_value();
    if (here.full_rank && (known || m > n)) {
        const double variance =
            known ? std::pow(*options.residual_standard_deviation, 2) : sum / static_cast<double>(m - n);
        const typename Size::Square c = variance * here.inverse;
        fit.covariance.assign(c.data(), c.data() + c.size()); // symmetric: either order
    }
    return fit;
}

template <class Derive> LeastSquaresFit dispatch(const ResidualModel& model, Derive derive, std::size_t count,
                                                 std::span<const double> start,
                                                 const LeastSquaresOptions& options) {
    if (start.size() == 2 && count <= TwoParameters::most_residuals)
        return minimise<TwoParameters>(model, derive, count, start, options);
    return minimise<AnySize>(model, derive, count, start, options);
}

} // namespace

double LeastSquaresFit::standard_uncertainty(std::size_t parameter) const {
    if (covariance.empty() || parameter >= parameters.size())
        throw DomainError("uncertainty of a fitted parameter", "not determined by the data",
                          "full rank and more data than parameters");
    return std::sqrt(covariance[parameter * parameters.size() + parameter]);
}

double LeastSquaresFit::residual_standard_deviation() const {
    return degrees_of_freedom > 0 ? std::sqrt(residual_sum_of_squares / static_cast<double>(degrees_of_freedom))
                                  : 0.0;
}

LeastSquaresFit least_squares(ResidualModel residuals, std::size_t residual_count,
                              std::span<const double> start, const LeastSquaresOptions& options) {
    const auto derive = [&](const auto& p, const auto& r, auto& j) { return differences(residuals, p, r, j); };
    return dispatch(residuals, derive, residual_count, start, options);
}

LeastSquaresFit least_squares(ResidualModel residuals, JacobianModel jacobian, std::size_t residual_count,
                              std::span<const double> start, const LeastSquaresOptions& options) {
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor> rows(
        static_cast<Index>(residual_count), static_cast<Index>(start.size()));
    const auto derive = [&](const auto& p, const auto&, auto& j) {
        try {
            jacobian(span_of(p), {rows.data(), static_cast<std::size_t>(rows.size())});
        } catch (const DomainError&) {
            return false;
        }
        j = rows;
        return j.allFinite();
    };
    return dispatch(residuals, derive, residual_count, start, options);
}

} // namespace lakebound
