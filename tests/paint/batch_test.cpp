#include "lakebound/paint/batch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "support/worked_paints.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }
std::vector<Recipe> recipes() { return {watercolour(), oil_paint(), tempera(), blend()}; }
Batch sized(const BatchRequest& r) {
    const BatchAnswer a = size_batch(r);
    REQUIRE_FALSE(a.shortfall);
    REQUIRE(a.batch);
    return *a.batch;
}
BatchRequest from_jar(Recipe recipe, BatchAmount amount, double jar_g) {
    BatchRequest r = request(std::move(recipe), std::move(amount));
    r.jar = JarOnHand{0, grams(jar_g)};
    return r;
}
bool warns(const Batch& b, WarningKind kind) {
    return std::any_of(b.warnings.begin(), b.warnings.end(),
                       [&](const BatchWarning& w) { return w.kind == kind; });
}
Vessel vessel_for(const Recipe& r) { return r.family.process == Process::watercolour ? half_pan() : tube_15(); }
} // namespace

TEST_CASE("a stiff paste of gum medium is underbound", "[reference]") {
    // docs/theory.md: liquid for k 1.4 over the liquid that wets the pigment is 1.4/x: 4.7 for the base
    // medium, 6.2 for plain gum water 1:2.
    Recipe r = watercolour();
    r.working_water = SpecificVolume();
    CHECK(sized(request(r, grams(10))).watercolour->liquid_factor == Approx(4.7).margin(0.06));
    r.medium = medium("plain", PartsBasis::mass, {{gum(), 1}, {water(), 2}});
    const Batch plain = sized(request(r, grams(10)));
    CHECK(plain.watercolour->liquid_factor == Approx(6.2).margin(0.06));
    CHECK(warns(plain, WarningKind::plasticiser_low));
    // Soft share and PVC in the room: .44 of the base medium at 50 % RH; PVC .271 where the dry is .314.
    r = watercolour();
    r.aim = ReducedPigmentVolumeConcentration::of(0.75);
    const Batch base = sized(request(r, grams(10)));
    CHECK(base.watercolour->soft_share.value() == Approx(.44).margin(.006));
    CHECK(base.watercolour->pvc_in_room.value() == Approx(.271).margin(.001));
    CHECK(*base.watercolour->plasticiser_ratio == Approx(.42).margin(.006));
    CHECK_FALSE(warns(base, WarningKind::plasticiser_low));
}

TEST_CASE("n vessels asked for are n vessels filled", "[identity]") {
    for (const Recipe& r : recipes())
        for (const int n : {1, 2, 7, 10, 24, 100}) {
            const Batch b = sized(request(r, VesselCount{vessel_for(r), n}));
            REQUIRE(b.filling);
            CHECK(b.filling->vessels == n);
            CHECK(b.filling->vessels_exact == near(n, 1e-9));
            CHECK(b.filling->wet_left_over.value() == Approx(0.0).margin(1e-12));
            // A hair less pigment no longer fills them.
            CHECK(sized(request(r, BatchAmount(b.pigment * 0.999999))).pigment < b.pigment);
        }
}

TEST_CASE("what a stock brings is in the paint and fills the vessel", "[unit]") {
    // The ethanol of a clove stock was neither in the paint nor in the tube, which came out 9 % too full.
    Recipe r = watercolour();
    r.working_water = SpecificVolume();
    r.additives = {{clove_oil(), MassFraction::of(0.004), DoseBasis::medium}};
    r.additives[0].ingredient.stock->most = grams(60);
    const Vessel tube{"tube", "tube", Estimate<Volume>::exact(millilitres(15), {}), Share::of(0.95),
                      FilledBy::wet_volume, {}};
    BatchRequest wish = request(r, VesselCount{tube, 3});
    const Batch b = *size_batch(wish).batch;
    REQUIRE(b.sheet.carriers.size() == 1);
    const CarrierOnSlab& ethanol = b.sheet.carriers.front();
    CHECK(ethanol.id == "ethanol");
    CHECK(in_millilitres(ethanol.volume) == near(in_grams(ethanol.mass) / 0.789, 1e-12));
    const Composition c = b.composition;
    CHECK(b.volumes.wet.value() ==
          near(paint_volumes(r, c, RelativeHumidity::of(0.5)).wet.value() + ethanol.volume.value(), 1e-12));
    // Three tubes asked for are three tubes filled, to the brim of the third.
    REQUIRE(b.filling);
    CHECK(b.filling->vessels == 3);
    CHECK(b.filling->vessels_exact == near(3.0, 1e-9));
    // A stock of it runs out like any other.
    wish.stocks = {{"ethanol", ethanol.mass * 0.5}};
    const BatchAnswer half = size_batch(wish);
    REQUIRE(half.shortfall);
    CHECK(half.shortfall->id == "ethanol");
    CHECK(in_grams(half.shortfall->needed) == near(in_grams(ethanol.mass), 1e-9));
    wish.stocks = {{"ethanol", ethanol.mass * 2.0}};
    CHECK(size_batch(wish).batch->limiting->factor == near(2.0, 1e-9));
}

TEST_CASE("a batch balances and scales", "[identity]") {
    for (const Recipe& r : recipes()) {
        const Batch one = sized(request(r, grams(7.5))), two = sized(request(r, grams(15)));
        CHECK(in_grams(two.medium) == near(2 * in_grams(one.medium), 1e-12));
        CHECK(in_grams(two.paint) == near(2 * in_grams(one.paint), 1e-12));
        CHECK(two.volumes.wet.value() == near(2 * one.volumes.wet.value(), 1e-12));
        CHECK(two.film.pvc.value() == near(one.film.pvc.value(), 1e-12));
        double sum = in_grams(one.working_water);
        for (const auto* lines : {&one.pigments, &one.medium_parts, &one.additives})
            for (const BatchLine& l : *lines)
                sum += in_grams(l.mass);
        for (const CarrierOnSlab& carrier : one.sheet.carriers)
            sum += in_grams(carrier.mass);
        CHECK(in_grams(one.paint) == near(sum, 1e-12));
        for (std::size_t i = 0; i < one.additives.size(); ++i)
            CHECK(in_grams(two.additives[i].mass) == near(2 * in_grams(one.additives[i].mass), 1e-12));
        CHECK(one.paint_density.value() == near(one.paint.value() / one.volumes.wet.value(), 1e-14));
    }
}

TEST_CASE("everything in the jar but the reserve", "[unit]") {
    const Batch b = sized(from_jar(watercolour(), WholeJar{}, 24.0));
    CHECK(in_grams(b.pigment) == near(23.5, 1e-12));
    CHECK(in_grams(*b.left_in_jar) == near(0.5, 1e-9));
    REQUIRE(b.limiting);
    CHECK(b.limiting->factor == near(1.0, 1e-12));
    CHECK_FALSE(warns(b, WarningKind::reserve_not_kept));
    // Of a blend the jar's pigment is 70 %.
    CHECK(in_grams(sized(from_jar(blend(), WholeJar{}, 24.0)).pigment) == near(23.5 / 0.7, 1e-12));
    // The slab loss is reported, not taken off the mass to weigh.
    CHECK(in_grams(b.loss) == near(0.6 + 0.03 * 23.5, 1e-12));
}

TEST_CASE("more than the jar holds is an answer, with the largest batch that fits", "[unit]") {
    const BatchAnswer grams_asked = size_batch(from_jar(watercolour(), grams(30), 24.0));
    REQUIRE(grams_asked.shortfall);
    CHECK(grams_asked.shortfall->id == "lake-m");
    CHECK(in_grams(grams_asked.shortfall->pigment_possible) == near(23.5, 1e-12));
    CHECK(in_grams(grams_asked.batch->pigment) == near(23.5, 1e-12));

    const BatchAnswer pans = size_batch(from_jar(watercolour(), VesselCount{half_pan(), 400}, 24.0));
    REQUIRE(pans.shortfall);
    CHECK(pans.shortfall->vessels_wanted == 400);
    REQUIRE(pans.shortfall->vessels_possible);
    const int n = *pans.shortfall->vessels_possible;
    CHECK(n > 10);
    CHECK(pans.batch->filling->vessels == n);
    CHECK(pans.batch->pigment <= grams(23.5));
    // One more would not have fitted.
    const Batch one_more = sized(request(watercolour(), VesselCount{half_pan(), n + 1}));
    CHECK(one_more.pigment > grams(23.5));

    // Not even one: all there is, and no pan.
    const BatchAnswer none = size_batch(from_jar(watercolour(), VesselCount{half_pan(), 3}, 1.2));
    CHECK(none.shortfall->vessels_possible == 0);
    REQUIRE(none.batch);
    CHECK(in_grams(none.batch->pigment) == near(0.7, 1e-9));
    CHECK(warns(*none.batch, WarningKind::no_vessel_filled));
    CHECK(warns(*none.batch, WarningKind::loss_large));

    // Nothing above the reserve: nothing to make.
    const BatchAnswer empty = size_batch(from_jar(watercolour(), WholeJar{}, 0.4));
    CHECK(empty.shortfall);
    CHECK_FALSE(empty.batch);

    // Half a gram above it is made.
    CHECK(in_grams(sized(from_jar(watercolour(), WholeJar{}, 1.0)).pigment) == near(0.5, 1e-9));

    // An amount that eats the reserve is made, with a warning.
    const Batch eats = sized(from_jar(watercolour(), grams(23.8), 24.0));
    CHECK(warns(eats, WarningKind::reserve_not_kept));
}

TEST_CASE("the ingredient that runs out first", "[unit]") {
    BatchRequest r = from_jar(oil_paint(), WholeJar{}, 24.0);
    r.stocks = {{"linseed-oil", grams(10.0)}, {"beeswax", grams(50.0)}};
    const BatchAnswer a = size_batch(r);
    REQUIRE(a.shortfall);
    CHECK(a.shortfall->id == "linseed-oil");
    CHECK(in_grams(a.batch->medium) == near(10.0, 1e-9));
    CHECK(a.batch->limiting->factor == near(1.0, 1e-9));
    // Plenty of all: the factor says how many times over.
    r.amount = grams(2.0);
    const Batch small = sized(r);
    CHECK(small.limiting->id == "linseed-oil");
    CHECK(small.limiting->factor == near(10.0 / in_grams(small.medium), 1e-12));
    CHECK(small.limiting->factor > 1.0);
    // A ready medium in stock stands for its parts.
    BatchRequest gum_medium = request(watercolour(), grams(10));
    gum_medium.stocks = {{"gum-medium", grams(20)}, {"gum-arabic", grams(0)}};
    const BatchAnswer ready = size_batch(gum_medium);
    CHECK(ready.shortfall->id == "gum-medium");
    CHECK(in_grams(ready.batch->medium) == near(20.0, 1e-9));
}

TEST_CASE("a pigment or an additive may run out first, and vessels that fit to the last grain are filled", "[unit]") {
    // The wax is .02 of the medium: half of that at hand makes half the batch.
    BatchRequest r = request(oil_paint(), grams(10));
    const Batch whole = sized(r);
    r.stocks = {{"beeswax", whole.additives.at(0).mass * 0.5}, {"linseed-oil", grams(500)}};
    CHECK(size_batch(r).shortfall->id == "beeswax");
    CHECK(in_grams(size_batch(r).batch->pigment) == near(5.0, 1e-6));
    r.stocks = {{"lake-m", grams(4)}};
    CHECK(size_batch(r).shortfall->id == "lake-m");
    CHECK(in_grams(size_batch(r).batch->pigment) == near(4.0, 1e-9));
    r = request(blend(), grams(10));
    r.stocks = {{"chalk", grams(1.2)}}; // of the 3 g that three tenths are
    CHECK(size_batch(r).shortfall->id == "chalk");
    CHECK(in_grams(size_batch(r).batch->pigment) == near(4.0, 1e-9));
    // The jar holds what three pans take and its reserve, no grain more; four were asked for.
    const Mass three = sized(request(watercolour(), VesselCount{half_pan(), 3})).pigment;
    const auto fits = size_batch(from_jar(watercolour(), VesselCount{half_pan(), 4}, in_grams(three) + 0.5));
    REQUIRE(fits.shortfall);
    CHECK(fits.shortfall->vessels_possible == 3);
    CHECK(in_grams(fits.batch->pigment) == near(in_grams(three), 1e-9));
}

TEST_CASE("what the scale weighs well is not warned of", "[unit]") {
    const Batch plenty = sized(request(watercolour(), grams(50)));
    for (const Weighing& line : plenty.sheet.slab)
        CHECK_FALSE(line.below_minimum);
    CHECK_FALSE(warns(plenty, WarningKind::below_scale_minimum));
    CHECK_FALSE(warns(plenty, WarningKind::medium_part_below_minimum));
    CHECK_FALSE(warns(plenty, WarningKind::film_holds_air));
    // Nor is what a stock brings in its place.
    BatchRequest salted = request(watercolour(), grams(20));
    salted.recipe.additives = {{benzoate(), MassFraction::of(0.004), DoseBasis::medium}};
    const Batch stocked = sized(salted);
    REQUIRE(stocked.sheet.slab.at(2).stock);
    CHECK(stocked.sheet.slab[2].below_minimum);
    CHECK_FALSE(warns(stocked, WarningKind::below_scale_minimum));
}

TEST_CASE("half a gram of water to work in is asked of the stock of water", "[unit]") {
    BatchRequest r = request(watercolour(), grams(1.0));
    r.stocks = {{"gum-medium", grams(50)}, {"water", grams(0.2)}};
    const BatchAnswer a = size_batch(r);
    REQUIRE(a.shortfall);
    CHECK(a.shortfall->id == "water");
    CHECK(in_grams(a.shortfall->needed) == near(0.5 * 0.9982071, 1e-6));
}

TEST_CASE("warnings carry their numbers", "[unit]") {
    BatchRequest r = request(watercolour(), grams(0.5));
    const Batch lost = sized(r);
    CHECK(warns(lost, WarningKind::all_lost));
    CHECK(warns(lost, WarningKind::below_scale_minimum));
    r = request(watercolour(), grams(10));
    r.aim = MediumPerPigment::of(1.0);
    const Batch dry = sized(r);
    REQUIRE(warns(dry, WarningKind::film_holds_air));
    CHECK(dry.verdict == Verdict::fails_under);
    r = request(watercolour(), grams(10));
    Ingredient strong = clove_oil();
    strong.usual_dose = exactly(MassFraction::of(0.001));
    r.recipe.additives = {{strong, MassFraction::of(0.02), DoseBasis::medium}};
    const Batch dosed = sized(r);
    const auto found = std::find_if(dosed.warnings.begin(), dosed.warnings.end(),
                                    [](const BatchWarning& w) { return w.kind == WarningKind::dose_unusual; });
    REQUIRE(found != dosed.warnings.end());
    CHECK(found->subject == "clove-oil");
    CHECK(found->value == near(0.02, 1e-12));
    // Clove oil: 0.05 % is usual and 0.1 % the most (common practice, no source).
    strong.usual_dose = exactly(MassFraction::of(0.0005));
    r.recipe.additives = {{strong, MassFraction::of(0.0012), DoseBasis::medium}};
    CHECK(warns(sized(r), WarningKind::dose_unusual));
    r.recipe.additives = {{strong, MassFraction::of(0.0010), DoseBasis::medium}};
    CHECK_FALSE(warns(sized(r), WarningKind::dose_unusual));
}

TEST_CASE("requests without meaning", "[errors]") {
    CHECK_THROWS_AS(size_batch(request(watercolour(), WholeJar{})), DomainError);
    CHECK_THROWS_AS(size_batch(request(watercolour(), grams(0))), DomainError);
    CHECK_THROWS_AS(size_batch(request(watercolour(), VesselCount{half_pan(), 0})), DomainError);
    BatchRequest no_scale = request(watercolour(), grams(10));
    no_scale.bench.scales.clear();
    CHECK_THROWS_AS(size_batch(no_scale), DomainError);
    BatchRequest damp = request(watercolour(), grams(10));
    damp.bench.humidity = RelativeHumidity::of(0.99);
    CHECK_THROWS_AS(size_batch(damp), DomainError); // the sorption model ends at 95 %
    BatchRequest wrong = from_jar(watercolour(), WholeJar{}, 10);
    wrong.jar->pigment = 3;
    CHECK_THROWS_AS(size_batch(wrong), DomainError);
    // On a scale of 0.1 g. It was judged by a k of infinity.
    CHECK_THROWS_WITH(size_batch(request(oil_paint(), grams(0.04))), Catch::Contains("pigment to weigh is 0.04 g"));
    BatchRequest dry = request(watercolour(), grams(10));
    dry.aim = BinderSufficiency::of(0.001);
    CHECK_THROWS_WITH(size_batch(dry), Catch::Contains("medium to weigh") && Catch::Contains("finer scale"));
}

TEST_CASE("A medium of one part is weighed once and warned of once; of several, each part", "[unit]") {
    const auto count = [](const Batch& b, const std::string& id, WarningKind kind = WarningKind::below_scale_minimum) {
        return std::count_if(b.warnings.begin(), b.warnings.end(), [&](const BatchWarning& w) {
            return w.kind == kind && w.subject == id;
        });
    };
    Recipe alone = oil_paint();
    alone.medium = medium("linseed-oil", PartsBasis::mass, {{linseed_oil(), 1}});
    alone.additives.clear();
    CHECK(count(sized(request(alone, grams(0.06))), "linseed-oil") == 1);
    const Batch pans = sized(request(watercolour(), grams(0.1)));
    CHECK(count(pans, "honey", WarningKind::medium_part_below_minimum) == 1);
    CHECK(count(pans, "honey") == 0);
    // Water to work in and water of the medium were warned of in the same words.
    CHECK(count(pans, "water") == 1);
    CHECK(count(pans, "water", WarningKind::medium_part_below_minimum) == 1);
}

TEST_CASE("Excess water is weighed and wet, and is no pigment", "[unit]") {
    Recipe damp = watercolour();
    Pigment& lake = damp.pigments.front().pigment;
    const Batch dry = sized(request(damp, grams(8)));
    // The same grains with a fifth of water between them: 10 g that hold the 8 g.
    lake.excess_water = MassFraction::of(0.2);
    lake.density = density(1.88 / 0.8);
    lake.oil_absorption = exactly(grams_per_100_grams(68.78 * 0.8));
    damp.working_water = millilitres_per_gram(0.4);
    const Batch wet = sized(request(damp, grams(10)));
    CHECK(wet.film.k.value() == near(dry.film.k.value(), 1e-12));
    CHECK(wet.film.pvc.value() == near(dry.film.pvc.value(), 1e-12));
    CHECK(wet.film.cpvc.value() == near(dry.film.cpvc.value(), 1e-12));
    CHECK(wet.medium.value() == near(dry.medium.value(), 1e-12));
    CHECK(in_grams(wet.excess_water) == near(2.0, 1e-12));
    CHECK(in_millilitres(wet.volumes.wet) ==
          near(in_millilitres(dry.volumes.wet) + 2.0 / 0.9982071, 1e-9));
    CHECK(warns(wet, WarningKind::powder_damp));
    CHECK_FALSE(warns(dry, WarningKind::powder_damp));
}

TEST_CASE("A damp powder of a blend is weighed so that the dry shares stay", "[unit]") {
    std::vector<PigmentPart> parts{{lake(), MassFraction::of(0.7)}, {chalk(), MassFraction::of(0.3)}};
    CHECK(as_weighed_shares(parts)[0].share.value() == near(0.7, 1e-15));
    parts[0].pigment.excess_water = MassFraction::of(0.2);
    const auto weighed = as_weighed_shares(parts);
    CHECK(weighed[0].share.value() + weighed[1].share.value() == near(1.0, 1e-14));
    CHECK(weighed[0].share.value() * 0.8 / weighed[1].share.value() == near(0.7 / 0.3, 1e-12));
}

TEST_CASE("Rounding is warned of where it moves k by more than 2 %", "[identity]") {
    int warned = 0, silent = 0;
    for (double g = 0.7; g < 12.0; g += 0.37) {
        Recipe r = oil_paint();
        r.additives.clear();
        const Batch b = sized(request(r, grams(g)));
        // By hand: both lines to 0.1 g, k as they are over k as they should be.
        const double pigment = std::round(in_grams(b.pigment) * 10) / 10, oil = std::round(in_grams(b.medium) * 10) / 10;
        const double shift = std::abs(oil / in_grams(b.medium) * in_grams(b.pigment) / pigment - 1.0);
        CHECK(b.sheet.k_shift == near(shift, 1e-6));
        CHECK(warns(b, WarningKind::rounding_shifts_k) == (shift > 0.02));
        (shift > 0.02 ? warned : silent) += 1;
    }
    CHECK(warned > 2);
    CHECK(silent > 2);
}

TEST_CASE("What one weighing and one vessel hold is not warned of", "[unit]") {
    BatchRequest r = request(oil_paint(), grams(40));
    r.bench.scales.front().capacity = grams(50);
    CHECK_FALSE(warns(sized(r), WarningKind::weighed_in_portions));
    r.amount = grams(60);
    const Batch two = sized(r);
    const auto found = std::find_if(two.warnings.begin(), two.warnings.end(),
                                    [](const auto& w) { return w.kind == WarningKind::weighed_in_portions; });
    REQUIRE(found != two.warnings.end());
    CHECK(found->subject == "lake-m");
    CHECK(found->value == near(60, 1e-9));
    CHECK(found->limit == near(50, 1e-9));
    CHECK_FALSE(warns(sized(request(watercolour(), VesselCount{half_pan(), 1})), WarningKind::no_vessel_filled));
    // The slab takes .6 g and 3 %: of half a gram all of it, and no more than all.
    CHECK(sized(request(watercolour(), grams(0.5))).loss_share.value() == near(1.0, 1e-12));
}

TEST_CASE("batches that cannot be tell which figure", "[errors]") {
    CHECK(told([] { (void)size_batch(request(oil_paint(), grams(-1))); }).rfind("pigment mass of the batch: -0.001", 0) == 0);
    CHECK(told([] { (void)batch_of(request(oil_paint(), grams(10)), grams(-2)); }).rfind("pigment mass of the batch: -0.002", 0) == 0);
    CHECK(told([] { (void)size_batch(request(oil_paint(), VesselCount{tube_15(), 0})); }) == "number of vessels: 0");
    CHECK(told([] { (void)size_batch(request(oil_paint(), WholeJar{})); }) == "amount: the whole jar");
    auto stocked = request(oil_paint(), grams(10));
    stocked.stocks = {{"linseed-oil", grams(-5)}};
    CHECK(told([&] { (void)size_batch(stocked); }).rfind("mass in stock: -0.005", 0) == 0);
    auto jar = from_jar(blend(), WholeJar{}, 20);
    jar.recipe.pigments[0].share = MassFraction::of(0.0);
    jar.recipe.pigments[1].share = MassFraction::of(1.0);
    CHECK(told([&] { (void)size_batch(jar); }) == "share of the jar's pigment: 0");
    auto sunk = request(oil_paint(), grams(10));
    sunk.recipe.working_water = millilitres_per_gram(-0.1);
    CHECK(told([&] { (void)size_batch(sunk); }).rfind("working water per pigment", 0) == 0);
    auto all_additive = request(oil_paint(), grams(10));
    all_additive.recipe.additives = {{beeswax(), MassFraction::of(1.0), DoseBasis::paint}};
    CHECK(told([&] { (void)size_batch(all_additive); }) == "additives as a share of the paint: 1");
    // The jar on hand is the stock of its pigment: what is said of it besides counts for nothing.
    auto own = from_jar(oil_paint(), grams(10), 20);
    own.stocks = {{"lake-m", grams(1)}};
    CHECK(told([&] { (void)size_batch(own); }) == "taken");
    CHECK(size_batch(own).batch.has_value());
}
