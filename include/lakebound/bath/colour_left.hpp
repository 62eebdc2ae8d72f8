#pragma once
// Colour left in the liquor: how much of it, and what a second laying would bring.
//
// The reading is a match by eye in two like glasses: dye liquor as it was before the alum, filled up with water to so many
// times its volume until it looks like the clear liquor over the settled lake. A dye's depth goes with its concentration
// (Beer's law), so that
//   left = (V_clear / V_liquor) / dilution
// Source: definitions (mass balance of the dye; colour comparison in like tubes is any textbook's). What a second laying
// takes is reckoned with an even partition, dye on the solid in proportion to dye in the clear liquor, per alumina laid:
//   left = 1 / (1 + K A)  so  K = (1 / left - 1) / A_1,  left_2 = 1 / (1 + K A_2)
// An estimate: real dyes are mixtures, and what stayed behind may be what alumina does not take (brown matter). The
// second lake is always paler: per alumina it holds left_2 of what the first does. Hue is not told.

#include <optional>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Dye liquor filled up to so many times its volume looks like the clear liquor.
struct ColourMatch {
    double dilution = 1.0; ///< 1 or more; 1: as dark as before
};

struct ColourHabits {
    Estimate<Share> matched_to;   ///< ln-sd of the dilution that an eye matches
    Estimate<Share> second_depth; ///< colour per alumina of a second lake, against the first, that is still worth laying
    Estimate<Share> second_least; ///< alumina of a second laying, against the first, below which it is not worth the hands
};

/// A second laying whose lake is as deep as `second_depth` of the first.
struct SecondLaying {
    Share left, left_low, left_high; ///< of the colour, in the clear liquor; nine in ten
    Share alumina;                   ///< of the first laying's aluminium salt, for the second
    Share colour;                    ///< of all colour, that it would take down
    Probability pays;                ///< chance that `alumina` is second_least or more
};

/// clear, liquor: volumes with all that was poured, and of the dye liquor before.
/// Range: dilution 1 to 1000, volumes above 0; a share above 1 (a clear liquor of more colour than went in) is an error.
/// Errors: DomainError.
[[nodiscard]] SecondLaying second_laying(const ColourMatch& match, Volume clear, Volume liquor, const ColourHabits& habits);

} // namespace lakebound
