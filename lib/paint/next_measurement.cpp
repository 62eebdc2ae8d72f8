#include "lakebound/paint/next_measurement.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound {

NextMeasurement next_measurement(const Judgement& judgement, const NormalMixture& doubt, const LogSpread& now,
                                 std::span<const CandidateTest> tests, const SufficiencyWindow& window,
                                 const MeasurementRule& rule) {
    NextMeasurement answer;
    answer.now = judgement.chances.in_window;
    answer.aimed_anew = judgement.in_window_there;
    answer.aim = judgement.likeliest_aim;
    const double whole = sufficiency_spread(now);
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const CandidateTest& t = tests[i];
        if (!(in_minutes(t.duration) > 0.0))
            throw_out_of_range("duration of a test", in_minutes(t.duration), "min", "above 0");
        if (!(t.spread_after >= 0.0 && std::isfinite(t.spread_after)))
            throw_out_of_range("spread after a test", t.spread_after, "", "0 or more");
        TestGain g;
        g.test = i;
        const double left =
            sufficiency_spread(now.with(t.replaces, std::min(t.spread_after, now.term(t.replaces))));
        const auto after = doubt.narrowed(whole > 0.0 ? std::min(1.0, left / whole) : 1.0);
        g.spread_of_ln_k = after.standard_deviation();
        g.after = window_chances(likeliest_aim(after, window), after, window).in_window;
        // A test that narrows nothing gains nothing, whatever the last digit of the search says.
        g.gain = left < whole ? std::max(0.0, g.after.value() - answer.aimed_anew.value()) : 0.0;
        g.gain_per_minute = g.gain / in_minutes(t.duration);
        answer.gains.push_back(g);
    }
    std::stable_sort(answer.gains.begin(), answer.gains.end(), [](const TestGain& a, const TestGain& b) {
        return a.gain_per_minute > b.gain_per_minute;
    });

    if (1.0 - answer.now.value() <= rule.accepted.value())
        answer.advice = MeasurementAdvice::good_enough;
    else if (!judgement.holds)
        answer.advice = MeasurementAdvice::change_the_recipe;
    else if (answer.gains.empty() || answer.gains.front().gain_per_minute < rule.least_gain_per_minute)
        answer.advice = MeasurementAdvice::stop_measuring;
    else {
        answer.advice = MeasurementAdvice::measure;
        answer.recommended = answer.gains.front().test;
    }
    return answer;
}

} // namespace lakebound
