// A whole paint in plain arithmetic: what is weighed, the room it takes, what sorbs water in it, and what follows by the
// way it is made up.

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/material/sorption.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/pigment_mixture.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx nearly(double x) { return Approx(x).epsilon(1e-9).margin(1e-12); }
constexpr double water_rho = 0.9982071;
} // namespace

TEST_CASE("a blend with an additive on every basis, in plain arithmetic", "[reference]") {
    // 12 g: .7 damp lake, .3 chalk; clove oil .001 of the medium, gum .03 of the pigment, glycerol .02 of the paint; half a
    // millilitre of water to the gram; k 1.3 of a binder that reaches .9 of the voids.
    Recipe r = blend();
    r.pigments[0].pigment.excess_water = MassFraction::of(0.05);
    r.pigments[0].step_from_oil = 1.1;
    r.family.binder_index = exactly(BinderIndex::of(0.9));
    const double q = 0.7 * 0.6878 / 0.93 * 1.1 + 0.3 * 0.18 / 0.93, q_e = q / 0.9;
    const double rho = 1 / (0.7 / 1.88 + 0.3 / 2.70);
    const double of_medium = (100 * 0.88 / 1.42 + 25 / 1.261 + 15 * 0.82 / 1.55) / 340; // mL of dry binder to the gram
    // Paint to the gram of pigment, M of medium: (1 + .5 w + .03 + 1.001 M) / .98, of which .02 is glycerol.
    const double fixed = (1 + 0.5 * water_rho + 0.03) / 0.98, more = 1.001 / 0.98;
    const double constant = 0.03 * 0.88 / 1.42 + 0.02 * fixed / 1.261, slope = of_medium + 0.02 * more / 1.261;
    const double M = (1.3 * q_e - constant) / slope;
    const Formulation f = formulate(r, BinderSufficiency::of(1.3));
    CHECK(in_millilitres_per_gram(f.pigment.demand) == nearly(q));
    CHECK(in_grams_per_cubic_centimetre(f.pigment.density) == nearly(rho));
    CHECK(in_millilitres_per_gram(f.effective_demand) == nearly(q_e));
    CHECK(f.k.value() == nearly(1.3));
    CHECK(f.medium_per_pigment.value() == nearly(M));
    CHECK(in_millilitres_per_gram(f.binder_from_medium) == nearly(M * of_medium));
    CHECK(in_millilitres_per_gram(f.binder_from_additives) == nearly(constant + 0.02 * more * M / 1.261));
    const Formulation again = formulate(r, MediumPerPigment::of(M));
    CHECK(again.k.value() == nearly(1.3));
    CHECK(again.medium_per_pigment.value() == nearly(M));

    const Composition c = compose(r, f, grams(12));
    const double medium = 12 * M, paint = 12 * (fixed + more * M), glycerol_added = 0.02 * paint;
    CHECK(in_grams(c.pigments.at(0)) == nearly(8.4));
    CHECK(in_grams(c.pigments.at(1)) == nearly(3.6));
    const double parts[] = {100, 200, 25, 15};
    for (std::size_t i = 0; i < 4; ++i)
        CHECK(in_grams(c.medium_parts.at(i)) == nearly(medium * parts[i] / 340));
    CHECK(in_grams(c.additives.at(0)) == nearly(0.001 * medium));
    CHECK(in_grams(c.additives.at(1)) == nearly(0.36));
    CHECK(in_grams(c.additives.at(2)) == nearly(glycerol_added));
    CHECK(in_grams(c.working_water) == nearly(6 * water_rho));
    CHECK(in_grams(total_mass(c)) == nearly(paint));
    CHECK(in_grams(total_medium(c)) == nearly(medium));
    CHECK(in_grams(total_pigment(c)) == nearly(12));
    CHECK(in_grams(excess_water(r, c)) == nearly(0.42));

    // What sorbs: dry gum, glycerol and sugar.
    const double dry_gum = 0.88 * (medium * 100 / 340 + 0.36), glycerol_all = medium * 25 / 340 + glycerol_added,
                 sugar = 0.82 * medium * 15 / 340;
    const double soft = glycerol_all / 1.261 + sugar / 1.55, binder = dry_gum / 1.42 + soft;
    const SorbingBinder s = sorbing_binder(r, c, millilitres(binder));
    CHECK(in_grams(s.gum) == nearly(dry_gum));
    CHECK(in_grams(s.glycerol) == nearly(glycerol_all));
    CHECK(in_grams(s.sugar) == nearly(sugar));
    CHECK(in_millilitres(s.glycerol_and_sugar) == nearly(soft));
    CHECK(in_millilitres(s.dry_binder) == nearly(binder));

    // Volumes: a powder takes the room of its solids and of its water.
    const double gum_mixed = (medium * 100 / 340 + 0.36) * (0.88 / 1.42 + 0.12 / water_rho);
    const double wet = 8.4 / 1.88 + 3.6 / 2.70 + (6 * water_rho + 0.42) / water_rho + gum_mixed + medium * 200 / 340 / water_rho +
                       glycerol_all / 1.261 + medium * 15 / 340 / 1.42 + 0.001 * medium / 1.045;
    const double pigment = 8.4 / 1.88 + 3.6 / 2.70;
    const auto room = RelativeHumidity::of(0.5);
    const double held = in_millilitres(binder_at_humidity(s, room).water_volume);
    for (const bool humid : {false, true}) {
        CAPTURE(humid);
        const PaintVolumes v = paint_volumes(r, c, humid ? std::optional(room) : std::nullopt);
        const double cake = pigment + binder + (humid ? held : 0.0);
        CHECK(in_millilitres(v.pigment) == nearly(pigment));
        CHECK(in_millilitres(v.dry_binder) == nearly(binder));
        CHECK(in_millilitres(v.dry) == nearly(pigment + binder));
        CHECK(in_millilitres(v.wet) == nearly(wet));
        CHECK(in_millilitres(v.held_water) == nearly(humid ? held : 0.0));
        CHECK(in_millilitres(v.cake) == nearly(cake));
        CHECK(v.dry_fraction.value() == nearly(cake / in_millilitres(v.wet)));
        CHECK(v.shrinkage.value() == nearly(1 - cake / in_millilitres(v.wet)));
    }
    const FilmState film = film_state(r, c);
    const double cpvc = 1 / (1 + q_e * rho), pvc = pigment / (pigment + binder);
    CHECK(film.k.value() == nearly(1.3));
    CHECK(film.cpvc.value() == nearly(cpvc));
    CHECK(film.pvc.value() == nearly(pvc));
    CHECK(film.reduced_pvc.value() == nearly(pvc / cpvc));
    CHECK(film.porosity.value() == nearly(0.0));

    // Of the batch: plasticiser to dry gum, liquid over what just fills, the room's air.
    BatchRequest asked = request(r, grams(12));
    asked.aim = BinderSufficiency::of(1.3);
    const Batch b = batch_of(asked, grams(12));
    REQUIRE(b.watercolour);
    CHECK(*b.watercolour->plasticiser_ratio == nearly((glycerol_all + sugar) / dry_gum));
    CHECK(b.watercolour->liquid_factor == nearly((in_millilitres(b.volumes.wet) - pigment) / (12 * q_e)));
    CHECK(b.watercolour->soft_share.value() == nearly(binder_at_humidity(s, room).soft_share.value()));
    CHECK(b.watercolour->pvc_in_room.value() == nearly(pigment / (pigment + binder + held)));
    CHECK(in_grams(b.excess_water) == nearly(0.42));
    CHECK(in_grams(b.loss) == nearly(0.6 + 0.03 * 12));
    CHECK(b.loss_share.value() == nearly(0.05 + 0.03));
    CHECK(b.verdict == Verdict::green);
    CHECK_FALSE(b.oil);
    CHECK_FALSE(b.tempera);
    CHECK_FALSE(b.left_in_jar);
    CHECK_FALSE(b.filling);
    CHECK_FALSE(b.limiting);
}

TEST_CASE("yolk, its eggs and its paste, in plain arithmetic", "[reference]") {
    Recipe r = tempera();
    r.working_water = millilitres_per_gram(1.2);
    const Batch b = batch_of(request(r, grams(25)), grams(25));
    REQUIRE(b.tempera);
    const double dry = 0.4769 / 1.0940, yolk_g = 25 * 1.1 * 0.6878 / 0.93 / 0.85 / dry;
    CHECK(in_grams(b.medium) == nearly(yolk_g));
    CHECK(in_grams(b.tempera->yolk) == nearly(yolk_g));
    CHECK(in_millilitres(b.tempera->yolk_volume) == nearly(yolk_g / 1.04273));
    CHECK(b.tempera->eggs_exact == nearly(yolk_g / 14.5));
    CHECK(b.tempera->eggs == static_cast<int>(std::ceil(yolk_g / 14.0)));
    CHECK(b.tempera->medium_per_paste == nearly(yolk_g / (25 + 30 * water_rho)));
    CHECK(in_hours(b.tempera->medium_keeps) == nearly(48));
    CHECK(b.tempera->paint_same_session);
    CHECK_FALSE(b.watercolour);
    CHECK_FALSE(b.oil);
    // A yolk that nobody says the eggs of.
    r.medium.parts[0].ingredient.in_one_egg.reset();
    const Batch unsaid = batch_of(request(r, grams(25)), grams(25));
    CHECK(unsaid.tempera->eggs == 0);
    CHECK(unsaid.tempera->eggs_exact == Approx(0.0).margin(1e-15));
    CHECK(in_grams(unsaid.tempera->yolk) == nearly(yolk_g));
}
