#include "lakebound/record/poured.hpp"

#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void check_poured(Mass mass, const char* what) {
    if (!(mass.value() > 0.0 && std::isfinite(mass.value()))) throw_out_of_range(what, in_grams(mass), "g", "above 0, finite");
}

} // namespace

PouredAnswer poured_answer(const PouredQuestion& q) {
    check_poured(q.powder, "powder of the batch");
    check_poured(q.planned, "medium of the sheet");
    check_poured(q.poured, "medium poured");
    const double e = q.paint.binder_index.value();
    const SpecificVolume demand = q.paint.reference_demand * (q.demand_over_library / e);
    const Volume planned = q.planned_library_k.value() / e * (q.powder * q.paint.reference_demand);
    const Volume binder = planned + (q.poured - q.planned) * q.paint.binder_per_medium;

    PouredAnswer answer;
    const PaintOnSlab slab{q.powder, demand, binder, {}};
    answer.planned = binder_sufficiency(planned, q.powder, demand);
    answer.now = binder_sufficiency(binder, q.powder, demand);
    const auto chance = [&](BinderSufficiency k) { return window_chances(k, q.doubt, q.window).in_window; };
    answer.in_window_planned = chance(answer.planned);
    answer.in_window_now = chance(answer.now);
    answer.rescue = rescue(slab, likeliest_aim(q.doubt, q.window), {q.paint.binder_per_medium, q.medium}, q.jar);
    answer.in_window_then = chance(answer.rescue.after);
    answer.leave_it = answer.rescue.action == RescueAction::none ||
                      answer.in_window_then.value() - answer.in_window_now.value() < worth_adding.value();
    answer.mixed_powder = q.powder;
    answer.mixed_medium = q.poured;
    if (!answer.leave_it) {
        if (answer.rescue.action == RescueAction::add_pigment) answer.mixed_powder = q.powder + answer.rescue.pigment;
        else answer.mixed_medium = q.poured + answer.rescue.medium;
    }
    answer.more_powder = answer.mixed_powder - q.powder;
    answer.swatch_medium = q.swatch_powder * double(answer.mixed_medium / answer.mixed_powder);
    return answer;
}

} // namespace lakebound
