#include "lakebound/record/poured.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"
#include "record/stated_priors.hpp"
#include "support/seven_grams.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::test;

namespace {

PouredQuestion seven_grams(double poured) { return testing::seven_grams_planned(poured, pan_window()); }

} // namespace

TEST_CASE("What was poured besides is binder, gram for gram", "[unit]") {
    // By hand: k = 7.0 x .88/3/1.42 / (2 x .65/.93) = 1.0344; 7.9 g make 1.1674.
    const auto answer = poured_answer(seven_grams(7.9));
    CHECK(answer.planned.value() == Approx(7.0 * 0.88 / 3 / 1.42 / (2 * 0.65 / 0.93)).epsilon(1e-9));
    CHECK(answer.now.value() == Approx(answer.planned.value() * 7.9 / 7.0).epsilon(1e-9));
    // As poured, nothing changed.
    const auto same = poured_answer(seven_grams(7.0));
    CHECK(same.now.value() == Approx(same.planned.value()).epsilon(1e-12));
    CHECK(same.in_window_now.value() == Approx(same.in_window_planned.value()).margin(1e-12));
}

TEST_CASE("Too much medium wants powder, as much as brings the window back; a trifle is left", "[unit]") {
    const auto rich = poured_answer(seven_grams(14.0));
    CHECK_FALSE(rich.leave_it);
    CHECK(rich.rescue.action == RescueAction::add_pigment);
    // The middle of the window in logarithms is 1.470: 2 g x k/1.470.
    CHECK(in_grams(rich.rescue.pigment) == Approx(2.0 * (rich.now.value() / std::sqrt(1.2 * 1.8) - 1.0)).epsilon(1e-6));
    CHECK(rich.in_window_then.value() > rich.in_window_now.value() + worth_adding.value());
    const auto lean = poured_answer(seven_grams(5.0));
    CHECK(lean.rescue.action == RescueAction::add_medium);
    CHECK(poured_answer(seven_grams(9.9)).leave_it); // k 1.46
    // A jar that drinks more makes less of the same medium.
    auto thirsty = seven_grams(9.9);
    thirsty.demand_over_library = 1.3;
    CHECK(poured_answer(thirsty).now.value() == Approx(poured_answer(seven_grams(9.9)).now.value() / 1.3).epsilon(1e-9));
    auto empty = seven_grams(14.0);
    empty.jar = JarLeft{grams(0.3), grams(0.1)};
    CHECK_FALSE(poured_answer(empty).rescue.jar_holds_enough);
    CHECK_THROWS_AS(poured_answer(seven_grams(0.0)), DomainError);
}

TEST_CASE("A binder that reaches only part of the voids is told by its index", "[reference]") {
    // By hand, e .85 as yolk: k = .85 x 7.0 x .88/3/1.42 / (2 x .65/.93 x 1.2), and for 7.9 g so much more.
    auto q = seven_grams(7.9);
    q.paint.binder_index = BinderIndex::of(0.85);
    q.planned_library_k = library_k(q.paint, q.powder, q.planned * q.paint.binder_per_medium);
    q.demand_over_library = 1.2;
    const double planned = 0.85 * 7.0 * 0.88 / 3 / 1.42 / (2 * 0.65 / 0.93 * 1.2);
    CHECK(poured_answer(q).planned.value() == Approx(planned).epsilon(1e-9));
    CHECK(poured_answer(q).now.value() == Approx(planned * 7.9 / 7.0).epsilon(1e-9));
    const auto told_of = [&](auto change) {
        auto bad = q;
        change(bad);
        return told([&] { poured_answer(bad); });
    };
    CHECK(told_of([](auto& x) { x.powder = grams(0); }) == "powder of the batch: 0 g");
    CHECK(told_of([](auto& x) { x.planned = grams(-2); }) == "medium of the sheet: -2 g");
    CHECK(told_of([](auto& x) { x.poured = grams(HUGE_VAL); }).rfind("medium poured", 0) == 0);
    CHECK(told_of([](auto& x) { x.powder = grams(0.5), x.planned = grams(0.5), x.poured = grams(0.5); }) == "taken");
}

TEST_CASE("What more came out of the jar, and what a swatch of the mended paint holds", "[identity]") {
    for (const double poured : {5.0, 7.0, 14.0}) {
        const auto answer = poured_answer(seven_grams(poured));
        INFO(poured);
        CHECK(in_grams(answer.more_powder) == Approx(in_grams(answer.mixed_powder) - 2.0).margin(1e-12));
        CHECK(answer.swatch_medium / grams(0.20) == Approx(double(answer.mixed_medium / answer.mixed_powder)).epsilon(1e-12));
        CHECK((answer.more_powder.value() > 0.0) == (poured > 7.9));
    }
}

TEST_CASE("What is poured besides is mended from a point in a hundred of chance on", "[unit]") {
    int left = 0, mended = 0, near_the_point = 0;
    for (double poured = 4.0; poured < 16.0; poured += 0.004) {
        const auto answer = poured_answer(seven_grams(poured));
        const double gain = answer.in_window_then.value() - answer.in_window_now.value();
        CAPTURE(poured, gain);
        CHECK(answer.leave_it == (answer.rescue.action == RescueAction::none || gain < 0.01));
        (answer.leave_it ? left : mended) += 1;
        near_the_point += std::abs(gain - 0.01) < 0.002 ? 1 : 0;
        // What is mixed in the end: as it is where it is left, else with what is added.
        const bool powder = !answer.leave_it && answer.rescue.action == RescueAction::add_pigment;
        const bool medium = !answer.leave_it && answer.rescue.action == RescueAction::add_medium;
        CHECK(in_grams(answer.mixed_powder) == Approx(2.0 + (powder ? in_grams(answer.rescue.pigment) : 0.0)).epsilon(1e-12));
        CHECK(in_grams(answer.mixed_medium) == Approx(poured + (medium ? in_grams(answer.rescue.medium) : 0.0)).epsilon(1e-12));
    }
    CHECK(left > 100);
    CHECK(mended > 100);
    CHECK(near_the_point > 4);
}
