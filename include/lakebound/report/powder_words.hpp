#pragma once
// Words that the reports on powder share: sizes, times, methods, and the cautions of this work.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/particle/sieve_record.hpp"
#include "lakebound/report/caution.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A grain or aperture: "45 um", "2.5 um", "0.4 um", "1.18 mm" from a millimetre on.
[[nodiscard]] std::string size_text(Length size);
/// A height or depth: "100 mm", "62.5 mm".
[[nodiscard]] std::string height_text(Length height);
/// A time as people say it: "95 s", "5 min", "1 h 40 min", "2 d 3 h"; rounded to a minute from 10 minutes,
/// to five minutes from ten hours, to an hour from a day on, to a second below.
[[nodiscard]] std::string time_text(Time time);
/// A time that is foreseen, not kept by the clock: to five minutes from an hour on, so that two that are the
/// same to a maker read the same.
[[nodiscard]] std::string rough_time_text(Time time);
/// A share of mass in percent with what the scale knows: "11.46 ± 0.02 %"; "11.5 %" without.
[[nodiscard]] std::string share_text(double share, double standard_uncertainty);
/// A share over a screen with the digits that the loss allows: "72.1 %"; by the scale where nothing was lost.
[[nodiscard]] std::string residue_text(const Residue& residue, const std::optional<LossBounds>& with_loss);
/// "± 0.02 %", or "-" where the scale's step is unknown.
[[nodiscard]] std::string scale_text(const Residue& residue);
/// "71.2 to 72.5 %".
[[nodiscard]] std::string loss_range_text(const Residue& residue, const LossBounds& with_loss);
/// What that figure leaves open: "scale alone ± 0.02 %; a second sieving would differ by ± 0.9 %; the 1.3 % lost
/// could make it 71.2 to 72.5 %". Empty when nothing of it is known.
[[nodiscard]] std::string residue_doubt_text(const Residue& residue, const std::optional<LossBounds>& with_loss);
/// The command that parts grains at a size in water, as it can be typed; the depth is an example.
[[nodiscard]] std::string settle_command(Length depth, Length cut, const std::optional<MassDensity>& density);

/// "as you say", "as your tests say", "as in the settling test", "as on the bench", "an estimate".
[[nodiscard]] const char* given_words(GivenBy by) noexcept;

/// "sieve dry", "wash it through a screen", "levigate".
[[nodiscard]] const char* advice_words(ScreeningAdvice advice) noexcept;

enum class PowderWork { sieving, grinding, settling };
/// Cautions for the work itself, the gravest first; the last defer to safety data sheets and say that
/// figures are estimates.
[[nodiscard]] std::vector<Caution> powder_cautions(PowderWork work);

} // namespace lakebound
