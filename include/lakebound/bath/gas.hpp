#pragma once
// Gas and foam: how much carbon dioxide a bath sets free, and how slowly to pour for the headspace.
//
//   V = n R T / p   foam in the vessel = gas rate x life of the foam   so pouring takes V life / (fill x headspace).
// Source: ideal gas; foam: balance of what forms and what falls. Validity: all carbonate leaves as gas, which is the
// most there can be; the foam's life is measured with a spoonful (docs/from-plant-to-jar.md).

#include "lakebound/export.hpp"
#include "lakebound/quantity/chemical_units.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Volume of dry gas at a pressure, 1 atm unless told otherwise. Errors: DomainError for an amount below 0.
[[nodiscard]] Volume gas_volume(AmountOfSubstance gas, Temperature at, Pressure pressure = standard_atmospheres(1.0));

/// Carbon dioxide that stays dissolved in balance with the gas at 25 degC: 10^-1.468 mol/L at 1 atm.
/// Source: phreeqc-dat. Errors: DomainError.
[[nodiscard]] AmountOfSubstance dissolved_gas(Volume liquor, Pressure gas);

struct FoamPlan {
    Volume gas;          ///< in all
    Volume headspace;
    Time pouring;        ///< shortest that keeps the foam in the vessel
    unsigned portions = 1; ///< each of whose gas, all as foam at once, stays in the vessel
};
/// fill: share of the headspace that foam may take, above 0. Range: life above 0, headspace above 0.
/// Errors: DomainError.
[[nodiscard]] FoamPlan plan_foam(AmountOfSubstance gas, Temperature at, Volume headspace, Time life, Share fill);

} // namespace lakebound
