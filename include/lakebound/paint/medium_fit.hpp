#pragma once
// Medium fit: whether a medium can be used in a kind of paint at all, told by the roles of its parts (process.hpp).
// Fit says nothing of how well it binds: see cohesion.hpp.

#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/material/medium.hpp"
#include "lakebound/paint/process.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct MediumMisfit {
    std::string part; ///< name of the part that does not mix in; empty where something is missing
};

/// Why the medium is of no use in such a paint; absent where it fits.
[[nodiscard]] std::optional<MediumMisfit> medium_misfit(const Medium& medium, Process process);

} // namespace lakebound
