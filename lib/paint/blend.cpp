#include "lakebound/paint/blend.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "lakebound/material/density.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"

namespace lakebound {
namespace {

/// Checks the count, the sum and the pigments; S is a share type.
template <class S> void check(std::span<const BlendPigment> pigments, std::span<const S> shares) {
    if (pigments.empty() || pigments.size() != shares.size())
        throw_out_of_range("number of shares in the blend", static_cast<double>(shares.size()), "",
                           "one for each pigment, 1 at least");
    double sum = 0.0;
    for (const S& s : shares)
        sum += s.value();
    if (!(std::abs(sum - 1.0) <= 1e-6)) throw_out_of_range("sum of the shares of the blend", sum, "", "1");
    for (const BlendPigment& p : pigments) {
        detail::require_positive(p.demand.value(), "binder demand of a pigment", "m3/kg");
        detail::require_positive(p.density.value(), "density of a pigment", "kg/m3");
    }
}

void pack(std::span<const BlendPigment> pigments, Blend& b) {
    std::vector<PackingClass> classes;
    for (std::size_t i = 0; i < pigments.size(); ++i) {
        const BlendPigment& p = pigments[i];
        // A pigment that is listed but absent needs no size.
        if (!(b.volume_shares[i].value() > 0.0)) continue;
        if (!p.median_size) return;
        const auto c = critical_pigment_volume_concentration(p.demand, p.density);
        classes.push_back({VolumeFraction::of(c.value()), *p.median_size, b.volume_shares[i]});
    }
    const LinearPacking packed = linear_packing_fraction(classes);
    // Never denser in voids than the additive rule, whatever the last bit says.
    const double c = std::max(packed.packing.value(), b.additive_cpvc.value());
    b.possible_cpvc = CriticalPigmentVolumeConcentration::of(c);
    b.possible_demand =
        std::min(b.additive_demand, SpecificVolume::from_value((1.0 / c - 1.0) / b.density.value()));
    b.validity = packed.validity;
    b.possible_saving = std::max(0.0, 1.0 - double(*b.possible_demand / b.additive_demand));
}

} // namespace

BlendPigment blend_pigment(const Pigment& p) {
    BlendPigment out{
        binder_demand(p.oil_absorption.value().value(), p.test_oil_density.value()), as_weighed_density(p), {}};
    if (p.median_size) out.median_size = p.median_size->value();
    return out;
}

std::vector<VolumeFraction> volume_shares(std::span<const BlendPigment> pigments,
                                          std::span<const MassFraction> shares) {
    check(pigments, shares);
    SpecificVolume total;
    for (std::size_t i = 0; i < shares.size(); ++i)
        total += shares[i] / pigments[i].density;
    std::vector<VolumeFraction> out;
    for (std::size_t i = 0; i < shares.size(); ++i)
        out.push_back(part_of<VolumeFraction>(shares[i] / pigments[i].density, total));
    return out;
}

std::vector<MassFraction> mass_shares(std::span<const BlendPigment> pigments,
                                      std::span<const VolumeFraction> shares) {
    check(pigments, shares);
    MassDensity total;
    for (std::size_t i = 0; i < shares.size(); ++i)
        total += shares[i] * pigments[i].density;
    std::vector<MassFraction> out;
    for (std::size_t i = 0; i < shares.size(); ++i)
        out.push_back(part_of<MassFraction>(shares[i] * pigments[i].density, total));
    return out;
}

Blend blend(std::span<const BlendPigment> pigments, std::span<const MassFraction> shares,
            const std::optional<MeasuredBlend>& measured) {
    Blend b;
    b.volume_shares = volume_shares(pigments, shares);
    std::vector<Component> components;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        b.additive_demand += shares[i] * pigments[i].demand;
        components.push_back({shares[i], pigments[i].density});
    }
    b.density = mixture_density(components);
    b.additive_cpvc = critical_pigment_volume_concentration(b.additive_demand, b.density);
    pack(pigments, b);
    b.demand = b.additive_demand;
    if (measured) {
        b.demand = binder_demand(measured->oil_absorption, measured->test_oil);
        b.source = DemandSource::measured;
    }
    b.cpvc = critical_pigment_volume_concentration(b.demand, b.density);
    return b;
}

Blend blend(std::span<const BlendPigment> pigments, std::span<const VolumeFraction> shares,
            const std::optional<MeasuredBlend>& measured) {
    return blend(pigments, std::span<const MassFraction>(mass_shares(pigments, shares)), measured);
}

std::vector<ExtenderPoint> extender_curve(const BlendPigment& pigment, const BlendPigment& extender,
                                          int points) {
    if (points < 2 || points > 10000)
        throw_out_of_range("points of the extender curve", points, "", "2 to 10000");
    const std::array<BlendPigment, 2> both{pigment, extender};
    std::vector<ExtenderPoint> curve;
    for (int i = 0; i < points; ++i) {
        const double v = static_cast<double>(i) / (points - 1);
        const std::array<VolumeFraction, 2> by_volume{VolumeFraction::of(1.0 - v), VolumeFraction::of(v)};
        const auto by_mass = mass_shares(both, by_volume);
        curve.push_back({by_mass[1], by_volume[1], blend(both, std::span<const MassFraction>(by_mass))});
    }
    return curve;
}

std::vector<SizeRatioPoint> size_ratio_curve(const BlendPigment& pigment, const BlendPigment& extender,
                                             VolumeFraction extender_share, std::span<const double> ratios) {
    if (!pigment.median_size)
        throw DomainError("grain size of the pigment", "not given", "known, for a curve over the size ratio",
                          "give its median size");
    const std::array<VolumeFraction, 2> shares{complement(extender_share), extender_share};
    std::vector<SizeRatioPoint> curve;
    for (const double ratio : ratios) {
        detail::require_positive(ratio, "ratio of grain sizes", "");
        std::array<BlendPigment, 2> both{pigment, extender};
        both[1].median_size = *pigment.median_size * ratio;
        curve.push_back({ratio, blend(both, std::span<const VolumeFraction>(shares))});
    }
    return curve;
}

} // namespace lakebound
