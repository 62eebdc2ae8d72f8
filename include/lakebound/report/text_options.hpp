#pragma once
// What every text report may be asked for: width, colour, ASCII.

#include "lakebound/page/text_writer.hpp"

namespace lakebound {

using TextOptions = page::TextOptions;

} // namespace lakebound
