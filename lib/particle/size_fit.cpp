#include "lakebound/particle/size_fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "lakebound/estimate/least_squares.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/sampling_law.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

double model_passing(SizeModel model, double log_ratio, double slope) {
    const double x = slope * log_ratio;
    switch (model) {
    case SizeModel::rosin_rammler:
        return -std::expm1(-std::exp(x));
    case SizeModel::gates_gaudin_schuhmann:
        return x >= 0.0 ? 1.0 : std::exp(x);
    case SizeModel::lognormal:
        return standard_normal_cdf(x);
    }
    return 0.0;
}

/// dP/dx of model_passing, x = slope * log_ratio.
double passing_slope(SizeModel model, double x) {
    switch (model) {
    case SizeModel::rosin_rammler:
        return std::exp(x - std::exp(x));
    case SizeModel::gates_gaudin_schuhmann:
        return x >= 0.0 ? 0.0 : std::exp(x);
    case SizeModel::lognormal:
        return std::exp(-0.5 * x * x) / std::sqrt(2.0 * std::numbers::pi);
    }
    return 0.0;
}

/// The transform that makes the model a straight line: slope * ln d - slope * ln size.
double straightened(SizeModel model, double p) {
    switch (model) {
    case SizeModel::rosin_rammler:
        return std::log(-std::log1p(-p));
    case SizeModel::gates_gaudin_schuhmann:
        return std::log(p);
    case SizeModel::lognormal:
        return standard_normal_quantile(p);
    }
    return 0.0;
}

struct Points {
    std::vector<double> log_size, passing;
};

double deviation(const SizeFit& fit, const Points& all) {
    double sum = 0.0;
    for (std::size_t i = 0; i < all.log_size.size(); ++i) {
        const double p = model_passing(fit.model, all.log_size[i] - std::log(in_metres(fit.size)), fit.slope);
        sum += (p - all.passing[i]) * (p - all.passing[i]);
    }
    return std::sqrt(sum / static_cast<double>(all.log_size.size()));
}

SizeFit straight_line(SizeModel model, const Points& all) {
    std::vector<double> x, y;
    for (std::size_t i = 0; i < all.log_size.size(); ++i)
        if (all.passing[i] > 0.0 && all.passing[i] < 1.0)
            x.push_back(all.log_size[i]), y.push_back(straightened(model, all.passing[i]));
    if (x.size() < 2)
        throw DomainError("size fit", std::to_string(x.size()) + " screen with passing between 0 and 100 %",
                          "two such screens at least",
                          "sieve over a second screen that keeps some and passes some");
    const auto n = static_cast<double>(x.size());
    double mx = 0, my = 0, sxx = 0, sxy = 0, syy = 0;
    for (std::size_t i = 0; i < x.size(); ++i)
        mx += x[i] / n, my += y[i] / n;
    for (std::size_t i = 0; i < x.size(); ++i) {
        sxx += (x[i] - mx) * (x[i] - mx);
        sxy += (x[i] - mx) * (y[i] - my);
        syy += (y[i] - my) * (y[i] - my);
    }
    const double slope = sxy / sxx;
    if (!(slope > 0.0))
        throw_out_of_range("slope of the size fit", slope, "",
                           "above 0: passing must rise between the screens");
    SizeFit fit;
    fit.model = model;
    fit.method = FitMethod::linearised;
    const double log_size = mx - my / slope;
    fit.size = metres(std::exp(log_size));
    fit.slope = slope;
    fit.points = x.size();
    const double unexplained = std::max(0.0, syy - slope * sxy);
    fit.r_squared = 1.0 - unexplained / syy; // points alike have no slope
    if (x.size() > 2) {
        // ln size = mx - my/slope: the centred line makes my and slope independent.
        const double s2 = unexplained / (n - 2.0), u_slope2 = s2 / sxx;
        const double by_slope = my / (slope * slope);
        const double u2 = s2 / n / (slope * slope) + by_slope * by_slope * u_slope2;
        fit.log_size_uncertainty = std::sqrt(u2);
        fit.log_slope_uncertainty = std::sqrt(u_slope2) / slope;
        const double covariance = by_slope * u_slope2 / slope;
        fit.correlation =
            u2 > 0.0 ? covariance / (*fit.log_size_uncertainty * *fit.log_slope_uncertainty) : 0.0;
    }
    return fit;
}

struct Start {
    double log_size = 0.0, log_slope = 0.0, squares = std::numeric_limits<double>::infinity();
};

double squares_of(SizeModel model, const Points& all, double log_size, double slope) {
    double sum = 0.0;
    for (std::size_t i = 0; i < all.log_size.size(); ++i) {
        const double r = model_passing(model, all.log_size[i] - log_size, slope) - all.passing[i];
        sum += r * r;
    }
    return sum;
}

/// The least sum of squares of a Schuhmann curve. Which screens lie below k splits the search into pieces;
/// within one, exp(-m ln k) enters linearly, so that for a given m the best k is known, and one scan over m
/// finds the least of the piece. The sum has a kink, and often a hollow, at every screen: a search that walks
/// downhill sticks there. With the first screen alone below k none is better than with k at the second.
Start least_schuhmann(const Points& all) {
    const std::size_t n = all.log_size.size();
    Start best;
    for (std::size_t below = 2; below <= n; ++below) {
        const double join = all.log_size[below - 1];
        const double room = below < n ? all.log_size[below] - join : std::numeric_limits<double>::infinity();
        const auto at = [&](double log_slope) {
            const double m = std::exp(log_slope);
            double top = 0.0, bottom = 0.0;
            for (std::size_t i = 0; i < below; ++i) {
                const double e = std::exp(m * (all.log_size[i] - join));
                top += e * all.passing[i];
                bottom += e * e;
            }
            const double scale = std::clamp(top / bottom, 1e-12, 1.0); // exp(m (join - ln k))
            const double log_size = join + std::min(room, -std::log(scale) / m);
            return Start{log_size, log_slope,
                         squares_of(SizeModel::gates_gaudin_schuhmann, all, log_size, m)};
        };
        constexpr int steps = 100;
        const double low = std::log(0.02), step = (std::log(100.0) - low) / steps;
        Start here;
        for (int i = 0; i <= steps; ++i)
            if (const auto tried = at(low + i * step); tried.squares < here.squares) here = tried;
        const double golden = 0.6180339887498949;
        double left = here.log_slope - step, right = here.log_slope + step;
        Start inner_left = at(right - golden * (right - left)), inner_right = at(left + golden * (right - left));
        while (right - left > 1e-9) {
            if (inner_left.squares <= inner_right.squares) {
                right = inner_right.log_slope;
                inner_right = inner_left;
                inner_left = at(right - golden * (right - left));
            } else {
                left = inner_left.log_slope;
                inner_left = inner_right;
                inner_right = at(left + golden * (right - left));
            }
        }
        for (const auto& tried : {here, inner_left, inner_right})
            if (tried.squares < best.squares) best = tried;
    }
    return best;
}

SizeFit curved(SizeModel model, const Points& all) {
    const SizeFit start = straight_line(model, all);
    const auto residuals = [&](std::span<const double> p, std::span<double> r) {
        const double slope = std::exp(p[1]);
        for (std::size_t i = 0; i < r.size(); ++i)
            r[i] = model_passing(model, all.log_size[i] - p[0], slope) - all.passing[i];
    };
    const auto jacobian = [&](std::span<const double> p, std::span<double> j) {
        const double slope = std::exp(p[1]);
        for (std::size_t i = 0; i < all.log_size.size(); ++i) {
            const double x = slope * (all.log_size[i] - p[0]), rise = passing_slope(model, x);
            j[2 * i] = -slope * rise;
            j[2 * i + 1] = x * rise;
        }
    };
    const Start from = model == SizeModel::gates_gaudin_schuhmann
                           ? least_schuhmann(all)
                           : Start{std::log(in_metres(start.size)), std::log(start.slope)};
    const std::array<double, 2> begin{from.log_size, from.log_slope};
    const LeastSquaresFit found = least_squares(residuals, jacobian, all.log_size.size(), begin);
    // A fit that stalls at a kink of the Schuhmann curve with no more to gain is an answer; one that ran
    // out of iterations is not.
    if (found.status == FitStatus::iterations_used_up)
        throw DomainError(std::string(word_of(model)) + " fit", "no convergence",
                          "a curve near this model", "use the straight-line fit, or another model");
    SizeFit fit = start;
    fit.method = FitMethod::non_linear;
    fit.size = metres(std::exp(found.parameters[0]));
    fit.slope = std::exp(found.parameters[1]);
    fit.points = all.log_size.size();
    double mean = 0.0, total = 0.0;
    for (double p : all.passing)
        mean += p / static_cast<double>(all.passing.size());
    for (double p : all.passing)
        total += (p - mean) * (p - mean);
    fit.r_squared = 1.0 - found.residual_sum_of_squares / total;
    fit.log_size_uncertainty.reset();
    fit.log_slope_uncertainty.reset();
    fit.correlation = 0.0;
    if (found.covariance.size() == 4) {
        fit.log_size_uncertainty = std::sqrt(found.covariance[0]);
        fit.log_slope_uncertainty = std::sqrt(found.covariance[3]);
        const double product = *fit.log_size_uncertainty * *fit.log_slope_uncertainty;
        if (product > 0.0) fit.correlation = found.covariance[1] / product;
    }
    return fit;
}

Reach reach(const SizeFit& fit, double size) {
    if (size < in_metres(fit.finest) * (1.0 - 1e-9)) return Reach::below_finest;
    if (size > in_metres(fit.coarsest) * (1.0 + 1e-9)) return Reach::above_coarsest;
    return Reach::within;
}

CoverageInterval interval(double centre, std::optional<double> log_uncertainty, std::size_t points,
                          double coverage) {
    if (!(coverage > 0.0 && coverage < 1.0))
        throw_out_of_range("coverage", coverage, "", "above 0 and below 1");
    if (!log_uncertainty)
        throw DomainError("size fit", std::to_string(points) + " points",
                          "three points at least for an interval", "sieve over a third screen");
    const double t = student_quantile(0.5 + 0.5 * coverage, static_cast<double>(points) - 2.0);
    const double reach = t * *log_uncertainty;
    return {centre * std::exp(-reach), centre * std::exp(reach)};
}

} // namespace

SizeFit fit_size(const PassingCurve& curve, SizeModel model, FitMethod method) {
    check_curve(curve);
    Points all;
    for (const auto& p : curve.points) {
        all.log_size.push_back(std::log(in_metres(p.size)));
        all.passing.push_back(p.passing.value());
    }
    SizeFit fit = method == FitMethod::linearised ? straight_line(model, all) : curved(model, all);
    fit.finest = curve.points.front().size;
    fit.coarsest = curve.points.back().size;
    fit.passing_deviation = deviation(fit, all);
    return fit;
}

PassingAt predicted_passing(const SizeFit& fit, Length size) {
    if (!(in_metres(size) > 0.0)) throw_out_of_range("size", in_micrometres(size), "um", "above 0");
    const double p = model_passing(fit.model, std::log(in_metres(size) / in_metres(fit.size)), fit.slope);
    return {MassFraction::of(p), reach(fit, in_metres(size))};
}

Percentile predicted_percentile(const SizeFit& fit, MassFraction p) {
    if (!(p.value() > 0.0 && p.value() < 1.0))
        throw_out_of_range("percentile", p.value() * 100.0, "%", "above 0 and below 100 %");
    const double size = in_metres(fit.size) * std::exp(straightened(fit.model, p.value()) / fit.slope);
    return {metres(size), reach(fit, size)};
}

PassingCurve fitted_curve(const SizeFit& fit, std::span<const Length> sizes) {
    PassingCurve curve;
    for (const Length& size : sizes)
        curve.points.push_back({size, predicted_passing(fit, size).passing});
    check_curve(curve);
    return curve;
}

double geometric_standard_deviation(const SizeFit& lognormal) { return std::exp(1.0 / lognormal.slope); }

CoverageInterval size_interval(const SizeFit& fit, double coverage) {
    return interval(in_metres(fit.size), fit.log_size_uncertainty, fit.points, coverage);
}

CoverageInterval slope_interval(const SizeFit& fit, double coverage) {
    return interval(fit.slope, fit.log_slope_uncertainty, fit.points, coverage);
}

double residual_at(const SizeFit& fit, const PassingCurve& curve, Length screen) {
    return predicted_passing(fit, screen).passing.value() - passing_at(curve, screen).passing.value();
}

ChosenFit choose_fit(std::span<const SizeFit> fits, const PassingCurve& curve, std::optional<Length> target) {
    if (fits.empty()) throw DomainError("size fits", "none", "one at least");
    ChosenFit chosen;
    double best = 0.0;
    for (std::size_t i = 0; i < fits.size(); ++i) {
        double score = fits[i].passing_deviation;
        if (target) {
            const double miss = residual_at(fits[i], curve, *target);
            score = std::sqrt(0.5 * (score * score + miss * miss));
        }
        if (i == 0 || score < best) best = score, chosen.index = i;
    }
    chosen.told_apart = curve.points.size() > 2;
    if (!chosen.told_apart) {
        chosen.index = 0;
        chosen.reason = "two screens give two points, and every curve of two parameters passes through both: "
                        "none can be called better";
        return chosen;
    }
    const SizeFit& fit = fits[chosen.index];
    chosen.reason = std::string(word_of(fit.model)) + " misses the passing curve by " +
                    percent_text(fit.passing_deviation) + " (root mean square)";
    if (target)
        chosen.reason += " and by " + percent_text(residual_at(fit, curve, *target)) +
                         " at the target screen, " + micrometre_text(*target);
    chosen.reason += fits.size() > 1 ? ", less than the others" : "; no other was fitted";
    return chosen;
}

} // namespace lakebound
