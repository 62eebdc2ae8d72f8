#include "lakebound/estimate/threshold_update.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "lakebound/estimate/logistic.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr std::size_t points = 2001;
constexpr double reach_in_sd = 8.0;

double failure(double position, double theta, double width) { return logistic((theta - position) / width); }

} // namespace

ThresholdBelief::ThresholdBelief(const ThresholdPrior& prior)
    : width_(prior.width), theta_(points), weight_(points) {
    const double s = prior.standard_deviation;
    if (!std::isfinite(prior.mean)) throw_out_of_range("mean of the threshold", prior.mean, "", "finite");
    if (!(s > 0.0 && std::isfinite(s))) throw_out_of_range("ln-sd of the threshold", s, "", "above 0, finite");
    if (!(width_ > 0.0 && std::isfinite(width_)))
        throw_out_of_range("width of the threshold", width_, "", "above 0, finite");
    double sum = 0.0;
    for (std::size_t i = 0; i < points; ++i) {
        const double z = reach_in_sd * (2.0 * static_cast<double>(i) / static_cast<double>(points - 1) - 1.0);
        theta_[i] = prior.mean + z * s;
        sum += weight_[i] = std::exp(-0.5 * z * z);
    }
    for (double& w : weight_)
        w /= sum;
}

void ThresholdBelief::learn(const ThresholdTrial& trial) {
    if (!std::isfinite(trial.position)) throw_out_of_range("position of a trial", trial.position, "", "finite");
    std::vector<double> next(points);
    double sum = 0.0;
    for (std::size_t i = 0; i < points; ++i) {
        // Written with the sign turned for a trial that held: 1 - p would lose the small tail.
        const double p = trial.failed ? failure(trial.position, theta_[i], width_)
                                      : failure(theta_[i], trial.position, width_);
        sum += next[i] = weight_[i] * p;
    }
    if (!(sum > 1e-200))
        throw_out_of_range("position of a trial", trial.position, "",
                           "an outcome that the belief holds possible at all");
    for (double& w : next)
        w /= sum;
    weight_ = std::move(next);
}

double ThresholdBelief::mean() const {
    double sum = 0.0;
    for (std::size_t i = 0; i < points; ++i)
        sum += weight_[i] * theta_[i];
    return sum;
}

double ThresholdBelief::standard_deviation() const {
    const double m = mean();
    double sum = 0.0;
    for (std::size_t i = 0; i < points; ++i)
        sum += weight_[i] * (theta_[i] - m) * (theta_[i] - m);
    return std::sqrt(sum);
}

double ThresholdBelief::quantile(double p) const {
    if (!(p > 0.0 && p < 1.0)) throw_out_of_range("probability", p, "", "above 0 and below 1");
    // Each weight stands for a cell around its point; straight lines between the cell borders.
    double below = 0.0;
    const double step = theta_[1] - theta_[0];
    for (std::size_t i = 0; i < points; ++i) {
        if (below + weight_[i] >= p) return theta_[i] + step * ((p - below) / weight_[i] - 0.5);
        below += weight_[i];
    }
    return theta_.back();
}

double ThresholdBelief::failure_probability(double position) const {
    if (!std::isfinite(position)) throw_out_of_range("position of a trial", position, "", "finite");
    double sum = 0.0;
    for (std::size_t i = 0; i < points; ++i)
        sum += weight_[i] * failure(position, theta_[i], width_);
    return std::min(sum, 1.0);
}

double ThresholdBelief::expected_standard_deviation(std::span<const double> positions) const {
    if (positions.size() > 12)
        throw DomainError("number of trials", std::to_string(positions.size()), "at most 12");
    for (const double x : positions)
        if (!std::isfinite(x)) throw_out_of_range("position of a trial", x, "", "finite");
    double expected_variance = 0.0;
    for (std::size_t outcome = 0; outcome < (std::size_t{1} << positions.size()); ++outcome) {
        double chance = 0.0, first = 0.0, second = 0.0;
        const double centre = theta_[points / 2];
        for (std::size_t i = 0; i < points; ++i) {
            double w = weight_[i];
            for (std::size_t t = 0; t < positions.size(); ++t)
                w *= (outcome >> t) & 1u ? failure(positions[t], theta_[i], width_)
                                         : failure(theta_[i], positions[t], width_);
            const double d = theta_[i] - centre;
            chance += w;
            first += w * d;
            second += w * d * d;
        }
        if (chance > 0.0) expected_variance += second - first * first / chance;
    }
    return std::sqrt(std::max(expected_variance, 0.0));
}

ThresholdBelief updated(const ThresholdPrior& prior, std::span<const ThresholdTrial> trials) {
    ThresholdBelief belief(prior);
    for (const auto& trial : trials)
        belief.learn(trial);
    return belief;
}

} // namespace lakebound
