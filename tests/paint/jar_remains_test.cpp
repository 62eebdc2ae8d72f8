#include "lakebound/paint/jar_remains.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {

const LakeLimits usual_limits{MassFraction::of(.01), MassFraction::of(.005), Share::of(.05), Ph::of(8), Probability::of(.1)};

PaintOfLake gum_with_both(double share = 1.0) {
    return {Process::watercolour, false, MassFraction::of(share),
            {{"sodium-benzoate", "Sodium benzoate", PreservativeAcid::benzoic, true}, {"potassium-sorbate", "Potassium sorbate", PreservativeAcid::sorbic, true}}};
}
PaintOfLake oil_of_lake() { return {Process::oil, false, MassFraction::of(1.0), {}}; }
LakeRemains at_ph(double ph, double u) { return {{}, Estimate<Ph>::normal(Ph::of(ph), Ph::Difference::of(u), {})}; }
LakeRemains salty_lake(double share, double factor) { return {Estimate<MassFraction>::lognormal(MassFraction::of(share), factor, {}), {}}; }
bool warned(const std::vector<BatchWarning>& all, WarningKind kind) {
    return std::any_of(all.begin(), all.end(), [kind](const BatchWarning& each) { return each.kind == kind; });
}
std::vector<BatchWarning> warnings_of(const PaintOfLake& paint, const LakeRemains& lake) {
    return remains_warnings(jar_remains(paint, lake, usual_limits), paint, lake, usual_limits);
}

/// Gum water with benzoate in the medium and among the additives.
BatchRequest kept_batch_request() {
    BatchRequest request = worked::request(watercolour(), grams(4));
    Ingredient kept = benzoate();
    kept.works_as = PreservativeAcid::benzoic;
    request.recipe.medium.parts.push_back({kept, 1});
    request.recipe.additives = {{kept, MassFraction::of(.002), DoseBasis::medium}};
    request.jar = JarOnHand{0, grams(24)};
    return request;
}

} // namespace

TEST_CASE("a preservative at the pH of the lake", "[reference]") {
    // 5 % active at pKa + log10(19) = pKa + 1.2788: benzoic acid 4.202 (minteq.v4.dat of phreeqc, NIST 46.2) at pH 5.481,
    // sorbic acid 4.76 (value from memory) at 6.039. By hand from the normal table: (5.8 - 5.481)/.3 = 1.063 sd, .856;
    // (5.8 - 6.039)/.3 = -.796 sd, .213.
    const auto remains = jar_remains(gum_with_both(), at_ph(5.8, .3), usual_limits);
    REQUIRE(remains.preservatives.size() == 2);
    CHECK(remains.preservatives[0].dead.value() == Approx(.856).margin(.002));
    CHECK(remains.preservatives[1].dead.value() == Approx(.213).margin(.002));
    // Active shares: 1/(1 + 10^(5.8 - 4.202)) = .02461, 1/(1 + 10^1.04) = .08358.
    CHECK(remains.preservatives[0].active.value() == Approx(.02461).margin(1e-5));
    CHECK(remains.preservatives[1].active.value() == Approx(.08358).margin(1e-5));
    CHECK(remains.preservatives[0].part.ingredient == "sodium-benzoate");
    CHECK_FALSE(remains.salts);
    REQUIRE(remains.alkaline);
    CHECK(remains.alkaline->value() < 1e-9);
}

TEST_CASE("the chance of too many salts is that of what such a paint bears", "[unit]") {
    // ln(1/.8)/ln 1.4 = .663 sd: .254 above 1 %; in oil ln(.5/.8)/ln 1.4 = -1.397 sd: .919 above .5 %.
    const auto gum = jar_remains(gum_with_both(), salty_lake(.008, 1.4), usual_limits);
    REQUIRE(gum.salts);
    CHECK(gum.salts->too_many.value() == Approx(.254).margin(.001));
    CHECK(gum.salts->borne.value() == Approx(.01));
    CHECK(gum.salts->of_pigment.value() == Approx(.008));
    CHECK(gum.preservatives.empty()); // nobody read the pH
    CHECK_FALSE(gum.alkaline);
    const auto oil = jar_remains(oil_of_lake(), salty_lake(.008, 1.4), usual_limits);
    CHECK(oil.salts->too_many.value() == Approx(.919).margin(.001));
    auto tube = gum_with_both();
    tube.in_tube = true;
    CHECK(jar_remains(tube, salty_lake(.008, 1.4), usual_limits).salts->too_many.value() == Approx(.919).margin(.001));
    // A quarter of the pigment brings a quarter of its salts: ln(4 x 1/.8)/ln 1.4 = 4.78 sd.
    const auto blend = jar_remains(gum_with_both(.25), salty_lake(.008, 1.4), usual_limits);
    CHECK(blend.salts->of_pigment.value() == Approx(.002));
    CHECK(blend.salts->too_many.value() < 1e-5);
    CHECK_THROWS_AS(jar_remains(gum_with_both(0), salty_lake(.008, 1.4), usual_limits), DomainError);
}

TEST_CASE("more alkali never revives a preservative, more salts never bloom less", "[identity]") {
    double dead = 0, many = 0, alkaline = 0;
    for (int i = 0; i <= 28; ++i) {
        const auto remains = jar_remains(gum_with_both(), at_ph(.5 * i, .4), usual_limits);
        CHECK(remains.preservatives[0].dead.value() >= dead);
        CHECK(remains.preservatives[0].dead.value() >= remains.preservatives[1].dead.value()); // sorbate lasts longer
        CHECK(remains.alkaline->value() >= alkaline);
        dead = remains.preservatives[0].dead.value();
        alkaline = remains.alkaline->value();
        const double salts = jar_remains(gum_with_both(), salty_lake(.001 + .002 * i, 1.5), usual_limits).salts->too_many.value();
        CHECK(salts >= many);
        many = salts;
    }
    CHECK(dead > .999);
    CHECK(many > .99);
}

TEST_CASE("what is worth a warning, in words of the paint", "[unit]") {
    CHECK(warnings_of(gum_with_both(), at_ph(4.4, .2)).empty());
    CHECK(warnings_of(gum_with_both(), salty_lake(.002, 1.4)).empty());
    const auto alkaline = warnings_of(gum_with_both(), at_ph(8.6, .2));
    REQUIRE(alkaline.size() == 3);
    CHECK(alkaline[0].kind == WarningKind::preservative_dead);
    CHECK(alkaline[0].subject == "sodium-benzoate");
    CHECK(alkaline[0].limit == Approx(8.6));
    CHECK(alkaline[1].subject == "potassium-sorbate");
    CHECK(alkaline[2].kind == WarningKind::alkali_shifts_hue);
    CHECK(warned(warnings_of(oil_of_lake(), at_ph(8.6, .2)), WarningKind::alkali_makes_soap));
    CHECK(warned(warnings_of(gum_with_both(), salty_lake(.03, 1.4)), WarningKind::salts_bloom));
    CHECK(warned(warnings_of(oil_of_lake(), salty_lake(.008, 1.4)), WarningKind::salts_in_oil));
    auto tube = gum_with_both();
    tube.in_tube = true;
    CHECK(warned(warnings_of(tube, salty_lake(.008, 1.4)), WarningKind::salts_in_tube));
    // One in ten is told, less is not.
    const double just = .01 * std::exp(standard_normal_quantile(.11) * std::log(1.4)), not_yet = .01 * std::exp(standard_normal_quantile(.09) * std::log(1.4));
    CHECK(warnings_of(gum_with_both(), salty_lake(just, 1.4)).size() == 1);
    CHECK(warnings_of(gum_with_both(), salty_lake(not_yet, 1.4)).empty());
    for (const auto& [kind, word] : WordTable<WarningKind>::rows)
        CHECK(is_of_remains(kind) == (kind == WarningKind::preservative_dead || kind == WarningKind::salts_bloom ||
                                      kind == WarningKind::salts_in_oil || kind == WarningKind::salts_in_tube ||
                                      kind == WarningKind::alkali_shifts_hue || kind == WarningKind::alkali_makes_soap));
}

TEST_CASE("what is at hand is told of, and not warned of", "[unit]") {
    const std::vector<PreservativePart> at_hand{{"benzoate", "Benzoate", PreservativeAcid::benzoic, false}, {"sorbate", "Sorbate", PreservativeAcid::sorbic, false}};
    BatchRequest request = kept_batch_request();
    request.preservatives = at_hand;
    request.lake_limits = usual_limits;
    request.jar->remains = at_ph(9.0, .2);
    auto batch = batch_of(request, grams(4));
    REQUIRE(batch.remains->preservatives.size() == 2); // its own benzoate is not told twice
    CHECK(batch.remains->preservatives[0].part.in_paint);
    CHECK_FALSE(batch.remains->preservatives[1].part.in_paint);
    CHECK(batch.warnings.back().kind == WarningKind::alkali_shifts_hue);
    CHECK(std::count_if(batch.warnings.begin(), batch.warnings.end(), [](const BatchWarning& w) { return w.kind == WarningKind::preservative_dead; }) == 1);
    // Nothing moulds in oil.
    CHECK(paint_of_lake(oil_paint(), MassFraction::of(1), nullptr, at_hand).preservatives.empty());
    CHECK(paint_of_lake(base_medium(), Process::watercolour, at_hand).preservatives.size() == 2);
    CHECK_FALSE(preservative_at_hand(clove_oil()));
    Ingredient kept = benzoate();
    kept.works_as = PreservativeAcid::benzoic;
    CHECK_FALSE(preservative_at_hand(kept)->in_paint);
}

TEST_CASE("a batch asks its jar, and only with limits", "[unit]") {
    BatchRequest request = kept_batch_request();
    CHECK_FALSE(batch_of(request, grams(4)).remains);
    request.jar->remains = at_ph(9.0, .2);
    CHECK_FALSE(batch_of(request, grams(4)).remains); // no limits, nothing to hold it against
    request.lake_limits = usual_limits;
    const auto batch = batch_of(request, grams(4));
    REQUIRE(batch.remains);
    REQUIRE(batch.remains->preservatives.size() == 1); // it stands in medium and additives, and is told once
    CHECK(warned(batch.warnings, WarningKind::preservative_dead));
    request.recipe.medium.parts.back().ingredient.works_as.reset();
    request.recipe.additives.front().dose = MassFraction::of(0);
    CHECK(batch_of(request, grams(4)).remains->preservatives.empty());
    // Filled into a tube it is held to what tubes bear.
    request.jar->remains = salty_lake(.008, 1.4);
    CHECK(batch_of(request, grams(4)).remains->salts->borne.value() == Approx(.01));
    request.vessel = tube_15();
    CHECK(batch_of(request, grams(4)).remains->salts->borne.value() == Approx(.005));
    request.vessel->filled_by = FilledBy::dry_volume;
    CHECK(batch_of(request, grams(4)).remains->salts->borne.value() == Approx(.01));
}
