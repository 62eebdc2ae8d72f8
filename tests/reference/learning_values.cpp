// What the library makes of published cases and of the check cases of the record room, for learning_check.py, which
// works them out with SciPy.

#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "lakebound/estimate/expectation_propagation.hpp"
#include "lakebound/estimate/joint_normal.hpp"
#include "lakebound/estimate/logistic_fit.hpp"
#include "lakebound/record/step_value.hpp"
#include "record/check_cases.hpp"

using namespace lakebound;

namespace {

void print_fit(const char* name, const std::vector<TrialGroup>& groups) {
    const auto f = fit_logistic(groups);
    std::printf("%s %.12g %.12g %.12g %.12g %.12g %.12g\n", name, f.intercept.value, f.intercept.standard_uncertainty,
                f.slope.value, f.slope.standard_uncertainty, f.threshold.value, f.threshold.standard_uncertainty);
}

/// Groups theta_j = mu + a_j read once each: readings, mu, theta.
void print_schools() {
    const std::vector<double> y{28, 8, -3, 7, -1, 1, 18, 12}, sd{15, 10, 16, 11, 9, 11, 10, 18};
    const std::size_t n = y.size();
    std::vector<NormalSum> sums;
    for (std::size_t j = 0; j < n; ++j)
        sums.push_back({0.0, {0, 1 + j, 1 + n + j}});
    sums.push_back({0.0, {0}});
    for (std::size_t j = 0; j < n; ++j)
        sums.push_back({0.0, {0, 1 + j}});
    double whole = 0.0, tau_mean = 0.0;
    std::vector<double> mean(n + 1, 0.0);
    constexpr int steps = 20000;
    for (int i = 0; i < steps; ++i) {
        const double tau = 5.0 * std::tan((i + 0.5) / steps * std::numbers::pi / 2.0);
        std::vector<double> variances{25.0};
        variances.insert(variances.end(), n, tau * tau);
        for (const double s : sd)
            variances.push_back(s * s);
        const auto c = conditioned_on_first(joint_of_sums(sums, variances), y);
        const double w = std::exp(c.log_evidence);
        whole += w;
        tau_mean += w * tau;
        for (std::size_t j = 0; j <= n; ++j)
            mean[j] += w * c.rest.mean[j];
    }
    std::printf("schools %.12g", tau_mean / whole);
    for (const double m : mean)
        std::printf(" %.12g", m / whole);
    std::printf("\n");
}

/// Intercept N(0, 2^2) and slope N(0, 10^2) of a bioassay: four sites on four sums of the two.
void print_bioassay_posterior() {
    const double x[] = {-.86, -.30, -.05, .73};
    const int dead[] = {0, 1, 3, 5};
    const std::vector<std::pair<double, double>> rows{{1, x[0]}, {1, x[1]}, {1, x[2]}, {1, x[3]}, {1, 0}, {0, 1}};
    JointNormal prior{std::vector<double>(6), std::vector<double>(36)};
    for (std::size_t i = 0; i < 6; ++i)
        for (std::size_t j = 0; j < 6; ++j)
            prior.covariance[i * 6 + j] = 4 * rows[i].first * rows[j].first + 100 * rows[i].second * rows[j].second;
    std::vector<LogisticTrials> trials;
    for (const int d : dead)
        trials.push_back({{0, 1, double(d)}, {0, -1, double(5 - d)}});
    const auto run = propagate(prior, trials);
    const std::vector<std::size_t> both{4, 5};
    const auto b = with_messages(prior, run.sites, {}, both);
    std::printf("posterior %.12g %.12g %.12g %.12g %.12g\n", b.mean[0], std::sqrt(b.variance(0)), b.mean[1],
                std::sqrt(b.variance(1)), run.log_evidence);
}

void print_belief(const std::string& id, const DemandBelief& belief) {
    const auto critical = belief.critical();
    const auto aim = test::best_aim(belief);
    std::printf("%s %.12g %.12g %.12g %.12g %.12g %.12g %.12g\n", id.c_str(), critical.mean(),
                critical.standard_deviation(), aim.library_k, aim.chance, test::window_percent(belief, 1.47),
                even_bet(belief, test::swatch_spread).value(), belief.flip_spread());
}

void print_coach(const std::string& id) {
    const auto belief = test::check_case(id).bench.belief(test::plain_world());
    const PaintGoal goal{test::pan_window(), test::batch_spread};
    const SwatchTest rubbed{test::swatch_spread, false}, watched{test::swatch_spread, true};
    const auto after = [&](std::size_t n, const SwatchTest& test) {
        return 100 * value_after_swatches(belief, goal, swatches_about(belief, n, test), test).value();
    };
    std::printf("coach-%s %.12g %.12g %.12g %.12g %.12g %.12g %.12g\n", id.c_str(),
                100 * value_after_rub_out(belief, goal).value(), after(1, rubbed), after(2, rubbed), after(4, rubbed),
                100 * value_after_two_in_turn(belief, goal, rubbed).value(), after(1, watched), after(2, watched));
}

/// Three jars of a plant, one or two swatches each: sites that speak with one another.
void print_three_jars() {
    using enum PaintOutcome;
    test::Bench bench(2);
    bench.rub_out_of(0, {72}).rub_out_of(2, {80});
    bench.trial_of(0, test::gum, 1.25, lean).trial_of(1, test::gum, 1.05, not_lean).trial_of(1, test::gum, 0.9, lean);
    bench.trial_of(2, test::gum, 1.30, lean);
    print_belief("three-jars", bench.belief(test::plain_world()));
}

} // namespace

int main() {
    print_fit("beetles", {{1.6907, 59, 6}, {1.7242, 60, 13}, {1.7552, 62, 18}, {1.7842, 56, 28},
                          {1.8113, 63, 52}, {1.8369, 59, 53}, {1.8610, 62, 61}, {1.8839, 60, 60}});
    print_fit("racine", {{-.86, 5, 0}, {-.30, 5, 1}, {-.05, 5, 3}, {.73, 5, 5}});
    print_schools();
    print_bioassay_posterior();
    for (const auto& c : test::check_cases())
        print_belief(c.id, c.bench.belief(test::plain_world()));
    print_three_jars();
    for (const char* id : {"K1", "K2", "K5", "K7", "K8", "K10", "K16"})
        print_coach(id);
    return 0;
}
