#pragma once
// Paint sign: what a maker sees on a dry swatch or on a paint in use, and what it says of the binder.
//
//   chalks                                  too lean
//   does not chalk                          not too lean; not watched for more
//   holds                                   neither too lean nor too rich
//   shines, cracks, stays sticky, wrinkles  too rich
//   grows mould, thrown away                says nothing of the binder
// A maker's words (common practice, no source); the two-sided model is in demand_record.hpp.

#include <array>
#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/record/demand_record.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class PaintSign { chalks, does_not_chalk, holds, shines, cracks, stays_sticky, wrinkles, grows_mould, thrown_away };

/// The words in which files and the command line name a sign, in the order of the enum.
inline constexpr std::array<const char*, 9> paint_sign_words{"chalks",       "does not chalk", "holds",       "shines",     "cracks",
                                                             "stays sticky", "wrinkles",       "grows mould", "thrown away"};

[[nodiscard]] constexpr const char* words_of(PaintSign sign) noexcept { return paint_sign_words[static_cast<std::size_t>(sign)]; }

/// Of a paint that is not there any more.
[[nodiscard]] constexpr bool is_lost(PaintSign sign) noexcept { return sign == PaintSign::grows_mould || sign == PaintSign::thrown_away; }

/// What it says of the binder; nothing where it says nothing.
[[nodiscard]] std::optional<PaintOutcome> outcome_of(PaintSign sign) noexcept;

} // namespace lakebound
