#include "lakebound/particle/decant_answer.hpp"

#include <algorithm>

namespace lakebound {

DecantAnswer plan_decanting(const DecantQuestion& question) {
    const auto& heights = question.heights;
    DecantAnswer answer;
    answer.question = question;
    answer.zone = fit_zone_settling(heights);
    answer.interval = zone_interval(heights, question.height_read_to, question.within, 0.90);
    answer.read = 2.0 * heights.interval;
    answer.decant = decant_time(answer.zone, question.within);
    answer.at = std::max(answer.decant, answer.read);
    answer.wait = answer.at - answer.read;
    answer.blanket = interface_height(answer.zone, answer.at);
    answer.draw_to = clear_water_ends(answer.zone, answer.at, question.water_above_blanket);
    answer.drawn = heights.first - answer.draw_to;
    return answer;
}

} // namespace lakebound
