// Whether "9 times in 10" holds for mortars that slow: rate / (1 + c fines), c from 0 to 3, after two and three
// sieve tests, for truths of the fitted classes and of a grid finer than the screens.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/particle/breakage_fit.hpp"
#include "support/powder_habits.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const std::vector<double> screens_um{425, 250, 150, 106, 75, 45};
const std::vector<double> feed{.45, .22, .12, .09, .07, .05};

std::vector<Length> classes() {
    std::vector<Length> sizes;
    for (const double um : screens_um)
        sizes.push_back(micrometres(um));
    return sizes;
}

/// A mortar drawn from the prior, on the screens' classes or on a grid four times as fine down to 10 um.
class Mortar {
public:
    Mortar(RandomEngine& engine, double c, bool fine) : c_(c), balance_(drawn(engine, fine)) {
        std::vector<int> members(6, 0);
        for (const double um : grid_of(fine)) {
            std::size_t which = 0;
            while (which + 1 < 6 && um <= screens_um[which + 1] * 1.000001)
                ++which;
            class_of_.push_back(which);
            ++members[which];
        }
        for (const auto which : class_of_)
            masses_.push_back(feed[which] / members[which]);
    }
    /// Small steps at the rate of the moment, apart from the clock of the code under test.
    void grind(double min) {
        for (double left = min; left > 1e-9; left -= step)
            balance_.grind_unhindered(masses_, minutes(std::min(step, left) / (1 + c_ * seen()[5])));
    }
    std::vector<double> seen() const {
        std::vector<double> sums(6, 0.0);
        for (std::size_t i = 0; i < masses_.size(); ++i)
            sums[class_of_[i]] += masses_[i];
        return sums;
    }
    double residue() const { return residue_above(seen(), 4); }

private:
    static constexpr double step = 0.5;
    static std::vector<double> grid_of(bool fine) {
        std::vector<double> grid = screens_um;
        if (fine)
            for (double um = 425 / std::pow(2.0, 0.25); um > 10; um /= std::pow(2.0, 0.25))
                grid.push_back(um);
        std::sort(grid.rbegin(), grid.rend());
        return grid;
    }
    static BreakageModel drawn(RandomEngine& engine, bool fine) {
        const BreakagePrior prior = usual_breakage();
        BreakageModel model;
        for (const double um : grid_of(fine))
            model.class_sizes.push_back(micrometres(um));
        const double rate = 0.09 * std::exp(0.3 * standard_normal(engine));
        model.selection = {per_minute(rate), std::exp(prior.log_exponent + prior.log_exponent_deviation *
                                                                               standard_normal(engine))};
        model.breakage.gamma = std::exp(prior.log_gamma + prior.log_gamma_deviation * standard_normal(engine));
        return model;
    }

    double c_;
    PopulationBalance balance_;
    std::vector<std::size_t> class_of_;
    std::vector<double> masses_;
};

struct Held {
    int time = 0, residue = 0;
};

Held held_of(int makers, double c, std::size_t tests_wanted, bool fine) {
    RandomEngine engine(static_cast<std::uint64_t>(1000 * c) + tests_wanted + (fine ? 17 : 0));
    const std::vector<double> times =
        tests_wanted == 2 ? std::vector<double>{3, 15} : std::vector<double>{3, 12, 30};
    Held held;
    for (int maker = 0; maker < makers; ++maker) {
        Mortar mortar(engine, c, fine);
        std::vector<GrindingTest> tests;
        double clock = 0;
        for (const double t : times) {
            mortar.grind(t - clock);
            clock = t;
            auto seen = mortar.seen();
            double sum = 0;
            for (double& x : seen)
                sum += x = std::max(0.0, x + 0.01 * standard_normal(engine));
            for (double& x : seen)
                x /= sum;
            tests.push_back({minutes(t), seen});
        }
        double reached = -1, at_an_hour = -1; // when 5 % is left over 75 um
        while (reached < 0 || at_an_hour < 0) {
            if (reached < 0 && mortar.residue() <= 0.05) reached = clock;
            if (at_an_hour < 0 && clock >= 60 - 1e-9) at_an_hour = mortar.residue();
            mortar.grind(0.5);
            clock += 0.5;
        }
        BreakageFitOptions options;
        options.prior = usual_breakage();
        options.resamples = 100;
        options.cushioning = usual_cushioning();
        const auto fit = fit_breakage(classes(), tests, options);
        const auto foreseen = predicted_residue(fit, 4, minutes(60));
        held.residue += foreseen.interval.low <= at_an_hour && at_an_hour <= foreseen.interval.high;
        const auto time = predicted_time(fit, 4, 0.05);
        held.time += in_minutes(time.low) <= reached && (!time.high || reached - 0.5 <= in_minutes(*time.high));
    }
    return held;
}

} // namespace

TEST_CASE("9 in 10 holds for mortars that slow", "[reference]") {
    // Aim: 85 to 95 %. Of 100 makers in a row the standard error at 90 % is 3 points, of 48 it is 4.3: n = 12
    // makers for each of 4 values of c, so that no row may fall 2.3 of them short, nor all four together miss
    // the aim by more than one of their own (2.2). Measured with n = 25: 91 % for the fitted classes after two
    // tests and after three; 97 % and 94 % on the fine grid. The fine grid itself adds little (the interval is about 8 %
    // wider): after two tests the interval spans all c, and a narrower one fails c = 3 (docs/theory.md, 12).
    constexpr int makers = 12, in_a_row = 4 * makers;
    int all = 0;
    for (const bool fine : {false, true})
        for (const std::size_t tests : {std::size_t{2}, std::size_t{3}}) {
            int time = 0, residue = 0;
            for (const double c : {0.0, 1.0, 2.0, 3.0}) {
                const auto held = held_of(makers, c, tests, fine);
                time += held.time;
                residue += held.residue;
            }
            INFO((fine ? "fine grid, " : "same classes, ")
                 << tests << " tests, of " << in_a_row << ": time " << time << ", residue " << residue);
            CHECK(time >= 0.80 * in_a_row);
            CHECK(residue >= 0.80 * in_a_row);
            all += time + residue;
        }
    INFO("of " << 8 * in_a_row << ": " << all);
    CHECK(all >= 0.85 * 8 * in_a_row);
    CHECK(all <= 0.97 * 8 * in_a_row);
}
