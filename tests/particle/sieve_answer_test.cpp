#include "lakebound/particle/sieve_answer.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"
#include "support/powder_habits.hpp"
#include "support/worked_sieve_test.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
/// A wet residue of this share, of 10 g on a scale of 0.001 g.
SieveVerdict judged(double share, double allowed, bool repeats = true) {
    auto question = wet_sieving(share * 10.0, 10.0, 0.001);
    question.target = plain_target(micrometres(45.0), MassFraction::of(allowed), usual_habits());
    if (repeats) question.repeats_to = usual_habits().sieving_repeats_to;
    return *read_sieving(question).verdict;
}
} // namespace

TEST_CASE("a residue near its limit is not surely fine, because sieving repeats only so well", "[unit]") {
    // 0.85 % against 1 %: 2 x 1 % x sqrt(0.0085 x 0.9915) is 0.18 %, twice that crosses the limit.
    CHECK(judged(0.0085, 0.01).verdict == FinenessVerdict::cannot_tell);
    CHECK(judged(0.0085, 0.01).turned_by == VerdictTurnedBy::repeatability);
    CHECK(judged(0.0085, 0.01).as_weighed == FinenessVerdict::fine_enough);
    CHECK(judged(0.0085, 0.01).residue.repeatability == Approx(0.0018361).epsilon(1e-4));
    CHECK(judged(0.0085, 0.01, false).verdict == FinenessVerdict::fine_enough);
    CHECK(judged(0.005, 0.01).verdict == FinenessVerdict::fine_enough);
    CHECK(judged(0.005, 0.01).turned_by == VerdictTurnedBy::nothing);
    CHECK(judged(0.02, 0.01).verdict == FinenessVerdict::too_coarse);
    CHECK(judged(0.0115, 0.01).verdict == FinenessVerdict::cannot_tell);
    CHECK(judged(0.0115, 0.01).as_weighed == FinenessVerdict::too_coarse);
}

TEST_CASE("all that a wet screen kept, and the scale's noise above it, is the whole of the charge", "[unit]") {
    auto question = wet_sieving(10.02, 10.0, 0.01);
    question.record.test.pan = {}; // a reader of files finds nothing passed
    const auto all = read_sieving(question);
    REQUIRE(all.wet);
    CHECK(all.wet->residue.value() == Approx(1.0).epsilon(1e-12));
}

TEST_CASE("a test falls short by what it lost, or by what is too coarse", "[unit]") {
    auto question = worked_sieving();
    CHECK(falls_short(read_sieving(question))); // 79.7 % over 45 um, of 1 % allowed
    question.target.reset();
    CHECK_FALSE(falls_short(read_sieving(question)));
    question.record.test.charge = grams(22.0); // 2.3 g lost
    CHECK(falls_short(read_sieving(question)));
    question.record.test.charge = grams(20.0);
    question.target = plain_target(micrometres(45.0), MassFraction::of(0.9), usual_habits());
    CHECK_FALSE(falls_short(read_sieving(question)));
}

TEST_CASE("what was lost belongs to the verdict", "[unit]") {
    // By hand: 15.7 g of 19.7 g seen over 45 um, 20.6 g charged: 76.2 to 80.6 %.
    auto question = worked_sieving();
    question.record.test.charge = grams(20.6);
    for (const auto& [allowed, verdict, by] :
         {std::tuple{0.803, FinenessVerdict::cannot_tell, VerdictTurnedBy::loss},
          {0.82, FinenessVerdict::fine_enough, VerdictTurnedBy::nothing},
          {0.78, FinenessVerdict::cannot_tell, VerdictTurnedBy::loss},
          {0.75, FinenessVerdict::too_coarse, VerdictTurnedBy::nothing}}) {
        question.target = plain_target(micrometres(45.0), MassFraction::of(allowed), usual_habits());
        const auto judged_now = *read_sieving(question).verdict;
        INFO(allowed);
        CHECK(judged_now.verdict == verdict);
        CHECK(judged_now.turned_by == by);
    }
}

TEST_CASE("beyond the screens nothing but the reach leaves the verdict open", "[unit]") {
    auto question = worked_sieving();
    question.record.test.charge.reset();
    question.target = plain_target(micrometres(38.0), MassFraction::of(0.9), usual_habits());
    const auto verdict = *read_sieving(question).verdict;
    CHECK(verdict.verdict == FinenessVerdict::cannot_tell);
    CHECK(verdict.turned_by == VerdictTurnedBy::reach);
}

TEST_CASE("a sieve test repeats as the standard's table has it", "[reference]") {
    // astm-c136, precision table, fine aggregate, one laboratory: middle of each class of passing, standard
    // deviation in % points. Within 0.2 of the form with its largest figure.
    const struct {
        double passing, deviation;
    } rows[] = {{.975, .26}, {.775, .55}, {.40, .83}, {.175, .54}, {.125, .36}, {.06, .37}, {.01, .14}};
    for (const auto& row : rows)
        CHECK(100 * sieving_deviation(MassFraction::of(.0083), 1 - row.passing) ==
              Approx(row.deviation).margin(.2));
    CHECK(sieving_deviation(MassFraction::of(.01), 0.5) == Approx(.01).epsilon(1e-12));
    CHECK(sieving_deviation(MassFraction::of(.01), 0.0) < 1e-12);
    CHECK_THROWS_AS(sieving_deviation(MassFraction::of(.01), 1.1), DomainError);
}

TEST_CASE("a scale that leaves more than a point of a share in doubt is coarse", "[reference]") {
    // One screen and a pan of 5 g each, by hand: .408 step sqrt(.25 + .25)/10 g, so .0289 of a step of 1 g.
    const auto weighed = [](double step) {
        SieveQuestion asked;
        asked.record.test.screens = {{micrometres(45), grams(5)}};
        asked.record.test.pan = grams(5);
        if (step > 0) asked.record.test.scale_step = grams(step);
        return read_sieving(asked).analysis;
    };
    CHECK(weighed(1.0).widest_uncertainty == Approx(0.02887).epsilon(1e-3));
    CHECK(weighed(0.35).weighed_coarsely);
    CHECK_FALSE(weighed(0.34).weighed_coarsely);
    CHECK_FALSE(weighed(0.0).weighed_coarsely);
}

TEST_CASE("the modulus is a figure of sands, which begin at a screen of 600 um", "[unit]") {
    const auto of = [](double coarsest) {
        SieveQuestion asked;
        asked.record.test.screens = {{micrometres(coarsest), grams(1)}, {micrometres(300), grams(2)}, {micrometres(150), grams(2)}};
        asked.record.test.pan = grams(5);
        return read_sieving(asked);
    };
    CHECK(of(600).of_sand);
    CHECK(of(599.5).of_sand); // as its mesh is typed
    CHECK_FALSE(of(590).of_sand);
    CHECK(of(600).fineness_modulus.has_value());
    CHECK_FALSE(of(425).of_sand);
}

TEST_CASE("loss and repeating may leave a verdict open together, either of them alone", "[unit]") {
    // By hand: 15.7 g of 19.7 g seen over 45 um, of 20.6 g charged: 76.2 to 80.6 %, and a repeatability about each end.
    auto question = worked_sieving();
    question.record.test.charge = grams(20.6);
    question.repeats_to = usual_habits().sieving_repeats_to;
    question.target = plain_target(micrometres(45.0), MassFraction::of(0.797), usual_habits());
    const auto verdict = *read_sieving(question).verdict;
    CHECK(verdict.verdict == FinenessVerdict::cannot_tell);
    CHECK(verdict.turned_by == VerdictTurnedBy::both);
}

TEST_CASE("a scale too coarse for the target is told with the charge that it needs", "[unit]") {
    auto question = wet_sieving(0.01, 10.0, 0.1);
    question.target = plain_target(micrometres(45.0), MassFraction::of(0.01), usual_habits());
    const auto verdict = *read_sieving(question).verdict;
    REQUIRE(verdict.smallest_seen);
    CHECK(*verdict.smallest_seen > MassFraction::of(0.01));
    REQUIRE(verdict.charge_to_see);
    CHECK(smallest_residue_seen(*verdict.charge_to_see, grams(0.1)).value() == Approx(0.01).epsilon(1e-12));
    question.record.test.scale_step.reset();
    const auto unseen = read_sieving(question);
    CHECK_FALSE(unseen.verdict->smallest_seen);
    CHECK_FALSE(unseen.wet);
    CHECK_FALSE(unseen.verdict->clogs);
}

TEST_CASE("one screen gives no curve, a test without a density no surface", "[unit]") {
    auto question = wet_sieving(0.5, 10.0, 0.01);
    question.record.density.reset();
    const auto one = read_sieving(question);
    CHECK(one.fits.empty());
    REQUIRE(one.no_fit.size() == 1);
    CHECK(one.no_fit[0] == "one screen gives one point, and a curve needs two at least");
    CHECK_FALSE(one.surface);
    // Two screens that kept nothing: all passed, and no curve is told by that.
    auto fine = worked_sieving();
    for (auto& screen : fine.record.test.screens)
        screen.retained = grams(0);
    fine.record.test.pan = grams(20);
    const auto passed = read_sieving(fine);
    CHECK(passed.fits.empty());
    CHECK(passed.no_fit.size() == 3);
    CHECK_FALSE(passed.best);
    CHECK(passed.regrind.empty());
}
