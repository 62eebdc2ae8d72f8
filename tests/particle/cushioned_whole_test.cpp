// The one-screen law of a mortar that slows, whole: every line of its net by textbook sums, its draws by their shares.

#include "lakebound/particle/cushioned_law.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "support/told.hpp"

using namespace lakebound;

namespace {

double z_by_hand(double R, double c) { return (1.0 + c) * std::log(R) - c * R; }

/// The straight line z = start - rate t through the readings by the textbook's sums, times in seconds.
struct TextbookLine {
    double c, start, rate, chi2 = 0.0, mean_time, weights = 0.0, spread;
    TextbookLine(const std::vector<ResidueReading>& readings, double cushioning) : c(cushioning) {
        double t1 = 0.0, z1 = 0.0, tt = 0.0, tz = 0.0;
        const auto weight = [&](const ResidueReading& r) {
            return std::pow(r.standard_uncertainty * ((1.0 + c) / r.residue.value() - c), -2.0); // dz/dR = (1 + c)/R - c
        };
        for (const auto& r : readings) {
            const double w = weight(r), t = in_seconds(r.time), z = z_by_hand(r.residue.value(), c);
            weights += w, t1 += w * t, z1 += w * z, tt += w * t * t, tz += w * t * z;
        }
        const double determinant = weights * tt - t1 * t1;
        rate = -(weights * tz - t1 * z1) / determinant;
        start = (tt * z1 - t1 * tz) / determinant;
        mean_time = t1 / weights, spread = determinant / weights;
        for (const auto& r : readings)
            chi2 += weight(r) * std::pow(z_by_hand(r.residue.value(), c) - start + rate * in_seconds(r.time), 2);
    }
};

/// The latent of a cushioning, by halving.
double latent_of(double c) {
    double low = -20.0, high = 50.0;
    for (int i = 0; i < 200; ++i)
        (cushioning_of_latent(0.5 * (low + high)) < c ? low : high) = 0.5 * (low + high);
    return low;
}

/// Four readings that slow, in a mortar that takes `unit` seconds for each step.
std::vector<ResidueReading> slowing(double unit, double u = 0.01) {
    std::vector<ResidueReading> readings;
    for (const auto& [t, R] : {std::pair{1.0, 0.80}, std::pair{2.5, 0.55}, std::pair{6.0, 0.34}, std::pair{9.0, 0.25}})
        readings.push_back({seconds(t * unit), MassFraction::of(R), u * (1.0 + R)});
    return readings;
}

} // namespace

TEST_CASE("with its cushioning known, the law is a weighted straight line at every scale of time and doubt", "[reference]") {
    for (const double unit : {1e-4, 1.0, 300.0, 1e6}) // from a mill to a rock in a stream
        for (const double u : {1e-4, 0.01, 0.3})
            for (const double c : {-0.35, 0.0005, 0.8, 6.0}) {
                const auto readings = slowing(unit, u);
                const auto law = fit_cushioned_law(readings, {latent_of(c), 1e-12}, 3);
                const TextbookLine line(readings, law.cushioning), straight(readings, 0.0);
                CHECK(law.cushioning == Approx(c).epsilon(1e-8));
                CHECK(law.rate.value() == Approx(line.rate).epsilon(1e-9));
                CHECK(law.start == Approx(line.start).epsilon(1e-9));
                CHECK(law.draws.size() == 3);
                // Below first order nothing cushions, and nothing is gained by it.
                CHECK(law.misfit_gain == Approx(c > 0.0 ? std::max(0.0, straight.chi2 - line.chi2) : 0.0).epsilon(1e-6).margin(1e-12));
            }
}

TEST_CASE("of the net over the cushioning the likeliest is the law, and draws come from all by their likelihood", "[reference]") {
    // The net: 161 latents from three deviations below the centre to three above, each with its own line; chi squared and
    // the square of the deviation together weigh it. Strata leave a count off by one at most.
    for (const double unit : {1e-3, 600.0})
        for (const double u : {0.004, 0.04, 0.3}) {
            const auto readings = slowing(unit, u);
            const CushioningPrior prior{0.5, 2.6};
            constexpr unsigned draws = 20000;
            const auto law = fit_cushioned_law(readings, prior, draws);
            std::vector<TextbookLine> lines;
            std::vector<double> weighed;
            double gain = 0.0, all = 0.0;
            for (int i = 0; i <= 160; ++i) {
                const double deviations = 0.0375 * (i - 80);
                lines.emplace_back(readings, cushioning_of_latent(prior.latent + deviations * prior.latent_deviation));
                weighed.push_back(lines.back().chi2 + deviations * deviations);
                if (lines.back().c > 0.0) gain = std::max(gain, TextbookLine(readings, 0.0).chi2 - lines.back().chi2);
            }
            const auto best = static_cast<std::size_t>(std::min_element(weighed.begin(), weighed.end()) - weighed.begin());
            CHECK(law.cushioning == Approx(lines[best].c).epsilon(1e-9));
            CHECK(law.rate.value() == Approx(lines[best].rate).epsilon(1e-8));
            CHECK(law.start == Approx(lines[best].start).epsilon(1e-8));
            CHECK(law.misfit_gain == Approx(gain).epsilon(1e-6));
            for (const double w : weighed)
                all += std::exp(-0.5 * (w - weighed[best]));
            REQUIRE(law.draws.size() == draws);
            double share = 0.0, mean_rate = 0.0, mean_middle = 0.0, rate2 = 0.0, middle2 = 0.0, both = 0.0;
            std::size_t at = 0;
            for (std::size_t i = 0; i < lines.size(); ++i) {
                share += std::exp(-0.5 * (weighed[i] - weighed[best])) / all;
                for (; at < draws && law.draws[at].cushioning < lines[i].c + 1e-8; ++at) {
                    // Rate and middle vary apart, each by its own doubt.
                    const auto& draw = law.draws[at];
                    const double rate = (draw.rate - lines[i].rate) * std::sqrt(lines[i].spread);
                    const double middle = (draw.start - draw.rate * lines[i].mean_time - lines[i].start + lines[i].rate * lines[i].mean_time) *
                                          std::sqrt(lines[i].weights);
                    mean_rate += rate / draws, mean_middle += middle / draws;
                    rate2 += rate * rate / draws, middle2 += middle * middle / draws, both += rate * middle / draws;
                }
                const bool apart = i == 160 || lines[i + 1].c > lines[i].c + 2e-8; // the net is dense where c ends
                if (apart) CHECK(std::abs(static_cast<double>(at) - share * draws) <= 1.001);
            }
            CHECK(at == draws);
            // Four standard errors of 20 000: 0.028 of a mean or a correlation, 0.04 of a variance.
            CHECK(mean_rate == Approx(0.0).margin(0.03));
            CHECK(mean_middle == Approx(0.0).margin(0.03));
            CHECK(rate2 == Approx(1.0).margin(0.04));
            CHECK(middle2 == Approx(1.0).margin(0.04));
            CHECK(both == Approx(0.0).margin(0.03));
        }
    const auto usual = fit_cushioned_law(slowing(300.0), {0.5, 2.6});
    CHECK(usual.draws.size() == 500);
    const auto again = fit_cushioned_law(slowing(300.0), {0.5, 2.6}), fewer = fit_cushioned_law(slowing(300.0), {0.5, 2.6}, 1);
    CHECK(again.draws.back().rate == usual.draws.back().rate); // the same answer every time
    CHECK(fewer.draws.size() == 1);
}

TEST_CASE("what stays and when, by the line turned round, from first order to cushions of twenty", "[reference]") {
    for (const double c : {-0.4, -0.1, 0.0, 0.5, 3.0, 20.0})
        for (const double per_second : {1e-6, 0.001, 2000.0}) {
            CushionedLaw law;
            law.cushioning = c;
            law.rate = BreakageRate::from_value(per_second);
            for (const double begun : {0.999, 0.5, 1e-5}) {
                law.start = z_by_hand(begun, c);
                CHECK(residue_at(law, Time{}) == Approx(begun).epsilon(1e-11));
                for (const double part : {0.99, 0.9, 0.1, 1e-6}) {
                    const double R = begun * part, t = (law.start - z_by_hand(R, c)) / per_second;
                    CHECK(residue_at(law, seconds(t)) == Approx(R).epsilon(1e-9));
                    CHECK(in_seconds(time_to_residue(law, R)) == Approx(t).epsilon(1e-9));
                }
                // What is below the target at the start is there at once.
                CHECK(in_seconds(time_to_residue(law, begun * 1.0001)) == 0.0);
            }
            law.start = z_by_hand(1.0, c) + 0.3; // a line that begins above all of it
            CHECK(residue_at(law, Time{}) == 1.0);
            law.start = z_by_hand(1.0, c);
            CHECK(residue_at(law, Time{}) == 1.0);
            CHECK(uncushioned_passing(law, Time{}).value() == 0.0);
            CHECK(uncushioned_passing(law, seconds(0.25 / per_second)).value() == Approx(1.0 - std::exp(-0.25)).epsilon(1e-12));
        }
}

TEST_CASE("a law is refused in minutes, percent and shares, at its very limits", "[errors]") {
    CushionedLaw law;
    law.rate = per_minute(0.1);
    CHECK(told([&] { (void)residue_at(law, minutes(-1)); }) == "grinding time: -1 min");
    CHECK(told([&] { (void)residue_at(law, Time{}); }) == "taken");
    CHECK(told([&] { (void)uncushioned_passing(law, minutes(-1)); }) == "grinding time: -1 min");
    CHECK(told([&] { (void)uncushioned_passing(law, Time{}); }) == "taken");
    for (const double target : {0.0, -0.5, 1.0, 1.5}) {
        CHECK(told([&] { (void)time_to_residue(law, target); }).find("target residue: ") == 0);
        CHECK(told([&] { (void)predicted_time(law, target); }).find("target residue: ") == 0);
    }
    CHECK(told([&] { (void)time_to_residue(law, 1.5); }) == "target residue: 150 %");
    CHECK(told([&] { (void)time_to_residue(law, 1e-9); }) == "taken");
    CHECK(told([&] { (void)time_to_residue(law, 0.999); }) == "taken");
    auto readings = slowing(60.0);
    const auto fitted = [&] { return told([&] { (void)fit_cushioned_law(readings, {0.5, 2.6}); }); };
    CHECK(fitted() == "taken");
    readings[1].standard_uncertainty = 1e-5;
    CHECK(fitted() == "taken");
    readings[1].standard_uncertainty = 0.0;
    CHECK(fitted() == "standard uncertainty of the residue: 0");
}

TEST_CASE("foretold by a law, nine times in ten unless told otherwise", "[unit]") {
    // Draws of first order from R = 1: R = exp(-k t), so that the order of the rates is that of residues and times.
    CushionedLaw law;
    law.rate = per_minute(0.1);
    for (int i = 1; i <= 100; ++i)
        law.draws.push_back({0.0, 0.002 * i / 60.0, 0.0});
    const auto time = predicted_time(law, 0.5), nine = predicted_time(law, 0.5, 0.90);
    CHECK(in_minutes(time.low) == Approx(in_minutes(nine.low)).epsilon(1e-12));
    // By hand: of a hundred in order the fifth and the ninety-fifth.
    CHECK(in_minutes(time.low) == Approx(std::log(2.0) / (0.002 * 96)).epsilon(1e-9));
    CHECK(in_minutes(time.high.value()) == Approx(std::log(2.0) / (0.002 * 6)).epsilon(1e-9));
    const auto left = predicted_residue(law, minutes(5)), said = predicted_residue(law, minutes(5), 0.90);
    CHECK(left.interval.low == said.interval.low);
    CHECK(left.interval.high == said.interval.high);
    CHECK(left.residue == Approx(std::exp(-0.5)).epsilon(1e-12));
    // Draws in seconds and in years; one that does not grind at all is later than any.
    for (auto& draw : law.draws)
        draw.rate = 1e-7;
    CHECK(in_seconds(predicted_time(law, 0.999).low) == Approx(-std::log(0.999) / 1e-7).epsilon(1e-9));
    law.draws.assign(20, {z_by_hand(0.4, 0.0), 1e-3, 0.0});
    CHECK(in_seconds(predicted_time(law, 0.5).low) == 0.0);
    CHECK(in_seconds(predicted_time(law, 0.5).high.value()) == 0.0);
}
