#pragma once
// What the bath left in a jar, and what a paint makes of it, as JSON; of its colour what was written down.

#include "json_pieces.hpp"
#include "lakebound/paint/jar_remains.hpp"

namespace lakebound::json_pieces {

Json remains_json(const LakeRemains& lake, const JarRemains& remains);
Json colour_json(const ColourRecord& colour);

} // namespace lakebound::json_pieces
