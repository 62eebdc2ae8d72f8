#pragma once
// The habits of work with powder as the shipped shelf has them, for tests that link core alone.

#include <cmath>

#include "lakebound/particle/powder_habits.hpp"

namespace lakebound::testing {

inline BreakagePrior usual_breakage() { return {std::log(0.9), 0.33, std::log(0.9), 0.33, 0.01, 2.0}; }
inline CushioningPrior usual_cushioning() { return {0.5, 2.6}; }

inline PowderHabits usual_habits() {
    const Provenance from{Origin::estimate, "judgement", false};
    PowderHabits habits;
    habits.usual_powder = "alumina-lake";
    habits.sieving_repeats_to = Estimate<MassFraction>::exact(MassFraction::of(0.01), from);
    habits.dry_efficiency = Estimate<Share>::exact(Share::of(0.90), from);
    habits.wet_efficiency = Estimate<Share>::exact(Share::of(0.95), from);
    habits.loss = Estimate<Share>::exact(Share::of(0.01), from);
    habits.emptier_is_faster = Estimate<Share>::normal(Share::of(0.5), Share::Difference::of(0.3), from);
    habits.dry_handling = Estimate<Time>::exact(minutes(4), from);
    habits.wet_handling = Estimate<Time>::exact(minutes(10), from);
    habits.drying = Estimate<Time>::exact(hours(12), from);
    habits.fill_and_stir = Estimate<Time>::exact(minutes(3), from);
    habits.pour = Estimate<Time>::exact(minutes(1), from);
    habits.solids = Estimate<VolumeFraction>::exact(VolumeFraction::of(0.02), from);
    habits.water_depth = Estimate<Length>::exact(millimetres(100), from);
    habits.draw = Estimate<Share>::exact(Share::of(0.8), from);
    habits.refills = 3;
    habits.shortest_wait = Estimate<Time>::exact(seconds(5), from);
    habits.longest_wait = Estimate<Time>::exact(hours(24), from);
    habits.dry_sieving_ends = Estimate<Length>::exact(micrometres(75), {Origin::published, "usp-786", false});
    habits.wet_screening_ends = Estimate<Length>::exact(micrometres(40), from);
    habits.usual_residue = Estimate<MassFraction>::exact(MassFraction::of(0.01), from);
    habits.largest_grain = 2.0;
    habits.breakage = usual_breakage();
    habits.cushioning = usual_cushioning();
    habits.height_read_to = Estimate<Length>::exact(millimetres(1), from);
    habits.water_above_blanket = Estimate<Length>::exact(millimetres(15), from);
    habits.mulling_gain = Estimate<Length>::exact(micrometres(2.0), from);
    habits.mulling_spell = Estimate<Time>::exact(minutes(10.0), from);
    habits.decant_within = Estimate<Share>::exact(Share::of(0.05), from);
    return habits;
}

} // namespace lakebound::testing
