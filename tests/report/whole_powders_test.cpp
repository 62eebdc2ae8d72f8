// Whole answers on sieving, grinding, mulling, settling and bench readings, line by line as a person or a program gets
// them. The texts under expected/ were read; what is new there must be read before it is kept.
#include <catch2/catch.hpp>

#include "lakebound/report/grind_report.hpp"
#include "lakebound/report/reading_report.hpp"
#include "lakebound/report/settle_report.hpp"
#include "lakebound/report/sieve_report.hpp"
#include "support/bench_practice.hpp"
#include "support/four_pours.hpp"
#include "support/grinding_tests.hpp"
#include "support/whole_answer.hpp"
#include "support/worked_sieve_test.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

std::string sieved(const SieveQuestion& question) {
    const auto answer = read_sieving(question);
    return whole(sieve_page(answer)) + "\n" + whole_json(sieve_json(answer));
}
void check_grinding(const std::string& name, GrindQuestion question) {
    const auto answer = planned(std::move(question));
    check_expected("report", name, whole(grind_page(answer)) + "\n" + whole_json(grind_json(answer)));
}
std::string settled(const SettleQuestion& question) {
    const auto answer = plan_settling(question);
    return whole(settle_page(answer)) + "\n" + whole_json(settle_json(answer));
}

} // namespace

TEST_CASE("Sieve tests, whole", "[unit]") {
    check_expected("report", "sieved", sieved(worked_sieving()));
    auto lost = worked_sieving();
    lost.record.test.charge = grams(22.0);
    lost.record.note = "A gust took some.";
    lost.target.reset();
    check_expected("report", "sieved-with-loss", sieved(lost));
    check_expected("report", "sieved-wet", sieved(wet_sieving(0.02, 10.0, 0.01)) + sieved(wet_sieving(0.0, 2.0, 0.1)) +
                                               sieved(wet_sieving(1.2, 10.0, 0.01)));
    auto two = worked_sieving();
    two.record.test.screens = {{micrometres(150.0), grams(5.0)}, {micrometres(45.0), grams(9.0)}};
    two.record.sieves = {{micrometres(150.0), SieveCloth::nylon, "150 um", {}}, {micrometres(45.0), SieveCloth::wire, "45 um", {}}};
    two.record.test.pan = grams(5.9);
    two.repeats_to = Estimate<MassFraction>::exact(MassFraction::of(0.01), {});
    check_expected("report", "sieved-on-two", sieved(two));
    // Screens by number, by size and of nylon, on a coarse scale, for a target that no screen of the test saw.
    auto named = worked_sieving();
    named.record.sieves[2].designation = "No. 140", named.record.sieves[3].designation = "200 mesh nylon, 75 um", named.record.sieves[4].designation = "0.045 mm";
    named.record.sieves[3].note = "its threads were counted";
    named.record.test.scale_step = grams(1.0);
    named.target = plain_target(micrometres(25.0), MassFraction::of(0.9), usual_habits());
    check_expected("report", "sieved-by-names", sieved(named));
    // Screens of sands from 600 um down, hardly anything in the pan: every size lies within them.
    auto sand = worked_sieving();
    sand.target.reset();
    sand.record.test.screens.clear(), sand.record.sieves.clear();
    for (const auto& [um, g] : {std::pair{600.0, 1.0}, {300.0, 9.0}, {150.0, 9.4}}) {
        sand.record.test.screens.push_back({micrometres(um), grams(g)});
        sand.record.sieves.push_back({micrometres(um), SieveCloth::wire, std::to_string(int(um)) + " um", {}});
    }
    sand.record.test.pan = grams(0.4);
    check_expected("report", "sieved-sand", sieved(sand));
}

TEST_CASE("A grinding plan, whole", "[unit]") { check_grinding("ground", grind_question({early(), late()})); }

TEST_CASE("A grinding plan where grinding slows, whole", "[unit]") {
    check_grinding("ground-slowing", grind_question({early(), late(), slow()}));
}

TEST_CASE("A grinding plan by one screen, whole", "[unit]") {
    auto question = grind_question({ground_test(5, {{150, 9.0}, {75, 4.0}}, 6.0), ground_test(15, {{150, 5.0}, {75, 4.5}}, 10.2)}, 100.0, 0.02);
    question.say.loss = Share::of(0.04);
    check_grinding("ground-on-two-screens", question);
}

TEST_CASE("A grinding plan with all that its maker says, whole", "[unit]") {
    auto question = grind_question({early(), late()}, 45.0, 0.02);
    question.say.cycle = minutes(12);
    question.say.handling = minutes(6);
    question.say.density = grams_per_cubic_centimetre(2.1);
    question.say.weighed = WeighedStay{grams(7.5), 2, minutes(12), std::nullopt};
    check_grinding("ground-and-weighed", question);
}

TEST_CASE("Powder that is fine already, and a target beyond every sieve, whole", "[unit]") {
    auto fine = grind_question({ground_test(5, {{150, 9.0}, {75, 4.0}}, 6.0), ground_test(15, {{150, 5.0}, {75, 4.5}}, 10.2)}, 75.0, 0.6);
    check_grinding("ground-enough", fine);
    fine.target = plain_target(micrometres(75), MassFraction::of(1e-6), usual_habits());
    fine.say.loss = Share::of(0.2);
    check_grinding("ground-very-fine", fine);
}

TEST_CASE("A grinding plan that ends in water, and tests that go faster than foreseen, whole", "[unit]") {
    const auto fine = [](double min, std::vector<double> kept, double pan) {
        return ground_test(min, {{150, kept[0]}, {75, kept[1]}, {38, kept[2]}, {25, kept[3]}}, pan);
    };
    auto water = grind_question({fine(5, {6.0, 4.0, 3.0, 1.5}, 5.0), fine(15, {2.5, 3.0, 3.0, 2.0}, 9.3)}, 25.0, 0.02);
    check_grinding("ground-into-water", water);
    water.say.weighed = WeighedStay{grams(0.2), 1, minutes(10), ScreeningAdvice::levigation};
    check_grinding("ground-and-hardly-anything-left", water);
    // One test lies on other screens, so that the third is held against what the first two foresee.
    const auto first = ground_test(5, {{150, 9.0}, {75, 4.0}}, 6.0), second = ground_test(15, {{106, 5.0}, {75, 4.5}}, 10.2);
    check_grinding("ground-faster", grind_question({first, second, ground_test(30, {{150, 0.2}, {75, 0.6}}, 18.6)}, 75.0, 0.01));
    check_grinding("ground-as-foreseen", grind_question({first, second, ground_test(20, {{150, 3.8}, {75, 4.1}}, 11.7)}, 75.0, 0.01));
}

TEST_CASE("Sieve tests of which something was not weighed, or for the grain of a paint, whole", "[unit]") {
    auto bare = worked_sieving();
    bare.record.test.charge.reset();
    bare.record.test.scale_step.reset();
    bare.target.reset();
    auto gained = worked_sieving();
    gained.record.test.charge = grams(19.6);
    gained.target = plain_target(micrometres(250.0), MassFraction::of(0.5), usual_habits());
    auto paint = worked_sieving();
    paint.target->grain = Estimate<Length>::exact(micrometres(20.0), {Origin::common_practice, "", false});
    check_expected("report", "sieved-half-weighed", sieved(bare) + sieved(gained) + sieved(paint));
}

TEST_CASE("Sieve tests for the grain of a paint, or with an answer left open, whole", "[unit]") {
    std::string text;
    const auto told = [&text](const char* what, const SieveAnswer& answer) { text += std::string("---- ") + what + "\n" + whole(sieve_page(answer)) + "\n" + whole_json(sieve_json(answer)); };
    auto asked = worked_sieving();
    asked.target->id = "oil", asked.target->name = "oil";
    asked.target->grain = Estimate<Length>::exact(micrometres(20.0), {Origin::published, "a handbook", false});
    told("a grain finer than the screen", read_sieving(asked));
    asked.target->grain = Estimate<Length>::exact(micrometres(80.0), {Origin::memory, "", false});
    told("a grain within the screens", read_sieving(asked));
    auto answer = read_sieving(asked);
    answer.best.reset();
    answer.no_fit = {"two curves are not enough for three screens"};
    told("no curve taken", answer);
    answer.surface.reset(), answer.surface_assumed.reset();
    answer.percentiles->d10.reach = answer.percentiles->d50.reach = Reach::within;
    answer.percentiles->d80.reach = answer.percentiles->d90.reach = Reach::above_coarsest;
    answer.percentiles->span.reset();
    told("sizes above every screen", answer);
    for (const auto by : {VerdictTurnedBy::loss, VerdictTurnedBy::repeatability, VerdictTurnedBy::both, VerdictTurnedBy::reach})
        for (const auto as_weighed : {FinenessVerdict::fine_enough, FinenessVerdict::too_coarse})
            for (const auto reach : {Reach::below_finest, Reach::above_coarsest}) {
                auto open = read_sieving(worked_sieving());
                open.verdict->verdict = FinenessVerdict::cannot_tell;
                open.verdict->turned_by = by, open.verdict->as_weighed = as_weighed, open.verdict->residue.reach = reach;
                const std::string page = whole(sieve_page(open));
                const auto from = page.find("FINE ENOUGH"), to = page.find("\n\n", from);
                text += "---- open\n" + page.substr(from, to - from) + "\n";
            }
    check_expected("report", "sieved-for-a-grain", text);
}

TEST_CASE("A grinding plan altered in what it answers, whole", "[unit]") {
    const auto plain = planned(grind_question({early(), late()}));
    std::string text;
    const auto told = [&](const char* what, auto change) {
        auto answer = plain;
        change(answer);
        text += std::string("---- ") + what + "\n" + whole(grind_page(answer)) + "\n";
    };
    REQUIRE_FALSE(plain.ways.empty());
    told("without an upper end", [](GrindAnswer& a) { a.one_long_grind->high.reset(); });
    told("out of reach of all", [](GrindAnswer& a) { a.ways.clear(), a.one_long_grind.reset(), a.forecast_far = false, a.why_no_time = "the rate falls to nothing", a.out_of_reach = {"dry sieving clogs", "water carries nothing over"}; });
    told("of some", [](GrindAnswer& a) { a.out_of_reach = {"dry sieving clogs"}; });
    told("by one long grind", [](GrindAnswer& a) { a.one_long_grind.reset(), a.forecast_far = false, a.why_no_time = "the rate falls to nothing", a.cushioning_range.reset(); });
    told("rounds sure", [](GrindAnswer& a) { for (auto& way : a.ways) if (way.needed) way.needed->high = way.needed->low; });
    told("rounds without end", [](GrindAnswer& a) { for (auto& way : a.ways) if (way.needed) way.needed->high.reset(); });
    told("rounds unasked", [](GrindAnswer& a) { for (auto& way : a.ways) way.needed.reset(), way.stays_after_two.reset(); });
    told("one round unasked", [](GrindAnswer& a) {
        for (auto& way : a.ways) way.needed.reset(), way.stays_after_two.reset(), way.plan.run.rounds.resize(1), way.separate_first = false;
    });
    told("without a stop", [](GrindAnswer& a) { for (auto& way : a.ways) way.plan.in_rounds = false; });
    told("for a finer grain", [](GrindAnswer& a) { a.question.target.grain = Estimate<Length>::exact(micrometres(20.0), {Origin::estimate, "", false}); });
    told("sizes unseen", [](GrindAnswer& a) { a.rows.front().d50.reset(), a.rows.back().d50->reach = Reach::above_coarsest; });
    auto weighed = grind_question({early(), late()}, 45.0, 0.02);
    weighed.say.weighed = WeighedStay{grams(7.5), 2, minutes(12), std::nullopt};
    auto done = planned(weighed);
    REQUIRE(done.rounds_left);
    done.rounds_left->more = 0;
    text += "---- enough by now\n" + whole(grind_page(done)) + "\n";
    done.rounds_left->more = 1, done.rounds_left->range = {1, 1}, done.rounds_left->beyond_model = true;
    text += "---- one more, beyond the model\n" + whole(grind_page(done)) + "\n";
    check_expected("report", "ground-otherwise", text);
}

TEST_CASE("Mulling, whole", "[unit]") {
    MullQuestion asked{{{minutes(0), micrometres(60)}, {minutes(10), micrometres(38)}, {minutes(20), micrometres(27)}}, micrometres(25), micrometres(2), minutes(10)};
    std::string text;
    for (const auto& target : {std::optional(micrometres(25)), std::optional(micrometres(8)), std::optional(micrometres(30)), std::optional<Length>()}) {
        asked.target = target;
        const auto answer = plan_mulling(asked);
        text += whole(mull_page(answer)) + "\n" + whole_json(mull_json(answer));
    }
    check_expected("report", "mulled", text);
}

TEST_CASE("Parting in water, whole", "[unit]") {
    check_expected("report", "settled", settled(four_pours(micrometres(45.0))));
    auto asked = four_pours(micrometres(20.0));
    asked.density.by = GivenBy::shelf;
    asked.temperature = {degrees_celsius(12.0), GivenBy::shelf};
    asked.draw = millimetres(60.0);
    asked.test = SettlingRecord{};
    asked.test->grains = TimedGrains{micrometres(49.0), millimetres(100.0), minutes(3.0)};
    asked.sieve = worked_sieving().record;
    check_expected("report", "settled-with-tests", settled(asked));
    auto often = four_pours(micrometres(45.0));
    often.pours = 14;
    check_expected("report", "settled-in-fourteen", settled(often));
    check_expected("report", "settled-too-fast", settled(four_pours(micrometres(900.0))));
    auto slow = four_pours(micrometres(1.0));
    slow.pours = 1;
    slow.solids = VolumeFraction::of(0.08);
    check_expected("report", "settled-too-slow", settled(slow));
}

TEST_CASE("A wait is told to the second from a minute to ten", "[unit]") {
    auto answer = plan_settling(four_pours(micrometres(45.0)));
    const auto told = [&](double s) {
        answer.plan.how.wait = seconds(s);
        const auto text = settle_text(answer);
        const auto from = text.find("wait ") + 5;
        return text.substr(from, text.find(',', from) - from);
    };
    CHECK(told(59) == "59 s");
    CHECK(told(60) == "1 min");
    CHECK(told(61) == "1 min 1 s");
    CHECK(told(120) == "2 min");
    CHECK(told(599) == "9 min 59 s");
    CHECK(told(600) == "10 min");
}

TEST_CASE("Decanting, whole", "[unit]") {
    std::string text;
    for (const auto& heights : {InterfaceHeights{millimetres(100.0), millimetres(62.0), millimetres(48.0), hours(2.0)},
                                {millimetres(100.0), millimetres(45.0), millimetres(41.0), hours(4.0)},
                                {millimetres(20.0), millimetres(18.0), millimetres(17.0), hours(2.0)},
                                {millimetres(200.0), millimetres(150.0), millimetres(120.0), minutes(10.0)}}) {
        const auto answer = plan_decanting({"Wash", heights, millimetres(heights.first < millimetres(150.0) ? 1 : 2), millimetres(15), Share::of(0.05)});
        text += whole(decant_page(answer)) + "\n" + whole_json(decant_json(answer));
    }
    check_expected("report", "decanted", text);
}

TEST_CASE("Bench readings, whole", "[unit]") {
    // The worked readings of docs/theory.md, and those of one hand that differ beyond it.
    const Instrument<Mass> scale{grams(0.01), {}};
    const DropCalibration dropper{50, grams(1.81), scale};
    const auto dropped = [&](double pigment) { return RubOut{grams(pigment), 19.0, {}, scale}; };
    const auto weighed = [&](double oil) { return RubOut{grams(100.0), 0.0, grams(oil), scale}; };
    const DryingTest drying{grams(20.00), grams(30.00), grams(23.69), scale};
    std::string text;
    for (const auto& reading :
         {BenchReading{"Rub-out of Lake M", RubOutSeries{{dropped(1.0)}, dropper}},
          BenchReading{"Two drop counts", RubOutSeries{{dropped(1.0), dropped(1.05)}, dropper}},
          BenchReading{"Two", RubOutSeries{{weighed(78), weighed(74)}, {}}},
          BenchReading{"Far apart", RubOutSeries{{weighed(50), weighed(75), weighed(100)}, {}}},
          BenchReading{"Bottle", Pyknometer{grams(52.37), grams(3.02), grams(53.79), grams_per_cubic_centimetre(0.99705), scale}},
          BenchReading{"Syringe", Displacement{grams(3.02), scale, millilitres(6.0), millilitres(7.6), {millilitres(0.2), {}}}},
          BenchReading{"Jar", TappedFillReading{{millimetres(42), millimetres(50), {millimetres(1), {}}}, grams(24.2445), scale}},
          BenchReading{"Medium", MediumSolidsReading{drying}}, BenchReading{"Powder", MoistureReading{drying}}}) {
        const auto read = answer_reading(reading, shipped_reading_habits());
        text += whole(reading_page(read)) + "\n" + reading_text(read) + "\n" + whole_json(reading_json(read));
    }
    check_expected("report", "readings", text);
}

TEST_CASE("Sieve tests of coarse powder, or of which no screen tells enough, whole", "[unit]") {
    const auto kept = [](double coarsest) { // of 20 g in all, so much over 250 um
        auto asked = worked_sieving();
        asked.record.test.charge.reset();
        asked.record.test.screens = {{micrometres(250.0), grams(coarsest)}, {micrometres(106.0), grams(5.0)}};
        asked.record.sieves.erase(asked.record.sieves.begin() + 1);
        asked.record.sieves.resize(2);
        asked.record.test.pan = grams(15.0 - coarsest);
        asked.target.reset();
        return asked;
    };
    // D90, then D80, then D50 too lie over the coarsest screen.
    check_expected("report", "sieved-coarse", sieved(kept(2.5)) + sieved(kept(6.0)) + sieved(kept(11.5)));
    auto wet = kept(2.5);
    wet.record.method = SieveMethod::wet;
    wet.record.test.charge = grams(20.0);
    wet.record.density.reset();
    wet.record.grinding_time = minutes(15);
    check_expected("report", "sieved-wet-on-two", sieved(wet));
    auto beyond = worked_sieving(); // coarser than the coarsest screen: what lies over it is a most
    beyond.target = plain_target(micrometres(500.0), MassFraction::of(0.01), usual_habits());
    beyond.record.test.scale_step.reset(), beyond.record.test.charge.reset();
    check_expected("report", "sieved-for-a-coarser-screen", sieved(beyond));
}

TEST_CASE("A sieve test for a paint: the grain that it wants, whole", "[unit]") {
    const auto paint = [](double grain, double screen, double residue) {
        auto asked = worked_sieving();
        asked.target = plain_target(micrometres(screen), MassFraction::of(residue), usual_habits());
        asked.target->id = "watercolour-pan", asked.target->name = "Watercolour in pans";
        asked.target->grain = Estimate<Length>::exact(micrometres(grain), {Origin::common_practice, "", false});
        return asked;
    };
    // Finer than water parts from screens; on a screen; coarser than the screen it is judged on.
    std::string text = sieved(paint(20.0, 45.0, 0.01)) + sieved(paint(106.0, 75.0, 0.4)) + sieved(paint(60.0, 45.0, 0.8));
    auto answer = read_sieving(paint(20.0, 45.0, 0.01));
    answer.best.reset(); // without a curve that is taken, what is finer than the grain is not guessed
    text += whole(sieve_page(answer)) + "\n" + whole_json(sieve_json(answer));
    answer.verdict->turned_by = VerdictTurnedBy::both;
    answer.verdict->as_weighed = FinenessVerdict::fine_enough;
    answer.no_fit = {"a curve: its slope runs away"};
    for (auto& each : answer.fits) each.straight_line.reset();
    answer.surface.reset(), answer.fineness_modulus.reset();
    text += whole(sieve_page(answer)) + "\n" + whole_json(sieve_json(answer));
    check_expected("report", "sieved-for-a-paint", text);
}

TEST_CASE("Mulling that has gone on too long, whole", "[unit]") {
    MullQuestion asked{{{minutes(0), micrometres(110)}, {minutes(10), micrometres(60)}, {minutes(20), micrometres(42)}, {minutes(60), micrometres(30)}}, {}, micrometres(2), minutes(10)};
    std::string text;
    for (const auto& target : {std::optional<Length>(), std::optional(micrometres(45)), std::optional(micrometres(29))}) {
        asked.target = target;
        const auto answer = plan_mulling(asked);
        text += whole(mull_page(answer)) + "\n" + whole_json(mull_json(answer));
    }
    check_expected("report", "mulled-too-long", text);
}

TEST_CASE("Grinding that will not get there, or in one go, or for a finer grain, whole", "[unit]") {
    auto question = grind_question({early(), late()});
    question.target.id = "watercolour-pan", question.target.name = "Watercolour in pans";
    question.target.grain = Estimate<Length>::exact(micrometres(20.0), {Origin::common_practice, "", false});
    const auto answer = planned(question);
    REQUIRE(answer.ways.size() > 1);
    const auto told = [](const GrindAnswer& each) { return whole(grind_page(each)) + "\n" + whole_json(grind_json(each)); };
    check_expected("report", "ground-for-a-paint", told(answer));
    auto never = answer; // as when each way ends on a stay that no round brings down
    never.ways.clear();
    never.out_of_reach = {"dry sieving: what stays no longer breaks", "levigation in rounds: more than 200 rounds"};
    never.one_long_grind.reset(), never.forecast_far = false;
    never.why_no_time = "the fit goes to a stay of 4 %";
    never.cushioning_range.reset();
    check_expected("report", "ground-in-vain", told(never));
    auto once = answer;
    once.out_of_reach = {"levigation in rounds: more than 200 rounds"};
    once.ways.front().plan.in_rounds = false;
    once.ways.front().needed.reset(), once.ways.front().stays_after_two.reset();
    once.one_long_grind->high.reset();
    check_expected("report", "ground-in-one-go", told(once));
    auto surely = answer;
    auto& way = surely.ways.front();
    REQUIRE(way.plan.in_rounds);
    const auto rounds = [&](unsigned low, std::optional<unsigned> high) {
        way.needed = RoundsNeeded{low, high};
        return told(surely);
    };
    std::string text = rounds(6, 6u) + rounds(5, std::nullopt) + rounds(6, 7u);
    surely.rounds_left = RoundsLeft{{grams(2.0), 2, minutes(10), std::nullopt}, way, 0.6, true, 0, {0, 1u}};
    text += told(surely);
    surely.rounds_left->more = 1, surely.rounds_left->range = {1, 1u}, surely.rounds_left->beyond_model = false;
    for (auto& row : surely.rows) row.d50.reset();
    text += told(surely);
    surely.rounds_left->range = {1, std::nullopt};
    surely.rows.back().d50 = Percentile{micrometres(45), Reach::below_finest};
    surely.rows.front().d50 = Percentile{micrometres(250), Reach::above_coarsest};
    text += told(surely);
    surely.rounds_left->more.reset(), surely.rounds_left->range = {58, std::nullopt};
    text += told(surely);
    check_expected("report", "ground-in-so-many-rounds", text);
}
