#pragma once
// Medium fit: whether a medium can be used in a kind of paint at all, told by the roles of its parts.
//
//   watercolour   no drying oil, resin, wax or yolk: they do not dissolve in gum water
//   oil           no water, gum, glycerol or sugar, glue or yolk: they do not mix with oil
//   egg tempera   some yolk or protein, the emulsion or glue that makes it one; anything may be in it
// Solvents, preservatives, wetting agents and salts are at home in all (common practice, no source).
// Fit says nothing of how well it binds: see cohesion.hpp.

#include <optional>
#include <string>

#include "lakebound/material/medium.hpp"
#include "lakebound/paint/family.hpp"

namespace lakebound {

/// True where a part of that role may be in such a paint.
constexpr bool mixes_with(Role role, Process process) noexcept {
    switch (process) {
    case Process::watercolour:
        return role != Role::drying_oil && role != Role::resin && role != Role::wax && role != Role::emulsion;
    case Process::oil:
        return role != Role::water && role != Role::gum && role != Role::plasticiser &&
               role != Role::protein && role != Role::emulsion;
    case Process::egg_tempera:
        break;
    }
    return true;
}

struct MediumMisfit {
    std::string part; ///< name of the part that does not mix in; empty where something is missing
};

/// Why the medium is of no use in such a paint; absent where it fits.
std::optional<MediumMisfit> medium_misfit(const Medium& medium, Process process);

} // namespace lakebound
