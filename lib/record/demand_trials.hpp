#pragma once
// What a trial of a paint says about the quantities of the model, shared by learning and by what it foretells.

#include <cmath>
#include <optional>

#include "lakebound/estimate/logistic.hpp"
#include "lakebound/estimate/threshold_site.hpp"
#include "lakebound/record/demand_belief.hpp"
#include "lakebound/record/demand_priors.hpp"

namespace lakebound {

/// Width of a gradual change once its place is uncertain by a normal of this sd: 1/1.7 of a logistic's width is the
/// sd of the normal that looks most like it.
inline double widened(double width, double sd) { return std::hypot(width, sd / 1.7); }

struct TrialFactors {
    LogisticTrial lean;                ///< of z, or of c in use
    std::optional<LogisticTrial> rich; ///< of the same plus g
};

inline TrialFactors factors_of(const PaintTrial& t, const DemandWorld& world) {
    const DemandPriors& p = world.priors;
    const double at = std::log(t.library_k.value() / world.families[t.family].lean.value());
    const double lean = 1.0 / widened(t.in_use ? p.use_width : p.lean_width, t.weighing_spread);
    const double rich = 1.0 / widened(p.rich_width, t.weighing_spread);
    switch (t.outcome) {
    case PaintOutcome::lean:
        return {{at, lean, 1.0}, {}};
    case PaintOutcome::not_lean:
        break;
    case PaintOutcome::holds:
        return {{at, -lean, 1.0}, LogisticTrial{at, rich, 1.0}};
    case PaintOutcome::rich:
        return {{at, -lean, 1.0}, LogisticTrial{at, -rich, 1.0}};
    }
    return {{at, -lean, 1.0}, {}};
}

/// Chances of the outcomes of one more trial at a node of the belief. What the node leaves open of c or of the rich
/// edge widens the step (a normal under a logistic: good to .005).
class OutcomeChances {
public:
    OutcomeChances(const DemandBelief& belief, const DemandPart& part, double log_library_k,
                   double weighing_spread, bool in_use)
        : at_(log_library_k - belief.lean_edge), in_use_(in_use),
          lean_(1.0 / widened(in_use ? belief.use_width : belief.lean_width,
                              in_use ? std::hypot(weighing_spread, part.critical_spread) : weighing_spread)),
          rich_(1.0 / widened(belief.rich_width, std::hypot(weighing_spread, part.rich_spread,
                                                            in_use ? part.critical_spread : 0.0))) {}

    double lean(const DemandNode& n) const { return logistic((edge(n) - at_) * lean_); }
    double not_lean(const DemandNode& n) const { return logistic((at_ - edge(n)) * lean_); }
    /// Of one that is not lean.
    double rich(const DemandNode& n) const { return logistic((at_ - rich_edge(n)) * rich_); }
    double of(PaintOutcome outcome, const DemandNode& n) const {
        switch (outcome) {
        case PaintOutcome::lean:
            return lean(n);
        case PaintOutcome::not_lean:
            break;
        case PaintOutcome::holds:
            return not_lean(n) * logistic((rich_edge(n) - at_) * rich_);
        case PaintOutcome::rich:
            return not_lean(n) * rich(n);
        }
        return not_lean(n);
    }

private:
    double edge(const DemandNode& n) const { return in_use_ ? n.critical : n.flip; }
    double rich_edge(const DemandNode& n) const { return in_use_ ? n.rich - n.flip + n.critical : n.rich; }

    double at_;
    bool in_use_;
    double lean_, rich_;
};

} // namespace lakebound
