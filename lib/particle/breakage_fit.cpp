#include "lakebound/particle/breakage_fit.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "breakage_problem.hpp"
#include "class_fractions.hpp"
#include "lakebound/estimate/least_squares.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/estimate/sampling_law.hpp"
#include "lakebound/quantity/error.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

constexpr double softness = 0.25;           // of the bend of the cushioning at 0

using detail::BreakageProblem;
using detail::best_of_starts;
using detail::shape_parameters;
using detail::solve;

std::vector<GrindingTest> in_order(std::span<const GrindingTest> tests, std::size_t classes) {
    std::vector<GrindingTest> sorted(tests.begin(), tests.end());
    std::sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.time < b.time; });
    for (std::size_t k = 0; k < sorted.size(); ++k) {
        const auto& test = sorted[k];
        if (!(in_seconds(test.time) >= 0.0))
            throw_out_of_range("grinding time", in_minutes(test.time), "min", "0 or more");
        if (k > 0 && !(in_seconds(test.time) - in_seconds(sorted[k - 1].time) > 1e-9 * in_seconds(test.time)))
            throw_out_of_range("time of a second sieve test", in_minutes(test.time), "min",
                               "different from the other tests");
        if (test.fractions.size() != classes)
            throw DomainError("classes of a sieve test", std::to_string(test.fractions.size()),
                              std::to_string(classes) + ", the same screens in every test");
        for (const double f : test.fractions)
            if (!(f >= 0.0 && f <= 1.0)) throw_out_of_range("class fraction", f, "", "0 to 1");
        check_sum(test.fractions);
    }
    return sorted;
}

/// The rate at which the upper half of the grains left, as a first guess of the parameters.
std::vector<double> first_guess(std::span<const Length> sizes, const std::vector<GrindingTest>& tests) {
    const auto &first = tests.front(), &last = tests.back();
    // The coarsest limit with enough above it to be seen, so that breakage into the class hardly counts.
    std::size_t limit = 1;
    while (limit + 1 < sizes.size() && residue_above(first.fractions, limit) < 0.2)
        ++limit;
    const double before = residue_above(first.fractions, limit), after = residue_above(last.fractions, limit);
    if (!(before > 0.0 && after < before))
        throw DomainError("residue of the later sieve test", "not below the earlier",
                          "falling with grinding time", "check which test is which");
    const double ratio = std::max(after, 1e-3 * before) / before;
    const double rate = -std::log(ratio) / in_seconds(last.time - first.time);
    const double relative = in_metres(sizes[limit > 1 ? limit - 1 : 0]) / in_metres(sizes[0]);
    std::vector<double> start{std::log(rate / std::pow(relative, 0.9)), std::log(0.9), std::log(0.9)};
    start.insert(start.end(), first.fractions.begin(), first.fractions.end() - 1);
    return start;
}

std::vector<double> proper_fractions(std::vector<double> f) {
    for (double& x : f)
        x = std::max(0.0, x);
    const double sum = sum_of(f);
    for (double& x : f)
        x /= sum;
    return f;
}

/// A positive scale with the spread that an estimate from this many degrees of freedom has.
double redrawn_scale(RandomEngine& engine, double degrees_of_freedom) {
    const double chi2 = chi_squared_quantile(uniform(engine), degrees_of_freedom);
    return std::sqrt(degrees_of_freedom / std::max(chi2, 1e-6));
}

void bootstrap(BreakageFit& fit, BreakageProblem& problem, const std::vector<double>& best,
               const BreakageFitOptions& options) {
    RandomEngine engine(options.seed);
    std::vector<double> clean(problem.readings()), noisy(problem.readings());
    const auto prior = problem.prior();
    const auto cushioning = problem.cushioning();
    problem.predict(best, clean);
    const std::size_t n = fit.feed.size(), tests = clean.size() / n;
    fit.draws.reserve(options.resamples);
    for (unsigned draw = 0; draw < options.resamples; ++draw) {
        const double scale = fit.fraction_deviation *
                             (fit.deviation_stated ? 1.0 : redrawn_scale(engine, fit.degrees_of_freedom));
        for (std::size_t k = 0; k < tests; ++k) {
            double sum = 0.0;
            for (std::size_t i = 0; i < n; ++i)
                sum += noisy[k * n + i] = clean[k * n + i] + scale * standard_normal(engine);
            // A sieve test divides by its own sum; so does its double.
            for (std::size_t i = 0; i < n; ++i)
                noisy[k * n + i] /= sum;
        }
        problem.observe(noisy);
        problem.believe(scale);
        if (prior) {
            problem.prior()->log_exponent =
                prior->log_exponent + prior->log_exponent_deviation * standard_normal(engine);
            problem.prior()->log_gamma =
                prior->log_gamma + prior->log_gamma_deviation * standard_normal(engine);
        }
        if (cushioning)
            problem.cushioning()->latent =
                cushioning->latent + cushioning->latent_deviation * standard_normal(engine);
        const auto found = solve(problem, best);
        if (found.status == FitStatus::iterations_used_up) continue; // a draw that tells nothing
        fit.draws.push_back({found.parameters[0], found.parameters[1], found.parameters[2],
                             cushioning ? cushioning_of_latent(found.parameters[3]) : 0.0,
                             proper_fractions(problem.feed(found.parameters))});
    }
}

} // namespace

double cushioning_of_latent(double latent) noexcept {
    const double x = (latent - least_cushioning) / softness;
    return least_cushioning + softness * (x > 30.0 ? x : std::log1p(std::exp(x)));
}

double cushioning_slope(double latent) noexcept {
    return 1.0 / (1.0 + std::exp((least_cushioning - latent) / softness));
}

GrindingTest grinding_test(Time time, const SieveAnalysis& analysis) {
    GrindingTest test{time, {}};
    for (const auto& f : analysis.fractions)
        test.fractions.push_back(f.fraction.value());
    return test;
}

std::vector<Length> grinding_classes(const SieveAnalysis& analysis, Length largest_grain) {
    std::vector<Length> sizes{largest_grain};
    for (const auto& f : analysis.fractions)
        if (f.aperture) sizes.push_back(*f.aperture);
    if (sizes.size() > 1 && !(sizes[0] > sizes[1]))
        throw DomainError("largest grain", micrometre_text(largest_grain),
                          "coarser than the coarsest screen, " + micrometre_text(sizes[1]),
                          "give the size of the largest grain that you see, or leave it out");
    return sizes;
}

std::string obstacle_to_breakage_fit(std::size_t classes, std::size_t tests) {
    if (tests < 2) return "one sieve test tells no rate: grind on for a known time and sieve again";
    if (classes < 2) return "the sieve tests name no screen";
    if ((tests - 1) * (classes - 1) >= shape_parameters + 1) return {};
    return std::to_string(tests) + " sieve tests over " + std::to_string(classes - 1) +
           (classes == 2 ? " screen" : " screens") +
           " do not tell rate, selection and breakage apart; two tests need four screens, three need two";
}

BreakageFit fit_breakage(std::span<const Length> class_sizes, std::span<const GrindingTest> tests,
                         const BreakageFitOptions& options) {
    const std::size_t n = class_sizes.size();
    if (const auto obstacle = obstacle_to_breakage_fit(n, tests.size()); !obstacle.empty())
        throw DomainError("sieve tests of the grinding", obstacle, "enough for a population balance",
                          "or use the one-screen law");
    if (options.fraction_uncertainty && !(*options.fraction_uncertainty > 0.0))
        throw_out_of_range("standard deviation of a class fraction", *options.fraction_uncertainty, "",
                           "above 0");
    if (options.cushioning && !options.prior)
        throw DomainError("prior of the cushioning", "given alone", "with a prior of the exponents",
                          "two tests cannot tell them apart");
    const auto sorted = in_order(tests, n);
    BreakageProblem problem(class_sizes, sorted, options);
    std::vector<double> observed;
    for (const auto& test : sorted)
        observed.insert(observed.end(), test.fractions.begin(), test.fractions.end());
    problem.observe(observed);

    BreakageFit fit;
    fit.start = sorted.front().time;
    fit.deviation_stated = options.fraction_uncertainty.has_value();
    // Each test's fractions add up to 1, so each gives one reading fewer than it has classes.
    double free = static_cast<double>((sorted.size() - 1) * (n - 1) - shape_parameters);
    if (options.cushioning && sorted.size() > 2) free -= 1.0; // two tests do not tell it at all
    fit.degrees_of_freedom = free + (options.prior ? options.prior->fraction_deviation_weight : 0.0);
    double deviation =
        options.fraction_uncertainty.value_or(options.prior ? options.prior->fraction_deviation : 1.0);
    problem.believe(deviation);
    auto guess = first_guess(class_sizes, sorted);
    if (options.cushioning) {
        // The rate seen is that of the cushioned mortar; a fresh one is faster.
        const double c = cushioning_of_latent(options.cushioning->latent);
        guess[0] += std::log1p(c * 0.5 * (sorted.front().fractions.back() + sorted.back().fractions.back()));
        guess.insert(guess.begin() + shape_parameters, options.cushioning->latent);
    }
    auto found = options.prior ? solve(problem, guess) : best_of_starts(problem, guess);
    if (!fit.deviation_stated) {
        // Scatter and prior weigh each other: a few rounds settle it.
        for (int round = 0; round < (options.prior ? 4 : 1); ++round) {
            double squares = problem.misfit(found.parameters);
            if (options.prior)
                squares += options.prior->fraction_deviation_weight * options.prior->fraction_deviation *
                           options.prior->fraction_deviation;
            const double before = deviation;
            deviation = std::sqrt(squares / fit.degrees_of_freedom);
            if (!options.prior || std::abs(deviation - before) < 0.01 * before) break;
            problem.believe(deviation);
            found = solve(problem, found.parameters);
        }
    }
    const std::size_t all = problem.parameters();
    if (!found.converged() || found.covariance.size() != all * all)
        throw DomainError("breakage parameters", "not told apart by these sieve tests", "a fit that converges",
                          "use the one-screen law, or sieve at another time over more screens");
    fit.model = problem.model(found.parameters);
    fit.feed = proper_fractions(problem.feed(found.parameters));
    fit.fraction_deviation = deviation;
    fit.misfit = problem.misfit(found.parameters);
    // The engine's covariance rests on its own count of residuals; ours is put in its place.
    const double theirs = found.residual_sum_of_squares / static_cast<double>(found.degrees_of_freedom);
    const double factor = theirs > 0.0 ? deviation * deviation / theirs : 0.0;
    for (std::size_t i = 0; i < shape_parameters; ++i)
        for (std::size_t j = 0; j < shape_parameters; ++j)
            fit.covariance[i * shape_parameters + j] = found.covariance[i * all + j] * factor;
    for (std::size_t k = 0; k < shape_parameters; ++k) {
        const double variance = fit.covariance[k * shape_parameters + k];
        double by_scatter = 1.0;
        if (options.prior && variance > 0.0) {
            const auto by_prior = [&](std::size_t j, double prior_deviation) {
                const double share = found.covariance[k * all + j] * factor / prior_deviation;
                return share * share;
            };
            double prior = by_prior(1, options.prior->log_exponent_deviation) +
                           by_prior(2, options.prior->log_gamma_deviation);
            if (options.cushioning) prior += by_prior(3, options.cushioning->latent_deviation);
            by_scatter = std::clamp(1.0 - prior / variance, 0.05, 1.0);
        }
        fit.parameter_degrees_of_freedom[k] = fit.degrees_of_freedom / by_scatter;
    }
    if (options.resamples > 0) bootstrap(fit, problem, found.parameters, options);
    return fit;
}

CoverageInterval parameter_interval(const BreakageFit& fit, BreakageParameter which, double coverage) {
    if (!(coverage > 0.0 && coverage < 1.0))
        throw_out_of_range("coverage", coverage, "", "above 0 and below 1");
    const auto k = static_cast<std::size_t>(which);
    const double centre = which == BreakageParameter::log_rate       ? std::log(fit.model.selection.top.value())
                          : which == BreakageParameter::log_exponent ? std::log(fit.model.selection.exponent)
                                                                     : std::log(fit.model.breakage.gamma);
    const double p = 0.5 + 0.5 * coverage;
    const double reach =
        fit.deviation_stated
            ? standard_normal_quantile(p)
            : student_quantile(p, fit.parameter_degrees_of_freedom[k]);
    const double u = std::sqrt(fit.covariance[k * shape_parameters + k]);
    return {centre - reach * u, centre + reach * u};
}

} // namespace lakebound
