#pragma once
// The ids of all faults in what a person types, one line each. docs/errors.md tells more about every
// one; tests/errors/ holds a file that triggers it. Tests keep the four in step.

#include <string_view>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct CatalogueEntry {
    std::string_view id;
    std::string_view meaning;
};

/// All ids, sorted.
[[nodiscard]] const std::vector<CatalogueEntry>& error_catalogue();

} // namespace lakebound
