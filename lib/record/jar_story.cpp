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

std::chrono::days whole_days(Time waiting) {
    return std::chrono::days(static_cast<int>(std::ceil(in_hours(waiting) / 24.0 - 1e-9)));
}

std::chrono::sys_days ready_day(std::chrono::sys_days painted, Time drying) { return painted + whole_days(drying); }

NextStep JarStory::next() const {
    if (open.empty()) return NextStep::as_coached;
    const bool ready = std::any_of(open.begin(), open.end(), [](const OpenSwatch& swatch) { return swatch.is_ready; });
    return ready ? NextStep::judge_swatch : NextStep::wait;
}

std::vector<OpenSwatch> open_swatches(const std::vector<StoryLine>& lines, const LearningHabits& habits,
                                      const std::vector<Family>& families, std::chrono::sys_days today) {
    std::vector<OpenSwatch> open;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto* swatch = std::get_if<SwatchEntry>(&lines[i].entry.what);
        if (swatch == nullptr || lines[i].sign) continue;
        const auto process = static_cast<std::size_t>(families.at(swatch->paint.family).process);
        const auto ready = ready_day(lines[i].entry.day, habits.binders.at(process).drying);
        open.push_back({i, ready, !(today < ready)});
    }
    return open;
}

} // namespace lakebound
