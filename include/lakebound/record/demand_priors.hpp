#pragma once
// Demand priors: what is taken to be true of jars, hands and binders before a maker's own record says more.
//
// All are standard deviations of logarithms unless named otherwise. None has a default: the caller fills them
// from the shelf, where each stands with its origin. Values and their marks: docs/theory.md, "What a studio learns".

#include <cstddef>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct DemandPriors {
    double plant_spread{};       ///< of a plant's lakes about the library's figure of the class
    double jar_spread{};         ///< B: of jars about their plant; its median
    double jar_spread_doubt{};   ///< ln-sd of B; 0: B is known
    double unlike_jar_spread{};  ///< of a jar taken out of its kin
    double regrind_spread{};     ///< a jar ground again, or a month in damp: old readings against today
    double hand_spread{};        ///< her hand, oil and dropper, shared by all her rub-outs: no repeat removes it
    double repeat_spread{};      ///< one rub-out about her own mean
    double repeat_weight{};      ///< how many readings' worth that figure is
    double chalk_bias_spread{};  ///< her idea of chalking against chalking in use; above 0
    double jar_step_spread{};    ///< the step from oil to a binder, this jar against others
    double damp_spread{};        ///< water taken up since the rub-out
    double lot_spread{};         ///< one lot of medium against the maker's usual
    double odd_share{};          ///< share of makers whose step from oil is far from the usual, 0 to below 1
    double odd_factor{};         ///< how many times as wide theirs is, 1 or more
    double solids_spread{};      ///< what a solids test leaves open of the strength of a medium
    double rich_step_spread{};   ///< of the distance from the lean edge to the rich edge of a family; above 0
    double lean_width{};         ///< w: how gradual chalking of a swatch sets in; above 0
    double rich_width{};         ///< the same of shine, cracks, stickiness, wrinkles; above 0
    double use_width{};          ///< the same of a batch judged in use; above 0
};

/// A kind of binder: gum (pan and tube alike), oil, yolk.
struct BinderKind {
    double step_spread{};   ///< from the oil rub-out to this binder, in this maker's hands
    double medium_spread{}; ///< strength of her usual medium; once its solids are tested, what that left open
};

/// The edges of a paint family: at the lean one it begins to chalk, at the rich one to shine.
struct FamilyEdges {
    std::size_t kind = 0;         ///< index of its binder kind
    BinderSufficiency lean, rich; ///< amber_low and amber_high of its window; 0 < lean < rich
};

/// Everything that is known of binders before the record is read.
struct DemandWorld {
    DemandPriors priors;
    std::vector<BinderKind> kinds;
    std::vector<FamilyEdges> families;
};

} // namespace lakebound
