#include "lakebound/bath/wash_habits.hpp"

#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

ConductivityPen usual_pen(const WashHabits& habits, Compensation compensation, Conductivity step) {
    ConductivityPen pen{};
    pen.compensation = compensation;
    pen.per_kelvin = habits.conductivity_per_kelvin.value().value();
    pen.calibrated_to = habits.pen_calibrated_to;
    pen.repeats_to = habits.pen_repeats_to;
    pen.step = step;
    pen.thermometer = habits.warmth_read_to.value();
    return pen;
}

Estimate<MassDensity> solids_of_wash_water(Conductivity at_25, const WashHabits& habits) {
    const double us = in_microsiemens_per_centimetre(at_25);
    if (!(us >= 0.0)) throw_out_of_range("conductivity of the wash water", us, "uS/cm", "0 or more");
    const auto solids = [us](double per) { return kilograms_per_cubic_metre(us / 1e3 * per); };
    return Estimate<MassDensity>::normal(solids(habits.solids_per_conductivity.value().value()),
                                         solids(habits.solids_per_conductivity.standard_uncertainty().value()),
                                         habits.solids_per_conductivity.provenance());
}

LakeLimits lake_limits(const WashHabits& habits) {
    return {habits.salts_allowed.value(), habits.salts_for_oil.value(), habits.preservative_active.value(),
            habits.alkaline_above, Probability::of(habits.said_from.value().value())};
}

Estimate<SpecificVolume> usual_held(const WashHabits& habits) {
    const double w = habits.drying.drained_water.value().value(), rest = habits.air_dry_water.value().value();
    const double of_cake = habits.drying.drained_water.standard_uncertainty().value() / (w * (1.0 - w));
    const double of_rest = habits.air_dry_water.standard_uncertainty().value() / (1.0 - rest);
    return Estimate<SpecificVolume>::lognormal(held_by_drained_cake(habits.drying.drained_water.value(), habits.air_dry_water.value()),
                                               std::exp(std::hypot(of_cake, of_rest)), habits.drying.drained_water.provenance());
}

} // namespace lakebound
