#pragma once
// Chance kernel: a million draws of one paint's ten uncertain inputs, for when the closed form is
// not enough and the general Monte Carlo of the estimate floor is not fast enough.
//
//   m = m_p w,  q = OA t/rho_o,  V_p = m/rho_p,  V_b = M n/rho_s
//   k = e V_b/(m q),  PVC = V_p/(V_p + V_b),  c = V_p/(V_p + m q/e),  Lambda = PVC/c
// the formulas of pvc.hpp over blocks of draws. Propagation of distributions by jcgm-101; normal
// variates by Box and Muller (box-muller-1958) from interleaved xoshiro256++ streams
// (blackman-vigna-2021). Reproducible: every 16384 draws have streams of their own, so the answer depends
// on the seed and the number of draws, and not on threads, nor on the machine.
// Speed: docs/performance.md; the limit is arithmetic (logarithm, sine, cosine and ten variates a draw).

#include <array>
#include <cstddef>
#include <cstdint>

#include "lakebound/estimate/distribution.hpp"
#include "lakebound/export.hpp"
#include "lakebound/paint/family.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The inputs in canonical units, independent of each other. Each is exact, normal or lognormal with a
/// location above 0; the spread of a normal one at most a tenth of its location, so that no draw comes
/// near zero (a wider one is better told as lognormal).
struct PaintInputs {
    Distribution pigment_mass;     ///< m_p, kg
    Distribution moisture_factor;  ///< w, of the pigment mass, about 1
    Distribution oil_absorption;   ///< OA, g/g
    Distribution test_oil_density; ///< rho_o, kg/m3
    Distribution method_transfer;  ///< t, of the demand, about 1
    Distribution pigment_density;  ///< rho_p, kg/m3
    Distribution medium_mass;      ///< M, kg
    Distribution binder_solids;    ///< n, share of the medium that stays, g/g
    Distribution solids_density;   ///< rho_s, kg/m3
    Distribution binder_index;     ///< e; a draw above 1 counts as 1
};

struct DrawnMoments {
    double mean = 0.0;
    double standard_deviation = 0.0;
};

struct PaintDraws {
    std::size_t draws = 0;
    DrawnMoments k, ln_k, pvc, cpvc, reduced_pvc;
    double pvc_cpvc_correlation = 0.0; ///< 0 when either has no spread
    // Shares of the draws.
    double underbound = 0.0; ///< k < 1
    double below_amber = 0.0, below_green = 0.0, above_green = 0.0, above_amber = 0.0;
    /// sqrt(p (1-p)/draws) of a share p, the error of the drawing itself.
    double standard_error(double share) const noexcept;
};

/// Throws DomainError for fewer than 2 or more than 1e8 draws, and for an input out of the ranges above.
/// threads: 0 and 1 mean the caller's own; at most 64.
[[nodiscard]] PaintDraws draw_paint(const PaintInputs& inputs, const SufficiencyWindow& window, std::size_t draws,
                                    std::uint64_t seed = 1, unsigned threads = 1);

} // namespace lakebound
