#pragma once
// A sweep of one paint: its curves over the medium, over an extender, or over the size of the extender's grains.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc_subject.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class SweepOver { medium, extender, size_ratio };
template <> struct WordTable<SweepOver> {
    static constexpr WordRow<SweepOver> rows[] = {
        {SweepOver::medium, "medium"},
        {SweepOver::extender, "extender"},
        {SweepOver::size_ratio, "size-ratio"},
    };
};

struct SweepWish {
    SweepOver over = SweepOver::medium;
    double from = 0.0, to = 0.0; ///< medium per pigment; mass share of the extender; size ratio
    std::size_t points = 11;
};

/// The range swept when the maker names none: a quarter to twice the medium of the paint; extender
/// shares 0 to 1; size ratios 1 to 30.
[[nodiscard]] SweepWish usual_range(SweepOver over, const PvcSubject& subject);

/// What a curve shows: plain ratios, but for binder_demand.
enum class SweepFigure {
    medium_per_pigment,
    extender_mass_fraction,
    size_ratio, ///< grains of the extender over those of the pigment
    binder_demand, ///< that just fills, in mL/g
    k,
    pvc,
    cpvc,
    reduced_pvc,
    chance_underbound,
    additive_cpvc,
    possible_cpvc,
    possible_saving,
};
template <> struct WordTable<SweepFigure> {
    static constexpr WordRow<SweepFigure> rows[] = {
        {SweepFigure::medium_per_pigment, "medium per pigment"},
        {SweepFigure::extender_mass_fraction, "extender mass fraction"},
        {SweepFigure::size_ratio, "size ratio"},
        {SweepFigure::binder_demand, "binder demand ml per g"},
        {SweepFigure::k, "k"},
        {SweepFigure::pvc, "pvc"},
        {SweepFigure::cpvc, "cpvc"},
        {SweepFigure::reduced_pvc, "reduced pvc"},
        {SweepFigure::chance_underbound, "chance underbound"},
        {SweepFigure::additive_cpvc, "additive cpvc"},
        {SweepFigure::possible_cpvc, "possible cpvc"},
        {SweepFigure::possible_saving, "possible saving"},
    };
};

struct SweepCurve {
    SweepFigure figure{};
    std::vector<double> values;
};

struct SweepAnswer {
    SweepOver over{};
    std::vector<SweepCurve> curves{}; ///< all of one length, what is swept first; what is not known is left out
    std::string paint{};            ///< its name
    std::optional<SufficiencyWindow> window{}; ///< of k, where k is among the curves
    std::optional<double> here{};              ///< of the first curve: the paint as it is, if it was swept over
    std::optional<BinderSufficiency> k_here{};
};

/// The most points of a sweep over size ratios, each of which packs anew.
inline constexpr std::size_t greatest_size_ratio_sweep = 10'000;

/// Throws DomainError as sweep.hpp and blend.hpp do, and where the oil absorption is not known; over the extender and
/// size ratios also unless the paint has two pigments, of which the second is the extender, and their figures are known.
[[nodiscard]] SweepAnswer sweep_paint(const PvcSubject& subject, const SweepWish& wish);

} // namespace lakebound
