#include "lakebound/estimate/logistic_fit.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/estimate/logistic.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

/// Log-likelihood of intercept a (at the centre) and slope b, its gradient and information.
struct Likelihood {
    double value = 0.0, da = 0.0, db = 0.0, aa = 0.0, ab = 0.0, bb = 0.0;
};
Likelihood likelihood(std::span<const TrialGroup> groups, double centre, double a, double b) {
    Likelihood l;
    for (const auto& g : groups) {
        const double x = g.position - centre, t = a + b * x, p = logistic(t), q = logistic(-t);
        const double negatives = g.trials - g.positives;
        l.value += g.positives * log_logistic(t) + negatives * log_logistic(-t);
        const double residual = g.positives * q - negatives * p, information = g.trials * p * q;
        l.da += residual;
        l.db += residual * x;
        l.aa += information;
        l.ab += information * x;
        l.bb += information * x * x;
    }
    return l;
}

/// Both kinds are seen, and they overlap: neither all positives lie at or above all negatives nor the reverse.
bool overlap(std::span<const TrialGroup> groups) {
    double low_positive = 1e300, high_positive = -1e300, low_negative = 1e300, high_negative = -1e300;
    for (const auto& g : groups) {
        if (g.positives > 0.0) {
            low_positive = std::min(low_positive, g.position);
            high_positive = std::max(high_positive, g.position);
        }
        if (g.positives < g.trials) {
            low_negative = std::min(low_negative, g.position);
            high_negative = std::max(high_negative, g.position);
        }
    }
    return low_positive < high_negative && low_negative < high_positive;
}

} // namespace

LogisticFit fit_logistic(std::span<const TrialGroup> groups) {
    double sum = 0.0, weighted = 0.0;
    for (const auto& g : groups) {
        if (!std::isfinite(g.position)) throw_out_of_range("position of a trial", g.position, "", "finite");
        if (!(g.trials > 0.0 && std::isfinite(g.trials)))
            throw_out_of_range("number of trials", g.trials, "", "above 0, finite");
        if (!(g.positives >= 0.0 && g.positives <= g.trials))
            throw_out_of_range("number of positives", g.positives, "", "0 to the number of trials");
        sum += g.trials;
        weighted += g.trials * g.position;
    }
    if (!overlap(groups))
        throw DomainError("trials of a threshold", "all of one kind, or parted by one place",
                          "both kinds mingled over some range of places", "repeat trials near the threshold");
    const double centre = weighted / sum;
    double a = 0.0, b = 0.0;
    LogisticFit fit;
    Likelihood l = likelihood(groups, centre, a, b);
    for (;;) {
        if (++fit.iterations > 100)
            throw DomainError("fit of a threshold", "no greatest likelihood in 100 steps",
                              "places that differ and trials that mingle");
        const double determinant = l.aa * l.bb - l.ab * l.ab;
        if (!(determinant > 1e-14 * l.aa * l.bb))
            throw DomainError("places of the trials", "all alike", "two or more that differ");
        double step_a = (l.bb * l.da - l.ab * l.db) / determinant;
        double step_b = (l.aa * l.db - l.ab * l.da) / determinant;
        const double left = step_a * l.da + step_b * l.db; // Newton's decrement, in standard uncertainties squared
        Likelihood next = likelihood(groups, centre, a + step_a, b + step_b);
        for (int halved = 0; next.value < l.value - 1e-12 * std::abs(l.value) && halved < 60; ++halved) {
            step_a *= 0.5;
            step_b *= 0.5;
            next = likelihood(groups, centre, a + step_a, b + step_b);
        }
        a += step_a;
        b += step_b;
        l = next;
        if (left < 1e-18) break;
    }
    const double determinant = l.aa * l.bb - l.ab * l.ab;
    const double vaa = l.bb / determinant, vbb = l.aa / determinant, vab = -l.ab / determinant;
    fit.slope = {b, std::sqrt(vbb)};
    fit.intercept = {a - b * centre, std::sqrt(vaa - 2.0 * centre * vab + centre * centre * vbb)};
    fit.covariance = vab - centre * vbb;
    // x50 - centre = -a/b.
    fit.threshold = {centre - a / b, std::sqrt(vaa - 2.0 * (a / b) * vab + (a / b) * (a / b) * vbb) / std::abs(b)};
    fit.width = {1.0 / std::abs(b), std::sqrt(vbb) / (b * b)};
    fit.log_likelihood = l.value;
    return fit;
}

} // namespace lakebound
