#include "lakebound/record/learning_habits.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

namespace {

LearningHabits unlike_each_other() {
    LearningHabits h;
    for (std::size_t i = 0; i < 3; ++i) {
        h.binders[i].kind.step_spread = 0.1 * static_cast<double>(i + 1);
        h.binders[i].drying = hours(10.0 * static_cast<double>(i + 1));
    }
    h.priors.plant_spread = 0.31;
    h.rub_out = minutes(11);
    h.solids_test = minutes(12);
    h.one_swatch = minutes(13);
    h.two_swatches = minutes(14);
    h.four_swatches = minutes(15);
    h.solids_waiting = hours(7);
    h.rub_out_powder = grams(2);
    h.minutes_for_a_day = 60;
    h.minutes_for_a_gram = 5;
    return h;
}

} // namespace

TEST_CASE("the world of a maker has her families' kinds and edges", "[unit]") {
    Family tempera, pans;
    tempera.process = Process::egg_tempera;
    tempera.window.amber_low = BinderSufficiency::of(0.7);
    tempera.window.amber_high = BinderSufficiency::of(1.5);
    pans.process = Process::watercolour;
    pans.window.amber_low = BinderSufficiency::of(1.0);
    pans.window.amber_high = BinderSufficiency::of(2.4);
    const DemandWorld world = demand_world(unlike_each_other(), {tempera, pans});
    CHECK(world.priors.plant_spread == Approx(0.31));
    REQUIRE(world.kinds.size() == 3);
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(world.kinds[i].step_spread == Approx(0.1 * static_cast<double>(i + 1)));
    REQUIRE(world.families.size() == 2);
    CHECK(world.families[0].kind == static_cast<std::size_t>(Process::egg_tempera));
    CHECK(world.families[1].kind == static_cast<std::size_t>(Process::watercolour));
    CHECK(world.families[1].lean.value() == Approx(1.0));
    CHECK(world.families[1].rich.value() == Approx(2.4));
}

TEST_CASE("what a maker is short of weighs, and nothing else", "[unit]") {
    const LearningHabits h = unlike_each_other();
    CoachRule time, powder, days;
    save(Shortage::time, h, time);
    CHECK(time.minutes_per_day == Approx(0.0).margin(1e-300));
    CHECK(time.minutes_per_gram == Approx(0.0).margin(1e-300));
    CHECK_FALSE(time.few_days);
    save(Shortage::powder, h, powder);
    CHECK(powder.minutes_per_gram == Approx(5));
    CHECK(powder.minutes_per_day == Approx(0.0).margin(1e-300));
    CHECK_FALSE(powder.few_days);
    save(Shortage::days, h, days);
    CHECK(days.minutes_per_day == Approx(60));
    CHECK(days.minutes_per_gram == Approx(0.0).margin(1e-300));
    CHECK(days.few_days);
}

TEST_CASE("every step costs what the habits say of it", "[unit]") {
    const auto costs = step_costs(unlike_each_other(), Process::egg_tempera, grams(0.3));
    struct Row {
        StepKind kind;
        std::size_t swatches;
        double minutes, grams, hours;
    };
    const Row rows[] = {{StepKind::rub_out, 0, 11, 2, 0}, {StepKind::solids_test, 0, 12, 0, 7},
                        {StepKind::swatches, 1, 13, 0.3, 10.0 * (1 + int(Process::egg_tempera))},
                        {StepKind::swatches, 2, 14, 0.6, 10.0 * (1 + int(Process::egg_tempera))},
                        {StepKind::swatches, 4, 15, 1.2, 10.0 * (1 + int(Process::egg_tempera))}};
    REQUIRE(costs.size() == 5);
    for (std::size_t i = 0; i < 5; ++i) {
        CAPTURE(i);
        CHECK(costs[i].kind == rows[i].kind);
        CHECK(costs[i].swatches == rows[i].swatches);
        CHECK(in_minutes(costs[i].attention) == Approx(rows[i].minutes));
        CHECK(in_grams(costs[i].pigment) == Approx(rows[i].grams).margin(1e-12));
        CHECK(in_hours(costs[i].waiting) == Approx(rows[i].hours).margin(1e-12));
    }
}
