#include "lakebound/particle/packing.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void check(std::span<const PackingClass> classes) {
    if (classes.empty()) throw DomainError("blend", "no class", "one class at least");
    double sum = 0.0;
    for (const auto& c : classes) {
        const double beta = c.packing.value();
        if (!(beta > 0.0 && beta < 1.0))
            throw_out_of_range("packing of a class", beta, "", "above 0 and below 1");
        if (!(in_metres(c.diameter) > 0.0))
            throw_out_of_range("diameter of a class", in_micrometres(c.diameter), "um", "above 0");
        sum += c.volume_share.value();
    }
    if (!(std::abs(sum - 1.0) <= 1e-6))
        throw_out_of_range("sum of the volume shares", sum, "", "1 within 1e-6");
}

/// Coarse grains loosened by finer ones that do not fit their gaps.
double loosening(double ratio) { return std::sqrt(1.0 - std::pow(1.0 - ratio, 1.02)); }
/// Fine grains held apart by the wall of coarser ones.
double wall(double ratio) { return 1.0 - std::pow(1.0 - ratio, 1.5); }

double additive(std::span<const PackingClass> classes) {
    double volume = 0.0;
    for (const auto& c : classes)
        volume += c.volume_share.value() / c.packing.value();
    return 1.0 / volume;
}

double jam_at(std::span<const PackingClass> classes, std::size_t i) {
    const double beta = classes[i].packing.value(), d = in_metres(classes[i].diameter);
    double room = 1.0;
    for (std::size_t j = 0; j < classes.size(); ++j) {
        if (j == i) continue;
        const double beta_j = classes[j].packing.value(), d_j = in_metres(classes[j].diameter);
        const double y = classes[j].volume_share.value();
        if (d_j > d)
            room -= (1.0 - beta + wall(d / d_j) * beta * (1.0 - 1.0 / beta_j)) * y;
        else
            room -= (1.0 - loosening(d_j / d) * beta / beta_j) * y;
    }
    return beta / room;
}

} // namespace

VolumeFraction random_close_packing(double delta, double skewness) {
    if (!(delta >= 0.0 && delta <= 0.5))
        throw_out_of_range("relative spread of diameter", delta, "", "0 to 0.5");
    if (!(skewness >= -1.0 && skewness <= 2.0))
        throw_out_of_range("skewness of diameter", skewness, "", "-1 to 2");
    return VolumeFraction::of(0.634 + 0.0658 * delta + 0.0857 * skewness * delta * delta);
}

BinaryLimit furnas_binary_limit(VolumeFraction f) {
    const double x = f.value();
    if (!(x > 0.0 && x < 1.0)) throw_out_of_range("packing of one size", x, "", "above 0 and below 1");
    return {VolumeFraction::of(x + x * (1.0 - x)), VolumeFraction::of(1.0 / (2.0 - x))};
}

VolumeFraction additive_packing_fraction(std::span<const PackingClass> classes) {
    check(classes);
    return VolumeFraction::of(additive(classes));
}

LinearPacking linear_packing_fraction(std::span<const PackingClass> classes) {
    check(classes);
    LinearPacking out;
    const double floor = additive(classes);
    double best = 0.0, finest = 0.0, coarsest = 0.0;
    bool first = true;
    for (std::size_t i = 0; i < classes.size(); ++i) {
        // A class that is absent cannot jam.
        if (!(classes[i].volume_share.value() > 0.0)) continue;
        const double g = jam_at(classes, i), d = in_metres(classes[i].diameter);
        if (first || g < best) best = g, out.dominant = i;
        finest = first ? d : std::min(finest, d);
        coarsest = first ? d : std::max(coarsest, d);
        first = false;
    }
    out.additive = VolumeFraction::of(floor);
    // g_i cannot lie below the additive rule; rounding can.
    out.packing = VolumeFraction::of(std::max(best, floor));
    if (finest < 1e-6)
        out.validity = PackingValidity::colloidal;
    else if (coarsest < 1.5 * finest)
        out.validity = PackingValidity::near_equal;
    return out;
}

} // namespace lakebound
