#pragma once
// Habits of an invented kitchen for the tests: the shelf's own figures may change, these may not.

#include <cmath>

#include "lakebound/bath/bath_composition.hpp"
#include "lakebound/bath/bath_plan.hpp"
#include "lakebound/bath/wash_habits.hpp"

namespace lakebound::testing {

template <class Q> Estimate<Q> sure(const Q& value) { return Estimate<Q>::exact(value, {}); }

inline WashHabits usual_wash_habits() {
    WashHabits h{};
    h.filter = {sure(Share::of(.03)), sure(seconds(20)), sure(Share::of(.35)), sure(minutes(5))};
    h.pen_calibrated_to = sure(Share::of(.03));
    h.pen_repeats_to = sure(Share::of(.01));
    h.conductivity_per_kelvin = sure(Share::of(.02));
    h.warmth_read_to = sure(TemperatureDifference::from_value(1));
    h.solids_per_conductivity = Estimate<Share>::normal(Share::of(.65), Share::Difference::of(.10), {});
    h.bed_read_to = sure(Share::of(.08));
    h.filled_read_to = sure(Share::of(.03));
    h.stirred_to = sure(Share::of(.10));
    h.wash_takes = sure(hours(12));
    h.chalk_washes = 3;
    h.colour = {sure(Share::of(.2)), sure(Share::of(.5)), sure(Share::of(.15))};
    h.drying.drained_water = Estimate<MassFraction>::normal(MassFraction::of(.8), MassFraction::Difference::of(.06), {});
    h.drying.usual_tau = Estimate<Time>::lognormal(hours(36), 2, {});
    h.drying.weighing_repeats_to = sure(Share::of(.003));
    h.drying.dry_within = sure(Share::of(.01));
    h.drying.constant_within = sure(Share::of(.005));
    h.drying.constant_over = sure(hours(20));
    h.air_dry_water = Estimate<MassFraction>::normal(MassFraction::of(.17), MassFraction::Difference::of(.05), {});
    h.recovered = Estimate<Share>::normal(Share::of(.90), Share::Difference::of(.05), {});
    h.dye_density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.50), grams_per_cubic_centimetre(.06), {});
    h.salts_density = sure(grams_per_cubic_centimetre(2.68));
    h.salts_allowed = sure(MassFraction::of(.01));
    h.salts_for_oil = sure(MassFraction::of(.005));
    h.preservative_active = sure(Share::of(.05));
    h.ph_read_to = {PhDifference::of(.5), PhDifference::of(.2)};
    h.ph_rests_within = PhDifference::of(.2);
    h.first_portion = sure(Share::of(.8));
    h.end_point_doubt = .1;
    h.alkaline_above = Ph::of(8);
    h.said_from = sure(Share::of(.1));
    return h;
}

/// 50 g of potassium alum.
inline LakeEstimate usual_lake(const WashHabits& h) {
    return {sure(moles(50 / 474.372)),
            Estimate<HydroxidesPerAluminium>::normal(HydroxidesPerAluminium::of(2.6), HydroxidesPerAluminium::Difference::of(.12), {}),
            Estimate<Mass>::lognormal(grams(1.5), std::exp(.5), {}),
            h.air_dry_water,
            Estimate<MassFraction>::lognormal(MassFraction::of(.02), std::exp(.7), {}),
            h.dye_density,
            h.salts_density,
            h.recovered};
}

inline LakingHabits usual_laking() {
    LakingHabits h{};
    h.stop = {.low = Ph::of(6), .high = Ph::of(7)};
    const double dry[] = {.27, .25, .18, .20, .42};
    for (std::size_t i = 0; i < 5; ++i) h.dry_share[i] = sure(Share::of(dry[i]));
    h.water_held = sure(millilitres_per_gram(3));
    h.plant_density = sure(grams_per_cubic_centimetre(1.45));
    h.pot_headspace = sure(Share::of(.25));
    h.water_per_plant = sure(millilitres_per_gram(20));
    h.pulls = 2;
    h.alum_per_plant = sure(Share::of(.5));
    h.heat_limit = sure(degrees_celsius(70));
    h.laying_warmth = sure(degrees_celsius(50));
    h.hydroxides = Estimate<HydroxidesPerAluminium>::normal(HydroxidesPerAluminium::of(2.6),
                                                            HydroxidesPerAluminium::Difference::of(.15), {});
    h.strength = sure(Share::of(.10));
    h.foam_life = sure(seconds(60));
    h.foam_fill = sure(Share::of(.7));
    h.least_headspace = sure(Share::of(.5));
    h.vessel_times = 3;
    h.longest_pouring = sure(minutes(30));
    h.dye_per_hydroxide = Estimate<Share>::lognormal(Share::of(.18), std::exp(.5), {});
    h.cake_salts = Estimate<MassFraction>::lognormal(MassFraction::of(.02), std::exp(.7), {});
    h.bed_share = sure(Share::of(.3));
    h.gypsum_dissolves = sure(kilograms_per_cubic_metre(2.4));
    return h;
}

} // namespace lakebound::testing
