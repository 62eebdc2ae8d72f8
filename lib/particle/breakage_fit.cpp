#include "lakebound/particle/breakage_fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "class_fractions.hpp"
#include "lakebound/estimate/least_squares.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/estimate/sampling_law.hpp"
#include "lakebound/quantity/error.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

constexpr std::size_t shape_parameters = 3; // ln a, ln alpha, ln gamma
constexpr double softness = 0.25;           // of the bend of the cushioning at 0

/// First-order grinding is linear, so a feed with a class below zero (the search may pass there) is two
/// feeds.
void grind_signed(const PopulationBalance& balance, std::vector<double>& masses, Time first_order) {
    bool negative = false;
    for (const double m : masses)
        negative = negative || m < 0.0;
    if (!negative) return balance.grind_unhindered(masses, first_order);
    std::vector<double> owed(masses.size(), 0.0);
    for (std::size_t i = 0; i < masses.size(); ++i)
        if (masses[i] < 0.0) owed[i] = -masses[i], masses[i] = 0.0;
    balance.grind_unhindered(masses, first_order);
    balance.grind_unhindered(owed, first_order);
    for (std::size_t i = 0; i < masses.size(); ++i)
        masses[i] -= owed[i];
}

/// Residuals of every class of every test, for the parameters ln a, ln alpha, ln gamma, the latent of the
/// cushioning where it is fitted, and the feed but its last class, which is what the others leave.
class Problem {
public:
    Problem(std::span<const Length> sizes, const std::vector<GrindingTest>& tests,
            const BreakageFitOptions& options)
        : classes_(sizes.size()), shapes_(shape_parameters + (options.cushioning ? 1 : 0)), tests_(tests),
          prior_(options.prior), cushioning_(options.cushioning) {
        model_.class_sizes.assign(sizes.begin(), sizes.end());
        model_.breakage.phi = options.phi;
        model_.breakage.beta = options.beta;
    }
    std::size_t shapes() const { return shapes_; }
    std::size_t parameters() const { return shapes_ + classes_ - 1; }
    std::size_t readings() const { return classes_ * tests_.size(); }
    std::size_t residuals() const { return readings() + (prior_ ? 2 : 0) + (cushioning_ ? 1 : 0); }
    void observe(std::vector<double> fractions) { observed_ = std::move(fractions); }
    /// The standard deviation of a reading, by which the prior is weighed against the readings.
    void believe(double deviation) { deviation_ = deviation; }
    std::optional<BreakagePrior>& prior() { return prior_; }
    std::optional<CushioningPrior>& cushioning() { return cushioning_; }
    double misfit(std::span<const double> p) const {
        std::vector<double> r(readings());
        predict(p, r);
        double sum = 0.0;
        for (std::size_t i = 0; i < r.size(); ++i)
            sum += (r[i] - observed_[i]) * (r[i] - observed_[i]);
        return sum;
    }

    BreakageModel model(std::span<const double> p) const {
        BreakageModel m = model_;
        m.selection = {BreakageRate::from_value(std::exp(p[0])), std::exp(p[1])};
        m.breakage.gamma = std::exp(p[2]);
        if (cushioning_) m.cushioning = cushioning_of_latent(p[3]);
        return m;
    }
    std::vector<double> feed(std::span<const double> p) const {
        std::vector<double> f(p.begin() + static_cast<std::ptrdiff_t>(shapes_), p.end());
        f.push_back(1.0 - sum_of(f));
        return f;
    }
    void predict(std::span<const double> p, std::span<double> out) const {
        std::vector<double> first_order(tests_.size());
        predict(PopulationBalance(model(p)), feed(p), out, first_order);
    }

    void residuals(std::span<const double> p, std::span<double> r) const {
        const std::size_t m = readings();
        predict(p, r.first(m));
        for (std::size_t i = 0; i < m; ++i)
            r[i] -= observed_[i];
        std::size_t at = m;
        if (prior_) {
            r[at++] = deviation_ * (p[1] - prior_->log_exponent) / prior_->log_exponent_deviation;
            r[at++] = deviation_ * (p[2] - prior_->log_gamma) / prior_->log_gamma_deviation;
        }
        if (cushioning_) r[at] = deviation_ * (p[3] - cushioning_->latent) / cushioning_->latent_deviation;
    }
    void jacobian(std::span<const double> p, std::span<double> out) const {
        const std::size_t n = parameters(), m = readings(), tests = tests_.size();
        std::vector<double> moved(p.begin(), p.end()), up(m), down(m), at(m), first_order(tests), ignored(tests);
        const PopulationBalance balance(model(p));
        const auto start = feed(p);
        predict(balance, start, at, first_order);
        for (std::size_t j = 0; j < shape_parameters; ++j) {
            const double h = 1e-5;
            ignored = first_order;
            moved[j] = p[j] + h;
            predict(PopulationBalance(model(moved)), feed(moved), up, ignored);
            moved[j] = p[j] - h;
            predict(PopulationBalance(model(moved)), feed(moved), down, ignored);
            moved[j] = p[j];
            for (std::size_t i = 0; i < m; ++i)
                out[i * n + j] = (up[i] - down[i]) / (2.0 * h);
        }
        // Along the path dw = flow ds, and the clock t = s + c (integral of F) is held: that gives ds.
        const double c = balance.cushioning();
        std::vector<double> flow(classes_);
        const auto along_path = [&](std::size_t column, std::size_t k, double moves_clock) {
            const std::span<const double> w(at.data() + k * classes_, classes_);
            balance.flow(w, flow);
            const double ds = -moves_clock / (1.0 + c * w.back());
            for (std::size_t i = 0; i < classes_; ++i)
                out[(k * classes_ + i) * n + column] += flow[i] * ds;
        };
        if (cushioning_) {
            for (std::size_t i = 0; i < m; ++i)
                out[i * n + 3] = 0.0;
            for (std::size_t k = 1; k < tests; ++k)
                along_path(3, k,
                           cushioning_slope(p[3]) *
                               balance.fines_over_time(start, std::span(at).subspan(k * classes_, classes_),
                                                       seconds(first_order[k])));
        }
        // The feed enters linearly: one grain of class j more, one of the last class less.
        std::vector<double> unit(classes_), later(classes_);
        for (std::size_t j = 0; j + 1 < classes_; ++j) {
            const std::size_t column = shapes_ + j;
            std::fill(unit.begin(), unit.end(), 0.0);
            unit[j] = 1.0;
            later = unit;
            for (std::size_t k = 0; k < tests; ++k) {
                if (k > 0) balance.grind_unhindered(later, seconds(first_order[k] - first_order[k - 1]));
                for (std::size_t i = 0; i < classes_; ++i)
                    out[(k * classes_ + i) * n + column] = later[i] - (i + 1 == classes_);
                if (k > 0 && balance.cushioned())
                    along_path(column, k,
                               c * (balance.fines_over_time(unit, later, seconds(first_order[k])) -
                                    first_order[k]));
            }
        }
        std::size_t row = m;
        std::fill(out.begin() + static_cast<std::ptrdiff_t>(m * n), out.end(), 0.0);
        if (prior_) {
            out[row++ * n + 1] = deviation_ / prior_->log_exponent_deviation;
            out[row++ * n + 2] = deviation_ / prior_->log_gamma_deviation;
        }
        if (cushioning_) out[row * n + 3] = deviation_ / cushioning_->latent_deviation;
    }

private:
    /// The classes at every test, and the first-order time to each: as handed in, a guess for the search.
    void predict(const PopulationBalance& balance, const std::vector<double>& feed, std::span<double> out,
                 std::vector<double>& first_order) const {
        std::vector<double> from = feed, masses = feed;
        std::copy(feed.begin(), feed.end(), out.begin());
        double begun = 0.0, guessed = first_order[0];
        first_order[0] = 0.0;
        for (std::size_t k = 1; k < tests_.size(); ++k) {
            const double t = in_seconds(tests_[k].time - tests_[k - 1].time);
            double s = t;
            if (balance.cushioned()) {
                const double guess = first_order[k] - guessed;
                s = guess > 0.0 ? guess : t / (1.0 + balance.cushioning() * std::max(0.0, from.back()));
                for (int i = 0; i < 60; ++i) {
                    masses = from;
                    grind_signed(balance, masses, seconds(s));
                    const double over =
                        s + balance.cushioning() * balance.fines_over_time(from, masses, seconds(s)) - t;
                    const double step = over / (1.0 + balance.cushioning() * std::max(0.0, masses.back()));
                    s = std::max(0.0, s - step);
                    if (std::abs(step) <= 1e-12 * t) break;
                }
            } else {
                grind_signed(balance, masses, seconds(s));
            }
            guessed = first_order[k];
            begun += s;
            first_order[k] = begun;
            from = masses;
            std::copy(masses.begin(), masses.end(), out.begin() + static_cast<std::ptrdiff_t>(k * classes_));
        }
    }

    std::size_t classes_, shapes_;
    const std::vector<GrindingTest>& tests_;
    std::optional<BreakagePrior> prior_;
    std::optional<CushioningPrior> cushioning_;
    double deviation_ = 1.0;
    BreakageModel model_;
    std::vector<double> observed_;
};

LeastSquaresFit solve(const Problem& problem, std::span<const double> start) {
    LeastSquaresOptions options;
    options.most_iterations = 200;
    const auto residuals = [&](std::span<const double> p, std::span<double> r) { problem.residuals(p, r); };
    const auto jacobian = [&](std::span<const double> p, std::span<double> j) { problem.jacobian(p, j); };
    return least_squares(residuals, jacobian, problem.residuals(), start, options);
}

/// Strong selection with coarse fragments and weak selection with fine ones grind much alike, so the sum
/// of squares can have more than one hollow along that line: start on both ends and in the middle.
LeastSquaresFit best_of_starts(const Problem& problem, std::vector<double> start) {
    LeastSquaresFit best;
    bool first = true;
    const double guess = start[0];
    for (const auto& [alpha, gamma] : {std::array{0.9, 0.9}, {0.4, 1.6}, {1.5, 0.5}}) {
        start[0] = guess;
        start[1] = std::log(alpha);
        start[2] = std::log(gamma);
        auto found = solve(problem, start);
        const bool better = found.residual_sum_of_squares < best.residual_sum_of_squares;
        if (first || (found.converged() && (better || !best.converged()))) best = std::move(found);
        first = false;
    }
    return best;
}

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

void bootstrap(BreakageFit& fit, Problem& problem, const std::vector<double>& best,
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
    Problem problem(class_sizes, sorted, options);
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
