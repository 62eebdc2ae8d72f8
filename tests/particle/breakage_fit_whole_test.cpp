// The fit of a mortar, whole: what it misses, its degrees of freedom, its intervals, its draws made again.

#include "lakebound/particle/breakage_fit.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/estimate/sampling_law.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/mortar_of_six_screens.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("what a fit misses is told, by what it foretells of its own tests", "[identity]") {
    for (const bool prior : {false, true})
        for (const bool cushioning : {false, true}) {
            if (cushioning && !prior) continue;
            const auto tests = tests_at({3, 12, 30}, 0.003, cushioning ? 1.5 : 0.0);
            const auto fit = fit_breakage(classes(), tests, without_draws(prior, cushioning));
            CHECK(fit.misfit > 1e-6);
            CHECK(fit.misfit == Approx(missed(fit, tests)).epsilon(1e-6));
            CHECK(in_minutes(fit.start) == Approx(3.0));
            double sum = 0.0;
            for (const double f : fit.feed)
                sum += f;
            CHECK(sum == Approx(1.0).epsilon(1e-12));
            // Scatter and prior together, but for the hundredth at which their rounds end.
            CHECK(fit.fraction_deviation ==
                  Approx(std::sqrt((fit.misfit + (prior ? 2.0 * 0.01 * 0.01 : 0.0)) / fit.degrees_of_freedom)).epsilon(0.011));
        }
    // A class of which there is nothing stays empty, and phi and beta are those that were said.
    const auto one = tests_at({0, 10, 25}, 0.0, 0.0, 0.09, {1, 0, 0, 0, 0, 0});
    const auto fit = fit_breakage(classes(), one, without_draws(false));
    for (std::size_t i = 1; i < 6; ++i)
        CHECK(fit.feed[i] == Approx(0.0).margin(1e-6));
    auto options = without_draws(true);
    options.phi = 0.7, options.beta = 4.0;
    CHECK(fit_breakage(classes(), one, options).model.breakage.phi == 0.7);
    CHECK(fit_breakage(classes(), one, options).model.breakage.beta == 4.0);
    CHECK(fit.model.breakage.phi == 1.0);
    CHECK(fit.model.breakage.beta == 5.8);
    CHECK(BreakageFitOptions{}.resamples == 500);
    CHECK(BreakageFitOptions{}.seed == 20260101);
    CHECK(BreakageFitOptions{}.phi == 1.0);
    CHECK(BreakageFitOptions{}.beta == 5.8);
}

TEST_CASE("degrees of freedom are readings less parameters, and what the prior's scatter is worth", "[reference]") {
    // By hand: (tests - 1) (6 - 1) - 3 shapes; one less where three tests or more tell the cushioning; 2 of the prior.
    for (const std::size_t count : {2u, 3u, 4u}) {
        const auto tests = tests_at(count == 2 ? std::vector<double>{3, 20} : count == 3 ? std::vector<double>{3, 12, 30} : std::vector<double>{3, 9, 20, 35}, 0.002, 0.5);
        const double alone = static_cast<double>((count - 1) * 5 - 3);
        CHECK(fit_breakage(classes(), tests, without_draws(false)).degrees_of_freedom == alone);
        CHECK(fit_breakage(classes(), tests, without_draws(true)).degrees_of_freedom == alone + 2.0);
        CHECK(fit_breakage(classes(), tests, without_draws(true, true)).degrees_of_freedom == alone + 2.0 - (count > 2 ? 1.0 : 0.0));
        const auto fit = fit_breakage(classes(), tests, without_draws(false));
        for (const double nu : fit.parameter_degrees_of_freedom)
            CHECK(nu == alone); // no prior: the scatter rules
        CHECK_FALSE(fit.deviation_stated);
    }
}

TEST_CASE("behind each parameter stand the more degrees of freedom, the more the prior rules it", "[reference]") {
    // nu / w, w the share of the variance that is not the prior's, 0.05 at least: what the prior gives is the square of
    // what moving its centre by its own deviation does to the parameter, by fits about it.
    struct Row {
        double stated, exponent, gamma, latent; // deviations; latent 0: first order
    };
    for (const Row& row : {Row{0.004, 0.33, 0.33, 0.0}, Row{0.0005, 0.2, 0.5, 0.0}, Row{0.02, 0.02, 0.33, 0.0}, Row{0.004, 0.33, 0.33, 2.6},
                           Row{0.004, 0.5, 0.2, 0.4}, Row{0.0005, 0.33, 0.33, 1.0}}) {
        const auto tests = tests_at({3, 12, 30}, 0.0, row.latent > 0.0 ? 0.7 : 0.0);
        BreakageFitOptions options = without_draws(true);
        options.prior = BreakagePrior{std::log(0.8), row.exponent, std::log(0.9), row.gamma, 0.01, 2.0};
        if (row.latent > 0.0) options.cushioning = CushioningPrior{0.7, row.latent};
        options.fraction_uncertainty = row.stated;
        const auto fit = fit_breakage(classes(), tests, options);
        const auto logs = [&](const BreakageFitOptions& how) {
            const auto m = fit_breakage(classes(), tests, how).model;
            return std::array{std::log(m.selection.top.value()), std::log(m.selection.exponent), std::log(m.breakage.gamma)};
        };
        std::array<double, 3> by_prior{};
        const auto add = [&](auto&& move, double deviation) {
            auto up = options, down = options;
            const double h = 0.05 * deviation;
            move(up, h), move(down, -h);
            const auto high = logs(up), low = logs(down);
            for (std::size_t k = 0; k < 3; ++k)
                by_prior[k] += std::pow((high[k] - low[k]) / (2.0 * h) * deviation, 2);
        };
        add([](BreakageFitOptions& o, double h) { o.prior->log_exponent += h; }, row.exponent);
        add([](BreakageFitOptions& o, double h) { o.prior->log_gamma += h; }, row.gamma);
        if (row.latent > 0.0) add([](BreakageFitOptions& o, double h) { o.cushioning->latent += h; }, row.latent);
        for (std::size_t k = 0; k < 3; ++k) {
            const double share = by_prior[k] / fit.covariance[4 * k];
            CHECK(share < 1.01);
            CHECK(fit.parameter_degrees_of_freedom[k] == Approx(fit.degrees_of_freedom / std::max(0.05, 1.0 - share)).epsilon(0.02));
        }
        if (row.exponent < 0.1) CHECK(fit.parameter_degrees_of_freedom[1] == Approx(20.0 * fit.degrees_of_freedom).epsilon(1e-12));
    }
}

TEST_CASE("an interval is Student's where the scatter was found, the normal one where it was said", "[reference]") {
    // Tables: t of 95 % is 2.353363 of 3, 2.015048 of 5 degrees of freedom, t of 75 % 0.764892 of 3; normal 1.644854, 0.674490.
    BreakageFit fit;
    fit.model = {classes(), {per_minute(0.1), 0.8}, {1.0, 1.2, 5.8}};
    fit.covariance = {0.04, 0.9, 0.9, 0.9, 0.09, 0.9, 0.9, 0.9, 0.25};
    fit.parameter_degrees_of_freedom = {3.0, 5.0, 3.0};
    const double centre[] = {std::log(0.1 / 60.0), std::log(0.8), std::log(1.2)}, u[] = {0.2, 0.3, 0.5};
    const double nine[] = {2.353363, 2.015048, 2.353363}, half[] = {0.764892, 0.726687, 0.764892};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto which = static_cast<BreakageParameter>(k);
        const auto check = [&](double coverage, double reach) {
            const auto interval = parameter_interval(fit, which, coverage);
            CHECK(interval.low == Approx(centre[k] - reach * u[k]).margin(1e-6));
            CHECK(interval.high == Approx(centre[k] + reach * u[k]).margin(1e-6));
        };
        fit.deviation_stated = false;
        check(0.90, nine[k]), check(0.50, half[k]);
        fit.deviation_stated = true;
        check(0.90, 1.644854), check(0.50, 0.674490);
        for (const double coverage : {0.0, 1.0, -0.1, 1.1})
            CHECK(told_in_full([&] { (void)parameter_interval(fit, which, coverage); }).find("coverage: ") == 0);
        for (const double coverage : {5e-4, 0.9999})
            CHECK(told_in_full([&] { (void)parameter_interval(fit, which, coverage); }) == "taken");
    }
}

namespace {

/// The draws of a fit, made again in the order of the header: the scatter itself where it was found, each class of each
/// test, divided by its sum, then the centres of the prior. Started elsewhere, the same least is found.
void check_draws(const std::vector<Length>& sizes, const std::vector<GrindingTest>& tests, const BreakageFitOptions& options) {
    const auto fit = fit_breakage(sizes, tests, options);
    REQUIRE(fit.draws.size() == options.resamples);
    RandomEngine engine(options.seed);
    for (const auto& draw : fit.draws) {
        double scale = fit.fraction_deviation;
        if (!options.fraction_uncertainty)
            scale *= std::sqrt(fit.degrees_of_freedom / chi_squared_quantile(uniform(engine), fit.degrees_of_freedom));
        auto again = tests;
        for (auto& test : again) {
            double sum = 0.0;
            test.fractions = predicted_fractions(fit, test.time);
            for (double& f : test.fractions)
                sum += f += scale * standard_normal(engine);
            for (double& f : test.fractions)
                f /= sum;
        }
        auto how = options;
        how.resamples = 0;
        how.fraction_uncertainty = scale;
        how.prior->log_exponent += options.prior->log_exponent_deviation * standard_normal(engine);
        how.prior->log_gamma += options.prior->log_gamma_deviation * standard_normal(engine);
        if (options.cushioning) how.cushioning->latent += options.cushioning->latent_deviation * standard_normal(engine);
        const auto other = fit_breakage(sizes, again, how);
        CHECK(draw.log_rate == Approx(std::log(other.model.selection.top.value())).epsilon(1e-4));
        CHECK(draw.log_exponent == Approx(std::log(other.model.selection.exponent)).margin(1e-3));
        CHECK(draw.log_gamma == Approx(std::log(other.model.breakage.gamma)).margin(1e-3));
        CHECK(draw.cushioning == Approx(other.model.cushioning).margin(2e-3));
        if (!options.cushioning) CHECK(draw.cushioning == 0.0);
        for (std::size_t i = 0; i < sizes.size(); ++i)
            CHECK(draw.feed[i] == Approx(other.feed[i]).margin(1e-5));
    }
}

} // namespace

TEST_CASE("each draw is the fit of sieve tests drawn about this one, made again here", "[identity]") {
    for (const bool stated : {false, true})
        for (const bool cushioned : {false, true}) {
            BreakageFitOptions options = without_draws(true, cushioned);
            options.prior->fraction_deviation = 0.002;
            options.prior->fraction_deviation_weight = 0.5;
            if (cushioned) options.cushioning = CushioningPrior{0.7, 0.3}; // far below 0 all latents cushion alike
            if (stated) options.fraction_uncertainty = 0.003;
            options.resamples = 12;
            options.seed = 7;
            check_draws(classes(), tests_at({3, 9, 25}, 0.0015, cushioned ? 1.0 : 0.0), options);
        }
    // Two tests over four screens and a prior worth a half leave 1.5 degrees of freedom: chi squared is often below 1.
    std::vector<Length> five;
    for (const double um : {425., 250., 150., 75., 45.})
        five.push_back(micrometres(um));
    BreakageFitOptions options;
    options.prior = BreakagePrior{std::log(0.8), 0.3, std::log(0.9), 0.3, 2e-4, 0.5};
    options.resamples = 20;
    std::vector<GrindingTest> tests;
    for (const double t : {3.0, 20.0}) {
        std::vector<double> w{.45, .25, .15, .1, .05};
        PopulationBalance({five, {per_minute(0.09), 0.8}, {}}).grind(w, minutes(t));
        w[0] += 1e-4, w[2] -= 1e-4;
        tests.push_back({minutes(t), w});
    }
    check_draws(five, tests, options);
    auto one = without_draws(true);
    one.resamples = 1;
    CHECK(fit_breakage(classes(), tests_at({3, 12, 30}, 0.002), one).draws.size() == 1);
}
