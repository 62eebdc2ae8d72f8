#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include <nlohmann/json.hpp>

#include "lakebound/quantity/error.hpp"
#include "lakebound/report/grind_report.hpp"
#include "support/page_width.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

SieveRecord test_at(double minutes_ground, const std::vector<std::pair<double, double>>& kept, double pan) {
    SieveRecord record;
    record.name = "After " + std::to_string(static_cast<int>(minutes_ground)) + " min";
    record.grinding_time = minutes(minutes_ground);
    for (const auto& [um, g] : kept) {
        record.test.screens.push_back({micrometres(um), grams(g)});
        record.sieves.push_back({micrometres(um), SieveCloth::wire, "", {}});
    }
    record.test.pan = grams(pan);
    record.test.scale_step = grams(0.01);
    return record;
}
// Invented masses of one powder ground 5 and 15 minutes.
SieveRecord early() {
    return test_at(5, {{250, 5.56}, {150, 4.51}, {106, 3.09}, {75, 2.27}, {45, 1.94}}, 2.38);
}
SieveRecord late() {
    return test_at(15, {{250, 2.26}, {150, 3.27}, {106, 2.97}, {75, 2.82}, {45, 2.90}}, 5.50);
}

GrindQuestion question(std::vector<SieveRecord> tests, double um = 75.0, double residue = 0.01) {
    return {std::move(tests), plain_target(micrometres(um), MassFraction::of(residue)), {}};
}

GrindSubject answered(GrindQuestion asked) {
    return grind_subject(std::move(asked), [](double) {});
}

} // namespace

TEST_CASE("Four screens and two times allow the population balance", "[unit]") {
    const auto subject = answered(question({early(), late()}));
    CHECK(subject.model == GrindModel::population_balance);
    CHECK(subject.why_one_screen.empty());
    REQUIRE(subject.one_long_grind);
    CHECK(subject.one_long_grind->low < subject.one_long_grind->time);
    REQUIRE_FALSE(subject.ways.empty());
    CHECK(subject.forecast.front().time == minutes(5));
    // What was foreseen at the times of the tests lies near what was seen there.
    CHECK(subject.forecast[0].residue == Approx(subject.rows[0].residue.share.value()).margin(0.03));
    CHECK(subject.forecast[1].residue == Approx(subject.rows[1].residue.share.value()).margin(0.03));
    check_page(grind_text(subject));
}

TEST_CASE("Tests on other screens, and a target that is no screen, fall back on one law and say so", "[unit]") {
    const auto other = answered(question({early(), test_at(15, {{250, 2.26}, {75, 9.06}}, 8.40)}));
    CHECK(other.model == GrindModel::one_screen);
    CHECK_THAT(grind_text(other), Contains("because the tests did not use the same screens"));
    const auto between = answered(question({early(), late()}, 90.0));
    CHECK(between.model == GrindModel::one_screen);
    CHECK_THAT(grind_text(between), Contains("because the target is none of the screens"));
    check_page(grind_text(between));
}

TEST_CASE("A looser target never takes longer, nor a greater loss less powder through", "[identity]") {
    double last = 1e9;
    for (const double residue : {0.005, 0.01, 0.02, 0.05, 0.1}) {
        const auto subject = answered(question({early(), late()}, 75.0, residue));
        CHECK(in_minutes(subject.one_long_grind->time) < last);
        last = in_minutes(subject.one_long_grind->time);
    }
    auto none = question({early(), late()}), much = none;
    none.habits.loss = Share::of(0.0);
    much.habits.loss = Share::of(0.05);
    CHECK(answered(none).ways.front().plan.run.through > answered(much).ways.front().plan.run.through);
}

TEST_CASE("The recommended rounds are whole minutes and the least in hands", "[identity]") {
    const auto subject = answered(question({early(), late()}));
    for (const auto& way : subject.ways) {
        CHECK(way.plan.run.hands >= subject.ways.front().plan.run.hands);
        if (way.plan.in_rounds)
            CHECK(in_minutes(way.plan.cycle) == Approx(std::round(in_minutes(way.plan.cycle))).epsilon(1e-9));
    }
}

TEST_CASE("Progress rises to the end and the answer repeats itself", "[identity]") {
    double last = 0.0;
    const auto first = grind_json(grind_subject(question({early(), late()}), [&](double share) {
        CHECK(share >= last - 1e-12);
        last = share;
    }));
    CHECK(last == Approx(1.0));
    CHECK(first == grind_json(answered(question({late(), early()}))));
    CHECK(nlohmann::json::parse(first).at("kind") == "grinding_plan");
}

TEST_CASE("A target that no screen sees, and powder that grows coarser, are refused", "[errors]") {
    CHECK_THROWS_AS(answered(question({early(), late()}, 38.0)), DomainError);
    auto coarser = early();
    coarser.grinding_time = minutes(30);
    CHECK_THROWS_AS(answered(question({late(), coarser})), DomainError);
}

TEST_CASE("The plan says that the water carries the pigment, and what its times leave out", "[unit]") {
    auto asked = question({early(), late()}, 45.0, 0.005);
    const auto subject = answered(asked);
    REQUIRE(subject.ways.front().separation.name != "dry sieving");
    const auto text = grind_text(subject);
    CHECK_THAT(text, Contains("KEEP THE WATER: it carries the fine pigment") && Contains("into a pail") &&
                         Contains("without the settling and drying of the fine part"));
    CHECK(nlohmann::json::parse(grind_json(subject)).at("ways")[0].at("fine_part_in_water") == true);
    check_page(text);
    const auto coarse = answered(question({early(), late()}, 106.0, 0.01));
    REQUIRE(coarse.ways.front().separation.name == "dry sieving");
    CHECK_THAT(grind_text(coarse),
               Contains("What comes through is the pigment") && !Contains("KEEP THE WATER"));
}

TEST_CASE("Slowing leads the plan, and no nine in ten is promised", "[unit]") {
    auto slow = late(); // hardly finer after twice the time
    slow.grinding_time = minutes(30);
    slow.test.screens[0].retained = grams(1.9);
    slow.test.pan = grams(5.86);
    const auto subject = answered(question({early(), late(), slow}));
    REQUIRE(subject.slowing);
    const auto text = grind_text(subject);
    CHECK_THAT(text, Contains("DO THIS\n  IT IS SLOWING") && Contains("at least"));
    CHECK_THAT(text, !Contains("9 times in 10 between") && !Contains("9 in 10") && Contains("at the earliest"));
    for (const auto& row : subject.forecast)
        CHECK_FALSE(row.interval);
    const auto time = nlohmann::json::parse(grind_json(subject)).at("time_to_target");
    CHECK(time.at("at_least") == true);
    CHECK_FALSE(time.contains("interval"));
    check_page(text);
    const auto steady = nlohmann::json::parse(grind_json(answered(question({early(), late()}))));
    CHECK(steady.at("time_to_target").at("at_least") == false);
    CHECK(steady.at("time_to_target").contains("interval"));
}

TEST_CASE("The loss stands beside what a test saw", "[unit]") {
    auto weighed = late(); // 19.72 g recovered, 14.22 g over 45 um
    weighed.test.charge = grams(19.97);
    const auto subject = answered(question({early(), weighed}, 45.0));
    REQUIRE(subject.rows.back().with_loss);
    CHECK(subject.rows.back().with_loss->low == Approx(14.22 / 19.97).epsilon(1e-9));
    CHECK(subject.rows.back().with_loss->high == Approx(14.47 / 19.97).epsilon(1e-9));
    const auto text = grind_text(subject);
    CHECK_THAT(text, Contains("72.1 %") && !Contains("72.11") &&
                         Contains("the 1.3 % lost could make it 71.2 to 72.5 %"));
    check_page(text);
}

TEST_CASE("The size asked for leads the advice at the slab", "[unit]") {
    MullQuestion asked{
        {{minutes(0), micrometres(60)}, {minutes(10), micrometres(38)}, {minutes(20), micrometres(27)}},
        micrometres(25)};
    // By hand: the end is 16 um, 44 exp(-t/14.43 min) falls to 9 um after 22.9 min.
    const auto subject = mull_subject(asked);
    REQUIRE(subject.more_to_target);
    CHECK(in_minutes(*subject.more_to_target) == Approx(3.0).epsilon(1e-9));
    const auto text = mull_text(subject);
    CHECK_THAT(text, Contains("DO THIS\n  Mull 3 min more, to 23 min in all: 25 um is reached then.") &&
                         !Contains("15 min more"));
    CHECK(nlohmann::json::parse(mull_json(subject)).at("more_to_target_min").get<double>() == Approx(3.0));
    asked.target = micrometres(30);
    CHECK_THAT(mull_text(mull_subject(asked)), Contains("STOP: 30 um is reached."));
    asked.target = micrometres(8);
    const auto never = mull_text(mull_subject(asked));
    CHECK(never.find("8 um IS OUT OF REACH") < never.find("Mull 15 min more"));
    check_page(never);
}
