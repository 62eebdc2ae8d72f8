// What is left of a batch where what was weighed is wanted: vessels would be filled with more than there is.
// expect: could not convert|cannot convert|no matching function|too many arguments|invalid initialization
#include "lakebound/paint/filling.hpp"

using namespace lakebound;

Filling fill(const Vessel& vessel, const PaintVolumes& volumes, Mass kept, Mass weighed) {
#ifdef LAKEBOUND_BAD
    return fill_vessels(vessel, volumes, kept, weighed); // BAD
#else
    return fill_vessels(vessel, volumes, {.weighed = weighed, .kept = kept});
#endif
}
