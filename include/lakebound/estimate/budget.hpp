#pragma once
// The first-order uncertainty budget: which input matters, and how much.
//
// y = f(x1..xn); u^2(y) = sum_ij c_i u_i r_ij c_j u_j, c_i = df/dx_i at the best estimates.
// Source: jcgm-100, equations 10, 13 and 16; effective degrees of freedom G.2b (Welch-Satterthwaite);
// second-order term 5.1.2, note. Departure: lognormal inputs are linearised in their logarithm, so
// u_i is median times ln-sd, and correlations of lognormal inputs are those of the logarithms.
// Valid while f is near enough a straight line over two or three u of each input; compare with the
// second-order uncertainty or with Monte Carlo when in doubt.
// Accuracy: central differences over 0.001 u; relative error near 1e-7 for smooth f. At the border
// of f's domain (f throws DomainError on one side) a one-sided parabola takes over.
// Errors: DomainError when f refuses the best estimates themselves or both sides of one, when f or
// a difference is not finite, or when the correlation matrix does not match the inputs.
// Example: docs/examples/carry_an_uncertainty.cpp.

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lakebound/estimate/correlation.hpp"
#include "lakebound/estimate/function_view.hpp"
#include "lakebound/estimate/input.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A model of one output; the span holds the inputs in their order.
using Model = FunctionView<double(std::span<const double>)>;
/// A model of several outputs: (inputs, outputs to fill).
using JointModel = FunctionView<void(std::span<const double>, std::span<double>)>;

struct BudgetOptions {
    CorrelationMatrix correlation; ///< size 0: independent
    bool second_order = false;     ///< needs about 2 n^2 more evaluations
};

struct BudgetLine {
    std::string name;
    Provenance provenance;
    double value = 0.0;                ///< best estimate of the input
    double standard_uncertainty = 0.0; ///< u_i
    double sensitivity = 0.0;          ///< c_i; 0 for an exact input if the model accepts no other value
    double contribution = 0.0;         ///< c_i u_i, with its sign
    /// c_i u_i sum_j r_ij c_j u_j / u^2(y): the shares add up to 1; with correlation one may be negative.
    double share = 0.0;
};

struct Budget {
    double value = 0.0;
    double standard_uncertainty = 0.0; ///< first order
    /// sqrt(u^2 + sum_ij [f_ij^2 / 2 + f_i f_ijj] u_i^2 u_j^2), when asked for and inputs are
    /// independent; the note of the GUM holds for symmetric densities. Empty if the sum is
    /// negative or a border of f's domain is too near.
    std::optional<double> second_order_uncertainty;
    /// Infinite when every input's is; empty when correlated inputs have finite ones (G.4.1 does not hold).
    std::optional<double> effective_degrees_of_freedom;
    std::vector<BudgetLine> lines; ///< in the order of the inputs
};

[[nodiscard]] Budget budget(Model f, std::span<const UncertainInput> inputs, const BudgetOptions& options = {});

/// Budgets of several outputs of the same inputs, with what they share (jcgm-100, H.2.3, equation H.9).
struct JointBudget {
    std::vector<Budget> outputs;
    std::vector<double> covariance; ///< row by row
    CorrelationMatrix correlation;  ///< 0 where an output has no uncertainty
};
[[nodiscard]] JointBudget joint_budget(JointModel f, std::size_t outputs, std::span<const UncertainInput> inputs,
                                       const BudgetOptions& options = {});

/// u(y) alone, when the lines are not wanted: for sweeps.
[[nodiscard]] double first_order_uncertainty(Model f, std::span<const UncertainInput> inputs,
                                             const BudgetOptions& options = {});

} // namespace lakebound
