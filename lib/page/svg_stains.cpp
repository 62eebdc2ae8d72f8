#include <algorithm>
#include <cmath>
#include <numbers>

#include "svg.hpp"

namespace lakebound::page {

// A cloth folded in four, and on it grains of colour laid out like the seeds of a sunflower: evenly, with no pattern that
// an eye could read as another score. More colour is more and larger grains, so that it shows in grey too.
double draw(Svg& svg, const Stains& stains, std::vector<std::string>& unplaced) {
    if (stains.cloths.empty()) return 0.0;
    constexpr double gap = 10.0, top = 4.0;
    const double count = static_cast<double>(stains.cloths.size());
    const double side = std::min(110.0, (svg.width() - 2.0 - gap * (count - 1.0)) / count);
    double left = 1.0;
    for (const auto& cloth : stains.cloths) {
        svg.raw("<rect class=\"thin\" x=\"" + svg_number(left) + "\" y=\"" + svg_number(top) + "\" width=\"" + svg_number(side) +
                "\" height=\"" + svg_number(side) + "\" rx=\"3\"/>");
        svg.line(left, top + side / 2, left + side, top + side / 2, "grid");
        svg.line(left + side / 2, top, left + side / 2, top + side, "grid");
        const double share = std::clamp(cloth.colour, 0.0, 1.0), reach = 0.40 * side;
        const int grains = static_cast<int>(std::lround(140.0 * std::sqrt(share)));
        const double radius = grains > 0 ? reach * std::sqrt(share / static_cast<double>(grains)) : 0.0;
        for (int i = 0; i < grains; ++i) {
            const double r = reach * std::sqrt((i + 0.5) / grains), a = i * std::numbers::pi * (3.0 - std::sqrt(5.0));
            svg.raw("<circle class=\"solid\" cx=\"" + svg_number(left + side / 2 + r * std::cos(a)) + "\" cy=\"" +
                    svg_number(top + side / 2 + r * std::sin(a)) + "\" r=\"" + svg_number(std::max(radius, 0.4)) + "\"/>");
        }
        svg.text(left + side / 2, top + side + 16, cloth.score, "bold", Anchor::middle);
        if (!svg.label({{left + side / 2, top + side + 31, Anchor::middle}}, cloth.words, "", top + side + 36))
            unplaced.push_back(cloth.score + ": " + cloth.words);
        left += side + gap;
    }
    return top + side + 38.0;
}

std::string described(const Stains& stains) {
    std::string text;
    for (const auto& cloth : stains.cloths)
        text += (text.empty() ? "" : "; ") + cloth.score + ": " + cloth.words + ", " +
                short_number(100.0 * std::clamp(cloth.colour, 0.0, 1.0)) + " % of the spot coloured";
    return text + ".";
}

} // namespace lakebound::page
