#pragma once
// Jar: one container of one dried pigment, and what was measured on it.

#include <string>
#include <vector>

#include "lakebound/material/pigment.hpp"

namespace lakebound {

struct Jar {
    std::string id;
    std::string name;
    Pigment pigment;         ///< the library's figures with the jar's own measurements laid over them
    Estimate<Mass> net_mass; ///< what is in it now, as weighed
    std::vector<std::string> library_defaults; ///< names of the figures that the library filled in
    std::string note;
};

} // namespace lakebound
