#pragma once
// What every text report may be asked for: width, colour, ASCII.

#include "lakebound/export.hpp"
#include "lakebound/page/text_writer.hpp"

namespace LAKEBOUND_EXPORT lakebound {

using TextOptions = page::TextOptions;

} // namespace lakebound
