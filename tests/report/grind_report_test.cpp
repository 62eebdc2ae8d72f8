#include <catch2/catch.hpp>

#include <algorithm>
#include <regex>
#include <sstream>

#include <nlohmann/json.hpp>

#include "lakebound/quantity/error.hpp"
#include "lakebound/report/grind_report.hpp"
#include "support/grinding_tests.hpp"
#include "support/page_width.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

TEST_CASE("Four screens and two times allow the population balance", "[unit]") {
    const auto answer = planned(grind_question({early(), late()}));
    CHECK(answer.model == GrindModel::population_balance);
    CHECK(answer.why_one_screen.empty());
    REQUIRE(answer.one_long_grind);
    CHECK(answer.one_long_grind->low < answer.one_long_grind->time);
    REQUIRE_FALSE(answer.ways.empty());
    CHECK(answer.forecast.front().time == minutes(5));
    // What was foreseen at the times of the tests lies near what was seen there.
    CHECK(answer.forecast[0].residue == Approx(answer.rows[0].residue.share.value()).margin(0.03));
    CHECK(answer.forecast[1].residue == Approx(answer.rows[1].residue.share.value()).margin(0.03));
    const auto text = grind_text(answer);
    // A guess from 0 to 5 has no hundredths.
    const std::regex slowing("divided\\s+by\\s+1\\s+\\+\\s+-?[0-9]+\\.[0-9]\\s+times\\s+the\\s+fine\\s+share\\s+"
                             "\\(-?[0-9]+\\.[0-9]\\s+to\\s+[0-9]+\\.[0-9],");
    CHECK(std::regex_search(text, slowing));
    check_page(text);
}

TEST_CASE("Tests on other screens, and a target that is no screen, fall back on one law and say so", "[unit]") {
    const auto other = planned(grind_question({early(), ground_test(15, {{250, 2.26}, {75, 9.06}}, 8.40)}));
    CHECK(other.model == GrindModel::one_screen);
    CHECK_THAT(grind_text(other), Contains("because the tests did not use the same screens"));
    const auto between = planned(grind_question({early(), late()}, 90.0));
    CHECK(between.model == GrindModel::one_screen);
    CHECK_THAT(grind_text(between), Contains("because the target is none of the screens"));
    check_page(grind_text(between));
}

TEST_CASE("Progress rises to the end and the answer repeats itself", "[identity]") {
    double last = 0.0;
    const auto first = grind_json(plan_grinding(grind_question({early(), late()}), [&](double share) {
        CHECK(share >= last - 1e-12);
        last = share;
    }));
    CHECK(last == Approx(1.0));
    CHECK(first == grind_json(planned(grind_question({late(), early()}))));
    CHECK(nlohmann::json::parse(first).at("kind") == "grinding_plan");
}

TEST_CASE("The plan says that the water carries the pigment, and what its times leave out", "[unit]") {
    auto asked = grind_question({early(), late()}, 45.0, 0.005);
    const auto answer = planned(asked);
    REQUIRE(answer.ways.front().separation.kind != ScreeningAdvice::dry_sieving);
    const auto text = grind_text(answer);
    CHECK_THAT(text, Contains("KEEP THE WATER: it carries the fine pigment") && Contains("into a pail") &&
                         Contains("without the settling and drying of the fine part"));
    CHECK(nlohmann::json::parse(grind_json(answer)).at("ways")[0].at("fine_part_in_water") == true);
    check_page(text);
    const auto coarse = planned(grind_question({early(), late()}, 106.0, 0.01));
    REQUIRE(coarse.ways.front().separation.kind == ScreeningAdvice::dry_sieving);
    CHECK_THAT(grind_text(coarse),
               Contains("What comes through is the pigment") && !Contains("KEEP THE WATER"));
}

TEST_CASE("The loss stands beside what a test saw", "[unit]") {
    auto weighed = late(); // 19.72 g recovered, 14.22 g over 45 um
    weighed.test.charge = grams(19.97);
    const auto answer = planned(grind_question({early(), weighed}, 45.0));
    REQUIRE(answer.rows.back().with_loss);
    CHECK(answer.rows.back().with_loss->low == Approx(14.22 / 19.97).epsilon(1e-9));
    CHECK(answer.rows.back().with_loss->high == Approx(14.47 / 19.97).epsilon(1e-9));
    const auto text = grind_text(answer);
    CHECK_THAT(text, Contains("72.1 %") && !Contains("72.11") &&
                         Contains("the 1.3 % lost") && Contains("could make it 71.2 to 72.5 %"));
    check_page(text);
}

TEST_CASE("The size asked for leads the advice at the slab", "[unit]") {
    MullQuestion asked{
        {{minutes(0), micrometres(60)}, {minutes(10), micrometres(38)}, {minutes(20), micrometres(27)}},
        micrometres(25), micrometres(2), minutes(10)};
    // By hand: the end is 16 um, 44 exp(-t/14.43 min) falls to 9 um after 22.9 min.
    const auto answer = plan_mulling(asked);
    REQUIRE(answer.more_to_target);
    CHECK(in_minutes(*answer.more_to_target) == Approx(3.0).epsilon(1e-9));
    const auto text = mull_text(answer);
    CHECK_THAT(text, Contains("DO THIS\n  Mull 3 min more, to 23 min in all: 25 um is reached then.") &&
                         !Contains("15 min more"));
    CHECK(nlohmann::json::parse(mull_json(answer)).at("more_to_target_min").get<double>() == Approx(3.0));
    asked.target = micrometres(30);
    CHECK_THAT(mull_text(plan_mulling(asked)), Contains("STOP: 30 um is reached."));
    asked.target = micrometres(8);
    const auto never = mull_text(plan_mulling(asked));
    CHECK(never.find("8 um IS OUT OF REACH") < never.find("Mull 15 min more"));
    check_page(never);
}
TEST_CASE("Slowing stands in the headline, and the forecast keeps its interval", "[unit]") {
    const auto answer = planned(grind_question({early(), late(), slow()}));
    REQUIRE(answer.slowing);
    const auto text = grind_text(answer);
    CHECK(text.find("IT IS SLOWING") < text.find("Wanted:"));
    CHECK_THAT(text, Contains("9 times in 10") && Contains("9 in 10"));
    const auto json = nlohmann::json::parse(grind_json(answer));
    CHECK(json.at("slowing") == true);
    CHECK(json.at("time_to_target").contains("interval"));
    check_page(text);
    CHECK_THAT(grind_text(planned(grind_question({early(), late()}))), !Contains("IT IS SLOWING"));
}

TEST_CASE("Rounds are a range, one weighing is asked for, and used when given", "[unit]") {
    const auto open = planned(grind_question({early(), late()}, 45.0, 0.005));
    REQUIRE(open.ways.front().needed);
    const auto asked = grind_text(open);
    CHECK_THAT(asked, Contains(" rounds in all, ") && Contains("Weigh what stays") && Contains("--stays \"... g after 2 rounds"));
    CHECK_THAT(asked, Contains("a dry screen lets 90 %") && Contains("a wet one 95 % (estimate)"));
    check_page(asked);
    auto weighed = grind_question({early(), late()}, 45.0, 0.005);
    weighed.say.weighed = WeighedStay{grams(4.0), 2, open.ways.front().plan.cycle, {}};
    const auto known = planned(weighed);
    const auto text = grind_text(known);
    CHECK_THAT(text, Contains("GO ON: ") && Contains("You weighed 4.0") && !Contains("Weigh what stays"));
    check_page(text);
    const auto json = nlohmann::json::parse(grind_json(known));
    CHECK(json.at("rounds_left").at("more").get<unsigned>() == known.rounds_left->more);
    CHECK(json.at("assumed").at("dry_efficiency").at("provenance").at("origin") == "estimate");
    CHECK(json.at("ways")[0].at("rounds_needed").at("low").get<unsigned>() == known.ways.front().needed->low);
}
