#include "lakebound/paint/next_measurement.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound {

std::vector<CandidateTest> common_tests() {
    return {
        {"rub-out", "one rub-out of the pigment", minutes(10), SpreadTerm::oil_absorption, 0.10},
        {"three-rub-outs", "three rub-outs, mean", minutes(30), SpreadTerm::oil_absorption, 0.06},
        {"swatch-ladder", "four swatches at stepped k", minutes(40), SpreadTerm::method_transfer, 0.05},
        {"medium-solids", "solids of the medium by drying", minutes(15), SpreadTerm::binder_solids, 0.01},
        {"pyknometer", "density of the pigment by pyknometer", minutes(25), SpreadTerm::pigment_density, 0.02},
        {"moisture", "moisture of the pigment by drying", minutes(15), SpreadTerm::moisture, 0.01},
    };
}

NextMeasurement next_measurement(BinderSufficiency k, const LogSpread& now,
                                 std::span<const CandidateTest> tests, const MeasurementRule& rule) {
    NextMeasurement answer;
    const auto chance = [&](double sigma) { return chance_below(k, sigma, rule.limit); };
    answer.now = chance(sufficiency_spread(now));
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const CandidateTest& t = tests[i];
        if (!(in_minutes(t.duration) > 0.0))
            throw_out_of_range("duration of a test", in_minutes(t.duration), "min", "above 0");
        if (!(t.spread_after >= 0.0 && std::isfinite(t.spread_after)))
            throw_out_of_range("spread after a test", t.spread_after, "", "0 or more");
        TestGain g;
        g.test = i;
        g.spread_of_ln_k =
            sufficiency_spread(now.with(t.replaces, std::min(t.spread_after, now.term(t.replaces))));
        g.after = chance(g.spread_of_ln_k);
        g.gain = answer.now.value() - g.after.value();
        g.gain_per_minute = g.gain / in_minutes(t.duration);
        answer.gains.push_back(g);
    }
    std::stable_sort(answer.gains.begin(), answer.gains.end(), [](const TestGain& a, const TestGain& b) {
        return a.gain_per_minute > b.gain_per_minute;
    });

    if (answer.now <= rule.accepted)
        answer.advice = MeasurementAdvice::below_limit;
    else if (k <= rule.limit)
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
