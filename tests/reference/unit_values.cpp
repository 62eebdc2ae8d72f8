// Prints what the reader makes of "1 UNIT" and "7.3 UNIT" for every unit whose size is its own, one line
// each: dimension, text, value in SI base units (% w/v: g/mL). Read by units_check.py.
#include <cstdio>
#include <string>

#include "lakebound/quantity/vocabulary.hpp"

int main() {
    using namespace lakebound;
    for (const Dimension dimension : all_dimensions())
        for (const std::string_view unit : unit_names(dimension)) {
            if (unit == "tsp" || unit.substr(0, 8) == "teaspoon" || unit.substr(0, 4) == "drop") continue;
            for (const char* number : {"1", "7.3"}) {
                const std::string text = std::string(number).append(" ").append(unit);
                std::printf("%s\t%s\t%.17g\n", std::string(dimension_name(dimension)).c_str(), text.c_str(),
                            read_quantity(text, dimension).value);
            }
        }
    return 0;
}
