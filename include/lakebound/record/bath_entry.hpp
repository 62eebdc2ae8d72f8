#pragma once
// Entry of a bath: one thing that was read or done at the pot, the filter, the pen or the scale, written once and never
// rewritten; a mistake is undone by an entry too. Where the bath stands is a pure fold of these (bath_story.hpp).

#include <chrono>
#include <optional>
#include <string>
#include <variant>

#include "lakebound/bath/bath_progress.hpp"
#include "lakebound/export.hpp"
#include "lakebound/record/entry.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// At the filter; `whole`: all there is to filter, where it was said.
struct FilterEntry {
    FilterReading reading;
    std::optional<Volume> whole;
};
/// Alkali solution, a portion.
struct PouredEntry {
    Volume solution;
};
/// Aluminium salt against too much alkali.
struct AluminiumEntry {
    Mass salt;
};
struct PhEntry {
    PhSeen seen;
};
/// A spoonful's foam has fallen after this.
struct FoamEntry {
    Time life;
};
/// Heights of the settling blanket.
struct BlanketEntry {
    InterfaceHeights heights;
};
/// Clear liquor over the settled lake, against the dye liquor before it was laid.
struct ColourEntry {
    ColourMatch match;
};
struct WashWaterEntry {
    PenReading reading;
};
/// The water drawn off after a wash.
struct DecantEntry {
    PenReading reading;
};
/// The drying cake without its support.
struct CakeEntry {
    Mass mass;
    bool surface_wet = false;
};
/// Of the lake, in the maker's words.
struct HueEntry {
    std::string words;
};
/// The swatch that shows it, by its number.
struct BathSwatchEntry {
    unsigned number = 1;
};
/// It went into a jar; `net` where it was weighed.
struct JarredEntry {
    std::string jar; ///< id
    std::optional<Mass> net;
};

/// What an entry tells, in the order of BathEntry::what.
enum class BathEntryKind { filter, poured, alum, ph, foam, blanket, colour, wash_water, decant, cake, hue, swatch, jarred, note, undo };
/// As files name it, in their key `what` and in their own names.
template <> struct WordTable<BathEntryKind> {
    static constexpr WordRow<BathEntryKind> rows[] = {
        {BathEntryKind::filter, "filter"},
        {BathEntryKind::poured, "poured"},
        {BathEntryKind::alum, "alum"},
        {BathEntryKind::ph, "ph"},
        {BathEntryKind::foam, "foam"},
        {BathEntryKind::blanket, "blanket"},
        {BathEntryKind::colour, "colour"},
        {BathEntryKind::wash_water, "wash-water"},
        {BathEntryKind::decant, "decant"},
        {BathEntryKind::cake, "cake"},
        {BathEntryKind::hue, "hue"},
        {BathEntryKind::swatch, "swatch"},
        {BathEntryKind::jarred, "jarred"},
        {BathEntryKind::note, "note"},
        {BathEntryKind::undo, "undo"},
    };
};

struct BathEntry {
    std::string id; ///< of its file, unique in the bath's record; begins with day and number
    std::chrono::sys_days day{};
    std::optional<std::chrono::minutes> hour; ///< since midnight
    std::variant<FilterEntry, PouredEntry, AluminiumEntry, PhEntry, FoamEntry, BlanketEntry, ColourEntry, WashWaterEntry,
                 DecantEntry, CakeEntry, HueEntry, BathSwatchEntry, JarredEntry, NoteEntry, UndoEntry>
        what;

    BathEntryKind kind() const noexcept { return static_cast<BathEntryKind>(what.index()); }
};
static_assert(std::variant_size_v<decltype(BathEntry::what)> == std::size(WordTable<BathEntryKind>::rows));

} // namespace lakebound
