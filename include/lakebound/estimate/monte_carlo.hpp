#pragma once
// Propagation of distributions by seeded draws.
//
// Source: jcgm-101, clause 7 (procedure), 6.4.8 (correlated normal inputs).
// Reproducible: the answer depends on the seed, the number of draws and the way of drawing, and on
// nothing else; not on the number of threads, for every 16384 draws have their own random stream.
// Example: docs/examples/carry_an_uncertainty.cpp.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "lakebound/estimate/budget.hpp"
#include "lakebound/estimate/correlation.hpp"
#include "lakebound/estimate/function_view.hpp"
#include "lakebound/estimate/input.hpp"
#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/error.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class Drawing {
    independent, ///< plain random draws
    stratified,  ///< Latin hypercube (mckay-1979) in 16 independent parts
    sobol,       ///< Sobol points, digitally shifted, in 16 independent parts; good at few draws
    /// Sobol points turned so that their best coordinate runs along the gradient of the first output
    /// (imai-tan-2006): for the chance of crossing a limit in few draws. Any model; the gain is
    /// greatest where the model is near a function of one weighted sum of its inputs.
    directed,
};

struct MonteCarloOptions {
    std::size_t draws =
        100000; ///< 2 to 1e8; rounded up to 16 n (stratified) or 16 times a power of 2 (sobol, directed)
    std::uint64_t seed = 1;
    Drawing drawing = Drawing::independent;
    CorrelationMatrix correlation; ///< size 0: independent; correlated inputs must be normal or lognormal
    unsigned threads = 1;          ///< more than 1: the model is called from several threads at once
    /// Draws the model refuses (DomainError, or a result that is not finite) are left out and
    /// counted; above this share of all draws the whole answer is refused.
    double greatest_refused_share = 0.01;
};

struct MonteCarloDraws {
    std::vector<std::vector<double>> outputs; ///< [output][draw], refused draws left out
    std::size_t refused = 0;
    std::string first_refusal; ///< what the model said, empty when nothing was refused
    Drawing drawing = Drawing::independent;
    std::vector<std::size_t> parts; ///< end of each independent part within outputs[i]

    std::size_t count() const noexcept { return outputs.empty() ? 0 : outputs.front().size(); }
};

struct EstimatedProbability {
    double value = 0.0;
    double standard_error = 0.0; ///< of the drawing itself, not of the model or the inputs
};

/// Share of draws below the limit. Standard error: binomial with half a count added to each side
/// for independent draws, so that it is not 0 when no draw crosses; from the spread of the
/// 16 independent parts otherwise, never below what counting whole draws leaves open.
[[nodiscard]] EstimatedProbability probability_below(const MonteCarloDraws& draws, double limit, std::size_t output = 0);
[[nodiscard]] EstimatedProbability probability_above(const MonteCarloDraws& draws, double limit, std::size_t output = 0);
/// Mean of an output and the standard error that the number of draws leaves in it.
[[nodiscard]] EstimatedProbability monte_carlo_mean(const MonteCarloDraws& draws, std::size_t output = 0);
[[nodiscard]] SampleSummary summarise(const MonteCarloDraws& draws, double coverage = 0.95, std::size_t output = 0);

namespace detail {
struct Refusals {
    std::size_t count = 0;
    std::string first;
};
/// (rows of inputs, one after the other; rows of outputs to fill; count of refused rows to add to).
using BlockModel = FunctionView<void(std::span<const double>, std::span<double>, Refusals&)>;
[[nodiscard]] MonteCarloDraws draw_blocks(BlockModel model, std::size_t outputs, std::span<const UncertainInput> inputs,
                                          const MonteCarloOptions& options);
} // namespace detail

/// Draws of several outputs of the same inputs. f: void(std::span<const double> inputs, std::span<double>
/// outputs). DomainError: no inputs or outputs, draws out of range, correlation that does not match, too many
/// refused.
template <class F> [[nodiscard]] MonteCarloDraws joint_monte_carlo(F&& f, std::size_t outputs,
                                                                   std::span<const UncertainInput> inputs,
                                                                   const MonteCarloOptions& options = {}) {
    // The loop over a block lives here so that the compiler can inline the model into it.
    const std::size_t n = inputs.size();
    const auto block = [&f, n, outputs](std::span<const double> in, std::span<double> out,
                                        detail::Refusals& refused) {
        for (std::size_t i = 0, o = 0; o < out.size(); i += n, o += outputs) {
            const std::span<double> row = out.subspan(o, outputs);
            try {
                f(in.subspan(i, n), row);
                bool finite = true;
                for (const double y : row)
                    finite = finite && std::isfinite(y);
                if (finite) continue;
                if (refused.count++ == 0) refused.first = "the result is not finite";
            } catch (const DomainError& e) {
                if (refused.count++ == 0) refused.first = e.what();
            }
            for (double& y : row)
                y = std::numeric_limits<double>::quiet_NaN(); // taken out again below
        }
    };
    return detail::draw_blocks(block, outputs, inputs, options);
}

/// Draws of one output. f: double(std::span<const double> inputs). Errors as above.
template <class F> [[nodiscard]] MonteCarloDraws monte_carlo(F&& f, std::span<const UncertainInput> inputs,
                                                             const MonteCarloOptions& options = {}) {
    return joint_monte_carlo([&f](std::span<const double> in, std::span<double> out) { out[0] = f(in); }, 1,
                             inputs, options);
}

} // namespace lakebound
