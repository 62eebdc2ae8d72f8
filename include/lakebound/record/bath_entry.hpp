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

struct BathEntry {
    std::string id; ///< of its file, unique in the bath's record; begins with day and number
    std::chrono::sys_days day{};
    std::optional<std::chrono::minutes> hour; ///< since midnight
    std::variant<FilterEntry, PouredEntry, AluminiumEntry, PhEntry, FoamEntry, BlanketEntry, ColourEntry, WashWaterEntry,
                 DecantEntry, CakeEntry, HueEntry, BathSwatchEntry, JarredEntry, NoteEntry, UndoEntry>
        what;
};

} // namespace lakebound
