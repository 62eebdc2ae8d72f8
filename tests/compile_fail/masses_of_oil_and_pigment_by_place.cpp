// Oil and pigment by mass and density, of which nobody sees which is which.
// expect: could not convert|cannot convert|no matching function|too many arguments|invalid initialization
#include "lakebound/paint/layers.hpp"

using namespace lakebound;

OilShare fat(Mass oil, MassDensity oil_density, Mass pigment, MassDensity pigment_density) {
#ifdef LAKEBOUND_BAD
    return oil_share(oil, oil_density, pigment, pigment_density); // BAD
#else
    return oil_share(
        {.pigment = pigment, .pigment_density = pigment_density, .oil = oil, .oil_density = oil_density});
#endif
}
