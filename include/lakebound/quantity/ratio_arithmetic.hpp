#pragma once
// A ratio times the quantity that it is a ratio of: the grams of water in a powder, the oil that it drinks.
//
// A ratio of masses takes a part of a mass and never of a volume, and the other way round; a share takes a part of
// either. Of figures per mass a mass fraction takes its part (specific volumes add by mass), of figures per volume a
// volume fraction (densities add by volume). What is left out does not compile, such as a volume times a mass
// fraction, a density times one, or a share of a temperature.

#include <algorithm>
#include <concepts>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A ratio of masses: of a part in the whole, of oil or of medium to pigment.
template <class R> concept RatioOfMasses =
    std::same_as<R, MassFraction> || std::same_as<R, OilAbsorption> || std::same_as<R, MediumPerPigment>;
/// A ratio of volumes: of a part in the whole, of the pigment in a dry film.
template <class R> concept RatioOfVolumes = std::same_as<R, VolumeFraction> || std::same_as<R, PigmentVolumeConcentration> ||
                                            std::same_as<R, CriticalPigmentVolumeConcentration>;

/// Mass of the part, of the oil or of the medium: 10 g * 68 g/100g is 6.8 g of oil.
template <RatioOfMasses R> [[nodiscard]] constexpr Mass operator*(const Mass& whole, R ratio) { return whole * ratio.value(); }
template <RatioOfMasses R> [[nodiscard]] constexpr Mass operator*(R ratio, const Mass& whole) { return ratio.value() * whole; }
/// Volume of the part.
template <RatioOfVolumes R> [[nodiscard]] constexpr Volume operator*(const Volume& whole, R ratio) {
    return whole * ratio.value();
}
template <RatioOfVolumes R> [[nodiscard]] constexpr Volume operator*(R ratio, const Volume& whole) {
    return ratio.value() * whole;
}

/// A share of a mass or a volume is one.
[[nodiscard]] constexpr Mass operator*(const Mass& whole, Share share) { return whole * share.value(); }
[[nodiscard]] constexpr Mass operator*(Share share, const Mass& whole) { return share.value() * whole; }
[[nodiscard]] constexpr Volume operator*(const Volume& whole, Share share) { return whole * share.value(); }
[[nodiscard]] constexpr Volume operator*(Share share, const Volume& whole) { return share.value() * whole; }

/// The whole of which that is the part: 3 g / 15 % is 20 g. A share of 0 gives an endless whole.
[[nodiscard]] constexpr Mass operator/(const Mass& part, MassFraction share) { return part / share.value(); }
[[nodiscard]] constexpr Mass operator/(const Mass& part, Share share) { return part / share.value(); }

/// What so much of the whole, or of another thing to each unit of mass, adds to a figure per mass.
template <RatioOfMasses R> [[nodiscard]] constexpr SpecificVolume operator*(R ratio, const SpecificVolume& of_the_part) {
    return ratio.value() * of_the_part;
}
/// Volume of the part per mass of the whole.
[[nodiscard]] constexpr SpecificVolume operator/(MassFraction share, const MassDensity& of_the_part) {
    return share.value() / of_the_part;
}
/// Mass per volume, of a mass fraction that takes so much room per mass of the whole.
[[nodiscard]] constexpr MassDensity operator/(MassFraction share, const SpecificVolume& room) { return share.value() / room; }
/// Mass of the part per volume of the whole.
[[nodiscard]] constexpr MassDensity operator*(VolumeFraction share, const MassDensity& of_the_part) {
    return share.value() * of_the_part;
}
/// Dry binder per pigment that makes this k: k times what the pigment wants.
[[nodiscard]] constexpr SpecificVolume operator*(BinderSufficiency k, const SpecificVolume& demand) {
    return k.value() * demand;
}

/// A part of a part: 50 % of 20 % is 10 %.
[[nodiscard]] constexpr MassFraction operator*(MassFraction a, MassFraction b) noexcept {
    return MassFraction::from_proven(a.value() * b.value());
}
[[nodiscard]] constexpr VolumeFraction operator*(VolumeFraction a, VolumeFraction b) noexcept {
    return VolumeFraction::from_proven(a.value() * b.value());
}
/// Of a medium, per pigment, what one of its parts is.
[[nodiscard]] constexpr MediumPerPigment operator*(MediumPerPigment medium, MassFraction part) noexcept {
    return MediumPerPigment::from_proven(medium.value() * part.value());
}

/// How many times the one ratio is the other: a plain number.
template <class Tag> [[nodiscard]] constexpr double operator/(Ratio<Tag> a, Ratio<Tag> b) noexcept {
    return a.value() / b.value();
}

/// Whether a ratio of that type can be the part of a whole that is so measured: masses, or masses per volume, have
/// mass fractions; volumes, or volumes per mass, have volume fractions; all have shares.
template <class R, class Q> concept IsPartOf =
    std::same_as<R, Share> ||
    (std::same_as<R, MassFraction> && (std::same_as<Q, Mass> || std::same_as<Q, MassDensity>)) ||
    (std::same_as<R, VolumeFraction> && (std::same_as<Q, Volume> || std::same_as<Q, SpecificVolume>));

/// part / whole, and 1 where that is more, be it by the last bit. Throws DomainError for a part below 0, and where
/// both are 0.
template <class R, class Q>
    requires IsPartOf<R, Q>
[[nodiscard]] constexpr R part_of(const Q& part, const Q& whole) {
    return R::of(std::min<double>(part.value() / whole.value(), 1.0));
}

} // namespace lakebound
