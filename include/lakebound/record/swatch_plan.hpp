#pragma once
// Swatch plan: the masses of a swatch of a wanted k, on the maker's own scale.
//
//   k of the library = e V_b / (m_p q_ref),   V_b = m_medium v_b
// e binder index of the family, v_b dry binder per mass of medium, q_ref the demand of the jar's class. Both masses
// are rounded to the scale first, so that the k that is stated is the k of what is weighed. Its ln-sd is
//   hypot(s/m_p, s/m_medium), s of the scale (weighing.hpp).

#include <cstddef>

#include "lakebound/export.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/record/learning_habits.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What k is reckoned with.
struct SwatchPaint {
    SpecificVolume reference_demand;   ///< q_ref
    SpecificVolume binder_per_medium;  ///< v_b, above 0
    BinderIndex binder_index = BinderIndex::of(1.0);
};

struct SwatchWeighing {
    std::size_t scale = 0; ///< of the bench
    Mass powder{}, medium{};
    BinderSufficiency library_k; ///< of these masses
    double spread = 0.0;         ///< ln-sd of it
};

/// k of the library of a paint by its masses. DomainError unless the powder is above 0.
[[nodiscard]] BinderSufficiency library_k(const SwatchPaint& paint, Mass powder, Volume dry_binder);
/// ln-sd of the k of a paint weighed on this scale.
[[nodiscard]] double weighing_spread(const Scale& scale, Mass powder, Mass medium);

/// Powder of a swatch on the finest scale of the bench: the least of the habits, but so many steps of the scale.
[[nodiscard]] Mass swatch_powder(const LearningHabits& habits, const Bench& bench);

/// DomainError: a bench without a scale, k not above 0, a medium without binder.
[[nodiscard]] SwatchWeighing swatch_of(BinderSufficiency wanted, const SwatchPaint& paint, const LearningHabits& habits,
                         const Bench& bench);

} // namespace lakebound
