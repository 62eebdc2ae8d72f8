#include "lakebound/particle/levigation.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

constexpr unsigned most_pours = 1000;

/// To a thousandth: a depth typed in inches is not refused with 15 digits.
std::string readable(double x) { return number_text(std::round(x * 1e3) / 1e3); }

void check(const PourOff& how) {
    if (!(in_metres(how.total_depth) > 0.0))
        throw_out_of_range("depth of the vessel", in_millimetres(how.total_depth), "mm", "above 0");
    if (!(in_metres(how.draw_depth) > 0.0 && how.draw_depth <= how.total_depth))
        throw DomainError("depth poured off", readable(in_millimetres(how.draw_depth)) + " mm",
                          "above 0 and at most the depth of the liquid, " +
                              readable(in_millimetres(how.total_depth)) + " mm",
                          "pour off less, or fill deeper");
    if (!(in_seconds(how.wait) >= 0.0)) throw_out_of_range("wait", in_seconds(how.wait), "s", "0 or more");
    if (how.pours < 1 || how.pours > most_pours)
        throw_out_of_range("number of pour-offs", static_cast<double>(how.pours), "", "1 to 1000");
}

double once(double diameter, const PourOff& how, const Slurry& slurry) {
    const double h = in_metres(how.draw_depth), H = in_metres(how.total_depth), t = in_seconds(how.wait);
    if (t <= 0.0) return h / H;
    const Settling alone = terminal_velocity(metres(diameter), slurry.grain, slurry.fluid);
    return std::max(0.0, (h - in_metres_per_second(hindered_velocity(alone, slurry.solids)) * t) / H);
}

double after(double share_once, unsigned pours) { // of 1 too: its logarithm is minus infinity
    return -std::expm1(static_cast<double>(pours) * std::log1p(-share_once));
}

double passing_of(const Levigated& result, Length size, double LevigatedClass::*part, double total) {
    if (!(total > 0.0)) throw DomainError("levigated grains", "none", "some grains on that side of the cut");
    double sum = 0.0;
    for (const auto& c : result.classes) {
        // Within a class the mass counts as even over ln d, as before the pour.
        const double low = in_metres(c.of.lower), high = in_metres(c.of.upper), d = in_metres(size);
        sum += c.*part * std::clamp(std::log(std::max(d, low) / low) / std::log(high / low), 0.0, 1.0);
    }
    return std::min(1.0, sum / total);
}

} // namespace

Mass powder_in_volume(Volume stirred, MassDensity solid, const Slurry& slurry) {
    const double s = in_kilograms_per_cubic_metre(solid), g = in_kilograms_per_cubic_metre(slurry.grain),
                 w = in_kilograms_per_cubic_metre(slurry.fluid.density);
    // The relative margin lets a grain fitted to fall as the solid does pass for solid.
    if (!(g > w && g <= s * (1.0 + 1e-9)))
        throw DomainError("grain density", readable(g / 1000.0) + " g/cm3",
                          "above that of the liquid and at most that of the solid");
    return slurry.solids.value() * stirred * solid * ((g - w) / (s - w));
}

double pour_off_recovery(Length diameter, const PourOff& how, const Slurry& slurry) {
    check(how);
    return after(once(in_metres(diameter), how, slurry), how.pours);
}

unsigned pours_for_recovery(Length diameter, double share, PourOff how, const Slurry& slurry) {
    how.pours = 1;
    check(how);
    if (!(share >= 0.0 && share < 1.0)) throw_out_of_range("share to recover", share, "", "0 to below 1");
    const double each = once(in_metres(diameter), how, slurry);
    if (!(each > 0.0))
        throw DomainError("grain size to recover", micrometre_text(diameter),
                          "finer than the cut of this pour-off", "wait for less time, or draw deeper");
    const double needed = std::ceil(std::log1p(-share) / std::log1p(-each) - 1e-9);
    if (!(needed <= static_cast<double>(most_pours)))
        throw_out_of_range("number of pour-offs", needed, "", "up to 1000; the size is too near the cut");
    return std::max(1u, static_cast<unsigned>(needed));
}

std::vector<SizeClass> size_classes(const PassingCurve& curve, Length finest, Length top) {
    check_curve(curve);
    const auto& points = curve.points;
    if (!(in_metres(finest) > 0.0 && finest < points.front().size))
        throw_out_of_range("finest grain", in_micrometres(finest), "um", "above 0 and below the finest screen");
    if (!(top > points.back().size))
        throw_out_of_range("largest grain", in_micrometres(top), "um", "above the coarsest screen");
    std::vector<SizeClass> classes{{finest, points.front().size, points.front().passing}};
    for (std::size_t i = 1; i < points.size(); ++i)
        classes.push_back({points[i - 1].size, points[i].size,
                           MassFraction::of(points[i].passing.value() - points[i - 1].passing.value())});
    classes.push_back({points.back().size, top, complement(points.back().passing)});
    return classes;
}

Levigated levigate(std::span<const SizeClass> classes, const PourOff& how, const Slurry& slurry) {
    check(how);
    Levigated out;
    // Only grains below the cut are asked for their velocity, so the drag law's upper end never matters.
    double cut = 0.0;
    if (in_seconds(how.wait) > 0.0) {
        out.cut = cut_size(how.draw_depth, how.wait, slurry.grain, slurry.fluid, slurry.solids);
        cut = in_metres(out.cut);
    }
    constexpr int slices = 64;
    for (const auto& c : classes) {
        const double low = in_metres(c.lower), high = in_metres(c.upper);
        if (!(low > 0.0 && high > low))
            throw_out_of_range("upper size of a class", high * 1e6, "um",
                               "above its lower size, which is above 0");
        double mean = 0.0;
        if (cut <= 0.0)
            mean = after(once(low, how, slurry), how.pours);
        else if (cut > low) {
            // Midpoint slices over the part of the class below the cut; the rest stays behind.
            const double end = std::min(high, cut), step = std::log(end / low) / slices;
            for (int i = 0; i < slices; ++i)
                mean += after(once(low * std::exp((i + 0.5) * step), how, slurry), how.pours) / slices;
            mean *= std::log(end / low) / std::log(high / low);
        }
        const double poured = c.share.value() * std::min(1.0, mean), left = c.share.value() - poured;
        out.poured += poured;
        out.left += left;
        out.classes.push_back({c, poured, left});
    }
    return out;
}

double poured_passing(const Levigated& result, Length size) {
    return passing_of(result, size, &LevigatedClass::poured, result.poured);
}
double left_passing(const Levigated& result, Length size) {
    return passing_of(result, size, &LevigatedClass::left, result.left);
}

LevigationPlan plan_levigation(Length cut, Length total_depth, Length draw_depth, unsigned pours,
                               const Slurry& slurry, const LevigationHandling& handling) {
    if (!(in_micrometres(cut) >= finest_cut_micrometres * (1.0 - 1e-9)))
        throw DomainError("cut", number_text(std::round(in_micrometres(cut) * 1e4) / 1e4) + " um",
                          number_text(finest_cut_micrometres) + " um or coarser",
                          "heat keeps finer grains afloat, so that settling cannot part them: cut coarser");
    const double fill = in_seconds(handling.fill_and_stir), pour = in_seconds(handling.pour);
    if (!(fill >= 0.0)) throw_out_of_range("time to fill and stir", fill, "s", "0 or more");
    if (!(pour >= 0.0)) throw_out_of_range("time to pour", pour, "s", "0 or more");
    LevigationPlan plan;
    plan.how = {total_depth, draw_depth, seconds(0), pours};
    check(plan.how);
    plan.how.wait = settling_time(cut, draw_depth, slurry.grain, slurry.fluid, slurry.solids);
    const double wait = in_seconds(plan.how.wait);
    double clock = 0.0;
    for (unsigned i = 1; i <= pours; ++i) {
        clock += fill;
        plan.steps.push_back({i, seconds(clock), seconds(clock + wait)});
        clock += wait + pour;
    }
    plan.elapsed = seconds(clock);
    plan.hands = seconds(static_cast<double>(pours) * (fill + pour));
    return plan;
}

} // namespace lakebound
