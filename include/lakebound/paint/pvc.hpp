#pragma once
// Binder demand, binder sufficiency, PVC, CPVC and reduced PVC: the kernel of the house.
//
// Symbols, used throughout the paint room:
//   m_p  pigment mass as weighed          rho_p  its density at the same moisture
//   OA   oil absorption, g oil / g pigment  rho_o  density of the rub-out oil
//   V_p = m_p / rho_p   pigment volume     V_b    dry binder volume: what stays and fills voids
//   e    binder index, 1 for oil and dissolved gum, below 1 for a particulate binder such as yolk
//   q  = OA / rho_o     binder demand, dry binder volume that just fills a unit mass of pigment
//   k  = e V_b / (m_p q)          binder sufficiency; pigment density cancels out of it
//   PVC = V_p / (V_p + V_b)       CPVC = c = 1 / (1 + q rho_p / e)
//   Lambda = PVC / CPVC           reduced PVC; above 1 the film holds air
// Identities: PVC = 1 / (1 + k (1/c - 1));  Lambda = 1 / (c + k (1 - c));  k = 1 <=> PVC = CPVC.
//
// Sources: CPVC concept asbeck-van-loo-1949; CPVC from oil absorption stieg-1956 (value from memory)
// and lewarchik-2014; binder index patton-1979 as reviewed in lestarquit-2016; k and the identities
// are derived in docs/theory.md. Assumes that the rub-out paste is the void-free packing of the
// pigment, with its adsorbed layer and not flocculated.
//
// Everything is inline and checks only what a type cannot: quantities here compile to what raw
// doubles compile to (docs/performance.md).

#include "lakebound/export.hpp"
#include "lakebound/quantity/canonical.hpp"

namespace LAKEBOUND_EXPORT lakebound {

namespace detail {
constexpr void require_positive(double x, const char* quantity, const char* unit) {
    if (!(x > 0.0)) throw_out_of_range(quantity, x, unit, "above 0");
}
} // namespace detail

/// Binder demand q = OA / rho_o: dry binder volume that just fills the voids of a unit mass of pigment.
/// test_oil: density of the oil used in the rub-out, above 0. Throws DomainError otherwise, and for an oil absorption
/// that was never set.
[[nodiscard]] constexpr SpecificVolume binder_demand(OilAbsorption oil_absorption, MassDensity test_oil) {
    detail::require_positive(test_oil.value(), "density of the test oil", "kg/m3");
    detail::require_positive(oil_absorption.value(), "oil absorption", "g/g");
    return SpecificVolume::from_value(oil_absorption.value() / test_oil.value());
}

/// Demand that the binder must be given when it reaches only the share e of the voids: q / e.
/// Throws DomainError for an index that was never set.
[[nodiscard]] constexpr SpecificVolume effective_demand(SpecificVolume demand, BinderIndex index) {
    detail::require_positive(index.value(), "binder index", "");
    return SpecificVolume::from_value(demand.value() / index.value());
}

/// V_p = m_p / rho_p, both at the same moisture. Throws DomainError unless the density is above 0.
[[nodiscard]] constexpr Volume pigment_volume(Mass pigment, MassDensity density) {
    detail::require_positive(density.value(), "pigment density", "kg/m3");
    return Volume::from_value(pigment.value() / density.value());
}

/// k = V_b / (m_p q), q being the effective demand. Needs no pigment density.
/// Throws DomainError unless mass and demand are above 0 and the binder volume is 0 or more.
[[nodiscard]] constexpr BinderSufficiency binder_sufficiency(Volume dry_binder, Mass pigment, SpecificVolume demand) {
    const double wanted = pigment.value() * demand.value();
    detail::require_positive(wanted, "binder wanted by the pigment", "m3");
    return BinderSufficiency::of(dry_binder.value() / wanted);
}

/// k / e: what k would be if the binder reached every void, as oil does. Throws DomainError for an index that was never
/// set.
[[nodiscard]] constexpr BinderSufficiency sufficiency_if_all_reached(BinderSufficiency k, BinderIndex index) {
    detail::require_positive(index.value(), "binder index", "");
    return BinderSufficiency::of(k.value() / index.value());
}

/// V_b = k m_p q: the dry binder volume that brings the pigment to sufficiency k.
[[nodiscard]] constexpr Volume dry_binder_for(BinderSufficiency k, Mass pigment, SpecificVolume demand) {
    return Volume::from_value(k.value() * pigment.value() * demand.value());
}

/// What a dry film is made of. Named where it is given, since the two turned round would go unseen.
struct DryFilm {
    Volume pigment, dry_binder;
};
/// PVC = V_p / (V_p + V_b). Throws DomainError unless the sum is above 0 and neither is negative.
[[nodiscard]] constexpr PigmentVolumeConcentration pigment_volume_concentration(const DryFilm& film) {
    const double total = film.pigment.value() + film.dry_binder.value();
    detail::require_positive(total, "volume of the dry film", "m3");
    return PigmentVolumeConcentration::of(film.pigment.value() / total);
}

/// c = 1 / (1 + q rho_p), q being the effective demand. Throws DomainError unless q rho_p is 0 or more.
[[nodiscard]] constexpr CriticalPigmentVolumeConcentration critical_pigment_volume_concentration(SpecificVolume demand,
                                                                                                 MassDensity density) {
    return CriticalPigmentVolumeConcentration::of(1.0 / (1.0 + demand.value() * density.value()));
}

/// PVC of a paint with sufficiency k: 1 / (1 + k (1/c - 1)). Throws DomainError when k and c are both 0.
[[nodiscard]] constexpr PigmentVolumeConcentration pigment_volume_concentration(BinderSufficiency k,
                                                                                CriticalPigmentVolumeConcentration c) {
    return PigmentVolumeConcentration::of(c.value() / (c.value() + k.value() * (1.0 - c.value())));
}

/// Lambda = PVC / CPVC. Throws DomainError at a CPVC of 0.
constexpr ReducedPigmentVolumeConcentration
reduced_pigment_volume_concentration(PigmentVolumeConcentration pvc, CriticalPigmentVolumeConcentration c) {
    return ReducedPigmentVolumeConcentration::of(pvc.value() / c.value());
}

/// Lambda of a paint with sufficiency k: 1 / (c + k (1 - c)). Throws DomainError when k and c are both 0.
constexpr ReducedPigmentVolumeConcentration
reduced_pigment_volume_concentration(BinderSufficiency k, CriticalPigmentVolumeConcentration c) {
    return ReducedPigmentVolumeConcentration::of(1.0 / (c.value() + k.value() * (1.0 - c.value())));
}

/// k that gives a PVC: k = (1/PVC - 1) / (1/c - 1). Valid for 0 < PVC <= 1 and 0 < c < 1, else DomainError.
[[nodiscard]] constexpr BinderSufficiency binder_sufficiency(PigmentVolumeConcentration pvc,
                                                             CriticalPigmentVolumeConcentration c) {
    detail::require_positive(pvc.value(), "pigment volume concentration", "");
    detail::require_positive(1.0 - c.value(), "voids of the packed pigment", "");
    return BinderSufficiency::of((1.0 / pvc.value() - 1.0) * c.value() / (1.0 - c.value()));
}

/// k that gives a reduced PVC: k = (1/Lambda - c) / (1 - c). Valid for 0 < Lambda <= 1/c, else DomainError.
[[nodiscard]] constexpr BinderSufficiency binder_sufficiency(ReducedPigmentVolumeConcentration lambda,
                                                             CriticalPigmentVolumeConcentration c) {
    detail::require_positive(lambda.value(), "reduced pigment volume concentration", "");
    detail::require_positive(1.0 - c.value(), "voids of the packed pigment", "");
    return BinderSufficiency::of((1.0 / lambda.value() - c.value()) / (1.0 - c.value()));
}

/// Air in the dry film, as a share of the film: 1 - c / PVC above the CPVC, else 0.
/// The pigment keeps its touching packing and the binder is short. Source: patton-1979 (value from
/// memory), derived in docs/theory.md. A PVC above the CPVC by 1e-12 of it or less counts as at it: a film
/// with k = 1 holds no air from a rounding error.
[[nodiscard]] constexpr VolumeFraction film_porosity(PigmentVolumeConcentration pvc, CriticalPigmentVolumeConcentration c) {
    const bool short_of_binder = pvc.value() > c.value() * (1.0 + 1e-12);
    return VolumeFraction::from_proven(short_of_binder ? 1.0 - c.value() / pvc.value() : 0.0);
}

/// The same with a particulate binder, whose CPVC c_e = 1 / (1 + e_c/e) lies below that of the dry packing c:
///   air = e_c (1 - k) / (1/c + k (e_c/e - e_c)),   e_c = 1/c - 1,  k below 1, else 0
/// The bulk goes in a straight line from the dry packing, 1/c at k = 0, to 1/c_e at k = 1 (an assumption), so
/// that a film without binder holds the air of the dry packing, 1 - c, and no more. For e = 1 it is
/// 1 - c/PVC. Derived in docs/theory.md.
[[nodiscard]] constexpr VolumeFraction film_porosity(BinderSufficiency k, CriticalPigmentVolumeConcentration dry_packing,
                                                     BinderIndex index) {
    detail::require_positive(index.value(), "binder index", "");
    detail::require_positive(dry_packing.value(), "packing of the dry pigment", "");
    if (!(k.value() < 1.0 - 1e-12)) return VolumeFraction();
    const double bulk = 1.0 / dry_packing.value(), voids = bulk - 1.0;
    return VolumeFraction::from_proven(voids * (1.0 - k.value()) /
                                       (bulk + k.value() * (voids / index.value() - voids)));
}

} // namespace lakebound
