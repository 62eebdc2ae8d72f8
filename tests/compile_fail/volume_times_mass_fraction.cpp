// A mass fraction takes no part of a volume: that needs a density.
// expect: no match for .operator\*.|invalid operands
#include "lakebound/quantity/ratio_arithmetic.hpp"

using namespace lakebound;

void use() {
#ifdef LAKEBOUND_BAD
    const auto part = millilitres(20.0) * MassFraction::of(0.3); // BAD
#else
    const auto part = millilitres(20.0) * VolumeFraction::of(0.3);
#endif
}
