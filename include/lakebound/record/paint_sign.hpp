#pragma once
// Paint sign: what a maker sees on a dry swatch or on a paint in use, and what it says of the binder.
//
//   chalks                                  too lean
//   does not chalk                          not too lean; not watched for more
//   holds                                   neither too lean nor too rich
//   shines, cracks, stays sticky, wrinkles  too rich
//   grows mould, thrown away                says nothing of the binder
// A maker's words (common practice, no source); the two-sided model is in demand_record.hpp.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/quantity/word_table.hpp"
#include "lakebound/record/demand_record.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class PaintSign { chalks, does_not_chalk, holds, shines, cracks, stays_sticky, wrinkles, grows_mould, thrown_away };

/// As files and the command line name a sign.
template <> struct WordTable<PaintSign> {
    static constexpr WordRow<PaintSign> rows[] = {
        {PaintSign::chalks, "chalks"},
        {PaintSign::does_not_chalk, "does not chalk"},
        {PaintSign::holds, "holds"},
        {PaintSign::shines, "shines"},
        {PaintSign::cracks, "cracks"},
        {PaintSign::stays_sticky, "stays sticky"},
        {PaintSign::wrinkles, "wrinkles"},
        {PaintSign::grows_mould, "grows mould"},
        {PaintSign::thrown_away, "thrown away"},
    };
};

/// Of a paint that is not there any more.
[[nodiscard]] constexpr bool is_lost(PaintSign sign) noexcept { return sign == PaintSign::grows_mould || sign == PaintSign::thrown_away; }

/// What it says of the binder; nothing where it says nothing.
[[nodiscard]] std::optional<PaintOutcome> outcome_of(PaintSign sign) noexcept;

} // namespace lakebound
