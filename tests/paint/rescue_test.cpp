#include "lakebound/paint/rescue.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

namespace {
const SpecificVolume q = millilitres_per_gram(0.73957);
const RescueMedium gum_medium{millilitres_per_gram(0.26392), grams_per_cubic_centimetre(1.117)};
PaintOnSlab lake(double binder) {
    return {grams(10), q, millilitres(binder), grams_per_cubic_centimetre(1.88)};
}
BinderSufficiency k(double x) { return BinderSufficiency::of(x); }
} // namespace

TEST_CASE("a batch of one to one by mass is brought to k 1.4", "[reference]") {
    // docs/theory.md: V_b 2.64 mL; 7.72 mL of dry binder, 29.2 g or 26.2 mL of medium; three digits.
    const auto r = rescue(lake(2.6392), k(1.4), gum_medium);
    CHECK(r.action == RescueAction::add_medium);
    CHECK(r.before.value() == Approx(0.357).margin(5e-4));
    CHECK(in_millilitres(r.paint.dry_binder) - 2.6392 == Approx(7.72).margin(6e-3));
    CHECK(in_grams(r.medium) == Approx(29.2).margin(0.05));
    CHECK(in_millilitres(r.medium_volume) == Approx(26.2).margin(0.05));
    REQUIRE(r.dry_after);
    CHECK(in_millilitres(*r.dry_after) - in_millilitres(*r.dry_before) == Approx(7.715).margin(5e-3));
}

TEST_CASE("an overbound batch takes more pigment", "[reference]") {
    // docs/theory.md: k 2.6 to 1.5 takes 7.3 g per 10 g.
    const auto paint = lake(in_millilitres(dry_binder_for(k(2.6), grams(10), q)));
    const auto r = rescue(paint, k(1.5), gum_medium);
    CHECK(r.action == RescueAction::add_pigment);
    CHECK(in_grams(r.pigment) == Approx(7.33).margin(5e-3));
    CHECK(r.after.value() == Approx(1.5).epsilon(1e-12));
    // A jar of 6 g with 0.5 g kept back gives 5.5 g: says what is missing and how far it comes.
    const auto part = rescue(paint, k(1.5), gum_medium, JarLeft{grams(6), grams(0.5)});
    CHECK_FALSE(part.jar_holds_enough);
    CHECK(in_grams(part.pigment) == Approx(5.5).epsilon(1e-12));
    CHECK(in_grams(part.pigment_short) == Approx(1.833).margin(1e-3));
    CHECK(part.after.value() == Approx(2.6 / 1.55).epsilon(1e-12));
    CHECK(rescue(paint, k(1.5), gum_medium, JarLeft{grams(8), grams(0.5)}).jar_holds_enough);
    // Nothing need be kept back, to the last grain; less than nothing has no meaning.
    CHECK(in_grams(rescue(paint, k(1.5), gum_medium, JarLeft{grams(6), grams(0)}).pigment) == Approx(6.0).epsilon(1e-12));
    CHECK_THROWS_AS(rescue(paint, k(1.5), gum_medium, JarLeft{grams(6), grams(-0.1)}), DomainError);
}

TEST_CASE("a rescue followed by a check returns the aim", "[identity]") {
    for (double start = 0.0; start < 4.0; start += 0.23)
        for (double aim : {0.8, 1.0, 1.4, 2.0}) {
            const auto paint = lake(in_millilitres(dry_binder_for(k(start), grams(10), q)));
            const auto r = rescue(paint, k(aim), gum_medium);
            const auto checked = binder_sufficiency(r.paint.dry_binder, r.paint.pigment, r.paint.demand);
            CHECK(checked.value() == Approx(aim).epsilon(1e-12));
            CHECK(rescue(r.paint, k(aim), gum_medium).action == RescueAction::none);
            CHECK(in_grams(r.medium) * 0.26392 ==
                  Approx(in_millilitres(r.paint.dry_binder - paint.dry_binder)).margin(1e-12));
            CHECK(in_grams(r.pigment) == Approx(in_grams(r.paint.pigment - paint.pigment)).margin(1e-12));
        }
}

TEST_CASE("a paint at its aim to a hundredth is left alone", "[unit]") {
    // "Add 0.0019 g of linseed oil: k goes from 1.00 to 1.00."
    for (const double aim : {0.7, 1.0, 1.4}) {
        for (const double off : {-0.003, 0.003}) {
            const auto at_aim = rescue(lake(in_millilitres(dry_binder_for(k(aim + off), grams(10), q))), k(aim), gum_medium);
            CHECK(at_aim.action == RescueAction::none);
            CHECK(at_aim.after.value() == Approx(aim + off).epsilon(1e-12));
        }
        for (const double off : {-0.006, 0.006})
            CHECK(rescue(lake(in_millilitres(dry_binder_for(k(aim + off), grams(10), q))), k(aim), gum_medium).action !=
                  RescueAction::none);
    }
    // Of a small aim a share counts, so that nothing far off is called there.
    CHECK(rescue(lake(in_millilitres(dry_binder_for(k(0.013), grams(10), q))), k(0.01), gum_medium).action ==
          RescueAction::add_pigment);
}

TEST_CASE("a sticky batch gets gum, then pigment", "[identity]") {
    // 100 g of a medium of 1 gum, 2 water, 0.5 glycerol, 0.25 honey: reported very sticky.
    const double total = 3.75, gum = 88 / total, glycerol = 50 / total, sugar = 20.5 / total;
    const auto soft = millilitres(glycerol / 1.261 + sugar / 1.55);
    const auto dry = millilitres(gum / 1.42) + soft;
    const SorbingBinder binder{grams(gum), grams(glycerol), grams(sugar), soft, dry};
    const PaintOnSlab paint{grams(20), q, dry, {}};
    const auto half = RelativeHumidity::of(0.5);
    const auto r = rescue_sticky(paint, binder, half, VolumeFraction::of(.45), k(1.4),
                                 grams_per_cubic_centimetre(1.42), MassFraction::of(0.12), gum_medium);
    CHECK(r.soft_before.value() == Approx(.57).margin(.006));
    CHECK(r.soft_after.value() == Approx(.45).epsilon(1e-12));
    CHECK(in_grams(r.dry_gum) > 0);
    CHECK(in_grams(r.gum_as_is) * 0.88 == Approx(in_grams(r.dry_gum)).epsilon(1e-12));
    CHECK(r.k_after_gum > binder_sufficiency(dry, grams(20), q));
    CHECK(r.pigment.after.value() == Approx(1.4).epsilon(1e-12));
    CHECK_FALSE(r.pigment.dry_before);
    // Sticky and underbound: the gum that k asks for sets it too, and no second addition follows.
    const PaintOnSlab lean{grams(60), q, dry, {}};
    const auto both = rescue_sticky(lean, binder, half, VolumeFraction::of(.45), k(1.4),
                                    grams_per_cubic_centimetre(1.42), MassFraction::of(0.12), gum_medium);
    REQUIRE(binder_sufficiency(dry, grams(60), q) < k(1.0));
    CHECK(both.pigment.action == RescueAction::none);
    CHECK(both.k_after_gum.value() == Approx(1.4).epsilon(1e-12));
    CHECK(both.soft_after < VolumeFraction::of(.45));
    CHECK(in_grams(both.dry_gum) ==
          Approx(1.42 * in_millilitres(dry_binder_for(k(1.4), grams(60), q) - dry)).epsilon(1e-12));
    // Nothing to do for a firm pan.
    const auto calm = rescue_sticky(paint, binder, half, VolumeFraction::of(.60), k(1.4),
                                    grams_per_cubic_centimetre(1.42), MassFraction::of(0.12), gum_medium);
    CHECK(in_grams(calm.dry_gum) == 0.0);
}

TEST_CASE("a rescue that cannot be is refused", "[errors]") {
    CHECK_THROWS_AS(rescue(lake(1), k(0), gum_medium), DomainError);
    CHECK_THROWS_AS(rescue(lake(1), k(1), RescueMedium{millilitres_per_gram(0), grams_per_cubic_centimetre(1)}),
                    DomainError);
    CHECK_THROWS_AS(rescue(lake(-1), k(1), gum_medium), DomainError);
    CHECK_THROWS_AS(rescue({grams(0), q, millilitres(1), {}}, k(1), gum_medium), DomainError);
    CHECK_THROWS_AS(rescue(lake(9), k(1), gum_medium, JarLeft{grams(-1), grams(0)}), DomainError);
    // At 90 % RH gum alone is a third water: no gum makes that pan less than a fifth soft.
    const SorbingBinder binder{grams(10), grams(5), grams(0), millilitres(5 / 1.261),
                               millilitres(10 / 1.42 + 5 / 1.261)};
    const PaintOnSlab paint{grams(10), q, binder.dry_binder, {}};
    CHECK_THROWS_WITH(rescue_sticky(paint, binder, RelativeHumidity::of(.9), VolumeFraction::of(.2), k(1.4),
                                    grams_per_cubic_centimetre(1.42), MassFraction::of(.12), gum_medium),
                      Catch::Contains("dry the room"));
    CHECK_THROWS_AS(rescue_sticky(lake(1), binder, RelativeHumidity::of(.5), VolumeFraction::of(.4), k(1.4),
                                  grams_per_cubic_centimetre(1.42), MassFraction::of(.12), gum_medium),
                    DomainError);
}
