// Fillings, shares of a jar and small slacks, reckoned by hand on both sides of each limit.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "lakebound/paint/cohesion.hpp"
#include "lakebound/paint/filling.hpp"
#include "lakebound/paint/instruments.hpp"
#include "lakebound/paint/jar_shares.hpp"
#include "lakebound/paint/judgement.hpp"
#include "lakebound/paint/quick_check.hpp"
#include "lakebound/paint/rescue.hpp"
#include "support/told.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx nearly(double x) { return Approx(x).epsilon(1e-9).margin(1e-12); }
/// 40 mL wet, 16 mL of cake.
PaintVolumes forty() {
    PaintVolumes v;
    v.wet = millilitres(40), v.cake = v.dry = millilitres(16);
    v.dry_fraction = VolumeFraction::of(0.4);
    return v;
}
} // namespace

TEST_CASE("every figure of a filling is that of its volumes", "[reference]") {
    for (const bool dry : {true, false})
        for (const double kept : {0.4, 2.0, 7.3, 10.0}) {
            CAPTURE(dry, kept);
            Vessel v = half_pan(); // 2 mL, to nine tenths
            v.filled_by = dry ? FilledBy::dry_volume : FilledBy::wet_volume;
            const Filling f = fill_vessels(v, forty(), {.weighed = grams(10), .kept = grams(kept)});
            const double each = dry ? 10 * 1.8 / 16 : 10 * 1.8 / 40; // g of pigment
            CHECK(in_millilitres(f.paint_per_vessel) == nearly(1.8));
            CHECK(in_grams(f.pigment_per_vessel) == nearly(each));
            CHECK(f.vessels_exact == nearly(kept / each));
            CHECK(f.vessels == static_cast<int>(kept / each + 1e-9));
            CHECK(in_millilitres(f.wet_per_vessel) == nearly(dry ? 4.5 : 1.8));
            CHECK(in_millilitres(f.headspace) == nearly(0.2));
            CHECK(in_millilitres(f.wet_left_over) == nearly(4 * kept - f.vessels * (dry ? 4.5 : 1.8)));
            REQUIRE(f.pours.has_value() == dry);
            if (!dry) continue;
            CHECK(f.pours->brim_exact == nearly(std::log(0.1) / std::log(0.6)));
            CHECK(f.pours->brim == 5);
            CHECK(f.pours->thirds_exact == nearly(0.9 / (0.4 / 3)));
            CHECK(f.pours->thirds == 7);
        }
    // A cake that fills all that was wet is not poured twice.
    PaintVolumes whole = forty();
    whole.cake = whole.wet;
    CHECK_FALSE(fill_vessels(half_pan(), whole, {.weighed = grams(10), .kept = grams(10)}).pours);
}

TEST_CASE("a vessel is full to a thousand millionth, and no pour is saved by less", "[unit]") {
    const auto vessels = [](double exact) {
        return fill_vessels(half_pan(), forty(), {.weighed = grams(10), .kept = grams(exact * 10 * 1.8 / 16)}).vessels;
    };
    CHECK(vessels(3.0) == 3);
    CHECK(vessels(3 * (1 - 1e-10)) == 3);
    CHECK(vessels(3 * (1 - 1e-7)) == 2);
    CHECK(vessels(2.9999) == 2);
    const auto thirds = [](double exact) { return pours(Share::of(0.9), VolumeFraction::of(2.7 / exact)).thirds; };
    CHECK(thirds(6.0) == 6);
    CHECK(thirds(6 * (1 + 1e-10)) == 6);
    CHECK(thirds(6 * (1 + 1e-7)) == 7);
    CHECK(thirds(6.0005) == 7);
    // Counts that an int holds, and not those beyond.
    CHECK(pours(Share::of(0.9), VolumeFraction::of(2.7 / 9.9e8)).thirds > 980'000'000);
    CHECK(told([] { (void)pours(Share::of(0.9), VolumeFraction::of(2.7 / 1.01e9)); }).rfind("pours of a third", 0) == 0);
}

TEST_CASE("what a jar gives goes to the slab, into vessels and beside them", "[reference]") {
    // Of a blend 70 % is the jar's: 14 of 20 g; .6 g and 3 % stay on the slab.
    BatchRequest r = request(blend(), grams(20));
    r.jar = JarOnHand{0, grams(24)};
    r.vessel = half_pan();
    const Batch b = *size_batch(r).batch;
    const JarShares s = *jar_shares(r, b);
    const int pans = b.filling->vessels;
    REQUIRE(pans > 5);
    CHECK(in_grams(s.in_jar) == nearly(24));
    CHECK(in_grams(s.drawn) == nearly(14));
    CHECK(in_grams(s.stays) == nearly(10));
    CHECK(in_grams(s.reserve) == nearly(0.5));
    CHECK(in_grams(s.to_slab) == nearly(1.2 * 0.7));
    CHECK(in_grams(s.in_vessels) == nearly(0.7 * pans * in_grams(b.filling->pigment_per_vessel)));
    CHECK(in_grams(s.left_over) == nearly(14 - 1.2 * 0.7 - in_grams(s.in_vessels)));
    CHECK(s.left_over.value() > 0.0);
    // Less than the reserve stays: that is all there is of it.
    r.jar->net_mass = grams(14.2);
    CHECK(in_grams(jar_shares(r, *size_batch(r).batch)->reserve) == nearly(0.2));
    // The slab takes no more than was drawn.
    BatchRequest little = request(tempera(), grams(0.5));
    little.jar = JarOnHand{0, grams(24)};
    const JarShares lost = *jar_shares(little, *size_batch(little).batch);
    CHECK(in_grams(lost.to_slab) == nearly(0.5));
    CHECK(in_grams(lost.in_vessels) == nearly(0.0));
}

TEST_CASE("a syringe measures from twice its reading error on, and takes its whole capacity", "[unit]") {
    Bench b = bench();
    b.syringes = {{"ten", millilitres(10), millilitres(0.5)}, {"five", millilitres(5), millilitres(0.5)}};
    const double least = 2 * 0.5 / std::sqrt(12.0) / 0.05; // 5.77 mL
    const auto at = [&](double ml, double most = 3) { return syringe_reading(b, millilitres(ml), most); };
    CHECK_FALSE(at(least * (1 - 1e-7)));
    CHECK_FALSE(at(least * 0.9995));
    CHECK(at(least));
    CHECK(at(least * (1 - 1e-10)));
    for (const auto& [ml, syringe, fills] : {std::tuple{6.0, 0, 1}, {10.0, 0, 1}, {10 * (1 + 1e-10), 0, 1}, {10.001, 0, 2}, {20.0, 0, 2}, {20.1, 0, 3}, {30.0, 0, 3}}) {
        CAPTURE(ml);
        REQUIRE(at(ml));
        CHECK(at(ml)->syringe == static_cast<std::size_t>(syringe));
        CHECK(at(ml)->fills == fills);
        CHECK(in_millilitres(at(ml)->exact) == nearly(ml));
        CHECK(in_millilitres(at(ml)->rounded) == nearly(std::round(ml / 0.5) * 0.5));
    }
    CHECK_FALSE(at(30.1));
    CHECK_FALSE(at(20.1, 2));
    CHECK(at(20.0, 2));
    b.syringes[1].step = millilitres(0.1); // good from 1.15 mL on
    CHECK(at(4.0)->syringe == 1);
    CHECK(at(5.0)->syringe == 1);
    CHECK(at(5.1)->syringe == 1); // the ten is too coarse for so little
    CHECK(at(6.0)->syringe == 0);
}

TEST_CASE("what binds is told to a thousand millionth", "[unit]") {
    const CohesionLimits limits{VolumeFraction::of(0.3), VolumeFraction::of(0.6)};
    const auto of = [&](double share) { return cohesion(VolumeFraction::of(share), limits); };
    CHECK(of(0.3) == Cohesion::weak);
    CHECK(of(0.3 * (1 - 1e-10)) == Cohesion::weak);
    CHECK(of(0.3 * (1 - 1e-7)) == Cohesion::none);
    CHECK(of(0.3 * (1 - 5e-4)) == Cohesion::none);
    CHECK(of(0.6) == Cohesion::binds);
    CHECK(of(0.6 * (1 - 1e-10)) == Cohesion::binds);
    CHECK(of(0.6 * (1 - 1e-7)) == Cohesion::weak);
    CHECK(of(0.6 * (1 - 5e-4)) == Cohesion::weak);
}

TEST_CASE("binder over what fills is told where it is more than a rounding", "[unit]") {
    const auto spare = [](double off) {
        QuickQuestion question;
        question.pigment = grams(10);
        question.oil_absorption = grams_per_100_grams(62);
        question.test_oil = grams_per_cubic_centimetre(0.93);
        question.binders.push_back({"binder", millilitres(10 * 0.62 / 0.93 * (1 + off)), MassFraction::of(1.0), {}, {}});
        return in_millilitres(*quick_check(question).spare_binder);
    };
    CHECK(spare(1e-10) == 0.0);
    CHECK(spare(-1e-10) == 0.0);
    for (const double off : {1e-7, 5e-4, 0.3, -1e-7, -5e-4, -0.3})
        CHECK(spare(off) == Approx(off * 10 * 0.62 / 0.93).epsilon(1e-6));
}

TEST_CASE("a sticky pan is rescued with the binder that is in it, and a jar gives what it holds", "[unit]") {
    const SorbingBinder binder{grams(10), grams(5), grams(0), millilitres(5 / 1.261), millilitres(10 / 1.42 + 5 / 1.261)};
    const RescueMedium medium{millilitres_per_gram(0.26392), grams_per_cubic_centimetre(1.117)};
    const auto with = [&](double off) {
        const PaintOnSlab paint{grams(10), millilitres_per_gram(0.74), binder.dry_binder * (1 + off), {}};
        return told([&] {
            (void)rescue_sticky(paint, binder, RelativeHumidity::of(.5), VolumeFraction::of(.45), BinderSufficiency::of(1.4),
                                grams_per_cubic_centimetre(1.42), MassFraction::of(.12), medium);
        });
    };
    CHECK(with(0) == "taken");
    CHECK(with(1e-10) == "taken");
    CHECK(with(-1e-10) == "taken");
    CHECK(with(1e-7).rfind("dry binder of the sorption sum", 0) == 0);
    CHECK(with(-5e-4).rfind("dry binder of the sorption sum", 0) == 0);
    // To the grain: 7.33 g are wanted of k 2.6 for 1.5.
    const auto q = millilitres_per_gram(0.74);
    const PaintOnSlab rich{grams(10), q, dry_binder_for(BinderSufficiency::of(2.6), grams(10), q), {}};
    const double wanted = 10 * (2.6 / 1.5 - 1);
    for (const auto& [left, enough] : {std::pair{wanted + 0.5 + 1e-4, true}, {wanted + 0.5 - 1e-4, false}, {0.3, false}}) {
        const Rescue r = rescue(rich, BinderSufficiency::of(1.5), medium, JarLeft{grams(left), grams(0.5)});
        CHECK(r.jar_holds_enough == enough);
        CHECK(in_grams(r.pigment) == nearly(std::clamp(left - 0.5, 0.0, wanted)));
        CHECK(in_grams(r.pigment_short) == nearly(wanted - in_grams(r.pigment)));
        CHECK(in_grams(r.paint.pigment) == nearly(10 + in_grams(r.pigment)));
        CHECK(r.before.value() == nearly(2.6));
        CHECK(r.after.value() == nearly(26 / in_grams(r.paint.pigment)));
        CHECK(in_grams(r.medium) == 0.0);
    }
}

TEST_CASE("a skewed doubt's likeliest aim is found to a ten-thousandth, however wide or narrow it is", "[reference]") {
    // Against the best of a fine grid; doubts of two minds, narrow ones, and one without any spread of its own.
    const SufficiencyWindow w{BinderSufficiency::of(1.0), BinderSufficiency::of(1.2), BinderSufficiency::of(1.8), BinderSufficiency::of(2.4)};
    for (const NormalMixture& doubt : {NormalMixture(0.13, {-0.2, 0.1}, {0.3, 0.7}), NormalMixture(0.05, {-0.1, 0.02}, {0.2, 0.8}),
                                       NormalMixture(0.25, {-0.1, 0.4}, {0.6, 0.4}), NormalMixture(0.4, {-0.5, 0.1}, {0.5, 0.5})}) {
        const auto in = [&](double x) { return doubt.between(std::log(1.2) - x, std::log(1.8) - x).value(); };
        double best = 0.0;
        for (double x = -0.5; x < 1.5; x += 1e-3)
            best = std::max(best, in(x));
        const double found = in(std::log(likeliest_aim(doubt, w).value()));
        CHECK(found == Approx(best).margin(2e-6).epsilon(0));
    }
}
