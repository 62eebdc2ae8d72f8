// Two moistures of which nobody sees which is the powder's now: turned round the mass would shrink where it should grow.
// expect: could not convert|cannot convert|no matching function|too many arguments|invalid initialization
#include "lakebound/material/moisture.hpp"

using namespace lakebound;

Mass as_it_lies(Mass figure, MassFraction now, MassFraction of_figure) {
#ifdef LAKEBOUND_BAD
    return mass_at(figure, now, of_figure); // BAD
#else
    return mass_at(figure, {.of_figure = of_figure, .now = now});
#endif
}
