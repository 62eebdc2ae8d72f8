#pragma once
// Entry: one thing that happened in the studio, written once and never rewritten; a mistake is undone by an entry too.
//
// What is known of a jar today is a pure fold of its entries (studio_card.hpp). Masses are absolute, a paint is kept
// by its k of the library (demand_record.hpp): an entry never depends on what was believed on its day.

#include <chrono>
#include <cstddef>
#include <iterator>
#include <optional>
#include <string>
#include <variant>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/units.hpp"
#include "lakebound/quantity/word_table.hpp"
#include "lakebound/record/demand_record.hpp"
#include "lakebound/record/paint_sign.hpp"
#include "lakebound/record/settling_entry.hpp"
#include "lakebound/record/sieve_entry.hpp"

namespace LAKEBOUND_EXPORT lakebound {

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
/// A sieve test of the powder, as it was weighed.
struct SieveTestEntry {
    SieveEntry seen;
};
/// Grains of it, timed in water.
struct SettlingTestEntry {
    SettlingEntry seen;
};
/// A figure of the powder that was measured another way; the last one of each counts.
struct MeasuredEntry {
    std::optional<Estimate<MassDensity>> density, tapped_density;
    std::optional<Estimate<MassFraction>> moisture;
    std::optional<Estimate<Length>> median_size;
};
/// A paint as it was weighed; of a swatch and of a batch alike.
struct PaintMade {
    std::size_t family = 0;
    BinderSufficiency library_k;
    double weighing_spread = 0.0; ///< ln-sd of its k
    std::optional<std::size_t> lot; ///< of medium
    Mass powder{};                  ///< used up; 0 for a stroke of a batch
    Mass uncertainty{};             ///< of that
    /// False for a paint of several pigments: what it did says nothing sure of this jar alone.
    bool of_this_jar_alone = true;
};
/// The powder of the batch that a stroke is of, all of it: it is on the slab (slab.hpp).
struct OnSlab {
    Mass powder{};
    Mass uncertainty{};
};
/// Painted; what it showed may follow as an outcome.
struct SwatchEntry {
    PaintMade paint;
    std::optional<PaintSign> sign;
    std::optional<OnSlab> on_slab{}; ///< of a stroke, whose own powder is 0
};
struct BatchEntry {
    PaintMade paint;
};
/// What a swatch or a batch showed. The last one of each counts.
struct OutcomeEntry {
    std::string of; ///< id of the entry of the swatch or batch
    PaintSign sign = PaintSign::does_not_chalk;
};
/// Ground again, or lay in a damp room for a month: older readings count as less, and the size and the tapped density
/// that were measured before count no more.
struct ChangedEntry {};
/// A remark: nothing follows from it.
struct NoteEntry {};
struct UndoEntry {
    std::string entry; ///< id of what did not happen
};

/// What an entry tells, in the order of Entry::what.
enum class EntryKind { weighed, drawn, rub_out, measured, swatch, batch, outcome, changed, note, undo, sieved, settled };
/// As files name it, in their key `what` and in their own names.
template <> struct WordTable<EntryKind> {
    static constexpr WordRow<EntryKind> rows[] = {
        {EntryKind::weighed, "weighed"},
        {EntryKind::drawn, "drawn"},
        {EntryKind::rub_out, "rub-out"},
        {EntryKind::measured, "measured"},
        {EntryKind::swatch, "swatch"},
        {EntryKind::batch, "batch"},
        {EntryKind::outcome, "outcome"},
        {EntryKind::changed, "changed"},
        {EntryKind::note, "note"},
        {EntryKind::undo, "undo"},
        {EntryKind::sieved, "sieved"},
        {EntryKind::settled, "settled"},
    };
};

struct Entry {
    std::string id;  ///< unique in the studio
    std::string jar; ///< id; an undo may leave it empty
    std::chrono::sys_days day{};
    std::variant<WeighedEntry, DrawnEntry, RubOutEntry, MeasuredEntry, SwatchEntry, BatchEntry, OutcomeEntry,
                 ChangedEntry, NoteEntry, UndoEntry, SieveTestEntry, SettlingTestEntry>
        what;

    EntryKind kind() const noexcept { return static_cast<EntryKind>(what.index()); }
};
static_assert(std::variant_size_v<decltype(Entry::what)> == std::size(WordTable<EntryKind>::rows));

} // namespace lakebound
