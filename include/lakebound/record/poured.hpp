#pragma once
// Poured: the slab got another amount of medium than the sheet said. What k that makes, and whether anything is to be done.
//
//   V_b = V_b of the sheet + (poured - planned) v_b,   k = e V_b / (m_p q_ref D)
// D demand of the jar over the library by its record (jar_outlook.hpp). It is left as it is where what could be added
// would raise the chance of the window by less than `worth_adding`; else it is brought to where the window is likeliest
// met (paint/rescue.hpp). Rule of this library (estimate).

#include <cstddef>

#include "lakebound/export.hpp"
#include "lakebound/paint/judgement.hpp"
#include "lakebound/paint/rescue.hpp"
#include "lakebound/quantity/difference.hpp"
#include "lakebound/record/swatch_plan.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Of chance: a point in a hundred, as finely as chances are told (estimate).
inline constexpr Probability::Difference worth_adding = Probability::Difference::of(0.01);

struct PouredQuestion {
    std::size_t batch = 0; ///< that it is of, among the jar's, the oldest first
    Mass powder{}, planned{}, poured{}; ///< powder of the sheet, medium of the sheet and of the slab
    BinderSufficiency planned_library_k;
    SwatchPaint paint;         ///< what k is reckoned with
    MassDensity medium{};      ///< as poured
    Mass swatch_powder{};      ///< of a swatch, 0 or more
    double demand_over_library = 1.0;
    NormalMixture doubt;       ///< of ln(true k / k)
    SufficiencyWindow window;
    std::optional<JarLeft> jar;
};

struct PouredAnswer {
    BinderSufficiency planned, now; ///< by this jar's own demand
    Probability in_window_planned, in_window_now;
    bool leave_it = false;
    Rescue rescue;             ///< to where the window is likeliest met; nothing to add where it is left
    Probability in_window_then;
    Mass mixed_powder{}, mixed_medium{}; ///< on the slab in the end, with what is added
    Mass more_powder{}; ///< of these, out of the jar since the sheet
    /// That a swatch of the slab in the end holds to `swatch_powder` of the question.
    Mass swatch_medium{};
};

/// DomainError: masses not above 0, a medium without binder, as judgement.hpp and rescue.hpp.
[[nodiscard]] PouredAnswer poured_answer(const PouredQuestion& question);

} // namespace lakebound
