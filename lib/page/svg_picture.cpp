#include "html_parts.hpp"
#include "html_text.hpp"
#include "svg.hpp"

namespace lakebound::page {

void write_picture(std::string& out, const Picture& picture, const std::string& name) {
    std::visit(
        [&](const auto& drawn) {
            Svg svg(picture.narrow ? 300.0 : 360.0, name);
            std::vector<std::string> unplaced;
            const double height = draw(svg, drawn, unplaced);
            out += picture.narrow ? "<figure class=\"narrow\">" : "<figure>";
            out += svg.finish(height, drawn.question, drawn.description.empty() ? described(drawn) : drawn.description);
            auto caption = printed(drawn.caption);
            for (const auto& words : unplaced) // a label that found no room is still said
                caption += (caption.empty() ? "" : " ") + printed(words) + ".";
            if (!caption.empty()) out += "<figcaption>" + caption + "</figcaption>";
            out += "</figure>\n";
        },
        picture.is);
}

} // namespace lakebound::page
