#include "lakebound/record/jar_story.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound {

std::vector<std::size_t> judged_early(const JarStory& story) {
    std::vector<std::size_t> early;
    for (std::size_t i = 0; i < story.lines.size(); ++i)
        if (const StoryLine& line = story.lines[i]; line.judged && line.dry && *line.judged < *line.dry) early.push_back(i);
    return early;
}

std::vector<UnexplainedLoss> fresh_losses(const JarStory& story) {
    std::vector<UnexplainedLoss> fresh = story.card.losses;
    std::erase_if(fresh, [&](const UnexplainedLoss& loss) { return story.today - loss.day > fresh_news; });
    return fresh;
}

std::optional<std::size_t> batch_to_mend(const JarStory& story) {
    if (story.lines.empty() || story.batches.empty()) return std::nullopt;
    const StoryLine& batch = story.lines[story.batches.back()];
    const auto* told = std::get_if<OutcomeEntry>(&story.lines.back().entry.what);
    if (told == nullptr || told->of != batch.entry.id) return std::nullopt;
    const auto outcome = outcome_of(told->sign);
    const bool fails = outcome == PaintOutcome::lean || outcome == PaintOutcome::rich;
    const bool known = batch.medium_mass.value() > 0.0 && std::get<BatchEntry>(batch.entry.what).paint.of_this_jar_alone;
    return fails && known ? std::optional(story.batches.back()) : std::nullopt;
}

std::chrono::days whole_days(Time waiting) {
    return std::chrono::days(static_cast<int>(std::ceil(in_hours(waiting) / 24.0 - 1e-9)));
}

std::chrono::sys_days ready_day(std::chrono::sys_days painted, Time drying) { return painted + whole_days(drying); }

NextStep JarStory::next() const {
    const auto any = [this](auto which) { return std::any_of(open.begin(), open.end(), which); };
    if (any([](const OpenSwatch& swatch) { return swatch.is_ready; })) return NextStep::judge_swatch;
    if (slab) return NextStep::go_on;
    // What is less than nothing by the scales is nothing.
    if (card.left && *card.left + card.uncertainty < habits.swatch_powder) return NextStep::too_little;
    // An oil that dries for weeks says little of a watercolour, and need not hold it up.
    return any([](const OpenSwatch& swatch) { return swatch.as_asked; }) ? NextStep::wait : NextStep::as_coached;
}

std::optional<std::size_t> line_on_slab(const std::vector<StoryLine>& lines, const std::string& entry, std::chrono::sys_days today) {
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (lines[i].entry.id == entry && today - lines[i].entry.day <= paint_keeps && !(lines[i].sign && is_lost(*lines[i].sign))) return i;
    return std::nullopt;
}

std::vector<std::pair<std::size_t, std::size_t>> disagreeing_swatches(const std::vector<StoryLine>& lines) {
    std::vector<std::pair<std::size_t, std::size_t>> pairs;
    std::vector<std::size_t> seen;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (std::holds_alternative<ChangedEntry>(lines[i].entry.what)) seen.clear();
        const auto* later = std::get_if<SwatchEntry>(&lines[i].entry.what);
        if (later == nullptr || !lines[i].sign || !outcome_of(*lines[i].sign)) continue;
        for (const std::size_t j : seen) {
            const auto& earlier = std::get<SwatchEntry>(lines[j].entry.what);
            const double apart = std::log(later->paint.library_k.value() / earlier.paint.library_k.value());
            const bool lean = outcome_of(*lines[i].sign) == PaintOutcome::lean, was_lean = outcome_of(*lines[j].sign) == PaintOutcome::lean;
            if (earlier.paint.family == later->paint.family && earlier.paint.lot == later->paint.lot &&
                std::abs(apart) < same_paint && lean != was_lean)
                pairs.emplace_back(j, i);
        }
        seen.push_back(i);
    }
    return pairs;
}

std::vector<OpenSwatch> open_swatches(const std::vector<StoryLine>& lines, const LearningHabits& habits,
                                      const std::vector<Family>& families, Process process, std::chrono::sys_days today) {
    std::vector<OpenSwatch> open;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto* swatch = std::get_if<SwatchEntry>(&lines[i].entry.what);
        if (swatch == nullptr || lines[i].sign) continue;
        const Process of = families.at(swatch->paint.family).process;
        const auto ready = ready_day(lines[i].entry.day, habits.binders.at(static_cast<std::size_t>(of)).drying);
        open.push_back({i, of == process, ready, !(today < ready)});
    }
    return open;
}

} // namespace lakebound
