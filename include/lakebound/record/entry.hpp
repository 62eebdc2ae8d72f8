#pragma once
// Entry: one thing that happened in the studio, written once and never rewritten; a mistake is undone by an entry too.
//
// What is known of a jar today is a pure fold of its entries (studio_card.hpp). Masses are absolute, a paint is kept
// by its k of the library (demand_record.hpp): an entry never depends on what was believed on its day.

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>

#include "lakebound/quantity/units.hpp"
#include "lakebound/record/demand_record.hpp"

namespace lakebound {

/// The powder in the jar, without the jar.
struct WeighedEntry {
    Mass net{};
    Mass uncertainty{}; ///< standard, 0 or more
};
/// Powder taken out, for whatever.
struct DrawnEntry {
    Mass powder{};
    Mass uncertainty{};
};
struct RubOutEntry {
    OilAbsorption oil_absorption;
    double reading_spread = 0.0; ///< ln-sd of scale and dropper where they are coarse, else 0
    Mass powder{};               ///< used up
};
/// A paint as it was weighed; of a swatch and of a batch alike.
struct PaintMade {
    std::size_t family = 0;
    BinderSufficiency library_k;
    double weighing_spread = 0.0; ///< ln-sd of its k
    std::optional<std::size_t> lot; ///< of medium
    Mass powder{};                  ///< used up
    Mass uncertainty{};             ///< of that
};
struct SwatchEntry {
    PaintMade paint;
    PaintOutcome outcome = PaintOutcome::not_lean;
};
struct BatchEntry {
    PaintMade paint;
};
/// What a batch did in use. The last one of a batch counts.
struct OutcomeEntry {
    std::string batch; ///< id of its entry
    PaintOutcome outcome = PaintOutcome::not_lean;
};
/// Ground again, or lay in a damp room for a month: older readings count as less.
struct ChangedEntry {};
struct UndoEntry {
    std::string entry; ///< id of what did not happen
};

struct Entry {
    std::string id;  ///< unique in the studio
    std::string jar; ///< id; an undo may leave it empty
    std::chrono::sys_days day{};
    std::variant<WeighedEntry, DrawnEntry, RubOutEntry, SwatchEntry, BatchEntry, OutcomeEntry, ChangedEntry, UndoEntry>
        what;
};

} // namespace lakebound
