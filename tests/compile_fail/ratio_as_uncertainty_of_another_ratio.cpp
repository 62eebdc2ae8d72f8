// The uncertainty of a share where that of a mass fraction is wanted.
// expect: could not convert|cannot convert|could not bind|no known conversion|invalid initialization
#include "lakebound/estimate/estimate.hpp"

using namespace lakebound;

Estimate<MassFraction> water() {
#ifdef LAKEBOUND_BAD
    return Estimate<MassFraction>::normal(MassFraction::of(0.12), Share::Difference::of(0.03), {}); // BAD
#else
    return Estimate<MassFraction>::normal(MassFraction::of(0.12), MassFraction::Difference::of(0.03), {});
#endif
}
