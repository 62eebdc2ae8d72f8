#include "lakebound/particle/cushioned_law.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/powder_habits.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
/// R(t) of a mortar with this c, by small steps of dR/dt = -k R / (1 + c (1 - R)).
double truth(double k, double c, double minutes_ground, double start = 0.9) {
    double R = start;
    const int steps = 1000;
    const double h = minutes_ground / steps;
    const auto slope = [&](double r) { return -k * r / (1 + c * (1 - r)); };
    for (int i = 0; i < steps; ++i) {
        const double k1 = slope(R), k2 = slope(R + h / 2 * k1), k3 = slope(R + h / 2 * k2),
                     k4 = slope(R + h * k3);
        R += h / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
    }
    return R;
}
ResidueReading at(double min, double residue, double u = 0.01) {
    return {minutes(min), MassFraction::of(residue), u};
}
} // namespace

TEST_CASE("without cushioning two readings follow the first-order law", "[reference]") {
    // By hand: 46 % after 5 min and 23.5 % after 15 give k = ln(.46/.235)/10 = 0.06716 per minute, 1 % at 62.00 min.
    const std::vector<ResidueReading> readings{at(5, 0.46), at(15, 0.235)};
    double low = -2.0, high = 2.0; // the latent at which nothing cushions
    for (int i = 0; i < 60; ++i)
        (cushioning_of_latent(0.5 * (low + high)) < 0.0 ? low : high) = 0.5 * (low + high);
    const auto law = fit_cushioned_law(readings, {low, 1e-9});
    CHECK(law.cushioning == Approx(0.0).margin(1e-9));
    CHECK(in_per_minute(law.rate) == Approx(0.06716).epsilon(1e-4));
    CHECK(in_minutes(time_to_residue(law, 0.01)) == Approx(62.0).epsilon(1e-4));
}

TEST_CASE("with many exact readings the law gives rate and cushioning back", "[identity]") {
    for (const double c : {0.0, 1.0, 3.0}) {
        std::vector<ResidueReading> readings;
        for (double t = 2; t <= 40; t += 4)
            readings.push_back(at(t, truth(0.08, c, t), 1e-4));
        const auto law = fit_cushioned_law(readings, usual_cushioning());
        CHECK(law.cushioning == Approx(c).margin(0.06)); // the net over c
        CHECK(in_per_minute(law.rate) == Approx(0.08).epsilon(0.03));
        // Beyond the readings the net over c leaves a little more.
        CHECK(residue_at(law, minutes(60)) == Approx(truth(0.08, c, 60)).epsilon(0.04));
        CHECK(residue_at(law, time_to_residue(law, 0.05)) == Approx(0.05).epsilon(1e-9));
        CHECK((law.misfit_gain > 2.7) == (c > 0.5));
    }
}

TEST_CASE("two readings leave the cushioning to the prior, and the interval holds fast and slow mortars",
          "[identity]") {
    RandomEngine engine(41);
    constexpr int makers = 400;
    int overall = 0;
    for (const double c : {0.0, 1.0, 2.0, 3.0}) {
        double low = 10, high = 1000; // when the truth reaches 5 %, by halving
        for (int i = 0; i < 40; ++i) {
            const double middle = 0.5 * (low + high);
            (truth(0.09, c, middle) > 0.05 ? low : high) = middle;
        }
        int held = 0;
        for (int maker = 0; maker < makers; ++maker) {
            std::vector<ResidueReading> readings;
            for (const double t : {5.0, 15.0}) {
                const double R = truth(0.09, c, t), u = 0.02 * std::sqrt(R * (1 - R));
                readings.push_back(at(t, R + u * standard_normal(engine), u));
            }
            const auto time = predicted_time(fit_cushioned_law(readings, usual_cushioning(), 200), 0.05);
            held += in_minutes(time.low) <= low && (!time.high || low <= in_minutes(*time.high));
        }
        INFO(c << ": " << held << " of " << makers);
        CHECK(held >= 0.80 * makers);
        overall += held;
    }
    INFO(overall);
    CHECK(overall >= 0.85 * 4 * makers);
}

TEST_CASE("a law that cannot be is refused", "[errors]") {
    const ResidueReading one[] = {at(5, .5)};
    CHECK_THROWS_AS(fit_cushioned_law(one, usual_cushioning()), DomainError);
    const ResidueReading unsure[] = {at(5, .5, 0.0), at(15, .2, 0.01)};
    CHECK_THROWS_AS(fit_cushioned_law(unsure, usual_cushioning()), DomainError);
    const ResidueReading good[] = {at(5, .5), at(15, .2)};
    const auto law = fit_cushioned_law(good, usual_cushioning());
    CHECK_THROWS_AS(residue_at(law, minutes(-1)), DomainError);
    CHECK_THROWS_AS(time_to_residue(law, 0.0), DomainError);
    CHECK(predicted_residue(law, minutes(15)).interval.low < 0.2);
}

TEST_CASE("uncushioned, the law takes the same share of what is left each minute", "[reference]") {
    CushionedLaw law;
    law.rate = per_minute(std::log(2.0));
    law.cushioning = 3.0; // plays no part
    CHECK(uncushioned_passing(law, minutes(1)).value() == Approx(0.5).epsilon(1e-12));
    CHECK(uncushioned_passing(law, minutes(2)).value() == Approx(0.75).epsilon(1e-12));
    CHECK(uncushioned_passing(law, Time{}).value() == Approx(0.0).margin(1e-15));
    CHECK_THROWS_AS(uncushioned_passing(law, minutes(-1)), DomainError);
}

TEST_CASE("intervals are those of the draws, and a draw that never gets there counts as later than any", "[unit]") {
    // Uncushioned from R = 1: draws that reach 10 % at 10, 11 ... 110 s. By hand the fifth of the hundred steps is 15 s.
    CushionedLaw law;
    law.rate = BreakageRate::from_value(-std::log(0.1) / 60);
    for (int i = 0; i <= 100; ++i)
        law.draws.push_back({0.0, -std::log(0.1) / (10 + i), 0.0});
    const auto wide = predicted_time(law, 0.1), narrow = predicted_time(law, 0.1, 0.5);
    CHECK(in_seconds(wide.time) == Approx(60));
    CHECK(in_seconds(wide.low) == Approx(15));
    REQUIRE(wide.high);
    CHECK(in_seconds(*wide.high) == Approx(105));
    CHECK(in_seconds(narrow.low) == Approx(35));
    CHECK(in_seconds(*narrow.high) == Approx(85));
    // Residues of .100, .101 ... .200 after a minute, their standard deviation by hand .001 sqrt(101 x 102 / 12).
    auto spread = law;
    for (int i = 0; i <= 100; ++i)
        spread.draws[static_cast<std::size_t>(i)] = {0.0, -std::log(0.1 + 0.001 * i) / 60, 0.0};
    const auto left = predicted_residue(spread, minutes(1), 0.9);
    CHECK(left.residue == Approx(0.1));
    CHECK(left.interval.low == Approx(0.104).epsilon(1e-6)); // JCGM 101, 7.7: 91 of 101 draws, from the fifth on
    CHECK(left.interval.high == Approx(0.195).epsilon(1e-6));
    CHECK(left.standard_deviation == Approx(0.001 * std::sqrt(101.0 * 102.0 / 12.0)).epsilon(0.01));
    // Six of 101 never get there: no highest time. Five do not move it.
    for (std::size_t i = 96; i <= 100; ++i)
        law.draws[i].rate = 0.0;
    REQUIRE(predicted_time(law, 0.1).high);
    CHECK(in_seconds(*predicted_time(law, 0.1).high) == Approx(105));
    law.draws[95].rate = -1.0;
    CHECK_FALSE(predicted_time(law, 0.1).high);
    // Beyond 1 000 h there is none either.
    for (auto& draw : law.draws)
        draw.rate = -std::log(0.1) / (3.61e6);
    CHECK_FALSE(predicted_time(law, 0.1).high);
    for (auto& draw : law.draws)
        draw.rate = -std::log(0.1) / (3.59e6);
    CHECK(predicted_time(law, 0.1).high);
    // A start below the target is there already.
    for (auto& draw : law.draws)
        draw.start = std::log(0.05);
    CHECK(in_seconds(predicted_time(law, 0.1).low) == Approx(0).margin(1e-12));
}

TEST_CASE("what cushioning gains is the fall of chi squared from first order", "[unit]") {
    // Three readings on a first-order line: nothing to gain. By hand for a cushioned mortar: the straight line through
    // ln R of three equal weights in ln R misses the middle by d, chi squared 2/3 d2 / u2.
    const std::vector<ResidueReading> straight{at(5, 0.6), at(10, 0.36), at(15, 0.216)};
    CHECK(fit_cushioned_law(straight, usual_cushioning()).misfit_gain < 0.05);
    const double R[] = {truth(0.09, 2.0, 5), truth(0.09, 2.0, 15), truth(0.09, 2.0, 25)};
    std::vector<ResidueReading> bent;
    for (int i = 0; i < 3; ++i)
        bent.push_back(at(5 + 10 * i, R[i], 0.005 * R[i]));
    const double d = std::log(R[1]) - 0.5 * (std::log(R[0]) + std::log(R[2]));
    CHECK(fit_cushioned_law(bent, usual_cushioning()).misfit_gain == Approx(2.0 / 3.0 * d * d / (0.005 * 0.005)).epsilon(0.01));
}
