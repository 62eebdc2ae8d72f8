#include <catch2/catch.hpp>

#include <algorithm>
#include <optional>

#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/process.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }
Batch sized(const BatchRequest& r) { return size_batch(r).batch.value(); }
bool warns(const Batch& b, WarningKind kind) {
    return std::any_of(b.warnings.begin(), b.warnings.end(),
                       [&](const BatchWarning& w) { return w.kind == kind; });
}
} // namespace

TEST_CASE("worked egg tempera: a yolk and a half for ten grams", "[reference]") {
    // docs/theory.md: 21.06 mL of neat yolk, 22.0 g, 1.5 usable yolks (14 to 15 g, estimate).
    const Batch b = sized(request(tempera(), grams(10)));
    CHECK(in_millilitres(b.medium_volume) == Approx(21.06).margin(0.01));
    REQUIRE(b.tempera);
    CHECK(in_grams(b.tempera->yolk) == Approx(22.0).margin(0.05));
    CHECK(b.tempera->medium_per_paste ==
          Approx(in_grams(b.medium) / (10.0 + in_grams(b.working_water))).epsilon(1e-12));
    CHECK(b.tempera->eggs_exact == Approx(1.5).margin(0.03));
    CHECK(b.tempera->eggs == 2);
    double density = 0; // of the yolk as it is
    for (const auto& part : tempera().medium.parts)
        if (part.ingredient.role == Role::emulsion) density = in_grams_per_cubic_centimetre(part.ingredient.density.value());
    REQUIRE(density > 0.9);
    CHECK(in_millilitres(b.tempera->yolk_volume) == Approx(in_grams(b.tempera->yolk) / density).epsilon(1e-9));
    CHECK(b.verdict == Verdict::green);
}

TEST_CASE("worked oil paint: the cured film", "[reference]") {
    // docs/theory.md, no wax, k 1.35: shrinkage .02 -> PVC .352, Lambda .842; .15 -> .385, .921.
    Recipe r = oil_paint();
    r.additives.clear();
    r.aim = BinderSufficiency::of(1.35);
    const Batch b = sized(request(r, grams(10)));
    REQUIRE(b.oil);
    CHECK(b.oil->cured_low.pvc.value() == Approx(.352).margin(6e-4));
    CHECK(b.oil->cured_low.reduced_pvc.value() == Approx(.842).margin(6e-4));
    CHECK(b.oil->cured_high.pvc.value() == Approx(.385).margin(6e-4));
    CHECK(b.oil->cured_high.reduced_pvc.value() == Approx(.921).margin(6e-4));
    CHECK(b.oil->oil_per_pigment.value() == near(.9285, 1e-4));
}

TEST_CASE("Eggs to open: at 14 g of yolk each, counted up", "[unit]") {
    // 10 g of the worked lake take 21.96 g of yolk; the batch of 28 g is two eggs to the gram.
    const Batch ten = sized(request(tempera(), grams(10)));
    const double per_gram = in_grams(ten.tempera->yolk) / 10.0;
    CHECK(sized(request(tempera(), grams(28.0 / per_gram))).tempera->eggs == 2);
    CHECK(sized(request(tempera(), grams(28.1 / per_gram))).tempera->eggs == 3);
    CHECK(sized(request(tempera(), grams(28.01 / per_gram))).tempera->eggs == 3); // the hundredth of a gram is no rounding
    CHECK(sized(request(tempera(), grams(27.9 / per_gram))).tempera->eggs == 2);
    CHECK_THROWS_WITH(batch_of(request(tempera(), grams(10)), kilograms(1e5)), Catch::Contains("eggs"));
}

TEST_CASE("Plasticiser is little below 0.15 and much above 0.5 of the dry gum", "[unit]") {
    // x parts of glycerol to 100 of gum of 88 % solids: P = x/88. Usual: a third to a half; below pans crack.
    const auto of = [](double x) {
        Recipe r = watercolour();
        r.medium = medium("gum-medium", PartsBasis::mass, {{gum(), 100}, {water(), 200}, {glycerol(), x}});
        return sized(request(r, grams(10)));
    };
    const auto find = [](const Batch& b, WarningKind kind) {
        const auto at = std::find_if(b.warnings.begin(), b.warnings.end(), [&](const auto& w) { return w.kind == kind; });
        return at == b.warnings.end() ? std::optional<BatchWarning>() : *at;
    };
    const auto low = find(of(88 * 0.149), WarningKind::plasticiser_low), high = find(of(88 * 0.501), WarningKind::plasticiser_high);
    REQUIRE(low);
    REQUIRE(high);
    CHECK(low->value == near(0.149, 1e-9));
    CHECK(low->limit == near(0.15, 1e-12));
    CHECK(high->value == near(0.501, 1e-9));
    CHECK(high->limit == near(0.5, 1e-12));
    for (const double p : {0.151, 0.3, 0.499}) {
        CHECK_FALSE(warns(of(88 * p), WarningKind::plasticiser_low));
        CHECK_FALSE(warns(of(88 * p), WarningKind::plasticiser_high));
    }
}

TEST_CASE("a watercolour is fluid when its liquid is more than the shelf's times what just fills", "[unit]") {
    BatchRequest asked = request(watercolour(), grams(10));
    const double factor = size_batch(asked).batch->watercolour->liquid_factor;
    asked.practice.notice.fluid_paint = 0.999 * factor;
    CHECK(size_batch(asked).batch->watercolour->fluid);
    asked.practice.notice.fluid_paint = 1.001 * factor;
    CHECK_FALSE(size_batch(asked).batch->watercolour->fluid);
    asked.practice = {};
    CHECK_FALSE(size_batch(asked).batch->watercolour->fluid);
}

TEST_CASE("less plasticiser for this room is told where the pan would be too soft, and nowhere else", "[reference]") {
    int told = 0, silent = 0;
    for (const double x : {5.0, 20.0, 40.0, 60.0, 88.0})
        for (const double humidity : {0.3, 0.5, 0.7, 0.85}) {
            CAPTURE(x, humidity);
            Recipe r = watercolour();
            r.medium = medium("gum-medium", PartsBasis::mass, {{gum(), 100}, {water(), 200}, {glycerol(), x}});
            BatchRequest asked = request(r, grams(10));
            asked.bench.humidity = RelativeHumidity::of(humidity);
            const Batch b = sized(asked);
            const WatercolourExtras& extras = b.watercolour.value();
            CHECK(*extras.plasticiser_ratio == near(x / 88, 1e-9));
            CHECK(extras.soft_phase == soft_phase(extras.soft_share, r.family.soft_share));
            if (extras.soft_share <= r.family.soft_share.good_to) {
                CHECK_FALSE(extras.plasticiser_ratio_for_room);
                ++silent;
                continue;
            }
            ++told;
            if (!extras.plasticiser_ratio_for_room) continue; // the gum alone is too soft there
            // With that much it is just good.
            asked.recipe.medium.parts[2].parts = 88 * *extras.plasticiser_ratio_for_room;
            CHECK(sized(asked).watercolour->soft_share.value() == near(r.family.soft_share.good_to.value(), 1e-6));
            CHECK(*extras.plasticiser_ratio_for_room < *extras.plasticiser_ratio);
        }
    CHECK(told > 5);
    CHECK(silent > 5);
    // Without gum there is no ratio of it; without binder nothing holds water.
    Recipe sugar = watercolour();
    sugar.medium = medium("honey", PartsBasis::mass, {{honey(), 1}, {water(), 1}});
    const Batch no_gum = sized(request(sugar, grams(10)));
    CHECK_FALSE(no_gum.watercolour->plasticiser_ratio);
    CHECK_FALSE(no_gum.watercolour->plasticiser_ratio_for_room);
}

TEST_CASE("oil that cures shrinks by its own volume, wax does not", "[reference]") {
    // 10 g of the lake at k 1.35, wax a fifth of the medium's mass; by hand on volumes in mL.
    Recipe r = oil_paint();
    r.additives = {{beeswax(), MassFraction::of(0.2), DoseBasis::medium}};
    const Batch b = sized(request(r, grams(10)));
    const double oil = in_grams(b.medium) / 0.93, wax = 0.2 * in_grams(b.medium) / 0.96, pigment = 10 / 1.88, fills = 10 * 0.6878 / 0.93;
    CHECK((oil + wax) / fills == near(1.35, 1e-9));
    const double cpvc = pigment / (pigment + fills);
    for (const auto& [film, lost] : {std::pair{b.oil->cured_low, 0.02}, {b.oil->cured_high, 0.15}}) {
        const double binder = oil * (1 - lost) + wax, pvc = pigment / (pigment + binder);
        CHECK(film.k.value() == near(binder / fills, 1e-9));
        CHECK(film.pvc.value() == near(pvc, 1e-9));
        CHECK(film.cpvc.value() == near(cpvc, 1e-9));
        CHECK(film.reduced_pvc.value() == near(pvc / cpvc, 1e-9));
        CHECK(film.porosity.value() == near(0.0, 1e-12));
    }
    CHECK(b.oil->oil_per_pigment.value() == near(1.2 * in_grams(b.medium) / 10, 1e-9));
    // Cured below what fills, air comes in: (1 - c)(1 - k) of the packed pigment.
    r.aim = BinderSufficiency::of(1.05);
    const Batch lean = sized(request(r, grams(10)));
    const double k = lean.oil->cured_high.k.value();
    REQUIRE(k < 1.0);
    CHECK(lean.oil->cured_high.porosity.value() == near((1 - cpvc) * (1 - k), 1e-9));
}
