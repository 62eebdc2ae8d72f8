// Oil absorption is oil per pigment, not a percentage of a whole: 65 g/100g is not 65 %.
// expect: could not convert|no known conversion|no matching function
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

void dose(MassFraction);
void use() {
#ifdef LAKEBOUND_BAD
    dose(grams_per_100_grams(65)); // BAD
#else
    dose(MassFraction::of(0.65));
#endif
}
