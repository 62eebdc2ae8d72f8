#include "lakebound/particle/fineness_target.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"
#include "micrometre_text.hpp"

namespace lakebound {

FinenessTarget plain_target(Length residue_screen, MassFraction allowed_residue, const PowderHabits& habits) {
    if (!(in_metres(residue_screen) > 0.0))
        throw_out_of_range("target screen", in_micrometres(residue_screen), "um", "above 0");
    FinenessTarget target;
    target.name = "the screen you named";
    target.grain = Estimate<Length>::exact(residue_screen, {Origin::estimate, "as asked", false});
    target.residue_screen = residue_screen;
    target.allowed_residue =
        Estimate<MassFraction>::exact(allowed_residue, {Origin::estimate, "as asked", false});
    target.dry_sieving_ends = habits.dry_sieving_ends;
    target.wet_screening_ends = habits.wet_screening_ends;
    return target;
}

Residue residue_over(const SieveAnalysis& analysis, Length size) {
    const SieveFraction* coarser = nullptr; // the finest screen that is not below `size`
    const SieveFraction* finer = nullptr;   // the coarsest screen below it
    for (const auto& row : analysis.fractions) {
        if (!row.aperture) continue;
        if (std::abs(*row.aperture / size - 1.0) < 1e-6)
            return {row.cumulative_retained, row.passing_uncertainty, 0.0, Reach::within};
        if (*row.aperture > size) {
            coarser = &row;
        } else if (finer == nullptr) {
            finer = &row;
        }
    }
    if (finer == nullptr) // every screen is coarser, and what they keep is coarser too
        return {coarser->cumulative_retained, coarser->passing_uncertainty, 0.0, Reach::below_finest};
    if (coarser == nullptr)
        return {finer->cumulative_retained, finer->passing_uncertainty, 0.0, Reach::above_coarsest};
    const double t = std::log(size / *finer->aperture) / std::log(*coarser->aperture / *finer->aperture);
    const double share =
        (1.0 - t) * finer->cumulative_retained.value() + t * coarser->cumulative_retained.value();
    return {MassFraction::of(std::clamp(share, 0.0, 1.0)),
            std::max(finer->passing_uncertainty, coarser->passing_uncertainty), 0.0, Reach::within};
}

std::optional<LossBounds> residue_with_loss(const Residue& residue, const SieveAnalysis& analysis) {
    if (!analysis.loss || !(*analysis.loss > 0.0)) return std::nullopt;
    const double low = residue.share.value() * (1.0 - *analysis.loss);
    return LossBounds{low, low + *analysis.loss};
}

FinenessVerdict judge_fineness(const Residue& residue, const std::optional<LossBounds>& with_loss,
                               MassFraction allowed) {
    const double two_u = 2.0 * std::hypot(residue.standard_uncertainty, residue.repeatability);
    const double low = with_loss ? with_loss->low : residue.share.value();
    const double high = with_loss ? with_loss->high : residue.share.value();
    const bool surely_over = low - two_u > allowed.value();
    const bool surely_under = high + two_u <= allowed.value();
    if (surely_over && residue.reach != Reach::above_coarsest) return FinenessVerdict::too_coarse;
    if (surely_under && residue.reach != Reach::below_finest) return FinenessVerdict::fine_enough;
    return FinenessVerdict::cannot_tell;
}

MassFraction smallest_residue_seen(Mass charge, Mass scale_step) {
    if (!(in_grams(charge) > 0.0)) throw_out_of_range("charge", in_grams(charge), "g", "above 0");
    if (!(in_grams(scale_step) > 0.0)) throw_out_of_range("scale step", in_grams(scale_step), "g", "above 0");
    return part_of<MassFraction>(3.0 * net_reading_uncertainty(scale_step), charge);
}

Mass charge_to_see(MassFraction residue, Mass scale_step) {
    if (!(residue.value() > 0.0)) throw_out_of_range("residue", residue.value(), "", "above 0");
    if (!(in_grams(scale_step) > 0.0)) throw_out_of_range("scale step", in_grams(scale_step), "g", "above 0");
    return 3.0 * net_reading_uncertainty(scale_step) / residue;
}

ScreeningAdvice screening_advice(Length cut, const FinenessTarget& target) {
    if (cut >= target.dry_sieving_ends.value()) return ScreeningAdvice::dry_sieving;
    return cut >= target.wet_screening_ends.value() ? ScreeningAdvice::wet_screening
                                                    : ScreeningAdvice::levigation;
}

bool dry_sieving_clogs(const SieveAnalysis& analysis, const FinenessTarget& target) {
    return residue_over(analysis, target.dry_sieving_ends.value()).share.value() < 0.5;
}

} // namespace lakebound
