// A mass where a plain number is wanted: nobody can tell in which unit. `value()` would give kilograms.
// expect: cannot convert|no viable conversion
#include "lakebound/quantity/units.hpp"

using namespace lakebound;

void use(Mass jar) {
#ifdef LAKEBOUND_BAD
    const double shown = jar; // BAD
#else
    const double shown = in_grams(jar);
#endif
}
