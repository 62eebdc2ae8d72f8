#pragma once
// Names that a mistyped word was probably meant to be: unit names, keys, material ids.

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The least number of bytes inserted, left out, replaced or swapped with their neighbour that turns
/// a into b (damerau-1964; optimal string alignment: no byte is edited twice).
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// Up to `most` candidates near to the word, nearest first, equals in the order given; empty when
/// none is near. Case does not count, and '-', '_' and ' ' count as one. Near means: up to one edit in
/// words of 2 to 4 bytes, two up to 8, three beyond; or, after all those, a candidate that begins with
/// the word or has it as one of its parts ("madder" finds "rose-madder"), from 3 bytes on.
[[nodiscard]] std::vector<std::string> nearest_names(std::string_view word, std::span<const std::string_view> candidates,
                                                     std::size_t most = 3);
[[nodiscard]] std::vector<std::string> nearest_names(std::string_view word, const std::vector<std::string>& candidates,
                                                     std::size_t most = 3);

} // namespace lakebound
