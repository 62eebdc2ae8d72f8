// Every figure of a size fit and of a mulling curve, reckoned again from the points by textbook sums.

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

#include "lakebound/particle/fineness_of_grind.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/particle/size_distribution.hpp"
#include "lakebound/particle/size_fit.hpp"
#include "support/brezani.hpp"
#include "support/sieved.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// Curves of sieve tests: within 0 and 1, ending at 1, beginning at 0.
std::vector<PassingCurve> curves() {
    return {brezani(), curve_of({{45, 0.203}, {75, 0.452}, {106, 0.690}, {150, 0.873}, {250, 0.980}}),
            curve_of({{45, 0.15}, {75, 0.46}, {106, 0.69}, {150, 0.90}, {250, 1.0}}),
            curve_of({{20, 0.0}, {45, 0.12}, {75, 0.31}, {106, 0.55}, {150, 0.80}, {250, 0.97}, {425, 1.0}})};
}

constexpr SizeModel three_models[] = {SizeModel::rosin_rammler, SizeModel::gates_gaudin_schuhmann, SizeModel::lognormal};

/// As their definitions have it, sizes in micrometres.
double passing_by(SizeModel model, double um, double size, double slope) {
    const double x = slope * std::log(um / size);
    if (model == SizeModel::rosin_rammler) return 1.0 - std::exp(-std::pow(um / size, slope));
    if (model == SizeModel::gates_gaudin_schuhmann) return um < size ? std::pow(um / size, slope) : 1.0;
    return 0.5 * std::erfc(-x / std::sqrt(2.0));
}

/// Inverse of a symmetric 2 x 2 matrix {a, b, c}.
std::array<double, 3> inverse(const std::array<double, 3>& m) {
    const double d = m[0] * m[2] - m[1] * m[1];
    return {m[2] / d, -m[1] / d, m[0] / d};
}

} // namespace

TEST_CASE("the share of the scatter that a curve explains, and by how much it misses", "[reference]") {
    for (const auto& curve : curves())
        for (const auto model : three_models)
            for (const auto method : {FitMethod::linearised, FitMethod::non_linear}) {
                const auto fit = fit_size(curve, model, method);
                const double size = in_micrometres(fit.size);
                const auto n = static_cast<double>(curve.points.size());
                double missed = 0.0, mean = 0.0, all = 0.0;
                for (const auto& p : curve.points) {
                    mean += p.passing.value() / n;
                    missed += std::pow(passing_by(model, in_micrometres(p.size), size, fit.slope) - p.passing.value(), 2);
                }
                for (const auto& p : curve.points)
                    all += std::pow(p.passing.value() - mean, 2);
                CHECK(fit.passing_deviation == Approx(std::sqrt(missed / n)).epsilon(1e-9));
                CHECK(fit.finest == curve.points.front().size);
                CHECK(fit.coarsest == curve.points.back().size);
                if (method == FitMethod::non_linear) {
                    CHECK(fit.r_squared == Approx(1.0 - missed / all).epsilon(1e-9));
                    CHECK(fit.points == curve.points.size());
                    continue;
                }
                // The straight line: points strictly between 0 and 1, and the textbook's r^2 = sxy^2 / (sxx syy).
                double sx = 0, sy = 0, xx = 0, xy = 0, yy = 0, m = 0;
                for (const auto& p : curve.points) {
                    const double P = p.passing.value(), x = std::log(in_metres(p.size));
                    if (P == 0.0 || P == 1.0) continue;
                    double y = std::log(P);
                    if (model == SizeModel::rosin_rammler) y = std::log(-std::log(1.0 - P));
                    if (model == SizeModel::lognormal) { // the probit, by halving the normal integral
                        double low = -9.0, high = 9.0;
                        while (high - low > 1e-13)
                            (0.5 * std::erfc(-0.5 * (low + high) / std::sqrt(2.0)) < P ? low : high) = 0.5 * (low + high);
                        y = low;
                    }
                    sx += x, sy += y, xx += x * x, xy += x * y, yy += y * y, m += 1.0;
                }
                const double sxx = xx - sx * sx / m, sxy = xy - sx * sy / m, syy = yy - sy * sy / m;
                const double b = sxy / sxx, a = sy / m - b * sx / m;
                CHECK(fit.points == static_cast<std::size_t>(m));
                CHECK(fit.slope == Approx(b).epsilon(1e-8));
                CHECK(std::log(in_metres(fit.size)) == Approx(-a / b).epsilon(1e-8));
                CHECK(fit.r_squared == Approx(sxy * sxy / (sxx * syy)).epsilon(1e-7));
                // Delta method with the covariance of intercept and slope: ln size = -a / b.
                const double s2 = (syy - sxy * sxy / sxx) / (m - 2.0), vb = s2 / sxx, va = s2 * (1.0 / m + sx * sx / m / m / sxx),
                             vab = -s2 * sx / m / sxx;
                const double u2 = va / b / b + a * a / std::pow(b, 4) * vb - 2.0 * a / std::pow(b, 3) * vab;
                CHECK(fit.log_size_uncertainty.value() == Approx(std::sqrt(u2)).epsilon(1e-6));
                CHECK(fit.log_slope_uncertainty.value() == Approx(std::sqrt(vb) / b).epsilon(1e-6));
                // cov(-a/b, ln b) = (a vb / b^2 - vab / b) / b
                CHECK(fit.correlation == Approx((a * vb / b / b - vab / b) / b / (std::sqrt(u2) * std::sqrt(vb) / b)).epsilon(1e-4).margin(1e-6));
            }
}

TEST_CASE("the doubt of a curved fit is that of its slopes at the points", "[reference]") {
    // (J'J)^-1 times the mean square missed over n - 2, J by small steps of ln size and ln slope. (A Schuhmann curve has a
    // kink, and no such slope, at its size: it is left out.)
    for (const auto& curve : curves())
        for (const auto model : {SizeModel::rosin_rammler, SizeModel::lognormal}) {
            const auto fit = fit_size(curve, model);
            const double size = in_micrometres(fit.size), n = static_cast<double>(curve.points.size()), h = 1e-5;
            std::array<double, 3> normal{};
            double missed = 0.0;
            for (const auto& p : curve.points) {
                const double um = in_micrometres(p.size);
                const auto at = [&](double ds, double db) { return passing_by(model, um, size * std::exp(ds), fit.slope * std::exp(db)); };
                const double by_size = (at(h, 0) - at(-h, 0)) / (2 * h), by_slope = (at(0, h) - at(0, -h)) / (2 * h);
                normal[0] += by_size * by_size, normal[1] += by_size * by_slope, normal[2] += by_slope * by_slope;
                missed += std::pow(at(0, 0) - p.passing.value(), 2);
            }
            const auto covariance = inverse(normal);
            const double s2 = missed / (n - 2.0);
            CHECK(fit.log_size_uncertainty.value() == Approx(std::sqrt(s2 * covariance[0])).epsilon(1e-4));
            CHECK(fit.log_slope_uncertainty.value() == Approx(std::sqrt(s2 * covariance[2])).epsilon(1e-4));
            CHECK(fit.correlation == Approx(covariance[1] / std::sqrt(covariance[0] * covariance[2])).epsilon(1e-3).margin(1e-5));
        }
}

TEST_CASE("a Schuhmann curve is the least of all, by a plain search over size and slope", "[reference]") {
    for (const auto& curve : curves()) {
        const auto fit = fit_size(curve, SizeModel::gates_gaudin_schuhmann);
        const auto squares = [&](double um, double slope) {
            double sum = 0.0;
            for (const auto& p : curve.points)
                sum += std::pow(passing_by(SizeModel::gates_gaudin_schuhmann, in_micrometres(p.size), um, slope) - p.passing.value(), 2);
            return sum;
        };
        const double found = squares(in_micrometres(fit.size), fit.slope);
        const double finest = in_micrometres(curve.points.front().size), coarsest = in_micrometres(curve.points.back().size);
        for (double um = finest; um < 5.0 * coarsest; um *= 1.02)
            for (double slope = 0.1; slope < 8.0; slope *= 1.02)
                if (squares(um, slope) < found * (1.0 - 1e-9)) FAIL_CHECK("less at " << um << " um, " << slope);
    }
}

TEST_CASE("the surface of a curve, class by class", "[reference]") {
    const auto curve = curve_of({{45, 0.2}, {75, 0.5}, {150, 0.9}});
    // By hand: 6 f / (rho sqrt(lower upper)) of each class, f of what passes the finest at the mean size of the pan; 2 g/cm3.
    const double pan = 6.0 * 0.2 / (2000.0 * 20e-6), a = 6.0 * 0.3 / (2000.0 * std::sqrt(45e-6 * 75e-6)),
                 b = 6.0 * 0.4 / (2000.0 * std::sqrt(75e-6 * 150e-6)), top = 6.0 * 0.1 / (2000.0 * std::sqrt(150e-6 * 300e-6));
    const auto doubled = surface_estimate(curve, grams_per_cubic_centimetre(2), {micrometres(20), {}});
    CHECK(in_micrometres(doubled.top_size) == Approx(300.0));
    CHECK(doubled.from_pan == Approx(pan).epsilon(1e-12));
    CHECK(doubled.from_screens == Approx(a + b + top).epsilon(1e-12));
    CHECK(doubled.square_metres_per_kilogram == Approx(pan + a + b + top).epsilon(1e-12));
    const auto given = surface_estimate(curve, grams_per_cubic_centimetre(2), {micrometres(45), micrometres(150)});
    CHECK(given.from_screens == Approx(a + b + 6.0 * 0.1 / (2000.0 * 150e-6)).epsilon(1e-12));
    CHECK(given.from_pan == Approx(6.0 * 0.2 / (2000.0 * 45e-6)).epsilon(1e-12));
    const auto refused = [&](double density, double pan_mean, double largest) {
        return told([&] {
            (void)surface_estimate(curve, grams_per_cubic_centimetre(density), {micrometres(pan_mean), micrometres(largest)});
        });
    };
    CHECK(refused(0.0, 20, 300) == "density: 0 g/cm3");
    CHECK(refused(2.0, 0, 300) == "mean size below the finest screen: 0 um");
    CHECK(refused(2.0, 45.5, 300) == "mean size below the finest screen: 45.5 um");
    CHECK(refused(2.0, 20, 149) == "largest grain: 149 um");
    CHECK(refused(2.0, 1e-3, 300) == "taken");
}

TEST_CASE("the doubt of where mulling ends, from uneven drawdowns", "[reference]") {
    // A gauge read to half its mark is even over +- 2.5 um or what gauge_half_width_um says: sd = half width / sqrt(3).
    // Covariance (J'J)^-1 sd^2 of end, drop and ln tau, J written out.
    std::vector<FinenessReading> readings;
    const double end = 14.0, drop = 60.0, tau = 11.0;
    for (const double t : {0.0, 4.0, 9.0, 16.0, 27.0, 40.0})
        readings.push_back({minutes(t), micrometres(end + drop * std::exp(-t / tau))});
    double m[3][3] = {};
    for (const auto& r : readings) {
        const double t = in_minutes(r.time), e = std::exp(-t / tau);
        const double row[3] = {1.0, drop * e, drop * e * t / tau};
        for (int i = 0; i < 3; ++i)
            for (int j = 0; j < 3; ++j)
                m[i][j] += row[i] * row[j];
    }
    const double cofactor = m[1][1] * m[2][2] - m[1][2] * m[2][1];
    const double determinant = m[0][0] * cofactor - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
                               m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
    const auto fit = fit_mulling(readings);
    CHECK(in_micrometres(fit.end) == Approx(end).epsilon(1e-6));
    CHECK(in_micrometres(fit.end_uncertainty) ==
          Approx(gauge_half_width_um / std::sqrt(3.0) * std::sqrt(cofactor / determinant)).epsilon(1e-4));
}

TEST_CASE("a sieve test repeats best where nearly all or nothing is kept", "[reference]") {
    // By hand: twice what the middle of the range repeats to, times sqrt(s (1 - s)).
    const auto repeats = MassFraction::of(0.01);
    CHECK(sieving_deviation(repeats, 0.5) == Approx(0.01).epsilon(1e-14));
    CHECK(sieving_deviation(repeats, 0.1) == Approx(0.02 * 0.3).epsilon(1e-14));
    CHECK(sieving_deviation(repeats, 0.9) == Approx(0.006).epsilon(1e-13));
    CHECK(sieving_deviation(repeats, 0.0) == 0.0);
    CHECK(sieving_deviation(repeats, 1.0) == 0.0);
    CHECK(told([&] { (void)sieving_deviation(repeats, 1.5); }) == "share over a screen: 150 %");
    CHECK(told([&] { (void)sieving_deviation(repeats, -0.5); }) == "share over a screen: -50 %");
}
