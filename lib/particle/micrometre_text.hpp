#pragma once
// How the particle room writes an aperture or a mass inside an error message.

#include <string>

#include "lakebound/quantity/text.hpp"

namespace lakebound {

inline std::string trimmed_text(double x) {
    // Three decimals, so that 75 um does not read 74.99999999999999 um.
    std::string text = fixed_text(x, 3);
    while (text.back() == '0')
        text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}
inline std::string micrometre_text(Length l) { return trimmed_text(in_micrometres(l)) + " um"; }
inline std::string gram_text(Mass m) { return trimmed_text(in_grams(m)) + " g"; }

} // namespace lakebound
