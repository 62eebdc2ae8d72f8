#include "lakebound/material/reading_answer.hpp"

#include <algorithm>

namespace lakebound {
namespace {

RubOutRead read_off(const RubOutSeries& series, const ReadingHabits& habits) {
    const RubOutPrior& prior = habits.rub_out;
    RubOutRead read{.result = series.dropper
                                  ? oil_absorption_by_rub_out(series.rub_outs, *series.dropper, prior)
                                  : oil_absorption_by_rub_out(series.rub_outs, prior)};
    if (series.rub_outs.size() == 1) {
        const double of_one = read.result.repeat_spread, all = read.result.mean.relative_uncertainty();
        read.after_two_more = uncertainty_after(read.result, 2);
        read.end_point_leads = 2.0 * of_one * of_one > all * all;
    }
    if (series.dropper) {
        const auto least = std::min_element(series.rub_outs.begin(), series.rub_outs.end(),
                                            [](const RubOut& a, const RubOut& b) { return a.pigment < b.pigment; });
        read.drop = drop_mass(*series.dropper);
        read.one_drop = one_drop_of_oil_absorption(*series.dropper, least->pigment);
        read.drops_too_coarse = *read.one_drop > coarse_drop;
    }
    return read;
}

PyknometerRead read_off(const Pyknometer& test) { return {density_by_pyknometer(test), air_dominates(test)}; }
DisplacementRead read_off(const Displacement& test) { return {density_by_displacement(test)}; }
TappedFillRead read_off(const TappedFillReading& reading) {
    return {tapped_density(reading.fill, reading.powder, reading.scale)};
}
MediumSolidsRead read_off(const MediumSolidsReading& reading, const ReadingHabits& habits) {
    return {non_volatile_by_drying(reading.test), habits.constant_within};
}
MoistureRead read_off(const MoistureReading& reading, const ReadingHabits& habits) {
    return {moisture_by_drying(reading.test), habits.constant_within};
}

} // namespace

ReadingAnswer answer_reading(const BenchReading& reading, const ReadingHabits& habits) {
    return std::visit(
        [&](const auto& test) -> ReadingAnswer {
            if constexpr (requires { read_off(test, habits); })
                return {reading.name, read_off(test, habits)};
            else
                return {reading.name, read_off(test)};
        },
        reading.test);
}

} // namespace lakebound
