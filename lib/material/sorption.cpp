#include "lakebound/material/sorption.hpp"

#include <algorithm>
#include <cmath>

#include "checked_number.hpp"
#include "lakebound/material/density.hpp"
#include "lakebound/material/ingredient.hpp"

namespace lakebound {
namespace {

constexpr double water_molar_mass = 18.015;

struct Norrish {
    double k;
    double molar_mass; ///< g/mol
};
constexpr Norrish glycerol_constants{-1.16, 92.094};
constexpr Norrish sugar_constants{-2.25, 180.16};

double checked(RelativeHumidity humidity) {
    if (!(humidity.value() <= highest_sorption_humidity))
        throw_out_of_range("relative humidity of the room", 100.0 * humidity.value(), "%",
                           "0 to 92.5 %: above that gum and honey take up water without end");
    return humidity.value();
}

double activity_at(const Norrish& n, double x_water) {
    const double x_solute = 1.0 - x_water;
    return x_water * std::exp(n.k * x_solute * x_solute);
}

double activity(const Norrish& n, double water_per_solute) {
    if (!(water_per_solute >= 0.0 && std::isfinite(water_per_solute)))
        throw_out_of_range("water per solute", water_per_solute, "g/g", "0 or more");
    const double w = water_per_solute / water_molar_mass;
    return activity_at(n, w / (w + 1.0 / n.molar_mass));
}

/// Activity grows strictly with the mole fraction of water because K_n is negative, so bisection on
/// the mole fraction always meets the one root.
double water_at(const Norrish& n, double wanted) {
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (activity_at(n, middle) < wanted ? low : high) = middle;
    }
    const double x = 0.5 * (low + high);
    return wanted > 0.0 ? x / (1.0 - x) * water_molar_mass / n.molar_mass : 0.0;
}

} // namespace

double water_per_dry_gum(RelativeHumidity humidity) {
    const double ka = gum_gab_k * checked(humidity);
    return gum_monolayer * gum_gab_c * ka / ((1.0 - ka) * (1.0 - ka + gum_gab_c * ka));
}
double water_per_glycerol(RelativeHumidity humidity) { return water_at(glycerol_constants, checked(humidity)); }
double water_per_sugar(RelativeHumidity humidity) { return water_at(sugar_constants, checked(humidity)); }

double water_activity_over_glycerol(double water_per_solute) {
    return activity(glycerol_constants, water_per_solute);
}
double water_activity_over_sugar(double water_per_solute) {
    return activity(sugar_constants, water_per_solute);
}

BinderAtHumidity binder_at_humidity(const SorbingBinder& b, RelativeHumidity humidity) {
    const double soft = zero_or_more(in_millilitres(b.glycerol_and_sugar), "volume of the plasticisers", "mL");
    const double dry = in_millilitres(b.dry_binder);
    if (!(dry > 0.0 && std::isfinite(dry) && dry >= soft * (1.0 - 1e-12)))
        throw_out_of_range("dry binder volume", dry, "mL", "above 0, and not less than its plasticisers");
    BinderAtHumidity r;
    r.gum_water = grams(zero_or_more(in_grams(b.gum), "dry gum", "g") * water_per_dry_gum(humidity));
    r.glycerol_water =
        grams(zero_or_more(in_grams(b.glycerol), "glycerol", "g") * water_per_glycerol(humidity));
    r.sugar_water = grams(zero_or_more(in_grams(b.sugar), "sugar solids", "g") * water_per_sugar(humidity));
    r.water = r.gum_water + r.glycerol_water + r.sugar_water;
    r.water_volume = r.water / water_density();
    r.swollen_binder = b.dry_binder + r.water_volume;
    const double water = in_millilitres(r.water_volume);
    r.soft_share = VolumeFraction::of(std::min(1.0, (soft + water) / (dry + water)));
    return r;
}

PigmentVolumeConcentration pvc_at_humidity(Volume pigment, const BinderAtHumidity& binder) {
    const double vp = zero_or_more(in_millilitres(pigment), "pigment volume", "mL");
    const double total = vp + in_millilitres(binder.swollen_binder);
    if (!(total > 0.0)) throw_out_of_range("volume of the film", total, "mL", "above 0");
    return PigmentVolumeConcentration::of(vp / total);
}

SoftPhase soft_phase(VolumeFraction share, const SoftShareLimits& limit) noexcept {
    if (share < limit.brittle_below) return SoftPhase::brittle;
    if (share < limit.good_from) return SoftPhase::firm;
    if (share <= limit.good_to) return SoftPhase::good;
    if (share <= limit.soft_to) return SoftPhase::soft;
    return share <= limit.sets_to ? SoftPhase::sticky : SoftPhase::never_sets;
}

std::optional<Share> plasticiser_to_keep(const SorbingBinder& binder, RelativeHumidity humidity,
                                         VolumeFraction aim) {
    if (!(aim.value() < 1.0)) throw_out_of_range("soft share aimed at", aim.value(), "", "below 1");
    const BinderAtHumidity room = binder_at_humidity(binder, humidity);
    if (room.soft_share <= aim) return Share::of(1.0);
    const double firm = complement(aim).value();
    const Volume gum_water = room.gum_water / water_density();
    const Volume spare =
        (binder.dry_binder - binder.glycerol_and_sugar) * aim.value() - gum_water * firm;
    const Volume soft = binder.glycerol_and_sugar + room.water_volume - gum_water;
    // Too soft by the gum's own water alone, or with no plasticiser to leave out.
    if (!(spare.value() > 0.0) || !(soft.value() > 0.0)) return std::nullopt;
    return Share::of(std::min(1.0, spare.value() / (soft.value() * firm)));
}

SorbsAs sorption_of(const Ingredient& ingredient) {
    if (ingredient.sorbs_as) return *ingredient.sorbs_as;
    if (ingredient.role == Role::plasticiser)
        throw DomainError("what " + ingredient.id + " takes up water as", "not given", "glycerol or sugar",
                          "add 'sorbs_as: glycerol' or 'sorbs_as: sugar' to its file");
    return ingredient.role == Role::gum ? SorbsAs::gum : SorbsAs::nothing;
}

} // namespace lakebound
