#pragma once
// Bath story: a bath as its entries tell it, folded into the readings that bath_progress.hpp judges, and the days of
// the calendar on which its cake will be dry.
//
// Entries are taken by day and by their number within it, weighings by their hour too, so the order of the list does not
// matter. What a reading follows is forgotten as the work goes on: a pH counts since the last portion, a blanket since
// the last decant. An entry that cannot be is left out and told together with the one that it contradicts.

#include <chrono>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/word_table.hpp"
#include "lakebound/record/bath_entry.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class BathContradiction {
    in_the_future,
    before_the_bath,   ///< dated before the day its file names
    unknown_entry,     ///< an undo of what is not there, or of an undo
    filter_falls,      ///< less ran through, or less time had passed, than was read before
    beyond_the_whole,  ///< more ran through than there was
    below_wash_water,  ///< a decant conducts less than the water it was washed with
    weighed_at_once,   ///< two weighings of one day without an hour, or at one hour
    cake_rises,        ///< a cake that gains, beyond what two weighings leave open
    jar_above_cake,    ///< more came into the jar than the cake weighed
};
template <> struct WordTable<BathContradiction> {
    static constexpr WordRow<BathContradiction> rows[] = {
        {BathContradiction::in_the_future, "in the future"},       {BathContradiction::before_the_bath, "before the bath"},
        {BathContradiction::unknown_entry, "unknown entry"},       {BathContradiction::filter_falls, "filter falls"},
        {BathContradiction::beyond_the_whole, "beyond the whole"}, {BathContradiction::below_wash_water, "below wash water"},
        {BathContradiction::weighed_at_once, "weighed at once"},   {BathContradiction::cake_rises, "cake rises"},
        {BathContradiction::jar_above_cake, "jar above cake"}};
};

struct BathEntryFault {
    BathContradiction kind{};
    std::size_t entry = 0;            ///< index in the list given
    std::optional<std::size_t> other; ///< that it contradicts, where it is an entry
};

struct BathStory {
    BathReadings readings;          ///< of the bath's file, then of its entries
    std::vector<std::size_t> lines; ///< entries that count, in the order in which they happened
    std::optional<std::chrono::sys_days> first_weighed; ///< times of weighings count from its midnight
    std::optional<std::chrono::sys_days> last_washed;   ///< of the last decant
    std::optional<std::chrono::sys_days> last;          ///< of the last entry
    std::optional<JarredEntry> jar;
    std::vector<BathEntryFault> faults;
};

/// before: readings of the bath's file, which come before all entries. since: the day its file names, if any. Weighings
/// of the file have no day: where there are entries of weighings too, those of the file are left out.
[[nodiscard]] BathStory bath_story(const BathReadings& before, std::span<const BathEntry> entries, const BathSetting& setting,
                                   std::optional<std::chrono::sys_days> since, std::chrono::sys_days today);

/// Where the bath stands on a day: bath_standing, and a cake whose forecast says that it is dry by now is to be weighed once
/// more; `dried->dry_now` is of noon that day. Errors: as bath_standing.
[[nodiscard]] BathStanding bath_standing_on(std::chrono::sys_days day, const BathStory& story, const BathSetting& setting);

struct DayRange {
    std::chrono::sys_days first, last;
    friend bool operator==(const DayRange&, const DayRange&) = default;
};
/// The days within which the cake will be dry, nine times in ten: those of the chances 1 in 20 and 19 in 20. By the
/// weighings, once their dates and masses tell; before them, from the last decant, or from the last entry once the lake is laid, by the washes still to come and what is
/// usual, which is wide.
/// No day before `today`. Nothing where nothing tells, all of them are past, or it does not come to rest within a year.
[[nodiscard]] std::optional<DayRange> dry_days(const BathStory& story, const BathStanding& standing, const WashHabits& habits,
                                               std::chrono::sys_days today);

} // namespace lakebound
