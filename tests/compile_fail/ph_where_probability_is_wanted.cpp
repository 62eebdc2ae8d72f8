// A pH where the chance that is worth a warning is wanted: both lie beside each other among the limits of a lake.
// expect: could not convert|cannot convert|no known conversion
#include "lakebound/material/lake_remains.hpp"

using namespace lakebound;

LakeLimits limits(Ph alkaline_above, Probability said_from) {
#ifdef LAKEBOUND_BAD
    return {MassFraction::of(0.01), MassFraction::of(0.005), Share::of(0.05), said_from, alkaline_above}; // BAD
#else
    return {MassFraction::of(0.01), MassFraction::of(0.005), Share::of(0.05), alkaline_above, said_from};
#endif
}
