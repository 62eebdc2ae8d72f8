// The critical PVC where the PVC of the paint is wanted.
// expect: could not convert|no known conversion|no matching function
#include "lakebound/paint/pvc.hpp"

using namespace lakebound;

const auto c = CriticalPigmentVolumeConcentration::of(0.4);
void use() {
#ifdef LAKEBOUND_BAD
    const auto voids = film_porosity(c, c); // BAD
#else
    const auto voids = film_porosity(PigmentVolumeConcentration::of(0.5), c);
#endif
}
