#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include <nlohmann/json.hpp>

#include "lakebound/quantity/error.hpp"
#include "lakebound/report/grind_report.hpp"

using namespace lakebound;
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

void check_page(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; }) <= 80);
    }
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
