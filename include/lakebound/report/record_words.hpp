#pragma once
// Words of a record: what happened, what is known, what to do next.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/record/jar_story.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// "2026-05-03".
[[nodiscard]] std::string day_text(std::chrono::sys_days day);
/// "Thursday 4 June".
[[nodiscard]] std::string weekday_text(std::chrono::sys_days day);
/// "Thursday 4 to Saturday 6 June"; one day alone by itself.
[[nodiscard]] std::string weekday_range_text(std::chrono::sys_days first, std::chrono::sys_days last);
/// Of one entry, as a person says it: "rub-out: 78.0 g/100 g, 2.00 g of powder used".
[[nodiscard]] std::string happened_text(const JarStory& story, const StoryLine& line);
/// What timed grains showed.
[[nodiscard]] std::string clumps_text(const SettlingEntry& seen);
/// Of the entry of that name, with its day.
[[nodiscard]] std::string undone_text(const JarStory& story, const std::string& entry);
/// "k 1.20, 0.20 g with 0.83 g of gum-water".
[[nodiscard]] std::string swatch_words(const JarStory& story, const StoryLine& swatch);
/// The head of the card, with swatches that wait before what the coach says; as JSON has it below.
[[nodiscard]] std::string next_head(const JarStory& story);
[[nodiscard]] std::string next_key(const JarStory& story);
/// The head of the advice: "First paint a swatch", "Enough is known: paint".
[[nodiscard]] std::string coach_head(const Coaching& coaching);
/// What to do and what it brings: "It takes about 10 minutes and 0.2 g, and can be judged after a day. ..."
[[nodiscard]] std::string coach_text(const JarOutlook& outlook, const LearningHabits& habits, Process process);
/// How many minutes, grams and days a step takes.
[[nodiscard]] std::string cost_text(const StepCost& cost);
/// "a day", "7 days"; rounded up.
[[nodiscard]] std::string waiting_text(Time waiting);
/// "a rub-out", "two swatches, side by side".
[[nodiscard]] std::string step_words(const StepCost& cost);
/// "rub_out", "solids_test", "swatches"; "measure", "target_met", "nothing_pays", "steps_used_up": as JSON has it.

/// One line of where the chance comes from.
struct WorthLine {
    std::string what;
    Probability chance;
};
[[nodiscard]] std::vector<WorthLine> worth_lines(const JarOutlook& outlook);

/// What is odd in the record: a jar unlike its kin, an unlikely entry, powder missing.
[[nodiscard]] std::vector<std::string> record_warnings(const JarStory& story);
/// The first two of these, where no whole story is at hand.
[[nodiscard]] std::vector<std::string> outlook_warnings(const JarOutlook& outlook);

} // namespace lakebound
