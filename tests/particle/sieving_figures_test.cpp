// The figures of a sieve test, of its answer and of pouring off, each by a sum written out, and the words for sieves.

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "lakebound/particle/decant_answer.hpp"
#include "lakebound/particle/record_error.hpp"
#include "lakebound/particle/settle_answer.hpp"
#include "lakebound/particle/sieve_answer.hpp"
#include "lakebound/particle/sieve_series.hpp"
#include "support/four_pours.hpp"
#include "support/powder_habits.hpp"
#include "support/sieved.hpp"
#include "support/whole_refusal.hpp"
#include "support/worked_sieve_test.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

double modulus(const std::vector<std::pair<double, double>>& um_and_grams, double pan) {
    return fineness_modulus(analyse(test_of(um_and_grams, pan)));
}
std::string read_as(const char* typed) {
    try {
        (void)parse_sieve(typed);
    } catch (const QuantityTextError& error) {
        return error.id + ": " + error.what();
    }
    return "taken";
}

} // namespace

TEST_CASE("what a scale leaves in doubt of every share, by moving each mass a little", "[reference]") {
    const std::vector<double> masses{0.4, 2.1, 3.6, 4.7, 4.9, 4.0};
    const std::vector<double> um{250, 150, 106, 75, 45};
    auto test = test_of({}, masses[5]);
    for (std::size_t i = 0; i < 5; ++i)
        test.screens.push_back({micrometres(um[i]), grams(masses[i])});
    test.scale_step = grams(0.1);
    const auto analysis = analyse(test);
    const double u = 0.1 / std::sqrt(6.0), h = 1e-6; // two roundings, jcgm-100
    CHECK(analysis.reading_uncertainty_g == Approx(u).epsilon(1e-12));
    CHECK(in_grams(net_reading_uncertainty(grams(0.1))) == Approx(u).epsilon(1e-12));
    double widest = 0.0;
    for (std::size_t row = 0; row < 6; ++row) {
        double share2 = 0.0, passing2 = 0.0;
        for (std::size_t moved = 0; moved < 6; ++moved) {
            const auto of = [&](double by, bool passing) {
                double all = 0.0, part = 0.0;
                for (std::size_t i = 0; i < 6; ++i) {
                    const double mass = masses[i] + (i == moved ? by : 0.0);
                    all += mass;
                    if (passing ? i > row : i == row) part += mass;
                }
                return part / all;
            };
            share2 += std::pow(u * (of(h, false) - of(-h, false)) / (2 * h), 2);
            passing2 += std::pow(u * (of(h, true) - of(-h, true)) / (2 * h), 2);
        }
        CHECK(analysis.fractions[row].fraction_uncertainty == Approx(std::sqrt(share2)).epsilon(1e-6));
        CHECK(analysis.fractions[row].passing_uncertainty == Approx(std::sqrt(passing2)).epsilon(1e-6).margin(1e-12));
        widest = std::max(widest, std::sqrt(share2));
    }
    CHECK(analysis.widest_uncertainty == Approx(widest).epsilon(1e-6));
    // And of a wet residue r = dried / charge.
    const auto wet = wet_residue(grams(2), grams(1.2), grams(0.01));
    const double w = 0.01 / std::sqrt(6.0);
    CHECK(wet.standard_uncertainty == Approx(std::hypot(w / 2, 1.2 * w / 4)).epsilon(1e-9));
    CHECK(wet.smallest_seen == Approx(3 * w / 2).epsilon(1e-9));
}

TEST_CASE("the modulus counts certain screens and refuses to guess others", "[reference]") {
    const auto ladder = fineness_modulus_sieves_um();
    // astm-c125, value from memory: 150 um, doubling upward.
    CHECK(std::vector<double>(ladder.begin(), ladder.end()) ==
          std::vector<double>{150000, 75000, 37500, 19000, 9500, 4750, 2360, 1180, 600, 300, 150});
    // By hand, kept on the screen and all above: 1 g, 3 g and 6 g of 10 g; coarser ones count as nothing.
    CHECK(modulus({{600, 1}, {300, 2}, {150, 3}}, 4) == Approx(.1 + .3 + .6).epsilon(1e-12));
    CHECK(modulus({{600, 0}, {300, 2}, {150, 3}}, 5) == Approx(.2 + .5).epsilon(1e-12));
    // Nothing passes 300 um: the 150 um screen was not needed. Half a thousandth passes: it was.
    CHECK(modulus({{600, 4}, {300, 6}}, 0) == Approx(.4 + 1 + 1).epsilon(1e-12));
    CHECK(whole_refusal([] { (void)modulus({{600, 4}, {300, 5.995}}, 0.005); }) ==
          "fineness modulus is no 150 um screen in the test; valid: every standard screen from 150 um upward, each twice the last; "
          "sieve again with that screen, or use the percentiles instead");
    // A finer screen that kept nothing with all above it: nothing lies on those that were not used. Half a thousandth is not nothing.
    CHECK(modulus({{850, 0}, {425, 0}, {300, 2}, {150, 3}}, 5) == Approx(.2 + .5).epsilon(1e-12));
    CHECK(whole_refusal([] { (void)modulus({{850, 0.005}, {425, 0}, {300, 2}, {150, 3}}, 4.995); }).find("fineness modulus is no 600 um screen") == 0);
    // 80 mm stands for 75 mm: 6.7 %; 81 mm does not.
    CHECK(modulus({{80000, 1}, {37500, 9}}, 0) == Approx(.1 + 9).epsilon(1e-12));
    CHECK(whole_refusal([] { (void)modulus({{81000, 1}, {37500, 9}}, 0); }).find("fineness modulus is no 75000 um screen") == 0);
}

TEST_CASE("loaded screens are told by name", "[errors]") {
    const auto net = [](double empty, double loaded, double pan) {
        const TaredScreen screens[] = {{micrometres(75), grams(empty), grams(loaded)}};
        return whole_refusal([&] { (void)net_of_tare(screens, grams(50), grams(pan)); });
    };
    CHECK(net(100, 100, 50) == "taken");
    CHECK(net(100.25, 100, 51) == "loaded mass of the 75 um screen is 100 g; valid: at least its empty mass, 100.25 g; were the two readings swapped?");
    CHECK(net(100, 101, 49.5) == "loaded mass of the pan is 49.5 g; valid: at least its empty mass, 50 g; were the two readings swapped?");
}

TEST_CASE("sieves at the ends of what is made, and typed in any letters", "[unit][errors]") {
    CHECK(read_as("0.9995 um") == "sieve-aperture: a sieve aperture lies between 1 um and 125 mm");
    CHECK(read_as("125000.5 um") == "sieve-aperture: a sieve aperture lies between 1 um and 125 mm");
    CHECK(read_as("1 um") == "taken");
    CHECK(read_as("125 mm") == "taken");
    const auto tolerance = [](double um) { return whole_refusal([&] { (void)aperture_tolerance_formula(micrometres(um)); }); };
    CHECK(tolerance(20) == "taken");
    CHECK(tolerance(125000) == "taken");
    CHECK(tolerance(19.9995) == "aperture of a wire test sieve is 19.9995 um; valid: 20 um to 125 mm");
    CHECK(tolerance(125000.5).find("aperture of a wire test sieve is 125000.") == 0);
    // iso-3310-1, value from memory: Y = w^0.98 / 27 + 1.6, X = 2 w^0.75 / 3 + 4 w^0.25.
    for (const double w : {20.0, 45.0, 850.0, 22400.0}) {
        const auto of = aperture_tolerance_formula(micrometres(w));
        CHECK(in_micrometres(of.average) == Approx(std::pow(w, 0.98) / 27 + 1.6).epsilon(1e-12));
        CHECK(in_micrometres(of.largest_single) == Approx(2 * std::pow(w, 0.75) / 3 + 4 * std::pow(w, 0.25)).epsilon(1e-12));
    }
    CHECK(whole_refusal([] { (void)sieve_of_number("A-Z 9"); }).find("ASTM E11 sieve number is No. a-z 9; valid: 3 1/2 to 635") == 0);
    CHECK(in_micrometres(parse_sieve("NYLON 200 MESH THREAD 50 um").aperture) == Approx(77));
    CHECK(in_micrometres(parse_sieve("wire 200 mesh thread 53 um").aperture) == Approx(74)); // 127 - 53
    const std::string bare = "sieve-mesh: a mesh count is not an aperture: 200 mesh is 74 um in one wire cloth and 77 um in one nylon";
    CHECK(read_as("nylon mesh thread 50 um") == bare);
    CHECK(read_as("wire mesh thread 50 um") == bare);
    CHECK(read_as("nylon 200 mesh of thread 50 um") == bare);
    CHECK(read_as("thread 50 um nylon 200 mesh") == bare);
    CHECK(in_micrometres(next_standard_sieve_below(micrometres(74.95))->aperture()) == Approx(71));
    try {
        (void)parse_sieve("  200 mesh");
        FAIL("taken");
    } catch (const QuantityTextError& error) { // the whole of what was typed is at fault
        CHECK(error.offset == 0);
        CHECK(error.length == 10);
    }
    const auto woven = [](double threads, Length thread) { return whole_refusal([&] { (void)aperture_of_mesh(threads, thread); }); };
    CHECK(woven(0, micrometres(50)) == "thread count is 0 per inch; valid: above 0");
    CHECK(woven(std::numeric_limits<double>::infinity(), micrometres(50)) == "thread count is infinity per inch; valid: above 0");
    CHECK(in_metres(aperture_of_mesh(5e-4, millimetres(2))) == Approx(50.8 - 0.002).epsilon(1e-12));
    CHECK(woven(1, metres(25.4e-3)) == "thread diameter is 25400 um; valid: above 0 and thinner than the thread pitch, 25.4 mm / count");
    CHECK(woven(1, metres(0)) == "thread diameter is 0 um; valid: above 0 and thinner than the thread pitch, 25.4 mm / count");
    CHECK(in_micrometres(sand_screen) == Approx(600));
}

TEST_CASE("what goes back to the mortar, and the surface, of the worked test", "[reference]") {
    auto question = worked_sieving();
    question.record.test.screens[0].retained = grams(0.009); // less than a thousandth lies there, and goes back too
    question.record.test.screens.insert(question.record.test.screens.begin(), {micrometres(425), grams(0)});
    const double all = 0.009 + 2.1 + 3.6 + 4.7 + 4.9 + 4.0;
    const auto answer = read_sieving(question);
    REQUIRE(answer.regrind.size() == 5);
    const double um[] = {250, 150, 106, 75, 45}, kept[] = {0.009, 2.109, 5.709, 10.409, 15.309};
    for (std::size_t i = 0; i < 5; ++i) {
        CHECK(in_micrometres(answer.regrind[i].screen) == Approx(um[i]));
        CHECK(answer.regrind[i].residue.share.value() == Approx(kept[i] / all).epsilon(1e-9));
        CHECK(in_grams(answer.regrind[i].mass) == Approx(kept[i]).epsilon(1e-9));
    }
    REQUIRE(answer.surface);
    CHECK(in_micrometres(answer.surface_assumed->pan_mean) == Approx(22.5)); // half the finest screen
    CHECK_FALSE(answer.surface_assumed->top_size);
    CHECK(answer.surface->from_pan == Approx(6.0 * 4.0 / all / (1880.0 * 22.5e-6)).epsilon(1e-9));
    CHECK(in_micrometres(answer.surface->top_size) == Approx(850));
    // A screen through which less than a thousandth passes.
    auto coarse = worked_sieving();
    coarse.record.test = test_of({{150, 9}, {75, 0.995}}, 0.005);
    CHECK(read_sieving(coarse).regrind.size() == 2);
    coarse.record.test = test_of({{150, 9}, {75, 1}}, 0); // nothing passes the finer one: nothing was ground too fine
    CHECK(read_sieving(coarse).regrind.size() == 1);
}

TEST_CASE("two screens give a curve; one that was washed gives a wet residue, two do not", "[unit]") {
    auto question = worked_sieving();
    question.record.test.screens = {{micrometres(75), grams(6)}, {micrometres(45), grams(4)}};
    question.record.test.pan = grams(10);
    const auto two = read_sieving(question);
    REQUIRE(two.percentiles);
    CHECK(two.fits.size() == 3);
    CHECK(two.no_fit.empty());
    CHECK_FALSE(two.wet);
    question.record.method = SieveMethod::wet;
    CHECK_FALSE(read_sieving(question).wet);
    question.record.test.screens.pop_back();
    question.record.test.pan = grams(14);
    const auto one = read_sieving(question);
    CHECK_FALSE(one.percentiles);
    REQUIRE(one.wet);
    CHECK(one.wet->residue.value() == Approx(0.3).epsilon(1e-12));
    CHECK(one.no_fit == std::vector<std::string>{"one screen gives one point, and a curve needs two at least"});
    question.record.method = SieveMethod::dry;
    CHECK_FALSE(read_sieving(question).wet);
}

TEST_CASE("what a fit says at the target is set against a screen of that size, where there is one", "[reference]") {
    auto question = worked_sieving();
    const auto with = [&](double um) {
        question.target = plain_target(micrometres(um), MassFraction::of(0.01), usual_habits());
        return read_sieving(question);
    };
    const double passing[] = {4.0 / 19.7, 8.9 / 19.7};
    int i = 0;
    for (const double um : {45.0, 75.0}) {
        const auto answer = with(um);
        REQUIRE(answer.fits.size() == 3);
        for (const auto& curve : answer.fits) {
            REQUIRE(curve.residual_at_target);
            CHECK(*curve.residual_at_target == Approx(curve.at_target->passing.value() - passing[i]).epsilon(1e-9));
            CHECK(curve.straight_line.has_value());
            CHECK(curve.at_grain->passing.value() ==
                  Approx(predicted_passing(curve.fit, question.target->grain.value()).passing.value()).epsilon(1e-12));
        }
        CHECK(answer.best->reason.find(" at the target screen, " + std::to_string(int(um)) + " um") != std::string::npos);
        ++i;
    }
    const auto between = with(63.0);
    for (const auto& curve : between.fits) {
        CHECK_FALSE(curve.residual_at_target);
        CHECK(curve.at_target.has_value());
    }
    CHECK(between.best->reason.find("target screen") == std::string::npos);
    // Weighed just as much as is allowed is fine enough.
    question.record.test = test_of({{75, 5}}, 5);
    question.target = plain_target(micrometres(75), MassFraction::of(0.5), usual_habits());
    CHECK(read_sieving(question).verdict->as_weighed == FinenessVerdict::fine_enough);
    question.target = plain_target(micrometres(75), MassFraction::of(0.4999), usual_habits());
    CHECK(read_sieving(question).verdict->as_weighed == FinenessVerdict::too_coarse);
}

TEST_CASE("classes of a sieve test that is poured off, from half of the finest grain to twice the coarsest screen", "[reference]") {
    const auto levigated = [](const std::vector<std::pair<double, double>>& screens, double pan) {
        auto asked = four_pours(micrometres(45.0));
        asked.sieve = worked_sieving().record;
        asked.sieve->test = test_of(screens, pan);
        return plan_settling(asked);
    };
    const auto sizes = [](const SettleAnswer& answer) {
        std::vector<double> um{in_micrometres(answer.levigated->classes.front().of.lower)};
        for (const auto& each : answer.levigated->classes)
            um.push_back(in_micrometres(each.of.upper));
        return um;
    };
    const auto shown = [&](const SettleAnswer& answer, const std::vector<double>& expected) {
        const auto found = sizes(answer);
        REQUIRE(found.size() == expected.size());
        for (std::size_t i = 0; i < found.size(); ++i)
            CHECK(found[i] == Approx(expected[i]).epsilon(1e-9));
    };
    // Carried on to 1 um, or to a twentieth of a finest screen below 20 um; the grains below that go to half of it.
    const auto usual = levigated({{150, 2}, {75, 3}, {53, 2}, {45, 1}}, 4);
    shown(usual, {0.5, 45, 53, 75, 150, 300});
    CHECK(usual.levigated->classes[0].of.share.value() == Approx(4.0 / 12).epsilon(1e-9));
    CHECK(usual.levigated->classes[1].of.share.value() == Approx(1.0 / 12).epsilon(1e-9));
    CHECK(in_grams(usual.charge) == Approx(12));
    CHECK(usual.carried_on.has_value());
    shown(levigated({{20, 2}, {15, 3}, {10, 3}}, 4), {0.25, 10, 15, 20, 40});
    shown(levigated({{150, 2}, {45.02, 3}, {45, 1}}, 4), {0.5, 45, 45.02, 150, 300});
    // No curve fits what passes whole: its finest class goes down to 1 um.
    const auto none = levigated({{75, 0}, {45, 0}}, 4);
    CHECK_FALSE(none.carried_on);
    shown(none, {1, 45, 75, 150});
    for (const auto& answer : {usual, none}) {
        double poured = 0, left = 0;
        for (const auto& each : answer.levigated->classes)
            poured += each.poured, left += each.left;
        CHECK(poured == Approx(answer.levigated->poured).epsilon(1e-12));
        CHECK(left == Approx(answer.levigated->left).margin(1e-12));
        CHECK(answer.levigated->classes[0].poured + answer.levigated->classes[0].left ==
              Approx(answer.levigated->classes[0].of.share.value()).epsilon(1e-9));
    }
    try {
        (void)levigated({{75, 3}}, 4);
        FAIL("taken");
    } catch (const RecordError& error) {
        CHECK(std::string(error.what()) == "number of screens of the sieve test is 1; valid: 2 or more, to make a curve; "
                                           "sieve with more screens, or leave the sieve test out");
        CHECK(error.part() == RecordPart::retained);
        CHECK(error.record() == 0);
        CHECK_FALSE(error.beside());
    }
}

TEST_CASE("a plan of settling, figure by figure", "[reference]") {
    auto asked = four_pours(micrometres(2.0));
    CHECK_FALSE(plan_settling(asked).brownian); // finer ones are
    CHECK(SettleQuestion{}.pours == 1);
    asked.cut = micrometres(30);
    const auto answer = plan_settling(asked);
    // 2 % of half a litre is 10 mL of a solid of 1.88 g/cm3.
    CHECK(in_grams(answer.powder_per_half_litre) == Approx(18.8).epsilon(1e-9));
    const auto alone = terminal_velocity(micrometres(30), grams_per_cubic_centimetre(1.88), water_at(degrees_celsius(20)));
    CHECK(answer.at_cut.velocity == alone.velocity);
    CHECK(in_metres_per_second(answer.hindered) == Approx(in_metres_per_second(alone.velocity) * std::pow(0.98, 4.65)).epsilon(1e-9));
    CHECK(in_seconds(answer.plan.how.wait) == Approx(0.08 / in_metres_per_second(answer.hindered)).epsilon(1e-9));
    CHECK_FALSE(answer.effective);
    CHECK_FALSE(answer.levigated);
    CHECK_FALSE(answer.below_screens_guessed);
}

TEST_CASE("a plan of decanting, figure by figure", "[reference]") {
    // 100, 62, 48 mm every 2 h: end (4800 - 3844) / 24 mm, tau 2 h / ln(38 / 14).
    const double end = 956.0 / 24, tau = 2 / std::log(38.0 / 14), when = tau * std::log((100 - end) / (0.05 * end));
    const auto answer = plan_decanting({"", {millimetres(100), millimetres(62), millimetres(48), hours(2)}, millimetres(1), millimetres(15), Share::of(0.05)});
    CHECK(in_hours(answer.read) == Approx(4).epsilon(1e-12));
    CHECK(in_hours(answer.decant) == Approx(when).epsilon(1e-9));
    CHECK(in_hours(answer.at) == Approx(when).epsilon(1e-9));
    CHECK(in_hours(answer.wait) == Approx(when - 4).epsilon(1e-9));
    CHECK(in_millimetres(answer.blanket) == Approx(1.05 * end).epsilon(1e-9));
    CHECK(in_millimetres(answer.draw_to) == Approx(1.05 * end + 15).epsilon(1e-9));
    CHECK(in_millimetres(answer.drawn) == Approx(85 - 1.05 * end).epsilon(1e-9));
    const auto nine_in_ten = zone_interval(answer.question.heights, millimetres(1), Share::of(0.05), 0.9);
    CHECK(answer.interval.end_height_m.low == nine_in_ten.end_height_m.low);
    CHECK(answer.interval.decant_low == nine_in_ten.decant_low);
}
