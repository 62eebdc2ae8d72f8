#pragma once
// Jar story: one jar with what happened to it, what is known of it and what to do next: all that its card shows.

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/lake_remains.hpp"
#include "lakebound/paint/caution.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/quantity/word_table.hpp"
#include "lakebound/record/entry.hpp"
#include "lakebound/record/jar_outlook.hpp"
#include "lakebound/record/odd_figure.hpp"
#include "lakebound/record/studio_card.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// One entry that counts, with what only a reader wants of it.
struct StoryLine {
    std::string name; ///< of its file, without the jar
    Entry entry;
    std::string note, medium, recipe;
    Mass medium_mass{};
    std::optional<PaintSign> sign; ///< of a swatch or a batch, what it showed in the end
    std::optional<std::chrono::sys_days> judged; ///< and when
    std::optional<std::chrono::sys_days> dry;    ///< of a swatch, when it can be judged
    std::size_t number = 0; ///< of a swatch or a batch, among those of the jar: what stands on its back
    std::string bottle{};   ///< of medium, where the paint names it
};

/// A swatch that waits to be judged.
struct OpenSwatch {
    std::size_t line = 0; ///< in the story
    bool as_asked = true; ///< of the kind of paint that was asked about
    std::chrono::sys_days ready{};
    bool is_ready = false;
};

/// A batch between its strokes.
struct StoryOfSlab {
    std::size_t line = 0; ///< of its last stroke
    Slab paint;
};

/// What to do with the jar next.
enum class NextStep {
    judge_swatch, ///< one is dry: what it shows comes before anything else
    go_on,        ///< a batch lies on the slab, and its strokes say how to go on
    wait,         ///< all that were painted are still wet
    as_coached,   ///< what the coach says
    too_little,   ///< is left for a swatch, let alone a paint
};
template <> struct WordTable<NextStep> {
    static constexpr WordRow<NextStep> rows[] = {{NextStep::judge_swatch, "judge swatch"},
                                                 {NextStep::go_on, "finish batch"},
                                                 {NextStep::wait, "wait for swatch"},
                                                 {NextStep::as_coached, "as coached"},
                                                 {NextStep::too_little, "too little left"}};
};

struct JarStory {
    std::string id, name, plant, studio;
    std::size_t kin = 0; ///< other jars of its plant
    JarCard card;        ///< its indices are those of the studio's entries
    std::vector<StoryLine> lines; ///< by day
    std::vector<OpenSwatch> open; ///< the oldest first
    std::vector<std::size_t> batches; ///< lines, the oldest first
    std::vector<std::string> taken_back; ///< names of entries that do not count any more
    std::vector<std::string> missing; ///< what entries that are not there any more were called, less their last word
    std::optional<StoryOfSlab> slab;  ///< what lies on the slab of this family, not long since its last stroke
    std::vector<std::pair<std::size_t, std::size_t>> begun_anew; ///< lines: the entry, and the last stroke before it
    std::vector<OddFigure> odd_figures;
    Family family;
    std::string medium_id, medium_name;
    std::string recipe_id; ///< of a recipe that paints this, where the advice is to paint; else empty
    bool recipe_has_medium = false; ///< and of this medium
    Bench bench;
    bool bench_assumed = false;
    std::chrono::sys_days today{};
    std::optional<Probability> wanted; ///< chance of the window that was asked for
    /// What was asked beside the jar, as the options that ask it again: " --as oil --with linseed". Of how an entry is
    /// to be read, and of what the coach was told.
    std::string asked_paint, asked_wish;
    std::string asked_shelf; ///< of folders that were named, and must be named again to find the jar: " --shelf reedmere"
    std::string called() const { return id + asked_shelf; } ///< as a command names the jar
    std::string bottle; ///< of medium, that was asked about; else empty
    LearningHabits habits;
    JarOutlook outlook;
    // Out of its bath, and what the paint that is asked about makes of it.
    LakeRemains lake;
    ColourRecord colour;
    JarRemains remains;
    std::vector<BatchWarning> remains_warnings;

    // What a swatch of the paint brings onto the slab, and a rub-out with it.
    std::vector<HazardousMaterial> swatch_materials, rub_out_materials;

    NextStep next() const;
};

/// The last batch (line), when the last entry tells that it is too lean or too rich and what is in it is known.
[[nodiscard]] std::optional<std::size_t> batch_to_mend(const JarStory& story);

/// Swatches (lines) that were judged before the day they were dry.
[[nodiscard]] std::vector<std::size_t> judged_early(const JarStory& story);

/// What a weighing found is news for a month (estimate).
inline constexpr std::chrono::days fresh_news{31};
/// What weighings found in so many days.
[[nodiscard]] std::vector<UnexplainedLoss> fresh_losses(const JarStory& story);

/// A waiting time, rounded up to whole days.
[[nodiscard]] std::chrono::days whole_days(Time waiting);
/// The day a swatch can be judged: that it was painted and its drying time in whole days.
[[nodiscard]] std::chrono::sys_days ready_day(std::chrono::sys_days painted, Time drying);

/// Swatches of the story that wait, the oldest first. card: with its indices in `lines`' order of entries.
/// process: of the paint that was asked about.
[[nodiscard]] std::vector<OpenSwatch> open_swatches(const std::vector<StoryLine>& lines, const LearningHabits& habits,
                                      const std::vector<Family>& families, Process process, std::chrono::sys_days today);

/// Wet paint is taken to keep under cover for a month, whatever its family (estimate).
inline constexpr std::chrono::days paint_keeps{31};
/// The line of the last stroke of what lies on the slab; none where that is longer ago than paint keeps, or it is lost.
[[nodiscard]] std::optional<std::size_t> line_on_slab(const std::vector<StoryLine>& lines, const std::string& entry, std::chrono::sys_days today);

/// In ln k: what two weighings of small swatches differ by, so that they are of one k (estimate).
inline constexpr double same_paint = 0.03;
/// Swatches (lines) of one k, family and bottle that showed different things: pairs, the older first. A powder that was
/// changed between them is another.
[[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> disagreeing_swatches(const std::vector<StoryLine>& lines);

} // namespace lakebound
