#include "lakebound/paint/filling.hpp"

#include "lakebound/quantity/ratio_arithmetic.hpp"

#include <cmath>

namespace lakebound {
namespace {

// Whole vessels and whole pours: a batch sized for ten must count ten, not nine for a rounding error.
constexpr double filling_slack = 1e-9;

/// A count that fits an int.
double countable(double x, const char* what) {
    if (!(x >= 0.0 && x < 1e9)) throw_out_of_range(what, x, "", "0 to below a thousand million");
    return x;
}
int whole_down(double x) { return static_cast<int>(std::floor(x * (1.0 + filling_slack))); }
int whole_up(double x) { return static_cast<int>(std::ceil(x * (1.0 - filling_slack))); }

Volume paint_in_one(const Vessel& vessel) {
    const Volume paint = vessel.capacity.value() * vessel.fill;
    if (!(paint.value() > 0.0)) throw_out_of_range("paint that a vessel holds", paint.value(), "m3", "above 0");
    return paint;
}

Volume filling_volume(const Vessel& vessel, const PaintVolumes& volumes) {
    return vessel.filled_by == FilledBy::dry_volume ? volumes.cake : volumes.wet;
}

} // namespace

Pours pours(Share fill, VolumeFraction dry_fraction) {
    const double f = fill.value(), r = dry_fraction.value();
    if (!(f > 0.0)) throw_out_of_range("fill of the vessel", f, "", "above 0");
    if (!(r > 0.0 && r < 1.0)) throw_out_of_range("dry volume over wet volume", r, "", "between 0 and 1");
    Pours p;
    p.thirds_exact = countable(f / (r / 3.0), "pours of a third");
    p.thirds = whole_up(p.thirds_exact);
    if (f < 1.0) {
        p.brim_exact = countable(std::log1p(-f) / std::log1p(-r), "pours to the brim");
        p.brim = whole_up(p.brim_exact);
    }
    return p;
}

Mass pigment_per_vessel(const Vessel& vessel, const PaintVolumes& volumes, Mass pigment) {
    const Volume paint = filling_volume(vessel, volumes);
    if (!(paint.value() > 0.0)) throw_out_of_range("volume of the paint", paint.value(), "m3", "above 0");
    return pigment * (paint_in_one(vessel) / paint);
}

Filling fill_vessels(const Vessel& vessel, const PaintVolumes& volumes, const BatchPigment& pigment) {
    Filling f;
    f.vessel = vessel;
    f.paint_per_vessel = paint_in_one(vessel);
    f.pigment_per_vessel = pigment_per_vessel(vessel, volumes, pigment.weighed);
    f.vessels_exact = countable(pigment.kept / f.pigment_per_vessel, "vessels filled");
    f.vessels = whole_down(f.vessels_exact);
    f.wet_per_vessel = volumes.wet * (f.pigment_per_vessel / pigment.weighed);
    f.headspace = vessel.capacity.value() - f.paint_per_vessel;
    const Volume wet_kept = volumes.wet * (pigment.kept / pigment.weighed);
    f.wet_left_over = wet_kept - f.wet_per_vessel * static_cast<double>(f.vessels);
    if (f.wet_left_over.value() < 0.0) f.wet_left_over = Volume();
    if (vessel.filled_by == FilledBy::dry_volume && volumes.cake < volumes.wet)
        f.pours = pours(vessel.fill, volumes.dry_fraction);
    return f;
}

} // namespace lakebound
