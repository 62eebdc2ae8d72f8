// Sums of a batch that go round in a circle or meet nothing at all, and every warning with its figures on both sides
// of its limit.

#include "lakebound/paint/batch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/paint/pvc_subject.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {

Approx nearly(double x) { return Approx(x).epsilon(1e-9).margin(1e-14); }
/// A clove stock in ethanol beside the gum: from 41 g of medium on its tenth can be weighed, and fills the vessels too.
Recipe with_clove(std::optional<double> beside) {
    Recipe r = watercolour();
    r.working_water = SpecificVolume();
    r.additives = {{clove_oil(), MassFraction::of(0.004), DoseBasis::medium}};
    r.additives[0].ingredient.stock->most = kilograms(1);
    r.additives[0].ingredient.stock->beside.reset();
    if (beside) r.additives[0].ingredient.stock->beside = exactly(MassFraction::of(*beside));
    return r;
}
Vessel tube_of(double ml) {
    return {"tube", "tube", exactly(millilitres(ml)), Share::of(0.95), FilledBy::wet_volume, {}};
}
void check_once(const Batch& b, WarningKind kind, const char* subject, double value, double limit) {
    const auto is = [&](const BatchWarning& w) { return w.kind == kind && w.subject == subject; };
    CAPTURE(word_of(kind), subject);
    CHECK(std::count_if(b.warnings.begin(), b.warnings.end(), is) == 1);
    const auto found = std::find_if(b.warnings.begin(), b.warnings.end(), is);
    if (found == b.warnings.end()) return;
    CHECK(found->value == nearly(value));
    CHECK(found->limit == nearly(limit));
}
bool warns(const Batch& b, WarningKind kind) {
    return std::any_of(b.warnings.begin(), b.warnings.end(), [&](const BatchWarning& w) { return w.kind == kind; });
}
Batch made(const BatchRequest& r) { return *size_batch(r).batch; }
/// Gum by the pigment's mass and no medium at all, or one of water alone.
Recipe bound_by_additives() {
    Recipe r = watercolour();
    r.additives = {{gum(), MassFraction::of(0.95), DoseBasis::pigment}};
    r.additives[0].ingredient.stock.reset();
    return r;
}

} // namespace

TEST_CASE("vessels are filled whatever a stock brings into them, and with no more than need be", "[identity]") {
    int settled = 0, between = 0;
    for (const std::optional<double> beside : {std::optional<double>(), std::optional(0.05)})
        for (double ml = 3.0; ml < 40.0; ml += 0.37)
            for (const int count : {1, 3}) {
                CAPTURE(beside.has_value(), ml, count);
                const BatchRequest r = request(with_clove(beside), VesselCount{tube_of(ml), count});
                const Batch b = made(r);
                CHECK(b.filling->vessels_exact >= count * (1.0 - 1e-8));
                CHECK(b.filling->vessels == count);
                if (std::abs(b.filling->vessels_exact - count) < 1e-8 * count) {
                    ++settled;
                    continue;
                }
                // Two strengths call each other up: so much less pigment as is over no longer fills them.
                ++between;
                const Mass kept = (b.pigment - b.loss) * (count / b.filling->vessels_exact);
                const Batch less = batch_of(r, pigment_to_keep(kept, r.bench.slab_loss));
                CHECK(less.filling->vessels_exact < count);
            }
    CHECK(settled > 300);
    CHECK(between > 1);
}

TEST_CASE("what nothing is wanted of does not run out", "[unit]") {
    BatchRequest r = request(oil_paint(), grams(10));
    r.recipe.additives[0].dose = MassFraction::of(0.0);
    for (const double left : {0.0, 3.0}) {
        r.stocks = {{"beeswax", grams(left)}};
        const BatchAnswer a = size_batch(r);
        CHECK_FALSE(a.shortfall);
        CHECK_FALSE(a.batch->limiting);
    }
    // Two parts of one id are wanted together: oil in the medium and oil besides.
    r.recipe.additives = {{linseed_oil(), MassFraction::of(0.1), DoseBasis::pigment}};
    r.stocks = {{"linseed-oil", grams(30)}};
    const Batch both = made(r);
    CHECK(in_grams(both.limiting->needed) == nearly(in_grams(both.medium) + 1.0));
    CHECK(in_grams(both.limiting->available) == nearly(30.0));
    CHECK(both.limiting->factor == nearly(30.0 / (in_grams(both.medium) + 1.0)));
}

TEST_CASE("a paint without any medium, and a medium without any binder, are paints all the same", "[unit]") {
    // 9.5 g of gum, .88 dry at 1.42 g/mL, over the 7.396 mL that 10 g of the lake want.
    BatchRequest r = request(bound_by_additives(), grams(10));
    r.aim = MediumPerPigment::of(0.0);
    r.bench.syringes = {{"10 mL", millilitres(10), millilitres(0.2)}};
    const Batch b = made(r);
    const double k = 9.5 * 0.88 / 1.42 / (10 * 0.6878 / 0.93);
    CHECK(b.film.k.value() == nearly(k));
    CHECK(b.sheet.film.k.value() == nearly(k)); // 10.0 and 9.5 g lie on the scale's steps
    CHECK(b.sheet.film_fresh.k.value() == nearly(k));
    CHECK(b.sheet.k_shift == Approx(0.0).margin(1e-9));
    CHECK(b.sheet.k_shift_fresh == Approx(0.0).margin(1e-9));
    CHECK(in_grams(b.medium) == nearly(0.0));
    CHECK_FALSE(b.sheet.least_medium);
    CHECK_FALSE(warns(b, WarningKind::below_scale_minimum));
    CHECK_FALSE(warns(b, WarningKind::medium_part_below_minimum));

    PvcQuestion asked;
    asked.request = request(bound_by_additives(), grams(10));
    asked.request.recipe.medium = medium("water", PartsBasis::mass, {{water(), 1}});
    asked.request.aim = MediumPerPigment::of(2.0);
    asked.pigment = grams(10);
    const PvcSubject subject = pvc_subject(asked);
    CHECK(in_millilitres(*subject.check.spare_binder) == nearly(9.5 * 0.88 / 1.42 - 10 * 0.6878 / 0.93));
    CHECK_FALSE(subject.spare_medium); // no water makes up for binder
    CHECK(subject.check.k->value() == nearly(k));
}

TEST_CASE("air in the film is warned of with its share", "[reference]") {
    // Of k below 1: voids (1/c - 1)(1 - k) of (1/c) + what is bound; with index 1 the bulk keeps its volume.
    BatchRequest r = request(watercolour(), grams(10));
    const double c = 1 / (1 + 0.6878 / 0.93 * 1.88);
    for (const double k : {0.5, 0.9, 0.999}) {
        r.aim = BinderSufficiency::of(k);
        check_once(made(r), WarningKind::film_holds_air, "", (1 - c) * (1 - k), 0.0);
    }
    for (const double k : {1.0, 1.0001, 1.4}) {
        r.aim = BinderSufficiency::of(k);
        CHECK_FALSE(warns(made(r), WarningKind::film_holds_air));
    }
}

TEST_CASE("what is too little to weigh is warned of with the least that the scale weighs", "[reference]") {
    // .41 of a step of .1 g, twice, over 5 %: 1.64 g.
    for (const double g : {1.2, 1.63})
        check_once(made(request(tempera(), grams(g))), WarningKind::below_scale_minimum, "lake-m", g, 1.64);
    for (const double g : {1.65, 4.0}) CHECK_FALSE(warns(made(request(tempera(), grams(g))), WarningKind::below_scale_minimum));
    // Of a medium of gum, water, glycerol and honey 15 of 340 parts are honey.
    const Batch b = made(request(watercolour(), grams(5)));
    check_once(b, WarningKind::medium_part_below_minimum, "honey", in_grams(b.medium) * 15 / 340, 1.64);
}

TEST_CASE("rounding and a damp powder are warned of with what they do", "[reference]") {
    BatchRequest r = request(oil_paint(), grams(1.04));
    r.recipe.additives.clear();
    const double oil = 1.04 * 1.35 * 0.6878 / 0.93 * 0.93;
    const double shift = std::abs(std::round(oil * 10) / 10 / oil * 1.04 / 1.0 - 1.0);
    REQUIRE(shift > 0.02);
    check_once(made(r), WarningKind::rounding_shifts_k, "", shift, 0.02);

    BatchRequest damp = request(watercolour(), grams(10));
    damp.recipe.pigments[0].pigment.excess_water = MassFraction::of(0.12);
    check_once(made(damp), WarningKind::powder_damp, "", 1.2, 0.12);
}

TEST_CASE("a dose is unusual beyond twice the usual one", "[unit]") {
    BatchRequest r = request(watercolour(), grams(10));
    const auto with = [&](double dose, std::optional<double> usual) {
        Ingredient clove = clove_oil();
        if (usual) clove.usual_dose = exactly(MassFraction::of(*usual));
        r.recipe.additives = {{clove, MassFraction::of(dose), DoseBasis::medium}};
        return made(r);
    };
    check_once(with(0.00401, 0.002), WarningKind::dose_unusual, "clove-oil", 0.00401, 0.002);
    check_once(with(0.004001, 0.002), WarningKind::dose_unusual, "clove-oil", 0.004001, 0.002);
    CHECK_FALSE(warns(with(0.004, 0.002), WarningKind::dose_unusual));
    CHECK_FALSE(warns(with(0.004, {}), WarningKind::dose_unusual));
    CHECK_FALSE(warns(with(0.004, 0.0), WarningKind::dose_unusual)); // no usual dose is known
    check_once(with(0.004, 0.0005), WarningKind::dose_unusual, "clove-oil", 0.004, 0.0005);
    // Without any medium there is no dose of it.
    BatchRequest dry = request(bound_by_additives(), grams(10));
    dry.recipe.additives[0].ingredient.usual_dose = exactly(MassFraction::of(0.01));
    dry.aim = MediumPerPigment::of(0.0);
    CHECK_FALSE(warns(made(dry), WarningKind::dose_unusual));
}

TEST_CASE("losses, vessels and the reserve are warned of with their figures", "[reference]") {
    // .6 g and 3 %: a fifth of m where .6 = .17 m.
    const double fifth = 0.6 / 0.17;
    const Batch large = made(request(tempera(), grams(fifth * 0.9999)));
    check_once(large, WarningKind::loss_large, "", 0.6 / (fifth * 0.9999) + 0.03, 0.2);
    CHECK_FALSE(warns(large, WarningKind::all_lost));
    CHECK_FALSE(warns(made(request(tempera(), grams(fifth * 1.0001))), WarningKind::loss_large));
    // All of m where .6 = .97 m.
    const double all = 0.6 / 0.97;
    const Batch lost = made(request(tempera(), grams(all * 0.9999)));
    check_once(lost, WarningKind::all_lost, "", all * 0.9999, all * 0.9999);
    CHECK_FALSE(warns(lost, WarningKind::loss_large));
    CHECK_FALSE(warns(made(request(tempera(), grams(all * 1.0001))), WarningKind::all_lost));

    BatchRequest r = request(oil_paint(), grams(10));
    r.vessel = tube_15();
    const double whole = made(r).filling->vessels_exact;
    REQUIRE(whole < 1.0);
    check_once(made(r), WarningKind::no_vessel_filled, "tube-15", whole, 1.0);
    r.amount = VesselCount{tube_15(), 1};
    CHECK_FALSE(warns(made(r), WarningKind::no_vessel_filled));

    r = request(oil_paint(), grams(10));
    for (const double left : {0.0, 0.25, 0.4999}) {
        r.jar = JarOnHand{0, grams(10 + left)};
        check_once(made(r), WarningKind::reserve_not_kept, "lake-m", left, 0.5);
        CHECK(in_grams(*made(r).left_in_jar) == Approx(left).margin(1e-12));
    }
    for (const double left : {0.5, 0.5001, 7.0}) {
        r.jar = JarOnHand{0, grams(10 + left)};
        CHECK_FALSE(warns(made(r), WarningKind::reserve_not_kept));
    }
}

TEST_CASE("a jar holds out to a thousand millionth, and no more", "[unit]") {
    BatchRequest r = request(oil_paint(), grams(10));
    r.jar = JarOnHand{0, grams(10 * (1 - 1e-10))};
    CHECK_FALSE(size_batch(r).shortfall);
    r.jar = JarOnHand{0, grams(10 * (1 - 1e-4))};
    const BatchAnswer a = size_batch(r);
    REQUIRE(a.shortfall);
    CHECK(in_grams(a.shortfall->needed) == nearly(10.0));
    CHECK(in_grams(a.shortfall->available) == nearly(10 * (1 - 1e-4) - 0.5)); // the reserve is kept
    CHECK(in_grams(a.shortfall->pigment_wanted) == nearly(10.0));
    CHECK(in_grams(a.shortfall->pigment_possible) == nearly(10 * (1 - 1e-4) - 0.5));
    CHECK_FALSE(a.shortfall->vessels_wanted);
    CHECK_FALSE(a.shortfall->vessels_possible);
    // Nothing above the reserve of a whole jar: reserve and what there is.
    r.amount = WholeJar{};
    r.jar = JarOnHand{0, grams(0.5)};
    const BatchAnswer nothing = size_batch(r);
    REQUIRE(nothing.shortfall);
    CHECK(nothing.shortfall->id == "lake-m");
    CHECK(in_grams(nothing.shortfall->needed) == nearly(0.5));
    CHECK(in_grams(nothing.shortfall->available) == nearly(0.5));
    CHECK(in_grams(nothing.shortfall->pigment_wanted) == Approx(0.0).margin(1e-15));
    CHECK_FALSE(nothing.batch);
}

TEST_CASE("a jar that is a trace of the paint goes far, and one that fills one vessel of four fills one", "[unit]") {
    BatchRequest r = request(blend(), WholeJar{});
    r.recipe.pigments[0].share = MassFraction::of(0.0005);
    r.recipe.pigments[1].share = MassFraction::of(0.9995);
    r.jar = JarOnHand{0, grams(0.5 + 0.005)};
    CHECK(in_grams(size_batch(r).batch->pigment) == Approx(10.0).epsilon(1e-6)); // .005 g are a two-thousandth of it
    const auto pans = [](double jar, int count) {
        BatchRequest four = request(watercolour(), VesselCount{{"pan", "pan", exactly(millilitres(4)), Share::of(0.9), FilledBy::dry_volume, {}}, count});
        four.jar = JarOnHand{0, grams(jar)};
        return size_batch(four);
    };
    const double one = in_grams(pans(1000, 1).batch->pigment), three = in_grams(pans(1000, 3).batch->pigment);
    const auto filled = [&](double jar) { return *pans(jar + 0.5, 4).shortfall->vessels_possible; };
    CHECK(filled(one * 1.2) == 1);
    CHECK(in_grams(pans(one * 1.2 + 0.5, 4).batch->pigment) == nearly(one)); // and no more than it takes
    CHECK(filled(one * 0.999) == 0);
    CHECK(filled(three) == 3);
    CHECK(filled(three * (1 - 1e-10)) == 3);
    CHECK(filled(three * 0.9998) == 2);
    CHECK(pans(one * 1.2 + 0.5, 4).shortfall->vessels_wanted == 4);
}

TEST_CASE("every line of a batch has its name, its mass and, where it pours, its volume", "[reference]") {
    Recipe recipe = blend();
    const Batch b = made(request(recipe, grams(10)));
    REQUIRE(b.pigments.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(b.pigments[i].id == recipe.pigments[i].pigment.id);
        CHECK(b.pigments[i].name == recipe.pigments[i].pigment.name);
        CHECK(in_grams(b.pigments[i].mass) == nearly(i == 0 ? 7.0 : 3.0));
        CHECK_FALSE(b.pigments[i].volume);
        CHECK_FALSE(b.pigments[i].counts_as_binder);
    }
    const double parts[] = {100, 200, 25, 15}, density[] = {0, 0.9982071, 1.261, 1.42};
    for (std::size_t i = 0; i < 4; ++i) {
        CAPTURE(i);
        const BatchLine& line = b.medium_parts.at(i);
        CHECK(line.name == recipe.medium.parts[i].ingredient.name);
        CHECK(in_grams(line.mass) == nearly(in_grams(b.medium) * parts[i] / 340));
        CHECK(line.volume.has_value() == (i != 0)); // gum is a powder
        if (line.volume) CHECK(in_millilitres(*line.volume) == nearly(in_grams(line.mass) / density[i]));
        CHECK(line.counts_as_binder == (i != 1));
    }
    // Clove oil of the medium, gum of the pigment, glycerol of all the paint.
    CHECK(in_grams(b.additives.at(0).mass) == nearly(0.001 * in_grams(b.medium)));
    CHECK(in_grams(b.additives.at(1).mass) == nearly(0.03 * 10));
    const double all = 10 + in_grams(b.medium) + 5 * 0.9982071 + 0.001 * in_grams(b.medium) + 0.3;
    CHECK(in_grams(b.additives.at(2).mass) == nearly(0.02 * all / 0.98));
    CHECK(in_millilitres(*b.additives[0].volume) == nearly(in_grams(b.additives[0].mass) / 1.045));
    CHECK_FALSE(b.additives[0].counts_as_binder);
    CHECK(b.additives[1].counts_as_binder);
    CHECK_FALSE(b.additives[1].volume);
    CHECK(in_millilitres(b.working_water_volume) == nearly(5.0));
    CHECK(in_grams(b.working_water) == nearly(5 * 0.9982071));
    CHECK(b.medium_volume.value() == nearly(b.medium.value() / b.formulation.medium.density.value()));
}
