#pragma once
// From what a bath laid down to the lake in the jar: its mass, and the density of its grains before any pyknometer.
//
//   solid per mole of aluminium, n hydroxides: (1 - x) of Al(OH)3 and x of basic sulphate Al(OH)2.5(SO4)1/4, x = (3 - n)/.5
//   m = (m_solid + m_dye) / (1 - w - s),  1/rho = sum w_i / rho_i   w water, s salts, shares of the lake as it lies
// Source: mass balance, and the mixture rule of material/density.hpp (no closed pores). Density of the hydroxide 2.42
// g/cm3 (crc-densities), of the basic sulphate 2.12 (value from memory), dye 1.4 to 1.6 (value from memory).
// Accuracy: with a kitchen's doubts about 0.10 g/cm3, most of it from the water: a weighed moisture is worth more than
// anything else here. Where n < 2.5 the basic sulphate is extrapolated (estimate).

#include <vector>

#include "lakebound/bath/precipitation.hpp"
#include "lakebound/estimate/budget.hpp"
#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/density.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Of one mole of aluminium in the solid, without water beyond its hydroxide.
[[nodiscard]] MolarMass solid_per_aluminium(HydroxidesPerAluminium n);
/// Density of that solid: volumes of its two parts add.
[[nodiscard]] MassDensity solid_density(HydroxidesPerAluminium n);

/// Densities of what else is in a lake.
struct PartDensities {
    MassDensity dye, salts;
};

/// What is known of a lake in a bath, as plain figures.
struct LakeMakeUp {
    AmountOfSubstance aluminium; ///< laid
    HydroxidesPerAluminium hydroxides;
    Mass dye;           ///< fixed
    MassFraction water; ///< of the lake as it lies, with its water
    MassFraction salts; ///< likewise
    PartDensities densities;
};
/// The lake, part by part; every mass as it lies.
struct LakeParts {
    Mass solid, dye, water, salts, whole;
    MassDensity density;     ///< with its water: as weighed
    MassDensity dry_density; ///< bone dry
};
/// Range: aluminium above 0, dye 0 or more, w + s below 1, densities above 0. Errors: DomainError.
[[nodiscard]] LakeParts lake_parts(const LakeMakeUp& make_up);

/// The same with its doubts.
struct LakeEstimate {
    Estimate<AmountOfSubstance> aluminium;
    Estimate<HydroxidesPerAluminium> hydroxides;
    Estimate<Mass> dye;
    Estimate<MassFraction> water, salts;
    Estimate<MassDensity> dye_density, salts_density;
    Estimate<Share> recovered; ///< of the lake laid, what comes off the paper into the jar
};
struct LakeExpectation {
    Mass mass{};  ///< in the jar: median of what is recovered of it
    Mass mass_standard_uncertainty{};
    CoverageInterval mass_kg; ///< nine in ten
    MassDensity density{};    ///< as weighed, median
    MassDensity density_standard_uncertainty{};
    CoverageInterval density_kg_m3; ///< nine in ten
    MassDensity dry_density{};
    Budget density_budget; ///< which input the density's doubt comes from
};
/// 4 096 draws by a fixed seed. Draws in which nothing dry would be left, or n outside 2 to 3, are left out; more than
/// one in ten refused: DomainError.
[[nodiscard]] LakeExpectation expected_lake(const LakeEstimate& lake);

/// A lake laid with chalk is another pigment: gypsum and chalk with a fifth of alumina. Parts of its solids.
/// Densities: calcite 2.71, gypsum 2.32 g/cm3 (crc-densities). Not proof against acid; takes less oil (estimate).
[[nodiscard]] LakeParts chalk_lake_parts(const ChalkLake& chalk_laid, Mass dye, MassFraction water, MassFraction salts,
                           const PartDensities& densities);
/// Expected of a lake laid with chalk: the mass and density of its parts in place of those of alumina, with the doubts
/// that water, dye, salts and losses bring to any lake. Errors: as expected_lake and chalk_lake_parts.
[[nodiscard]] LakeExpectation expected_chalk_lake(const ChalkLake& chalk_laid, const LakeEstimate& lake);

} // namespace lakebound
