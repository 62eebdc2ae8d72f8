#pragma once
// What the bath left in a jar, and what a paint makes of it, as facts; of its colour what was written down.

#include "lakebound/paint/jar_remains.hpp"
#include "page_builder.hpp"

namespace lakebound::layout {

/// remains: of the paint that is asked about.
void add_remains(PageBuilder& page, const LakeRemains& lake, const JarRemains& remains);
void add_colour(PageBuilder& page, const ColourRecord& colour);

} // namespace lakebound::layout
