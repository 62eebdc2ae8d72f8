// A whole number times a quantity: quantities hold double, and Boost.Units wants the very type.
// expect: no match for .operator\*.|invalid operands
#include "lakebound/quantity/units.hpp"

using namespace lakebound;

void use() {
#ifdef LAKEBOUND_BAD
    const Mass both = 2 * grams(3.0); // BAD
#else
    const Mass both = 2.0 * grams(3.0);
#endif
}
