#include "lakebound/record/coach.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"
#include "record/check_cases.hpp"

using namespace lakebound;
using namespace lakebound::test;
using lakebound::test::Bench; // not the bench of a batch

namespace {

const SwatchTest only_rubbed{swatch_spread, false}, also_watched{swatch_spread, true};
PaintGoal pan_goal() { return {pan_window(), batch_spread}; }
/// Minutes and grams of each step, as the tables have them (estimate).
std::vector<StepCost> usual_steps() {
    return {{StepKind::rub_out, 0, minutes(10), grams(2), {}},
            {StepKind::swatches, 1, minutes(10), grams(0.2), minutes(24 * 60)},
            {StepKind::swatches, 2, minutes(15), grams(0.4), minutes(24 * 60)},
            {StepKind::swatches, 4, minutes(30), grams(0.8), minutes(24 * 60)}};
}
CoachRule usual_rule() {
    CoachRule rule;
    rule.least_gain_per_minute = 0.001;
    rule.most_steps = 7;
    return rule;
}
double after(const DemandBelief& belief, std::initializer_list<double> ks) {
    std::vector<BinderSufficiency> at;
    for (const double k : ks)
        at.push_back(BinderSufficiency::of(k));
    return value_after_swatches(belief, pan_goal(), at, only_rubbed).value();
}
std::string name(const CoachStep& s) {
    return s.cost.kind == StepKind::rub_out       ? "R"
           : s.cost.kind == StepKind::solids_test ? "M"
                                                  : "S" + std::to_string(s.cost.swatches);
}

} // namespace

TEST_CASE("what each next step is worth in the check cases", "[reference]") {
    // Exact but for the grid, tests/reference/learning_check.py: swatches that are only rubbed, the aim sought anew.
    for (const auto& c : check_cases()) {
        if (!(c.one > 0.0)) continue;
        INFO(c.id);
        const auto belief = c.bench.belief(plain_world());
        const auto swatches = [&](std::size_t n) {
            return 100 * value_after_swatches(belief, pan_goal(), swatches_about(belief, n, only_rubbed),
                                              only_rubbed).value();
        };
        CHECK(100 * best_mixing_point(belief, pan_goal()).chance.value() == Approx(c.best_chance).margin(0.05).epsilon(0));
        CHECK(100 * value_after_rub_out(belief, pan_goal()).value() == Approx(c.rub_out).margin(0.05).epsilon(0));
        CHECK(swatches(1) == Approx(c.one).margin(0.05).epsilon(0));
        CHECK(swatches(2) == Approx(c.two).margin(0.05).epsilon(0));
        CHECK(swatches(4) == Approx(c.four).margin(0.05).epsilon(0));
    }
}

TEST_CASE("a swatch that is watched for the rich side as well teaches more on a bare jar", "[reference]") {
    // By quadrature over both edges, tests/reference/learning_check.py; the library widens the rich step instead.
    const auto k1 = check_case("K1").bench.belief(plain_world());
    const auto watched = [&](std::size_t n) {
        return 100 * value_after_swatches(k1, pan_goal(), swatches_about(k1, n, only_rubbed), also_watched).value();
    };
    CHECK(watched(1) == Approx(68.74).margin(0.15).epsilon(0));
    CHECK(watched(2) == Approx(77.34).margin(0.15).epsilon(0));
    CHECK(watched(1) > 68.3); // 67.98 when it is only rubbed
}

TEST_CASE("two swatches in turn, and the solids of the medium", "[reference]") {
    // In turn, by tests/reference/learning_check.py: K1 82.541, K2 95.363, K7 98.697, the last aim sought anew too.
    const auto in_turn = [](const char* id) {
        return 100 * value_after_two_in_turn(check_case(id).bench.belief(plain_world()), pan_goal(), only_rubbed).value();
    };
    CHECK(in_turn("K1") == Approx(82.541).margin(0.03).epsilon(0));
    CHECK(in_turn("K2") == Approx(95.363).margin(0.03).epsilon(0));
    CHECK(in_turn("K7") == Approx(98.697).margin(0.03).epsilon(0));
    // Solids with one rub-out: 80.6 to 81.9 % (printed to .1).
    const auto k2 = check_case("K2").bench.belief(plain_world());
    CHECK(100 * value_after_solids_test(k2, pan_goal()).value() == Approx(81.9).margin(0.15).epsilon(0));
}

TEST_CASE("steps are ranked by gain for their minutes, and the coach knows when to stop", "[reference]") {
    struct Row {
        const char* id;
        const char* rank;
    };
    for (const auto& r : {Row{"K1", "R S1 S2 S4"}, Row{"K2", "S1 S2 S4 R"}, Row{"K5", "R S1 S2 S4"},
                          Row{"K6", "S1 S2 S4 R"}, Row{"K10", "R S1 S2 S4"}, Row{"K16", "S1 R S2 S4"},
                          Row{"K17", "S1 S2 S4 R"}}) {
        INFO(r.id);
        const auto c = coaching(check_case(r.id).bench.belief(plain_world()), pan_goal(), usual_steps(),
                                usual_rule(), only_rubbed);
        std::string rank;
        for (const auto& s : c.steps)
            rank += (rank.empty() ? "" : " ") + name(s);
        CHECK(rank == r.rank);
        CHECK(c.advice == CoachAdvice::measure);
        CHECK(c.recommended == 0u);
    }
    const auto k11 = coaching(check_case("K11").bench.belief(plain_world()), pan_goal(), usual_steps(),
                              usual_rule(), only_rubbed);
    CHECK(k11.advice == CoachAdvice::nothing_pays);
    CHECK(!k11.recommended);
}

TEST_CASE("the coach goes by what the maker lacks", "[unit]") {
    const auto belief = check_case("K2").bench.belief(plain_world());
    const auto advise = [&](auto change) {
        CoachRule rule = usual_rule();
        change(rule);
        return coaching(belief, pan_goal(), usual_steps(), rule, only_rubbed);
    };
    CHECK(advise([](CoachRule& r) { r.target = Probability::of(0.80); }).advice == CoachAdvice::target_met);
    CHECK(advise([](CoachRule& r) { r.steps_done = 7; }).advice == CoachAdvice::steps_used_up);
    // 90 % in few days: one swatch does it (90.8); 94 %: two at once; 99 % no single step: the ratio decides.
    const auto in_few_days = [&](double target) {
        const auto c = advise([&](CoachRule& r) { r.target = Probability::of(target), r.few_days = true; });
        return name(c.steps[c.recommended.value()]);
    };
    CHECK(in_few_days(0.90) == "S1");
    CHECK(in_few_days(0.94) == "S2");
    CHECK(in_few_days(0.97) == "S4");
    CHECK(in_few_days(0.99) == "S1");
    // Days dear: more swatches in one wait; dearer still: what needs no wait. Powder dear: no rub-out.
    const auto when_a_day_is_worth = [&](double minutes) {
        return name(advise([&](CoachRule& r) { r.minutes_per_day = minutes; }).steps.front());
    };
    CHECK(when_a_day_is_worth(0) == "S1");
    CHECK(when_a_day_is_worth(20) == "S2");
    CHECK(when_a_day_is_worth(60) == "R");
    const auto bare = coaching(Bench().belief(plain_world()), pan_goal(), usual_steps(), usual_rule(), only_rubbed);
    CHECK(name(bare.steps.front()) == "R");
    CoachRule thrifty = usual_rule();
    thrifty.minutes_per_gram = 20;
    const auto powder = coaching(Bench().belief(plain_world()), pan_goal(), usual_steps(), thrifty, only_rubbed);
    CHECK(name(powder.steps.front()) != "R");
    // What is valued is what the scale can weigh.
    const auto rounded = coaching(belief, pan_goal(), usual_steps(), usual_rule(), only_rubbed,
                                  [](BinderSufficiency k) {
                                      return BinderSufficiency::of(std::round(k.value() * 4) / 4);
                                  });
    for (const auto& s : rounded.steps)
        for (const auto k : s.at)
            CHECK(4 * k.value() == Approx(std::round(4 * k.value())).margin(1e-9));
}

TEST_CASE("no measurement is expected to harm, and a bare jar's swatch lies where it teaches most", "[identity]") {
    for (const char* id : {"K1", "K5", "K8", "K13", "K16"}) {
        INFO(id);
        const auto belief = check_case(id).bench.belief(stated_world());
        const double now = best_mixing_point(belief, pan_goal()).chance.value();
        CHECK(value_after_rub_out(belief, pan_goal()).value() > now - 1e-4);
        CHECK(value_after_solids_test(belief, pan_goal()).value() > now - 1e-4);
        for (const double k : {0.4, 1.0, 1.6, 4.5})
            CHECK(after(belief, {k}) > now - 1e-4);
        CHECK(after(belief, {1.0, 1.2}) > after(belief, {1.2}) - 1e-6);
    }
    // A swatch far off teaches nothing, on a grid of one quantity and of two.
    for (const char* id : {"K2", "K13", "K15"}) {
        INFO(id);
        const auto belief = check_case(id).bench.belief(stated_world());
        CHECK(after(belief, {0.05}) == Approx(best_mixing_point(belief, pan_goal()).chance.value()).margin(1e-4));
    }
    // After a swatch that chalked, with no rub-out, the untried side pays: .2 to .3 sd further.
    const auto k5 = check_case("K5").bench.belief(plain_world());
    const auto c = coaching(k5, pan_goal(), {{StepKind::swatches, 1, minutes(10), grams(0.2), minutes(24 * 60)}}, usual_rule(), only_rubbed);
    CHECK(std::log(c.steps[0].at[0].value() / c.even_bet.value()) > 0.15 * k5.flip_spread());
    CHECK(100 * c.steps[0].value.value() > check_case("K5").one + 0.2);
}

TEST_CASE("what the coach leaves out of a grid of two quantities changes no answer", "[identity]") {
    // A jar with swatches and a batch judged in use, the spread between jars and the odd maker in doubt: ten parts, grids.
    Bench bench(2);
    bench.rub_out_of(0, {72}).rub_out_of(1, {85}).rub_out({78}).trial(1.10, PaintOutcome::lean).trial(1.30, PaintOutcome::not_lean);
    bench.record.trials.push_back(bench.record.trials.back());
    bench.record.trials.back().in_use = true;
    bench.record.trials.back().outcome = PaintOutcome::holds;
    const auto belief = bench.belief(stated_world());
    const auto c = coaching(belief, pan_goal(), usual_steps(), usual_rule(), also_watched);
    REQUIRE(c.steps.size() == 4);
    for (const auto& step : c.steps) {
        INFO(name(step));
        const double whole = (step.cost.kind == StepKind::rub_out ? value_after_rub_out(belief, pan_goal())
                                                                  : value_after_swatches(belief, pan_goal(), step.at, also_watched)).value();
        CHECK(step.value.value() == Approx(whole).margin(1e-4).epsilon(0));
    }
}

TEST_CASE("steps that are none are refused", "[errors]") {
    const auto belief = Bench().belief(plain_world());
    const auto one = BinderSufficiency::of(1.0);
    CHECK_THROWS_AS(value_after_swatches(belief, pan_goal(), {}, only_rubbed), DomainError);
    CHECK_THROWS_AS(value_after_swatches(belief, pan_goal(), std::vector(7, one), only_rubbed), DomainError);
    CHECK_THROWS_AS(value_after_swatches(belief, pan_goal(), {BinderSufficiency()}, only_rubbed), DomainError);
    CHECK_THROWS_AS(value_after_swatches(belief, pan_goal(), {one}, {-1.0, false}), DomainError);
    CHECK_THROWS_AS(swatches_about(belief, 3, only_rubbed), DomainError);
    CHECK_THROWS_AS(coaching(belief, pan_goal(), {{StepKind::rub_out, 0, {}, grams(2), {}}}, usual_rule(), only_rubbed), DomainError);
}

TEST_CASE("a step that costs what nothing can is refused", "[errors]") {
    const auto belief = Bench().rub_out({78}).belief(plain_world());
    const auto refused = [&](StepCost cost) {
        try {
            coaching(belief, pan_goal(), {cost}, usual_rule(), only_rubbed);
        } catch (const DomainError& error) {
            return error.quantity() + ": " + error.value();
        }
        return std::string("taken");
    };
    CHECK(refused({StepKind::rub_out, 0, minutes(0), grams(2), {}}) == "attention of a step: 0 min");
    CHECK(refused({StepKind::rub_out, 0, minutes(-3), grams(2), {}}) == "attention of a step: -3 min");
    CHECK(refused({StepKind::rub_out, 0, minutes(HUGE_VAL), grams(2), {}}).rfind("attention of a step", 0) == 0);
    CHECK(refused({StepKind::rub_out, 0, minutes(1), grams(-2), {}}) == "pigment of a step: -2 g");
    CHECK(refused({StepKind::rub_out, 0, minutes(1), grams(HUGE_VAL), {}}).rfind("pigment of a step", 0) == 0);
    CHECK(refused({StepKind::rub_out, 0, minutes(1), grams(2), minutes(-5)}) == "waiting of a step: -5 min");
    CHECK(refused({StepKind::rub_out, 0, minutes(1), grams(2), minutes(HUGE_VAL)}).rfind("waiting of a step", 0) == 0);
    CHECK(refused({StepKind::rub_out, 0, minutes(0.05), grams(0), {}}) == "taken");
}

TEST_CASE("days and grams have the price a maker gives them", "[unit]") {
    // The same step at another price: gain for price times price is the gain. 10 min, 2 days at 30 min, 3 g at 4 min.
    const auto belief = Bench().rub_out({78}).belief(plain_world());
    CoachRule rule = usual_rule();
    rule.minutes_per_day = 30;
    rule.minutes_per_gram = 4;
    const auto c = coaching(belief, pan_goal(), {{StepKind::rub_out, 0, minutes(10), grams(3), hours(48)}}, rule, only_rubbed);
    REQUIRE(c.steps.size() == 1);
    CHECK(c.steps[0].gain_for_price == Approx(c.steps[0].gain / 82.0).epsilon(1e-12));
    // Of two that reach a target the cheaper, whatever their order; where none does, the best for its price.
    rule.few_days = true;
    rule.target = Probability::of(c.now.chance.value() + 0.2 * c.steps[0].gain);
    const StepCost dear{StepKind::rub_out, 0, minutes(20), grams(3), hours(48)}, cheap{StepKind::rub_out, 0, minutes(10), grams(3), hours(24)};
    for (const auto& steps : {std::vector{dear, cheap}, std::vector{cheap, dear}}) {
        const auto advice = coaching(belief, pan_goal(), steps, rule, only_rubbed);
        REQUIRE(advice.recommended.has_value());
        CHECK(in_minutes(advice.steps[*advice.recommended].cost.attention) == Approx(10));
    }
    rule.target = c.now.chance; // met by what is known already
    CHECK(coaching(belief, pan_goal(), {dear}, rule, only_rubbed).advice == CoachAdvice::target_met);
    rule.target.reset();
    rule.least_gain_per_minute = c.steps[0].gain / 10.0 * (1 + 1e-9);
    CHECK(coaching(belief, pan_goal(), {{StepKind::rub_out, 0, minutes(10), grams(3), {}}}, rule, only_rubbed).advice ==
          CoachAdvice::nothing_pays);
    rule.least_gain_per_minute = c.steps[0].gain / 10.0 * (1 - 1e-9);
    CHECK(coaching(belief, pan_goal(), {{StepKind::rub_out, 0, minutes(10), grams(3), {}}}, rule, only_rubbed).advice ==
          CoachAdvice::measure);
    rule.steps_done = rule.most_steps;
    CHECK(coaching(belief, pan_goal(), {{StepKind::rub_out, 0, minutes(10), grams(3), {}}}, rule, only_rubbed).advice ==
          CoachAdvice::steps_used_up);
}

TEST_CASE("the step that tells most is told apart from the one that pays most", "[unit]") {
    Coaching told;
    CHECK_FALSE(most_telling(told));
    for (const double value : {0.80, 0.91, 0.90})
        told.steps.push_back({{}, {}, Probability::of(value)});
    CHECK(most_telling(told) == std::size_t{1});
    CHECK(wants_patience(hours(49)));
    CHECK_FALSE(wants_patience(hours(48)));
}

TEST_CASE("what a maker lacks has the words of the command line", "[unit]") {
    CHECK(value_of_word<Shortage>("time") == Shortage::time);
    CHECK(value_of_word<Shortage>("powder") == Shortage::powder);
    CHECK(value_of_word<Shortage>("days") == Shortage::days);
    CHECK_FALSE(value_of_word<Shortage>("day"));
}
