#pragma once
// A sieve test read: closure, shares, curves, and whether the powder is fine enough for its paint.
// Example: docs/examples/sieve_a_powder.cpp.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/particle/sieve_record.hpp"
#include "lakebound/particle/size_fit.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct SieveQuestion {
    SieveRecord record;
    std::optional<FinenessTarget> target;              ///< nothing: no verdict
    std::optional<Estimate<MassFraction>> repeats_to; ///< of PowderHabits; nothing: the scale alone
    Length water_depth{}; ///< of PowderHabits, for the command that parts finer grains
};

/// One model of the passing curve, by non-linear least squares and by the straight line.
struct FittedCurve {
    SizeFit fit;
    std::optional<SizeFit> straight_line;
    std::optional<PassingAt> at_target;       ///< what it predicts at the target screen
    std::optional<double> residual_at_target; ///< predicted less seen, where the target was a screen
    std::optional<PassingAt> at_grain;        ///< predicted at the grain wanted in the paint
};

/// What lies over one screen and would go back to the mortar.
struct Regrind {
    Length screen;
    Residue residue;
    Mass mass; ///< of what was recovered
};

/// What leaves a verdict open.
enum class VerdictTurnedBy { nothing, repeatability, loss, both, reach };
template <> struct WordTable<VerdictTurnedBy> {
    static constexpr WordRow<VerdictTurnedBy> rows[] = {
        {VerdictTurnedBy::nothing, "nothing"},
        {VerdictTurnedBy::repeatability, "repeatability"},
        {VerdictTurnedBy::loss, "loss"},
        {VerdictTurnedBy::both, "both"},
        {VerdictTurnedBy::reach, "reach"},
    };
};

struct SieveVerdict {
    Residue residue;
    std::optional<LossBounds> with_loss; ///< of the residue
    FinenessVerdict verdict = FinenessVerdict::cannot_tell;
    FinenessVerdict as_weighed = FinenessVerdict::cannot_tell; ///< by the share alone, doubt left out
    VerdictTurnedBy turned_by = VerdictTurnedBy::nothing;      ///< what made as_weighed cannot_tell
    ScreeningAdvice next = ScreeningAdvice::dry_sieving;       ///< for a cut at the residue screen
    ScreeningAdvice last = ScreeningAdvice::levigation;        ///< for a cut at the grain wanted
    bool clogs = false;                                        ///< dry screens will clog
    std::optional<MassFraction> smallest_seen;                 ///< by this scale, of this charge
    std::optional<Mass> charge_to_see; ///< that would let this scale see the allowed residue; only if needed
};

struct SieveAnswer {
    SieveRecord record;
    SieveAnalysis analysis;
    PassingCurve curve;
    std::optional<Estimate<MassFraction>> repeats_to;
    Length water_depth{}; ///< as asked
    std::optional<Percentiles> percentiles; ///< nothing for a single screen
    std::vector<FittedCurve> fits;
    std::optional<ChosenFit> best;
    std::vector<std::string> no_fit; ///< why a curve was not fitted, one sentence each
    std::optional<double> fineness_modulus;
    bool of_sand = false; ///< its coarsest screen is sand_screen or coarser: the modulus is a figure of such
    std::optional<WetResidue> wet; ///< of a wet test on one screen, where the scale's step is known
    std::optional<SurfaceAssumption> surface_assumed;
    std::optional<SurfaceEstimate> surface;
    std::vector<Regrind> regrind; ///< screens of the test from which something passes
    std::optional<FinenessTarget> target;
    std::optional<SieveVerdict> verdict;
};

/// Screen from which on what is sieved is sand more than pigment: painters' powders pass it whole (estimate).
inline constexpr Length sand_screen = micrometres(600);

/// Everything that can be said of the test. Errors: DomainError as analyse.
[[nodiscard]] SieveAnswer read_sieving(const SieveQuestion& question);

/// True when the answer is that the powder will not do: too coarse for the target, or more was lost than
/// a test may lose.
[[nodiscard]] bool falls_short(const SieveAnswer& answer) noexcept;

} // namespace lakebound
