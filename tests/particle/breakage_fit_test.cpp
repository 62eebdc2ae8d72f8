#include "lakebound/particle/breakage_fit.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <functional>
#include <string>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/powder_habits.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
std::vector<Length> sizes() {
    std::vector<Length> out;
    for (const double um : {425., 250., 150., 106., 75., 45.})
        out.push_back(micrometres(um));
    return out;
}
const std::vector<double> feed{.45, .22, .12, .09, .07, .05};
BreakageModel truth() { return {sizes(), {per_minute(0.09), 0.8}, {1.0, 0.9, 5.8}}; }

/// Sieve tests of a maker whose scale and sampling spread each class fraction by sd.
std::vector<GrindingTest> tests_at(std::initializer_list<double> minutes_of, double sd, RandomEngine& engine,
                                   const BreakageModel& model = truth()) {
    const PopulationBalance balance(model);
    std::vector<GrindingTest> tests;
    for (const double t : minutes_of) {
        auto w = feed;
        balance.grind(w, minutes(t));
        double sum = 0;
        for (double& x : w)
            sum += x = std::max(0.0, x + sd * standard_normal(engine));
        for (double& x : w)
            x /= sum;
        tests.push_back({minutes(t), w});
    }
    return tests;
}
BreakageFitOptions with_prior() {
    BreakageFitOptions o;
    o.prior = usual_breakage();
    return o;
}
BreakageFitOptions without_draws(bool prior = true) {
    BreakageFitOptions o = with_prior();
    o.resamples = 0;
    if (!prior) o.prior.reset();
    return o;
}
/// A mortar drawn from what is thought of mortars before any test.
BreakageModel some_mortar(RandomEngine& engine) {
    const BreakagePrior prior = usual_breakage();
    BreakageModel m = truth();
    m.selection.top = per_minute(0.09 * std::exp(0.3 * standard_normal(engine)));
    m.selection.exponent =
        std::exp(prior.log_exponent + prior.log_exponent_deviation * standard_normal(engine));
    m.breakage.gamma = std::exp(prior.log_gamma + prior.log_gamma_deviation * standard_normal(engine));
    return m;
}
} // namespace

TEST_CASE("exact sieve tests give the breakage parameters back", "[identity]") {
    RandomEngine engine(1);
    for (const double rate : {0.01, 0.09, 0.8})
        for (const double alpha : {0.4, 0.8, 1.5})
            for (const double gamma : {0.5, 0.9, 1.6}) {
                const BreakageModel model{sizes(), {per_minute(rate), alpha}, {1.0, gamma, 5.8}};
                for (const bool three : {false, true}) {
                    const double unit = 1 / rate;
                    const auto tests = three ? tests_at({0.3 * unit, unit, 2 * unit}, 0, engine, model)
                                             : tests_at({0.3 * unit, 1.5 * unit}, 0, engine, model);
                    const auto fit = fit_breakage(sizes(), tests, without_draws(false));
                    CHECK(in_per_minute(fit.model.selection.top) == Approx(rate).epsilon(1e-5));
                    CHECK(fit.model.selection.exponent == Approx(alpha).epsilon(1e-5));
                    CHECK(fit.model.breakage.gamma == Approx(gamma).epsilon(1e-5));
                    for (std::size_t i = 0; i < 6; ++i)
                        CHECK(fit.feed[i] == Approx(tests[0].fractions[i]).margin(1e-7));
                }
            }
}

TEST_CASE("the cushioning of its latent, by hand", "[reference]") {
    // c = l + h ln(1 + exp((y - l)/h)), l = -0.4, h = 0.25: at y = l the bend, l + h ln 2; at 0.1 two widths above.
    CHECK(cushioning_of_latent(-0.4) == Approx(-0.4 + 0.25 * std::log(2.0)).epsilon(1e-12));
    CHECK(cushioning_slope(-0.4) == Approx(0.5).epsilon(1e-12));
    CHECK(cushioning_of_latent(0.1) == Approx(-0.4 + 0.25 * 2.126928011).epsilon(1e-9)); // ln(1 + e^2) = 2.126928011
    CHECK(cushioning_slope(0.1) == Approx(0.880797078).epsilon(1e-9));                   // 1/(1 + e^-2)
    CHECK(cushioning_of_latent(20.0) == Approx(20.0).epsilon(1e-12));
    CHECK(cushioning_of_latent(-30.0) == Approx(-0.4).epsilon(1e-9));
}

TEST_CASE("exact tests in a mortar that cushions give it back, rates and all", "[identity]") {
    // With a prior so wide that it says nothing; true c 1.2 and a gain of -0.2 besides none.
    RandomEngine engine(3);
    for (const double c : {-0.2, 0.0, 1.2}) {
        BreakageModel model = truth();
        model.cushioning = c;
        BreakageFitOptions options;
        options.prior = BreakagePrior{0.0, 30.0, 0.0, 30.0, 0.01, 1e-6};
        options.cushioning = CushioningPrior{0.5, 300.0};
        options.fraction_uncertainty = 0.001;
        options.resamples = 0;
        const auto fit = fit_breakage(sizes(), tests_at({2, 8, 20, 45}, 0, engine, model), options);
        CHECK(fit.model.cushioning == Approx(c).margin(1e-3));
        CHECK(in_per_minute(fit.model.selection.top) == Approx(0.09).epsilon(1e-3));
        CHECK(fit.model.selection.exponent == Approx(0.8).epsilon(1e-3));
        CHECK(fit.model.breakage.gamma == Approx(0.9).epsilon(1e-3));
        CHECK(fit.misfit == Approx(0.0).margin(1e-8));
    }
}

TEST_CASE("the stated covariance is what small changes of the readings do", "[identity]") {
    // To first order p = p0 + sum (dp/dy) dy over all readings y, each class fraction with the stated deviation and each
    // centre of the prior with its own; so cov p = sum (dp/dy)(dp/dy)^T u(y)^2. The slopes are taken by fitting anew, about
    // a truth that tests and prior agree on, where what is left over bends nothing.
    RandomEngine engine(5);
    for (const bool cushioned : {false, true}) {
        BreakageFitOptions options = without_draws();
        BreakageModel model = truth();
        model.selection.exponent = std::exp(options.prior->log_exponent);
        model.breakage.gamma = std::exp(options.prior->log_gamma);
        if (cushioned) model.cushioning = cushioning_of_latent(usual_cushioning().latent);
        const auto tests = tests_at({3, 12, 30}, 0.0, engine, model);
        if (cushioned) options.cushioning = usual_cushioning();
        options.fraction_uncertainty = 0.004;
        const auto logs = [&](const std::vector<GrindingTest>& of, const BreakageFitOptions& how) {
            const auto m = fit_breakage(sizes(), of, how).model;
            return std::array{std::log(in_per_minute(m.selection.top)), std::log(m.selection.exponent), std::log(m.breakage.gamma)};
        };
        std::array<double, 9> covariance{};
        const auto add = [&](const std::array<double, 3>& up, const std::array<double, 3>& down, double apart, double u) {
            for (std::size_t i = 0; i < 3; ++i)
                for (std::size_t j = 0; j < 3; ++j)
                    covariance[i * 3 + j] += (up[i] - down[i]) * (up[j] - down[j]) / (apart * apart) * u * u;
        };
        const double h = 4e-7; // a test whose shares sum to 1 by less than a millionth is taken
        for (std::size_t k = 0; k < tests.size(); ++k)
            for (std::size_t i = 0; i < 6; ++i) {
                auto up = tests, down = tests;
                up[k].fractions[i] += h, down[k].fractions[i] -= h;
                add(logs(up, options), logs(down, options), 2.0 * h, 0.004);
            }
        const auto centre = [&](double BreakagePrior::*which, double u) {
            auto up = options, down = options;
            (*up.prior).*which += 0.01, (*down.prior).*which -= 0.01;
            add(logs(tests, up), logs(tests, down), 0.02, u);
        };
        centre(&BreakagePrior::log_exponent, options.prior->log_exponent_deviation);
        centre(&BreakagePrior::log_gamma, options.prior->log_gamma_deviation);
        if (cushioned) {
            auto up = options, down = options;
            up.cushioning->latent += 0.02, down.cushioning->latent -= 0.02;
            add(logs(tests, up), logs(tests, down), 0.04, options.cushioning->latent_deviation);
        }
        const auto fit = fit_breakage(sizes(), tests, options);
        for (std::size_t i = 0; i < 9; ++i)
            CHECK(fit.covariance[i] == Approx(covariance[i]).epsilon(0.05).margin(2e-5));
        // Where the scatter is taken from the tests it takes the place of the stated one.
        options.fraction_uncertainty.reset();
        const auto found = fit_breakage(sizes(), tests_at({3, 12, 30}, 0.003, engine, model), options);
        const BreakagePrior& prior = *options.prior;
        CHECK(found.fraction_deviation * found.fraction_deviation * found.degrees_of_freedom ==
              Approx(found.misfit + prior.fraction_deviation_weight * prior.fraction_deviation * prior.fraction_deviation).epsilon(0.05));
    }
}

TEST_CASE("as many sets of parameters are drawn as were asked for", "[unit]") {
    RandomEngine engine(12);
    const auto tests = tests_at({3, 10, 25}, 0.005, engine);
    auto options = with_prior();
    options.resamples = 7;
    CHECK(fit_breakage(sizes(), tests, options).draws.size() == 7);
    options.cushioning = usual_cushioning();
    const auto fit = fit_breakage(sizes(), tests, options);
    CHECK(fit.draws.size() == 7);
    for (const auto& draw : fit.draws)
        CHECK(draw.cushioning >= least_cushioning);
}

TEST_CASE("90 % intervals of the parameters cover 88 to 92 % of 2 000 simulated makers", "[identity]") {
    RandomEngine engine(77);
    int rate = 0, exponent = 0, gamma = 0;
    const auto holds = [](const CoverageInterval& i, double x) { return i.low <= x && x <= i.high; };
    for (int maker = 0; maker < 2000; ++maker) {
        const auto mortar = some_mortar(engine);
        const auto fit = fit_breakage(sizes(), tests_at({3, 10, 25}, 0.01, engine, mortar), without_draws());
        rate += holds(parameter_interval(fit, BreakageParameter::log_rate, .9),
                      std::log(mortar.selection.top.value()));
        exponent += holds(parameter_interval(fit, BreakageParameter::log_exponent, .9),
                          std::log(mortar.selection.exponent));
        gamma +=
            holds(parameter_interval(fit, BreakageParameter::log_gamma, .9), std::log(mortar.breakage.gamma));
    }
    INFO(rate << " " << exponent << " " << gamma);
    CHECK(rate >= 1760);
    CHECK(rate <= 1840);
    CHECK(exponent >= 1760);
    CHECK(exponent <= 1840);
    CHECK(gamma >= 1760);
    CHECK(gamma <= 1840);
}

TEST_CASE("two tests foretell the time, and the interval holds it", "[identity]") {
    RandomEngine engine(8);
    int held = 0;
    constexpr int makers = 80;
    BreakageFitOptions options;
    options.prior = usual_breakage();
    options.resamples = 100;
    for (int maker = 0; maker < makers; ++maker) {
        const auto mortar = some_mortar(engine);
        auto w = feed;
        const PopulationBalance balance(mortar);
        balance.grind(w, minutes(3));
        const double true_time = 3 + in_minutes(time_to_residue(balance, w, 4, 0.10));
        const auto fit = fit_breakage(sizes(), tests_at({3, 15}, 0.01, engine, mortar), options);
        const auto time = predicted_time(fit, 4, 0.10);
        held += in_minutes(time.low) <= true_time && (!time.high || true_time <= in_minutes(*time.high));
    }
    // 90 % of 80 is 72; three binomial standard deviations are 8.
    INFO(held);
    CHECK(held >= 64);
}

TEST_CASE("a prediction keeps its mass and its order", "[identity]") {
    RandomEngine engine(12);
    const auto fit = fit_breakage(sizes(), tests_at({3, 10, 25}, 0.005, engine), with_prior());
    CHECK(fit.draws.size() >= 490);
    double last = 1.0;
    for (double t = 3; t < 200; t += 7) {
        const auto w = predicted_fractions(fit, minutes(t));
        double sum = 0;
        for (const double x : w)
            sum += x;
        CHECK(sum == Approx(1.0).epsilon(1e-12));
        const auto r = predicted_residue(fit, 4, minutes(t));
        CHECK(r.residue <= last * (1 + 1e-12));
        CHECK(r.interval.low <= r.residue);
        CHECK(r.residue <= r.interval.high);
        last = r.residue;
    }
    // The same seed, the same answer.
    RandomEngine again(12);
    const auto twin = fit_breakage(sizes(), tests_at({3, 10, 25}, 0.005, again), with_prior());
    CHECK(twin.draws.front().log_rate == fit.draws.front().log_rate);
    // Tests in any order.
    RandomEngine third(12);
    auto turned = tests_at({3, 10, 25}, 0.005, third);
    std::swap(turned[0], turned[2]);
    CHECK(fit_breakage(sizes(), turned, without_draws()).model.breakage.gamma ==
          Approx(fit.model.breakage.gamma).epsilon(1e-9));
}

TEST_CASE("a third test that lags behind shows cushioning", "[unit]") {
    RandomEngine engine(21);
    BreakageFitOptions options;
    options.prior = usual_breakage();
    options.fraction_uncertainty = 0.004;
    const auto fit = fit_breakage(sizes(), tests_at({3, 15}, 0.002, engine), options);
    CHECK(fit.deviation_stated);
    const auto fair = tests_at({40}, 0.002, engine)[0];
    CHECK_FALSE(check_later_test(fit, fair, 4).slowing);
    // As little ground after 40 minutes as it should be after 22.
    auto lazy = tests_at({22}, 0.0, engine)[0];
    lazy.time = minutes(40);
    const auto verdict = check_later_test(fit, lazy, 4);
    CHECK(verdict.slowing);
    CHECK(verdict.observed > verdict.predicted);
    auto eager = tests_at({90}, 0.0, engine)[0];
    eager.time = minutes(40);
    CHECK(check_later_test(fit, eager, 4).faster);
}

TEST_CASE("when the tests allow a population balance", "[unit]") {
    CHECK(obstacle_to_breakage_fit(6, 2).empty());
    CHECK(obstacle_to_breakage_fit(5, 2).empty());
    CHECK_FALSE(obstacle_to_breakage_fit(4, 2).empty());
    CHECK(obstacle_to_breakage_fit(3, 3).empty());
    CHECK_FALSE(obstacle_to_breakage_fit(2, 3).empty());
    CHECK_FALSE(obstacle_to_breakage_fit(6, 1).empty());
}

TEST_CASE("grinding tests that cannot be fitted are refused", "[errors]") {
    RandomEngine engine(2);
    const auto good = tests_at({3, 15}, 0.0, engine);
    CHECK_THROWS_AS(fit_breakage(sizes(), std::span(good).first(1), with_prior()), DomainError);
    auto same = good;
    same[1].time = same[0].time;
    CHECK_THROWS_AS(fit_breakage(sizes(), same, with_prior()), DomainError);
    auto reversed = good;
    std::swap(reversed[0].fractions, reversed[1].fractions);
    CHECK_THROWS_AS(fit_breakage(sizes(), reversed, with_prior()), DomainError);
    auto sums = good;
    sums[1].fractions[0] += 0.1;
    CHECK_THROWS_AS(fit_breakage(sizes(), sums, with_prior()), DomainError);
    auto fewer = good;
    fewer[1].fractions.pop_back();
    CHECK_THROWS_AS(fit_breakage(sizes(), fewer, with_prior()), DomainError);
    auto beyond = good; // a share below none, and so one above the whole
    std::fill(beyond[1].fractions.begin(), beyond[1].fractions.end(), 0.0);
    beyond[1].fractions[0] = -.001, beyond[1].fractions.back() = 1.001;
    CHECK_THROWS_AS(fit_breakage(sizes(), beyond, with_prior()), DomainError);
    std::swap(beyond[1].fractions.front(), beyond[1].fractions.back());
    CHECK_THROWS_AS(fit_breakage(sizes(), beyond, with_prior()), DomainError);
    auto before = good;
    before[0].time = minutes(-1);
    CHECK_THROWS_AS(fit_breakage(sizes(), before, with_prior()), DomainError);
    auto exact = with_prior();
    exact.fraction_uncertainty = 0.0;
    CHECK_THROWS_AS(fit_breakage(sizes(), good, exact), DomainError);
    auto alone = with_prior(); // cushioning is never found without what is believed of the rest
    alone.prior.reset();
    alone.cushioning = usual_cushioning();
    CHECK_THROWS_AS(fit_breakage(sizes(), good, alone), DomainError);
    const auto fit = fit_breakage(sizes(), good, without_draws());
    CHECK_THROWS_AS(predicted_residue(fit, 4, minutes(20)), DomainError);
    CHECK_THROWS_AS(predicted_fractions(fit, minutes(1)), DomainError);
    CHECK_THROWS_AS(parameter_interval(fit, BreakageParameter::log_exponent, 1.0), DomainError);
    CHECK_THROWS_WITH(parameter_interval(fit, BreakageParameter::log_exponent, 1.0), Catch::Contains("coverage"));
    CHECK_THROWS_WITH(parameter_interval(fit, BreakageParameter::log_exponent, 0.0), Catch::Contains("coverage"));
    CHECK_NOTHROW(parameter_interval(fit, BreakageParameter::log_exponent, 1e-4));
}

namespace {

std::string refused_with(const std::function<void()>& question) {
    try {
        question();
    } catch (const DomainError& error) {
        return error.quantity() + ": " + error.value();
    }
    return "taken";
}

} // namespace

TEST_CASE("what a fit is asked beyond what it can tell is refused", "[errors]") {
    RandomEngine engine(4);
    BreakageFitOptions options = with_prior();
    options.resamples = 100;
    const auto fit = fit_breakage(sizes(), tests_at({3, 15}, 0.01, engine), options);
    for (const double coverage : {0.0, 1.0, -0.1, 1.1}) {
        CHECK(refused_with([&] { (void)predicted_time(fit, 4, 0.10, coverage); }).find("coverage: ") == 0);
        CHECK(refused_with([&] { (void)parameter_interval(fit, BreakageParameter::log_rate, coverage); }).find("coverage: ") == 0);
    }
    for (const double coverage : {1e-4, .9999})
        CHECK_NOTHROW(parameter_interval(fit, BreakageParameter::log_rate, coverage));
    auto later = tests_at({40}, 0.01, engine)[0];
    later.fractions.pop_back();
    CHECK(refused_with([&] { (void)check_later_test(fit, later, 4); }) == "classes of the later sieve test: 5");
    // Where some of the mortars that the tests allow do not get there in time, the interval has no upper end.
    const auto all = predicted_time(fit, 4, 0.02, 0.9);
    REQUIRE(all.high);
    CHECK(all.low < all.time);
    CHECK(all.time < *all.high);
    const auto open = predicted_time(fit, 4, 0.02, 0.9, all.time * 1.02);
    CHECK_FALSE(open.high);
    CHECK(in_minutes(open.low) == Approx(in_minutes(all.low)));
    CHECK(obstacle_to_breakage_fit(1, 2) == "the sieve tests name no screen");
    CHECK(obstacle_to_breakage_fit(2, 2) ==
          "2 sieve tests over 1 screen do not tell rate, selection and breakage apart; two tests need four screens, three need two");
}

TEST_CASE("the largest grain is coarser than the coarsest screen", "[unit][errors]") {
    SieveTest test;
    test.screens = {{micrometres(150), grams(5)}, {micrometres(75), grams(5)}};
    test.pan = grams(10);
    const auto analysis = analyse(test);
    const auto classes = grinding_classes(analysis, micrometres(300));
    REQUIRE(classes.size() == 3);
    CHECK(in_micrometres(classes[0]) == Approx(300.0));
    CHECK(in_micrometres(classes[2]) == Approx(75.0));
    CHECK(refused_with([&] { (void)grinding_classes(analysis, micrometres(150)); }) == "largest grain: 150 um");
    CHECK(refused_with([&] { (void)grinding_classes(analysis, micrometres(100)); }) == "largest grain: 100 um");
}
