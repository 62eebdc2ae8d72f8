#include "lakebound/material/rub_out.hpp"

#include <algorithm>

#include "lakebound/estimate/lognormal_update.hpp"
#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/estimate/sampling_law.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"

namespace lakebound {
namespace {

double square(double x) { return x * x; }

void require_above_zero(double x, const char* quantity, const char* unit) {
    if (!(x > 0.0 && std::isfinite(x))) throw_out_of_range(quantity, x, unit, "above 0");
}

/// Drops and a weighing of the oil that contradict each other must not be chosen between in silence.
[[noreturn]] void refuse_both() {
    throw DomainError("oil of the rub-out", "given in drops and by weight", "one of the two",
                      "leave one of them out");
}

/// ln OA of one rub-out and the variance that averages out over replicates.
struct LogReading {
    double mean = 0.0;
    double variance = 0.0;
};

/// Errors are carried on to first order in their logarithm; a reading as doubtful as this says nothing.
void require_told(const LogReading& reading) {
    constexpr double factor_of_e = 1.0;
    if (!(reading.variance <= factor_of_e * factor_of_e))
        throw DomainError("doubt of a rub-out on this scale", "a factor above 2.7", "2.7 at most",
                          "weigh more pigment and oil, or on a finer scale");
}

LogReading by_drops(const RubOut& r, const DropCalibration& calibration) {
    require_above_zero(in_grams(r.pigment), "pigment in the rub-out", "g");
    require_above_zero(r.drops, "drops in the rub-out", "");
    if (r.oil.value() != 0.0) refuse_both();
    const Mass drop = drop_mass(calibration).value();
    const double oa = OilAbsorption::of(r.drops * drop / r.pigment).value();
    return {std::log(oa),
            reading_variance(r.scale, 2) / square(in_kilograms(r.pigment)) + 1.0 / (12.0 * square(r.drops))};
}

LogReading by_weight(const RubOut& r) {
    require_above_zero(in_grams(r.pigment), "pigment in the rub-out", "g");
    require_above_zero(in_grams(r.oil), "oil in the rub-out", "g");
    if (r.drops != 0.0) refuse_both();
    const double oa = OilAbsorption::of(r.oil / r.pigment).value();
    const double v = reading_variance(r.scale, 2);
    return {std::log(oa), v / square(in_kilograms(r.pigment)) + v / square(in_kilograms(r.oil))};
}

double calibration_variance(const DropCalibration& calibration) {
    return reading_variance(calibration.scale, 2) / square(in_kilograms(calibration.weighed));
}

void check(const RubOutPrior& prior) {
    require_above_zero(prior.repeat_spread, "spread of repeated rub-outs", "");
    require_above_zero(prior.repeat_weight, "weight of the spread of repeated rub-outs", "");
    if (!(prior.hand_and_oil >= 0.0 && std::isfinite(prior.hand_and_oil)))
        throw_out_of_range("spread of hand and oil", prior.hand_and_oil, "", "0 or more");
}

template <class Reader>
RubOutResult result_of(std::span<const RubOut> rub_outs, const RubOutPrior& prior, double shared, Reader reader) {
    if (rub_outs.empty()) throw DomainError("number of rub-outs", "0", "1 or more");
    check(prior);
    const auto n = static_cast<double>(rub_outs.size());
    std::vector<OilAbsorption> each;
    std::vector<double> logs;
    double instruments = 0.0;
    for (const RubOut& r : rub_outs) {
        const LogReading one = reader(r);
        require_told(one);
        logs.push_back(one.mean);
        instruments += one.variance / n;
        each.push_back(OilAbsorption::of(std::exp(one.mean)));
    }
    const double mean = sample_mean(logs);
    double squares = 0.0;
    for (const double y : logs)
        squares += square(y - mean);
    const double expected = square(prior.repeat_spread) + instruments;
    const double variance = (prior.repeat_weight * expected + squares) / (prior.repeat_weight + n - 1.0);
    RubOutResult result{.mean = Estimate<OilAbsorption>::lognormal(
                            OilAbsorption::of(std::exp(mean)), std::exp(std::sqrt(variance / n + square(prior.hand_and_oil) + shared)),
                            {Origin::measured, "rub-out", false}),
                        .each = std::move(each),
                        .repeat_spread = std::sqrt(variance)};
    if (rub_outs.size() > 1) {
        const double chance = variance_ratio_exceeds(squares / ((n - 1.0) * expected), n - 1.0, prior.repeat_weight);
        constexpr double one_in_twenty = 0.05;
        result.as_far_apart = Probability::of(chance);
        result.disagree = chance < one_in_twenty;
    }
    return result;
}

} // namespace

Estimate<Mass> drop_mass(const DropCalibration& c) {
    if (c.drops < 1) throw_out_of_range("drops weighed for the calibration", c.drops, "", "1 or more");
    require_above_zero(in_grams(c.weighed), "mass of the drops weighed", "g");
    return Estimate<Mass>::normal(c.weighed / static_cast<double>(c.drops),
                                  kilograms(reading_uncertainty(c.scale, 2) / c.drops),
                                  {Origin::measured, "drops weighed", false});
}

RubOutResult oil_absorption_by_rub_out(std::span<const RubOut> rub_outs, const DropCalibration& calibration,
                                       const RubOutPrior& prior) {
    require_above_zero(in_grams(calibration.weighed), "mass of the drops weighed", "g");
    return result_of(rub_outs, prior, calibration_variance(calibration),
                     [&](const RubOut& r) { return by_drops(r, calibration); });
}

RubOutResult oil_absorption_by_rub_out(std::span<const RubOut> rub_outs, const RubOutPrior& prior) {
    return result_of(rub_outs, prior, 0.0, by_weight);
}

Estimate<OilAbsorption> believed_oil_absorption(const Estimate<OilAbsorption>& expected,
                                                const Estimate<OilAbsorption>& reading, const RubOutPrior& prior) {
    check(prior);
    const double spread = std::max(reading.relative_uncertainty(), prior.hand_and_oil);
    const double doubt = expected.relative_uncertainty();
    if (!(doubt > 0.0)) return reading;
    const double readings[] = {reading.value().value()};
    const LognormalBelief belief = updated({expected.value().value(), doubt}, readings, spread);
    return Estimate<OilAbsorption>::lognormal(
        OilAbsorption::of(belief.median), std::exp(belief.log_standard_deviation),
        {Origin::measured, "rub-out, weighed with what the library expects of its kind", false});
}

double uncertainty_after(const RubOutResult& result, int more) {
    if (more < 0) throw_out_of_range("rub-outs more", more, "", "0 or more");
    const auto n = static_cast<double>(result.each.size());
    require_above_zero(n, "rub-outs read", "");
    const double of_one = square(result.repeat_spread);
    return std::sqrt(square(result.mean.relative_uncertainty()) - of_one / n + of_one / (n + more));
}

OilAbsorption one_drop_of_oil_absorption(const DropCalibration& calibration, Mass pigment) {
    require_above_zero(in_grams(pigment), "pigment in the rub-out", "g");
    // Below the range of an oil absorption as a rule: this is a difference of two.
    return OilAbsorption::from_proven(in_kilograms(drop_mass(calibration).value()) / in_kilograms(pigment));
}

} // namespace lakebound
