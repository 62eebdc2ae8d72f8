#include "lakebound/estimate/least_squares.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>

#include <Eigen/Core>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

using Index = Eigen::Index;
using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;
using Order = std::vector<Index>;

constexpr double worst_condition = 1e10;   ///< beyond it half the digits of J are noise
constexpr double finished_offset = 1e-9;   ///< stop: nothing left to gain
constexpr double convincing_offset = 1e-5; ///< of a standard uncertainty
constexpr double convincing_step = 1e-9;   ///< of the parameters, for exact fits
constexpr double most_damping = 1e30;
constexpr double infinite = std::numeric_limits<double>::infinity();

std::span<double> span_of(Vector& v) { return {v.data(), static_cast<std::size_t>(v.size())}; }
std::span<const double> span_of(const Vector& v) { return {v.data(), static_cast<std::size_t>(v.size())}; }

bool evaluate(const ResidualModel& model, const Vector& p, Vector& r) {
    try {
        model(span_of(p), span_of(r));
    } catch (const DomainError&) {
        return false;
    }
    return std::isfinite(r.squaredNorm());
}

/// J by differences; false where the model accepts no neighbour on either side.
struct DifferencedSlopes {
    const ResidualModel& model;
    Vector q, above, below;

    bool operator()(const Vector& p, const Vector& r, Matrix& j) {
        static const double step = std::cbrt(std::numeric_limits<double>::epsilon());
        q = p;
        above.resize(r.size());
        below.resize(r.size());
        for (Index k = 0; k < p.size(); ++k) {
            const double h = step * (p[k] != 0.0 ? std::abs(p[k]) : 1.0);
            q[k] = p[k] + h;
            const double hp = q[k] - p[k];
            const bool up = evaluate(model, q, above);
            q[k] = p[k] - h;
            const double hm = q[k] - p[k];
            const bool down = evaluate(model, q, below);
            q[k] = p[k];
            if (!up && !down) return false;
            const Vector& one = up ? above : r;
            const Vector& other = down ? below : r;
            j.col(k) = (one - other) / ((up ? hp : 0.0) - (down ? hm : 0.0));
        }
        return true;
    }
};

/// J from the caller's derivatives, which come row by row.
struct Derivatives {
    const JacobianModel& model;
    std::vector<double> rows;

    bool operator()(const Vector& p, const Vector&, Matrix& j) {
        rows.resize(static_cast<std::size_t>(j.size()));
        try {
            model(span_of(p), rows);
        } catch (const DomainError&) {
            return false;
        }
        const double* next = rows.data();
        for (Index i = 0; i < j.rows(); ++i)
            for (Index k = 0; k < j.cols(); ++k)
                j(i, k) = *next++;
        return true;
    }
};

/// Householder's QR in place on the first n columns of a, which has n rows at least; later columns are carried
/// along. Below the triangle rubbish is left. With an order, the longest column that remains goes first.
/// Eigen's own QR classes work in blocks meant for large matrices: with ten rows and two columns a fit took
/// them nearly twice as long, and this file was by far the slowest of the project to compile. Source:
/// golub-van-loan-2013, algorithms 5.2.1 and 5.4.1.
void triangularise(Matrix& a, Index n, Order* order) {
    const Index rows = a.rows(), columns = a.cols();
    for (Index k = 0; k < n; ++k) {
        const Index left = rows - k - 1;
        if (order) {
            Index longest = k;
            double length = -1.0;
            for (Index c = k; c < n; ++c)
                if (const double l = a.col(c).tail(left + 1).squaredNorm(); l > length) length = l, longest = c;
            if (longest != k) {
                a.col(k).swap(a.col(longest));
                std::swap((*order)[static_cast<std::size_t>(k)], (*order)[static_cast<std::size_t>(longest)]);
            }
        }
        const double head = a(k, k), tail = a.col(k).tail(left).squaredNorm();
        if (!(tail > 0.0)) continue;
        const double beta = -std::copysign(std::sqrt(head * head + tail), head);
        a.col(k).tail(left) /= head - beta;
        for (Index c = k + 1; c < columns; ++c) {
            const double w = (1.0 - head / beta) * (a(k, c) + a.col(k).tail(left).dot(a.col(c).tail(left)));
            a(k, c) -= w;
            a.col(c).tail(left) -= w * a.col(k).tail(left);
        }
        a(k, k) = beta;
    }
}

/// x of R x = y, R the upper triangle of a.
void substitute_back(const Matrix& a, Vector& y) {
    for (Index k = y.size(); k-- > 0;) {
        for (Index c = k + 1; c < y.size(); ++c)
            y[k] -= a(k, c) * y[c];
        y[k] /= a(k, k);
    }
}

/// What J and r at the present place say about it. One QR serves the test for a minimum, every damped step from
/// here and the covariance: J = Q R P^T L with L the lengths of J's columns, and c = Q^T r.
struct Standing {
    double offset = infinite;    ///< step left, in standard uncertainties
    double step = infinite;      ///< step left, relative to the parameters
    double condition = infinite; ///< of J L^-1; infinite when not of full rank
    Matrix triangle;             ///< R above, c in the last column
    Vector length;               ///< of the columns of J; 1 for one of zeros
    Order order;                 ///< P: which parameter stands at each column of R

    bool full_rank() const { return condition < worst_condition; }
    bool convincing() const { return full_rank() && (offset <= convincing_offset || step <= convincing_step); }
    double length_at(Index k) const { return length[order[static_cast<std::size_t>(k)]]; }
};

void find_standing(Standing& s, const Matrix& j, const Vector& p, const Vector& r, Vector& z) {
    const Index m = j.rows(), n = j.cols();
    s.offset = s.step = s.condition = infinite;
    s.triangle.resize(m, n + 1);
    s.length.resize(n);
    bool none_is_zero = true;
    for (Index k = 0; k < n; ++k) {
        const double length = j.col(k).norm();
        const bool counts = length > std::numeric_limits<double>::min();
        none_is_zero = none_is_zero && counts;
        s.length[k] = counts ? length : 1.0;
        s.triangle.col(k) = j.col(k) / s.length[k];
    }
    s.triangle.col(n) = r;
    s.order.resize(static_cast<std::size_t>(n));
    std::iota(s.order.begin(), s.order.end(), Index{0});
    triangularise(s.triangle, n, &s.order);
    if (!none_is_zero) return;
    // The triangle of a pivoted QR understates the condition by a small factor only.
    s.condition = std::abs(s.triangle(0, 0)) / std::abs(s.triangle(n - 1, n - 1));
    if (!s.full_rank()) return;

    z = s.triangle.col(n).head(n);
    const double explained = z.norm(), left = s.triangle.col(n).tail(m - n).norm();
    if (m > n && left > 0.0)
        s.offset =
            (explained / std::sqrt(static_cast<double>(n))) / (left / std::sqrt(static_cast<double>(m - n)));
    substitute_back(s.triangle, z); // Newton's step, in units of 1 / length
    const double size = s.length.cwiseProduct(p).norm();
    s.step = size > 0.0 ? z.norm() / size : z.norm();
}

/// (J^T J)^-1, from the inverse of R column by column.
Matrix inverse_normal_matrix(const Standing& s) {
    const Index n = s.length.size();
    Matrix rows(n, n), inverse(n, n);
    for (Index k = 0; k < n; ++k) {
        Vector column = Vector::Unit(n, k);
        substitute_back(s.triangle, column);
        for (Index i = 0; i < n; ++i)
            rows(s.order[static_cast<std::size_t>(i)], k) = column[i] / s.length_at(i);
    }
    for (Index i = 0; i < n; ++i)
        for (Index k = 0; k < n; ++k)
            inverse(i, k) = rows.row(i).dot(rows.row(k));
    return inverse;
}

template <class Derive> LeastSquaresFit minimise(const ResidualModel& model, Derive derive, std::size_t count,
                                                 std::span<const double> start,
                                                 const LeastSquaresOptions& options) {
    if (start.empty()) throw DomainError("number of parameters", "0", "1 or more");
    if (count < start.size())
        throw DomainError("number of residuals", std::to_string(count),
                          "at least the " + std::to_string(start.size()) + " parameters");
    if (options.residual_standard_deviation && !(*options.residual_standard_deviation > 0.0))
        throw_out_of_range("residual standard deviation", *options.residual_standard_deviation, "", "above 0");
    const auto m = static_cast<Index>(count), n = static_cast<Index>(start.size());
    Vector p = Eigen::Map<const Vector>(start.data(), n), trial_p = p, r(m), trial_r(m), z(n), moved(n);
    if (!p.allFinite() || !evaluate(model, p, r))
        throw DomainError("start of the fit", "a set of parameters that the model refuses",
                          "one with finite residuals");

    LeastSquaresFit fit;
    Matrix j(m, n), damped(2 * n, n + 1);
    Vector scale = Vector::Zero(n);
    double sum = r.squaredNorm(), mu = 1e-3, growth = 2.0;
    Standing here;
    const auto look_around = [&] {
        const bool known = derive(p, r, j) && j.allFinite();
        if (known)
            find_standing(here, j, p, r, z);
        else
            here.condition = infinite;
        return known;
    };
    bool moving = true;
    for (; moving && fit.iterations < options.most_iterations; ++fit.iterations) {
        if (!look_around()) {
            moving = false;
            break;
        }
        if (here.full_rank() && (here.offset <= finished_offset || here.step <= 1e-15)) break;
        for (Index k = 0; k < n; ++k)
            scale[k] = std::max(scale[k], j.col(k).norm());
        const double greatest = scale.maxCoeff();
        if (!(greatest > 0.0)) {
            moving = false;
            break;
        }
        for (moving = false; !moving && mu <= most_damping;) {
            // min |R z + c|^2 + mu |D s|^2, z = P^T L s.
            damped.setZero();
            for (Index c = 0; c < n; ++c) {
                damped.col(c).head(c + 1) = here.triangle.col(c).head(c + 1);
                // A column of zeros must not divide by zero, and must not move either.
                const double d = std::max(scale[here.order[static_cast<std::size_t>(c)]], 1e-30 * greatest);
                damped(n + c, c) = std::sqrt(mu) * d / here.length_at(c);
            }
            damped.col(n).head(n) = -here.triangle.col(n).head(n);
            triangularise(damped, n, nullptr);
            z = damped.col(n).head(n);
            substitute_back(damped, z);
            double predicted = 0.0; // |c|^2 - |R z + c|^2
            for (Index k = 0; k < n; ++k) {
                double change = 0.0;
                for (Index c = k; c < n; ++c)
                    change += here.triangle(k, c) * z[c];
                predicted -= change * (2.0 * here.triangle(k, n) + change);
                moved[here.order[static_cast<std::size_t>(k)]] = z[k] / here.length_at(k);
            }
            trial_p = p + moved;
            if (!moved.allFinite() || trial_p == p) break; // below the last digit
            const bool good = evaluate(model, trial_p, trial_r);
            const double gained = good ? sum - trial_r.squaredNorm() : -1.0;
            const double ratio = predicted > 0.0 ? gained / predicted : -1.0;
            if (gained > 0.0 && ratio > 1e-4) {
                moving = true;
                p.swap(trial_p);
                r.swap(trial_r);
                sum = r.squaredNorm();
                const double trust = 2.0 * ratio - 1.0;
                mu = std::max(mu * std::max(1.0 / 3.0, 1.0 - trust * trust * trust), 1e-30);
                growth = 2.0;
            } else {
                mu *= growth;
                growth *= 2.0;
            }
        }
    }
    if (moving && fit.iterations == options.most_iterations) look_around();

    fit.parameters.assign(p.data(), p.data() + n);
    fit.residual_sum_of_squares = sum;
    fit.degrees_of_freedom = count - start.size();
    fit.condition = here.condition;
    fit.status = here.convincing() ? FitStatus::converged
                 : moving          ? FitStatus::iterations_used_up
                                   : FitStatus::stalled;
    const bool known = options.residual_standard_deviation.has_value();
    if (here.full_rank() && (known || m > n)) {
        const double variance =
            known ? std::pow(*options.residual_standard_deviation, 2) : sum / static_cast<double>(m - n);
        const Matrix c = variance * inverse_normal_matrix(here);
        fit.covariance.assign(c.data(), c.data() + c.size()); // symmetric: either order
    }
    return fit;
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
    return minimise(residuals, DifferencedSlopes{residuals, {}, {}, {}}, residual_count, start, options);
}

LeastSquaresFit least_squares(ResidualModel residuals, JacobianModel jacobian, std::size_t residual_count,
                              std::span<const double> start, const LeastSquaresOptions& options) {
    return minimise(residuals, Derivatives{jacobian, {}}, residual_count, start, options);
}

} // namespace lakebound
