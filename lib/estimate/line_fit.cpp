#include "lakebound/estimate/line_fit.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

double LineFit::residual_standard_deviation() const {
    return degrees_of_freedom > 0 ? std::sqrt(residual_sum_of_squares / static_cast<double>(degrees_of_freedom))
                                  : 0.0;
}

double LineFit::correlation() const {
    const double u = intercept.standard_uncertainty * slope.standard_uncertainty;
    return u > 0.0 ? covariance / u : 0.0;
}

ValueWithUncertainty LineFit::at(double x) const {
    const double d = x - origin, ua = intercept.standard_uncertainty, ub = slope.standard_uncertainty;
    const double variance = ua * ua + d * d * ub * ub + 2.0 * d * covariance;
    return {intercept.value + slope.value * d, std::sqrt(std::max(variance, 0.0))};
}

LineFit fit_line(std::span<const double> x, std::span<const double> y, double origin) {
    if (x.size() != y.size() || x.size() < 3)
        throw DomainError("points of a straight line",
                          std::to_string(x.size()) + " x and " + std::to_string(y.size()) + " y",
                          "as many x as y, 3 or more");
    const auto n = static_cast<double>(x.size());
    double mean_x = 0.0, mean_y = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (!std::isfinite(x[i])) throw_out_of_range("x of a point", x[i], "", "finite");
        if (!std::isfinite(y[i])) throw_out_of_range("y of a point", y[i], "", "finite");
        mean_x += x[i] / n;
        mean_y += y[i] / n;
    }
    double sxx = 0.0, sxy = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        sxx += (x[i] - mean_x) * (x[i] - mean_x);
        sxy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    const auto [low, high] = std::minmax_element(x.begin(), x.end());
    if (!(sxx > 0.0) || *low == *high)
        throw_out_of_range("x of every point", *low, "", "at least two different ones");

    LineFit fit;
    fit.origin = origin;
    fit.slope.value = sxy / sxx;
    fit.intercept.value = mean_y + fit.slope.value * (origin - mean_x);
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double r = (y[i] - mean_y) - fit.slope.value * (x[i] - mean_x);
        fit.residual_sum_of_squares += r * r;
    }
    fit.degrees_of_freedom = x.size() - 2;
    const double variance = fit.residual_sum_of_squares / static_cast<double>(fit.degrees_of_freedom);
    const double d = origin - mean_x;
    fit.slope.standard_uncertainty = std::sqrt(variance / sxx);
    fit.intercept.standard_uncertainty = std::sqrt(variance * (1.0 / n + d * d / sxx));
    fit.covariance = variance * d / sxx;
    return fit;
}

} // namespace lakebound
