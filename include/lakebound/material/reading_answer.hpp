#pragma once
// A bench reading read: the figure it comes to, and what stands to be known of it.
// Example: docs/examples/read_a_rub_out.cpp.

#include <optional>
#include <string>
#include <variant>

#include "lakebound/export.hpp"
#include "lakebound/material/bench_reading.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct RubOutRead {
    RubOutResult result;
    std::optional<Estimate<Mass>> drop{};    ///< mass of one; where drops were counted
    std::optional<OilAbsorption> one_drop{}; ///< what one drop changes, of the rub-out where it changes most
    bool drops_too_coarse = false;           ///< that is above coarse_drop: take more pigment
    // Of a single rub-out:
    std::optional<double> after_two_more{}; ///< ln-sd of the figure after two more
    bool end_point_leads = false;           ///< what repeats average out is most of its variance
};
struct PyknometerRead {
    Estimate<MassDensity> density;
    bool air_dominates = false; ///< a bubble of bubble_left would move it by more than its uncertainty
};
struct DisplacementRead {
    Estimate<MassDensity> density; ///< too low where air was left in the powder
};
struct TappedFillRead {
    Estimate<MassDensity> tapped_density;
};
struct MediumSolidsRead {
    Estimate<MassFraction> non_volatile; ///< of an ingredient
    Share constant_within;               ///< as asked: two weighings a day apart, when it has dried
};
struct MoistureRead {
    Estimate<MassFraction> moisture; ///< of the powder as weighed
    Share constant_within;           ///< as of a medium
};

struct ReadingAnswer {
    std::string name; ///< of the reading
    std::variant<RubOutRead, PyknometerRead, DisplacementRead, TappedFillRead, MediumSolidsRead, MoistureRead> read;
};

/// The figure of a reading. Errors: DomainError as the formula of its test.
[[nodiscard]] ReadingAnswer answer_reading(const BenchReading& reading, const ReadingHabits& habits);

} // namespace lakebound
