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
