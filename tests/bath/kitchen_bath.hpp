#pragma once
// A bath in a kitchen that the tests of several rooms stand on: 50 g of potash alum, soda, and what one wants of it.

#include "lakebound/bath/bath_plan.hpp"
#include "lakebound/bath/bath_progress.hpp"
#include "salts.hpp"
#include "usual_habits.hpp"

namespace lakebound::testing {

inline BathSetting kitchen_bath() {
    const auto h = usual_wash_habits();
    BathSetting s{.bath = {potash_alum(), grams(50), litres(1.3), soda_ash(), millilitres_per_gram(10)},
                  .hydroxides = {2.6, .15},
                  .stop = {.low = Ph::of(6.0), .high = Ph::of(7.0)},
                  .headspace = litres(1.5),
                  .warmth = degrees_celsius(40),
                  .foam_fill = Share::of(.7),
                  .lake = usual_lake(h),
                  .chalk = {},
                  .salts = salts_of_alum_and_soda(),
                  .bed = Estimate<Volume>::lognormal(litres(.45), 1.08, {}),
                  .filled = Estimate<Volume>::lognormal(litres(1.5), 1.03, {}),
                  .pen = usual_pen(h, Compensation::to_25_degrees, microsiemens_per_centimetre(1)),
                  .scale = {grams(.1), grams(.0287)},
                  .habits = h,
                  .height_read_to = millimetres(1),
                  .decant_within = Share::of(.05)};
    return s;
}
inline BathWish roots_and_alum() {
    BathWish wish;
    wish.plant = PlantLot{grams(100), false, PlantPart::root};
    wish.aluminium = potash_alum();
    wish.aluminium_mass = grams(50);
    wish.alkali = soda_ash();
    return wish;
}

} // namespace lakebound::testing
