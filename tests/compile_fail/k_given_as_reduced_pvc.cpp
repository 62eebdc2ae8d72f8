// Binder sufficiency k where a reduced PVC is wanted: they run opposite ways.
// expect: could not convert|no known conversion|no matching function
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

void aim(ReducedPigmentVolumeConcentration);
void use() {
#ifdef LAKEBOUND_BAD
    aim(BinderSufficiency::of(1.4)); // BAD
#else
    aim(ReducedPigmentVolumeConcentration::of(0.75));
#endif
}
