#include "lakebound/estimate/lognormal_update.hpp"

#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void check_positive(const char* name, double x) {
    if (!(x > 0.0 && std::isfinite(x))) throw_out_of_range(name, x, "", "above 0, finite");
}
void check_spread(const char* name, double s) {
    if (!(s >= 0.0 && std::isfinite(s))) throw_out_of_range(name, s, "", "0 or more, finite");
}

} // namespace

double LognormalBelief::quantile(double p) const {
    return median * std::exp(log_standard_deviation * standard_normal_quantile(p));
}

LognormalBelief updated(const LognormalBelief& prior, std::span<const double> readings, double reading_log_sd) {
    check_positive("median of the prior", prior.median);
    check_spread("ln-sd of the prior", prior.log_standard_deviation);
    check_positive("ln-sd of a reading", reading_log_sd);
    // Deviations from the prior, so that a reading equal to its median moves nothing at all.
    double sum = 0.0;
    for (const double x : readings) {
        check_positive("reading", x);
        sum += std::log(x / prior.median);
    }
    if (prior.log_standard_deviation == 0.0) return prior;
    const double per_reading = 1.0 / (reading_log_sd * reading_log_sd);
    const double precision = 1.0 / (prior.log_standard_deviation * prior.log_standard_deviation) +
                             static_cast<double>(readings.size()) * per_reading;
    return {prior.median * std::exp(sum * per_reading / precision), 1.0 / std::sqrt(precision)};
}

BatchBelief learned_from_batches(const LognormalBelief& prior, std::span<const double> batches,
                                 double between_batches, double reading_log_sd) {
    check_spread("ln-sd between batches", between_batches);
    check_positive("ln-sd of a reading", reading_log_sd);
    BatchBelief belief;
    belief.centre = updated(prior, batches, std::hypot(between_batches, reading_log_sd));
    belief.next_batch = {belief.centre.median,
                         std::hypot(belief.centre.log_standard_deviation, between_batches)};
    return belief;
}

} // namespace lakebound
