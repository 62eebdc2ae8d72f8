#pragma once
// Verdict: where k lies in the window of its family.

#include "lakebound/export.hpp"
#include "lakebound/paint/family.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class Verdict { fails_under, amber_under, green, amber_over, fails_over };
template <> struct WordTable<Verdict> {
    static constexpr WordRow<Verdict> rows[] = {
        {Verdict::fails_under, "fails under"},
        {Verdict::amber_under, "amber under"},
        {Verdict::green, "green"},
        {Verdict::amber_over, "amber over"},
        {Verdict::fails_over, "fails over"},
    };
};

/// True where k lies outside the amber limits.
[[nodiscard]] constexpr bool fails(Verdict verdict) noexcept {
    return verdict == Verdict::fails_under || verdict == Verdict::fails_over;
}

/// A limit belongs to the better side; k within 1e-9 of a limit counts as on it. Throws DomainError
/// unless the limits of the window ascend and are above 0: a window that was not set judges nothing.
[[nodiscard]] Verdict verdict(BinderSufficiency k, const SufficiencyWindow& window);

} // namespace lakebound
