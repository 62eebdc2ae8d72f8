#pragma once
// What readings after the pot are worth, and what a lake is let off with, until the maker says otherwise. The figures
// lie on the shelf (kind: wash habits) with their origin; none lives in code.

#include "lakebound/bath/colour_left.hpp"
#include "lakebound/bath/conductivity.hpp"
#include "lakebound/bath/drying.hpp"
#include "lakebound/bath/filtration.hpp"
#include "lakebound/bath/titration.hpp"
#include "lakebound/bath/washing.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/lake_remains.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct WashHabits {
    FilterHabits filter;

    Estimate<Share> pen_calibrated_to;            ///< standard uncertainty common to a pen's readings
    Estimate<Share> pen_repeats_to;               ///< and of one reading
    Estimate<Share> conductivity_per_kelvin;      ///< of natural water, of that at 25 degC
    Estimate<TemperatureDifference> warmth_read_to; ///< standard uncertainty of the water's temperature
    /// Dissolved solids of tap water, g/L, to a conductivity of 1 mS/cm.
    Estimate<Share> solids_per_conductivity;

    Estimate<Share> bed_read_to;    ///< standard uncertainty of the liquid in the bed, of it
    Estimate<Share> filled_read_to; ///< and of the vessel filled up
    Estimate<Share> stirred_to;     ///< how evenly a bed mixes: ln-sd of what a wash keeps

    Estimate<Time> wash_takes;      ///< to stir, sink and draw off
    double chalk_washes = 0.0;      ///< of a lake laid with chalk, where no pen tells
    ColourHabits colour;

    DryingHabits drying;

    Estimate<MassFraction> air_dry_water; ///< of a lake at rest in ordinary air
    Estimate<Share> recovered;            ///< of the lake, from paper and cloth into the jar
    Estimate<MassDensity> dye_density, salts_density;
    Estimate<MassFraction> salts_allowed;     ///< of the lake, in most paint
    Estimate<MassFraction> salts_for_oil;     ///< in oil and in tubes
    Estimate<Share> preservative_active;      ///< below this share of it a preservative is called dead
    PhReadTo ph_read_to;
    PhDifference ph_rests_within; ///< two readings in a row of a bath at rest
    Estimate<Share> first_portion; ///< of alkali that is missing, poured before the next reading
    double end_point_doubt = 0.0; ///< of an end point: overshoot and the width of the stop, hydroxides per aluminium
    Ph alkaline_above = Ph::of(14.0);         ///< a lake in water wants another wash or a little alum
    Estimate<Share> said_from;                ///< chance from which the salts, alkali or mould of a jar are warned of
};

/// What of these a paint asks about its jar.
[[nodiscard]] LakeLimits lake_limits(const WashHabits& habits);

/// A pen with the habits' doubts.
[[nodiscard]] ConductivityPen usual_pen(const WashHabits& habits, Compensation compensation, Conductivity step);
/// Liquid in a cake drained on paper, to the lake it becomes: lognormal, the doubts of both waters carried to the first
/// order. Errors: as held_by_drained_cake.
[[nodiscard]] Estimate<SpecificVolume> usual_held(const WashHabits& habits);
/// Dissolved solids of wash water by its conductivity at 25 degC. Range: 0 or more. Errors: DomainError.
[[nodiscard]] Estimate<MassDensity> solids_of_wash_water(Conductivity at_25, const WashHabits& habits);

} // namespace lakebound
