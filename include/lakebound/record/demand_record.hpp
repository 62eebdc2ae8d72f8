#pragma once
// Demand record: what a maker's studio has seen of how much binder its jars want.
//
// Scale of work. A paint of dry binder volume V_b and pigment mass m_p stands at the k of the library,
//   x = ln(V_b / (m_p q_ref)),   q_ref = OA_ref / rho_ref of the class, so x = ln binder_sufficiency(V_b, m_p, q_ref)
// and a rub-out at y = ln(OA / OA_ref). Neither needs what was believed of the jar on its day, so neither changes
// its meaning when a later reading arrives: a swatch is kept by its masses, never by the k of that day.
// Where a binder index applies (yolk) q_ref is the effective demand at its nominal value; its doubt is in the step.

#include <cstddef>
#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct StudioJar {
    std::size_t plant = 0;
    OilAbsorption reference; ///< OA_ref: of its class in the library
    /// Times it was ground again or lay damp. Readings made before count as much less (regrind_spread each time).
    std::size_t changes = 0;
    bool unlike_its_kin = false; ///< taken out of its plant's jars
};

struct RubOutReading {
    std::size_t jar = 0;
    OilAbsorption oil_absorption;
    std::size_t changes = 0;     ///< of the jar before this reading
    double reading_spread = 0.0; ///< ln-sd of scale and dropper where they are coarse, else 0
    /// ln-sd of a figure that was brought in ready-made, hand and all; its own repeats are not known.
    std::optional<double> stated_spread{};
};

/// What was seen. A test that only rubs says lean or not lean; one that was also watched for shine, cracks
/// and stickiness says which side, or neither.
enum class PaintOutcome {
    lean,     ///< chalks
    not_lean, ///< does not chalk; not watched for more
    holds,    ///< neither lean nor rich
    rich,     ///< shines, cracks, stays sticky, wrinkles; does not chalk
};

/// A swatch, or a batch in use. Of one batch at most one outcome.
struct PaintTrial {
    std::size_t jar = 0;
    std::size_t family = 0;
    BinderSufficiency library_k;  ///< exp(x)
    double weighing_spread = 0.0; ///< ln-sd of x from the weighing
    PaintOutcome outcome = PaintOutcome::not_lean;
    bool in_use = false; ///< judged as a paint in use, not as a swatch by the chalk test
    std::size_t changes = 0;
    std::optional<std::size_t> lot; ///< of medium; trials that name the same lot of a kind share it
};

struct DemandRecord {
    std::vector<StudioJar> jars;
    std::vector<RubOutReading> rub_outs;
    std::vector<PaintTrial> trials;
};

/// Which jar, painted as which family, with which lot of medium.
struct DemandQuestion {
    std::size_t jar = 0;
    std::size_t family = 0;
    std::optional<std::size_t> lot;
};

} // namespace lakebound
