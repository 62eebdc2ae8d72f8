#pragma once
// Four pour-offs of 100 mm of water at 20 degC, which the tests of particle and report stand on.

#include "lakebound/particle/settle_answer.hpp"

namespace lakebound::testing {

inline SettleQuestion four_pours(Length cut) {
    SettleQuestion asked;
    asked.cut = cut;
    asked.depth = millimetres(100.0);
    asked.density = {grams_per_cubic_centimetre(1.88), GivenBy::maker};
    asked.temperature = {degrees_celsius(20.0), GivenBy::maker};
    asked.solids = VolumeFraction::of(0.02);
    asked.handling = {minutes(3), minutes(1)};
    asked.usual_draw = Share::of(0.8);
    asked.pours = 4;
    asked.shortest_wait = seconds(5);
    asked.longest_wait = hours(24);
    return asked;
}

} // namespace lakebound::testing
