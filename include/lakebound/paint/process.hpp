#pragma once
// Process: how a paint is made up, and what follows from it. All that the sums ask of a process is answered here and
// in process.cpp, which has the extra figures of a batch.
//
// What a medium may hold, by the roles of its parts:
//   watercolour   no drying oil, resin, wax or yolk: they do not dissolve in gum water
//   oil           no water, gum, glycerol or sugar, glue or yolk: they do not mix with oil
//   egg tempera   some yolk or protein, the emulsion or glue that makes it one; anything may be in it
// Solvents, preservatives, wetting agents and salts are at home in all (common practice, no source).

#include "lakebound/export.hpp"
#include "lakebound/material/ingredient.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// How the paint is made up, which decides the words and the extra sums of the weigh sheet.
enum class Process {
    watercolour, ///< gum medium and water, poured and dried, or tubed wet
    oil,         ///< drying oil, filled wet
    egg_tempera, ///< yolk emulsion, used at once
};
template <> struct WordTable<Process> {
    static constexpr WordRow<Process> rows[] = {
        {Process::watercolour, "watercolour"},
        {Process::oil, "oil"},
        {Process::egg_tempera, "egg tempera"},
    };
};

/// True where a part of that role may be in such a paint.
[[nodiscard]] constexpr bool mixes_with(Role role, Process process) noexcept {
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

/// True where such a paint is none without an emulsion.
[[nodiscard]] constexpr bool needs_emulsion(Process process) noexcept { return process == Process::egg_tempera; }
/// True for the parts that make a medium an emulsion, or the glue that stands for one.
[[nodiscard]] constexpr bool makes_emulsion(Role role) noexcept { return role == Role::emulsion || role == Role::protein; }
/// True where the dry paint takes water from the room's air, as gum, glycerol and sugars do; modelled for them only.
[[nodiscard]] constexpr bool takes_water_from_air(Process process) noexcept { return process == Process::watercolour; }
/// True where water of a damp powder does not mix in (Family::most_excess_water).
[[nodiscard]] constexpr bool shuns_water(Process process) noexcept { return process == Process::oil; }

} // namespace lakebound
