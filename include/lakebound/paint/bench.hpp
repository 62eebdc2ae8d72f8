#pragma once
// Bench: the maker's own instruments and habits.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/text.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct Scale {
    std::string name{};
    Mass step{};                         ///< smallest difference it shows
    std::optional<Mass> capacity{};      ///< most it carries
    std::optional<Mass> repeatability{}; ///< standard deviation of one weighing, if tested
};

struct Syringe {
    std::string name;
    Volume capacity;
    Volume step;
};

/// What stays on slab, muller and knife: fixed + share * pigment mass, as pigment.
struct SlabLoss {
    Mass fixed;
    Share share;
};

struct Bench {
    std::string name;
    std::vector<Scale> scales; ///< one at least
    std::vector<Syringe> syringes;
    KitchenMeasures kitchen; ///< the maker's own drop and teaspoon
    SlabLoss slab_loss;
    Share weighing_tolerance;  ///< error in one weighing that the maker accepts
    Mass reserve;              ///< pigment to keep back in the jar for tests
    RelativeHumidity humidity; ///< of the room
    Temperature temperature{}; ///< of the room and its water
};

} // namespace lakebound
