// A volume fraction where a mass fraction is wanted.
// expect: could not convert|no known conversion|no matching function
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

void dose(MassFraction);
void use() {
#ifdef LAKEBOUND_BAD
    dose(VolumeFraction::of(0.12)); // BAD
#else
    dose(MassFraction::of(0.12));
#endif
}
