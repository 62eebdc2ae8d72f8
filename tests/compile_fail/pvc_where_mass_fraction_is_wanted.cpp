// A pigment volume concentration where a mass fraction is wanted.
// expect: could not convert|no known conversion|no matching function
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

void dose(MassFraction);
void use() {
#ifdef LAKEBOUND_BAD
    dose(PigmentVolumeConcentration::of(0.3)); // BAD
#else
    dose(MassFraction::of(0.3));
#endif
}
