// A bare number where a mass is wanted: nobody can tell whether grams were meant.
// expect: could not convert|no known conversion|no matching function
#include "lakebound/quantity/units.hpp"

using namespace lakebound;

void weigh(Mass);
void use() {
#ifdef LAKEBOUND_BAD
    weigh(12.5); // BAD
#else
    weigh(grams(12.5));
#endif
}
