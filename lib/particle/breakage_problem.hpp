#pragma once
// What the fit of a mortar minimises: the misfit of the sieve tests, with its derivatives, and the search for its least.

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "class_fractions.hpp"
#include "lakebound/estimate/least_squares.hpp"
#include "lakebound/particle/breakage_fit.hpp"

namespace lakebound::detail {

inline constexpr std::size_t shape_parameters = 3; // ln a, ln alpha, ln gamma

/// First-order grinding is linear, so a feed with a class below zero (the search may pass there) is two
/// feeds.
inline void grind_signed(const PopulationBalance& balance, std::vector<double>& masses, Time first_order) {
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
class BreakageProblem {
public:
    BreakageProblem(std::span<const Length> sizes, const std::vector<GrindingTest>& tests,
            const BreakageFitOptions& options)
        : classes_(sizes.size()), shapes_(shape_parameters + (options.cushioning ? 1 : 0)), tests_(tests),
          prior_(options.prior), cushioning_(options.cushioning) {
        model_.class_sizes.assign(sizes.begin(), sizes.end());
        model_.breakage.phi = options.phi;
        model_.breakage.beta = options.beta;
    }
    std::size_t parameters() const { return shapes_ + classes_ - 1; }
    std::size_t readings() const { return classes_ * tests_.size(); }
    std::size_t residuals() const {
        return readings() + 2 * std::size_t{prior_.has_value()} + std::size_t{cushioning_.has_value()};
    }
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
    double deviation_{};
    BreakageModel model_;
    std::vector<double> observed_;
};

inline LeastSquaresFit solve(const BreakageProblem& problem, std::span<const double> start) {
    LeastSquaresOptions options;
    options.most_iterations = 200;
    const auto residuals = [&](std::span<const double> p, std::span<double> r) { problem.residuals(p, r); };
    const auto jacobian = [&](std::span<const double> p, std::span<double> j) { problem.jacobian(p, j); };
    return least_squares(residuals, jacobian, problem.residuals(), start, options);
}

/// Strong selection with coarse fragments and weak selection with fine ones grind much alike, so the sum
/// of squares can have more than one hollow along that line: start on both ends and in the middle.
inline LeastSquaresFit best_of_starts(const BreakageProblem& problem, std::vector<double> start) {
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

} // namespace lakebound::detail
