#pragma once
// Rub-out: oil is worked into the pigment, drop by drop, until the heap just hangs together as one
// firm dough. OA = m_oil / m_p, with m_oil = n m_drop when drops are counted.
//
// Source: the spatula rub-out of ISO 787-5 (iso-787-5, title and form from memory) and ASTM D281
// (astm-d281). The folding method (ASTM D1483) works the paste more gently and has another end
// point: do not mix the two in one mean.
// Uncertainty, all as standard deviations of ln OA. Of n rub-outs by one hand, y_i = ln OA_i:
//   s_r^2 = (w (s_0^2 + v) + S)/(w + n - 1),   S = sum (y_i - mean y)^2
//   u^2(mean y) = s_r^2/n + h^2 + d^2
// s_0, w, h: RubOutPrior (repeats expected, their weight, hand and oil); v: last drop 1/sqrt(12) of a drop
// and scale; d: drop calibration, shared by all rub-outs made with one dropper. The scatter that was seen
// so counts as much as its number deserves, and h is a floor that no repeat removes (the plug-in of a
// conjugate prior on the variance, gelman-bda-2013; worked out in docs/theory.md).
// The scatter is called doubtful when readings of one powder would differ so much less often than once in 20:
// S/((n - 1)(s_0^2 + v)) against F of n - 1 and w degrees of freedom.

#include <optional>
#include <span>
#include <vector>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"
#include "lakebound/material/reading.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Weighing a counted number of drops out of the dropper bottle.
struct DropCalibration {
    int drops = 0; ///< 1 or more; 50 is a good number
    Mass weighed;  ///< of all of them, before minus after
    Instrument<Mass> scale;
};

/// Mass of one drop, with the two roundings of the weighing. Throws DomainError unless drops and
/// mass are above 0.
[[nodiscard]] Estimate<Mass> drop_mass(const DropCalibration& calibration);

/// One rub-out. Exactly one of `drops` (above 0) and `oil` (above 0) is given; both together are refused.
struct RubOut {
    Mass pigment;           ///< as weighed, above 0
    double drops = 0.0;     ///< counted to the end point; half drops allowed
    Mass oil;               ///< weighed: dropper bottle before minus after
    Instrument<Mass> scale; ///< that weighed the pigment, and the oil
};

/// What rub-outs of one powder with one dropper tell.
struct RubOutResult {
    Estimate<OilAbsorption> mean;     ///< geometric; lognormal
    std::vector<OilAbsorption> each{}; ///< in the order given
    double repeat_spread = 0.0;       ///< s_r, ln-sd of one rub-out about the mean of many
    std::optional<Probability> as_far_apart{}; ///< chance that readings of one powder scatter so; from two on
    bool disagree = false;            ///< that chance is under 1 in 20
};

/// Rub-outs in counted drops; with weighed oil leave the calibration out. One is enough.
/// Throws DomainError when there is none, outside 2 to 400 g/100 g, when the drops were not counted or both
/// drops and oil were given, where the instruments alone leave a factor of e in doubt, and unless the prior's
/// weight and repeat spread are above 0.
[[nodiscard]] RubOutResult oil_absorption_by_rub_out(std::span<const RubOut> rub_outs, const DropCalibration& calibration,
                                                     const RubOutPrior& prior);
[[nodiscard]] RubOutResult oil_absorption_by_rub_out(std::span<const RubOut> rub_outs, const RubOutPrior& prior);

/// What is believed of a powder's oil absorption: its own reading together with what the library expects of
/// its kind, weighed by their precisions (lognormal_update.hpp, gelman-bda-2013). A reading is never taken
/// as surer than hand and oil; an expectation without doubt leaves the reading as it is. Lognormal, measured.
/// Throws DomainError unless both are above 0.
[[nodiscard]] Estimate<OilAbsorption> believed_oil_absorption(const Estimate<OilAbsorption>& expected,
                                                const Estimate<OilAbsorption>& reading, const RubOutPrior& prior);

/// ln-sd of the mean when `more` rub-outs, by the same hand and with the same dropper, scatter as these do:
/// sqrt(u^2 - s_r^2/n + s_r^2/(n + more)).
[[nodiscard]] double uncertainty_after(const RubOutResult& result, int more);

/// A change of OA by one drop above this, a twentieth of a usual 60 g/100 g and as much as hands differ by
/// (practice/home.yaml), asks for more pigment (estimate).
inline constexpr OilAbsorption coarse_drop = OilAbsorption::from_proven(0.03);
/// Change of OA that one drop makes: m_drop / m_p.
[[nodiscard]] OilAbsorption one_drop_of_oil_absorption(const DropCalibration& calibration, Mass pigment);

} // namespace lakebound
