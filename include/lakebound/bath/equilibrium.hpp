#pragma once
// What a bath comes to when it is left: pH, aluminium laid down, carbon dioxide kept.
//
// Charge balance over H, Na, K, NH4, Al and its hydroxides and sulphates, SO4, HSO4, CO2, HCO3, CO3, Cl at 25 degC,
// with Davies activities. Constants (log10): phreeqc-dat, read in a public copy of the file:
//   *K Al(OH)++ -5.0, Al(OH)2+ -10.1, Al(OH)3 -16.9, Al(OH)4- -22.7; AlSO4+ 3.5, Al(SO4)2- 5.0; HSO4- 1.988;
//   NaSO4- 0.94, KSO4- 1.18; CO3-- + H+ 10.329, + 2 H+ 16.681; CO2 gas -1.468; NH4+ -9.252; water -14.0;
//   amorphous Al(OH)3 + 3 H+ 10.8; Al4(OH)10SO4 + 10 H+ 22.7 (minteq-v4).
// Solved by Newton's method in three unknowns with analytic derivatives; where that does not come to an end, by bracketing
// three nested sign changes (toms748 of Boost), so it never runs away. Both agree to 1e-7.
//
// Where it fails: before the first cloudiness the model lacks the aluminium polymers, and 0.2 mol/L alum comes out at
// pH 4.0 where 3.3 was published. There it says nothing (see titration.hpp). From the first cloudiness on +- 0.4
// (estimate). Not for acetate, chalk or lime, nor where the salts pass 1.5 mol/L of ionic strength.

#include <array>
#include <optional>

#include "lakebound/bath/precipitation.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/chemical_units.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The solid that comes down: the books' hydroxide, or the basic sulphate that real baths lie near.
enum class LakeSolid { hydroxide, basic_sulphate };

/// How carbon dioxide may go.
struct CarbonDioxide {
    enum class Way {
        balanced, ///< in balance with gas of the pressure: takes up or gives off as it must
        vents,    ///< gives off what is above the pressure, takes up none: a fizzing or a stirred bath
        closed    ///< all stays in the liquor, whatever its pressure
    };
    Way way = Way::balanced;
    Pressure pressure{}; ///< of balanced and vents
};
/// Carbon dioxide in the open air, 420 parts in a million (value from memory).
inline constexpr Pressure carbon_dioxide_of_air = standard_atmospheres(4.2e-4);
/// Left in a bath that was stirred warm for a quarter of an hour (estimate): about half way from bubbles to air, by
/// logarithms. Half or twice as much moves a pH past the stop by 0.3, and one before it by less than 0.1 (computed).
inline constexpr Pressure carbon_dioxide_when_stirred = standard_atmospheres(0.03);
/// In a bubble that rises: the pure gas (definition).
inline constexpr Pressure carbon_dioxide_of_bubbles = standard_atmospheres(1.0);
[[nodiscard]] constexpr CarbonDioxide open_to_air() { return {CarbonDioxide::Way::balanced, carbon_dioxide_of_air}; }
[[nodiscard]] constexpr CarbonDioxide stirred() { return {CarbonDioxide::Way::vents, carbon_dioxide_when_stirred}; }
[[nodiscard]] constexpr CarbonDioxide fizzing() { return {CarbonDioxide::Way::vents, carbon_dioxide_of_bubbles}; }
[[nodiscard]] constexpr CarbonDioxide closed_jar() { return {CarbonDioxide::Way::closed, Pressure{}}; }

struct Equilibrium {
    Ph ph = Ph::of(7.0);
    double ionic_strength = 0.0;    ///< mol/L
    Share laid;                     ///< of the aluminium
    AmountOfSubstance aluminium_laid, aluminium_left;
    AmountOfSubstance sulphate_laid;
    AmountOfSubstance carbon_held;             ///< carbonate, bicarbonate and dissolved gas in the liquor
    AmountOfSubstance carbon_gone;             ///< given off; below 0 where a balanced bath took some up
    Pressure carbon_dioxide;        ///< in balance with the liquor
    double charge_left = 0.0;       ///< mol/L of charge that the solution leaves unbalanced: rounding
    bool cloudy() const noexcept { return laid.value() > 0.0; }
};

/// Where a solution was found: the next one, of a bath that differs little, is looked for there first.
struct RestStart {
    double log_hydrogen = 0.0, log_sulphate = 0.0; ///< ln of activities
    double ionic_strength = 0.0;                   ///< mol/L
};

/// Where ions of a bath, dissolved to a volume, come to rest. Range: volume above 0.
/// Errors: DomainError for acetate or calcium, no volume, an ionic strength above 1.5 mol/L, or a pH
/// outside 0 to 14.
[[nodiscard]] Equilibrium equilibrium(const Ions& bath, Volume volume, LakeSolid solid, const CarbonDioxide& gas);
/// The same, from near the last answer; `near` is this one's afterwards. What comes out does not depend on it.
[[nodiscard]] Equilibrium equilibrium(const Ions& bath, Volume volume, LakeSolid solid, const CarbonDioxide& gas,
                                      std::optional<RestStart>& near);

/// Dissolved aluminium in balance with the solid at a pH, at an ionic strength and free sulphate (mol/L), mol/L.
/// Range: pH 2 to 12. Errors: DomainError.
[[nodiscard]] AmountConcentration aluminium_dissolved(Ph ph, double free_sulphate, double ionic_strength, LakeSolid solid);

} // namespace lakebound
