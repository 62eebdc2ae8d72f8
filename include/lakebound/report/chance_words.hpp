#pragma once
// How sure the answer is, where the doubt lies, and what to measure next, in words.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch_subject.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A chance as people say it, with the percentage: "about 1 chance in 20 (5 %)",
/// "about 2 chances in 3 (67 %)", "less than 1 chance in 1000 (below 0.1 %)".
[[nodiscard]] std::string chance_text(Probability chance);
/// "90 %"; "below 0.1 %" and "above 99.9 %" at its ends, for by a model nothing is impossible and nothing sure.
[[nodiscard]] std::string chance_percent_text(Probability chance);

/// "oil absorption", "binder solids": what an input of the chance is.
[[nodiscard]] const char* chance_input_words(ChanceInput input) noexcept;
/// "oil_absorption", ...: the same as JSON has it.
[[nodiscard]] const char* chance_input_key(ChanceInput input) noexcept;

/// The head of the verdict, no surer than the chance it rests on: "should hold, not surely", "will
/// probably chalk".
[[nodiscard]] std::string verdict_head(const Judgement& judgement, Process process);

/// "Chance of landing in that window: about 2 chances in 3 (64 %). Leaner: ...". Two sentences or three.
[[nodiscard]] std::string window_chance_text(const Judgement& judgement, const SufficiencyWindow& window);
/// "The oil absorption of Weld lake makes 62 % of the doubt in k."
[[nodiscard]] std::string largest_doubt_text(const BatchSubject& subject);
/// What to measure next, or that nothing needs to be.
[[nodiscard]] std::string next_measurement_text(const BatchSubject& subject);

} // namespace lakebound
