#include "lakebound/paint/next_measurement.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace lakebound;

namespace {

const auto k = [](double x) { return BinderSufficiency::of(x); };
const SufficiencyWindow pans{k(1.0), k(1.2), k(1.8), k(2.4)};
const LogSpread library{0.30, 0.10, 0.04, 0.04, 0.03, 0.006, 0.106};
const std::vector<CandidateTest> tests{
    {"rub-out", "one rub-out", minutes(10), SpreadTerm::oil_absorption, 0.10},
    {"three-rub-outs", "three rub-outs", minutes(30), SpreadTerm::oil_absorption, 0.07},
    {"swatch-ladder", "four swatches", minutes(40), SpreadTerm::method_transfer, 0.05},
    {"medium-solids", "solids", minutes(15), SpreadTerm::binder_solids, 0.01},
    {"pyknometer", "density", minutes(25), SpreadTerm::pigment_density, 0.02},
};

const MeasurementRule usual_rule{Probability::of(0.05), 0.001};

NextMeasurement next(double at, const LogSpread& spread, const MeasurementRule& rule = usual_rule,
                     std::span<const CandidateTest> of = tests) {
    const NormalMixture doubt(sufficiency_spread(spread));
    return next_measurement(judge(k(at), doubt, pans), doubt, spread, of, pans, rule);
}
double gain_of(const NextMeasurement& answer, const char* id) {
    for (const TestGain& g : answer.gains)
        if (tests[g.test].id == id) return g.gain;
    return NAN;
}

} // namespace

TEST_CASE("the chance of landing in the window and what a rub-out makes of it", "[reference]") {
    // docs/theory.md, learning: K1 and K2 of the check vectors (brute quadrature, 0.1 points): a bare jar of
    // sd .3228 lands 46.98 % at the best aim of 1.470; with a rub-out of sd .1559, 80.55 %; weighing .01 besides.
    const NormalMixture bare(std::hypot(0.3228, 0.01)), rubbed(std::hypot(0.1559, 0.01));
    const auto best = likeliest_aim(bare, pans);
    CHECK(best.value() == Approx(1.470).margin(0.001));
    CHECK(window_chances(best, bare, pans).in_window.value() == Approx(0.4698).margin(0.0002));
    CHECK(window_chances(best, rubbed, pans).in_window.value() == Approx(0.8055).margin(0.0002));
    const auto first = next(1.47, library);
    CHECK(first.now.value() == Approx(0.470).margin(0.001)); // sd .3227
    REQUIRE(first.recommended);
    CHECK(tests[*first.recommended].id == "rub-out");
    CHECK(first.gains.front().after.value() == Approx(0.808).margin(0.001)); // sd .1554
    CHECK(first.gains.front().gain == Approx(0.338).margin(0.002));
    CHECK(first.gains.front().gain_per_minute == Approx(0.0338).margin(0.0002));
}

TEST_CASE("what a test is worth after a rub-out", "[identity]") {
    const auto then = next(1.47, library.with(SpreadTerm::oil_absorption, 0.10));
    // Density cancels out of k, and a second single rub-out as rough as the first narrows nothing.
    CHECK(gain_of(then, "pyknometer") == Approx(0.0).margin(1e-15));
    CHECK(gain_of(then, "rub-out") == Approx(0.0).margin(1e-15));
    CHECK(gain_of(then, "swatch-ladder") > gain_of(then, "medium-solids"));
    for (std::size_t i = 1; i < then.gains.size(); ++i)
        CHECK(then.gains[i - 1].gain_per_minute >= then.gains[i].gain_per_minute);
    // Gains are over aiming anew, so a paint off its aim makes no test look better.
    const auto off = next(1.25, library.with(SpreadTerm::oil_absorption, 0.10));
    CHECK(off.now < off.aimed_anew);
    CHECK(gain_of(off, "swatch-ladder") == Approx(gain_of(then, "swatch-ladder")).margin(1e-12));
}

TEST_CASE("when to stop measuring", "[unit]") {
    const LogSpread known{0.05, 0.03, 0.01, 0.01, 0.01, 0.006, 0.02};
    CHECK(next(1.47, known).advice == MeasurementAdvice::good_enough);
    CHECK(next(1.47, library).advice == MeasurementAdvice::measure);
    // Below the limit and above it: no test makes it hold.
    CHECK(next(0.9, library).advice == MeasurementAdvice::change_the_recipe);
    CHECK(next(2.6, library).advice == MeasurementAdvice::change_the_recipe);
    CHECK(next(1.47, library, usual_rule, {}).advice == MeasurementAdvice::stop_measuring);
    // The rule's own numbers: exactly accepted is enough; a rate just under the least is not.
    const auto usual = next(1.47, library);
    MeasurementRule rule = usual_rule;
    rule.accepted = Probability::of(1.0 - usual.now.value() + 1e-9);
    CHECK(next(1.47, library, rule).advice == MeasurementAdvice::good_enough);
    rule.accepted = Probability::of(1.0 - usual.now.value() - 1e-9);
    CHECK(next(1.47, library, rule).advice == MeasurementAdvice::measure);
    rule.accepted = Probability::of(0.05);
    rule.least_gain_per_minute = usual.gains.front().gain_per_minute * 1.001;
    CHECK(next(1.47, library, rule).advice == MeasurementAdvice::stop_measuring);
    rule.least_gain_per_minute = usual.gains.front().gain_per_minute * 0.999;
    CHECK(next(1.47, library, rule).advice == MeasurementAdvice::measure);
}

TEST_CASE("a test of no time at all is refused, a short one is not; what narrows nothing gains nothing", "[unit]") {
    const NormalMixture doubt(0.3);
    const auto ask = [&](const CandidateTest& test) {
        return next_measurement(judge(k(1.4), doubt, pans), doubt, library, {&test, 1}, pans, usual_rule);
    };
    CHECK_NOTHROW(ask({"x", "x", seconds(0.01), SpreadTerm::moisture, 0.1}));
    CHECK_THROWS_AS(ask({"x", "x", seconds(-0.01), SpreadTerm::moisture, 0.1}), DomainError);
    // A rub-out that is no surer than what the library has: the doubt stays, the gain is none.
    const auto none = ask({"x", "x", minutes(1), SpreadTerm::oil_absorption, 5.0});
    CHECK(none.gains.front().spread_of_ln_k == Approx(0.3).epsilon(1e-9));
    CHECK(none.gains.front().gain == Approx(0.0).margin(1e-15));
    CHECK(none.gains.front().after.value() == Approx(none.aimed_anew.value()).margin(1e-6));
}

TEST_CASE("a test that cannot be is refused", "[errors]") {
    const NormalMixture doubt(0.3);
    const auto ask = [&](CandidateTest test) {
        return next_measurement(judge(k(1.4), doubt, pans), doubt, library, {&test, 1}, pans, usual_rule);
    };
    CHECK_THROWS_AS(ask({"x", "x", minutes(0), SpreadTerm::moisture, 0.1}), DomainError);
    CHECK_THROWS_AS(ask({"x", "x", minutes(1), SpreadTerm::moisture, -0.1}), DomainError);
    CHECK_THROWS_AS(ask({"x", "x", minutes(1), SpreadTerm::moisture, HUGE_VAL}), DomainError);
    CHECK_NOTHROW(ask({"x", "x", minutes(1), SpreadTerm::moisture, 0.0}));
}

TEST_CASE("every gain is what aiming anew with the narrower doubt lands more of, however small", "[reference]") {
    // By hand: the doubt is narrowed as the root of the sum of squares is; a normal doubt about its likeliest aim lands
    // erf(half the width of the window / (sd sqrt 2)).
    const double half = 0.5 * std::log(1.8 / 1.2);
    const auto lands = [half](double sd) { return std::erf(half / sd / std::sqrt(2.0)); };
    const double terms[] = {0.30, 0.10, 0.04, 0.04, 0.03, 0.006}; // the density is no term of k
    const auto root = [&terms](std::size_t which, double with) {
        double sum = 0.0;
        for (std::size_t i = 0; i < 6; ++i)
            sum += i == which ? with * with : terms[i] * terms[i];
        return std::sqrt(sum);
    };
    const SpreadTerm of[] = {SpreadTerm::oil_absorption, SpreadTerm::method_transfer, SpreadTerm::binder_solids,
                             SpreadTerm::binder_density, SpreadTerm::moisture,        SpreadTerm::weighing};
    for (const double sd : {0.2, 0.3227}) { // the doubt may be less than its terms say
        const NormalMixture doubt(sd);
        for (std::size_t t = 0; t < 6; ++t)
            for (const double after : {0.0, 0.3 * terms[t], 0.99 * terms[t], terms[t], 2.0 * terms[t]}) {
                CAPTURE(sd, t, after);
                const CandidateTest test{"x", "x", minutes(7), of[t], after};
                const auto answer =
                    next_measurement(judge(k(1.3), doubt, pans), doubt, library, {&test, 1}, pans, usual_rule);
                const double narrow = sd * root(t, std::min(after, terms[t])) / root(6, 0.0);
                const auto& gain = answer.gains.at(0);
                CHECK(gain.test == 0);
                CHECK(gain.spread_of_ln_k == Approx(narrow).epsilon(1e-12));
                CHECK(gain.after.value() == Approx(lands(narrow)).epsilon(1e-10));
                CHECK(gain.gain == Approx(lands(narrow) - lands(sd)).margin(1e-10));
                CHECK(gain.gain_per_minute == Approx((lands(narrow) - lands(sd)) / 7).margin(1e-11));
                CHECK(answer.aimed_anew.value() == Approx(lands(sd)).epsilon(1e-10));
                CHECK(answer.aim.value() == Approx(std::sqrt(1.2 * 1.8)).epsilon(1e-10));
            }
    }
}
