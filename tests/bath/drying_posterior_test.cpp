// What weighings of a drying cake tell, held against the same Bayes over a plain grid: the model as drying.hpp states it,
// with none of its code.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <vector>

#include "lakebound/bath/drying.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

double normal_below(double z) { return .5 * std::erfc(-z / std::sqrt(2.0)); }

struct GridCell {
    double tau, end, over, over_sd, weight; // h, g
};

/// Even in z, the standard deviations of ln tau, and in the end; what remains, A, is normal. density: of the end.
std::vector<GridCell> plain_grid(const std::vector<double>& grams_daily, double sd, double usual_hours, double factor,
                                 const std::function<double(double)>& density) {
    std::vector<GridCell> cells;
    const double highest = grams_daily.back() + 2 * sd;
    constexpr int taus = 600, ends = 900;
    double greatest = -1e300;
    std::vector<double> logs;
    for (int i = 0; i < taus; ++i) {
        const double z = -6 + 12 * (i + .5) / taus, tau = usual_hours * std::exp(z * std::log(factor));
        for (int j = 0; j < ends; ++j) {
            const double end = highest * (j + .5) / ends;
            double ee = 0, er = 0, rr = 0;
            for (std::size_t d = 0; d < grams_daily.size(); ++d) {
                const double e = std::exp(-24.0 * static_cast<double>(d) / tau), r = grams_daily[d] - end;
                ee += e * e, er += e * r, rr += r * r;
            }
            const double over = er / ee, log_of = -.5 * (rr - er * over) / (sd * sd) - .5 * std::log(ee) - .5 * z * z + std::log(density(end));
            cells.push_back({tau, end, over, sd / std::sqrt(ee), 0});
            logs.push_back(log_of);
            greatest = std::max(greatest, log_of);
        }
    }
    double all = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) all += cells[i].weight = std::exp(logs[i] - greatest);
    for (auto& cell : cells) cell.weight /= all;
    return cells;
}

double chance_over(const std::vector<GridCell>& cells, const std::function<double(const GridCell&)>& chance) {
    double sum = 0;
    for (const auto& cell : cells)
        if (cell.weight > 1e-12) sum += cell.weight * chance(cell);
    return sum;
}

} // namespace

TEST_CASE("the belief about a drying cake is Bayes over its ends and times", "[reference]") {
    struct Case {
        std::vector<double> weighed;
        double sd, factor;
        std::optional<Estimate<Mass>> expected;
        std::function<double(double)> density;
    };
    const auto even = [](double) { return 1.0; };
    const std::vector<Case> cases{
        {{38.6, 24.9, 17.9}, .25, 2.0, {}, even},
        {{38.6, 24.9, 17.9}, .25, 1.2, {}, even},
        {{38.6, 24.9, 17.9, 14.5}, .4, 2.0, {}, even},
        {{38.6, 24.9, 17.9}, .25, 2.0, Estimate<Mass>::lognormal(grams(11.5), 1.15, {}),
         [](double x) { return std::exp(-.5 * std::pow(std::log(x / 11.5) / std::log(1.15), 2)) / x; }},
        {{38.6, 24.9, 17.9}, .25, 2.0, Estimate<Mass>::normal(grams(9), grams(1), {}), [](double x) { return std::exp(-.5 * (x - 9) * (x - 9)); }},
    };
    for (std::size_t which = 0; which < cases.size(); ++which) {
        CAPTURE(which);
        const Case& c = cases[which];
        const auto cells = plain_grid(c.weighed, c.sd, 36, c.factor, c.density);
        DryingHabits habits{};
        habits.usual_tau = Estimate<Time>::lognormal(hours(36), c.factor, {});
        habits.weighing_repeats_to = Estimate<Share>::exact(Share::of(0), {});
        // A net reading is two roundings: an instrument of no step repeats to sd / sqrt(2) each.
        const Instrument<Mass> scale{grams(1e-6), grams(c.sd)};
        REQUIRE(in_grams(weighing_doubt(grams(20), scale, habits)) == Approx(c.sd).epsilon(1e-6));
        const auto belief = drying_belief(weighed_daily(c.weighed), scale, habits, c.expected);
        for (const double p : {.05, .5, .95}) {
            CAPTURE(p);
            const double end = in_grams(end_mass_quantile(belief, p));
            CHECK(chance_over(cells, [&](const GridCell& cell) { return cell.end < end ? 1.0 : 0.0; }) == Approx(p).margin(.02)); // of 100 nodes of tau
            const double later = in_grams(drying_mass_quantile(belief, hours(100), p));
            CHECK(chance_over(cells, [&](const GridCell& cell) {
                      const double e = std::exp(-100 / cell.tau);
                      return normal_below((later - cell.end - cell.over * e) / (cell.over_sd * e));
                  }) == Approx(p).margin(.01));
        }
        for (const double day : {5.0, 7.0, 9.0}) {
            CAPTURE(day);
            CHECK(chance_dry(belief, hours(24 * day), Share::of(.03)).value() ==
                  Approx(chance_over(cells, [&](const GridCell& cell) {
                      return normal_below((.03 * cell.end * std::exp(24 * day / cell.tau) - cell.over) / cell.over_sd);
                  })).margin(.005));
        }
    }
}
