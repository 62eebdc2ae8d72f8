// Reads a rub-out counted in drops, with the core library alone.
// By hand: 19 drops of 1.81/50 g on 1.00 g of lake; sqrt(.095^2 + .05^2), with drops and scale .1085, and after
// two more sqrt(.0963^2/3 + .05^2) = 7.5 %.
// Prints:
//   68.8 g/100g, times or divided by 1.11; after two more rub-outs known to 7.5 %
//   one drop makes 3.6 g/100g: take more pigment
#include <cmath>
#include <cstdio>

#include "lakebound/material/reading_answer.hpp"

int main() {
    using namespace lakebound;
    const Instrument<Mass> scale{grams(0.01), {}};
    const RubOutSeries series{{{grams(1.00), 19, {}, scale}}, // pigment, drops, no weighed oil
                              DropCalibration{50, grams(1.81), scale}};
    ReadingHabits habits;
    habits.rub_out = {.repeat_spread = 0.095, .repeat_weight = 4, .hand_and_oil = 0.05};
    const auto read = std::get<RubOutRead>(answer_reading({"my lake", series}, habits).read);
    std::printf("%.1f g/100g, times or divided by %.2f; after two more rub-outs known to %.1f %%\n",
                in_grams_per_100_grams(read.result.mean.value()), std::exp(read.result.mean.relative_uncertainty()),
                100 * read.after_two_more.value());
    if (read.drops_too_coarse)
        std::printf("one drop makes %.1f g/100g: take more pigment\n", 100 * read.one_drop->value());
}
