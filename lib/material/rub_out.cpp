#include "lakebound/material/rub_out.hpp"

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

double checked_operator_variance(double spread) {
    if (!(spread >= 0.0 && std::isfinite(spread)))
        throw_out_of_range("operator spread of the rub-out", spread, "", "0 or more");
    return square(spread);
}

/// ln OA of one rub-out and the variance that averages out over replicates.
struct LogReading {
    double mean = 0.0;
    double variance = 0.0;
};

LogReading by_drops(const RubOut& r, const DropCalibration& calibration) {
    require_above_zero(in_grams(r.pigment), "pigment in the rub-out", "g");
    require_above_zero(r.drops, "drops in the rub-out", "");
    if (r.oil.value() != 0.0) refuse_both();
    const double drop = in_kilograms(drop_mass(calibration).value());
    const double oa = OilAbsorption::of(r.drops * drop / in_kilograms(r.pigment)).value();
    return {std::log(oa),
            reading_variance(r.scale, 2) / square(in_kilograms(r.pigment)) + 1.0 / (12.0 * square(r.drops))};
}

LogReading by_weight(const RubOut& r) {
    require_above_zero(in_grams(r.pigment), "pigment in the rub-out", "g");
    require_above_zero(in_grams(r.oil), "oil in the rub-out", "g");
    if (r.drops != 0.0) refuse_both();
    const double oa = OilAbsorption::of(in_kilograms(r.oil) / in_kilograms(r.pigment)).value();
    const double v = reading_variance(r.scale, 2);
    return {std::log(oa), v / square(in_kilograms(r.pigment)) + v / square(in_kilograms(r.oil))};
}

double calibration_variance(const DropCalibration& calibration) {
    return reading_variance(calibration.scale, 2) / square(in_kilograms(calibration.weighed));
}

Estimate<OilAbsorption> lognormal(double mean_of_logs, double variance) {
    return Estimate<OilAbsorption>::lognormal(OilAbsorption::of(std::exp(mean_of_logs)),
                                              std::exp(std::sqrt(variance)),
                                              {Origin::measured, "rub-out", false});
}

template <class Reader> Estimate<OilAbsorption>
mean_of(std::span<const RubOut> rub_outs, double operator_spread, double shared, const Reader& reader) {
    if (rub_outs.empty()) throw DomainError("number of rub-outs", "0", "1 or more");
    double sum = 0.0, variance = 0.0;
    for (const RubOut& r : rub_outs) {
        const LogReading one = reader(r);
        sum += one.mean;
        variance += one.variance + checked_operator_variance(operator_spread);
    }
    const auto n = static_cast<double>(rub_outs.size());
    return lognormal(sum / n, variance / (n * n) + shared);
}

} // namespace

Estimate<Mass> drop_mass(const DropCalibration& c) {
    if (c.drops < 1) throw_out_of_range("drops weighed for the calibration", c.drops, "", "1 or more");
    require_above_zero(in_grams(c.weighed), "mass of the drops weighed", "g");
    return Estimate<Mass>::normal(c.weighed / static_cast<double>(c.drops),
                                  reading_uncertainty(c.scale, 2) / c.drops,
                                  {Origin::measured, "drops weighed", false});
}

Estimate<OilAbsorption> oil_absorption_from_drops(const RubOut& rub_out, const DropCalibration& calibration,
                                                  double operator_spread) {
    return mean_oil_absorption({&rub_out, 1}, calibration, operator_spread);
}

Estimate<OilAbsorption> oil_absorption_from_weighing(const RubOut& rub_out, double operator_spread) {
    return mean_oil_absorption({&rub_out, 1}, operator_spread);
}

Estimate<OilAbsorption> mean_oil_absorption(std::span<const RubOut> rub_outs,
                                            const DropCalibration& calibration, double operator_spread) {
    require_above_zero(in_grams(calibration.weighed), "mass of the drops weighed", "g");
    return mean_of(rub_outs, operator_spread, calibration_variance(calibration),
                   [&](const RubOut& r) { return by_drops(r, calibration); });
}

Estimate<OilAbsorption> mean_oil_absorption(std::span<const RubOut> rub_outs, double operator_spread) {
    return mean_of(rub_outs, operator_spread, 0.0, by_weight);
}

OilAbsorption one_drop_of_oil_absorption(const DropCalibration& calibration, Mass pigment) {
    require_above_zero(in_grams(pigment), "pigment in the rub-out", "g");
    // Below the range of an oil absorption as a rule: this is a difference of two.
    return OilAbsorption::from_proven(in_kilograms(drop_mass(calibration).value()) / in_kilograms(pigment));
}

} // namespace lakebound
