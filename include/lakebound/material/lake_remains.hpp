#pragma once
// Lake remains: what a bath leaves in its lake beside colour, alumina and water, and what was written down of its colour.
//
//   salts  soluble, mass of the lake as it lies: sulphates of soda or potash that the washing did not take
//   pH     of the lake stirred up in water, at rest
// Both are read or computed (bath/bath_jar.hpp), or typed by the maker. Of colour nothing is computed: hue in the maker's
// own words, the number of the swatch that shows it, and the pH at which the lake was struck.

#include <optional>
#include <string>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct LakeRemains {
    std::optional<Estimate<MassFraction>> salts;
    std::optional<Estimate<Ph>> ph;

    bool known() const noexcept { return salts || ph; }
};

/// What paint bears of them. The figures lie on the shelf (kind: wash habits) with their origin.
struct LakeLimits {
    MassFraction salts_allowed; ///< of the pigment, in most paint
    MassFraction salts_for_oil; ///< in oil and in tubes
    Share preservative_active;  ///< below this share of it a preservative is called dead
    Ph alkaline_above;          ///< hues shift, oil turns to soap
    Probability said_from;      ///< a chance that is worth a warning
};

struct ColourRecord {
    std::string hue;                   ///< in the maker's words
    std::optional<unsigned> swatch;    ///< its number
    std::optional<Estimate<Ph>> strike; ///< pH at which the lake was struck

    bool any() const noexcept { return !hue.empty() || swatch || strike; }
};

} // namespace lakebound
