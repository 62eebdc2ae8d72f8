#include "html_parts.hpp"
#include "html_text.hpp"

namespace lakebound::page {

void write_picture(std::string& out, const Picture& picture, const std::string& name) {
    std::visit(
        [&](const auto& drawn) {
            out += "<figure><svg viewBox=\"0 0 360 20\" role=\"img\" aria-labelledby=\"" + name + "t\"><title id=\"" + name +
                   "t\">" + printed(drawn.question) + "</title></svg></figure>\n";
        },
        picture.is);
}

} // namespace lakebound::page
