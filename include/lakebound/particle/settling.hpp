#pragma once
// Settling of single grains in water: velocity, cut size, hindrance, and the density of open grains.
//
// For grains that fall one by one. A lake just precipitated is flocculated and settles as a zone:
// use zone_settling.hpp for washing.

#include <boost/units/systems/si/acceleration.hpp>

#include "lakebound/export.hpp"
#include "lakebound/particle/water.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

using Acceleration = boost::units::quantity<si::acceleration>; ///< m/s2
/// Standard gravity, 9.80665 m/s2 (definition).
inline constexpr Acceleration standard_gravity = Acceleration::from_value(9.80665);

/// The liquid that grains fall through, and the pull on them.
struct Fluid {
    MassDensity density;
    DynamicViscosity viscosity;
    Acceleration gravity = standard_gravity;
};
/// Water at a temperature; range and errors of water.hpp.
[[nodiscard]] Fluid water_at(Temperature temperature);

/// Throws DomainError unless a grain of this density sinks in the fluid.
void check_sinks(MassDensity grain, const Fluid& fluid);

/// Stokes' velocity, v = (rho_p - rho_f) g d^2 / (18 mu), whatever its Reynolds number.
/// Range: d above 0, rho_p above rho_f. Errors: DomainError; a lighter grain floats. Source: stokes-1851.
[[nodiscard]] Velocity stokes_velocity(Length diameter, MassDensity grain, const Fluid& fluid);

/// Re = rho_f v d / mu.
[[nodiscard]] double reynolds_number(Length diameter, Velocity velocity, const Fluid& fluid);

/// d* = d (g (rho_p - rho_f) rho_f / mu^2)^(1/3), which tells the settling regime without a velocity.
/// Range: as stokes_velocity. Source: rouweler-worksheet.
[[nodiscard]] double dimensionless_diameter(Length diameter, MassDensity grain, const Fluid& fluid);

struct Settling {
    Velocity velocity;
    double reynolds = 0.0;
    double drag = 1.0; ///< v_stokes / v: how much more drag there is than Stokes' law has
};

/// True when drag beyond Stokes' law slows the fall by more than 1 %.
[[nodiscard]] constexpr bool beyond_stokes(const Settling& settling) noexcept { return settling.drag > 1.01; }

/// Terminal velocity, v = v_stokes / drag, iterated, with
///   drag = the lesser of 1 + 3/16 Re and 1 + 0.15 Re^0.687, which cross at Re 0.49
/// so that Stokes' law runs into the drag law without a seam.
/// Range: Re up to 800. Errors: DomainError beyond, and as stokes_velocity.
/// Accuracy for spheres, against lapple-shepherd-1940 (value from memory): 0.2 % at Re 0.1, 2 % slow at 0.5
/// and 1, 3 % fast at 10, 0.2 % at 100, 2 % fast at 700.
/// Source: oseen-1910 (theory), schiller-naumann-1933 (value from memory).
[[nodiscard]] Settling terminal_velocity(Length diameter, MassDensity grain, const Fluid& fluid);

/// Exponent n of Richardson and Zaki at a terminal Reynolds number:
///   4.65 below 0.2; 4.35 Re^-0.03 to 1; 4.45 Re^-0.1 to 500; 2.39 above.
/// The pieces do not meet as printed. At 0.2 they step down by 1.8 % (4.65 to 4.57) and are left so. The middle
/// two would step up by 2.3 % at 1; the lesser is taken, so that 4.35 Re^-0.03 holds to Re 1.38, where they
/// cross. 4.45 Re^-0.1 is never let below 2.39, which it meets at Re 501.
/// Source: richardson-zaki-1954 (4.65 published; the other pieces value from memory).
[[nodiscard]] double richardson_zaki_exponent(double reynolds);

/// v_hindered = v (1 - phi)^n. Range: phi 0 to 0.4, dispersed grains. Errors: DomainError.
/// Source: richardson-zaki-1954.
[[nodiscard]] Velocity hindered_velocity(const Settling& alone, VolumeFraction solids);

/// In um: heat keeps finer grains afloat, so that no cut can be made there (estimate).
inline constexpr double finest_cut_micrometres = 0.1;

/// The size that falls exactly `depth` in `time`: coarser grains are below, finer ones spread.
/// Inverts terminal_velocity with hindrance; in Stokes' range d = sqrt(18 mu depth / ((rho_p - rho_f) g time)).
/// Range: depth, time above 0; a cut of 0.1 um to 2 mm. Errors: DomainError outside.
[[nodiscard]] Length cut_size(Length depth, Time time, MassDensity grain, const Fluid& fluid, VolumeFraction solids = {});

/// How long grains of this size need for `depth`. Errors: as terminal_velocity, hindered_velocity.
[[nodiscard]] Time settling_time(Length diameter, Length depth, MassDensity grain, const Fluid& fluid,
                                 VolumeFraction solids = {});

/// The density that makes grains of a known size fall `depth` in the time observed: an open agglomerate
/// with water in its pores is lighter than its solid. Inverts terminal_velocity.
/// Range: the answer above the fluid and at most `solid`; beyond it grains were coarser than thought, or
/// had clumped. Errors: DomainError. Source: stokes-1851, schiller-naumann-1933 (value from memory).
[[nodiscard]] MassDensity effective_density(Length diameter, Length depth, Time time, const Fluid& fluid, MassDensity solid);

/// Water in such a grain, by volume: (solid - grain)/(solid - fluid), from 0 to 1.
/// Range: solid denser than the fluid, else DomainError; a grain beyond either counts as that one.
[[nodiscard]] VolumeFraction open_share(MassDensity grain, MassDensity solid, const Fluid& fluid);

} // namespace lakebound
