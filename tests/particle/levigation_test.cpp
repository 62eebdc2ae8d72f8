#include "lakebound/particle/levigation.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/particle/size_fit.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {
Slurry slurry() {
    return {grams_per_cubic_centimetre(1.88), water_at(degrees_celsius(20)), VolumeFraction::of(0)};
}
PourOff pour(double cut_um, unsigned n) {
    const Slurry s = slurry();
    const Length h = millimetres(80);
    return {millimetres(100), h, settling_time(micrometres(cut_um), h, s.grain, s.fluid), n};
}
PassingCurve worked() {
    const double um[] = {45, 75, 106, 150, 250}, grams_below[] = {4.0, 8.9, 13.6, 17.2, 19.3};
    PassingCurve curve;
    for (int i = 0; i < 5; ++i)
        curve.points.push_back({micrometres(um[i]), MassFraction::of(grams_below[i] / 19.7)});
    return curve;
}
} // namespace

TEST_CASE("what one to four pour-offs carry over", "[reference]") {
    // Domain brief B.7 (own computation), h/H 0.8, in whole or tenth per cent, by Stokes' law;
    // drag, 0.6 % at the cut of 40 um, takes 0.1 % from the finest.
    const double half[] = {60, 84, 93.6, 97.4}, near[] = {29, 49, 64, 74}, nearer[] = {15, 28, 39, 48};
    for (unsigned n = 1; n <= 4; ++n) {
        CHECK(pour_off_recovery(micrometres(20), pour(40, n), slurry()) * 100 ==
              Approx(half[n - 1]).margin(.12));
        CHECK(pour_off_recovery(micrometres(32), pour(40, n), slurry()) * 100 ==
              Approx(near[n - 1]).margin(.55));
        CHECK(pour_off_recovery(micrometres(36), pour(40, n), slurry()) * 100 ==
              Approx(nearer[n - 1]).margin(.55));
        CHECK(pour_off_recovery(micrometres(40), pour(40, n), slurry()) == Approx(0).margin(1e-12));
        CHECK(pour_off_recovery(micrometres(80), pour(40, n), slurry()) == 0.0);
    }
}

TEST_CASE("pouring at once carries over the draw share of every size", "[identity]") {
    const auto classes = size_classes(worked(), micrometres(1), micrometres(400));
    for (unsigned n : {1u, 3u, 10u}) {
        const PourOff at_once{millimetres(100), millimetres(80), seconds(0), n};
        const double share = 1 - std::pow(0.2, n);
        for (const double um : {1.0, 45.0, 400.0})
            CHECK(pour_off_recovery(micrometres(um), at_once, slurry()) == Approx(share).epsilon(1e-12));
        const auto result = levigate(classes, at_once, slurry());
        CHECK(result.poured == Approx(share).epsilon(1e-12));
        for (double um = 2; um < 400; um *= 1.5) // size for size the same curve as before
            CHECK(poured_passing(result, micrometres(um)) ==
                  Approx(left_passing(result, micrometres(um))).epsilon(1e-9));
        // The whole column drawn: everything goes over, however little time.
        const PourOff all{millimetres(100), millimetres(100), seconds(0), n};
        CHECK(levigate(classes, all, slurry()).poured == Approx(1.0).epsilon(1e-12));
    }
}

TEST_CASE("levigation neither makes nor loses pigment", "[identity]") {
    const auto classes = size_classes(worked(), micrometres(2), micrometres(400));
    double last = 0.0;
    for (unsigned n = 1; n < 40; ++n) {
        const auto result = levigate(classes, pour(50, n), slurry());
        CHECK(result.poured + result.left == Approx(1.0).epsilon(1e-12));
        CHECK(result.poured >= last);
        last = result.poured;
        double before = 0.0;
        for (const auto& c : result.classes) {
            CHECK(c.poured >= 0.0);
            CHECK(c.left >= 0.0);
            CHECK(c.poured + c.left == Approx(c.of.share.value()).epsilon(1e-14));
        }
        for (double um = 1; um < 300; um *= 1.1) {
            const double p = poured_passing(result, micrometres(um));
            CHECK(p >= before);
            CHECK(p >= left_passing(result, micrometres(um)) - 1e-12); // what goes over is finer
            before = p;
        }
        CHECK(poured_passing(result, micrometres(75)) ==
              Approx(1.0).epsilon(1e-12)); // nothing above the class of the cut
    }
    // Many pour-offs end at all that is finer than the cut: 50 um lies in the 45 to 75 um class.
    const double below = 4.0 / 19.7 + 4.9 / 19.7 * std::log(50. / 45.) / std::log(75. / 45.);
    CHECK(levigate(classes, pour(50, 1000), slurry()).poured == Approx(below).epsilon(2e-3));
}

TEST_CASE("a fitted curve serves where the screens end", "[unit]") {
    const auto fit = fit_size(worked(), SizeModel::rosin_rammler);
    std::vector<Length> sizes;
    for (double um = 2; um < 400; um *= 1.3)
        sizes.push_back(micrometres(um));
    const auto curve = fitted_curve(fit, sizes);
    const auto by_fit = levigate(size_classes(curve, micrometres(1), micrometres(600)), pour(50, 3), slurry());
    const auto by_screens =
        levigate(size_classes(worked(), micrometres(1), micrometres(600)), pour(50, 3), slurry());
    // What lies below 45 um is spread otherwise, but it is a fifth of the charge either way.
    CHECK(by_fit.poured == Approx(by_screens.poured).margin(0.08));
    CHECK(by_fit.poured + by_fit.left == Approx(1.0).epsilon(1e-12));
    const Length falling[] = {micrometres(50), micrometres(20)};
    CHECK_THROWS_AS(fitted_curve(fit, falling), DomainError);
}

TEST_CASE("how many pour-offs", "[unit]") {
    CHECK(pours_for_recovery(micrometres(20), 0.97, pour(40, 1), slurry()) == 4);
    CHECK(pours_for_recovery(micrometres(20), 0.59, pour(40, 1), slurry()) == 1);
    CHECK(pours_for_recovery(micrometres(20), 0.0, pour(40, 1), slurry()) == 1);
    CHECK_THROWS_AS(pours_for_recovery(micrometres(40), 0.5, pour(40, 1), slurry()), DomainError);
    CHECK_THROWS_WITH(pours_for_recovery(micrometres(20), 1.0, pour(40, 1), slurry()), Catch::Contains("share to recover"));
    CHECK_THROWS_AS(pours_for_recovery(micrometres(20), -0.001, pour(40, 1), slurry()), DomainError);
    // Heat keeps grains of a micrometre afloat: the finest cut, and no thousandth below.
    const auto cut = [](double um) {
        return plan_levigation(micrometres(um), millimetres(120), millimetres(100), 1, slurry(), {minutes(2), minutes(1)});
    };
    CHECK_NOTHROW(cut(finest_cut_micrometres));
    CHECK_THROWS_AS(cut(finest_cut_micrometres * 0.9995), DomainError);
    CHECK_THROWS_AS(pours_for_recovery(micrometres(39.999), 0.99, pour(40, 1), slurry()), DomainError);
}

TEST_CASE("the clock of a levigation", "[unit]") {
    const auto plan = plan_levigation(micrometres(45), millimetres(120), millimetres(100), 3, slurry(),
                                      {minutes(2), minutes(1)});
    REQUIRE(plan.steps.size() == 3);
    const double wait = in_seconds(plan.how.wait);
    CHECK(wait == Approx(103.8).epsilon(1e-3)); // T19: 102.9 s by Stokes' law, and 0.8 % for drag
    CHECK(in_seconds(plan.steps[0].stirred) == Approx(120));
    CHECK(in_seconds(plan.steps[0].pour) == Approx(120 + wait));
    CHECK(in_seconds(plan.steps[2].pour) == Approx(3 * (120 + wait) + 2 * 60));
    CHECK(in_seconds(plan.elapsed) == Approx(3 * (180 + wait)));
    CHECK(in_minutes(plan.hands) == Approx(9));
}

TEST_CASE("levigation that cannot be is refused", "[errors]") {
    auto bad = pour(40, 1);
    bad.draw_depth = millimetres(110);
    CHECK_THROWS_AS(pour_off_recovery(micrometres(10), bad, slurry()), DomainError);
    bad = pour(40, 1);
    bad.wait = seconds(-1);
    CHECK_THROWS_AS(pour_off_recovery(micrometres(10), bad, slurry()), DomainError);
    bad = pour(40, 1);
    bad.pours = 0;
    CHECK_THROWS_AS(pour_off_recovery(micrometres(10), bad, slurry()), DomainError);
    CHECK_THROWS_AS(size_classes(worked(), micrometres(50), micrometres(400)), DomainError);
    CHECK_THROWS_AS(size_classes(worked(), micrometres(0), micrometres(400)), DomainError);
    CHECK_THROWS_AS(size_classes(worked(), micrometres(5), micrometres(200)), DomainError);
    Slurry light = slurry();
    light.grain = grams_per_cubic_centimetre(0.9);
    CHECK_THROWS_AS(pour_off_recovery(micrometres(10), pour(40, 1), light), DomainError);
}

TEST_CASE("the powder that makes a share of solids, solid or as open clumps", "[reference]") {
    // By hand: 2 % of 500 mL is 10 mL; solid at 1.88 g/cm3 it is 18.8 g. Clumps half of whose volume is water
    // hold half as much.
    Slurry s = slurry();
    s.solids = VolumeFraction::of(0.02);
    const auto solid = grams_per_cubic_centimetre(1.88);
    s.grain = solid;
    CHECK(in_grams(powder_in_volume(millilitres(500.0), solid, s)) == Approx(18.8).epsilon(1e-12));
    s.grain = 0.5 * (solid + s.fluid.density);
    CHECK(in_grams(powder_in_volume(millilitres(500.0), solid, s)) == Approx(9.4).epsilon(1e-12));
    s.grain = grams_per_cubic_centimetre(2.0);
    CHECK_THROWS_AS(powder_in_volume(millilitres(500.0), solid, s), DomainError);
}

TEST_CASE("all of the water may be poured off, and none of it from an empty vessel", "[unit]") {
    const Slurry slurry{grams_per_cubic_centimetre(1.88), water_at(degrees_celsius(20)), VolumeFraction::of(0.0)};
    const auto poured = [&](double total, double draw, unsigned pours) {
        return pour_off_recovery(micrometres(1), {millimetres(total), millimetres(draw), seconds(0), pours}, slurry);
    };
    CHECK(poured(80, 80, 1) == Approx(1.0).epsilon(1e-12));
    CHECK_THROWS_AS(poured(80, 80.1, 1), DomainError);
    CHECK_THROWS_AS(poured(0, 0, 1), DomainError);
    CHECK_THROWS_AS(poured(80, 0, 1), DomainError);
    CHECK_NOTHROW(poured(80, 60, 1000));
    CHECK_THROWS_AS(poured(80, 60, 1001), DomainError);
    CHECK_THROWS_AS(poured(80, 60, 0), DomainError);
}

TEST_CASE("a refused pour-off tells the figure in the maker's unit", "[errors]") {
    const auto with = [](auto change) {
        auto how = pour(40, 1);
        change(how);
        return told([&] { pour_off_recovery(micrometres(10), how, slurry()); });
    };
    CHECK(with([](PourOff& h) { h.total_depth = millimetres(0); }) == "depth of the vessel: 0 mm");
    CHECK(with([](PourOff& h) { h.total_depth = millimetres(-5); }) == "depth of the vessel: -5 mm");
    CHECK(with([](PourOff& h) { h.draw_depth = millimetres(110); }) == "depth poured off: 110 mm");
    CHECK(with([](PourOff& h) { h.draw_depth = millimetres(0); }).rfind("depth poured off: 0", 0) == 0);
    CHECK(with([](PourOff& h) { h.draw_depth = h.total_depth; }) == "taken");
    CHECK(with([](PourOff& h) { h.wait = seconds(-3); }) == "wait: -3 s");
    CHECK(with([](PourOff& h) { h.wait = seconds(0); }) == "taken");
    CHECK(with([](PourOff& h) { h.pours = 1001; }) == "number of pour-offs: 1001");
    CHECK(with([](PourOff& h) { h.pours = 1000; }) == "taken");
    CHECK(told([] { size_classes(worked(), micrometres(50), micrometres(400)); }) == "finest grain: 50 um");
    CHECK(told([] { size_classes(worked(), micrometres(0), micrometres(400)); }) == "finest grain: 0 um");
    CHECK(told([] { size_classes(worked(), micrometres(5), micrometres(200)); }) == "largest grain: 200 um");
    CHECK(told([] { size_classes(worked(), micrometres(5), micrometres(250)); }) == "largest grain: 250 um");
}

TEST_CASE("classes, curves and handling that cannot be are refused with their figure", "[errors]") {
    const auto share = MassFraction::of(1.0);
    const auto of_class = [&](double low, double high) {
        const std::vector<SizeClass> classes{{micrometres(low), micrometres(high), share}};
        return told([&] { (void)levigate(classes, pour(40, 1), slurry()); });
    };
    CHECK(of_class(10, 20) == "taken");
    CHECK(of_class(20, 20) == "upper size of a class: 20 um");
    CHECK(of_class(20, 10) == "upper size of a class: 10 um");
    CHECK(of_class(0, 20) == "upper size of a class: 20 um");
    // All that is finer than the cut went over; on the other side nothing has a curve.
    const std::vector<SizeClass> coarse{{micrometres(100), micrometres(200), share}};
    const auto none_over = levigate(coarse, pour(40, 1), slurry());
    CHECK(told([&] { (void)poured_passing(none_over, micrometres(150)); }) == "levigated grains: none");
    CHECK(left_passing(none_over, micrometres(200)) == Approx(1.0));
    CHECK(left_passing(none_over, micrometres(50)) == Approx(0.0).margin(1e-12)); // finer than any
    const auto powder = [&](double grain) {
        Slurry s = slurry();
        s.grain = grams_per_cubic_centimetre(grain);
        return told([&] { (void)powder_in_volume(millilitres(500.0), grams_per_cubic_centimetre(1.88), s); });
    };
    CHECK(powder(1.88) == "taken");
    CHECK(powder(0.99) == "grain density: 0.99 g/cm3");
    CHECK(powder(2.0) == "grain density: 2 g/cm3");
    const auto planned = [&](double fill, double pour_off) {
        return told([&] { (void)plan_levigation(micrometres(40), millimetres(100), millimetres(80), 2, slurry(), {minutes(fill), minutes(pour_off)}); });
    };
    CHECK(planned(0, 0) == "taken");
    CHECK(planned(-1, 0) == "time to fill and stir: -60 s");
    CHECK(planned(0, -1) == "time to pour: -60 s");
    // All the water poured off at once carries over every grain: one pour is enough.
    CHECK(pours_for_recovery(micrometres(10), 0.999, {millimetres(80), millimetres(80), seconds(0), 1}, slurry()) == 1);
    CHECK(told([&] { (void)pours_for_recovery(micrometres(10), 1.0, pour(40, 1), slurry()); }) == "share to recover: 1");
}

TEST_CASE("what was poured off a charge, and what was left, is told in masses", "[unit]") {
    Levigated result;
    result.poured = 0.6, result.left = 0.4;
    CHECK(in_grams(masses_of(result, grams(15)).poured) == Approx(9));
    CHECK(in_grams(masses_of(result, grams(15)).left) == Approx(6));
}
