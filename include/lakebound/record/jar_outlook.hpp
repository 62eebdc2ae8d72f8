#pragma once
// Jar outlook: what a studio's record says of one jar painted as one family: how much binder it wants and how sure that
// is, what each part of the record is worth, and what to do next.
//
//   demand of the jar in this binder = exp(E c) x demand of its class by the library  (learned_demand.hpp)
//   k by that demand = k of the library / exp(E c),   ln(true k / k) = E c - c
// so the k of a sheet is the best estimate, and the doubt about it has the mean 0. The chance with only a part of the
// record known is that of the same model with the rest left out.
// Example: docs/examples/learn_from_swatches.cpp.

#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/record/coach.hpp"
#include "lakebound/record/kin_distance.hpp"
#include "lakebound/record/learning_habits.hpp"
#include "lakebound/record/swatch_plan.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct JarQuestion {
    DemandWorld world;
    DemandRecord record;
    DemandQuestion asked;
    SufficiencyWindow window;
    double batch_spread = 0.0; ///< ln-sd of the k of a batch by its weighing
    LearningHabits habits;
    Bench bench;
    Process process{};
    std::optional<SwatchPaint> swatch; ///< absent: no medium is known to paint a swatch with
    std::optional<Mass> left;          ///< in the jar: no test is advised that takes more
    std::optional<std::size_t> last_judged; ///< trial of the record, of this jar; absent: the last in the list
    CoachRule rule;                    ///< least_gain_per_minute and most_steps are filled from the habits when 0
};

/// How many entries stand behind an answer, and the chance of the window with them and all above them.
struct WorthOfRecord {
    std::size_t readings = 0, paints = 0;
    Probability chance;
};

/// An entry of this jar that was unlikely before it was known.
struct Surprise {
    std::optional<std::size_t> rub_out, trial; ///< index in the record
    Probability chance;
};

struct JarOutlook {
    double demand_over_library = 1.0; ///< exp(E c)
    NormalMixture doubt;              ///< of ln(true k / k), all but the weighing of a batch
    /// Lower and upper edge of what the factor is, nine in ten.
    double demand_low = 1.0, demand_high = 1.0;
    /// Of the powder, by its rub-outs and its kin: what a blend is reckoned with.
    std::optional<OilAbsorption> oil_absorption; ///< there in every outlook that was worked out
    double oil_absorption_spread = 0.0; ///< ln-sd
    double step_from_oil = 1.0;         ///< demand_over_library / (oil_absorption / reference)
    Coaching coaching;                  ///< k of the library throughout
    BinderSufficiency aim;              ///< by this jar's own demand, where the window is likeliest met
    /// Of the recommended step, or else of the even bet: what to weigh.
    std::vector<SwatchWeighing> swatches;
    WorthOfRecord library, kin, own_readings, own_paints;
    KinDistance kin_distance;
    bool unlike_its_kin = false;   ///< beyond `kin_unlike`, and taken out of its kin
    bool worth_saying = false;     ///< beyond `kin_worth_saying`
    std::vector<Surprise> surprises;
    double odd_maker = 0.0; ///< chance that this maker's step from oil is far from the usual

    BinderSufficiency own_k(BinderSufficiency library_k) const {
        return BinderSufficiency::from_proven(library_k.value() / demand_over_library);
    }
};

/// Source of figures that come from the record.
inline constexpr const char* record_source = "the record of this jar";

/// What a library of materials expects of the jar's class.
struct DemandReference {
    OilAbsorption oil_absorption;
    MassDensity test_oil{};
};
/// Lets a batch be judged by the record. A paint of this pigment alone gets its demand in this binder with its doubt;
/// of a blend the powder gets its oil absorption, for what a swatch of it alone teaches is not known of a blend.
/// pigment: index in the recipe.
void take_up(BatchRequest& request, std::size_t pigment, const JarOutlook& outlook, const DemandReference& reference);

/// What is believed of the jar's demand in this binder; where it is too unlike its kin, without them.
[[nodiscard]] DemandBelief believed_demand(JarQuestion question);

/// DomainError as learned_demand, coaching and swatch_of.
[[nodiscard]] JarOutlook jar_outlook(JarQuestion question);

} // namespace lakebound
