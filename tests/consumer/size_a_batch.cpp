// Sizes a batch of lake watercolour through the library alone: no files, no shelf.
#include <cstdio>

#include <lakebound/paint/batch.hpp>

using namespace lakebound;

template <class Q> Estimate<Q> measured(Q value) {
    return Estimate<Q>::exact(value, {Origin::measured, "", false});
}
MassDensity density(double x) { return grams_per_cubic_centimetre(x); }

int main() {
    Ingredient gum, water;
    gum.role = Role::gum;
    gum.density = measured(density(1.42));
    gum.non_volatile = measured(MassFraction::of(0.88)); // 12 % moisture
    gum.solids_density = gum.density;
    water.density = measured(density(0.998));
    Pigment lake;
    lake.density = measured(density(1.88));
    lake.oil_absorption = measured(grams_per_100_grams(68.8));
    lake.test_oil_density = measured(density(0.93));

    BatchRequest request;
    request.recipe.pigments = {{lake, MassFraction::of(1.0)}};
    request.recipe.medium.parts = {{gum, 1.0}, {water, 2.0}}; // by mass
    request.recipe.family.binder_index = measured(BinderIndex::of(1.0));
    request.amount = grams(10.0);
    request.aim = BinderSufficiency::of(1.4);
    request.bench.scales = {{"pocket scale", grams(0.01), std::nullopt, std::nullopt}};

    const Batch batch = *size_batch(request).batch;
    std::printf("%.2f g lake, %.2f g gum water: k %.3f, PVC %.1f %%\n", in_grams(batch.pigment),
                in_grams(batch.medium), batch.sheet.film.k.value(), 100.0 * batch.film.pvc.value());
}
