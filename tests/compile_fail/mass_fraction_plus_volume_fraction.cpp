// A mass fraction and a volume fraction do not add; Boost.Units alone would let them.
// expect: no match for .operator\+.|invalid operands
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

void use() {
#ifdef LAKEBOUND_BAD
    const auto sum = MassFraction::of(0.1) + VolumeFraction::of(0.2); // BAD
#else
    const auto sum = MassFraction::of(MassFraction::of(0.1).value() + MassFraction::of(0.2).value());
#endif
}
