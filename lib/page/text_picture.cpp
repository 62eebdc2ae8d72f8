#include "text_lines.hpp"

namespace lakebound::page {
void write_picture(TextLines&, const Picture&) {}
} // namespace lakebound::page
