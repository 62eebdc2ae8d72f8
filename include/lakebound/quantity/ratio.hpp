#pragma once
// The ratios of the trade, each a type of its own.
//
// Boost.Units sees every ratio of like quantities as one dimensionless type, so a mass fraction
// would add to a volume fraction without a word. Here each ratio has a tag, a range that its named
// maker checks, and no conversion to any other ratio or to double. Percent exists only in text.
//
// Errors: the checked makers throw DomainError outside the range, and for NaN and infinity.

#include <compare>
#include <limits>

#include "lakebound/export.hpp"
#include "lakebound/quantity/error.hpp"

namespace LAKEBOUND_EXPORT lakebound {

template <class Tag> class RatioDifference;

/// A tag that names `no_default` has no ratio that nobody set.
template <class Tag> concept HasDefaultRatio = !requires { Tag::no_default; };

template <class Tag> class Ratio {
public:
    using Difference = RatioDifference<Tag>; ///< of two such ratios; how far one is from sure

    /// Zero, like a default quantity.
    constexpr Ratio() noexcept
        requires HasDefaultRatio<Tag>
    = default;

    /// The plain number (0.12 for 12 %); throws DomainError outside the tag's range.
    [[nodiscard]] static constexpr Ratio of(double x) {
        if (!(x >= Tag::lowest && x <= greatest)) // false for NaN as well
        {
            if constexpr (requires { Tag::shown_times; })
                throw_out_of_range(Tag::name, x * Tag::shown_times, Tag::shown_unit, Tag::range);
            else throw_out_of_range(Tag::name, x, "", Tag::range);
        }
        return Ratio(x);
    }
    /// For a formula whose inputs already prove the result to lie in range: no check, no cost.
    [[nodiscard]] static constexpr Ratio from_proven(double x) noexcept { return Ratio(x); }

    constexpr double value() const noexcept { return value_; }
    friend constexpr auto operator<=>(const Ratio&, const Ratio&) noexcept = default;

private:
    static constexpr double greatest = Tag::highest < std::numeric_limits<double>::max()
                                           ? Tag::highest
                                           : std::numeric_limits<double>::max();
    constexpr explicit Ratio(double x) noexcept : value_(x) {}
    double value_ = 0.0;
};

namespace ratio_tag {
constexpr double unbounded = std::numeric_limits<double>::infinity();
struct MassFraction {
    static constexpr const char* name = "mass fraction";
    static constexpr const char* range = "0 to 1";
    static constexpr double lowest = 0.0, highest = 1.0;
};
struct VolumeFraction {
    static constexpr const char* name = "volume fraction";
    static constexpr const char* range = "0 to 1";
    static constexpr double lowest = 0.0, highest = 1.0;
};
struct OilAbsorption {
    static constexpr const char* name = "oil absorption";
    static constexpr const char* range = "2 to 400 g oil per 100 g pigment";
    static constexpr const char* shown_unit = "g/100 g"; ///< as it is said
    static constexpr double shown_times = 100.0;
    static constexpr double lowest = 0.02, highest = 4.0;
    static constexpr bool no_default = true; // nothing is bound by no oil
};
struct PigmentVolumeConcentration {
    static constexpr const char* name = "pigment volume concentration";
    static constexpr const char* range = "0 to 1";
    static constexpr double lowest = 0.0, highest = 1.0;
};
struct CriticalPigmentVolumeConcentration {
    static constexpr const char* name = "critical pigment volume concentration";
    static constexpr const char* range = "0 to 1";
    static constexpr double lowest = 0.0, highest = 1.0;
};
struct ReducedPigmentVolumeConcentration {
    static constexpr const char* name = "reduced pigment volume concentration";
    static constexpr const char* range = "0 upward";
    static constexpr double lowest = 0.0, highest = unbounded;
};
struct BinderSufficiency {
    static constexpr const char* name = "binder sufficiency k";
    static constexpr const char* range = "0 upward";
    static constexpr double lowest = 0.0, highest = unbounded;
};
struct BinderIndex {
    static constexpr const char* name = "binder index";
    static constexpr const char* range = "0.1 to 1";
    static constexpr double lowest = 0.1, highest = 1.0;
    static constexpr bool no_default = true; // 0 would ask for endless binder
};
struct MediumPerPigment {
    static constexpr const char* name = "mass of medium per mass of pigment";
    static constexpr const char* range = "0 upward";
    static constexpr double lowest = 0.0, highest = unbounded;
};
struct RelativeHumidity {
    static constexpr const char* name = "relative humidity";
    static constexpr const char* range = "0 to 1";
    static constexpr double lowest = 0.0, highest = 1.0;
};
struct Share {
    static constexpr const char* name = "share";
    static constexpr const char* range = "0 to 1";
    static constexpr double lowest = 0.0, highest = 1.0;
};
struct Probability {
    static constexpr const char* name = "probability";
    static constexpr const char* range = "0 to 1";
    static constexpr double lowest = 0.0, highest = 1.0;
};
struct Ph {
    static constexpr const char* name = "pH";
    static constexpr const char* range = "0 to 14";
    static constexpr double lowest = 0.0, highest = 14.0;
    static constexpr bool no_default = true; // 0 would be battery acid
};
} // namespace ratio_tag

/// Mass of a component per mass of the whole.
using MassFraction = Ratio<ratio_tag::MassFraction>;
/// Volume of a component per volume of the whole.
using VolumeFraction = Ratio<ratio_tag::VolumeFraction>;
/// Mass of oil per mass of pigment at the rub-out end point: 0.688 for 68.8 g/100 g.
using OilAbsorption = Ratio<ratio_tag::OilAbsorption>;
/// PVC: pigment volume over pigment plus dry binder volume.
using PigmentVolumeConcentration = Ratio<ratio_tag::PigmentVolumeConcentration>;
/// CPVC: the PVC at which dry binder just fills the packed pigment.
using CriticalPigmentVolumeConcentration = Ratio<ratio_tag::CriticalPigmentVolumeConcentration>;
/// PVC / CPVC; above 1 the film holds air.
using ReducedPigmentVolumeConcentration = Ratio<ratio_tag::ReducedPigmentVolumeConcentration>;
/// k: dry binder volume over the dry binder volume that just fills the pigment.
using BinderSufficiency = Ratio<ratio_tag::BinderSufficiency>;
/// e: the share of the voids that a particulate binder such as yolk can reach; 1 for oil and gum.
using BinderIndex = Ratio<ratio_tag::BinderIndex>;
/// Mass of medium, as it is poured, per mass of pigment as weighed.
using MediumPerPigment = Ratio<ratio_tag::MediumPerPigment>;
/// Relative humidity of the room's air, 0.5 for 50 %.
using RelativeHumidity = Ratio<ratio_tag::RelativeHumidity>;
/// A share of one and the same thing: a batch lost on the slab, a vessel filled, a tolerance.
using Share = Ratio<ratio_tag::Share>;
/// A chance, 0 to 1.
using Probability = Ratio<ratio_tag::Probability>;
/// Minus the decimal logarithm of the hydrogen ion's activity, as a strip or a pen reads it in water.
using Ph = Ratio<ratio_tag::Ph>;

/// What is left of a whole: 1 - x, in the same ratio.
[[nodiscard]] constexpr MassFraction complement(MassFraction x) noexcept { return MassFraction::from_proven(1.0 - x.value()); }
[[nodiscard]] constexpr VolumeFraction complement(VolumeFraction x) noexcept {
    return VolumeFraction::from_proven(1.0 - x.value());
}
[[nodiscard]] constexpr Share complement(Share x) noexcept { return Share::from_proven(1.0 - x.value()); }
/// Oil absorption from the figure as the trade writes it, in g oil per 100 g pigment (2 to 400).
[[nodiscard]] constexpr OilAbsorption grams_per_100_grams(double x) { return OilAbsorption::of(x / 100.0); }
[[nodiscard]] constexpr double in_grams_per_100_grams(OilAbsorption x) noexcept { return x.value() * 100.0; }

} // namespace lakebound
