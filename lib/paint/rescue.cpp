#include "lakebound/paint/rescue.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/material/basis.hpp"
#include "lakebound/material/density.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"

namespace lakebound {
namespace {

std::optional<Volume> dry_volume(const PaintOnSlab& p) {
    if (!p.pigment_density) return {};
    return pigment_volume(p.pigment, *p.pigment_density) + p.dry_binder;
}

void check(const JarLeft& jar) {
    if (!(jar.mass.value() >= 0.0))
        throw_out_of_range("pigment left in the jar", in_grams(jar.mass), "g", "0 or more");
    if (!(jar.reserve.value() >= 0.0))
        throw_out_of_range("reserve of the jar", in_grams(jar.reserve), "g", "0 or more");
}

} // namespace

Rescue rescue(const PaintOnSlab& paint, BinderSufficiency aim, const RescueMedium& medium,
              const std::optional<JarLeft>& jar) {
    detail::require_positive(paint.pigment.value(), "pigment in the batch", "kg");
    detail::require_positive(aim.value(), "binder sufficiency to reach", "");
    detail::require_positive(medium.dry_binder.value(), "dry binder in the medium", "m3/kg");
    detail::require_positive(medium.density.value(), "density of the medium", "kg/m3");
    if (jar) check(*jar);

    Rescue r;
    r.before = binder_sufficiency(paint.dry_binder, paint.pigment, paint.demand);
    r.after = r.before;
    r.paint = paint;
    r.dry_before = dry_volume(paint);
    if (std::abs(r.before.value() - aim.value()) > k_told_apart * std::min(1.0, aim.value())) {
        if (r.before < aim) {
            r.action = RescueAction::add_medium;
            const Volume missing = dry_binder_for(aim, paint.pigment, paint.demand) - paint.dry_binder;
            r.medium = missing / medium.dry_binder;
            r.medium_volume = r.medium / medium.density;
            r.paint.dry_binder += missing;
        } else {
            r.action = RescueAction::add_pigment;
            const Mass wanted = paint.dry_binder / (aim * paint.demand) - paint.pigment;
            r.pigment = wanted;
            if (jar) {
                const double available = std::max(0.0, jar->mass.value() - jar->reserve.value());
                r.pigment = Mass::from_value(std::min(wanted.value(), available));
                r.pigment_short = wanted - r.pigment;
                r.jar_holds_enough = !(r.pigment_short.value() > 0.0);
            }
            r.paint.pigment += r.pigment;
        }
        r.after = binder_sufficiency(r.paint.dry_binder, r.paint.pigment, r.paint.demand);
    }
    r.dry_after = dry_volume(r.paint);
    return r;
}

StickyRescue rescue_sticky(const PaintOnSlab& paint, const SorbingBinder& binder, RelativeHumidity humidity,
                           VolumeFraction soft_aim, BinderSufficiency k_aim, MassDensity gum_density,
                           MassFraction gum_moisture, const RescueMedium& medium,
                           const std::optional<JarLeft>& jar) {
    detail::require_positive(gum_density.value(), "density of dry gum", "kg/m3");
    if (!(std::abs(binder.dry_binder.value() - paint.dry_binder.value()) <= 1e-9 * paint.dry_binder.value()))
        throw_out_of_range("dry binder of the sorption sum", in_millilitres(binder.dry_binder), "mL",
                           "that of the batch");
    StickyRescue r;
    const auto now = binder_at_humidity(binder, humidity);
    r.soft_before = now.soft_share;
    r.binder = binder;
    if (now.soft_share > soft_aim) {
        const double s = soft_aim.value(), water = now.water_volume.value();
        // Volumes per kilogram of dry gum: its own, and that of the water it holds.
        const double own = 1.0 / gum_density.value(),
                     wet = water_per_dry_gum(humidity) / water_density().value();
        const double gain = s * (own + wet) - wet;
        if (!(gain > 0.0))
            throw_out_of_range("soft-phase share to reach", s, "",
                               "above that of gum alone in this room; dry the room or aim at a softer pan");
        const double soft = binder.glycerol_and_sugar.value() + water;
        const double to_set = (soft - s * (binder.dry_binder.value() + water)) / gain;
        const Volume missing = dry_binder_for(k_aim, paint.pigment, paint.demand) - paint.dry_binder;
        const double gum = std::max(to_set, missing.value() / own);
        r.dry_gum = Mass::from_value(gum);
        r.gum_as_is = as_is_mass(r.dry_gum, gum_moisture);
        r.binder.gum += r.dry_gum;
        r.binder.dry_binder += Volume::from_value(gum * own);
    }
    r.soft_after = binder_at_humidity(r.binder, humidity).soft_share;
    PaintOnSlab with_gum = paint;
    with_gum.dry_binder = r.binder.dry_binder;
    r.k_after_gum = binder_sufficiency(with_gum.dry_binder, with_gum.pigment, with_gum.demand);
    r.pigment = rescue(with_gum, k_aim, medium, jar);
    return r;
}

} // namespace lakebound
