#include "lakebound/paint/sweep_answer.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "support/example_paint.hpp"

namespace {

using namespace lakebound;
using Catch::Contains;

PvcQuestion of_one_lake(Process process = Process::oil, double k = 1.35) {
    PvcQuestion asked;
    asked.request = lakebound::testing::example_request(process);
    asked.request.recipe.vessel.reset();
    asked.request.aim = BinderSufficiency::of(k);
    asked.pigment = grams(10.0);
    asked.title = "10.0 g";
    return asked;
}
/// Lake of 2 um and chalk of 6 um, 7 to 3.
PvcQuestion lake_with_chalk() {
    auto asked = of_one_lake();
    auto& pigments = asked.request.recipe.pigments;
    pigments.front().share = MassFraction::of(0.7);
    pigments.front().pigment.median_size = Estimate<Length>::exact(micrometres(2.0), lakebound::testing::measured());
    auto chalk = pigments.front();
    chalk.pigment.id = "chalk";
    chalk.pigment.name = "Chalk";
    chalk.pigment.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.70), lakebound::testing::library());
    chalk.pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(18.0), 1.1, lakebound::testing::library());
    chalk.pigment.median_size = Estimate<Length>::exact(micrometres(6.0), lakebound::testing::measured());
    chalk.share = MassFraction::of(0.3);
    pigments.push_back(chalk);
    asked.with_packing = true;
    return asked;
}
const std::vector<double>& curve(const SweepAnswer& answer, SweepFigure figure) {
    for (const auto& each : answer.curves)
        if (each.figure == figure) return each.values;
    FAIL("no curve of " << word_of(figure));
    return answer.curves.front().values;
}
bool shows(const SweepAnswer& answer, SweepFigure figure) {
    return std::any_of(answer.curves.begin(), answer.curves.end(), [&](const auto& each) { return each.figure == figure; });
}

} // namespace

TEST_CASE("a sweep over the extender gives the paint's own figures at its own share", "[identity]") {
    const auto subject = pvc_subject(lake_with_chalk());
    const auto answer = sweep_paint(subject, {SweepOver::extender, 0.0, 0.6, 3});
    const auto& batch = subject.batch();
    CHECK(curve(answer, SweepFigure::extender_mass_fraction) == std::vector<double>{0.0, 0.3, 0.6});
    CHECK(curve(answer, SweepFigure::k)[1] == Approx(1.35).epsilon(1e-9));
    CHECK(curve(answer, SweepFigure::pvc)[1] == Approx(batch.film.pvc.value()).epsilon(1e-9));
    // Binder that just fills, by hand: 68.78 and 18 g of oil of .93 to 100 g, by mass of the two.
    const auto& fills = curve(answer, SweepFigure::binder_demand);
    CHECK(fills[0] == Approx(0.6878 / 0.93).epsilon(1e-9));
    CHECK(fills[1] == Approx((0.7 * 0.6878 + 0.3 * 0.18) / 0.93).epsilon(1e-9));
    CHECK(fills[2] == Approx((0.4 * 0.6878 + 0.6 * 0.18) / 0.93).epsilon(1e-9));
    // The binder is as it is: k times what fills is the same all along.
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(curve(answer, SweepFigure::k)[i] * fills[i] == Approx(1.35 * fills[1]).epsilon(1e-9));
}

TEST_CASE("over the size of its grains an extender saves more the less it is like the pigment", "[identity]") {
    const auto subject = pvc_subject(lake_with_chalk());
    const auto answer = sweep_paint(subject, {SweepOver::size_ratio, 1.0, 31.0, 4});
    CHECK(curve(answer, SweepFigure::size_ratio) == std::vector<double>{1.0, 11.0, 21.0, 31.0});
    const auto &additive = curve(answer, SweepFigure::additive_cpvc), &possible = curve(answer, SweepFigure::possible_cpvc),
               &saving = curve(answer, SweepFigure::possible_saving);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(additive[i] == Approx(additive[0]).epsilon(1e-12)); // knows no sizes
        CHECK(possible[i] >= additive[i] * (1.0 - 1e-9));
        if (i > 0) CHECK(saving[i] > saving[i - 1]);
    }
    CHECK(saving[0] == Approx(0.0).margin(1e-9)); // grains of one size pack as either does
}

TEST_CASE("a curve over two pigments wants two, and what is known of them", "[errors]") {
    auto three = lake_with_chalk();
    three.request.recipe.pigments.push_back(three.request.recipe.pigments.back());
    for (auto& part : three.request.recipe.pigments)
        part.share = MassFraction::of(1.0 / 3.0);
    for (const auto over : {SweepOver::extender, SweepOver::size_ratio}) {
        CHECK_THROWS_WITH(sweep_paint(pvc_subject(three), {over, 1.0, 2.0, 3}), Contains("two, the second the extender"));
        CHECK_THROWS_WITH(sweep_paint(pvc_subject(of_one_lake()), {over, 1.0, 2.0, 3}), Contains("two, the second"));
        auto unknown = lake_with_chalk();
        unknown.density_known = false;
        CHECK_THROWS_WITH(sweep_paint(pvc_subject(unknown), {over, 0.1, 0.2, 3}), Contains("density and oil absorption"));
    }
    auto without = of_one_lake();
    without.oil_absorption_known = false;
    CHECK_THROWS_WITH(sweep_paint(pvc_subject(without), {SweepOver::medium, 1.0, 2.0, 3}), Contains("oil absorption"));
}

TEST_CASE("a sweep has two points at least, and as many as its room allows", "[errors]") {
    const auto subject = pvc_subject(lake_with_chalk());
    const auto of = [&](SweepOver over, std::size_t points) { return sweep_paint(subject, {over, 0.5, 1.0, points}); };
    for (const auto over : {SweepOver::medium, SweepOver::extender, SweepOver::size_ratio}) {
        CHECK_THROWS_AS(of(over, 1), DomainError);
        CHECK(of(over, 2).curves.front().values.size() == 2);
    }
    CHECK(of(SweepOver::size_ratio, 10'000).curves.front().values.size() == 10'000);
    CHECK_THROWS_AS(of(SweepOver::size_ratio, 10'001), DomainError);
    CHECK_NOTHROW(of(SweepOver::medium, 10'001));
    // One place is a range of no width.
    CHECK(sweep_paint(subject, {SweepOver::medium, 1.0, 1.0, 2}).curves.front().values == std::vector<double>{1.0, 1.0});
}

TEST_CASE("what is swept where no range is named", "[unit]") {
    const auto subject = pvc_subject(of_one_lake());
    const double now = subject.batch().formulation.medium_per_pigment.value();
    const auto medium = usual_range(SweepOver::medium, subject);
    CHECK(medium.from == Approx(now / 4).epsilon(1e-12));
    CHECK(medium.to == Approx(2 * now).epsilon(1e-12));
    CHECK(medium.points == 8); // a quarter of the paint's medium to a step: the paint itself is among them
    CHECK(curve(sweep_paint(subject, medium), SweepFigure::k)[3] == Approx(1.35).epsilon(1e-9));
    const auto extender = usual_range(SweepOver::extender, subject), ratio = usual_range(SweepOver::size_ratio, subject);
    CHECK(extender.from == Approx(0.0).margin(1e-15));
    CHECK(extender.to == Approx(1.0));
    CHECK(extender.points == 11);
    CHECK(ratio.from == Approx(1.0));
    CHECK(ratio.to == Approx(30.0));
    CHECK(ratio.points == 11);
}

TEST_CASE("a sweep over the medium through the paint itself gives the paint's own figures", "[identity]") {
    const auto subject = pvc_subject(of_one_lake(Process::watercolour, 1.4));
    const double medium = subject.batch().formulation.medium_per_pigment.value();
    const auto answer = sweep_paint(subject, {SweepOver::medium, medium, 2.0 * medium, 3});
    REQUIRE(answer.curves.size() == 6);
    CHECK(answer.over == SweepOver::medium);
    CHECK(answer.paint == "10.0 g");
    CHECK(answer.curves.front().figure == SweepFigure::medium_per_pigment);
    CHECK(curve(answer, SweepFigure::k)[0] == Approx(1.4).epsilon(1e-9));
    CHECK(curve(answer, SweepFigure::pvc)[0] == Approx(subject.batch().film.pvc.value()).epsilon(1e-9));
    CHECK(curve(answer, SweepFigure::chance_underbound)[0] ==
          Approx(subject.base.judgement->chances.underbound.value()).margin(1e-9));
    CHECK(curve(answer, SweepFigure::k)[2] > curve(answer, SweepFigure::k)[0]);
    CHECK(answer.here.value() == Approx(medium).epsilon(1e-12));
    CHECK(answer.k_here->value() == Approx(1.4).epsilon(1e-9));
    REQUIRE(answer.window);
    CHECK(answer.window->green_low == subject.family().window.green_low);
    const auto beyond = sweep_paint(subject, {SweepOver::medium, 1.5 * medium, 2.0 * medium, 3});
    CHECK_FALSE(beyond.here);
    CHECK_FALSE(beyond.k_here);
    CHECK_FALSE(sweep_paint(pvc_subject(lake_with_chalk()), {SweepOver::size_ratio, 1.0, 2.0, 2}).window);
    CHECK_THROWS_AS(sweep_paint(subject, {SweepOver::medium, 2.0, 1.0, 3}), DomainError);
    CHECK_THROWS_AS(sweep_paint(subject, {SweepOver::medium, 1.0, 2.0, 1'000'001}), DomainError);
}

TEST_CASE("without a density a sweep has no concentration by volume", "[unit]") {
    auto unknown = of_one_lake();
    unknown.density_known = false;
    const auto answer = sweep_paint(pvc_subject(unknown), {SweepOver::medium, 0.5, 1.0, 2});
    for (const auto figure : {SweepFigure::pvc, SweepFigure::cpvc, SweepFigure::reduced_pvc})
        CHECK_FALSE(shows(answer, figure));
    CHECK(shows(answer, SweepFigure::k));
    CHECK(shows(answer, SweepFigure::chance_underbound));
}

TEST_CASE("what is swept has the words of the command line", "[unit]") {
    CHECK(value_of_word<SweepOver>("size-ratio") == SweepOver::size_ratio);
    CHECK(value_of_word<SweepOver>("medium") == SweepOver::medium);
    CHECK_FALSE(value_of_word<SweepOver>("size_ratio"));
    CHECK(key_of(SweepFigure::binder_demand) == "binder_demand_ml_per_g");
}

TEST_CASE("a sweep over sizes ends where it was asked to end, to the last digit", "[identity]") {
    const auto subject = pvc_subject(lake_with_chalk());
    int rounded = 0;
    for (std::size_t points = 2; points < 60; ++points)
        for (const double to : {1.7, 3.3, 30.0}) {
            const auto answer = sweep_paint(subject, {SweepOver::size_ratio, 1.1, to, points});
            const auto& ratios = curve(answer, SweepFigure::size_ratio);
            REQUIRE(ratios.size() == points);
            CHECK(ratios.front() == 1.1);
            CHECK(ratios.back() == to);
            const double step = (to - 1.1) / static_cast<double>(points - 1);
            for (std::size_t i = 0; i < points; ++i)
                CHECK(ratios[i] == Approx(1.1 + step * static_cast<double>(i)).epsilon(1e-13));
            if (1.1 + step * static_cast<double>(points - 1) != to) ++rounded;
        }
    CHECK(rounded > 3); // or this shows nothing
}
