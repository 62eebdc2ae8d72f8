#include "lakebound/paint/pvc_subject.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "support/worked_paints.hpp"

using namespace worked;

namespace {

PvcQuestion question(Recipe recipe, double k) {
    PvcQuestion asked;
    asked.request = request(std::move(recipe), grams(10));
    asked.request.aim = BinderSufficiency::of(k);
    asked.pigment = grams(10);
    return asked;
}

} // namespace

TEST_CASE("rescue from sticking is answered where it sticks or where it is asked for", "[unit]") {
    const auto sticky = [](double humidity, std::optional<VolumeFraction> soft_aim, Recipe recipe) {
        auto asked = question(std::move(recipe), 1.4);
        asked.request.bench.humidity = RelativeHumidity::of(humidity);
        asked.rescue = RescueWish{BinderSufficiency::of(1.4), {}, {}, soft_aim};
        return pvc_subject(asked).rescue->sticky.has_value();
    };
    CHECK_FALSE(sticky(0.3, {}, watercolour()));
    CHECK(sticky(0.9, {}, watercolour()));
    CHECK(sticky(0.3, VolumeFraction::of(0.3), watercolour()));
    CHECK_FALSE(sticky(0.9, {}, oil_paint()));
}

TEST_CASE("a rescue comes back to its aim, or to where the window is likeliest met", "[identity]") {
    for (const double k : {0.6, 1.1, 3.0}) {
        auto asked = question(watercolour(), k);
        asked.rescue = RescueWish{};
        const auto likeliest = pvc_subject(asked);
        CHECK(likeliest.rescue->aim.value() == Approx(std::sqrt(1.2 * 1.8)).epsilon(1e-12));
        CHECK(likeliest.rescue->checked.value() == Approx(std::sqrt(1.2 * 1.8)).epsilon(1e-9));
        asked.rescue->aim = BinderSufficiency::of(1.3);
        CHECK(pvc_subject(asked).rescue->checked.value() == Approx(1.3).epsilon(1e-9));
    }
}

TEST_CASE("an accepted chance that no aim reaches is told", "[unit]") {
    // "The aim is that of the chance you accept" stood beside a chance of landing of 34 % where 70 % were wished.
    const auto answer = [](double accepted) {
        auto asked = question(watercolour(), 0.6);
        asked.rescue = RescueWish{};
        asked.rescue->accepted = Probability::of(accepted);
        return *pvc_subject(asked).rescue;
    };
    const auto within = answer(0.5), beyond = answer(0.001);
    CHECK(within.by_accepted_chance);
    CHECK(within.accepted_in_reach);
    CHECK(within.chances.in_window.value() == Approx(0.5).margin(1e-6));
    CHECK(beyond.by_accepted_chance);
    CHECK_FALSE(beyond.accepted_in_reach);
    CHECK(beyond.aim.value() == Approx(std::sqrt(1.2 * 1.8)).epsilon(1e-9));
    CHECK(beyond.chances.in_window.value() < 0.999);
}

TEST_CASE("what is not known is not answered", "[unit]") {
    auto asked = question(oil_paint(), 0.5);
    CHECK(will_not_hold(pvc_subject(asked)));
    asked.oil_absorption_known = false;
    const auto unknown = pvc_subject(asked);
    CHECK_FALSE(unknown.answers_k());
    CHECK_FALSE(unknown.base.judgement.has_value());
    CHECK_FALSE(will_not_hold(unknown)); // nothing is said of it
    asked.oil_absorption_known = true, asked.density_known = false;
    CHECK(will_not_hold(pvc_subject(asked)));
    CHECK_FALSE(pvc_subject(asked).blend.has_value());
    auto two = question(blend(), 1.4);
    CHECK(pvc_subject(two).blend.has_value());
    two.density_known = false;
    CHECK_FALSE(pvc_subject(two).blend.has_value());
    // Binder over the CPVC, as medium: oil is all binder, .93 g to the millilitre, and the batch has wax besides.
    auto rich = question(oil_paint(), 1.4);
    rich.request.recipe.additives.clear();
    const auto spare = pvc_subject(rich);
    CHECK(in_grams(*spare.spare_medium) == Approx(0.93 * in_millilitres(*spare.check.spare_binder)).epsilon(1e-9));
}

TEST_CASE("what a rescue adds is told part by part, by the recipe of the medium", "[identity]") {
    auto asked = question(watercolour(), 0.6);
    asked.rescue = RescueWish{};
    const auto answer = *pvc_subject(asked).rescue;
    REQUIRE(answer.medium_parts.size() == 4);
    // 100 gum, 200 water, 25 glycerol, 15 honey.
    const double of[] = {100, 200, 25, 15};
    double sum = 0.0;
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(in_grams(answer.medium_parts[i].mass) ==
              Approx(in_grams(answer.medium_parts[0].mass) * of[i] / 100.0).epsilon(1e-12));
        sum += in_grams(answer.medium_parts[i].mass);
    }
    CHECK(answer.medium_parts[0].id == "gum-arabic");
    CHECK(sum > 1.0);
    // Its binder is what was short of the aim: (1.470 - .6) of what just fills 10 g of the lake.
    const double binder = (std::sqrt(1.2 * 1.8) - 0.6) * 10 * 0.73957;
    CHECK(sum * 0.26392 == Approx(binder).epsilon(1e-3)); // v_b .26392 mL/g (docs/theory.md)
}

TEST_CASE("a blend that was rubbed out is held against the rule of its parts", "[identity]") {
    auto rubbed = question(blend(), 1.4);
    const auto by_rule = pvc_subject(rubbed).blend;
    REQUIRE(by_rule);
    CHECK(by_rule->demand == by_rule->additive_demand);
    rubbed.blend_measured = true;
    rubbed.blend_of = rubbed.request.recipe.pigments;
    rubbed.request.recipe.pigments.resize(1);
    rubbed.request.recipe.pigments[0].share = MassFraction::of(1.0);
    const auto seen = pvc_subject(rubbed).blend;
    REQUIRE(seen);
    CHECK(seen->additive_demand == by_rule->additive_demand);
    CHECK(in_millilitres_per_gram(seen->demand) == Approx(in_millilitres_per_gram(demand_of(rubbed.request.recipe.pigments[0]))).epsilon(1e-9));
    CHECK(seen->demand != by_rule->demand);
    auto unknown = question(blend(), 1.4);
    unknown.oil_absorption_known = false;
    CHECK_FALSE(pvc_subject(unknown).blend);
}

TEST_CASE("a rescue by powder takes it from the jar that is named, or from what the batch leaves", "[unit]") {
    auto rich = question(watercolour(), 3.0);
    rich.rescue = RescueWish{};
    const auto anywhere = pvc_subject(rich).rescue->rescue;
    REQUIRE(anywhere.action == RescueAction::add_pigment);
    CHECK(anywhere.jar_holds_enough);
    const Mass wanted = anywhere.pigment, reserve = rich.request.bench.reserve;
    const auto from_jar = [&](Mass left) {
        rich.rescue->jar = left;
        return pvc_subject(rich).rescue->rescue;
    };
    CHECK(from_jar(wanted + reserve + grams(0.01)).jar_holds_enough);
    const auto short_of = from_jar(wanted + reserve - grams(0.25));
    CHECK_FALSE(short_of.jar_holds_enough);
    CHECK(in_grams(short_of.pigment_short) == Approx(0.25).epsilon(1e-9));
    rich.rescue->jar.reset();
    rich.request.jar = JarOnHand{0, grams(10) + wanted + reserve - grams(0.25)}; // 10 g of it go into the batch
    CHECK(in_grams(pvc_subject(rich).rescue->rescue.pigment_short) == Approx(0.25).epsilon(1e-9));
}

TEST_CASE("with a record of the jar no single test is advised", "[unit]") {
    auto asked = question(watercolour(), 1.4);
    CHECK(pvc_subject(asked).base.next.has_value());
    asked.request.learned_doubt = NormalMixture(0.09);
    const auto learned = pvc_subject(asked);
    CHECK_FALSE(learned.base.next.has_value());
    CHECK(learned.base.judgement.has_value());
}

TEST_CASE("an accepted chance is in reach up to the best aim's own, and not a thousandth beyond", "[unit]") {
    auto asked = question(watercolour(), 0.6);
    asked.rescue = RescueWish{};
    const double best = pvc_subject(asked).base.judgement->in_window_there.value();
    for (const auto& [beyond, in_reach] : {std::pair{-0.01, true}, {-1e-6, true}, {0.0, true}, {1e-6, false}, {5e-4, false}, {0.01, false}}) {
        CAPTURE(beyond);
        asked.rescue->accepted = Probability::of(1.0 - best - beyond);
        CHECK(pvc_subject(asked).rescue->accepted_in_reach == in_reach);
        CHECK(pvc_subject(asked).rescue->by_accepted_chance);
    }
    asked.rescue->aim = BinderSufficiency::of(1.3); // an aim goes before it
    const auto aimed = *pvc_subject(asked).rescue;
    CHECK_FALSE(aimed.by_accepted_chance);
    CHECK(aimed.aim.value() == Approx(1.3));
    CHECK(aimed.checked.value() == Approx(1.3).epsilon(1e-9));
    asked.rescue = RescueWish{};
    CHECK_FALSE(pvc_subject(asked).rescue->by_accepted_chance);
}

TEST_CASE("a sticky pan is set by the gum of its medium, as that lies on the shelf", "[reference]") {
    // Gum of 12 % water at 1.42 g/mL, whatever else of the medium stays.
    for (const bool gum_last : {false, true}) {
        auto asked = question(watercolour(), 1.4);
        if (gum_last) std::swap(asked.request.recipe.medium.parts.front(), asked.request.recipe.medium.parts.back());
        asked.request.bench.humidity = RelativeHumidity::of(0.9);
        asked.rescue = RescueWish{BinderSufficiency::of(1.4), {}, {}, {}};
        const PvcSubject subject = pvc_subject(asked);
        const auto& answer = *subject.rescue;
        REQUIRE(answer.sticky);
        CHECK(answer.gum_first());
        CHECK(in_grams(answer.sticky->dry_gum) / in_grams(answer.sticky->gum_as_is) == Approx(0.88).epsilon(1e-12));
        CHECK(in_millilitres(answer.sticky->binder.dry_binder - subject.batch().volumes.dry_binder) ==
              Approx(in_grams(answer.sticky->dry_gum) / 1.42).epsilon(1e-9));
        CHECK(answer.sticky->soft_after.value() == Approx(asked.request.recipe.family.soft_share.good_to.value()).epsilon(1e-9));
    }
}
