#pragma once
// 2 g of powder for which the sheet said 7.0 g of gum water (.2066 mL of dry gum in a gram), by a jar that wants what its
// class does; so much was poured.

#include "lakebound/record/poured.hpp"

namespace lakebound::testing {

inline PouredQuestion seven_grams_planned(double poured, const SufficiencyWindow& window) {
    PouredQuestion q;
    q.powder = grams(2.0), q.planned = grams(7.0), q.poured = grams(poured);
    q.paint = SwatchPaint{millilitres(0.65 / 0.93) / grams(1.0), millilitres(0.88 / 3.0 / 1.42) / grams(1.0)};
    q.planned_library_k = library_k(q.paint, q.powder, q.planned * q.paint.binder_per_medium);
    q.medium = grams_per_cubic_centimetre(1.10);
    q.swatch_powder = grams(0.20);
    q.doubt = NormalMixture(0.10);
    q.window = window;
    return q;
}

} // namespace lakebound::testing
