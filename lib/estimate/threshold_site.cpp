#include "lakebound/estimate/threshold_site.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include "lakebound/estimate/logistic.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr std::size_t half_of_moments = 30; ///< half the steps
constexpr double reach = 24.5; ///< fall of ln density at the outermost node: 7^2/2

/// ln density of belief times trials, up to the constant of the normal.
struct Tilted {
    double mean, variance;
    std::span<const LogisticTrial> trials;

    double value(double s) const {
        const double d = s - mean;
        return log_likelihood(trials, s) - 0.5 * d * d / variance;
    }
    LogCurve curve(double s) const {
        LogCurve c = log_likelihood_curve(trials, s);
        const double d = s - mean;
        c.value -= 0.5 * d * d / variance;
        c.slope -= d / variance;
        c.curvature -= 1.0 / variance;
        return c;
    }
};

/// Newton's rule on the slope, which falls all the way; bisection where a step leaves the bracket. The pull of the
/// trials lies between the sums of their negative and of their positive slopes, which brackets the mode.
double find_mode(const Tilted& tilted) {
    double low = tilted.mean, high = tilted.mean;
    for (const auto& t : tilted.trials)
        (t.slope < 0.0 ? low : high) += tilted.variance * t.slope * t.count;
    double s = tilted.mean;
    for (int i = 0; i < 100; ++i) {
        const LogCurve c = tilted.curve(s);
        (c.slope > 0.0 ? low : high) = s;
        const double step = -c.slope / c.curvature;
        // 1e-7 of the peak's own width leaves a slope that the rule's fourth order does not see.
        if (std::abs(step) < 1e-7 / std::sqrt(-c.curvature)) return s + step;
        const double next = s + step;
        s = next > low && next < high ? next : 0.5 * (low + high);
    }
    return s;
}

/// How far to one side (+1, -1) of the mode the density falls by `reach`. The fall is convex and at least that of
/// the belief alone, so Newton's rule from 7 of its sd comes in from outside and stays there.
double find_reach(const Tilted& tilted, double mode, double peak, double side) {
    double distance = std::sqrt(2.0 * reach * tilted.variance);
    for (int i = 0; i < 60; ++i) {
        const LogCurve c = tilted.curve(mode + side * distance);
        const double fall = peak - c.value;
        if (fall < 1.1 * reach) break;
        distance -= (fall - reach) / (-side * c.slope);
    }
    return distance;
}

void check(double mean, double variance, std::span<const LogisticTrial> trials) {
    if (!std::isfinite(mean)) throw_out_of_range("mean of a belief", mean, "", "finite");
    if (!(variance > 0.0 && std::isfinite(variance)))
        throw_out_of_range("variance of a belief", variance, "", "above 0, finite");
    for (const auto& t : trials) {
        if (!std::isfinite(t.location)) throw_out_of_range("place of a trial", t.location, "", "finite");
        if (!std::isfinite(t.slope)) throw_out_of_range("slope of a trial", t.slope, "", "finite");
        if (!(t.count >= 0.0 && std::isfinite(t.count)))
            throw_out_of_range("count of a trial", t.count, "", "0 or more, finite");
    }
}

/// Visits the nodes from the lowest to the highest with weight exp(ln density - peak) times the step. One step for
/// both sides of the mode: where two steps met the first moment would be off by the square of their difference.
template <class Visit> double visit_nodes(const Tilted& tilted, std::span<double> likelihoods, double& mode, Visit visit) {
    mode = find_mode(tilted);
    const double peak = tilted.value(mode);
    const double below = find_reach(tilted, mode, peak, -1.0), above = find_reach(tilted, mode, peak, +1.0);
    const double step = (below + above) / static_cast<double>(likelihoods.size() - 1);
    log_likelihoods(tilted.trials, mode - below, step, likelihoods);
    for (std::size_t i = 0; i < likelihoods.size(); ++i) {
        const double s = mode - below + step * static_cast<double>(i), d = s - tilted.mean;
        visit(s, step * std::exp(likelihoods[i] - 0.5 * d * d / tilted.variance - peak));
    }
    return peak - 0.5 * std::log(2.0 * std::numbers::pi * tilted.variance);
}

} // namespace

double log_likelihood(std::span<const LogisticTrial> trials, double s) {
    // -sum ln(1 + exp(-t)): the factors 1 + exp(-t) are multiplied up, so that many trials cost one logarithm.
    double sum = 0.0, product = 1.0;
    for (const auto& trial : trials) {
        const double t = trial.slope * (s - trial.location);
        if (trial.count != 1.0) {
            sum += trial.count * log_logistic(t);
        } else if (t < -30.0) {
            sum += t; // exp(t) = 1e-13 of what is left out
        } else {
            product *= 1.0 + std::exp(-t);
            if (product > 1e280) sum -= std::log(product), product = 1.0;
        }
    }
    return sum - std::log(product);
}

void log_likelihoods(std::span<const LogisticTrial> trials, double first, double step, std::span<double> values) {
    constexpr double room = 600.0; // a double holds a product whose logarithm is below it
    const std::size_t n = values.size();
    std::fill(values.begin(), values.end(), 0.0);
    std::vector<double> product(n, 1.0);
    double greatest = 0.0; // ln of no product is above it
    const auto take_logarithms = [&] {
        for (std::size_t i = 0; i < n; ++i) {
            values[i] -= std::log(product[i]);
            product[i] = 1.0;
        }
        greatest = 0.0;
    };
    for (const auto& trial : trials) {
        const double t = trial.slope * (first - trial.location), rise = trial.slope * step;
        const double last = t + rise * static_cast<double>(n - 1), least = std::min(t, last);
        if (trial.count != 1.0 || -least > 0.5 * room) {
            for (std::size_t i = 0; i < n; ++i)
                values[i] += trial.count * log_logistic(t + rise * static_cast<double>(i));
            continue;
        }
        const double fall = std::max(-least, 0.0) + 1.0; // ln(1 + exp x) is below max(x, 0) + 1
        if (greatest + fall > room) take_logarithms();
        greatest += fall;
        // From where exp(-t) is greatest: a small one may vanish, it is then nothing beside 1.
        double e = std::exp(-least);
        const double ratio = std::exp(-std::abs(rise));
        for (std::size_t i = 0; i < n; ++i, e *= ratio)
            product[rise < 0.0 ? n - 1 - i : i] *= 1.0 + e;
    }
    take_logarithms();
}

LogCurve log_likelihood_curve(std::span<const LogisticTrial> trials, double s) {
    LogCurve c;
    for (const auto& trial : trials) {
        const double t = trial.slope * (s - trial.location);
        const double e = std::exp(-std::abs(t)), near = 1.0 / (1.0 + e), far = e * near;
        const double fails = t > 0.0 ? far : near; // 1 - logistic(t)
        c.value += trial.count * ((t < 0.0 ? t : 0.0) - std::log1p(e));
        c.slope += trial.count * trial.slope * fails;
        c.curvature -= trial.count * trial.slope * trial.slope * near * far;
    }
    return c;
}

TiltedMoments tilted_moments(double mean, double variance, std::span<const LogisticTrial> trials) {
    check(mean, variance, trials);
    const Tilted tilted{mean, variance, trials};
    TiltedMoments m;

    std::array<double, 2 * half_of_moments + 1> value{}, weight{}, likelihoods{};
    std::size_t n = 0;
    const double log_peak = visit_nodes(tilted, likelihoods, m.mode, [&](double s, double w) {
        value[n] = s;
        weight[n++] = w;
    });
    double mass = 0.0, first = 0.0, second = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const double d = value[i] - m.mode;
        mass += weight[i];
        first += weight[i] * d;
        second += weight[i] * d * d;
    }
    first /= mass;
    m.log_mass = log_peak + std::log(mass);
    m.mean = m.mode + first;
    m.variance = second / mass - first * first;
    return m;
}

std::vector<WeightedValue> tilted_nodes(double mean, double variance, std::span<const LogisticTrial> trials,
                                        std::size_t half) {
    check(mean, variance, trials);
    if (half < 1 || half > 100000) throw DomainError("half the steps of a grid", std::to_string(half), "1 to 100000");
    std::vector<WeightedValue> nodes;
    nodes.reserve(2 * half + 1);
    std::vector<double> likelihoods(2 * half + 1);
    double mode = 0.0;
    double sum = 0.0;
    visit_nodes({mean, variance, trials}, likelihoods, mode, [&](double s, double w) {
        nodes.push_back({s, w});
        sum += w;
    });
    for (auto& node : nodes)
        node.weight /= sum;
    return nodes;
}

} // namespace lakebound
