#include "lakebound/particle/settling.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

constexpr double drag_limit = 800.0; // Reynolds number up to which the drag law is used
constexpr double finest_cut = finest_cut_micrometres * 1e-6, coarsest_cut = 2e-3;

double oseen(double reynolds) { return 1.0 + 3.0 / 16.0 * reynolds; }
double schiller_naumann(double reynolds) { return 1.0 + 0.15 * std::pow(reynolds, 0.687); }
/// The lesser: Oseen's up to Re 0.490, where they cross.
double drag_factor(double reynolds) { return std::min(oseen(reynolds), schiller_naumann(reynolds)); }

void check(Length diameter, MassDensity grain, const Fluid& fluid) {
    if (!(in_metres(diameter) > 0.0))
        throw_out_of_range("grain size", in_micrometres(diameter), "um", "above 0");
    if (!(in_kilograms_per_cubic_metre(fluid.density) > 0.0 && in_pascal_seconds(fluid.viscosity) > 0.0))
        throw DomainError("fluid", "density or viscosity of 0", "both above 0");
    check_sinks(grain, fluid);
}

/// Re * drag_factor(Re) = rho v_stokes d / mu; the left side rises, so Newton from above converges.
double corrected_reynolds(double stokes_reynolds) {
    // Re (1 + 3/16 Re) in closed form, without cancellation.
    double re = 2.0 * stokes_reynolds / (1.0 + std::sqrt(1.0 + 0.75 * stokes_reynolds));
    if (oseen(re) <= schiller_naumann(re)) return re;
    re = stokes_reynolds;
    for (int i = 0; i < 60; ++i) {
        const double p = 0.15 * std::pow(re, 0.687);
        const double step = (re * (1.0 + p) - stokes_reynolds) / (1.0 + 1.687 * p);
        re -= step;
        if (std::abs(step) <= 1e-15 * re) break;
    }
    return re;
}

void check_path(Length depth, Time time) {
    if (!(in_metres(depth) > 0.0)) throw_out_of_range("depth of fall", in_millimetres(depth), "mm", "above 0");
    if (!(in_seconds(time) > 0.0)) throw_out_of_range("settling time", in_seconds(time), "s", "above 0");
}

double speed(double diameter, MassDensity grain, const Fluid& fluid, VolumeFraction solids) {
    return in_metres_per_second(hindered_velocity(terminal_velocity(metres(diameter), grain, fluid), solids));
}

} // namespace

Fluid water_at(Temperature temperature) { return {water_density(temperature), water_viscosity(temperature)}; }

void check_sinks(MassDensity grain, const Fluid& fluid) {
    if (!(grain > fluid.density))
        throw DomainError("grain density",
                          number_text(std::round(in_grams_per_cubic_centimetre(grain) * 1e3) / 1e3) + " g/cm3",
                          "above that of the liquid",
                          "lighter grains float; give the density of the solid, not that of the loose powder");
}

Velocity stokes_velocity(Length diameter, MassDensity grain, const Fluid& fluid) {
    check(diameter, grain, fluid);
    const double d = in_metres(diameter);
    const double excess = in_kilograms_per_cubic_metre(grain - fluid.density);
    return metres_per_second(excess * fluid.gravity.value() * d * d /
                             (18.0 * in_pascal_seconds(fluid.viscosity)));
}

double reynolds_number(Length diameter, Velocity velocity, const Fluid& fluid) {
    return in_kilograms_per_cubic_metre(fluid.density) * in_metres_per_second(velocity) * in_metres(diameter) /
           in_pascal_seconds(fluid.viscosity);
}

double dimensionless_diameter(Length diameter, MassDensity grain, const Fluid& fluid) {
    check(diameter, grain, fluid);
    const double mu = in_pascal_seconds(fluid.viscosity);
    return in_metres(diameter) *
           std::cbrt(fluid.gravity.value() * in_kilograms_per_cubic_metre(grain - fluid.density) *
                     in_kilograms_per_cubic_metre(fluid.density) / (mu * mu));
}

Settling terminal_velocity(Length diameter, MassDensity grain, const Fluid& fluid) {
    const Velocity free = stokes_velocity(diameter, grain, fluid);
    const double stokes_re = reynolds_number(diameter, free, fluid);
    const double re = corrected_reynolds(stokes_re);
    if (!(re <= drag_limit))
        throw DomainError("Reynolds number of the falling grain", fixed_text(re, 0), "800 at most",
                          "the grain is too coarse to levigate: sieve it out");
    const double drag = drag_factor(re);
    return {free / drag, re, drag};
}

double richardson_zaki_exponent(double reynolds) {
    if (!(reynolds >= 0.0)) throw_out_of_range("Reynolds number", reynolds, "", "0 upward");
    if (reynolds < 0.2) return 4.65;
    return std::max(2.39, std::min(4.35 * std::pow(reynolds, -0.03), 4.45 * std::pow(reynolds, -0.1)));
}

Velocity hindered_velocity(const Settling& alone, VolumeFraction solids) {
    if (!(solids.value() <= 0.4))
        throw DomainError("volume fraction of solids", number_text(100.0 * solids.value()) + " %", "0 to 40 %",
                          "thicker slurries sink as one: thin it with water");
    return alone.velocity * std::pow(1.0 - solids.value(), richardson_zaki_exponent(alone.reynolds));
}

Length cut_size(Length depth, Time time, MassDensity grain, const Fluid& fluid, VolumeFraction solids) {
    check_path(depth, time);
    const double wanted = in_metres(depth) / in_seconds(time);
    const auto refuse = [&](const char* valid) -> Length {
        throw DomainError("settling speed asked for", number_text(wanted * 1e3) + " mm/s", valid,
                          "choose another depth or time");
    };
    check(micrometres(1), grain, fluid);
    if (speed(finest_cut, grain, fluid, solids) > wanted) refuse("that of a grain of 0.1 um or coarser");
    // The coarsest grain the drag law covers, by halving, then the cut itself.
    double high = coarsest_cut;
    const auto covered = [&](double d) {
        try {
            speed(d, grain, fluid, solids);
            return true;
        } catch (const DomainError&) {
            return false;
        }
    };
    while (!covered(high))
        high *= 0.9;
    if (speed(high, grain, fluid, solids) < wanted)
        refuse("that of a grain of at most 2 mm and a Reynolds number of at most 800");
    double low = finest_cut;
    for (int i = 0; i < 200 && high - low > 1e-14 * high; ++i) {
        const double middle = std::sqrt(low * high);
        (speed(middle, grain, fluid, solids) > wanted ? high : low) = middle;
    }
    return metres(low);
}

Time settling_time(Length diameter, Length depth, MassDensity grain, const Fluid& fluid,
                   VolumeFraction solids) {
    if (!(in_metres(depth) > 0.0)) throw_out_of_range("depth of fall", in_millimetres(depth), "mm", "above 0");
    return seconds(in_metres(depth) /
                   in_metres_per_second(hindered_velocity(terminal_velocity(diameter, grain, fluid), solids)));
}

MassDensity effective_density(Length diameter, Length depth, Time time, const Fluid& fluid, MassDensity solid) {
    check_path(depth, time);
    check(diameter, solid, fluid);
    const double d = in_metres(diameter), v = in_metres(depth) / in_seconds(time);
    const double re = reynolds_number(diameter, metres_per_second(v), fluid);
    const double drag = drag_factor(re);
    const double excess =
        18.0 * in_pascal_seconds(fluid.viscosity) * v * drag / (fluid.gravity.value() * d * d);
    const MassDensity found = fluid.density + kilograms_per_cubic_metre(excess);
    if (!(in_kilograms_per_cubic_metre(found) <= in_kilograms_per_cubic_metre(solid) * (1.0 + 1e-9)))
        throw DomainError("effective density of the grains",
                          fixed_text(in_grams_per_cubic_centimetre(found), 2) + " g/cm3",
                          "at most the density of the solid, " +
                              fixed_text(in_grams_per_cubic_centimetre(solid), 2) + " g/cm3",
                          "they fell too fast: were they coarser than stated, or clumped?");
    return found;
}

VolumeFraction open_share(MassDensity grain, MassDensity solid, const Fluid& fluid) {
    if (!(solid > fluid.density))
        throw_out_of_range("density of the solid", in_grams_per_cubic_centimetre(solid), "g/cm3", "above that of the fluid");
    return VolumeFraction::of(std::clamp(double((solid - grain) / (solid - fluid.density)), 0.0, 1.0));
}

} // namespace lakebound
