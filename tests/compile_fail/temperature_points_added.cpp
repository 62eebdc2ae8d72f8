// Two points on the temperature scale do not add; a point and a difference do.
// expect: no match for .operator\+.|invalid operands
#include "lakebound/quantity/units.hpp"

using namespace lakebound;

void use() {
#ifdef LAKEBOUND_BAD
    const auto sum = degrees_celsius(20) + degrees_celsius(5); // BAD
#else
    const auto sum = degrees_celsius(20) + TemperatureDifference::from_value(5);
#endif
}
