// Oil absorption is of a mass of pigment; a volume of it holds air.
// expect: no match for .operator\*.|invalid operands
#include "lakebound/quantity/ratio_arithmetic.hpp"

using namespace lakebound;

void use() {
#ifdef LAKEBOUND_BAD
    const Mass oil = millilitres(20.0) * grams_per_100_grams(68.0); // BAD
#else
    const Mass oil = grams(20.0) * grams_per_100_grams(68.0);
#endif
}
