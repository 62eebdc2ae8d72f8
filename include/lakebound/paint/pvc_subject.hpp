#pragma once
// PVC subject: a paint in its amounts, what of it is known, and what follows: figures, judgement, next
// measurement, blend and rescue. Everything that lakebound-pvc says of one paint is in here.
// Example: docs/examples/check_a_paint.cpp.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/blend.hpp"
#include "lakebound/paint/quick_check.hpp"
#include "lakebound/paint/rescue.hpp"
#include "lakebound/paint/batch_subject.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The id of a medium put together from binders that were typed.
inline constexpr const char* mixed_medium_id = "mixed";

/// What a rescue is to reach.
struct RescueWish {
    std::optional<BinderSufficiency> aim;   ///< where the window is likeliest met when absent
    std::optional<Mass> jar; ///< pigment left, reserve included; else what the batch leaves in its jar
    /// Chance of missing the window that the maker accepts: the aim follows from it where none is named.
    std::optional<Probability> accepted;
    std::optional<VolumeFraction> soft_aim; ///< share to come down to where it stays sticky; what the family is good to when absent
};

struct PvcQuestion {
    /// Recipe and bench; `amount` is the pigment mass, `aim` the medium per pigment as it was taken.
    BatchRequest request;
    Mass pigment;                      ///< total
    bool oil_absorption_known = true;  ///< false: the recipe holds a figure that must not be shown
    bool density_known = true;         ///< the same for the density
    bool with_packing = false;         ///< show what close packing of unlike grains might save
    bool blend_measured = false;       ///< the oil absorption is that of the blend itself
    std::vector<PigmentPart> blend_of; ///< the pigments, when blend_measured made one of them
    std::optional<RescueWish> rescue;
    BenchTests tests;                 ///< those of the shelf; the chance of missing the window that is accepted
    std::string title;                ///< "10.0 g of pigment with 40.0 g of gum water"
    std::vector<std::string> assumed; ///< sentences: what was taken for granted
};

struct RescueAnswer {
    BinderSufficiency aim;
    bool by_accepted_chance = false; ///< the aim follows from the chance that is accepted
    bool accepted_in_reach = true;   ///< false: every aim misses oftener; this is where it is met most often
    Rescue rescue;
    std::optional<StickyRescue> sticky;
    BinderSufficiency checked; ///< k of the rescued paint, computed anew from its masses
    WindowChances chances;     ///< at that k
    std::vector<BatchLine> medium_parts; ///< of the medium added

    /// Gum is added first, and `rescue` is not what to do.
    bool gum_first() const { return sticky && sticky->gum_as_is.value() > 0.0; }
    /// What brings k to its aim in the end.
    const Rescue& last() const { return gum_first() ? sticky->pigment : rescue; }
};

struct PvcSubject {
    PvcQuestion question;
    BatchSubject base; ///< request, batch, chance and next measurement
    QuickCheck check;  ///< what can be answered from what is known
    std::optional<Blend> blend;
    std::optional<Mass> spare_medium; ///< spare binder as medium; negative when short
    std::optional<RescueAnswer> rescue;

    const Batch& batch() const { return base.answer.batch.value(); }
    const Family& family() const { return base.request.recipe.family; }
    bool answers_k() const { return check.k.has_value(); }
};

/// Checks the paint. Throws DomainError as batch_of, quick_check and rescue do.
[[nodiscard]] PvcSubject pvc_subject(PvcQuestion question);

/// True when the paint will not hold: exit status 1.
[[nodiscard]] bool will_not_hold(const PvcSubject& subject);

} // namespace lakebound
