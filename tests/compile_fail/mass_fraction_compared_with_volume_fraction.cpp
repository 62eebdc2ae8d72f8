// A mass fraction is not larger or smaller than a volume fraction.
// expect: no match for .operator<.|invalid operands
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

void use() {
#ifdef LAKEBOUND_BAD
    const bool less = MassFraction::of(0.1) < VolumeFraction::of(0.2); // BAD
#else
    const bool less = MassFraction::of(0.1) < MassFraction::of(0.2);
#endif
}
