#include "lakebound/estimate/normal_mixture.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"
#include "normal_table.hpp"

namespace lakebound {
namespace {

/// Phi((t - c)/s); a step where there is no spread, one half on the step itself.
double share_below(double t, double c, double s) noexcept {
    if (s > 0.0) {
        const double z = (t - c) / s;
        if (z > 9.0) return 1.0; // to the last digit, and many parts of a wide mixture lie so
        return z < -38.0 ? 0.0 : standard_normal_cdf(z);
    }
    return t > c ? 1.0 : t < c ? 0.0 : 0.5;
}

std::vector<NormalPart> parts_of(double spread, const std::vector<double>& centres,
                                 const std::vector<double>& weights) {
    if (centres.size() != weights.size())
        throw DomainError("centres of a mixture", std::to_string(centres.size()),
                          "one at least, and a weight for each");
    std::vector<NormalPart> parts;
    parts.reserve(centres.size());
    for (std::size_t i = 0; i < centres.size(); ++i)
        parts.push_back({weights[i], centres[i], spread});
    return parts;
}

} // namespace

NormalMixture::NormalMixture(std::vector<NormalPart> parts) : parts_(std::move(parts)) {
    if (parts_.empty()) throw DomainError("centres of a mixture", "none", "one at least, and a weight for each");
    double sum = 0.0, whole = 0.0;
    for (const NormalPart& p : parts_) {
        if (!std::isfinite(p.mean)) throw_out_of_range("centre of a mixture", p.mean, "", "finite");
        if (!(p.standard_deviation >= 0.0 && std::isfinite(p.standard_deviation)))
            throw_out_of_range("spread of a mixture", p.standard_deviation, "", "0 or more");
        if (!(p.weight >= 0.0 && std::isfinite(p.weight)))
            throw_out_of_range("weight in a mixture", p.weight, "", "0 or more");
        sum += p.weight * p.mean;
        whole += p.weight;
    }
    if (!(whole > 0.0)) throw_out_of_range("weights of a mixture together", whole, "", "above 0");
    for (NormalPart& p : parts_)
        p.weight /= whole;
    mean_ = sum / whole;
}

NormalMixture::NormalMixture(double spread, const std::vector<double>& centres, const std::vector<double>& weights)
    : NormalMixture(parts_of(spread, centres, weights)) {}

double NormalMixture::standard_deviation() const noexcept {
    double sum = 0.0;
    for (const NormalPart& p : parts_)
        sum += p.weight * (p.standard_deviation * p.standard_deviation + (p.mean - mean_) * (p.mean - mean_));
    return std::sqrt(sum);
}

Probability NormalMixture::below(double limit) const noexcept {
    double sum = 0.0;
    for (const NormalPart& p : parts_)
        sum += p.weight * share_below(limit, p.mean, p.standard_deviation);
    return Probability::from_proven(std::min(1.0, sum));
}

Probability NormalMixture::above(double limit) const noexcept {
    // The mirror image of "below", so that a small chance keeps its digits.
    double sum = 0.0;
    for (const NormalPart& p : parts_)
        sum += p.weight * share_below(p.mean, limit, p.standard_deviation);
    return Probability::from_proven(std::min(1.0, sum));
}

/// far: in sd, beyond it cdf is taken for 0 and 1.
template <class Cdf>
double NormalMixture::share_between(double low, double high, double far, const Cdf& cdf) const noexcept {
    double sum = 0.0;
    for (const NormalPart& p : parts_) {
        const double s = p.standard_deviation;
        if (!(s > 0.0)) {
            sum += p.weight * (share_below(high, p.mean, s) - share_below(low, p.mean, s));
            continue;
        }
        const double a = (low - p.mean) / s, b = (high - p.mean) / s;
        if (a > far || b < -far) continue;
        sum += p.weight * ((b > far ? 1.0 : cdf(b)) - (a < -far ? 0.0 : cdf(a)));
    }
    return std::clamp(sum, 0.0, 1.0);
}

Probability NormalMixture::between(double low, double high) const noexcept {
    return Probability::from_proven(share_between(low, high, 8.3, standard_normal_cdf)); // beyond lies less than 1e-16
}

Probability NormalMixture::roughly_between(double low, double high) const noexcept {
    return Probability::from_proven(share_between(low, high, 5.9, normal_table())); // beyond lies 2e-9
}

double NormalMixture::quantile(double p) const {
    if (!(p > 0.0 && p < 1.0)) throw_out_of_range("probability", p, "", "above 0 and below 1");
    const double z = standard_normal_quantile(p), sd = standard_deviation();
    if (is_normal()) return mean_ + z * sd;
    double low = mean_ - (std::abs(z) + 12.0) * sd, high = mean_ + (std::abs(z) + 12.0) * sd;
    double at = mean_ + z * sd;
    // Regula falsi on the normal score, which is all but a straight line; bisection where it stalls.
    double least = high, greatest = low;
    for (const NormalPart& part : parts_) {
        least = std::min(least, part.mean - 40.0 * part.standard_deviation);
        greatest = std::max(greatest, part.mean + 40.0 * part.standard_deviation);
    }
    low = std::max(low, least - 1e-9);
    high = std::min(high, greatest + 1e-9);
    at = std::clamp(at, low, high);
    for (int i = 0; i < 200 && high - low > 1e-10; ++i) {
        const double share = below(at).value();
        (share < p ? low : high) = at;
        const bool usable = share > 0.0 && share < 1.0;
        const double next = usable ? at + (z - standard_normal_quantile(share)) * sd : low;
        if (std::abs(next - at) < 1e-10 * (1.0 + std::abs(at)) && usable) return next;
        at = next > low && next < high ? next : 0.5 * (low + high);
    }
    return at;
}

NormalMixture NormalMixture::narrowed(double factor) const {
    if (!(factor >= 0.0 && std::isfinite(factor)))
        throw_out_of_range("factor of a narrowed mixture", factor, "", "0 or more");
    std::vector<NormalPart> parts = parts_;
    for (NormalPart& p : parts) {
        p.mean = mean_ + (p.mean - mean_) * factor;
        p.standard_deviation *= factor;
    }
    return NormalMixture(std::move(parts));
}

NormalMixture NormalMixture::widened(double spread) const {
    if (!(spread >= 0.0 && std::isfinite(spread)))
        throw_out_of_range("spread added to a mixture", spread, "", "0 or more");
    std::vector<NormalPart> parts = parts_;
    for (NormalPart& p : parts)
        p.standard_deviation = std::hypot(p.standard_deviation, spread);
    return NormalMixture(std::move(parts));
}

NormalMixture NormalMixture::shifted(double by) const {
    std::vector<NormalPart> parts = parts_;
    for (NormalPart& p : parts)
        p.mean += by;
    return NormalMixture(std::move(parts));
}

NormalGrid normal_grid(double step) {
    if (!(step >= 0.01 && step <= 1.0)) throw_out_of_range("step of a normal grid", step, "", "0.01 to 1");
    NormalGrid grid;
    const int reach = static_cast<int>(std::floor(5.0 / step + 1e-9));
    double sum = 0.0;
    for (int i = -reach; i <= reach; ++i) {
        const double z = i * step;
        grid.z.push_back(z);
        grid.weights.push_back(std::exp(-0.5 * z * z));
        sum += grid.weights.back();
    }
    for (double& w : grid.weights)
        w /= sum;
    return grid;
}

} // namespace lakebound
