// What one weighing of the mortar's load tells by one screen, reckoned again here: its gain, and the rounds that are left.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "support/one_screen_plan.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// What stays of six mortars after so many rounds of so many minutes, from a little more than the model can leave to less.
void check_weighings(unsigned rounds, double cycle) {
    auto asked = asked_for(0.01);
    asked.habits.sieving_repeats_to = Estimate<MassFraction>::exact(MassFraction::of(0.0), {Origin::estimate, "judgement", false}); // a sure scale
    const auto open = planned(asked);
    GrindWay way = *way_by(open, ScreeningAdvice::dry_sieving);
    way.plan.cycle = minutes(cycle);
    const auto left_by = [&](double exponent) { return stays(load_of(open, exponent), way, rounds); };
    struct Row {
        double stays, exponent;
        bool beyond;
    };
    int weighed = 0;
    for (const Row& row : {Row{left_by(0.0) * 1.03, 0.0, true}, Row{left_by(0.0) * 1.01, 0.0, false}, Row{left_by(0.6), 0.6, false},
                           Row{left_by(1.9), 1.9, false}, Row{left_by(2.0) * 0.99, 2.0, false}, Row{left_by(2.0) * 0.97, 2.0, true}}) {
        if (row.stays < 0.001) continue; // of 20 g, which a kitchen scale does not see
        ++weighed;
        asked.say.weighed = WeighedStay{row.stays * open.charge, rounds, minutes(cycle), ScreeningAdvice::dry_sieving};
        const auto known = planned(asked);
        REQUIRE(known.rounds_left);
        const auto& left = *known.rounds_left;
        CHECK(left.exponent == Approx(row.exponent).margin(1e-6));
        CHECK(left.beyond_model == row.beyond);
        CHECK(left.weighed.rounds == rounds);
        CHECK(in_minutes(left.way.plan.cycle) == Approx(cycle));
        CHECK(left.way.separation.kind == ScreeningAdvice::dry_sieving);
        const auto run = run_rounds(load_of(open, left.exponent), way.separation, way.plan.cycle, {0.01, 60, left.way.separate_first});
        CHECK(left.way.plan.run.rounds.size() == run.rounds.size());
        CHECK(left.way.plan.run.remains == Approx(run.remains).epsilon(1e-9));
        const auto more = [&](unsigned all) { return all > rounds ? all - rounds : 0u; };
        CHECK(left.more.has_value() == run.reached);
        if (run.reached) CHECK(left.more == more(grinds(load_of(open, left.exponent), left.way, 0.01)));
    }
    CHECK(weighed > 2);
}

} // namespace

TEST_CASE("one weighing says what an emptier mortar gains, within what the model can leave", "[reference]") { check_weighings(1, 30.0); }
TEST_CASE("two short rounds say what an emptier mortar gains", "[reference]") { check_weighings(2, 4.0); }
TEST_CASE("six very short rounds say what an emptier mortar gains", "[reference]") { check_weighings(6, 2.0); }

TEST_CASE("the rounds that are left are ranks among mortars that leave what was weighed", "[reference]") {
    for (const double exponent : {0.3, 0.9}) {
        auto asked = asked_for(0.01);
        asked.habits.sieving_repeats_to = Estimate<MassFraction>::exact(MassFraction::of(0.0), {Origin::estimate, "judgement", false});
        const auto open = planned(asked);
        const auto& way = *way_by(open, ScreeningAdvice::dry_sieving);
        const double weighed = stays(load_of(open, exponent), way, 2);
        asked.say.weighed = WeighedStay{weighed * open.charge, 2, way.plan.cycle, ScreeningAdvice::dry_sieving};
        const auto known = planned(asked);
        REQUIRE(known.rounds_left);
        std::vector<unsigned> counts;
        for (auto load : drawn_loads(open, 0.0)) {
            double low = 0.0, high = 2.0; // the more an emptier mortar gains, the less stays
            for (int i = 0; i < 60; ++i) {
                load.load_exponent = 0.5 * (low + high);
                (stays(load, way, 2) > weighed ? low : high) = load.load_exponent;
            }
            const unsigned all = grinds(load, way, 0.01);
            counts.push_back(all > 2 ? all - 2 : 0);
        }
        check_needed(known.rounds_left->range, counts);
        CHECK(known.rounds_left->more == grinds(load_of(open, exponent), way, 0.01) - 2);
    }
}

TEST_CASE("the doubt of a weighing spreads the rounds that are left", "[reference]") {
    // By 400 drawings here: what stays is off by a sieve test's repeatability, 2 % sqrt(s (1 - s)); a rank of a hundred may
    // be off by a few of its own.
    auto asked = asked_for(0.001);
    asked.habits.cushioning.latent_deviation = 1e-9; // little else is in doubt, and rounds are short and many
    const auto open = planned(asked);
    GrindWay way = *way_by(open, ScreeningAdvice::dry_sieving);
    way.plan.cycle = minutes(1);
    const double weighed = stays(load_of(open, 0.5), way, 2), u = 0.02 * std::sqrt(weighed * (1.0 - weighed));
    asked.say.weighed = WeighedStay{weighed * open.charge, 2, way.plan.cycle, ScreeningAdvice::dry_sieving};
    const auto known = planned(asked);
    REQUIRE(known.rounds_left);
    RandomEngine engine(99);
    std::vector<unsigned> counts;
    for (int again = 0; again < 4; ++again)
        for (auto load : drawn_loads(open, 0.0)) {
            const double seen = weighed + u * standard_normal(engine);
            double low = 0.0, high = 2.0;
            for (int i = 0; i < 25; ++i) {
                load.load_exponent = 0.5 * (low + high);
                (stays(load, way, 2) > seen ? low : high) = load.load_exponent;
            }
            const unsigned all = grinds(load, way, 0.001);
            counts.push_back(all > 2 ? all - 2 : 0);
        }
    const auto& range = known.rounds_left->range;
    CHECK(range.low >= ranked(counts, 0.02));
    CHECK(range.low <= ranked(counts, 0.10));
    REQUIRE(range.high);
    CHECK(*range.high >= ranked(counts, 0.90));
    CHECK(*range.high <= ranked(counts, 0.98));
}

TEST_CASE("rounds that were weighed belong to a way of the plan", "[errors]") {
    auto asked = asked_for(0.01);
    asked.say.cycle = minutes(5); // the maker's own rounds are no plan
    for (const auto kind : {ScreeningAdvice::dry_sieving, ScreeningAdvice::wet_screening}) {
        asked.say.weighed = WeighedStay{grams(5), 2, minutes(6), kind};
        const auto known = planned(asked);
        REQUIRE(known.rounds_left);
        CHECK(known.rounds_left->way.separation.kind == kind);
        CHECK_FALSE(known.rounds_left->way.own);
        CHECK(in_minutes(known.rounds_left->way.plan.cycle) == Approx(6.0));
    }
    asked.say.weighed = WeighedStay{grams(5), 2, minutes(6), {}}; // as the plan recommends: the best that is in rounds
    const auto usual = planned(asked);
    for (const auto& way : usual.ways)
        if (way.plan.in_rounds && !way.own) {
            CHECK(usual.rounds_left->way.separation.kind == way.separation.kind);
            CHECK(usual.rounds_left->way.separate_first == way.separate_first);
            break;
        }
    for (const double grams_left : {20.0, 22.0}) {
        asked.say.weighed = WeighedStay{grams(grams_left), 2, minutes(6), {}};
        CHECK(told_in_full([&] { (void)planned(asked); }) == "mass that stays: " + std::to_string(static_cast<int>(grams_left)) +
                                          " g | below the charge of the last sieve test, 20 g | weigh what goes back to the mortar, dry, and grind the charge of the test");
    }
    asked.say.weighed = WeighedStay{grams(19.99), 2, minutes(6), {}};
    CHECK(told_in_full([&] { (void)planned(asked); }) == "taken");
    auto finer = asked_for(0.01, 1.0, 45.0);
    finer.say.weighed = WeighedStay{grams(5), 2, minutes(6), ScreeningAdvice::dry_sieving};
    CHECK(told_in_full([&] { (void)planned(finer); }) ==
          "rounds that were weighed: none of the plan | rounds of a way that the plan names | name the way as the plan does: dry, wet or levigated");
}

TEST_CASE("a weighed mortar that 60 rounds do not bring there is told so, and the rounds end at those looked at", "[unit]") {
    auto asked = asked_for(0.01);
    asked.habits.sieving_repeats_to = Estimate<MassFraction>::exact(MassFraction::of(0.0), {Origin::estimate, "judgement", false});
    const auto open = planned(asked);
    GrindWay way = *way_by(open, ScreeningAdvice::dry_sieving);
    way.plan.cycle = seconds(2);
    const double stayed = stays(load_of(open, 0.5), way, 2);
    for (const unsigned rounds : {2u, 40u}) {
        asked.say.weighed = WeighedStay{stayed * open.charge, rounds, seconds(2), ScreeningAdvice::dry_sieving};
        const auto known = planned(asked);
        REQUIRE(known.rounds_left);
        CHECK_FALSE(known.rounds_left->way.plan.run.reached);
        CHECK_FALSE(known.rounds_left->more);
        CHECK(known.rounds_left->range.low == 60 - rounds);
        CHECK_FALSE(known.rounds_left->range.high);
    }
}
