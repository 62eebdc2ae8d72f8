#include "lakebound/paint/formulation.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/material/density.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }
std::vector<Recipe> recipes() { return {watercolour(), oil_paint(), tempera(), blend()}; }
Aim reduced(double lambda) { return ReducedPigmentVolumeConcentration::of(lambda); }
FilmState film(const Recipe& r, const Aim& aim, double pigment_g = 10.0) {
    return film_state(r, compose(r, formulate(r, aim), grams(pigment_g)));
}
} // namespace

TEST_CASE("worked watercolour: 10 g of lake in gum medium", "[reference]") {
    // Worked by hand in docs/theory.md from the rounded CPVC 0.4183 and v_b 0.2639, medium printed to
    // 0.1 g: half a unit of that, and 1e-3 for the rounded intermediate figures.
    const Recipe r = watercolour();
    for (const auto& [lambda, medium] : {std::pair{0.60, 60.1}, std::pair{0.75, 44.1}, std::pair{0.85, 36.5},
                                         std::pair{0.90, 33.4}, std::pair{1.0, 28.0}}) {
        const Composition c = compose(r, formulate(r, reduced(lambda)), grams(10));
        CHECK(in_grams(total_medium(c)) == near(medium, 1e-3).margin(0.05));
    }
    const Composition c = compose(r, formulate(r, reduced(0.75)), grams(10));
    const FilmState f = film_state(r, c);
    CHECK(f.pvc.value() == Approx(0.3138).margin(1e-4));
    CHECK(f.k.value() == Approx(1.573).margin(1e-3));
    CHECK(in_grams(c.medium_parts[0]) == Approx(12.97).margin(0.01)); // gum as is
    CHECK(in_grams(c.medium_parts[2]) == Approx(3.24).margin(0.005)); // glycerol
    CHECK(in_grams(c.medium_parts[3]) == Approx(1.95).margin(0.006)); // honey, of a rounded 44.1 g
    CHECK(in_grams(c.medium_parts[1]) == Approx(25.9).margin(0.05));  // water
    const PaintVolumes v = paint_volumes(r, c, RelativeHumidity::of(0.5));
    CHECK(in_millilitres(v.dry_binder) == Approx(11.63).margin(0.01));
    CHECK(in_millilitres(v.wet) == near(49.8, 2e-3)); // with 5 mL of working water
    CHECK(in_millilitres(v.dry) == Approx(16.95).margin(0.01));
    // 2.69 mL of water held at 50 % RH, so 19.64 mL of cake and 60.6 % shrinkage.
    CHECK(in_millilitres(v.held_water) == Approx(2.69).margin(0.02));
    CHECK(in_millilitres(v.cake) == Approx(19.64).margin(0.03));
    CHECK(v.shrinkage.value() == Approx(0.606).margin(1e-3));
}

TEST_CASE("one to one of medium and lake", "[reference]") {
    // docs/theory.md: by mass k 0.357, Lambda 1.60; by bulk volume (31.9 g of medium) k 1.14, Lambda 0.925.
    const Recipe r = watercolour();
    const FilmState by_mass = film(r, MediumPerPigment::of(1.0));
    CHECK(by_mass.k.value() == Approx(0.357).margin(5e-4));
    CHECK(by_mass.reduced_pvc.value() == Approx(1.60).margin(5e-3));
    CHECK(by_mass.porosity.value() > 0.0);
    const FilmState by_volume = film(r, MediumPerPigment::of(3.19));
    CHECK(by_volume.k.value() == Approx(1.14).margin(5e-3));
    CHECK(by_volume.reduced_pvc.value() == Approx(0.925).margin(2e-3));
    CHECK(std::abs(by_volume.porosity.value()) < 1e-15);
}

TEST_CASE("worked oil paint with wax", "[reference]") {
    // docs/theory.md: 10 g, k 1.35 on the oil alone: 9.285 g linseed and, on top, wax 2 % of the oil
    // 0.186 g; total 15.50 mL, 19.47 g, 1.256 g/mL; PVC 0.343, Lambda 0.82. Here the wax counts in k:
    // the same paint has k = 1.35 (1 + 0.02 x 0.93/0.96) = 1.37616 in all.
    const Recipe r = oil_paint();
    const double total_k = 1.35 * (1.0 + 0.02 * 0.93 / 0.96);
    const Composition c = compose(r, formulate(r, BinderSufficiency::of(total_k)), grams(10));
    CHECK(in_grams(total_medium(c)) == Approx(9.285).margin(1e-3));
    CHECK(in_grams(c.additives[0]) == Approx(0.186).margin(5e-4));
    const PaintVolumes v = paint_volumes(r, c);
    CHECK(in_millilitres(v.wet) == Approx(15.50).margin(0.005));
    CHECK(in_grams(total_mass(c)) == Approx(19.47).margin(0.005));
    CHECK(in_grams_per_cubic_centimetre(total_mass(c) / v.wet) == Approx(1.256).margin(5e-4));
    const FilmState f = film_state(r, c);
    CHECK(f.pvc.value() == Approx(0.343).margin(5e-4));
    CHECK(f.reduced_pvc.value() == Approx(0.82).margin(2e-3));
    // The oil of the k table at PVC .348: 92.9 g per 100 g when there is no wax.
    Recipe plain = r;
    plain.additives.clear();
    CHECK(formulate(plain, BinderSufficiency::of(1.35)).medium_per_pigment.value() == near(0.9285, 1e-4));
}

TEST_CASE("what equal parts of yolk and pigment mean", "[reference]") {
    // docs/theory.md, 10 mL of each; PVC to 0.001, Lambda and k to the last digit printed.
    Recipe r = tempera();
    const auto grams_of = [](double ml, double rho) { return ml * rho; };
    struct Row {
        double pigment_g, yolk_ml, pvc, lambda, lambda_with_index, k;
    };
    const Row rows[] = {
        {grams_of(3.0, 1.88), 10.0, .398, .95, 1.05, 1.09}, // paste of 30 % solids by volume
        {grams_of(3.0, 1.88), 5.0, .569, 1.36, 1.50, .545}, // yolk diluted 1:1
        {3.5, 10.0, .291, .69, .77, 1.76},                  // loose powder at 0.35 g/mL
    };
    for (const Row& row : rows) {
        const Aim aim = MediumPerPigment::of(grams_of(row.yolk_ml, 1.04273) / row.pigment_g);
        r.family.binder_index = exactly(BinderIndex::of(1.0));
        const FilmState full = film(r, aim, row.pigment_g);
        CHECK(full.pvc.value() == Approx(row.pvc).margin(6e-4));
        CHECK(full.reduced_pvc.value() == Approx(row.lambda).margin(6e-3));
        CHECK(full.k.value() == Approx(row.k).margin(6e-3));
        r.family.binder_index = exactly(BinderIndex::of(0.85));
        const FilmState partial = film(r, aim, row.pigment_g);
        CHECK(partial.reduced_pvc.value() == Approx(row.lambda_with_index).margin(6e-3));
        CHECK(partial.k.value() == near(0.85 * full.k.value(), 1e-12));
    }
}

TEST_CASE("neat yolk for ten grams", "[reference]") {
    // docs/theory.md: k 1.1, e 0.85: 21.06 mL, 22.0 g.
    const Composition c = compose(tempera(), formulate(tempera(), BinderSufficiency::of(1.1)), grams(10));
    CHECK(in_millilitres(mixed_volume(yolk(), total_medium(c))) == Approx(21.06).margin(0.01));
    CHECK(in_grams(total_medium(c)) == Approx(22.0).margin(0.05));
}

TEST_CASE("lake and chalk by the additive rule", "[reference]") {
    // docs/theory.md: 70 % lake (c 0.4183) and 30 % chalk (OA 18, 2.70 g/cm3, c 0.6568) by volume:
    // CPVC 0.46947; mass-average OA 49.43 g/100 g; density 2.126.
    const double lake_g = 0.7 * 1.88, chalk_g = 0.3 * 2.70, whole = lake_g + chalk_g;
    const std::vector<PigmentPart> parts{{lake(), MassFraction::of(lake_g / whole)},
                                         {chalk(), MassFraction::of(chalk_g / whole)}};
    const PigmentMixture m = pigment_mixture(parts);
    CHECK(critical_pigment_volume_concentration(m.demand, m.density).value() == near(0.46947, 1e-4));
    CHECK(in_grams_per_cubic_centimetre(m.density) == Approx(2.126).margin(5e-4));
    CHECK(in_millilitres_per_gram(m.demand) * 93.0 == Approx(49.43).margin(0.005));
}

TEST_CASE("void ratios add by volume, exactly as demand adds by mass", "[identity]") {
    for (double share = 0.0; share <= 1.0; share += 0.125) {
        const std::vector<PigmentPart> parts{{lake(), MassFraction::of(1.0 - share)},
                                             {chalk(), MassFraction::of(share)}};
        const PigmentMixture m = pigment_mixture(parts);
        double voids = 0.0, volume = 0.0;
        for (const PigmentPart& p : parts) {
            const double v = p.share.value() / p.pigment.density.value().value();
            const auto q = binder_demand(p.pigment.oil_absorption.value().value(), p.pigment.test_oil_density.value());
            volume += v;
            voids +=
                v * (1.0 / critical_pigment_volume_concentration(q, p.pigment.density.value()).value() - 1.0);
        }
        CHECK(m.demand.value() * m.density.value() == near(voids / volume, 1e-13));
    }
}

TEST_CASE("mass balance, and doses kept on every basis", "[identity]") {
    for (const Recipe& r : recipes())
        for (const double k : {0.5, 1.0, 1.4, 2.6}) {
            const Formulation f = formulate(r, BinderSufficiency::of(k));
            const Composition c = compose(r, f, grams(12.5));
            double sum = in_grams(total_pigment(c)) + in_grams(total_medium(c)) + in_grams(c.working_water);
            for (std::size_t i = 0; i < c.additives.size(); ++i) {
                sum += in_grams(c.additives[i]);
                const DoseBasis basis = r.additives[i].basis;
                const Mass of = basis == DoseBasis::medium    ? total_medium(c)
                                : basis == DoseBasis::pigment ? total_pigment(c)
                                                              : total_mass(c);
                CHECK(in_grams(c.additives[i]) == near(r.additives[i].dose.value() * in_grams(of), 1e-12));
            }
            CHECK(in_grams(total_mass(c)) == near(sum, 1e-12));
            CHECK(in_grams(total_pigment(c)) == near(12.5, 1e-12));
            CHECK(film_state(r, c).k.value() == near(k, 1e-12));
            const PaintVolumes v = paint_volumes(r, c);
            CHECK(v.dry.value() == near(v.pigment.value() + v.dry_binder.value(), 1e-14));
            CHECK(v.dry.value() <= v.wet.value() * (1 + 1e-12));
            const double binder = (f.binder_from_medium.value() + f.binder_from_additives.value()) * 12.5e-3;
            CHECK(v.dry_binder.value() == near(binder, 1e-12));
        }
}

TEST_CASE("every way to state an aim meets it, and at k = 1 PVC is CPVC", "[identity]") {
    for (const Recipe& r : recipes()) {
        CHECK(film(r, PigmentVolumeConcentration::of(0.33)).pvc.value() == near(0.33, 1e-12));
        CHECK(film(r, reduced(0.8)).reduced_pvc.value() == near(0.8, 1e-12));
        const FilmState at_one = film(r, BinderSufficiency::of(1.0));
        CHECK(at_one.pvc.value() == near(at_one.cpvc.value(), 1e-12));
        const Formulation by_k = formulate(r, BinderSufficiency::of(1.3));
        CHECK(formulate(r, by_k.medium_per_pigment).k.value() == near(1.3, 1e-12));
        Recipe aimless = r;
        aimless.aim.reset();
        CHECK(film(r, aim_of(aimless)).k.value() == near(r.family.start.value(), 1e-12));
    }
}

TEST_CASE("k does not ask for the density of the pigment", "[identity]") {
    for (Recipe r : recipes()) {
        const Composition before = compose(r, formulate(r, BinderSufficiency::of(1.4)), grams(10));
        for (const double rho : {1.2, 1.5, 2.4, 6.7}) {
            for (PigmentPart& p : r.pigments)
                p.pigment.density = density(rho);
            const Composition after = compose(r, formulate(r, BinderSufficiency::of(1.4)), grams(10));
            CHECK(in_grams(total_medium(after)) == near(in_grams(total_medium(before)), 1e-13));
            CHECK(film_state(r, after).k.value() == near(1.4, 1e-12));
        }
    }
}

TEST_CASE("more medium, more k, less PVC", "[identity]") {
    for (const Recipe& r : recipes()) {
        double last_k = -1.0, last_pvc = 2.0;
        for (double m = 0.2; m < 8.0; m *= 1.5) {
            const FilmState f = film(r, MediumPerPigment::of(m));
            CHECK(f.k.value() > last_k);
            CHECK(f.pvc.value() < last_pvc);
            last_k = f.k.value();
            last_pvc = f.pvc.value();
        }
    }
}

TEST_CASE("formulations that cannot be", "[errors]") {
    Recipe r = watercolour();
    CHECK_THROWS_AS(formulate(r, reduced(3.0)), DomainError); // beyond 1/c
    CHECK_THROWS_AS(formulate(r, BinderSufficiency::of(0.0)), DomainError);
    r.pigments[0].share = MassFraction::of(0.9);
    CHECK_THROWS_AS(formulate(r, BinderSufficiency::of(1.4)), DomainError);
    r = watercolour();
    r.medium = medium("water", PartsBasis::mass, {{water(), 1}});
    CHECK_THROWS_AS(formulate(r, BinderSufficiency::of(1.4)), DomainError);
    r = oil_paint();
    r.additives = {{linseed_oil(), MassFraction::of(0.9), DoseBasis::pigment}};
    CHECK_THROWS_AS(formulate(r, BinderSufficiency::of(1.0)), DomainError); // the additive alone brings more
    r.additives = {{beeswax(), MassFraction::of(0.6), DoseBasis::paint},
                   {beeswax(), MassFraction::of(0.4), DoseBasis::paint}};
    CHECK_THROWS_AS(formulate(r, BinderSufficiency::of(1.0)), DomainError);
    r = watercolour();
    r.pigments.clear();
    CHECK_THROWS_AS(formulate(r, BinderSufficiency::of(1.0)), DomainError);
}

TEST_CASE("what is nothing makes no film, and less than nothing no paint", "[errors]") {
    const Recipe r = watercolour();
    const Formulation f = formulate(r, reduced(0.8));
    CHECK_THROWS_AS(compose(r, f, grams(-1)), DomainError);
    const Composition none = compose(r, f, grams(0));
    CHECK(in_grams(total_mass(none)) == Approx(0).margin(1e-15));
    CHECK_THROWS_AS(paint_volumes(r, none, std::nullopt), DomainError);
    CHECK_THROWS_AS(film_state(r, none), DomainError);
    const auto c = CriticalPigmentVolumeConcentration::of(0.42);
    CHECK_THROWS_WITH(sufficiency_for(MediumPerPigment::of(4), c), Catch::Contains("k, reduced PVC or PVC"));
    CHECK(sufficiency_for(BinderSufficiency::of(1.4), c).value() == Approx(1.4));
    CHECK(sufficiency_for(PigmentVolumeConcentration::of(0.42), c).value() == Approx(1.0)); // the film is just filled
    CHECK(sufficiency_for(ReducedPigmentVolumeConcentration::of(1.0), c).value() == Approx(1.0));
}

TEST_CASE("the water of a dried pan is a share of all it holds", "[unit]") {
    PaintVolumes volumes;
    volumes.held_water = millilitres(1.5);
    volumes.cake = millilitres(6.0);
    CHECK(volumes.water_share().value() == Approx(0.25).epsilon(1e-12));
}
