#pragma once
// Jar shares: where the pigment of a jar goes when a batch is made of it.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Masses of pigment that add up to what is in the jar.
struct JarShares {
    Mass in_jar;     ///< before the batch
    Mass drawn;      ///< of this jar, for the batch; the next three are its parts
    Mass in_vessels; ///< of whole vessels; all that is kept where none is named
    Mass left_over;  ///< as paint, after the whole vessels
    Mass to_slab;
    Mass stays;   ///< in the jar, reserve included
    Mass reserve; ///< of the bench, so far as the jar still holds it
};

/// Absent without a jar. Of a blend, the shares are those of the jar's own pigment.
[[nodiscard]] std::optional<JarShares> jar_shares(const BatchRequest& request, const Batch& batch);

} // namespace lakebound
