#pragma once
// The way of the pH as alkali is poured, where to stop, and what a reading can mean.
//
// The solid lies between the books' hydroxide and the basic sulphate, and the gas between fizzing and gone, so a stop
// is a band and not a line. Before the first cloudiness the model has no pH to give (equilibrium.hpp) and gives none.

#include <optional>
#include <vector>

#include "lakebound/bath/equilibrium.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/difference.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A dye liquor with its alum, and the alkali that goes in as a solution.
struct Titration {
    Salt aluminium;
    Mass mass;             ///< of the aluminium salt
    Volume liquor;         ///< with the alum in it, before alkali
    Salt alkali;
    SpecificVolume solution; ///< volume of alkali solution per mass of alkali in it
};

struct TitrationPoint {
    Mass alkali;
    double hydroxides = 0.0;   ///< poured, per aluminium
    std::optional<Ph> ph;      ///< nothing before the bath clouds
    Share laid;                ///< of the aluminium
};

/// The rest that a bath comes to after a mass of alkali. Errors: DomainError, as equilibrium.
[[nodiscard]] Equilibrium after_alkali(const Titration& bath, Mass alkali, LakeSolid solid, const CarbonDioxide& gas);

/// The pH of a bath that has clouded. Errors: DomainError before the first cloudiness, where the model is too high by
/// 0.7 and more.
[[nodiscard]] Ph stated_ph(const Equilibrium& rest);

/// Points from none to a greatest number of hydroxides per aluminium. Range: 2 to 2 000 points. Errors: DomainError.
[[nodiscard]] std::vector<TitrationPoint> titration_curve(const Titration& bath, LakeSolid solid, const CarbonDioxide& gas,
                                            double most_hydroxides, std::size_t points);

/// Alkali that brings the bath to a pH, or nothing within 6 hydroxides per aluminium: a fizzing bath may never get
/// there. Range: pH 4 to 10. Errors: DomainError.
[[nodiscard]] std::optional<Mass> alkali_to_ph(const Titration& bath, Ph ph, LakeSolid solid, const CarbonDioxide& gas);

/// From one pH to another; the whole scale until something is known.
struct PhRange {
    Ph low = Ph::of(0.0), high = Ph::of(14.0);
};
/// Standard uncertainty of the model past the first cloudiness: an estimate.
inline constexpr PhDifference ph_model_doubt = PhDifference::of(0.4);
/// Lowest and highest pH that this much alkali can have brought, over both solids and from fizzing to open air, widened
/// by the model's own doubt on each side; a bath that need not be cloudy goes down to 2.
[[nodiscard]] PhRange possible_ph(const Titration& bath, Mass alkali);

/// How a pH was read.
enum class PhMeans { strip, pen };
/// Standard uncertainty of the reading itself; above 0, of the shelf (washing/home.yaml).
struct PhReadTo {
    PhDifference strip, pen;
    [[nodiscard]] constexpr PhDifference by(PhMeans means) const noexcept { return means == PhMeans::strip ? strip : pen; }
};

/// Hydroxides per aluminium that a reading at rest stands for: the middle of both solids at that pH, half their
/// distance as uncertainty together with what the reading leaves open. Nothing where the curve does not reach it.
[[nodiscard]] std::optional<HydroxideBelief> hydroxides_at_ph(const Titration& bath, Ph ph, PhDifference standard_uncertainty);

} // namespace lakebound
