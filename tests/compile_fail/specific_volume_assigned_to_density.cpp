// A specific volume is the inverse of a density, not a density.
// expect: static.assert.*is_implicitly_convertible
#include "lakebound/quantity/units.hpp"

using namespace lakebound;

void use() {
#ifdef LAKEBOUND_BAD
    MassDensity d;
    d = millilitres_per_gram(0.7); // BAD
#else
    MassDensity d;
    d = 1.0 / millilitres_per_gram(0.7);
#endif
}
