#pragma once
// Breakage parameters from the maker's own sieve tests, with their uncertainty and what follows from it.
//
// Fitted: the rate a, the selection exponent alpha, the breakage exponent gamma, the cushioning c where a
// prior for it is given, and the class fractions at the time of the first test, which is a measurement like
// the others. Held: phi and beta, which a handful of sieve tests cannot tell.

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/export.hpp"
#include "lakebound/particle/breakage.hpp"
#include "lakebound/particle/sieve_test.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// One sieve test at a known grinding time; fractions coarse to fine, the pan last.
struct GrindingTest {
    Time time;
    std::vector<double> fractions; ///< add up to 1
};
[[nodiscard]] GrindingTest grinding_test(Time time, const SieveAnalysis& analysis);

/// Upper sizes of the classes of an analysis: the largest grain, then the screens.
/// Errors: DomainError unless largest is above the coarsest screen.
[[nodiscard]] std::vector<Length> grinding_classes(const SieveAnalysis& analysis, Length largest_grain);

/// What is thought of the two exponents before any test: strong selection with coarse fragments and weak
/// selection with fine ones grind much alike, and two sieve tests alone cannot tell them apart. Both are
/// lognormal. The figures come from the shelf (powder_habits.hpp); deviations and scatter are above 0.
struct BreakagePrior {
    double log_exponent = 0.0; ///< for alpha
    double log_exponent_deviation = 0.0;
    double log_gamma = 0.0;
    double log_gamma_deviation = 0.0;
    double fraction_deviation = 0.0;        ///< scatter of a class fraction ...
    double fraction_deviation_weight = 0.0; ///< ... worth this many degrees of freedom
};

/// What is thought of the cushioning c by fines before any test, by its latent y, which is normal:
///   c = l + h ln(1 + exp((y - l) / h)), l = least_cushioning, h = 0.25
/// so that c is y where y is large and no less than l. Two tests cannot tell c from a slower mortar, so that
/// with two this is all there is; from three on the tests speak.
/// The figures come from the shelf (powder_habits.hpp); the deviation is above 0.
/// Accuracy: tests/particle/grinding_coverage_test.cpp.
struct CushioningPrior {
    double latent = 0.0;
    double latent_deviation = 0.0;
};
/// c of its latent, and dc/dy.
[[nodiscard]] double cushioning_of_latent(double latent) noexcept;
[[nodiscard]] double cushioning_slope(double latent) noexcept;

struct BreakageFitOptions {
    std::optional<BreakagePrior> prior; ///< nothing: the tests alone
    std::optional<CushioningPrior> cushioning; ///< nothing: first-order grinding; needs `prior`
    double phi = 1.0;
    double beta = 5.8;
    /// Standard deviation of one class fraction, where known; else the scatter about the fit tells it.
    std::optional<double> fraction_uncertainty;
    unsigned resamples = 500;      ///< bootstrap; 0 for none
    std::uint64_t seed = 20260101; ///< the same answer every time
};

/// One set of parameters that the sieve tests allow.
struct BreakageDraw {
    double log_rate = 0.0;     ///< ln(a in 1/s)
    double log_exponent = 0.0; ///< ln alpha
    double log_gamma = 0.0;
    double cushioning = 0.0;
    std::vector<double> feed; ///< class fractions at the first test's time
};

struct BreakageFit {
    BreakageModel model;
    std::vector<double> feed;        ///< fitted class fractions at `start`
    Time start;                      ///< time of the first test
    double fraction_deviation = 0.0; ///< standard deviation of one class fraction, stated or found
    double degrees_of_freedom = 0.0; ///< behind fraction_deviation, the prior's weight included
    bool deviation_stated = false;   ///< fraction_deviation was given, not found
    double misfit = 0.0;             ///< sum of squares of fitted less seen class fractions
    /// Covariance of (ln a, ln alpha, ln gamma), row by row.
    std::array<double, 9> covariance{};
    /// Degrees of freedom behind each of the three variances: many where the prior, not the scatter, rules.
    std::array<double, 3> parameter_degrees_of_freedom{};
    std::vector<BreakageDraw> draws; ///< bootstrap
};

/// Why these tests do not allow a population balance, in one sentence; empty when they do. The one-screen
/// law of first_order_grinding.hpp is then the way.
[[nodiscard]] std::string obstacle_to_breakage_fit(std::size_t classes, std::size_t tests);

/// Least squares on all class fractions of all tests, with the prior as two more readings; parametric
/// bootstrap that redraws the readings, the prior's centre and the scatter itself, so that few degrees of
/// freedom widen the intervals.
/// Range: tests at different times, the same classes throughout, (tests - 1)(classes - 1) >= 4.
/// Errors: DomainError; also when the tests do not tell the parameters apart.
/// Source: austin-1984 (forms, value from memory); efron-tibshirani-1993 for the bootstrap.
/// Accuracy: of 2 000 simulated makers, their mortars drawn from the prior, 88 to 92 % of the 90 %
/// intervals hold the truth.
[[nodiscard]] BreakageFit fit_breakage(std::span<const Length> class_sizes, std::span<const GrindingTest> tests,
                                       const BreakageFitOptions& options = {});

enum class BreakageParameter { log_rate, log_exponent, log_gamma };
/// Student's t interval of a parameter (normal where the deviation was stated), with the effective degrees
/// of freedom nu / w, w = d ln variance / d ln scatter^2: 1 where the scatter rules, near 0 where the prior
/// does. Departs from the nu / w^2 of jcgm-100, G.4, which fell 1 to 2 points short in simulation because
/// the prior's pull on the centre rests on the scatter too.
/// Range: coverage above 0 and below 1. Errors: DomainError.
[[nodiscard]] CoverageInterval parameter_interval(const BreakageFit& fit, BreakageParameter which, double coverage);

/// The model of one draw. Errors: none.
[[nodiscard]] BreakageModel drawn_model(const BreakageFit& fit, const BreakageDraw& draw);

/// Class fractions foreseen at a time on the clock of the tests. Range: at or after the first test.
[[nodiscard]] std::vector<double> predicted_fractions(const BreakageFit& fit, Time time);

struct PredictedResidue {
    double residue = 0.0; ///< above the class limit
    CoverageInterval interval;
    double standard_deviation = 0.0; ///< of the bootstrap
};
/// Errors: DomainError without draws, and for a time before the first test.
[[nodiscard]] PredictedResidue predicted_residue(const BreakageFit& fit, std::size_t limit, Time time,
                                                 double coverage = 0.90);

struct PredictedTime {
    Time time; ///< on the clock of the tests
    Time low;
    std::optional<Time> high; ///< nothing when too many draws never reach the target within `longest`
};
/// Time until the residue above a class limit has fallen to the target, with its bootstrap interval.
[[nodiscard]] PredictedTime predicted_time(const BreakageFit& fit, std::size_t limit, double target, double coverage = 0.90,
                                           Time longest = hours(1000));

/// How a later sieve test sits against the fit of the earlier ones.
struct LaterTest {
    double predicted = 0.0, observed = 0.0; ///< residue above the class limit
    double deviations = 0.0;                ///< (observed - predicted) / u
    bool slowing = false;                   ///< above 2: fines cushion the grains, or the mortar is overfull
    bool faster = false;                    ///< below -2: the tests do not belong together
};
/// u combines the bootstrap of the prediction with the deviation of the later test itself.
[[nodiscard]] LaterTest check_later_test(const BreakageFit& fit, const GrindingTest& later, std::size_t limit);

} // namespace lakebound
