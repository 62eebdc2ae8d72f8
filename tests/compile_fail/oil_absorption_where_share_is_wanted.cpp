// Oil absorption where a plain percentage is wanted.
// expect: could not convert|no known conversion|no matching function
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

void lose(Share);
void use() {
#ifdef LAKEBOUND_BAD
    lose(grams_per_100_grams(3)); // BAD
#else
    lose(Share::of(0.03));
#endif
}
