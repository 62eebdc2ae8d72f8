#pragma once
// What a record says of a paint, as JSON: the same in the card of a jar and in the sheet of a batch.

#include "json_pieces.hpp"
#include "lakebound/record/jar_outlook.hpp"

namespace lakebound::json_pieces {

Json outlook_json(const JarOutlook& outlook);

} // namespace lakebound::json_pieces
