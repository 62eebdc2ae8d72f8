// How far a pen is off, where the pH that it read is wanted: the two turned round.
// expect: could not convert|cannot convert|no known conversion|no matching function
#include "lakebound/bath/titration.hpp"

using namespace lakebound;

std::optional<HydroxideBelief> learn(const Titration& bath, Ph read, PhDifference read_to) {
#ifdef LAKEBOUND_BAD
    return hydroxides_at_ph(bath, read_to, read); // BAD
#else
    return hydroxides_at_ph(bath, read, read_to);
#endif
}
