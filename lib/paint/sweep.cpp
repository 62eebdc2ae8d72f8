#include "lakebound/paint/sweep.hpp"

#include <algorithm>
#include <cmath>

#include "vector_clones.hpp"
#include "vector_functions.hpp"

namespace lakebound {
namespace {

using detail::require_positive;

void check(const SweepColumns& c, double from, double to, double spread) {
    const std::size_t n = c.at.size();
    for (const std::size_t other :
         {c.k.size(), c.pvc.size(), c.cpvc.size(), c.reduced_pvc.size(), c.chance_underbound.size()})
        if (other != n)
            throw_out_of_range("length of a sweep column", static_cast<double>(other), "",
                               "that of the others");
    if (n < 2 || n > greatest_sweep)
        throw_out_of_range("points of the sweep", static_cast<double>(n), "", "2 to 1000000");
    if (!(from <= to)) throw_out_of_range("start of the sweep", from, "", "at most its end");
    if (!(spread >= 0.0 && std::isfinite(spread)))
        throw_out_of_range("spread of ln k", spread, "", "0 or more");
}

/// Straight lines in the position: binder, demand and pigment volume per mass at x are b0 + x b1, ...
struct Lines {
    double from, step;
    double b0, b1, q0, q1, v0, v1;
    double steepness; ///< -1/sigma; so steep a slope at sigma 0 that the chance is a step
};

/// Enough points to hide the cost of a call, few enough to stay in the first cache.
constexpr std::size_t block = 256;

LAKEBOUND_VECTOR_CLONES
void fill(const Lines& l, std::size_t first, std::size_t n, double* __restrict at, double* __restrict k,
          double* __restrict pvc, double* __restrict cpvc, double* __restrict reduced,
          double* __restrict chance) {
    double index[block];
    for (std::size_t i = 0; i < n; ++i)
        index[i] = static_cast<double>(static_cast<int>(first + i));
    for (std::size_t i = 0; i < n; ++i) {
        const double x = l.from + index[i] * l.step;
        const double b = l.b0 + x * l.b1, q = l.q0 + x * l.q1, v = l.v0 + x * l.v1;
        const double per_film = 1.0 / (v + b), kk = b / q;
        at[i] = x;
        k[i] = kk;
        pvc[i] = v * per_film;
        cpvc[i] = v / (v + q);
        reduced[i] = (v + q) * per_film;
    }
    // Loops of their own: together they need more registers than there are.
    double ln_k[block];
    for (std::size_t i = 0; i < n; ++i)
        ln_k[i] = detail::vector_log(k[i]);
    for (std::size_t i = 0; i < n; ++i)
        chance[i] = detail::vector_normal_cdf(l.steepness * ln_k[i]);
}

void run(const Lines& l, double to, const SweepColumns& c) {
    const std::size_t n = c.at.size();
    for (std::size_t first = 0; first < n; first += block)
        fill(l, first, std::min(block, n - first), c.at.data() + first, c.k.data() + first,
             c.pvc.data() + first, c.cpvc.data() + first, c.reduced_pvc.data() + first,
             c.chance_underbound.data() + first);
    c.at.back() = to; // not a rounding error beside it
}

double steepness(double spread) { return spread > 0.0 ? std::max(-1.0 / spread, -1e300) : -1e300; }

} // namespace

void sweep_medium(const MediumSweep& s, const SweepColumns& c) {
    check(c, s.from.value(), s.to.value(), s.spread);
    require_positive(s.dry_binder.value(), "dry binder in the medium", "m3/kg");
    require_positive(s.demand.value(), "binder demand", "m3/kg");
    require_positive(s.density.value(), "pigment density", "kg/m3");
    if (!(s.binder_of_additives.value() >= 0.0))
        throw_out_of_range("binder of the additives", s.binder_of_additives.value(), "m3/kg", "0 or more");
    require_positive(s.binder_of_additives.value() + s.from.value() * s.dry_binder.value(),
                     "binder at the start of the sweep", "m3/kg");
    run({s.from.value(), (s.to.value() - s.from.value()) / static_cast<double>(c.at.size() - 1),
         s.binder_of_additives.value(), s.dry_binder.value(), s.demand.value(), 0.0, 1.0 / s.density.value(),
         0.0, steepness(s.spread)},
        s.to.value(), c);
}

void sweep_extender(const ExtenderSweep& s, const SweepColumns& c) {
    check(c, s.from.value(), s.to.value(), s.spread);
    require_positive(s.binder.value(), "binder of the sweep", "m3/kg");
    require_positive(s.demand.value(), "binder demand of the pigment", "m3/kg");
    require_positive(s.extender_demand.value(), "binder demand of the extender", "m3/kg");
    require_positive(s.density.value(), "pigment density", "kg/m3");
    require_positive(s.extender_density.value(), "extender density", "kg/m3");
    const double v0 = 1.0 / s.density.value(), v1 = 1.0 / s.extender_density.value();
    run({s.from.value(), (s.to.value() - s.from.value()) / static_cast<double>(c.at.size() - 1),
         s.binder.value(), 0.0, s.demand.value(), s.extender_demand.value() - s.demand.value(), v0, v1 - v0,
         steepness(s.spread)},
        s.to.value(), c);
}

} // namespace lakebound
