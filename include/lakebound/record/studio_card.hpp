#pragma once
// Studio card: what is known of a maker's jars today, folded from her entries alone.
//
//   left = last weighing - what was drawn since,   u^2 = squares of both added
// A weighing takes the place of all reckoning before it; what it finds missing beyond what was drawn is kept as a loss
// with its doubt, and is worth saying beyond 2 sd (dust, damp that left, a draw not entered).
// Entries are taken by day, those of one day by id, so their order in the list does not matter. An entry that cannot be
// is left out and told together with the one that it contradicts; nothing is thrown for what an entry says.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/record/demand_record.hpp"
#include "lakebound/record/entry.hpp"
#include "lakebound/record/slab.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// An oil absorption that the jar's file brings ready-made.
struct StatedOilAbsorption {
    OilAbsorption value;
    double spread = 0.0; ///< ln-sd, hand and all
};

/// A jar as its file has it.
struct JarStart {
    std::string id{};
    std::size_t plant = 0;
    OilAbsorption reference; ///< of its class in the library
    std::chrono::sys_days day{}; ///< since when it is there; entries before it are faults
    std::optional<WeighedEntry> net{}; ///< on that day
    std::optional<StatedOilAbsorption> oil_absorption{};
};

enum class Contradiction {
    unknown_jar,
    before_its_jar,    ///< dated before the jar was there
    in_the_future,
    same_id,           ///< as `other`
    unknown_paint,     ///< an outcome of a swatch or batch that is not there, or of another jar
    unknown_entry,     ///< an undo of what is not there, or of an undo
    drawn_beyond_all,  ///< or sieved: more than there was after `other`, beyond 2 sd
};
struct EntryFault {
    Contradiction kind{};
    std::size_t entry = 0;            ///< index in the list given
    std::optional<std::size_t> other; ///< that it contradicts, where it is an entry
};

/// A stroke or a batch that is not of the paint on the slab, though of its family: another batch, or a slip.
struct BegunAnew {
    std::size_t entry = 0, before = 0; ///< and the last stroke of what lay there
};

struct UnexplainedLoss {
    Mass mass{};        ///< below 0: more than there should be
    Mass uncertainty{}; ///< standard
    std::size_t entry = 0; ///< the weighing that found it
    std::chrono::sys_days day{}; ///< of that weighing
    double in_spreads() const;
};

struct JarCard {
    std::string id;
    /// Powder left; none before the first weighing.
    std::optional<Mass> left;
    Mass uncertainty{};
    bool from_its_file = false;         ///< `left` rests on the net mass of the jar's file
    std::vector<std::size_t> left_from; ///< entries that it rests on: the weighing first
    std::vector<UnexplainedLoss> losses; ///< beyond 2 sd, in order
    std::vector<std::size_t> rub_outs, swatches, batches, outcomes, changes, notes; ///< entries that count
    std::vector<std::size_t> open_swatches; ///< painted, and not judged yet
    MeasuredEntry measured;                 ///< the last figure of each
    std::vector<std::size_t> measurements;  ///< that these are from
    std::optional<SettlingEntry> settled;   ///< the last such test
    std::vector<Slab> slabs;                ///< batches that were begun by strokes and are not entered yet, one of a family
    std::vector<BegunAnew> begun_anew;      ///< where a slab was left for another batch
    std::optional<std::size_t> last_judged; ///< trial of the record, that of its latest outcome
    bool stated_oil_absorption = false;     ///< its file brings one
};

struct StudioCard {
    std::vector<JarCard> jars; ///< in the order of the starts; masses left with what was reckoned
    DemandRecord record;       ///< jars in the same order; what learned_demand.hpp reads
    std::vector<EntryFault> faults; ///< by day
};

/// The pigment of a jar with what was measured since its file was typed. DomainError as at_moisture.
[[nodiscard]] Pigment with_measured(Pigment pigment, const MeasuredEntry& measured);

/// `today`: entries after it are in the future. DomainError: two starts of one id, a mass or an uncertainty below 0.
[[nodiscard]] StudioCard studio_card(std::span<const JarStart> starts, std::span<const Entry> entries, std::chrono::sys_days today);
/// The same of entries that stand elsewhere; none is null.
[[nodiscard]] StudioCard studio_card_of(std::span<const JarStart> starts, std::span<const Entry* const> entries, std::chrono::sys_days today);

} // namespace lakebound
