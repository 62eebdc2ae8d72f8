#include "lakebound/particle/mull_answer.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

MullAnswer plan_mulling(const MullQuestion& question) {
    MullAnswer answer;
    answer.question = question;
    answer.mulling = fit_mulling(question.readings);
    answer.stop = stop_time(answer.mulling, question.worth_gaining, question.spell);
    answer.so_far = question.readings.back().time - question.readings.front().time;
    answer.more_to_stop = std::max(answer.stop - answer.so_far, Time{});
    answer.past_stop = !(answer.more_to_stop > Time{});
    for (const auto& reading : question.readings) {
        MullRow row{reading.time - question.readings.front().time, reading.fineness, {}, {}};
        row.curve = fineness_at(answer.mulling, row.mulled);
        if (row.read <= deepest_hegman) row.hegman = hegman_of_fineness(row.read);
        answer.rows.push_back(row);
    }
    if (question.target) {
        try {
            answer.reached = time_to_fineness(answer.mulling, *question.target);
            const Time left = std::max(*answer.reached - answer.so_far, Time{});
            // A kitchen clock, and a gauge that reads to 2 um: no seconds.
            answer.more_to_target = minutes(std::ceil(in_minutes(left) - 1e-6));
            answer.in_all = answer.so_far + *answer.more_to_target;
        } catch (const DomainError&) {
            answer.out_of_reach = true;
        }
    }
    return answer;
}

} // namespace lakebound
