#include "lakebound/material/reading_answer.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace lakebound;

namespace {

const Instrument<Mass> fine_scale{grams(0.01), {}};
const DropCalibration fifty_drops{50, grams(1.81), fine_scale};
ReadingHabits habits_of(double repeat, double hand) { return {{repeat, 4.0, hand}, Share::of(0.005)}; }
const ReadingHabits at_home = habits_of(0.095, 0.05); // formulations/practice/home.yaml

RubOut in_drops(double pigment) { return {grams(pigment), 19.0, {}, fine_scale}; }
RubOut by_oil(double oil) { return {grams(100.0), 0.0, grams(oil), {grams(1e-6), {}}}; }
RubOutRead read_rub_outs(std::vector<RubOut> rub_outs, std::optional<DropCalibration> dropper = {},
                         const ReadingHabits& habits = at_home) {
    const auto answer = answer_reading({"Rub-out", RubOutSeries{std::move(rub_outs), std::move(dropper)}}, habits);
    CHECK(answer.name == "Rub-out");
    return std::get<RubOutRead>(answer.read);
}

} // namespace

TEST_CASE("each reading comes to the figure of its formula", "[reference]") {
    // By hand, in bench_readings_test.cpp: 68.78, 1.88193, 1.89, .35, 36.9 % and 63.1 %.
    CHECK(in_grams_per_100_grams(read_rub_outs({in_drops(1.0)}, fifty_drops).result.mean.value()) ==
          Approx(68.78).margin(5e-3));
    const Pyknometer bottle{grams(52.37), grams(3.02), grams(53.79), grams_per_cubic_centimetre(0.99705), fine_scale};
    const auto of_bottle = std::get<PyknometerRead>(answer_reading({"Bottle", bottle}, at_home).read);
    CHECK(in_grams_per_cubic_centimetre(of_bottle.density.value()) == Approx(1.88193).epsilon(1e-5));
    CHECK(of_bottle.air_dominates);
    auto shaky = bottle;
    shaky.scale = {grams(0.1), grams(0.1)};
    CHECK_FALSE(std::get<PyknometerRead>(answer_reading({"Bottle", shaky}, at_home).read).air_dominates);
    const Displacement syringe{grams(3.02), fine_scale, millilitres(6.0), millilitres(7.6), {millilitres(0.2), {}}};
    CHECK(in_grams_per_cubic_centimetre(
              std::get<DisplacementRead>(answer_reading({"Syringe", syringe}, at_home).read).density.value()) ==
          Approx(1.89).margin(0.005));
    const TappedFillReading fill{{millimetres(42), millimetres(50), {millimetres(1), {}}}, grams(24.2445), fine_scale};
    CHECK(in_grams_per_cubic_centimetre(
              std::get<TappedFillRead>(answer_reading({"Jar", fill}, at_home).read).tapped_density.value()) ==
          Approx(0.35).epsilon(1e-4));
    const DryingTest drying{grams(20.00), grams(30.00), grams(23.69), fine_scale};
    CHECK(std::get<MediumSolidsRead>(answer_reading({"Medium", MediumSolidsReading{drying}}, at_home).read)
              .non_volatile.value()
              .value() == Approx(0.369).epsilon(1e-9));
    CHECK(std::get<MoistureRead>(answer_reading({"Powder", MoistureReading{drying}}, at_home).read)
              .moisture.value()
              .value() == Approx(0.631).epsilon(1e-9));
    auto coarse = at_home;
    coarse.constant_within = Share::of(0.02);
    CHECK(std::get<MediumSolidsRead>(answer_reading({"Medium", MediumSolidsReading{drying}}, coarse).read)
              .constant_within.value() == Approx(0.02));
    CHECK(std::get<MoistureRead>(answer_reading({"Powder", MoistureReading{drying}}, coarse).read).constant_within.value() ==
          Approx(0.02));
}

TEST_CASE("a single rub-out tells what two more would bring, by the maker's own scatter", "[reference]") {
    // By hand: sqrt(.095^2/3 + .05^2) = .07422; of a steady hand with a strange end point sqrt(.02^2/3 + .10^2).
    const auto one = read_rub_outs({by_oil(75)});
    CHECK(one.after_two_more.value() == Approx(.07422).margin(2e-5));
    CHECK(one.end_point_leads);
    const auto steady = read_rub_outs({by_oil(75)}, {}, habits_of(.02, .10));
    CHECK(steady.after_two_more.value() == Approx(std::sqrt(.0004 / 3 + .01)).margin(2e-5));
    CHECK_FALSE(steady.end_point_leads);
    // The hand leads from half of the whole variance on: .06^2 against .0599^2 and .0601^2 of the rest.
    CHECK(read_rub_outs({by_oil(75)}, {}, habits_of(.06, .0590)).end_point_leads);
    CHECK_FALSE(read_rub_outs({by_oil(75)}, {}, habits_of(.06, .0615)).end_point_leads);
    // And two more that scatter as expected do bring it there.
    const double d = std::exp(.095);
    CHECK(read_rub_outs({by_oil(75), by_oil(75 * d), by_oil(75 / d)}).result.mean.relative_uncertainty() ==
          Approx(*one.after_two_more).margin(2e-4));
    CHECK_FALSE(read_rub_outs({by_oil(75), by_oil(76)}).after_two_more);
    CHECK_FALSE(read_rub_outs({by_oil(75), by_oil(76)}).end_point_leads);
    CHECK_THROWS_AS(uncertainty_after(one.result, -1), DomainError);
    CHECK_THROWS_AS(uncertainty_after({one.result.mean}, 1), DomainError);
    CHECK(uncertainty_after(one.result, 0) == Approx(one.result.mean.relative_uncertainty()).epsilon(1e-12));
}

TEST_CASE("a drop is weighed against the least heap that was rubbed", "[unit]") {
    // A drop of 36.2 mg is 3.02 g/100g on 1.20 g of pigment and 2.99 on 1.21 g.
    CHECK(read_rub_outs({in_drops(1.20)}, fifty_drops).drops_too_coarse);
    CHECK_FALSE(read_rub_outs({in_drops(1.21)}, fifty_drops).drops_too_coarse);
    const auto uneven = read_rub_outs({in_drops(1.21), in_drops(1.0), in_drops(1.4)}, fifty_drops);
    CHECK(uneven.drops_too_coarse);
    CHECK(100.0 * uneven.one_drop->value() == Approx(3.62).margin(5e-3));
    CHECK(in_grams(uneven.drop->value()) == Approx(0.0362).epsilon(1e-9));
    const auto weighed = read_rub_outs({by_oil(75)});
    CHECK_FALSE(weighed.drop);
    CHECK_FALSE(weighed.one_drop);
    CHECK_FALSE(weighed.drops_too_coarse);
}

TEST_CASE("a reading that is none is refused as by its formula", "[errors]") {
    CHECK_THROWS_AS(answer_reading({"Rub-out", RubOutSeries{}}, at_home), DomainError);
    CHECK_THROWS_AS(answer_reading({"Rub-out", RubOutSeries{{in_drops(0.0)}, fifty_drops}}, at_home), DomainError);
    const DryingTest grown{grams(20.00), grams(30.00), grams(33.69), fine_scale};
    CHECK_THROWS_AS(answer_reading({"Powder", MoistureReading{grown}}, at_home), DomainError);
}

TEST_CASE("one rub-out more shrinks the part of the doubt that repeating shrinks", "[reference]") {
    // By hand: of three readings 0.09 as a whole, of which the hand's own 0.06 is a third in each; five in all afterwards.
    RubOutResult three{Estimate<OilAbsorption>::lognormal(grams_per_100_grams(60), std::exp(0.09), {Origin::measured, "", false})};
    three.each = {grams_per_100_grams(58), grams_per_100_grams(60), grams_per_100_grams(62)};
    three.repeat_spread = 0.06;
    const double doubt = three.mean.relative_uncertainty();
    CHECK(doubt == Approx(0.09).epsilon(0.01));
    CHECK(uncertainty_after(three, 2) == Approx(std::sqrt(doubt * doubt - 0.0036 / 3 + 0.0036 / 5)).epsilon(1e-12));
    CHECK(uncertainty_after(three, 0) == Approx(doubt).epsilon(1e-12));
}
