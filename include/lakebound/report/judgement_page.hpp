#pragma once
// The verdict of a paint, and the doubt behind it, as parts of a page.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/paint/batch_subject.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// "Should hold, k 1.40", the chance in whole numbers, what stands against it and the family's window; at its
/// side twenty dots, one for each of so many equal chances. The subject must be judged.
[[nodiscard]] page::Verdict verdict_block(const BatchSubject& subject);

/// k over the amount of medium with its doubt and the window of the family, this batch marked, and below it how
/// many of 100 mixes land in the window. The subject must be judged.
[[nodiscard]] page::Picture medium_picture(const BatchSubject& subject);

/// Where the doubt in k comes from, largest first; solid bars rest on the maker's own measurements.
[[nodiscard]] page::Picture doubt_picture(const BatchSubject& subject);

/// "85 of 100": the chances in whole numbers that sum to 100.
struct OfHundred {
    int leaner, in_window, richer;
};
[[nodiscard]] OfHundred of_hundred(const WindowChances& chances);

} // namespace lakebound
