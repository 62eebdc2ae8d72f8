#pragma once
// A size distribution by its cumulative passing curve: percentiles, passing at a size, surface.
//
// The curve is linear in passing against the logarithm of size between neighbouring screens. Beyond
// the screens nothing was measured; whatever is said there is flagged.

#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/sieve_test.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct PassingPoint {
    Length size;
    MassFraction passing;
};

/// Points from fine to coarse: sizes rise strictly, passing never falls.
struct PassingCurve {
    std::vector<PassingPoint> points;
};

/// Checks the order; throws DomainError when sizes do not rise, passing falls, or there are no points.
void check_curve(const PassingCurve& curve);

/// The curve of a sieve analysis, one point per screen.
[[nodiscard]] PassingCurve passing_curve(const SieveAnalysis& analysis);

/// Where an answer lies against the screens that were used.
enum class Reach {
    within,        ///< between two screens
    below_finest,  ///< finer than the finest screen: not measured
    above_coarsest ///< coarser than the coarsest screen: not measured
};
template <> struct WordTable<Reach> {
    static constexpr WordRow<Reach> rows[] = {
        {Reach::within, "within"},
        {Reach::below_finest, "below finest"},
        {Reach::above_coarsest, "above coarsest"},
    };
};

struct Percentile {
    Length size; ///< within: D_p; below_finest: D_p is at most this; above_coarsest: at least this
    Reach reach = Reach::within;
};

/// D_p, the size that a share p of the mass passes: linear in passing against ln size.
/// Beyond the screens the size is only a bound, and says so. p above 0 and below 1.
/// Errors: DomainError for p, for a bad curve and for a single-screen curve.
[[nodiscard]] Percentile percentile(const PassingCurve& curve, MassFraction p);

struct Percentiles {
    Percentile d10, d50, d80, d90;
    std::optional<double> span; ///< (D90 - D10) / D50; nothing unless all three were measured
};
/// D10, D50, D80, D90 and the span. Errors: as percentile.
[[nodiscard]] Percentiles percentiles(const PassingCurve& curve);

struct PassingAt {
    MassFraction passing;
    Reach reach = Reach::within; ///< not within: the last segment drawn on, kept in 0 to 1; a guess
};
/// Passing at a size. Beyond the screens the last segment is drawn on and flagged. Two screens at least.
[[nodiscard]] PassingAt passing_at(const PassingCurve& curve, Length size);

/// Share of the mass that is coarser than `screen` and must go back to the mortar.
[[nodiscard]] PassingAt share_to_regrind(const PassingCurve& curve, Length screen);

/// What the surface estimate had to assume.
struct SurfaceAssumption {
    Length pan_mean;                ///< mean size of what passed the finest screen; the dominant guess
    std::optional<Length> top_size; ///< largest grain; twice the coarsest screen when not given
};

struct SurfaceEstimate {
    double square_metres_per_kilogram = 0.0; ///< total
    double from_screens = 0.0;               ///< the part that the screens saw
    double from_pan = 0.0;                   ///< the part that rests on pan_mean
    Length top_size;                         ///< as used
};

/// Geometric surface per mass: S = sum 6 f_i / (rho sqrt(lower upper)), spheres, no roughness or pores.
/// Errors: DomainError for density not above 0, pan_mean outside 0 to the finest screen, top_size below
/// the coarsest screen. Source: geometry. A lower bound for a lake, whose inner surface is far larger.
[[nodiscard]] SurfaceEstimate surface_estimate(const PassingCurve& curve, MassDensity density,
                                               const SurfaceAssumption& assumed);

} // namespace lakebound
