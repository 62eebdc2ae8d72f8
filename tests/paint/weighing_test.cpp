#include "lakebound/paint/weighing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "support/worked_paints.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }
WeighSheet sheet(const Recipe& r, double pigment_g, const Bench& b) {
    return weigh_sheet(r, compose(r, formulate(r, aim_of(r)), grams(pigment_g)), b, practice().small_amounts);
}
} // namespace

TEST_CASE("what no scale carries at once is weighed in portions", "[unit]") {
    const WeighSheet s = sheet(watercolour(), 2000, two_scales());
    CHECK(s.slab[1].portions == 3); // about 7.8 kg of medium on a 3 kg scale
}

TEST_CASE("wax too little to weigh becomes a stock in the oil", "[reference]") {
    // docs/theory.md: 0.186 g of wax is 3.7 g of a 5 % stock in oil. k as in formulation_test.
    Recipe r = oil_paint();
    r.aim = BinderSufficiency::of(1.35 * (1.0 + 0.02 * 0.93 / 0.96));
    const WeighSheet s = sheet(r, 10, bench(0.1));
    const Weighing& wax = s.slab.at(2);
    REQUIRE(wax.below_minimum);
    // +-44 % in docs/theory.md: 2 x 0.041 / 0.186.
    const auto straight = 2.0 * standard_uncertainty(bench(0.1).scales.front()) / wax.exact;
    CHECK(double(straight) == Approx(0.44).margin(0.005));
    REQUIRE(wax.stock);
    CHECK(wax.error.value() == Approx(0.02).margin(0.005)); // "3.7 g of a 5 % stock is good to 2 %"
    // To weigh the wax into the stock itself to 5 % takes 1.64 g of it, in 32.8 g: in round figures 35 g.
    CHECK(in_grams(wax.stock->mixing.taken) == near(1.75, 1e-9));
    CHECK(in_grams(wax.stock->mixing.carrier) == near(33.25, 1e-9));
    CHECK_FALSE(wax.stock->strong);
    CHECK(wax.stock->strength.value() == near(0.05, 1e-12));
    CHECK(in_grams(wax.stock->stock) == Approx(3.7).margin(0.05));
    CHECK(wax.stock->carrier == "linseed-oil");
    REQUIRE(wax.stock->deducted_from);
    CHECK(*wax.stock->deducted_from == SheetPart::medium);
    // Oil to weigh and oil in the stock make up the oil of the paint.
    CHECK(in_grams(s.slab[1].to_weigh + wax.stock->carrier_mass) == near(in_grams(s.slab[1].exact), 1e-12));
    CHECK(in_grams(s.slab[1].rounded) == Approx(in_grams(s.slab[1].to_weigh)).margin(0.1 + 1e-9));
    // The film of what is weighed: 0.185 g wax and the oil of both, near the aim.
    CHECK(s.k_shift < 0.005);
    // A pocket scale weighs it directly.
    CHECK_FALSE(sheet(r, 10, bench(0.01)).slab.at(2).stock);
}

TEST_CASE("stock solutions find their carrier", "[unit]") {
    Recipe r = watercolour();
    r.additives = {{clove_oil(), MassFraction::of(0.004), DoseBasis::medium},
                   {benzoate(), MassFraction::of(0.004), DoseBasis::medium}};
    const WeighSheet s = sheet(r, 20, bench(0.1)); // about 78 g of medium, 0.3 g of each
    const Weighing &clove = s.slab.at(2), &salt = s.slab.at(3), &water_line = s.slab.at(4);
    REQUIRE(clove.stock);
    CHECK(clove.stock->carrier == "ethanol");
    CHECK(clove.stock->strength.value() == near(0.10, 1e-12));
    CHECK_FALSE(clove.stock->deducted_from);
    REQUIRE(salt.stock);
    CHECK(salt.stock->carrier == "water");
    REQUIRE(salt.stock->deducted_from);
    CHECK(*salt.stock->deducted_from == SheetPart::working_water);
    CHECK(in_grams(water_line.to_weigh + salt.stock->carrier_mass) == near(in_grams(water_line.exact), 1e-12));

    // As parts of the medium they come off its water.
    r = watercolour();
    r.medium.parts.push_back({benzoate(), 0.5});
    const WeighSheet fresh = sheet(r, 20, bench(0.1));
    REQUIRE(fresh.medium.at(4).stock);
    CHECK(fresh.medium[4].stock->deducted_from == SheetPart::medium_part);
    CHECK(fresh.medium[4].stock->deducted_index == 1);
    CHECK(in_grams(fresh.medium[1].to_weigh + fresh.medium[4].stock->carrier_mass) ==
          near(in_grams(fresh.medium[1].exact), 1e-12));

    // What thickens gets no stock that would not pour, however weak that is.
    for (const double strongest : {0.02, 0.003}) {
        r = watercolour();
        Ingredient thickener = ingredient("tragacanth", Role::gum, 1.45, 0.88, 1.50);
        thickener = with_stock(thickener, {"water"}, strongest, 600.0);
        r.additives = {{thickener, MassFraction::of(0.004), DoseBasis::medium}};
        const WeighSheet thick = sheet(r, 20, bench(0.1));
        REQUIRE(thick.slab.at(2).stock);
        CHECK(thick.slab[2].stock->strength.value() == near(strongest, 1e-12));
    }

    // Oil takes up resin only when hot, turpentine cold; it leaves, so the oil stays whole.
    r = oil_paint();
    r.additives[0].ingredient =
        with_stock(ingredient("dammar", Role::resin, 1.055, 0.99, 1.055), {"turpentine"}, 0.10);
    const WeighSheet varnished = sheet(r, 10, bench(0.1));
    REQUIRE(varnished.slab.at(2).stock);
    CHECK(varnished.slab[2].stock->carrier == "turpentine");
    CHECK_FALSE(varnished.slab[2].stock->deducted_from);
    CHECK(in_grams(varnished.slab[1].to_weigh) == near(in_grams(varnished.slab[1].exact), 1e-12));

    // A trace that even the weakest stock cannot carry on this scale.
    r = oil_paint();
    r.additives[0].dose = MassFraction::of(0.0001);
    CHECK_FALSE(sheet(r, 2, bench(0.1)).slab.at(2).stock);
    CHECK(sheet(r, 2, bench(0.1)).slab.at(2).below_minimum);

    // Nor one that would bring more oil than half of what the paint holds: it was offered once, and not taken
    // off.
    r = oil_paint();
    const WeighSheet small = sheet(r, 1, bench(0.1));
    CHECK(small.slab.at(2).below_minimum);
    CHECK_FALSE(small.slab.at(2).stock);
    CHECK(in_grams(small.slab.at(1).to_weigh) == near(in_grams(small.slab.at(1).exact), 1e-12));

    // 0.02 g of a salt on a scale of 0.1 g: 1 in 100 and weaker is made in two steps.
    r = watercolour();
    r.additives = {{benzoate(), MassFraction::of(0.00025), DoseBasis::medium}};
    const WeighSheet weak = sheet(r, 20, bench(0.1));
    REQUIRE(weak.slab.at(2).stock);
    CHECK(weak.slab[2].stock->strength.value() == near(0.01, 1e-12));
    REQUIRE(weak.slab[2].stock->strong);
    // 1.64 g of the salt to 16.4 g at 1 in 10, in round figures 20 g; 1.64 g of that to 16.4 g again.
    CHECK(in_grams(weak.slab[2].stock->strong->taken) == near(2.0, 1e-9));
    CHECK(in_grams(weak.slab[2].stock->strong->carrier) == near(18.0, 1e-9));
    CHECK(in_grams(weak.slab[2].stock->mixing.taken) == near(2.0, 1e-9));
    CHECK(in_grams(weak.slab[2].stock->mixing.carrier) == near(18.0, 1e-9));
}

TEST_CASE("no more of a carrier is made up than a person would", "[unit]") {
    // 0.016 g of clove oil on a scale of 0.1 g took 46 g of ethanol, made in two steps.
    Recipe r = watercolour();
    r.additives = {{clove_oil(), MassFraction::of(0.0005), DoseBasis::medium}};
    const WeighSheet none = sheet(r, 8, bench(0.1));
    CHECK(none.slab.at(2).below_minimum);
    CHECK_FALSE(none.slab[2].stock);
    CHECK(none.carriers.empty());
    // The same scale and a maker who would make that much.
    r.additives[0].ingredient.stock->most = grams(60);
    CHECK_FALSE(sheet(r, 8, bench(0.1)).slab.at(2).stock); // but not with so much spirit beside the gum
    r.additives[0].ingredient.stock->beside.reset();
    const WeighSheet much = sheet(r, 8, bench(0.1));
    REQUIRE(much.slab.at(2).stock);
    const StockSolution& stock = *much.slab[2].stock;
    REQUIRE(stock.strong);
    // 1.64 g to 16.4 g at 1 in 10, made as 20; 1.64 g of that to 32.8 g at 1 in 200, made as 35: 18 + 33.25 g of
    // ethanol.
    CHECK(stock.strength.value() == near(0.005, 1e-12));
    CHECK(in_grams(stock.carrier_needed) == near(18.0 + 33.25, 1e-9));
    // Nothing that stays in the film is a carrier, and nothing carries itself.
    Recipe wrong = r;
    wrong.carriers = {honey()};
    wrong.additives[0].ingredient.stock->carriers = {"honey", "clove-oil", "white-spirit"};
    wrong.medium.parts.pop_back();
    CHECK_FALSE(sheet(wrong, 8, bench(0.1)).slab.at(2).stock);
}

TEST_CASE("drops before a stock, where the bench knows its drop", "[reference]") {
    Recipe r = watercolour();
    r.additives = {{clove_oil(), MassFraction::of(0.0005), DoseBasis::medium}};
    Bench b = bench(0.1);
    b.kitchen.drop = millilitres(0.03);
    const WeighSheet s = sheet(r, 8, b);
    const Weighing &medium = s.slab.at(1), &clove = s.slab.at(2);
    REQUIRE(clove.drops);
    CHECK_FALSE(clove.stock);
    CHECK(clove.drops->drops == 1);
    // "1 drop to 60 g of medium": 0.03 mL of 1.045 g/cm3 at 0.05 %.
    CHECK(in_grams(clove.drops->medium) == near(0.03 * 1.045 / 0.0005, 1e-9));
    CHECK(in_grams(mass_on_slab(clove)) == near(0.0, 1e-12));
    CHECK(in_grams(medium.to_weigh) == near(in_grams(medium.exact + clove.exact), 1e-12));
    REQUIRE(s.least_medium);
    CHECK(in_grams(*s.least_medium) >= in_grams(clove.drops->medium) * (1 - 1e-12));
    // More than one is counted up, into more medium than is wanted: never a larger dose.
    const WeighSheet more = sheet(r, 20, b);
    REQUIRE(more.slab.at(2).drops);
    CHECK(more.slab[2].drops->drops == 2);
    CHECK(more.slab[2].drops->medium > more.slab[1].exact);
    CHECK(in_grams(more.slab[2].drops->medium) == near(2 * 0.03 * 1.045 / 0.0005, 1e-9));
    // Not for a powder, nor where nobody mixes so much medium for one drop.
    r.additives[0].ingredient = benzoate();
    CHECK_FALSE(sheet(r, 8, b).slab.at(2).drops);
    r.additives = {{clove_oil(), MassFraction::of(0.00005), DoseBasis::medium}};
    CHECK_FALSE(sheet(r, 8, b).slab.at(2).drops);
}

TEST_CASE("a stock is rounded and labelled on the scale that weighs it", "[unit]") {
    // 3.00 g "pocket scale" was printed for 2.96 g rounded to a tenth on the kitchen scale.
    Recipe r = watercolour();
    r.additives = {{benzoate(), MassFraction::of(0.0005), DoseBasis::medium}};
    for (const double pigment : {1.9, 3.1, 5.7, 9.3, 14.7})
        for (const Weighing& line : sheet(r, pigment, two_scales()).slab) {
            const double step = in_grams(two_scales().scales.at(line.scale).step);
            // A line that a stock is taken off follows the stock's own rounding: up to half a step more.
            const double steps = in_grams(rounded_mass_on_slab(line)) / step;
            CHECK(steps == Approx(std::round(steps)).margin(1e-6));
            CHECK(std::abs(in_grams(rounded_mass_on_slab(line) - mass_on_slab(line))) <= step * (1 + 1e-9));
            if (!line.stock) continue;
            CHECK(line.scale == best_scale(two_scales(), line.stock->stock));
            CHECK(in_grams(line.stock->rounded) ==
                  Approx(std::round(in_grams(line.stock->stock) / step) * step).margin(1e-9));
        }
}

TEST_CASE("what practice bears of drops, stocks and syringes", "[unit]") {
    Recipe r = watercolour();
    r.additives = {{clove_oil(), MassFraction::of(0.0005), DoseBasis::medium}};
    Bench b = bench(0.1);
    b.kitchen.drop = millilitres(0.03);
    const auto with = [&](const Recipe& recipe, double pigment, const Bench& on, auto change) {
        auto bears = practice().small_amounts;
        change(bears);
        return weigh_sheet(recipe, compose(recipe, formulate(recipe, aim_of(recipe)), grams(pigment)), on, bears);
    };
    const auto none = [](SmallAmountPractice&) {};
    CHECK(with(r, 20, b, none).slab.at(2).drops);
    CHECK_FALSE(with(r, 20, b, [](auto& p) { p.most_drops = 1; }).slab.at(2).drops);
    CHECK(with(r, 8, b, [](auto& p) { p.most_drops = 1; }).slab.at(2).drops); // one drop is enough
    CHECK_FALSE(with(r, 8, b, [](auto& p) { p.most_medium_for_drops = grams(50); }).slab.at(2).drops);
    const Recipe oil = oil_paint();
    CHECK(with(oil, 10, bench(0.1), none).slab.at(2).stock);
    CHECK_FALSE(with(oil, 10, bench(0.1), [](auto& p) { p.stock_share = 0.1; }).slab.at(2).stock);
    Bench syringe = bench(0.01);
    syringe.syringes = {{"10 mL", millilitres(10), millilitres(0.2)}};
    CHECK(with(tempera(), 10, syringe, none).slab.at(1).syringe); // 21 mL
    CHECK_FALSE(with(tempera(), 10, syringe, [](auto& p) { p.most_syringe_fills = 2; }).slab.at(1).syringe);
}

TEST_CASE("what a stock is taken off is weighed on the scale for what is left of it", "[unit]") {
    // 1.7 g of water for the kitchen scale, less what a stock brings: below the 1.64 g that it weighs well.
    Recipe r = watercolour();
    r.additives = {{benzoate(), MassFraction::of(0.0002), DoseBasis::medium}};
    const WeighSheet s = sheet(r, 3.4, two_scales());
    const Weighing &salt = s.slab.at(2), &water_left = s.slab.at(3);
    REQUIRE(salt.stock);
    REQUIRE(salt.stock->deducted_from);
    CHECK(best_scale(two_scales(), water_left.exact) == 0);
    CHECK(water_left.to_weigh < minimum_mass(two_scales().scales[0], two_scales().weighing_tolerance));
    CHECK(water_left.scale == 1);
    CHECK(in_grams(water_left.rounded) == Approx(in_grams(water_left.to_weigh)).margin(0.01 + 1e-9));
    CHECK(water_left.error.value() < 0.01);
}

TEST_CASE("what the scale does not show is left out, of additives and of a fresh medium", "[unit]") {
    const WeighSheet s = sheet(watercolour(), 1, bench(1.0)); // 0.4 g of glycerol, 0.25 g of honey
    CHECK_FALSE(is_left_out(s.medium.at(1)));
    CHECK(is_left_out(s.medium.at(2)));
    CHECK(is_left_out(s.medium.at(3)));
    REQUIRE(s.least_medium);
    const WeighSheet fine = sheet(watercolour(), 10, bench(0.1));
    for (const Weighing& line : fine.medium)
        CHECK_FALSE(is_left_out(line));
}

TEST_CASE("the lines of a sheet sum to the paint on the slab", "[identity]") {
    Bench drops = bench(0.1);
    drops.kitchen.drop = millilitres(0.04);
    for (Recipe r : {watercolour(), oil_paint(), tempera(), blend()})
        for (const bool clove : {false, true})
            for (const Bench& b : {bench(1.0), bench(0.1), bench(0.01), two_scales(), drops})
                for (const double pigment : {0.7, 3.3, 10.0, 47.7, 300.0}) {
                    Recipe paint = r;
                    if (clove)
                        paint.additives.push_back({clove_oil(), MassFraction::of(0.003), DoseBasis::medium});
                    const Composition c = compose(paint, formulate(paint, aim_of(paint)), grams(pigment));
                    const WeighSheet s = weigh_sheet(paint, c, b, practice().small_amounts);
                    Mass lines, carriers;
                    for (const Weighing& line : s.slab)
                        lines += mass_on_slab(line);
                    for (const CarrierOnSlab& carrier : s.carriers)
                        carriers += carrier.mass;
                    CHECK(in_grams(lines) == near(in_grams(total_mass(c) + carriers), 1e-12));
                    BatchRequest wish;
                    wish.recipe = paint;
                    wish.bench = b;
                    wish.practice = practice();
                    const Batch batch = batch_of(wish, grams(pigment));
                    CHECK(in_grams(batch.paint) == near(in_grams(lines), 1e-12));
                }
}

TEST_CASE("a medium mixed fresh holds no more water than its recipe", "[unit]") {
    // Benzoate at 0.5 of 305 parts: 0.3 g of it in 20 g lake, 0.015 g in 1 g lake.
    Recipe r = watercolour();
    r.medium.parts.push_back({benzoate(), 0.5});
    double total = 0.0;
    for (const MediumPart& part : r.medium.parts)
        total += part.parts;
    const WeighSheet small = sheet(r, 1, bench(0.1));
    CHECK(small.medium.at(4).below_minimum);
    CHECK_FALSE(small.medium[4].stock);
    REQUIRE(small.least_medium);
    CHECK(in_grams(*small.least_medium) == near(1.64 * total / 0.5, 1e-9));
    CHECK_FALSE(sheet(r, 2000, bench(0.01)).least_medium);
}

TEST_CASE("masses rounded to the step, k derived again from them", "[identity]") {
    for (const Recipe& r : {watercolour(), oil_paint(), tempera(), blend()})
        for (const double pigment : {3.3, 10.0, 47.7}) {
            double last = 1.0;
            for (const double step : {1.0, 0.1, 0.01, 0.001, 1e-6}) {
                const WeighSheet s = sheet(r, pigment, bench(step));
                const bool with_stock = std::any_of(s.slab.begin(), s.slab.end(), [](const Weighing& w) {
                    return w.stock && w.stock->deducted_from;
                });
                for (const Weighing& w : s.slab) {
                    const double steps = in_grams(w.rounded) / step;
                    CHECK(steps == Approx(std::round(steps)).margin(1e-6));
                    CHECK(in_grams(w.rounded) == Approx(in_grams(w.to_weigh)).margin((with_stock ? 1.0 : 0.5) * step * (1 + 1e-9)));
                }
                last = s.k_shift;
                // Rounding every mass by half a step at most bounds the shift.
                if (step <= 0.01) CHECK(last < 5.0 * step);
            }
            CHECK(last < 1e-6); // a finer scale converges to the unrounded sheet
        }
}

TEST_CASE("what is weighed is judged: rounded pigment, rounded medium, rounded additives", "[reference]") {
    // A scale of 1 g: .3 g of gum to 10 g of pigment goes in as it is read there. By hand k of a film of dry binder
    // V = m x .88/1.42 (gum), m x 1/1.261 (glycerol), m x .82/1.55 (honey), over 10 g x .6878/.93.
    Recipe r = watercolour();
    r.additives = {{gum(), MassFraction::of(0.16), DoseBasis::pigment}};
    r.additives[0].ingredient.stock.reset();
    const WeighSheet s = sheet(r, 10, bench(1.0));
    const double medium = std::round(in_grams(s.slab.at(1).exact)), gum_g = std::round(1.6);
    CHECK(in_grams(s.slab.at(2).rounded) == near(gum_g, 1e-12));
    const double dry = medium / 340.0 * (100 * 0.88 / 1.42 + 25 / 1.261 + 15 * 0.82 / 1.55) + gum_g * 0.88 / 1.42;
    CHECK(s.film.k.value() == near(dry / (10 * 0.6878 / 0.93), 1e-9));
}

TEST_CASE("the least that a scale weighs well is no thousandth less", "[unit]") {
    const Bench b = bench(0.1);
    const double least = in_grams(minimum_mass(b.scales[0], b.weighing_tolerance));
    const auto of = [&](double g) { return sheet(watercolour(), g, b).slab.at(0).below_minimum; };
    CHECK(of(least * 0.9995));
    CHECK_FALSE(of(least));
    CHECK_FALSE(of(least * 1.0005));
}

TEST_CASE("liquids by syringe", "[unit]") {
    Bench b = bench(0.01);
    b.syringes = {{"10 mL", millilitres(10), millilitres(0.2)},
                  {"1 mL", millilitres(1), millilitres(0.01)},
                  {"5 mL", millilitres(5), millilitres(0.1)}};
    const WeighSheet s = sheet(tempera(), 10, b); // 21.06 mL of yolk
    REQUIRE(s.slab[1].syringe);
    CHECK(s.slab[1].syringe->syringe == 0);
    CHECK(s.slab[1].syringe->fills == 3);
    CHECK(in_millilitres(s.slab[1].syringe->rounded) == Approx(21.0).margin(1e-9));
    CHECK_FALSE(s.slab[0].syringe); // pigment does not pour
    const WeighSheet w = sheet(watercolour(), 2, b);
    // Where several take it at once, the smallest; where none does, the largest.
    b.syringes = {{"20 mL", millilitres(20), millilitres(0.2)},
                  {"30 mL", millilitres(30), millilitres(0.2)},
                  {"25 mL", millilitres(25), millilitres(0.2)},
                  {"10 mL", millilitres(10), millilitres(0.2)}};
    CHECK(sheet(tempera(), 10, b).slab.at(1).syringe->syringe == 2);
    CHECK(sheet(tempera(), 20, b).slab.at(1).syringe->syringe == 1); // 42 mL
    CHECK_FALSE(w.medium[0].syringe); // nor does gum powder
    REQUIRE(w.medium[3].syringe);     // honey, 0.25 mL
    CHECK(w.medium[3].syringe->syringe == 1);
    // Too little for the syringe's steps at the tolerance: 0.1 mL of 0.01 is a tenth either way.
    CHECK_FALSE(sheet(watercolour(), 0.5, b).medium[3].syringe);
    // Fifty syringes full: weigh it.
    CHECK_FALSE(sheet(tempera(), 250, b).slab[1].syringe);
}

TEST_CASE("a part of a fresh medium weighed as a stock brings its water with it", "[identity]") {
    // A pinch of glycerol to 100 of gum: a stock in water, which comes off the water of the medium.
    Recipe r = watercolour();
    r.medium = medium("gum-medium", PartsBasis::mass, {{gum(), 100}, {water(), 200}, {glycerol(), 1.0}});
    const Batch b = batch_of(request(r, grams(10)), grams(10));
    REQUIRE(b.sheet.medium.size() == 3);
    const Weighing &water_part = b.sheet.medium[1], &pinch = b.sheet.medium[2];
    REQUIRE(pinch.stock);
    REQUIRE(pinch.stock->deducted_from);
    CHECK(pinch.stock->deducted_index == 1);
    CHECK(pinch.stock->carrier_mass > grams(0.2)); // or this shows nothing
    // To half a step of the scale: water weighed and water of the stock are the water of the recipe.
    const double brought = in_grams(pinch.stock->rounded) * (1.0 - pinch.stock->strength.value());
    CHECK(in_grams(water_part.rounded) + brought == Approx(in_grams(water_part.exact)).margin(0.0501));
    double weighed = 0.0;
    for (const Weighing& w : b.sheet.medium)
        weighed += in_grams(w.stock ? w.stock->rounded : w.rounded);
    CHECK(weighed == Approx(in_grams(b.medium)).margin(0.1));
    CHECK(b.sheet.k_shift_fresh < 0.01);
}
