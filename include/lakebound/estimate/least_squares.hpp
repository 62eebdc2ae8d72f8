#pragma once
// Non-linear least squares by Levenberg-Marquardt, with an honest status.
//
// Minimises S(p) = sum_i r_i(p)^2. Steps solve min |J s + r|^2 + mu |D s|^2 by Householder QR, D the
// largest column norms of J so far (more-1978), mu steered by the gain ratio (nielsen-1999).
// Covariance = s^2 (J^T J)^-1, s^2 = S/(m - n), or the known residual variance.
// "converged" is claimed only when J has full rank and the step that is left is below 1e-5 of the
// parameters' own standard uncertainties (the relative offset of bates-watts-1981), or below 1e-9
// of the parameters themselves when the fit is exact; a small step or a small decrease alone proves
// nothing. It is a local minimum: a start near the answer is the caller's duty.
// Parameters that must stay positive: let the caller fit their logarithms.
// DomainError: fewer residuals than parameters, no parameters, a start the model refuses.

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "lakebound/estimate/function_view.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// (parameters, residuals to fill). A DomainError or a residual that is not finite makes the step
/// shorter; any other exception passes through.
using ResidualModel = FunctionView<void(std::span<const double>, std::span<double>)>;
/// (parameters, J to fill row by row: dr_i/dp_j at [i n + j]).
using JacobianModel = FunctionView<void(std::span<const double>, std::span<double>)>;

enum class FitStatus {
    converged,
    stalled,            ///< no step improves the fit, and it is not proved a minimum
    iterations_used_up, ///< still improving when it had to stop
};

struct LeastSquaresOptions {
    std::size_t most_iterations = 1000; ///< one Jacobian each
    /// Standard deviation that every residual is known to have (1 when residuals are already divided
    /// by theirs); when absent it is taken from the fit.
    std::optional<double> residual_standard_deviation;
};

struct LeastSquaresFit {
    FitStatus status = FitStatus::stalled;
    std::vector<double> parameters;
    /// Row by row. Empty when J is not of full rank, or when m = n and no residual sd is given.
    std::vector<double> covariance;
    double residual_sum_of_squares = 0.0;
    std::size_t degrees_of_freedom = 0; ///< m - n
    std::size_t iterations = 0;
    /// Condition of J with columns scaled to length 1; infinite when not of full rank.
    double condition = 0.0;

    bool converged() const noexcept { return status == FitStatus::converged; }
    /// Square root of the covariance's diagonal; DomainError when there is no covariance.
    double standard_uncertainty(std::size_t parameter) const;
    /// Square root of S/(m - n); 0 when m = n.
    double residual_standard_deviation() const;
};

/// J by central differences over 6e-6 of each parameter (one-sided at a border of the model).
[[nodiscard]] LeastSquaresFit least_squares(ResidualModel residuals, std::size_t residual_count,
                                            std::span<const double> start, const LeastSquaresOptions& options = {});
/// J given by the caller.
[[nodiscard]] LeastSquaresFit least_squares(ResidualModel residuals, JacobianModel jacobian, std::size_t residual_count,
                                            std::span<const double> start, const LeastSquaresOptions& options = {});

} // namespace lakebound
