#include "lakebound/estimate/probability.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <boost/math/special_functions/erf.hpp>

#include "lakebound/quantity/error.hpp"
#include "normal_table.hpp"

namespace lakebound {

NormalTable::NormalTable() {
    for (int i = 0; i <= 2 * reach * per_unit; ++i) {
        const double z = static_cast<double>(i) / per_unit - reach;
        at_[static_cast<std::size_t>(i)] = {standard_normal_cdf(z),
                                            std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi) / per_unit};
    }
}

namespace {

double step(double location, double limit) { return limit > location ? 1.0 : limit < location ? 0.0 : 0.5; }

void check_spread(double s) {
    if (!(s >= 0.0 && std::isfinite(s)))
        throw_out_of_range("standard deviation of the logarithm", s, "", "0 or more, finite");
}

} // namespace

double standard_normal_cdf(double z) noexcept { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

const NormalTable& normal_table() noexcept {
    static const NormalTable table;
    return table;
}

double quick_normal_cdf(double z) noexcept { return normal_table()(z); }

double standard_normal_quantile(double p) {
    if (!(p > 0.0 && p < 1.0)) throw_out_of_range("probability", p, "", "above 0 and below 1");
    using namespace boost::math::policies;
    // Without promotion to long double: the same digits on every machine, and three times as fast.
    return -std::numbers::sqrt2 * boost::math::erfc_inv(2.0 * p, policy<promote_double<false>>{});
}

double lognormal_probability_below(double median, double log_standard_deviation, double limit) {
    if (!(median > 0.0 && std::isfinite(median))) throw_out_of_range("median", median, "", "above 0");
    if (!(limit > 0.0)) throw_out_of_range("limit", limit, "", "above 0");
    check_spread(log_standard_deviation);
    if (log_standard_deviation == 0.0) return step(median, limit);
    return standard_normal_cdf((std::log(limit) - std::log(median)) / log_standard_deviation);
}

double lognormal_median_for_risk(double limit, double log_standard_deviation, double p) {
    if (!(limit > 0.0 && std::isfinite(limit))) throw_out_of_range("limit", limit, "", "above 0");
    check_spread(log_standard_deviation);
    return limit * std::exp(-log_standard_deviation * standard_normal_quantile(p));
}

double probability_below(const Distribution& d, double limit) {
    if (std::isnan(limit)) throw_out_of_range("limit", limit, "", "a number");
    if (d.shape == Shape::exact || d.scale == 0.0) return step(d.location, limit);
    const double t = (limit - d.location) / d.scale;
    switch (d.shape) {
    case Shape::exact:
        break; // above
    case Shape::normal:
        return standard_normal_cdf(t);
    case Shape::lognormal:
        return limit > 0.0 ? lognormal_probability_below(d.location, d.scale, limit) : 0.0;
    case Shape::rectangular:
        return std::clamp(0.5 * (t + 1.0), 0.0, 1.0);
    case Shape::arc_sine:
        return 0.5 + std::asin(std::clamp(t, -1.0, 1.0)) / std::numbers::pi;
    }
    return step(d.location, limit);
}

} // namespace lakebound
