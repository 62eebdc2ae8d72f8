#include "lakebound/paint/blend.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace lakebound;

namespace {
BlendPigment make(double oa, double rho, std::optional<double> um = {}) {
    BlendPigment p{binder_demand(grams_per_100_grams(oa), grams_per_cubic_centimetre(0.93)),
                   grams_per_cubic_centimetre(rho),
                   {}};
    if (um) p.median_size = micrometres(*um);
    return p;
}
/// The lake and the chalk of docs/theory.md.
std::array<BlendPigment, 2> lake_and_chalk(std::optional<double> lake_um = {},
                                           std::optional<double> chalk_um = {}) {
    return {make(68.78, 1.88, lake_um), make(18, 2.70, chalk_um)};
}
std::array<VolumeFraction, 2> volumes(double chalk) {
    return {VolumeFraction::of(1 - chalk), VolumeFraction::of(chalk)};
}
/// Demand of a pigment of which only the CPVC is wanted.
BlendPigment packing_at(double c, double rho, double um) {
    return {SpecificVolume::from_value((1 / c - 1) / (1e3 * rho)), grams_per_cubic_centimetre(rho),
            micrometres(um)};
}
Blend of(std::span<const BlendPigment> p, const std::array<VolumeFraction, 2>& v) {
    return blend(p, std::span<const VolumeFraction>(v));
}
} // namespace

TEST_CASE("lake with chalk by the additive rule", "[reference]") {
    // docs/theory.md, by hand: lake c .4183, chalk c .6568; 70 to 30 by volume: e 1.1301, c .46947;
    // mass-average oil absorption 49.43 g/100g at density 2.126 says the same. Printed digits.
    const auto both = lake_and_chalk();
    const auto b = of(both, volumes(0.3));
    CHECK(critical_pigment_volume_concentration(both[1].demand, both[1].density).value() ==
          Approx(.6568).margin(6e-5));
    CHECK(b.additive_cpvc.value() == Approx(.46947).epsilon(1e-4));
    CHECK(1 / b.additive_cpvc.value() - 1 == Approx(1.1301).margin(1e-4));
    CHECK(in_millilitres_per_gram(b.additive_demand) * 93 == Approx(49.43).margin(6e-3));
    CHECK(in_grams_per_cubic_centimetre(b.density) == Approx(2.126).margin(6e-4));
    CHECK(b.demand == b.additive_demand);
    CHECK_FALSE(b.possible_demand);
    CHECK_FALSE(b.validity);
}

TEST_CASE("lake with chalk by the linear packing model", "[reference]") {
    // Independent evaluation of the linear packing model (docs/theory.md), lake 3 um: chalk 3, 6, 15,
    // 30, 60 um at 30 % by volume; printed digits.
    struct Row {
        double um, c;
    };
    for (const Row& r : {Row{3, .4695}, Row{6, .482}, Row{15, .4956}, Row{30, .501}, Row{60, .504}}) {
        CAPTURE(r.um);
        CHECK(of(lake_and_chalk(3, r.um), volumes(0.3)).possible_cpvc.value().value() ==
              Approx(r.c).margin(6e-4));
    }
    struct Scan {
        double v, additive, packed;
    };
    for (const Scan& s : {Scan{.1, .434, .441}, Scan{.2, .451, .467}, Scan{.3, .469, .496},
                          Scan{.5, .511, .565}, Scan{.7, .561, .657}, Scan{.8, .590, .697}}) {
        CAPTURE(s.v);
        const auto b = of(lake_and_chalk(3, 15), volumes(s.v));
        CHECK(b.additive_cpvc.value() == Approx(s.additive).margin(1e-3));
        CHECK(b.possible_cpvc.value().value() == Approx(s.packed).margin(6e-4));
    }
}

TEST_CASE("extender lowers the binder of a batch", "[reference]") {
    // docs/theory.md: dry binder for reduced PVC .85 per 10 g of solids at 0, 10, 20, 30 % chalk by
    // volume (0, 14, 26, 38 % by mass), with the packing model at 15 um: 9.64, 8.49, 7.44, 6.46 mL.
    struct Row {
        double v, mass, binder;
    };
    for (const Row& r : {Row{0, 0, 9.64}, Row{.1, .14, 8.49}, Row{.2, .26, 7.44}, Row{.3, .38, 6.46}}) {
        const auto both = lake_and_chalk(3, 15);
        const auto b = of(both, volumes(r.v));
        CHECK(mass_shares(both, volumes(r.v))[1].value() == Approx(r.mass).margin(.006));
        const auto c = *b.possible_cpvc;
        const auto k = binder_sufficiency(ReducedPigmentVolumeConcentration::of(.85), c);
        CHECK(in_millilitres(dry_binder_for(k, grams(10), *b.possible_demand)) == Approx(r.binder).margin(.02));
    }
}

TEST_CASE("densities of mixed whites", "[reference]") {
    // gettens-stout-1942: 25 % titanium white (3.9) with 75 % barium sulphate (4.45) is tabulated 4.30, with
    // calcium sulphate (2.93) 3.10, which the ideal rule misses by 0.02.
    const std::array<MassFraction, 2> quarter{MassFraction::of(.25), MassFraction::of(.75)};
    const auto density = [&](double other) {
        const std::array<BlendPigment, 2> p{make(20, 3.9), make(10, other)};
        return in_grams_per_cubic_centimetre(blend(p, std::span<const MassFraction>(quarter)).density);
    };
    CHECK(density(4.45) == Approx(4.30).margin(.005));
    CHECK(density(2.93) == Approx(3.10).margin(.025));
}

TEST_CASE("a measured oil absorption of the blend overrides both rules", "[unit]") {
    const auto both = lake_and_chalk(3, 15);
    const std::array<MassFraction, 2> half{MassFraction::of(.5), MassFraction::of(.5)};
    const auto b = blend(both, std::span<const MassFraction>(half),
                         MeasuredBlend{grams_per_100_grams(40), grams_per_cubic_centimetre(.93)});
    CHECK(b.source == DemandSource::measured);
    CHECK(in_millilitres_per_gram(b.demand) == Approx(.40 / .93).epsilon(1e-12));
    CHECK(b.cpvc.value() == Approx(1 / (1 + b.demand.value() * b.density.value())).epsilon(1e-12));
    CHECK(b.additive_demand != b.demand);
    CHECK(of(lake_and_chalk(.3, 15), volumes(.3)).validity == PackingValidity::colloidal);
    CHECK(of(lake_and_chalk(3, 4), volumes(.3)).validity == PackingValidity::near_equal);
    CHECK(of(lake_and_chalk(3, 15), volumes(.3)).validity == PackingValidity::holds);
    // A pigment listed with nothing of it needs no size.
    CHECK(of(lake_and_chalk(3, {}), volumes(0)).possible_demand.has_value());
}

TEST_CASE("equal sizes reduce exactly to the additive rule", "[identity]") {
    for (double v = 0; v <= 1.0001; v += .05)
        for (double um : {.5, 3., 40.}) {
            const auto b = of(lake_and_chalk(um, um), volumes(std::min(v, 1.)));
            CHECK(b.possible_cpvc.value().value() == Approx(b.additive_cpvc.value()).epsilon(1e-14));
            CHECK(b.possible_saving == Approx(0).margin(1e-13));
        }
}

TEST_CASE("infinite size ratio reaches the Furnas limit", "[identity]") {
    // furnas-1931: f + f (1 - f) at a coarse share 1/(2 - f): .8594 at 72.7 % for f .625, .8704 at 73.5 %
    // for f .64. Approached as the square root of the ratio: at 1e-12 to 1e-6.
    for (const double f : {.418, .6, .625, .64}) {
        const double coarse = 1 / (2 - f);
        const std::array<BlendPigment, 2> p{packing_at(f, 2.0, 1e-6), packing_at(f, 2.0, 1e6)};
        CHECK(of(p, volumes(coarse)).possible_cpvc.value().value() == Approx(f + f * (1 - f)).epsilon(1e-5));
        CHECK(furnas_binary_limit(VolumeFraction::of(f)).packing.value() ==
              Approx(f + f * (1 - f)).epsilon(1e-12));
    }
    CHECK(furnas_binary_limit(VolumeFraction::of(.625)).packing.value() == Approx(.8594).margin(6e-5));
    CHECK(furnas_binary_limit(VolumeFraction::of(.64)).coarse_share.value() == Approx(.735).margin(6e-4));
    // Unequal pigments, lake fine and chalk coarse without end: 30 % chalk gives .507 (docs/theory.md).
    CHECK(of(lake_and_chalk(1e-5, 1e6), volumes(.3)).possible_cpvc.value().value() ==
          Approx(.507).margin(6e-4));
}

TEST_CASE("blends hold the bounds and the two statements of the additive rule agree", "[identity]") {
    for (double v = 0; v <= 1.0001; v += .0625)
        for (double ratio : {.05, .3, 1., 2., 10., 300.})
            for (double rho : {1.5, 1.88, 4.4}) {
                const double share = std::min(v, 1.);
                const std::array<BlendPigment, 2> p{make(68.78, rho, 3), make(18, 2.7, 3 * ratio)};
                const auto b = of(p, volumes(share));
                CHECK(*b.possible_cpvc >= b.additive_cpvc);
                CHECK(*b.possible_demand <= b.additive_demand);
                // Void ratios add by volume.
                double e = 0;
                for (std::size_t i = 0; i < 2; ++i)
                    e += b.volume_shares[i].value() *
                         (1 / critical_pigment_volume_concentration(p[i].demand, p[i].density).value() - 1);
                CHECK(1 / b.additive_cpvc.value() - 1 == Approx(e).epsilon(1e-12));
                const auto back = mass_shares(p, b.volume_shares);
                CHECK(volume_shares(p, back)[1].value() == Approx(share).margin(1e-14));
                // Density of no pigment enters the demand.
                std::array<BlendPigment, 2> heavier = p;
                heavier[0].density *= 2.;
                CHECK(blend(heavier, std::span<const MassFraction>(back)).demand.value() ==
                      Approx(b.demand.value()).epsilon(1e-12));
            }
}

TEST_CASE("curves over extender share and size ratio", "[identity]") {
    const auto both = lake_and_chalk(3, 15);
    const auto curve = extender_curve(both[0], both[1], 51);
    REQUIRE(curve.size() == 51);
    CHECK(curve.front().blend.demand.value() == Approx(both[0].demand.value()).epsilon(1e-14));
    CHECK(curve.back().blend.demand.value() == Approx(both[1].demand.value()).epsilon(1e-14));
    for (std::size_t i = 1; i < curve.size(); ++i) {
        CHECK(curve[i].by_mass > curve[i - 1].by_mass);
        CHECK(curve[i].blend.demand < curve[i - 1].blend.demand); // chalk takes less than the lake
    }
    // The densest blend of the worked pair lies near 80 % chalk (docs/theory.md).
    const auto densest = std::max_element(curve.begin(), curve.end(), [](const auto& a, const auto& b) {
        return *a.blend.possible_cpvc < *b.blend.possible_cpvc;
    });
    CHECK(densest->by_volume.value() == Approx(.8).margin(.041));
    const std::array<double, 5> ratios{1, 2, 5, 10, 20};
    const auto sizes = size_ratio_curve(both[0], both[1], VolumeFraction::of(.3), ratios);
    REQUIRE(sizes.size() == 5);
    for (std::size_t i = 1; i < sizes.size(); ++i)
        CHECK(*sizes[i].blend.possible_cpvc > *sizes[i - 1].blend.possible_cpvc);
    // At five sizes of 3 um the extender is the one of 15 um.
    CHECK(sizes[2].blend.possible_cpvc->value() ==
          Approx(of(both, volumes(.3)).possible_cpvc->value()).epsilon(1e-12));
    // And a coarse pigment between the grains of an extender a fifth of its size is another blend.
    const std::array<double, 1> fifth{0.2};
    CHECK(size_ratio_curve(both[0], both[1], VolumeFraction::of(.3), fifth)[0].blend.possible_cpvc->value() ==
          Approx(of(lake_and_chalk(3, 0.6), volumes(.3)).possible_cpvc->value()).epsilon(1e-12));
}

TEST_CASE("blends that do not add up are refused", "[errors]") {
    const auto both = lake_and_chalk();
    const std::array<MassFraction, 2> short_of_one{MassFraction::of(.5), MassFraction::of(.4)};
    CHECK_THROWS_WITH(blend(both, std::span<const MassFraction>(short_of_one)),
                      Catch::Contains("sum of the shares"));
    const std::array<MassFraction, 1> one{MassFraction::of(1)};
    CHECK_THROWS_AS(blend(both, std::span<const MassFraction>(one)), DomainError);
    CHECK_THROWS_AS(blend({}, std::span<const MassFraction>{}), DomainError);
    CHECK_THROWS_AS(blend({}, std::span<const VolumeFraction>{}), DomainError);
    const std::array<VolumeFraction, 1> alone{VolumeFraction::of(1)};
    CHECK_THROWS_AS(blend(both, std::span<const VolumeFraction>(alone)), DomainError);
    // A millionth is the last digit of a share written to six; what is beyond is a slip.
    const auto sums_to = [&](double sum) {
        const std::array<VolumeFraction, 2> shares{VolumeFraction::of(.5), VolumeFraction::of(sum - .5)};
        return blend(both, std::span<const VolumeFraction>(shares));
    };
    CHECK_NOTHROW(sums_to(1 - .9e-6));
    CHECK_THROWS_AS(sums_to(1 - 1.1e-6), DomainError);
    CHECK_THROWS_AS(sums_to(1 + 1.1e-6), DomainError);
    std::array<BlendPigment, 2> broken = both;
    broken[0].demand = SpecificVolume{};
    CHECK_THROWS_AS(of(broken, volumes(.3)), DomainError);
    CHECK_THROWS_AS(extender_curve(both[0], both[1], 1), DomainError);
    CHECK_THROWS_AS(extender_curve(both[0], both[1], 10001), DomainError);
    const std::array<double, 1> zero{0};
    CHECK_THROWS_AS(size_ratio_curve(both[0], both[1], VolumeFraction::of(.3), zero), DomainError);
    CHECK_THROWS_AS(size_ratio_curve(lake_and_chalk(3, 3)[0], both[1], VolumeFraction::of(.3), zero),
                    DomainError);
}

TEST_CASE("the saving is what the packing leaves of the additive demand", "[identity]") {
    const auto b = of(lake_and_chalk(3, 30), volumes(0.3));
    REQUIRE(b.possible_demand);
    CHECK(b.possible_saving ==
          Approx(1.0 - b.possible_demand->value() / b.additive_demand.value()).epsilon(1e-12));
    // By hand from the printed CPVCs .501 and .46947: 1 - (1/.501 - 1)/(1/.46947 - 1) = .119.
    CHECK(b.possible_saving == Approx(0.119).margin(0.001));
    CHECK(of(lake_and_chalk(3, 3), volumes(0.3)).possible_saving == Approx(0.0).margin(1e-9));
}

TEST_CASE("a curve has two points or more, and not without end", "[errors]") {
    const auto both = lake_and_chalk(3, 30);
    CHECK_THROWS_AS(extender_curve(both[0], both[1], 1), DomainError);
    CHECK_THROWS_AS(extender_curve(both[0], both[1], 10001), DomainError);
    CHECK(extender_curve(both[0], both[1], 2).size() == 2);
    CHECK(extender_curve(both[0], both[1], 10000).size() == 10000);
}

TEST_CASE("a pigment goes into a blend with its own grain, where it is known", "[unit]") {
    Pigment chalk;
    chalk.oil_absorption = Estimate<OilAbsorption>::exact(grams_per_100_grams(18), {});
    chalk.test_oil_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(.93), {});
    chalk.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.70), {});
    CHECK_FALSE(blend_pigment(chalk).median_size);
    chalk.median_size = Estimate<Length>::exact(micrometres(6), {});
    const auto sized = blend_pigment(chalk);
    REQUIRE(sized.median_size);
    CHECK(in_micrometres(*sized.median_size) == Approx(6));
    CHECK(in_millilitres_per_gram(sized.demand) == Approx(.18 / .93).epsilon(1e-9));
    CHECK(in_grams_per_cubic_centimetre(sized.density) == Approx(2.70));
}
