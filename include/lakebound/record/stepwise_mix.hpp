#pragma once
// Stepwise mix: a batch begun too lean on purpose and brought up in doses, a stroke rubbed after each, for a maker who
// would rather ask the paint than make swatches beside it.
//
//   ln k_i = ln k_1 + (i - 1) d,  i = 1 .. n       k of the library after dose i
//   m_i = k_i q m_p / (e v_b)                      medium to m_p of powder (swatch_plan.hpp)
// A stroke takes m_s of powder along, with its medium; so dose i + 1 is (m_(i+1) - m_i) (m_p - i m_s) / m_p.
// Stop at the first stroke that does not chalk, or after dose n. What all the strokes showed then says where the window
// is likeliest met, and the last dose leads there. The plan is fixed in advance, for the outcome of every stroke but the
// last is known by its being reached. k_1 and d are sought for the greatest
//   chance of the window expected in advance - c x strokes expected,   c = least gain per minute x minutes of a stroke
// (the coach's own price, coach.hpp). A batch that was begun goes on from its k, as a plan of the doses that are left. Every mass is rounded to the scale, and k is that of the masses as rounded. Rule of
// this library (estimate).

#include <cstddef>
#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/record/learning_habits.hpp"
#include "lakebound/record/step_value.hpp"
#include "lakebound/record/swatch_plan.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A batch that is on the slab already; the belief knows its strokes.
struct StartedBatch {
    BinderSufficiency library_k; ///< now, above 0
    std::size_t strokes = 0;     ///< that were taken of it
    bool chalks = true;          ///< the last of them; else only the last dose is left
};

/// The maker, the paint and how it is weighed.
struct StepwiseQuestion {
    Mass powder{};              ///< of the batch, above 0
    Mass stroke_powder{};       ///< that a stroke takes along, 0 or more
    SwatchPaint paint;          ///< what k is reckoned with
    PaintGoal goal;             ///< window, and ln-sd of a batch by its weighing
    std::size_t most_doses{};   ///< 1 to 12
    double price_per_stroke{};  ///< of chance, 0 or more
    Bench bench;                ///< one scale at least
    std::optional<StartedBatch> started;
};

/// What to add where the strokes end, and what comes of it.
struct LastDose {
    Mass medium{};               ///< 0 where the paint already holds what it wants
    Mass in_all{};               ///< to the whole powder, as if no stroke had been taken
    BinderSufficiency library_k; ///< with it
    Probability in_window;       ///< of the batch then
};

struct StepwiseDose {
    Mass medium{};               ///< to add, rounded
    std::size_t scale = 0;       ///< of the bench, to weigh it on
    Mass in_all{};               ///< to the whole powder, as if no stroke had been taken: what an entry says
    BinderSufficiency library_k; ///< with it
    Probability reached;         ///< that the strokes before all chalk
    Probability chalks;          ///< of the stroke, once it is reached
    LastDose if_not;             ///< when it does not chalk
};

struct StepwiseMix {
    std::vector<StepwiseDose> doses;
    LastDose if_all_chalk; ///< or at once, where no dose is left to try
    std::size_t powder_scale = 0; ///< of the bench
    Probability in_window;        ///< expected in advance
    double strokes_expected = 0.0;
};

/// What was asked, and what comes of it.
struct StepwisePlan {
    StepwiseQuestion question;
    StepwiseMix mix;
};

/// Whether a batch that no dose is left for holds too much already: it lies in the window by a tenth less than it could.
[[nodiscard]] bool wants_powder(const StepwiseMix& mix, Probability at_the_best) noexcept;

/// DomainError: powder not above 0, strokes that take all of it, doses not 1 to 12, a bench without a scale, a medium
/// without binder, and as judgement.hpp.
[[nodiscard]] StepwiseMix stepwise_mix(const DemandBelief& belief, const StepwiseQuestion& question);

} // namespace lakebound
