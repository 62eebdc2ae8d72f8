#pragma once
// Objection: what stands against a paint whatever its k. The gravest comes first.

#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/cohesion.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class ObjectionKind {
    does_not_bind, ///< value: cohesive share of the dry binder; limit: the least
    never_sets,    ///< value: soft share in the room; limit: SoftShareLimits::sets_to
    binds_weakly,  ///< value, limit as does_not_bind
    stays_sticky,  ///< value: soft share in the room; limit: SoftShareLimits::soft_to
};
template <> struct WordTable<ObjectionKind> {
    static constexpr WordRow<ObjectionKind> rows[] = {
        {ObjectionKind::does_not_bind, "does not bind"},
        {ObjectionKind::never_sets, "never sets"},
        {ObjectionKind::binds_weakly, "binds weakly"},
        {ObjectionKind::stays_sticky, "stays sticky"},
    };
};

struct Objection {
    ObjectionKind kind{};
    VolumeFraction value, limit;
};

/// True where the paint will not hold: it does not bind, or never sets.
[[nodiscard]] constexpr bool forbids(ObjectionKind kind) noexcept {
    return kind == ObjectionKind::does_not_bind || kind == ObjectionKind::never_sets;
}
[[nodiscard]] bool forbids(const std::vector<Objection>& objections) noexcept;

/// Nothing else is said of a paint that does not bind. soft_share: of the binder in the room's air, where that is modelled.
[[nodiscard]] std::vector<Objection> objections(VolumeFraction cohesive_share, const CohesionLimits& limits,
                                  std::optional<VolumeFraction> soft_share, const SoftShareLimits& soft);

} // namespace lakebound
