// A binder index that was not set: 0 would ask for endless binder.
// expect: no matching function|no matching constructor|use of deleted function|constraints not satisfied
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

BinderIndex of_oil() {
#ifdef LAKEBOUND_BAD
    return BinderIndex(); // BAD
#else
    return BinderIndex::of(1.0);
#endif
}
