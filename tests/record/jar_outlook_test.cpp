// What a record says of one jar: against the check cases of the model, and as identities.

#include "lakebound/record/jar_outlook.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "lakebound/quantity/error.hpp"
#include "record/stated_priors.hpp"
#include "support/bench_practice.hpp"

using namespace lakebound;
using namespace lakebound::test;

namespace {

using Jars = lakebound::test::Bench; ///< of one plant; the last is asked about

LearningHabits habits(const DemandWorld& world) {
    LearningHabits h;
    h.priors = world.priors;
    h.binders[0] = {world.kinds[gum], hours(24), false, "gum-water"};
    h.binders[1] = {world.kinds[oil], hours(168), false, "linseed"};
    h.binders[2] = {{0.113, 0.04}, hours(24), false, "yolk-water"};
    h.batch_spread = batch_spread;
    h.rub_out = minutes(10), h.rub_out_powder = grams(2);
    h.solids_test = minutes(20), h.solids_waiting = hours(24);
    h.one_swatch = minutes(10), h.two_swatches = minutes(15), h.four_swatches = minutes(30);
    h.swatch_powder = grams(0.2), h.swatch_steps = 10.0;
    h.minutes_for_a_day = 20.0, h.minutes_for_a_gram = 20.0;
    h.usual_target = 0.95, h.least_gain_per_minute = 0.001, h.surprise = 0.01;
    h.kin_worth_saying = 2.0, h.kin_unlike = 2.5;
    return h;
}

lakebound::Bench bench_of(double step) {
    auto b = lakebound::testing::bare_bench();
    b.scales = {{"scale", grams(step), {}, {}}};
    return b;
}

JarQuestion question(const Jars& bench, const DemandWorld& world) {
    JarQuestion q;
    q.world = world;
    q.record = bench.record;
    q.asked = {bench.asked(), gum, {}};
    q.window = pan_window();
    q.batch_spread = batch_spread;
    q.habits = habits(world);
    q.bench = bench_of(0.01);
    q.process = Process::watercolour;
    // Gum water, a third gum of 88 % solids at 1.42.
    q.swatch = SwatchPaint{millilitres(0.65 / 0.93) / grams(1.0), millilitres(0.88 / 3.0 / 1.42) / grams(1.0)};
    return q;
}

} // namespace

TEST_CASE("The outlook is the belief, by the jar's own demand", "[reference]") {
    // Case K6 of the model's check cases (docs/theory.md): 78; 1.20 chalks, 1.35 holds. Mean ln c .2116, sd .0954,
    // best k 1.815 and 96.36 % there; by another program, of brute quadrature and of Gibbs sampling.
    const auto bench = Jars().rub_out({78}).chalks({1.20}).does_not({1.35});
    const JarOutlook o = jar_outlook(question(bench, plain_world()));
    CHECK(std::log(o.demand_over_library) == Approx(0.2116).margin(1e-3));
    CHECK(o.doubt.mean() == Approx(0.0).margin(1e-9));
    CHECK(o.doubt.standard_deviation() == Approx(0.0954).margin(1e-3));
    CHECK(o.aim.value() == Approx(1.815 / std::exp(0.2116)).epsilon(0.01));
    CHECK(100.0 * o.coaching.now.chance.value() == Approx(96.36).margin(0.1));
    CHECK(o.own_k(o.coaching.now.library_k).value() == Approx(o.aim.value()).epsilon(1e-12));
    CHECK(o.demand_low < o.demand_over_library);
    CHECK(o.demand_high > o.demand_over_library);
    // K2: what one rub-out leaves, and K1: what nothing leaves. The parts of the record are worth just that.
    CHECK(100.0 * o.library.chance.value() == Approx(46.98).margin(0.1));
    CHECK(100.0 * o.own_readings.chance.value() == Approx(80.55).margin(0.1));
    CHECK(o.own_paints.paints == 2);
    CHECK(o.kin.readings == 0);
    CHECK_FALSE(o.unlike_its_kin);
}

TEST_CASE("Kin is told apart from what the jar itself showed", "[reference]") {
    // K17: kin 72 81 69, this one 115: 2.28 sd at a spread of .15 between jars.
    const auto bench = Jars(3).rub_out_of(0, {72}).rub_out_of(1, {81}).rub_out_of(2, {69}).rub_out({115});
    const JarOutlook o = jar_outlook(question(bench, plain_world()));
    CHECK(o.kin_distance.in_spreads == Approx(2.28).margin(0.02));
    CHECK(o.worth_saying);
    CHECK_FALSE(o.unlike_its_kin);
    CHECK(o.kin.readings == 3);
    CHECK(o.own_readings.readings == 1);
    // Further off it is reckoned by itself: as if it had no kin, but for a wider doubt.
    const auto far = Jars(3).rub_out_of(0, {72}).rub_out_of(1, {81}).rub_out_of(2, {69}).rub_out({150});
    CHECK(jar_outlook(question(far, plain_world())).unlike_its_kin);
    // Jars of other plants are no kin.
    auto alone = far;
    for (std::size_t i = 0; i < 3; ++i)
        alone.record.jars[i].plant = i + 1;
    CHECK_FALSE(jar_outlook(question(alone, plain_world())).worth_saying);
}

TEST_CASE("An entry that all the rest makes unlikely is told", "[unit]") {
    // K23: 65, and then 3.0 chalks: chance 5.8e-7 (by brute quadrature in another program).
    const auto bench = Jars().rub_out({65}).chalks({3.0});
    const JarOutlook o = jar_outlook(question(bench, plain_world()));
    REQUIRE(o.surprises.size() == 2); // each by the other: both are to be read again
    CHECK(o.surprises[0].trial == 0u);
    // Of two paints the one that was judged last is looked at, wherever it stands.
    auto two = question(Jars().rub_out({65}).chalks({9.0, 1.0}), plain_world());
    const auto looked_at = [&](std::optional<std::size_t> last) {
        two.last_judged = last;
        std::vector<std::size_t> trials;
        for (const auto& surprise : jar_outlook(two).surprises)
            if (surprise.trial) trials.push_back(*surprise.trial);
        return trials;
    };
    CHECK(looked_at(0u) == std::vector<std::size_t>{0u});
    CHECK(looked_at(1u).empty());
    CHECK(looked_at({}).empty());
    CHECK(o.surprises[0].chance.value() < 1e-5);
    CHECK(o.surprises[1].rub_out == 0u);
    CHECK(jar_outlook(question(Jars().rub_out({65}).chalks({1.0}), plain_world())).surprises.empty());
    CHECK(jar_outlook(question(Jars(1).rub_out_of(0, {65}).rub_out({200}), plain_world())).surprises.size() == 1);
}

TEST_CASE("Swatches are planned on the scale that is there", "[unit]") {
    auto q = question(Jars().rub_out({78}), plain_world());
    const JarOutlook fine = jar_outlook(q);
    REQUIRE(fine.swatches.size() >= 1);
    CHECK(in_grams(fine.swatches[0].powder) == Approx(0.2));
    q.bench = bench_of(0.1);
    const JarOutlook coarse = jar_outlook(q);
    CHECK(in_grams(coarse.swatches[0].powder) == Approx(1.0)); // ten steps
    // Weighed as told, it is of the k that is told: V_b/(m q).
    for (const auto& s : fine.swatches) {
        const double k = in_grams(s.medium) * 0.88 / 3.0 / 1.42 / (in_grams(s.powder) * 0.65 / 0.93);
        CHECK(s.library_k.value() == Approx(k).epsilon(1e-9));
        CHECK(s.spread == Approx(std::hypot(0.0041 / in_grams(s.powder), 0.0041 / in_grams(s.medium))).epsilon(0.01));
    }
    q.swatch.reset();
    for (const auto& step : jar_outlook(q).coaching.steps)
        CHECK(step.cost.kind != StepKind::swatches);
}

TEST_CASE("No test is advised that takes more than there is", "[unit]") {
    const auto bench = Jars().rub_out({78});
    auto q = question(bench, plain_world());
    const auto kinds = [&](Mass left) {
        q.left = left;
        std::vector<StepKind> found;
        for (const CoachStep& step : jar_outlook(q).coaching.steps)
            if (std::find(found.begin(), found.end(), step.cost.kind) == found.end()) found.push_back(step.cost.kind);
        std::sort(found.begin(), found.end());
        return found;
    };
    using Kinds = std::vector<StepKind>;
    CHECK(kinds(grams(2.0)) == Kinds{StepKind::rub_out, StepKind::solids_test, StepKind::swatches}); // a rub-out takes 2 g
    CHECK(kinds(grams(1.9)) == Kinds{StepKind::solids_test, StepKind::swatches});
    CHECK(kinds(grams(0.1)) == Kinds{StepKind::solids_test});
    q.left = grams(0.3); // one swatch, but not two
    for (const CoachStep& step : jar_outlook(q).coaching.steps)
        CHECK(step.cost.swatches < 2);
}

TEST_CASE("A paint of the jar alone takes up its demand; a blend only its oil absorption", "[identity]") {
    const auto bench = Jars().rub_out({78}).chalks({1.20}).does_not({1.35});
    const JarOutlook o = jar_outlook(question(bench, plain_world()));
    const DemandReference reference{grams_per_100_grams(65), grams_per_cubic_centimetre(0.93)};
    BatchRequest request;
    request.recipe.pigments = {{Pigment{}, MassFraction::of(1.0)}};
    take_up(request, 0, o, reference);
    REQUIRE(request.learned_doubt);
    const double demand = in_millilitres_per_gram(demand_of(request.recipe.pigments[0]));
    CHECK(demand == Approx(0.65 / 0.93 * o.demand_over_library).epsilon(1e-12));
    BatchRequest blend;
    blend.recipe.pigments = {{Pigment{}, MassFraction::of(0.5)}, {Pigment{}, MassFraction::of(0.5)}};
    take_up(blend, 1, o, reference);
    CHECK_FALSE(blend.learned_doubt);
    CHECK(blend.recipe.pigments[1].step_from_oil == Approx(1.0));
    CHECK(in_grams_per_100_grams(blend.recipe.pigments[1].pigment.oil_absorption.value().value()) ==
          Approx(in_grams_per_100_grams(o.oil_absorption.value())));
}

TEST_CASE("The powder's own oil absorption is in doubt by the hand that read it", "[unit]") {
    // By hand: prior .26 (+) .15, one rub-out of hand .05 (+) repeat .095: precisions add.
    const JarOutlook o = jar_outlook(question(Jars().rub_out({78}), plain_world()));
    const double prior = 1.0 / (0.26 * 0.26 + 0.15 * 0.15), read = 1.0 / (0.05 * 0.05 + 0.095 * 0.095);
    CHECK(o.oil_absorption_spread == Approx(1.0 / std::sqrt(prior + read)).epsilon(1e-6));
    CHECK(std::log(in_grams_per_100_grams(o.oil_absorption.value()) / 65.0) ==
          Approx(std::log(78.0 / 65.0) * read / (prior + read)).epsilon(1e-6));
}

TEST_CASE("A figure brought in with its doubt is believed as far as that", "[unit]") {
    const auto belief = [](double spread) {
        Jars bench;
        bench.record.rub_outs.push_back({0, grams_per_100_grams(78), 0, 0.0, spread});
        return bench.belief(plain_world()).critical();
    };
    // As uncertain as one rub-out of the record, it says the same: hand .05 and repeat .095 are .1074.
    const auto one = Jars().rub_out({78}).belief(plain_world()).critical();
    CHECK(belief(std::hypot(0.05, 0.095)).mean() == Approx(one.mean()).margin(1e-9));
    CHECK(belief(std::hypot(0.05, 0.095)).standard_deviation() == Approx(one.standard_deviation()).margin(1e-9));
    CHECK(belief(0.06).standard_deviation() < one.standard_deviation());
    CHECK(belief(0.30).standard_deviation() > one.standard_deviation());
    // Never surer than the hand that made it.
    CHECK(belief(0.0).standard_deviation() > std::sqrt(0.05 * 0.05 + 0.08 * 0.08));
}

TEST_CASE("one rub-out of one other jar is a record of its kin", "[unit]") {
    // K1: what the library alone leaves is 46.98 %; with a jar of the same plant at what the class does it is more.
    const auto bench = Jars(1).rub_out_of(0, {65});
    const JarOutlook o = jar_outlook(question(bench, plain_world()));
    CHECK(o.kin.readings == 1);
    CHECK(100.0 * o.library.chance.value() == Approx(46.98).margin(0.1));
    CHECK(o.kin.chance.value() > o.library.chance.value() + 0.01);
    CHECK(o.kin.chance.value() == Approx(o.coaching.now.chance.value()).margin(1e-9));
}

TEST_CASE("as many paints of its kin as rub-outs are a record too", "[unit]") {
    const auto bench = Jars(1).rub_out_of(0, {80}).trial_of(0, gum, 1.2, PaintOutcome::lean).does_not({1.5});
    const JarOutlook o = jar_outlook(question(bench, plain_world()));
    CHECK(o.kin.readings == 1);
    CHECK(o.kin.paints == 1);
    CHECK(std::abs(o.kin.chance.value() - o.library.chance.value()) > 0.001);
    CHECK(o.own_readings.chance == o.kin.chance); // it was never read itself
    CHECK(std::abs(o.own_paints.chance.value() - o.kin.chance.value()) > 0.001);
    CHECK(o.own_paints.chance == o.coaching.now.chance);
}

TEST_CASE("what its kin foretells of a jar does not depend on how often the jar itself was read", "[identity]") {
    const auto distance = [](std::initializer_list<double> own) {
        const auto bench = Jars(2).rub_out_of(0, {72}).rub_out_of(1, {84}).rub_out(own);
        return kin_distance(plain_world(), bench.record, bench.asked());
    };
    const auto once = distance({90}), twice = distance({90, 90}), thrice = distance({90, 90, 90});
    // But for what its own readings say of how far jars differ: a hundredth.
    CHECK(twice.expected == Approx(once.expected).margin(0.01));
    CHECK(thrice.expected == Approx(once.expected).margin(0.01));
    CHECK(twice.reading == Approx(once.reading).epsilon(1e-12));
    CHECK(once.reading == Approx(std::log(90.0 / 65.0)).epsilon(1e-12));
    // Of two readings the mean scatters less about what is foretold, but never less than jars differ.
    CHECK(twice.expected_spread < once.expected_spread);
    CHECK(thrice.expected_spread < twice.expected_spread);
    CHECK(thrice.expected_spread > 0.15);
    CHECK(distance({81, 100}).reading == Approx(0.5 * std::log(81.0 * 100.0 / (65.0 * 65.0))).epsilon(1e-12));
}

TEST_CASE("A slipped point is told as unlikely and refused by nothing", "[unit]") {
    auto thirsty = Jars().chalks({90.0});
    thirsty.record.jars[0].reference = grams_per_100_grams(200.0);
    const auto o = jar_outlook(question(thirsty, plain_world()));
    REQUIRE(o.surprises.size() == 1);
    CHECK(o.surprises[0].chance.value() < 1e-3);
    CHECK(in_grams_per_100_grams(o.oil_absorption.value()) == Approx(400.0)); // the most that any powder takes
}

TEST_CASE("The demand that is believed is that of the outlook", "[identity]") {
    const auto q = question(Jars().rub_out({78}).chalks({1.20}).does_not({1.35}), plain_world());
    const auto outlook = jar_outlook(q);
    const DemandBelief belief = believed_demand(q);
    CHECK(belief.critical().mean() == Approx(std::log(outlook.demand_over_library)).margin(1e-9));
    CHECK(belief.critical().standard_deviation() == Approx(outlook.doubt.standard_deviation()).margin(1e-9));
}

TEST_CASE("Every figure of an outlook is that of its belief", "[identity]") {
    for (const auto& bench : {Jars().rub_out({78}).chalks({1.20}).does_not({1.35}), Jars(1).rub_out_of(0, {80}).chalks({1.0}), Jars()})
        for (const bool odd : {false, true}) {
            CAPTURE(bench.record.trials.size(), odd);
            auto q = question(bench, odd ? stated_world() : plain_world());
            q.habits.binders[0].watched = odd;
            const JarOutlook o = jar_outlook(q);
            const DemandBelief belief = believed_demand(q);
            const NormalMixture all = belief.gathered_doubt(0.0);
            CHECK(std::log(o.demand_over_library) == Approx(-all.mean()).margin(1e-12));
            CHECK(o.doubt.standard_deviation() == Approx(all.standard_deviation()).epsilon(1e-12));
            // Nine in ten of what the factor may be, one in twenty on either side.
            CHECK(o.doubt.below(std::log(o.demand_over_library / o.demand_low)).value() == Approx(0.95).margin(1e-8));
            CHECK(o.doubt.below(std::log(o.demand_over_library / o.demand_high)).value() == Approx(0.05).margin(1e-8));
            CHECK(o.odd_maker == Approx(belief.odd_weight()).margin(1e-12));
            double mean = 0.0, square = 0.0;
            for (const DemandPart& part : belief.parts)
                for (const DemandNode& n : part.nodes)
                    mean += n.weight * n.powder, square += n.weight * (n.powder * n.powder + part.powder_spread * part.powder_spread);
            CHECK(in_grams_per_100_grams(*o.oil_absorption) == Approx(65 * std::exp(mean)).epsilon(1e-12));
            CHECK(o.oil_absorption_spread == Approx(std::sqrt(square - mean * mean)).epsilon(1e-9));
            CHECK(o.step_from_oil == Approx(o.demand_over_library / std::exp(mean)).epsilon(1e-12));
            CHECK(o.aim.value() == Approx(o.coaching.now.library_k.value() / o.demand_over_library).epsilon(1e-12));

            // The coach is asked of swatches as they are weighed: .2 g of powder, and at k 1 so much medium to .01 g.
            const double medium = std::round(100 * 0.2 * 0.65 / 0.93 / (0.88 / 3.0 / 1.42)) / 100;
            const SwatchTest test{std::hypot(0.0041 / 0.2, 0.0041 / medium), odd};
            const PaintGoal goal{pan_window(), batch_spread};
            CHECK(o.coaching.even_bet.value() == Approx(even_bet(belief, test.weighing_spread).value()).epsilon(1e-13));
            CHECK(o.coaching.now.chance == best_mixing_point(belief, goal).chance);
            REQUIRE(o.coaching.steps.size() == 5);
            for (const CoachStep& step : o.coaching.steps)
                for (const BinderSufficiency k : step.at)
                    CHECK(swatch_of(k, *q.swatch, q.habits, q.bench).library_k.value() == Approx(k.value()).epsilon(1e-12));
            std::vector<BinderSufficiency> at{o.coaching.even_bet};
            if (const auto best = o.coaching.recommended; best && !o.coaching.steps[*best].at.empty()) at = o.coaching.steps[*best].at;
            REQUIRE(o.swatches.size() == at.size());
            for (std::size_t i = 0; i < at.size(); ++i)
                CHECK(o.swatches[i].library_k == swatch_of(at[i], *q.swatch, q.habits, q.bench).library_k);
        }
}

TEST_CASE("What parts of a record are worth is what a record of that part alone is worth", "[identity]") {
    const auto chance = [](const Jars& bench) {
        return best_mixing_point(bench.belief(plain_world()), {pan_window(), batch_spread}).chance.value();
    };
    for (const bool kin : {false, true})
        for (const bool read : {false, true})
            for (const bool painted : {false, true}) {
                CAPTURE(kin, read, painted);
                Jars nothing(1), of_kin(1), of_reading(1), all(1);
                for (Jars* each : {&of_kin, &of_reading, &all})
                    if (kin) each->rub_out_of(0, {83}).trial_of(0, gum, 1.2, PaintOutcome::lean);
                for (Jars* each : {&of_reading, &all})
                    if (read) each->rub_out({78});
                if (painted) all.chalks({1.1});
                const JarOutlook o = jar_outlook(question(all, plain_world()));
                CHECK(o.library.chance.value() == Approx(chance(nothing)).margin(1e-12));
                CHECK(o.kin.chance.value() == Approx(chance(of_kin)).margin(1e-12));
                CHECK(o.own_readings.chance.value() == Approx(chance(of_reading)).margin(1e-12));
                CHECK(o.own_paints.chance.value() == Approx(chance(all)).margin(1e-12));
                CHECK(o.kin.readings == (kin ? 1u : 0u));
                CHECK(o.kin.paints == (kin ? 1u : 0u));
                CHECK(o.own_readings.readings == (read ? 1u : 0u));
                CHECK(o.own_paints.paints == (painted ? 1u : 0u));
            }
}

TEST_CASE("Limits of a jar's habits hold from both sides", "[unit]") {
    // Twelve steps where no rule says how many.
    auto q = question(Jars().rub_out({78}), plain_world());
    const auto advice = [&q](std::size_t done) {
        q.rule.steps_done = done;
        return jar_outlook(q).coaching.advice;
    };
    CHECK(advice(11) == CoachAdvice::measure);
    CHECK(advice(12) == CoachAdvice::steps_used_up);
    q.rule.most_steps = 3;
    CHECK(advice(2) == CoachAdvice::measure);
    CHECK(advice(3) == CoachAdvice::steps_used_up);
    // The least gain: that of the habits, or of the rule.
    q.rule = {};
    const auto& best = jar_outlook(q).coaching.steps;
    double most = 0.0;
    for (const CoachStep& step : best)
        most = std::max(most, step.gain / in_minutes(step.cost.attention));
    for (const auto& [least, pays] : {std::pair{most * 0.999, true}, {most * 1.001, false}}) {
        q.rule = {};
        q.habits.least_gain_per_minute = least;
        CHECK((jar_outlook(q).coaching.advice == CoachAdvice::measure) == pays);
        q.habits.least_gain_per_minute = 0.001;
        q.rule.least_gain_per_minute = least;
        CHECK((jar_outlook(q).coaching.advice == CoachAdvice::measure) == pays);
    }
    // A surprise is less likely than the habit bears.
    auto odd = question(Jars().rub_out({65}).chalks({2.2}), plain_world());
    odd.habits.surprise = 0.5;
    const auto all = jar_outlook(odd).surprises;
    REQUIRE(all.size() == 2);
    for (const Surprise& each : all)
        for (const double times : {0.999, 1.001}) {
            odd.habits.surprise = each.chance.value() * times;
            const auto found = jar_outlook(odd).surprises;
            CHECK(std::any_of(found.begin(), found.end(), [&](const Surprise& s) { return s.trial == each.trial; }) == (times > 1));
        }
    // Unlike its kin, on either side.
    for (const double oil : {150.0, 34.0}) {
        auto far = question(Jars(3).rub_out_of(0, {72}).rub_out_of(1, {81}).rub_out_of(2, {69}).rub_out({oil}), plain_world());
        const double distance = std::abs(jar_outlook(far).kin_distance.in_spreads);
        for (const double times : {0.999, 1.001}) {
            far.habits.kin_worth_saying = distance * times, far.habits.kin_unlike = 100;
            CHECK(jar_outlook(far).worth_saying == (times < 1));
            CHECK_FALSE(jar_outlook(far).unlike_its_kin);
            far.habits.kin_worth_saying = 100, far.habits.kin_unlike = distance * times;
            CHECK(jar_outlook(far).unlike_its_kin == (times < 1));
            CHECK_FALSE(jar_outlook(far).worth_saying);
        }
    }
}

TEST_CASE("What a paint takes up of a record has the record for its source", "[unit]") {
    const JarOutlook o = jar_outlook(question(Jars().rub_out({78}), plain_world()));
    BatchRequest request;
    request.recipe.pigments = {{Pigment{}, MassFraction::of(1.0)}};
    const auto guess = Estimate<OilAbsorption>::exact(grams_per_100_grams(65), {});
    request.recipe.pigments[0].pigment.oil_absorption_belief = OilAbsorptionBelief{guess, guess};
    take_up(request, 0, o, {grams_per_100_grams(65), grams_per_cubic_centimetre(0.92)});
    const PigmentPart& part = request.recipe.pigments[0];
    CHECK(part.pigment.oil_absorption->provenance().origin == Origin::measured);
    CHECK(part.pigment.oil_absorption->provenance().source == record_source);
    CHECK(part.pigment.oil_absorption->relative_uncertainty() == Approx(o.oil_absorption_spread).epsilon(1e-12));
    CHECK(in_grams_per_cubic_centimetre(part.pigment.test_oil_density.value()) == Approx(0.92));
    CHECK_FALSE(part.pigment.oil_absorption_belief);
    CHECK(part.step_from_oil == Approx(o.step_from_oil).epsilon(1e-12));
    CHECK(request.learned_doubt->standard_deviation() == Approx(o.doubt.standard_deviation()).epsilon(1e-12));
}
