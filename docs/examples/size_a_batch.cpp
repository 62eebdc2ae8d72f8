// Sizes a batch of lake watercolour through the library alone: no files, no shelf.
// By hand: 1.4 x 10 g x 0.7398 mL/g / 0.2066 mL/g = 50.13 g of gum water.
// Prints:
//   10.00 g lake, 50.14 g gum water: k 1.400, PVC 33.9 %
#include <cstdio>
#include <lakebound/paint/batch.hpp>
using namespace lakebound;

int main() {
    const auto density = [](double x) { return measured(grams_per_cubic_centimetre(x)); };
    const Pigment lake{.density = density(1.88),
                       .oil_absorption = measured(grams_per_100_grams(68.8)),
                       .test_oil_density = density(0.93)};
    const Ingredient gum{.role = Role::gum,
                         .density = density(1.42),
                         .non_volatile = measured(MassFraction::of(0.88)), // 12 % moisture
                         .solids_density = density(1.42)};
    const Ingredient water{.density = density(0.998)};

    BatchRequest request;
    request.amount = grams(10.0);
    request.aim = BinderSufficiency::of(1.4);
    request.recipe.pigments = {{lake, MassFraction::of(1.0)}};
    request.recipe.medium.parts = {{gum, 1.0}, {water, 2.0}}; // by mass
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    request.recipe.family.window = {k(1.0), k(1.2), k(1.8), k(2.4)}; // of watercolour
    request.bench.scales = {{.name = "pocket scale", .step = grams(0.01)}};
    request.bench.weighing_tolerance = Share::of(0.05);
    request.bench.humidity = RelativeHumidity::of(0.5);

    const Batch batch = *size_batch(request).batch;
    std::printf("%.2f g lake, %.2f g gum water: k %.3f, PVC %.1f %%\n", in_grams(batch.pigment),
                in_grams(batch.medium), batch.sheet.film.k.value(), 100.0 * batch.film.pvc.value());
}
