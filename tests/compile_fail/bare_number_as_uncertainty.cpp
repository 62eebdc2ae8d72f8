// A bare number as the uncertainty of a density: 0.20 beside 1.88 g/cm3 was taken as 0.20 kg/m3.
// expect: could not convert|cannot convert|could not bind|no known conversion|invalid initialization
#include "lakebound/estimate/estimate.hpp"

using namespace lakebound;

Estimate<MassDensity> lake_density() {
#ifdef LAKEBOUND_BAD
    return Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.88), 0.20, {}); // BAD
#else
    return Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.88), grams_per_cubic_centimetre(0.20), {});
#endif
}
