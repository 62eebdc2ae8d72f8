#pragma once
// How small and how large a quantity can be and still be one of a bench: the bounds of every text that is
// read as a quantity, in files and on the command line alike.
//
// They are wide: what lies outside is a slip of unit or exponent, and would leave the range in which sums
// and squares of doubles mean anything. A key that knows better has a narrower range of its own.

#include <optional>
#include <string_view>

#include "lakebound/export.hpp"
#include "lakebound/quantity/text.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Of the size of a quantity, sign aside, in its canonical unit. Zero is always possible. What the words name
/// and `least` and `most` let pass is refused by the type of the ratio or, better, by the key that has a narrower
/// range and a question to ask; so the words hold for whoever reads them.
struct Possible {
    double least = 0.0, most = 0.0;
    std::string_view words; ///< "0.001 to 25 g/cm3"
    std::string_view hint;  ///< may be empty
    bool from_zero = false; ///< the words begin at 0: what is below `least` is within them, and too small to tell
};

[[nodiscard]] const Possible& possible(Dimension dimension);

/// The largest factor of an uncertainty: a value that may be ten times larger or smaller is not known.
inline constexpr double largest_spread_factor = 10.0;

} // namespace lakebound
