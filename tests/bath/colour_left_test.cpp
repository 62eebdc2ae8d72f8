#include "lakebound/bath/colour_left.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "usual_habits.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
const ColourHabits eye{sure(Share::of(.2)), sure(Share::of(.5)), sure(Share::of(.15))};
} // namespace

TEST_CASE("colour left is the dilution that matches, with the volumes", "[unit]") {
    // 1.5 L of clear liquor out of 1.0 L of dye liquor, as pale as one part in six: a quarter of the colour.
    const auto laid = second_laying({6.0}, litres(1.5), litres(1.0), eye);
    CHECK(laid.left.value() == Approx(.25));
    CHECK(laid.left_low.value() == Approx(.25 * std::exp(-1.64485 * .2)).epsilon(1e-4));
    CHECK(laid.left_high.value() == Approx(.25 * std::exp(1.64485 * .2)).epsilon(1e-4));
    // An even partition: 1/left = 1 + K A, so K A = 3; half as deep is 1 + K A2 = 2, A2 = A/3; it takes half of what is left.
    CHECK(laid.alumina.value() == Approx(1.0 / 3.0));
    CHECK(laid.colour.value() == Approx(.125));
    CHECK(laid.pays.value() > .97); // a sixth is asked for
}

TEST_CASE("the less is left the less pays a second laying", "[identity]") {
    double before = 1.0;
    for (const double dilution : {1.6, 3.0, 6.0, 12.0, 25.0, 100.0}) {
        const auto laid = second_laying({dilution}, litres(1.5), litres(1.0), eye);
        CHECK(laid.pays.value() <= before);
        before = laid.pays.value();
        // What goes down and what stays are less than all of it; the second lake is half as deep per alumina.
        const double left = laid.left.value(), first = (1 - left) / 1.0, second = laid.colour.value() / laid.alumina.value();
        CHECK(laid.colour.value() < left);
        if (laid.alumina.value() < 1.0) CHECK(second / first == Approx(.5).epsilon(1e-9));
        else CHECK(second / first > .5 - 1e-9);
    }
    CHECK(before < .01);
    // The chance is an even one where the second is just as large as asked for: left 1 / (1 + 1/.15).
    const double even = 1.0 / (1.0 + 1.0 / .15);
    CHECK(second_laying({1.5 / even}, litres(1.5), litres(1.0), eye).pays.value() == Approx(.5).margin(1e-6));
}

TEST_CASE("a match that cannot be is refused", "[errors]") {
    CHECK_THROWS_AS(second_laying({.5}, litres(1), litres(1), eye), DomainError);
    CHECK_THROWS_AS(second_laying({1.0}, litres(2.0), litres(1), eye), DomainError); // twice the colour that went in
    for (const auto& [clear, liquor] : {std::pair(0.0, 1.0), std::pair(1.0, 0.0), std::pair(-1.0, 1.0), std::pair(1.0, -1.0)})
        CHECK_THROWS_WITH(second_laying({2.0}, litres(clear), litres(liquor), eye), Catch::Contains("volume of the liquor"));
    CHECK_THROWS_AS(second_laying({1000.1}, litres(1), litres(1), eye), DomainError);
    CHECK_NOTHROW(second_laying({1000.0}, litres(1), litres(1), eye));
    CHECK_NOTHROW(second_laying({1.0}, litres(1.3), litres(1), eye)); // what an eye may miss
}

TEST_CASE("an eye without doubt knows whether a second laying pays", "[unit]") {
    auto sharp = eye;
    sharp.matched_to = Estimate<Share>::exact(Share::of(0), {});
    const double even = 1.0 / (1.0 + 1.0 / .15); // as above
    CHECK(second_laying({1.0 / (even * 1.001)}, litres(1), litres(1), sharp).pays.value() == Approx(1));
    CHECK(second_laying({1.0 / (even * .999)}, litres(1), litres(1), sharp).pays.value() == Approx(0).margin(1e-12));
}
