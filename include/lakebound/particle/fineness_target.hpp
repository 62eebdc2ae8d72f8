#pragma once
// How fine a pigment must be for its paint, whether a sieve test meets that, and by which method the
// coarse part is best taken out.

#include <optional>
#include <string>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/particle/grind_plan.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/particle/size_distribution.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What a family of paints asks of its pigment. The sizes at which one method of separation gives way
/// to the next belong to sieves and water, not to the paint, but are kept here with their origin.
struct FinenessTarget {
    std::string id;                         ///< of the family
    std::string name;                       ///< of the paint
    Estimate<Length> grain;                 ///< coarsest grain wanted in the finished paint
    Length residue_screen;                  ///< the screen on which the dry powder is judged
    Estimate<MassFraction> allowed_residue; ///< that may stay on it
    Estimate<Length> dry_sieving_ends;      ///< below it powders clog dry screens
    Estimate<Length> wet_screening_ends;    ///< below it water and time part grains better than cloth
    std::string note;

    /// True where grains that pass the residue screen may still be too coarse for the paint: water parts them.
    bool wants_finer_than_screen() const { return grain.value() < residue_screen; }
};

/// A target without a family: a screen and what may stay on it, all else by the habits.
[[nodiscard]] FinenessTarget plain_target(Length residue_screen, MassFraction allowed_residue, const PowderHabits& habits);

/// Share of the mass coarser than a size.
struct Residue {
    MassFraction share;
    double standard_uncertainty = 0.0; ///< from the scale alone; 0 where its step is unknown
    double repeatability = 0.0;        ///< standard deviation between two tests, the scale apart; 0: unknown
    Reach reach = Reach::within; ///< below_finest: share is the least, above_coarsest: the most it can be
};
/// From the screen itself where there is one of that aperture (relative difference below 1e-6), else
/// linear in passing against ln size between its neighbours. Beyond the screens it is only a bound.
[[nodiscard]] Residue residue_over(const SieveAnalysis& analysis, Length size);

/// Bounds of a share of the charge, where part of it was lost and nobody knows of which sizes.
struct LossBounds {
    double low = 0.0;  ///< all of the loss finer than the size: R (1 - loss)
    double high = 0.0; ///< all of it coarser: R (1 - loss) + loss
};
/// R the residue as a share of what was recovered, loss as a share of the charge. Nothing where the charge
/// is unknown or nothing was lost. Source: mass balance.
[[nodiscard]] std::optional<LossBounds> residue_with_loss(const Residue& residue, const SieveAnalysis& analysis);

enum class FinenessVerdict {
    fine_enough,
    cannot_tell, ///< the limit lies within two standard uncertainties, or beyond the screens
    too_coarse,
};
template <> struct WordTable<FinenessVerdict> {
    static constexpr WordRow<FinenessVerdict> rows[] = {
        {FinenessVerdict::fine_enough, "fine enough"},
        {FinenessVerdict::cannot_tell, "cannot tell"},
        {FinenessVerdict::too_coarse, "too coarse"},
    };
};
/// fine_enough: high + 2 u <= allowed; too_coarse: low - 2 u > allowed, with u the scale and the repeatability
/// together, and low and high the bounds that the loss leaves, or the share itself. A bound of the screens
/// decides only where it can.
[[nodiscard]] FinenessVerdict judge_fineness(const Residue& residue, const std::optional<LossBounds>& with_loss,
                                             MassFraction allowed);

/// The least residue that a scale tells from none: 3 u_m / charge. Source: as wet_residue.
/// Range: charge and step above 0. Errors: DomainError.
[[nodiscard]] MassFraction smallest_residue_seen(Mass charge, Mass scale_step);

/// The charge at which a scale sees a residue: 3 u_m / residue. Range: residue above 0. Errors: DomainError.
[[nodiscard]] Mass charge_to_see(MassFraction residue, Mass scale_step);

/// The method for a cut at this size, by the limits of the target.
[[nodiscard]] ScreeningAdvice screening_advice(Length cut, const FinenessTarget& target);

/// True when more than half of the powder is finer than where dry sieving ends: it will clog. Source:
/// usp-786 (published: dry sieving is for powders of which most is coarser than 75 um).
[[nodiscard]] bool dry_sieving_clogs(const SieveAnalysis& analysis, const FinenessTarget& target);

} // namespace lakebound
