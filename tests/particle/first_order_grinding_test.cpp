#include "lakebound/particle/first_order_grinding.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {
ResidueReading at(double min, double residue, double u = 0.0) {
    return {minutes(min), MassFraction::of(residue), u};
}
FirstOrderLaw law_of(std::initializer_list<ResidueReading> r) {
    return fit_first_order(std::vector<ResidueReading>(r));
}
} // namespace

TEST_CASE("worked one-screen law", "[reference]") {
    // T21 and domain brief B.8: R .46 at 5 min, .235 at 15: k .06716, R0 .644, 62.00 min to 1 %, 38.0 to 5 %.
    const auto law = law_of({at(5, .46, .01), at(15, .235, .01)});
    CHECK(in_per_minute(law.rate) == Approx(.06716).epsilon(1e-4));
    CHECK(std::exp(law.log_initial_residue) == Approx(.644).margin(6e-4));
    CHECK(in_minutes(time_to_residue(law, .01)) == Approx(62.00).epsilon(1e-4));
    CHECK(in_minutes(time_to_residue(law, .05)) == Approx(38.0).margin(.06));
    // With 1 point of error in each R: k +- 7 %, 56 to 69 min (90 %, the brief's own Monte Carlo).
    CHECK(std::sqrt(law.covariance->rate) / law.rate.value() == Approx(.07).margin(.005));
    const auto span = time_interval(law, .01, .90);
    CHECK(in_minutes(span.low) == Approx(56).margin(.6));
    REQUIRE(span.high);
    CHECK(in_minutes(*span.high) == Approx(69).margin(1.0));
}

TEST_CASE("exact data give the law back", "[identity]") {
    for (const double k : {0.002, 0.07, 1.5}) {
        const auto R = [&](double t) { return 0.8 * std::exp(-k * t); };
        const auto law = law_of({at(0, R(0)), at(0.5 / k, R(0.5 / k)), at(2 / k, R(2 / k))});
        CHECK(in_per_minute(law.rate) == Approx(k).epsilon(1e-10));
        CHECK(residue_at(law, minutes(1 / k)) == Approx(R(1 / k)).epsilon(1e-10));
        CHECK(residue_at(law, time_to_residue(law, .03)) == Approx(.03).epsilon(1e-10));
        CHECK(in_seconds(time_to_residue(law, .9)) == 0.0);
    }
}

TEST_CASE("90 % intervals of the time cover 88 to 92 % of 2 000 simulated makers", "[identity]") {
    RandomEngine engine(99);
    int covered = 0;
    const double k = 0.0672, R0 = 0.644, truth = std::log(R0 / .01) / k;
    for (int maker = 0; maker < 2000; ++maker) {
        std::vector<ResidueReading> tests;
        for (const double t : {5.0, 15.0})
            tests.push_back(at(t, R0 * std::exp(-k * t) + 0.01 * standard_normal(engine), 0.01));
        const auto span = time_interval(fit_first_order(tests), .01, .90);
        covered += in_minutes(span.low) <= truth && (!span.high || truth <= in_minutes(*span.high));
    }
    CHECK(covered >= 1760);
    CHECK(covered <= 1840);
}

TEST_CASE("a rate that cannot be told from none has no upper time", "[unit]") {
    const auto law = law_of({at(5, .46, .05), at(6, .45, .05)});
    const auto span = time_interval(law, .01, .90);
    CHECK_FALSE(span.high);
    CHECK(in_seconds(span.low) > 0);
    CHECK(span.low < time_to_residue(law, .01));
    CHECK_FALSE(law_of({at(5, .46), at(15, .235)}).covariance);
}

TEST_CASE("a third test shows slowing", "[unit]") {
    const auto law = law_of({at(5, .46, .01), at(15, .235, .01)});
    const double foreseen = residue_at(law, minutes(30));
    CHECK_FALSE(check_later_reading(law, at(30, foreseen + .005, .01)).slowing);
    const auto slow = check_later_reading(law, at(30, foreseen + .06, .01));
    CHECK(slow.slowing);
    CHECK(slow.deviations > 2.0);
    CHECK(slow.predicted == Approx(foreseen));
    CHECK(check_later_reading(law, at(30, .02, .002)).faster);
}

TEST_CASE("slowing is cried at the stated rate", "[identity]") {
    // No slowing in truth: 2.3 % of fair third tests lie above 2 standard deviations.
    RandomEngine engine(5);
    int cried = 0;
    for (int maker = 0; maker < 4000; ++maker) {
        const auto R = [&](double t) { return .7 * std::exp(-.05 * t) + .005 * standard_normal(engine); };
        const auto law = law_of({at(5, R(5), .005), at(15, R(15), .005)});
        cried += check_later_reading(law, at(25, R(25), .005)).slowing;
    }
    CHECK(cried > 50);
    CHECK(cried < 140);
}

TEST_CASE("of readings without a doubt of their own the scatter about the line tells it", "[reference]") {
    // ln R at 5, 10, 15, 20 min: a line with +d, -d, -d, +d on it leaves the line as it is, for these sum to 0 and so do
    // they times t about the middle; rest 4 d^2 over 4 - 2, so u(l)^2 = 2 d^2; S = sum (t - 12.5 min)^2 = 125 min^2.
    const double d = 0.02, rate = 0.05;
    const auto reading = [&](double t, double off) { return at(t, std::exp(-0.3 - rate * t + off)); };
    const auto law = law_of({reading(5, d), reading(10, -d), reading(15, -d), reading(20, d)});
    CHECK(law.rate.value() == Approx(rate / 60).epsilon(1e-9));
    REQUIRE(law.covariance);
    CHECK(law.covariance->rate == Approx(2 * d * d / (125 * 3600.0)).epsilon(1e-9));
    CHECK(law.covariance->log_residue == Approx(2 * d * d * (1.0 / 4 + 12.5 * 12.5 / 125)).epsilon(1e-9));
}

TEST_CASE("grinding tests that tell no law are refused", "[errors]") {
    CHECK_THROWS_AS(law_of({at(5, .4)}), DomainError);
    CHECK_THROWS_AS(law_of({at(5, .4), at(5, .3)}), DomainError);
    CHECK_THROWS_AS(law_of({at(5, .4), at(15, .5)}), DomainError);
    CHECK_THROWS_AS(law_of({at(5, .4), at(15, 0)}), DomainError);
    CHECK_THROWS_AS(law_of({at(-5, .4), at(15, .2)}), DomainError);
    const auto law = law_of({at(5, .46), at(15, .235)});
    CHECK_THROWS_AS(time_to_residue(law, 0), DomainError);
    CHECK_THROWS_AS(time_to_residue(law, 1), DomainError);
    CHECK_THROWS_AS(time_interval(law, .01, .9), DomainError);
    for (const double coverage : {0.0, 1.0}) {
        const auto sure = law_of({at(5, .46), at(15, .235), at(25, .12)});
        CHECK_THROWS_AS(time_interval(sure, .01, coverage), DomainError);
    }
    CHECK_THROWS_AS(check_later_reading(law, at(30, .1)), DomainError);
    CHECK_THROWS_AS(residue_at(law, minutes(-1)), DomainError);
}

TEST_CASE("two readings share out their uncertainties as the line through them does", "[identity]") {
    // Through two points: rate (l1 - l2)/D and start (t2 l1 - t1 l2)/D, with l = ln R, u(l) = u(R)/R and D = t2 - t1.
    const double t1 = 300, t2 = 900, D = t2 - t1, u1 = .01 / .46, u2 = .02 / .235;
    const auto law = law_of({at(5, .46, .01), at(15, .235, .02)});
    REQUIRE(law.covariance);
    CHECK(law.covariance->rate == Approx((u1 * u1 + u2 * u2) / (D * D)).epsilon(1e-10));
    CHECK(law.covariance->log_residue == Approx((t2 * t2 * u1 * u1 + t1 * t1 * u2 * u2) / (D * D)).epsilon(1e-10));
    CHECK(law.covariance->both == Approx((t2 * u1 * u1 + t1 * u2 * u2) / (D * D)).epsilon(1e-10));
}

TEST_CASE("a refused law tells the figure in minutes and percent", "[errors]") {
    CHECK(told([] { law_of({at(5, .4)}); }) == "sieve tests of the grinding: 1");
    CHECK(told([] { law_of({at(-5, .4), at(15, .2)}); }) == "grinding time: -5 min");
    CHECK(told([] { law_of({at(5, 0), at(15, .2)}); }) == "residue: 0 %");
    CHECK(told([] { law_of({at(5, .4, -0.1), at(15, .2)}); }) == "standard uncertainty of the residue: -0.1");
    CHECK(told([] { law_of({at(5, .4), at(5, .3)}); }) == "time of a second sieve test: 5 min");
    CHECK(told([] { law_of({at(5, .4), at(15, .4)}); }).rfind("residue of the later sieve test", 0) == 0);
    const auto law = law_of({at(5, .46, .01), at(15, .235, .01)});
    CHECK(told([&] { residue_at(law, minutes(-2)); }) == "grinding time: -2 min");
    CHECK(told([&] { time_interval(law, .01, 1.0); }) == "coverage: 1");
    CHECK(told([&] { time_interval(law, .01, 0.0); }) == "coverage: 0");
    CHECK(told([&] { check_later_reading(law, at(30, 0)); }) == "residue: 0 %");
    // A residue of five in ten thousand, and at the very beginning, is one like any other.
    CHECK(law_of({at(0, 8e-4), at(10, 4e-4)}).rate.value() == Approx(std::log(2.0) / 600).epsilon(1e-9));
    CHECK(residue_at(law, minutes(0)) == Approx(.644).margin(6e-4));
    CHECK(residue_at(law_of({at(5, .99), at(15, .2)}), minutes(0)) == Approx(1.0)); // the line says more than all
}

TEST_CASE("a later reading is slow or fast beyond two of its own deviations", "[unit]") {
    const auto law = law_of({at(5, .46, .01), at(15, .235, .01)});
    // u by hand of the law at 30 min, and of the reading .02 of itself, in ln R.
    const double t = 1800, c = law.covariance->log_residue - 2 * t * law.covariance->both + t * t * law.covariance->rate;
    const double foreseen = residue_at(law, minutes(30)), u = std::sqrt(c + 0.02 * 0.02);
    for (const double off : {-2.05, -1.95, 0.0, 1.95, 2.05}) {
        const double seen = foreseen * std::exp(off * u);
        const auto later = check_later_reading(law, at(30, seen, 0.02 * seen));
        CHECK(later.predicted == Approx(foreseen).epsilon(1e-9));
        CHECK(later.deviations == Approx(off).margin(1e-6));
        CHECK(later.slowing == (off > 2));
        CHECK(later.faster == (off < -2));
    }
    const auto bare = law_of({at(5, .46), at(15, .235)});
    CHECK_THROWS_WITH(check_later_reading(bare, at(30, .1)), Catch::Contains("uncertainty of the sieve tests"));
    CHECK(check_later_reading(bare, at(30, .1, .01)).deviations ==
          Approx((std::log(.1) - std::log(residue_at(bare, minutes(30)))) / .1).epsilon(1e-9));
    // Three readings without an uncertainty: the scatter about the line tells it, n - 2 of them; by hand.
    const auto three = law_of({at(0, .8), at(10, .4), at(20, .25)});
    const double y[] = {std::log(.8), std::log(.4), std::log(.25)}, slope = (y[2] - y[0]) / 1200, mean = (y[0] + y[1] + y[2]) / 3;
    const double rest = std::pow(y[0] - mean + 600 * slope, 2) + std::pow(y[1] - mean, 2) + std::pow(y[2] - mean - 600 * slope, 2);
    CHECK(three.rate.value() == Approx(-slope).epsilon(1e-12));
    CHECK(three.covariance->rate == Approx(rest / 1.0 / (2 * 600.0 * 600.0)).epsilon(1e-9));
}
