// Orders three oil paints fat over lean, with the core library alone.
// By hand (theory.md): lead white with 15 g of oil to 100 g holds 51.9 % of oil by volume, madder lake with 55 g
// 52.6 %, alizarin with 151.5 g 72.3 %: white must not lie over alizarin.
// Prints:
//   white over alizarin: lean over fat by 20 %
//   better: white, madder, alizarin
#include <cstdio>

#include "lakebound/paint/layer_answer.hpp"

int main() {
    using namespace lakebound;
    const auto layer = [](const char* name, double density, double oil) {
        const auto share = oil_share({.pigment = grams(100),
                                      .pigment_density = grams_per_cubic_centimetre(density),
                                      .oil = grams(oil),
                                      .oil_density = grams_per_cubic_centimetre(0.93)});
        return LayerPaint{name, PigmentVolumeConcentration::of(1.0 - share.by_volume.value()), share.by_mass};
    };
    const auto judged =
        judge_layers({layer("madder", 1.88, 55), layer("alizarin", 1.60, 151.5), layer("white", 6.70, 15)}, 0.02);
    const auto name = [&](std::size_t i) { return judged.from_the_ground_up[i].paint.name.c_str(); };
    for (const auto& fault : judged.lean_over_fat)
        std::printf("%s over %s: lean over fat by %.0f %%\n", name(fault.upper), name(fault.lower),
                    100 * fault.difference);
    std::printf("better: %s, %s, %s\n", name(judged.lean_to_fat[0]), name(judged.lean_to_fat[1]),
                name(judged.lean_to_fat[2]));
}
