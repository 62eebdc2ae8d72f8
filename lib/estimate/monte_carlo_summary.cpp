// What draws say: means, chances and summaries with the error that the draws themselves leave.

#include "lakebound/estimate/monte_carlo.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace lakebound {
namespace {

const std::vector<double>& column(const MonteCarloDraws& draws, std::size_t output) {
    if (output >= draws.outputs.size())
        throw DomainError("output", std::to_string(output),
                          "one of the " + std::to_string(draws.outputs.size()) + " drawn, counted from 0");
    return draws.outputs[output];
}

/// Standard error of the mean of `of(value)` from the spread of the independent parts.
template <class Of> double error_between_parts(const MonteCarloDraws& draws, std::size_t output, Of of) {
    const auto& values = column(draws, output);
    std::vector<double> means;
    std::size_t begin = 0;
    for (const std::size_t end : draws.parts) {
        double sum = 0.0;
        for (std::size_t i = begin; i < end; ++i)
            sum += of(values[i]);
        if (end > begin) means.push_back(sum / static_cast<double>(end - begin));
        begin = end;
    }
    return sample_standard_deviation(means) / std::sqrt(static_cast<double>(means.size()));
}

template <class Crosses>
EstimatedProbability crossing(const MonteCarloDraws& draws, std::size_t output, Crosses crosses) {
    const auto& values = column(draws, output);
    const auto n = static_cast<double>(values.size());
    const auto k = static_cast<double>(std::count_if(values.begin(), values.end(), crosses));
    if (draws.drawing != Drawing::independent) {
        // Parts that all count the same would claim certainty; each count is still rounded to a whole
        // draw, which is the spread of a uniform law one draw wide.
        const double rounding = std::sqrt(static_cast<double>(draws.parts.size()) / 12.0) / n;
        const double spread =
            error_between_parts(draws, output, [&](double y) { return crosses(y) ? 1.0 : 0.0; });
        return {k / n, std::max(spread, rounding)};
    }
    const double p = (k + 0.5) / (n + 1.0);
    return {k / n, std::sqrt(p * (1.0 - p) / n)};
}

} // namespace

EstimatedProbability probability_below(const MonteCarloDraws& draws, double limit, std::size_t output) {
    return crossing(draws, output, [limit](double y) { return y < limit; });
}

EstimatedProbability probability_above(const MonteCarloDraws& draws, double limit, std::size_t output) {
    return crossing(draws, output, [limit](double y) { return y > limit; });
}

EstimatedProbability monte_carlo_mean(const MonteCarloDraws& draws, std::size_t output) {
    const auto& values = column(draws, output);
    const double mean = sample_mean(values);
    if (draws.drawing != Drawing::independent)
        return {mean, error_between_parts(draws, output, [](double y) { return y; })};
    return {mean, sample_standard_deviation(values) / std::sqrt(static_cast<double>(values.size()))};
}

SampleSummary summarise(const MonteCarloDraws& draws, double coverage, std::size_t output) {
    return summarise(column(draws, output), coverage);
}

} // namespace lakebound
