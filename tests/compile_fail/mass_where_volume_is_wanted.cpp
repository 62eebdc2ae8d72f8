// A mass where a volume is wanted: 12.5 g of honey is not 12.5 mL.
// expect: could not convert|no known conversion|no matching function
#include "lakebound/quantity/units.hpp"

using namespace lakebound;

void pour(Volume);
void use() {
#ifdef LAKEBOUND_BAD
    pour(grams(12.5)); // BAD
#else
    pour(millilitres(12.5));
#endif
}
