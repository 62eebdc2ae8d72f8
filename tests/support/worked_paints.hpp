#pragma once
// The materials of the worked examples in docs/theory.md, built in code so that the tests of the
// domain rooms read no files.

#include <string>
#include <utility>

#include "lakebound/paint/batch.hpp"
#include "support/bench_practice.hpp"
#include "support/family_figures.hpp"

namespace worked {

using namespace lakebound;

inline Provenance from() { return {Origin::estimate, "docs/theory.md", false}; }
template <class Q> Estimate<Q> exactly(const Q& q) { return Estimate<Q>::exact(q, from()); }
inline Estimate<MassDensity> density(double g_per_cm3) {
    return exactly(grams_per_cubic_centimetre(g_per_cm3));
}

inline Ingredient ingredient(std::string id, Role role, double rho, double non_volatile, double solids_rho) {
    Ingredient i;
    i.name = id;
    i.id = std::move(id);
    i.role = role;
    i.density = density(rho);
    i.non_volatile = exactly(MassFraction::of(non_volatile));
    if (non_volatile > 0.0) i.solids_density = density(solids_rho);
    return i;
}
/// The same with the stocks that the shelf makes of it; strongest as a fraction.
inline Ingredient with_stock(Ingredient i, std::vector<std::string> carriers, double strongest,
                             double most_g = 50.0) {
    i.stock = StockPractice{std::move(carriers), exactly(MassFraction::of(strongest)), grams(most_g)};
    return i;
}
inline Ingredient gum() {
    Ingredient g = ingredient("gum-arabic", Role::gum, 1.42, 0.88, 1.42);
    g.bulk_density = density(0.60);
    return with_stock(g, {"water"}, 0.10);
}
inline Ingredient plasticiser(std::string id, SorbsAs as, double rho, double non_volatile, double solids_rho) {
    Ingredient i = ingredient(std::move(id), Role::plasticiser, rho, non_volatile, solids_rho);
    i.sorbs_as = as;
    return i;
}
inline Ingredient glycerol() {
    return with_stock(plasticiser("glycerol", SorbsAs::glycerol, 1.261, 1.0, 1.261), {"water"}, 0.10);
}
inline Ingredient honey() {
    return with_stock(plasticiser("honey", SorbsAs::sugar, 1.42, 0.82, 1.55), {"water"}, 0.10);
}
inline Ingredient water() { return ingredient("water", Role::water, 0.9982071, 0.0, 0.0); }
inline Ingredient linseed_oil() { return ingredient("linseed-oil", Role::drying_oil, 0.93, 1.0, 0.93); }
inline Ingredient beeswax() {
    return with_stock(ingredient("beeswax", Role::wax, 0.96, 1.0, 0.96), {oil_of_the_medium}, 0.05);
}
inline Ingredient clove_oil() {
    auto clove =
        with_stock(ingredient("clove-oil", Role::preservative, 1.045, 0.0, 0.0), {oil_of_the_medium, "ethanol"}, 0.10, 20.0);
    clove.stock->beside = exactly(MassFraction::of(0.05));
    return clove;
}
inline Ingredient benzoate() {
    return with_stock(ingredient("benzoate", Role::preservative, 1.5, 1.0, 1.5), {"water"}, 0.10);
}
inline Ingredient ethanol() { return ingredient("ethanol", Role::solvent, 0.789, 0.0, 0.0); }
inline Ingredient turpentine() { return ingredient("turpentine", Role::solvent, 0.865, 0.0, 0.0); }
inline Ingredient yolk() {
    Ingredient yolk = ingredient("egg-yolk", Role::emulsion, 1.04273, 0.4769, 1.0940);
    yolk.in_one_egg = EggYield{grams(14.5), grams(14.0), {}};
    return yolk;
}

inline Medium medium(std::string id, PartsBasis basis, std::vector<MediumPart> parts) {
    Medium m;
    m.name = id;
    m.id = std::move(id);
    m.basis = basis;
    m.parts = std::move(parts);
    return m;
}
/// 100 gum, 200 water, 25 glycerol, 15 honey by mass.
inline Medium base_medium() {
    return medium("gum-medium", PartsBasis::mass,
                  {{gum(), 100}, {water(), 200}, {glycerol(), 25}, {honey(), 15}});
}

/// The worked kitchen lake: 1.88 g/cm3, OA 68.78 g/100 g.
inline Pigment lake() {
    Pigment p;
    p.id = "lake-m";
    p.name = "Lake M";
    p.pigment_class = PigmentClass::lake;
    p.density = density(1.88);
    p.oil_absorption = exactly(grams_per_100_grams(68.78));
    p.test_oil_density = density(0.93);
    return p;
}
inline Pigment chalk() {
    Pigment p = lake();
    p.id = p.name = "chalk";
    p.pigment_class = PigmentClass::extender;
    p.density = density(2.70);
    p.oil_absorption = exactly(grams_per_100_grams(18));
    return p;
}

inline Family family(Process process, double start, double al, double gl, double gh, double ah,
                     double e = 1.0) {
    Family f;
    f.id = f.name = "family";
    f.process = process;
    f.start = BinderSufficiency::of(start);
    f.window = {BinderSufficiency::of(al), BinderSufficiency::of(gl), BinderSufficiency::of(gh),
                BinderSufficiency::of(ah)};
    f.binder_index = exactly(BinderIndex::of(e));
    testing::set_common_figures(f);
    f.method_transfer = 0.10;
    f.binder_solids_spread = 0.04;
    f.binder_density_spread = 0.04;
    return f;
}

inline Recipe watercolour() {
    Recipe r;
    r.id = r.name = "watercolour";
    r.family = family(Process::watercolour, 1.4, 1.0, 1.2, 1.8, 2.4);
    r.pigments = {{lake(), MassFraction::of(1.0)}};
    r.medium = base_medium();
    r.carriers = {water(), ethanol()};
    r.working_water = millilitres_per_gram(0.5);
    return r;
}
inline Recipe oil_paint() {
    Recipe r;
    r.id = r.name = "oil";
    r.family = family(Process::oil, 1.35, 1.0, 1.15, 1.7, 2.2);
    r.pigments = {{lake(), MassFraction::of(1.0)}};
    r.medium = medium("linseed", PartsBasis::mass, {{linseed_oil(), 1}});
    r.carriers = {turpentine()};
    r.additives = {{beeswax(), MassFraction::of(0.02), DoseBasis::medium}};
    return r;
}
inline Recipe tempera() {
    Recipe r;
    r.id = r.name = "tempera";
    r.family = family(Process::egg_tempera, 1.1, 0.75, 0.9, 1.4, 1.8, 0.85);
    r.pigments = {{lake(), MassFraction::of(1.0)}};
    r.medium = medium("yolk", PartsBasis::volume, {{yolk(), 1}});
    return r;
}
/// Two pigments, an additive on every basis.
inline Recipe blend() {
    Recipe r = watercolour();
    r.id = r.name = "blend";
    r.pigments = {{lake(), MassFraction::of(0.7)}, {chalk(), MassFraction::of(0.3)}};
    r.additives = {{clove_oil(), MassFraction::of(0.001), DoseBasis::medium},
                   {gum(), MassFraction::of(0.03), DoseBasis::pigment},
                   {glycerol(), MassFraction::of(0.02), DoseBasis::paint}};
    return r;
}

inline Vessel half_pan() {
    Vessel v;
    v.id = v.name = "half-pan";
    v.capacity = exactly(millilitres(2.0));
    v.fill = Share::of(0.9);
    v.filled_by = FilledBy::dry_volume;
    return v;
}
inline Vessel tube_15() {
    Vessel v;
    v.id = v.name = "tube-15";
    v.capacity = exactly(millilitres(15.0));
    v.fill = Share::of(1.0);
    v.filled_by = FilledBy::wet_volume;
    return v;
}

inline Scale scale(double step_g) { return {"scale", grams(step_g), std::nullopt, std::nullopt}; }
inline Bench bench(double step_g = 0.1) {
    Bench b = lakebound::testing::bare_bench();
    b.name = "bench";
    b.scales = {scale(step_g)};
    b.slab_loss = {grams(0.6), Share::of(0.03)};
    b.reserve = grams(0.5);
    return b;
}
inline Bench two_scales() {
    Bench b = bench(0.1);
    b.scales = {{"kitchen", grams(0.1), grams(3000), std::nullopt},
                {"pocket", grams(0.01), grams(200), std::nullopt}};
    return b;
}
/// The figures of formulations/practice/home.yaml.
inline BenchPractice practice() { return testing::shipped_practice(); }
inline BatchRequest request(Recipe recipe, BatchAmount amount) {
    BatchRequest r;
    r.recipe = std::move(recipe);
    r.amount = std::move(amount);
    r.bench = bench();
    r.practice = practice();
    return r;
}

} // namespace worked
