#include "lakebound/record/swatch_plan.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/paint/weighing.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

} // namespace

BinderSufficiency library_k(const SwatchPaint& paint, Mass powder, Volume dry_binder) {
    return binder_sufficiency(dry_binder * paint.binder_index.value(), powder, paint.reference_demand);
}

double weighing_spread(const Scale& scale, Mass powder, Mass medium) {
    const Mass s = standard_uncertainty(scale);
    return std::hypot(s / powder, medium.value() > 0.0 ? double(s / medium) : 0.0);
}

Mass swatch_powder(const LearningHabits& habits, const Bench& bench) {
    const Scale& scale = bench.scales.at(finest_scale(bench));
    const Mass coarse = scale.step * habits.swatch_steps;
    return rounded_to_step(coarse > habits.swatch_powder ? coarse : habits.swatch_powder, scale);
}

SwatchWeighing swatch_of(BinderSufficiency wanted, const SwatchPaint& paint, const LearningHabits& habits,
                         const Bench& bench) {
    if (!(wanted.value() > 0.0 && std::isfinite(wanted.value())))
        throw_out_of_range("k of a swatch", wanted.value(), "", "above 0, finite");
    if (!(paint.binder_per_medium.value() > 0.0))
        throw_out_of_range("dry binder of the medium", in_millilitres_per_gram(paint.binder_per_medium), "mL/g",
                           "above 0");
    SwatchWeighing swatch;
    swatch.scale = finest_scale(bench);
    const Scale& scale = bench.scales[swatch.scale];
    swatch.powder = swatch_powder(habits, bench);
    const Volume binder = swatch.powder * paint.reference_demand * (wanted.value() / paint.binder_index.value());
    const Mass medium = rounded_to_step(binder / paint.binder_per_medium, scale);
    swatch.medium = medium > scale.step ? medium : scale.step;
    swatch.library_k = library_k(paint, swatch.powder, swatch.medium * paint.binder_per_medium);
    swatch.spread = weighing_spread(scale, swatch.powder, swatch.medium);
    return swatch;
}

} // namespace lakebound
