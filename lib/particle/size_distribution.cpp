#include "lakebound/particle/size_distribution.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

double size(const PassingPoint& p) { return in_metres(p.size); }
double passing(const PassingPoint& p) { return p.passing.value(); }

void need_two_points(const PassingCurve& curve) {
    check_curve(curve);
    if (curve.points.size() < 2)
        throw DomainError("size curve", "one screen", "two screens at least",
                          "one screen gives its residue, not a curve; sieve over a second screen");
}

} // namespace

void check_curve(const PassingCurve& curve) {
    if (curve.points.empty()) throw DomainError("size curve", "no point", "one point at least");
    for (std::size_t i = 0; i < curve.points.size(); ++i) {
        const auto& p = curve.points[i];
        if (!(size(p) > 0.0)) throw_out_of_range("size on the passing curve", size(p) * 1e6, "um", "above 0");
        if (i == 0) continue;
        if (!(p.size > curve.points[i - 1].size))
            throw DomainError("size on the passing curve", micrometre_text(p.size),
                              "coarser than the point before it, " + micrometre_text(curve.points[i - 1].size));
        if (!(p.passing >= curve.points[i - 1].passing))
            throw_out_of_range("passing on the curve", passing(p), "", "never less than at a finer size");
    }
}

PassingCurve passing_curve(const SieveAnalysis& analysis) {
    PassingCurve curve;
    for (auto row = analysis.fractions.rbegin(); row != analysis.fractions.rend(); ++row)
        if (row->aperture) curve.points.push_back({*row->aperture, row->passing});
    check_curve(curve);
    return curve;
}

Percentile percentile(const PassingCurve& curve, MassFraction p) {
    need_two_points(curve);
    const double wanted = p.value();
    if (!(wanted > 0.0 && wanted < 1.0))
        throw_out_of_range("percentile", wanted * 100.0, "%", "above 0 and below 100 %");
    const auto& points = curve.points;
    if (wanted < passing(points.front())) return {points.front().size, Reach::below_finest};
    if (wanted > passing(points.back())) return {points.back().size, Reach::above_coarsest};
    std::size_t i = 0;
    while (passing(points[i]) < wanted)
        ++i;
    if (passing(points[i]) <= wanted) return {points[i].size, Reach::within}; // the first point always is
    const auto &a = points[i - 1], &b = points[i];
    const double share = (wanted - passing(a)) / (passing(b) - passing(a));
    return {metres(size(a) * std::pow(size(b) / size(a), share)), Reach::within};
}

Percentiles percentiles(const PassingCurve& curve) {
    Percentiles out{percentile(curve, MassFraction::of(0.10)), percentile(curve, MassFraction::of(0.50)),
                    percentile(curve, MassFraction::of(0.80)), percentile(curve, MassFraction::of(0.90)),
                    std::nullopt};
    if (out.d10.reach == Reach::within && out.d50.reach == Reach::within && out.d90.reach == Reach::within)
        out.span = (in_metres(out.d90.size) - in_metres(out.d10.size)) / in_metres(out.d50.size);
    return out;
}

PassingAt passing_at(const PassingCurve& curve, Length at) {
    need_two_points(curve);
    if (!(in_metres(at) > 0.0)) throw_out_of_range("size", in_micrometres(at), "um", "above 0");
    const auto& points = curve.points;
    std::size_t upper = 1;
    while (upper + 1 < points.size() && at > points[upper].size)
        ++upper;
    const auto &a = points[upper - 1], &b = points[upper];
    const double share = std::log(in_metres(at) / size(a)) / std::log(size(b) / size(a));
    const double p = passing(a) + share * (passing(b) - passing(a));
    PassingAt out{MassFraction::of(std::clamp(p, 0.0, 1.0)), Reach::within};
    if (in_metres(at) < size(points.front()) * (1.0 - 1e-9)) out.reach = Reach::below_finest;
    if (in_metres(at) > size(points.back()) * (1.0 + 1e-9)) out.reach = Reach::above_coarsest;
    return out;
}

PassingAt share_to_regrind(const PassingCurve& curve, Length screen) {
    const PassingAt at = passing_at(curve, screen);
    return {complement(at.passing), at.reach};
}

SurfaceEstimate surface_estimate(const PassingCurve& curve, MassDensity density,
                                 const SurfaceAssumption& assumed) {
    check_curve(curve);
    const double rho = in_kilograms_per_cubic_metre(density);
    if (!(rho > 0.0)) throw_out_of_range("density", rho / 1e3, "g/cm3", "above 0");
    const double finest = size(curve.points.front()), coarsest = size(curve.points.back());
    const double pan = in_metres(assumed.pan_mean);
    if (!(pan > 0.0 && pan <= finest))
        throw_out_of_range("mean size below the finest screen", pan * 1e6, "um",
                           "above 0, at most the finest screen");
    const double top = assumed.top_size ? in_metres(*assumed.top_size) : 2.0 * coarsest;
    if (!(top >= coarsest))
        throw_out_of_range("largest grain", top * 1e6, "um", "at least the coarsest screen");

    SurfaceEstimate out;
    out.top_size = metres(top);
    out.from_pan = 6.0 * passing(curve.points.front()) / (rho * pan);
    double sum = (1.0 - passing(curve.points.back())) / std::sqrt(coarsest * top);
    for (std::size_t i = 1; i < curve.points.size(); ++i) {
        const auto &a = curve.points[i - 1], &b = curve.points[i];
        sum += (passing(b) - passing(a)) / std::sqrt(size(a) * size(b));
    }
    out.from_screens = 6.0 * sum / rho;
    out.square_metres_per_kilogram = out.from_pan + out.from_screens;
    return out;
}

} // namespace lakebound
