#pragma once
// Coach: what to measure next, by what it does for the chance of landing in the window.
//
// The value of a step is the chance of the window expected after it (step_value.hpp); its price is
//   minutes + minutes that a day is worth x days + minutes that a gram is worth x grams
// The step with the greatest gain for its price is advised. Stop when the target is met, when no step gains the least
// that is worth a minute, or when the steps are used up. The chance stated after a step is what is expected of it, not
// a promise. Rule of this library (estimate).

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/units.hpp"
#include "lakebound/quantity/word_table.hpp"
#include "lakebound/record/step_value.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class StepKind { rub_out, solids_test, swatches };
template <> struct WordTable<StepKind> {
    static constexpr WordRow<StepKind> rows[] = {
        {StepKind::rub_out, "rub-out"}, {StepKind::solids_test, "solids test"}, {StepKind::swatches, "swatches"}};
};

/// What a maker is short of.
enum class Shortage { time, powder, days };
template <> struct WordTable<Shortage> {
    static constexpr WordRow<Shortage> rows[] = {{Shortage::time, "time"}, {Shortage::powder, "powder"}, {Shortage::days, "days"}};
};

/// What one kind of step costs; the caller fills it from the shelf.
struct StepCost {
    StepKind kind = StepKind::rub_out;
    std::size_t swatches = 0; ///< painted at once
    Time attention{};         ///< above 0
    Mass pigment{};           ///< 0 or more
    Time waiting{};           ///< 0 or more
};

struct CoachRule {
    std::optional<Probability> target; ///< chance of the window that is wanted, such as 0.95
    double minutes_per_day = 0.0;      ///< of attention that a day of waiting is worth to this maker
    double minutes_per_gram = 0.0;     ///< that a gram of pigment is worth
    bool few_days = false;             ///< take the cheapest single step that is expected to reach the target
    double least_gain_per_minute{};    ///< of attention; below it nothing pays. .001 is a point in ten minutes
    std::size_t most_steps{};          ///< in all
    std::size_t steps_done = 0;
};

struct CoachStep {
    StepCost cost;
    std::vector<BinderSufficiency> at; ///< library k of the swatches
    Probability value;                 ///< expected
    double gain = 0.0;                 ///< over the value now
    double gain_for_price = 0.0;       ///< per minute's worth
};

enum class CoachAdvice {
    measure,      ///< take `recommended`
    target_met,   ///< paint
    nothing_pays, ///< paint, with what is known; the target, if any, is out of reach this way
    steps_used_up,
};
template <> struct WordTable<CoachAdvice> {
    static constexpr WordRow<CoachAdvice> rows[] = {{CoachAdvice::measure, "measure"},
                                                    {CoachAdvice::target_met, "target met"},
                                                    {CoachAdvice::nothing_pays, "nothing pays"},
                                                    {CoachAdvice::steps_used_up, "steps used up"}};
};

struct Coaching {
    CoachAdvice advice = CoachAdvice::measure;
    MixingPoint now;
    BinderSufficiency even_bet;             ///< library k
    std::vector<CoachStep> steps;           ///< greatest gain for its price first
    std::optional<std::size_t> recommended; ///< index in `steps`; present with `measure`
};

/// The step expected to bring most, whatever its price; nothing where there is none.
[[nodiscard]] std::optional<std::size_t> most_telling(const Coaching& coaching);

/// A swatch that dries longer is easily judged too early (estimate).
inline constexpr Time patience_wanted_from = hours(48);
[[nodiscard]] inline bool wants_patience(Time drying) noexcept { return drying > patience_wanted_from; }

/// `weighable`: the nearest library k that the maker's scale can weigh out, so that what is valued is what will be
/// painted; may be empty. For a jar without a rub-out a single swatch is also
/// sought up to .3 sd to either side of the even bet. DomainError: a step without attention, a cost below 0.
[[nodiscard]] Coaching coaching(const DemandBelief& belief, const PaintGoal& goal, const std::vector<StepCost>& steps,
                                const CoachRule& rule, const SwatchTest& test,
                                const std::function<BinderSufficiency(BinderSufficiency)>& weighable = {});

} // namespace lakebound
