// A plain number where a pH is wanted: it might as well be a hydrogen ion's concentration, or how far a strip is off.
// expect: could not convert|cannot convert|no known conversion|no matching function
#include "lakebound/material/keeping.hpp"

using namespace lakebound;

Share alive() {
#ifdef LAKEBOUND_BAD
    return active_share(PreservativeAcid::sorbic, 6.4); // BAD
#else
    return active_share(PreservativeAcid::sorbic, Ph::of(6.4));
#endif
}
