// A limit of k where the k that it is asked of stands: turned round the chance of failing would be that of holding.
// expect: could not convert|cannot convert|no matching function|too many arguments|could not bind|invalid initialization
#include "lakebound/paint/spread.hpp"

using namespace lakebound;

Probability too_lean(BinderSufficiency k, double sigma, BinderSufficiency least) {
#ifdef LAKEBOUND_BAD
    return chance_below(least, {k, sigma}); // BAD
#else
    return chance_below({.k = k, .sigma = sigma}, least);
#endif
}
