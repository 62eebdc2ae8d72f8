// Passing curves at their ends and limits: percentiles, models, what is carried on below the screens and between them.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "lakebound/particle/extended_curve.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/particle/levigation.hpp"
#include "lakebound/particle/size_distribution.hpp"
#include "lakebound/particle/size_fit.hpp"
#include "support/powder_habits.hpp"
#include "support/sieved.hpp"
#include "support/whole_refusal.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

SizeFit fit_of(SizeModel model, double um, double slope, double finest, double coarsest) {
    SizeFit fit;
    fit.model = model;
    fit.size = micrometres(um), fit.slope = slope;
    fit.finest = micrometres(finest), fit.coarsest = micrometres(coarsest);
    return fit;
}
SieveAnalysis analysis_of(const std::vector<std::pair<double, double>>& um_and_grams, double pan, double step = 0.0, double charge = 0.0) {
    SieveTest test;
    for (const auto& [um, g] : um_and_grams)
        test.screens.push_back({micrometres(um), grams(g)});
    test.pan = grams(pan);
    if (step > 0.0) test.scale_step = grams(step);
    if (charge > 0.0) test.charge = grams(charge);
    return analyse(test);
}
constexpr SizeModel every_model[] = {SizeModel::rosin_rammler, SizeModel::gates_gaudin_schuhmann, SizeModel::lognormal};

} // namespace

TEST_CASE("a curve that cannot be is told with its figure", "[errors]") {
    const auto checked = [](const std::vector<std::pair<double, double>>& points) {
        return whole_refusal([&] { check_curve(curve_of(points)); });
    };
    CHECK(checked({}) == "size curve is no point; valid: one point at least");
    CHECK(checked({{-45, .2}, {75, .3}}) == "size on the passing curve is -45 um; valid: above 0");
    CHECK(checked({{0, .2}, {75, .3}}) == "size on the passing curve is 0 um; valid: above 0");
    CHECK(checked({{45, .2}, {45, .3}}) == "size on the passing curve is 45 um; valid: coarser than the point before it, 45 um");
    CHECK(checked({{75.12345, .2}, {45, .3}}) == "size on the passing curve is 45 um; valid: coarser than the point before it, 75.123 um");
    CHECK(checked({{45, .5}, {75, .25}}) == "passing on the curve is 0.25; valid: never less than at a finer size");
    CHECK(checked({{45, .5}, {75, .5}}) == "taken");
    const auto curve = curve_of({{45, 1e-4}, {75, .5}, {150, .9}});
    const auto at = [&](double p) { return whole_refusal([&] { (void)percentile(curve, MassFraction::of(p)); }); };
    CHECK(at(0) == "percentile is 0 %; valid: above 0 and below 100 %");
    CHECK(at(1) == "percentile is 100 %; valid: above 0 and below 100 %");
    CHECK(at(5e-4) == "taken");
    CHECK(whole_refusal([] { (void)percentile(curve_of({{75, .3}}), MassFraction::of(.5)); }) ==
          "size curve is one screen; valid: two screens at least; one screen gives its residue, not a curve; sieve over a second screen");
    CHECK(whole_refusal([&] { (void)passing_at(curve, micrometres(-1)); }) == "size is -1 um; valid: above 0");
    CHECK(whole_refusal([&] { (void)passing_at(curve, micrometres(0)); }) == "size is 0 um; valid: above 0");
}

TEST_CASE("percentiles between, at and beyond the points", "[reference]") {
    const auto curve = curve_of({{20, .05}, {45, .2}, {75, .2}, {106, .6}, {150, .95}});
    const auto um = [&](double p) { return in_micrometres(percentile(curve, MassFraction::of(p)).size); };
    const auto between = [](double a, double b, double share) { return a * std::pow(b / a, share); };
    CHECK(um(.05) == Approx(20).epsilon(1e-12));
    CHECK(um(.125) == Approx(between(20, 45, 0.5)).epsilon(1e-12));
    CHECK(um(.2) == Approx(45).epsilon(1e-12)); // the finest at which so much passes
    CHECK(um(.3) == Approx(between(75, 106, 0.25)).epsilon(1e-12));
    CHECK(um(.6) == Approx(106).epsilon(1e-12));
    CHECK(um(.95) == Approx(150).epsilon(1e-12));
    CHECK(um(.04) == Approx(20).epsilon(1e-12));
    CHECK(um(.96) == Approx(150).epsilon(1e-12));
    CHECK(percentile(curve, MassFraction::of(.04)).reach == Reach::below_finest);
    CHECK(percentile(curve, MassFraction::of(.05)).reach == Reach::within);
    CHECK(percentile(curve, MassFraction::of(.95)).reach == Reach::within);
    CHECK(percentile(curve, MassFraction::of(.96)).reach == Reach::above_coarsest);
    CHECK(in_micrometres(percentile(curve_of({{45, .2}, {75, .2}, {106, .9}}), MassFraction::of(.2)).size) == Approx(45).epsilon(1e-12));
    const auto four = percentiles(curve);
    CHECK(in_micrometres(four.d10.size) == Approx(between(20, 45, 1.0 / 3)).epsilon(1e-12));
    CHECK(in_micrometres(four.d50.size) == Approx(between(75, 106, 0.75)).epsilon(1e-12));
    CHECK(in_micrometres(four.d80.size) == Approx(between(106, 150, 0.2 / 0.35)).epsilon(1e-12));
    CHECK(in_micrometres(four.d90.size) == Approx(between(106, 150, 0.3 / 0.35)).epsilon(1e-12));
    CHECK(four.span.value() ==
          Approx((between(106, 150, 0.3 / 0.35) - between(20, 45, 1.0 / 3)) / between(75, 106, 0.75)).epsilon(1e-12));
    const auto passing = [&](double size) { return passing_at(curve, micrometres(size)); };
    CHECK(passing(30).passing.value() == Approx(.05 + .15 * std::log(30. / 20) / std::log(45. / 20)).epsilon(1e-12));
    CHECK(passing(60).passing.value() == Approx(.2).epsilon(1e-12));
    CHECK(passing(120).passing.value() == Approx(.6 + .35 * std::log(120. / 106) / std::log(150. / 106)).epsilon(1e-12));
    CHECK(passing(18).passing.value() == Approx(.05 + .15 * std::log(18. / 20) / std::log(45. / 20)).epsilon(1e-12)); // drawn on
    CHECK(passing(1).passing.value() == 0.0);
    CHECK(passing(1000).passing.value() == 1.0);
    CHECK(passing(20 * (1 - 5e-4)).reach == Reach::below_finest);
    CHECK(passing(20).reach == Reach::within);
    CHECK(passing(150).reach == Reach::within);
    CHECK(passing(150 * (1 + 5e-4)).reach == Reach::above_coarsest);
    CHECK(share_to_regrind(curve, micrometres(60)).passing.value() == Approx(.8).epsilon(1e-12));
    CHECK(share_to_regrind(curve, micrometres(10)).reach == Reach::below_finest);
}

TEST_CASE("a model says where it was fitted and where it guesses", "[reference]") {
    for (const auto model : every_model) {
        const auto fit = fit_of(model, 80, 1.5, 45, 150);
        const auto reach = [&](double um) { return predicted_passing(fit, micrometres(um)).reach; };
        CHECK(reach(45 * (1 - 5e-4)) == Reach::below_finest);
        CHECK(reach(45) == Reach::within);
        CHECK(reach(75) == Reach::within);
        CHECK(reach(150) == Reach::within);
        CHECK(reach(150 * (1 + 5e-4)) == Reach::above_coarsest);
        for (const double p : {5e-4, .1, .5, .9}) {
            const auto found = predicted_percentile(fit, MassFraction::of(p));
            const double um = in_micrometres(found.size);
            CHECK(predicted_passing(fit, found.size).passing.value() == Approx(p).epsilon(1e-9));
            CHECK(found.reach == (um < 45 ? Reach::below_finest : um > 150 ? Reach::above_coarsest : Reach::within));
        }
        CHECK(whole_refusal([&] { (void)predicted_percentile(fit, MassFraction::of(0)); }) == "percentile is 0 %; valid: above 0 and below 100 %");
        CHECK(whole_refusal([&] { (void)predicted_percentile(fit, MassFraction::of(1)); }) == "percentile is 100 %; valid: above 0 and below 100 %");
        CHECK(whole_refusal([&] { (void)predicted_passing(fit, micrometres(-1)); }) == "size is -1 um; valid: above 0");
    }
    // By hand, at 60 um of 80 with slope 1.5.
    const double x = 1.5 * std::log(60.0 / 80.0);
    const auto at = [](SizeModel model) { return predicted_passing(fit_of(model, 80, 1.5, 45, 150), micrometres(60)).passing.value(); };
    CHECK(at(SizeModel::rosin_rammler) == Approx(1 - std::exp(-std::exp(x))).epsilon(1e-12));
    CHECK(at(SizeModel::gates_gaudin_schuhmann) == Approx(std::exp(x)).epsilon(1e-12));
    CHECK(at(SizeModel::lognormal) == Approx(0.5 * std::erfc(-x / std::sqrt(2.0))).epsilon(1e-12));
    CHECK(geometric_standard_deviation(fit_of(SizeModel::lognormal, 80, 1.5, 45, 150)) == Approx(std::exp(1 / 1.5)).epsilon(1e-12));
    const Length sizes[] = {micrometres(30), micrometres(60)};
    const auto drawn = fitted_curve(fit_of(SizeModel::gates_gaudin_schuhmann, 80, 1.5, 45, 150), sizes);
    REQUIRE(drawn.points.size() == 2);
    CHECK(drawn.points[0].passing.value() == Approx(std::pow(30. / 80, 1.5)).epsilon(1e-12));
    CHECK(in_micrometres(drawn.points[1].size) == Approx(60));
}

TEST_CASE("curves that two parameters fit exactly leave no doubt, and no figure that is none", "[identity]") {
    for (const auto model : every_model)
        for (const double slope : {0.5, 0.7, 1.0, 1.3, 2.0, 3.1})
            for (const int count : {2, 3, 4, 6}) {
                const auto truth = fit_of(model, 90, slope, 20, 400);
                PassingCurve curve;
                double mx = 0, my = 0, sxx = 0;
                std::vector<double> x, y;
                for (int i = 0; i < count; ++i) {
                    const double p = (i + 0.8) / (count + 0.7);
                    curve.points.push_back({predicted_percentile(truth, MassFraction::of(p)).size, MassFraction::of(p)});
                    x.push_back(std::log(in_metres(curve.points.back().size)));
                    y.push_back(slope * (x.back() - std::log(90e-6)));
                    mx += x.back() / count, my += y.back() / count;
                }
                for (const double each : x)
                    sxx += (each - mx) * (each - mx);
                INFO(word_of(model) << " " << slope << " " << count);
                const auto line = fit_size(curve, model, FitMethod::linearised), bent = fit_size(curve, model);
                CHECK(line.log_size_uncertainty.has_value() == (count > 2));
                CHECK(line.log_slope_uncertainty.has_value() == (count > 2));
                CHECK(line.r_squared == Approx(1.0).epsilon(1e-12));
                CHECK(bent.r_squared == Approx(1.0).epsilon(1e-12));
                // The correlation does not hang on how little is missed; where nothing is, it is 0.
                const double by_slope = my / (slope * slope);
                const double correlation = by_slope / std::sqrt(sxx) / std::sqrt(1.0 / (count * slope * slope) + by_slope * by_slope / sxx);
                if (count == 2)
                    CHECK(line.correlation == 0.0);
                else if (line.correlation != 0.0)
                    CHECK(line.correlation == Approx(correlation).epsilon(1e-6).margin(1e-6));
                CHECK(std::abs(bent.correlation) <= 1.0 + 1e-9);
                CHECK(line.points == static_cast<std::size_t>(count));
            }
}

TEST_CASE("a Schuhmann curve that ends between any two screens, or beyond them, gives itself back", "[identity]") {
    const double screens[] = {20, 45, 75, 106, 150, 250};
    for (const double size : {46.0, 60.0, 74.0, 76.0, 90.0, 120.0, 149.0, 200.0, 249.0, 300.0, 2000.0})
        for (const double slope : {0.3, 0.9, 1.5, 3.0}) {
            PassingCurve curve;
            for (const double um : screens)
                curve.points.push_back({micrometres(um), MassFraction::of(um < size ? std::pow(um / size, slope) : 1.0)});
            const auto fit = fit_size(curve, SizeModel::gates_gaudin_schuhmann);
            INFO(size << " " << slope);
            CHECK(in_micrometres(fit.size) == Approx(size).epsilon(1e-6));
            CHECK(fit.slope == Approx(slope).epsilon(1e-6));
        }
}

TEST_CASE("a screen that passes five in ten thousand counts, one that passes nothing or all does not", "[unit][errors]") {
    const auto curve = curve_of({{20, 0}, {45, 5e-4}, {75, .3}, {106, .6}, {150, .9996}, {250, 1}});
    for (const auto model : every_model)
        CHECK(fit_size(curve, model, FitMethod::linearised).points == 4);
    // A curve that hardly rises is one: Schuhmann's slope by hand.
    const auto flat = fit_size(curve_of({{45, .5}, {75, .5002}}), SizeModel::gates_gaudin_schuhmann, FitMethod::linearised);
    CHECK(flat.slope == Approx(std::log(.5002 / .5) / std::log(75. / 45.)).epsilon(1e-9));
    CHECK(flat.slope < 1e-3);
    CHECK(whole_refusal([] { (void)fit_size(curve_of({{45, .5}, {75, .5}}), SizeModel::gates_gaudin_schuhmann, FitMethod::linearised); }) ==
          "slope of the size fit is 0; valid: above 0: passing must rise between the screens");
    CHECK(whole_refusal([] { (void)fit_size(curve_of({{45, .5}, {75, 1}}), SizeModel::lognormal); }) ==
          "size fit is 1 screen with passing between 0 and 100 %; valid: two such screens at least; "
          "sieve over a second screen that keeps some and passes some");
    const auto two = fit_size(curve_of({{45, .2}, {75, .6}}), SizeModel::rosin_rammler, FitMethod::linearised);
    CHECK(whole_refusal([&] { (void)slope_interval(two, 0.9); }) ==
          "size fit is 2 points; valid: three points at least for an interval; sieve over a third screen");
    CHECK(whole_refusal([&] { (void)slope_interval(two, -0.25); }) == "coverage is -0.25; valid: above 0 and below 1");
}

TEST_CASE("why a fit was chosen, word for word", "[unit]") {
    const auto curve = curve_of({{45, .2}, {75, .5}, {106, .72}, {150, .93}});
    auto one = fit_of(SizeModel::lognormal, 80, 1.5, 45, 150), other = one;
    one.passing_deviation = 0.0123, other.passing_deviation = 0.0456;
    other.model = SizeModel::rosin_rammler;
    const auto best = choose_fit(std::vector{other, one}, curve);
    CHECK(best.index == 1);
    CHECK(best.told_apart);
    CHECK(best.reason == "lognormal misses the passing curve by 1.2 % (root mean square), less than the others");
    CHECK(choose_fit(std::vector{one}, curve).reason == "lognormal misses the passing curve by 1.2 % (root mean square); no other was fitted");
    one.size = micrometres(75); // passes half there, as was seen
    CHECK(choose_fit(std::vector{one}, curve, micrometres(75)).reason ==
          "lognormal misses the passing curve by 1.2 % (root mean square) and by 0 % at the target screen, 75 um; no other was fitted");
    const auto two_screens = choose_fit(std::vector{other, one}, curve_of({{45, .2}, {75, .5}}));
    CHECK(two_screens.index == 0);
    CHECK_FALSE(two_screens.told_apart);
    CHECK(two_screens.reason == "two screens give two points, and every curve of two parameters passes through both: none can be called better");
    CHECK(whole_refusal([&] { (void)choose_fit({}, curve); }) == "size fits is none; valid: one at least");
}

TEST_CASE("a curve carried on below its screens, point by point", "[reference]") {
    // As the model has it, scaled to what was seen at the finest screen; eight points, evenly over ln d.
    const auto seen = curve_of({{45, 4e-4}, {75, .3}});
    for (const auto& [um, slope] : {std::pair{100.0, 2.0}, std::pair{1500.0, 2.2}}) { // and one that says 4.5e-4 itself
        const auto curve = extended_curve(seen, fit_of(SizeModel::rosin_rammler, um, slope, 45, 75), micrometres(2));
        REQUIRE(curve.points.size() == 10);
        const auto says = [&](double d) { return 1.0 - std::exp(-std::pow(d / um, slope)); };
        for (int i = 0; i < 8; ++i) {
            const double d = 2.0 * std::pow(45.0 / 2.0, i / 8.0);
            CHECK(in_micrometres(curve.points[static_cast<std::size_t>(i)].size) == Approx(d).epsilon(1e-12));
            CHECK(curve.points[static_cast<std::size_t>(i)].passing.value() == Approx(4e-4 * says(d) / says(45)).epsilon(1e-9));
        }
        CHECK(curve.points[8].passing.value() == 4e-4);
        CHECK(curve.points[9].passing.value() == .3);
    }
    // A model of which nothing passes there says nothing of what is finer.
    const auto steep = fit_of(SizeModel::lognormal, 2000, 20, 45, 75);
    REQUIRE(predicted_passing(steep, micrometres(45)).passing.value() == 0.0);
    CHECK(extended_curve(seen, steep, micrometres(2)).points.size() == 2);
    CHECK(whole_refusal([&] { (void)extended_curve(seen, steep, micrometres(45)); }) ==
          "finest size of the curve is 45 um; valid: above 0 and below the finest screen");
    CHECK(whole_refusal([&] { (void)extended_curve(seen, steep, micrometres(0)); }) ==
          "finest size of the curve is 0 um; valid: above 0 and below the finest screen");
}

TEST_CASE("a residue between two screens, at one and beyond, with its doubt", "[reference]") {
    const auto analysis = analysis_of({{150, 0}, {75, 0.005}, {45, 4}}, 5.995, 0.01); // 0, 0.0005 and 0.4005 of 10 g
    const auto at = [&](double um) { return residue_over(analysis, micrometres(um)); };
    const double t = std::log(60. / 45.) / std::log(75. / 45.), s = std::log(100. / 75.) / std::log(150. / 75.);
    CHECK(at(60).share.value() == Approx((1 - t) * .4005 + t * .0005).epsilon(1e-12));
    CHECK(at(100).share.value() == Approx((1 - s) * .0005).epsilon(1e-12));
    CHECK(at(140).share.value() < 1e-4);
    CHECK(at(75.00001).share.value() == Approx(.0005).epsilon(1e-12)); // as good as its screen
    CHECK(at(75.01).share.value() < .0005);
    const auto doubt = [&](std::size_t row) { return analysis.fractions[row].passing_uncertainty; };
    CHECK(at(60).standard_uncertainty == std::max(doubt(1), doubt(2)));
    CHECK(at(100).standard_uncertainty == std::max(doubt(0), doubt(1)));
    CHECK(at(45).standard_uncertainty == doubt(2));
    CHECK(at(30).standard_uncertainty == doubt(2));
    CHECK(at(30).share.value() == Approx(.4005).epsilon(1e-12));
    CHECK(at(30).reach == Reach::below_finest);
    CHECK(at(200).standard_uncertainty == doubt(0));
    CHECK(at(200).share.value() == Approx(0.0).margin(1e-15));
    CHECK(at(200).reach == Reach::above_coarsest);
    for (const double um : {30.0, 45.0, 60.0, 100.0, 200.0})
        CHECK(at(um).repeatability == 0.0);
    for (const double um : {45.0, 60.0, 100.0, 150.0})
        CHECK(at(um).reach == Reach::within);
}

TEST_CASE("nothing lost bounds nothing, a little lost does", "[unit]") {
    const auto none = analysis_of({{45, 4}}, 6, 0, 10), little = analysis_of({{45, 4}}, 5.995, 0, 10);
    CHECK_FALSE(residue_with_loss(residue_over(none, micrometres(45)), none));
    const auto bounds = residue_with_loss(residue_over(little, micrometres(45)), little);
    REQUIRE(bounds);
    CHECK(bounds->low == Approx(.4).epsilon(1e-9));
    CHECK(bounds->high == Approx(.4005).epsilon(1e-9));
    // Powder of which just half is finer than where dry sieving ends does not clog, of which more is does.
    const auto target = plain_target(micrometres(45), MassFraction::of(0.01), testing::usual_habits());
    CHECK_FALSE(dry_sieving_clogs(analysis_of({{75, 5}}, 5), target));
    CHECK(dry_sieving_clogs(analysis_of({{75, 4.99}}, 5.01), target));
    CHECK(dry_sieving_clogs(analysis_of({{75, 4}}, 6), target));
}
