#pragma once
// Laying the lake: how much alkali an aluminium salt wants, what comes down, and how to mend too much or too little.
//
//   Al3+ + n OH- + (3 - n)/2 SO4-- -> Al(OH)n(SO4)((3-n)/2), n hydroxides per aluminium; carbonate counts twice, and
//   its carbon dioxide leaves. n = 3 is the hydroxide of the books; real solids keep sulphate, n about 2.5 to 3.
// Source: mass balance; n: formulations/laking, learned from a maker's own end points. Validity: up to n hydroxides per
// aluminium everything that is poured is used; beyond, the rest stays in the liquor.

#include <optional>
#include <span>

#include "lakebound/bath/salt.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/chemical_units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct HydroxideTag {
    static constexpr const char* name = "hydroxides per aluminium";
    static constexpr const char* range = "2 to 3";
    static constexpr double lowest = 2.0, highest = 3.0;
    static constexpr bool no_default = true;
};
/// n, hydroxides that each aluminium of the solid has taken up.
using HydroxidesPerAluminium = Ratio<HydroxideTag>;
inline constexpr double book_hydroxides = 3.0; ///< of Al(OH)3 (definition)

/// Moles of everything in a bath: ions as poured, with the water counted apart.
struct BathContents {
    Ions ions{};
    Mass water{};

    /// Dissolves a salt; its water of crystallisation joins the water.
    void add(const Salt& salt, Mass mass);
    Atoms atoms() const;
};

/// Aluminium and base (moles of hydroxide) that were brought. An aluminium salt's own hydroxide counts as base.
[[nodiscard]] AmountOfSubstance aluminium_in(const BathContents& bath) noexcept;
[[nodiscard]] AmountOfSubstance base_in(const BathContents& bath) noexcept;

/// Alkali that an aluminium salt wants: (n Al - base the salt brings) / base per mole of alkali.
/// Range: an aluminium salt and an alkali. Errors: DomainError.
[[nodiscard]] Mass alkali_needed(const Salt& aluminium, Mass mass, const Salt& alkali, HydroxidesPerAluminium n);
/// Aluminium salt that uses up a mass of alkali. Errors: DomainError.
[[nodiscard]] Mass aluminium_needed(const Salt& alkali, Mass mass, const Salt& aluminium, HydroxidesPerAluminium n);

/// Too much (above 0) or too little (below 0) of the alkali for these masses, and what mends it.
struct AlkaliBalance {
    Mass needed;
    Mass poured;
    double excess = 0.0;   ///< (poured - needed) / needed
    Mass more_alkali;      ///< when it is short, else 0
    Mass more_aluminium;   ///< when it is over, else 0
};
[[nodiscard]] AlkaliBalance alkali_balance(const Salt& aluminium, Mass mass, const Salt& alkali, Mass poured,
                             HydroxidesPerAluminium n);

/// What comes of a bath: moles of each product per element kept apart, so that nothing is lost.
struct Precipitated {
    AmountOfSubstance solid_aluminium;      ///< laid down
    double hydroxides = 0.0;     ///< per aluminium of the solid
    Mass solid;                  ///< Al(OH)n(SO4)((3-n)/2), dry, without water or dye
    MassFraction solid_sulphate; ///< of the solid's mass
    AmountOfSubstance aluminium_left;       ///< in the liquor
    AmountOfSubstance base_left;            ///< of what was poured, as hydroxide; 0 while aluminium is left
    AmountOfSubstance carbon_dioxide;       ///< set free; part of it stays dissolved
    Mass dissolved_salts;        ///< in the liquor, as anhydrous salts
    Ions liquor;                 ///< ions left in the liquor
    Atoms solid_atoms;
    Atoms gas_atoms;
    Atoms liquor_atoms;          ///< with the water
};
/// Calcium brings gypsum, which this does not lay: chalk and lime are refused here (see chalk_lake).
/// Errors: DomainError for a bath without aluminium, with calcium or acetate, or too poor in sulphate or chloride for n.
[[nodiscard]] Precipitated precipitate(const BathContents& bath, HydroxidesPerAluminium n);

/// A lake laid with chalk: alumina, gypsum and chalk that found no partner. It is another pigment.
struct ChalkLake {
    Mass chalk_used, chalk_left, gypsum, gypsum_dissolved, alumina;
    Mass solids; ///< without water and dye
    MassFraction alumina_share;
};
/// n = 3: chalk is slow and weak, and what keeps sulphate is not known. gypsum_dissolves: per volume of liquor.
/// Errors: DomainError unless chalk, an aluminium sulphate or alum, and liquor 0 or more.
[[nodiscard]] ChalkLake chalk_lake(const Salt& aluminium, Mass aluminium_mass, const Salt& chalk, Mass chalk_mass, Volume liquor,
                     MassDensity gypsum_dissolves);

/// An end point of the maker's own: alkali that brought a mass of aluminium salt to the stop.
struct EndPoint {
    double hydroxides = 0.0;           ///< per aluminium, base poured over aluminium
    double standard_uncertainty = 0.0; ///< of weighing, pH and overshoot; above 0
};
/// Hydroxides per aluminium that the poured masses stand for. Errors: DomainError as above.
[[nodiscard]] double hydroxides_poured(const Salt& aluminium, Mass mass, const Salt& alkali, Mass poured);

struct HydroxideBelief {
    double mean = 0.0, standard_uncertainty = 0.0;
};
/// What the maker's end points make of a belief: normal on normal, precisions add.
/// Source: conjugate normal update. Errors: DomainError for an uncertainty that is not above 0.
[[nodiscard]] HydroxideBelief learn_hydroxides(const HydroxideBelief& before, std::span<const EndPoint> seen);

} // namespace lakebound
