#include "svg.hpp"

#include <algorithm>
#include <cmath>

#include "html_text.hpp"
#include "lakebound/page/line_fill.hpp"

namespace lakebound::page {

namespace {

constexpr double letter = 13.0, plain_width = 0.62, bold_width = 0.66;

const char* fill_class(Fill fill) {
    switch (fill) {
    case Fill::solid:
        return "solid";
    case Fill::hatched:
        return "";
    case Fill::shaded:
        return "shaded";
    case Fill::open:
        return "open";
    }
    return "";
}

std::string path(const std::vector<Point>& points) {
    std::string d;
    for (const auto& p : points)
        d += (d.empty() ? "M" : "L") + svg_number(p.x) + " " + svg_number(p.y);
    return d;
}

bool is_bold(std::string_view look) {
    return look.find("bold") != std::string_view::npos || look.find("red") != std::string_view::npos;
}

} // namespace

std::string fixed_number(double x, int decimals) {
    long long scale = 1;
    for (int i = 0; i < decimals; ++i)
        scale *= 10;
    if (!(std::abs(x) < 1e15 / static_cast<double>(scale))) return x < 0 ? "-1e15" : "1e15";
    const long long n = std::llround(std::abs(x) * static_cast<double>(scale));
    std::string text = std::to_string(n / scale);
    if (decimals > 0) {
        auto behind = std::to_string(n % scale);
        text += '.' + std::string(static_cast<std::size_t>(decimals) - behind.size(), '0') + behind;
    }
    return x < 0 && n != 0 ? '-' + text : text;
}

std::string svg_number(double x) {
    auto text = fixed_number(x, 1);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text;
}

std::string short_number(double x) {
    const double size = std::abs(x);
    int decimals = 0;
    for (double limit = 100.0; decimals < 6 && size < limit && size > 0.0; limit /= 10.0)
        ++decimals;
    auto text = fixed_number(x, decimals);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text;
}

void Svg::line(double x1, double y1, double x2, double y2, std::string_view look) {
    curve({{x1, y1}, {x2, y2}}, look);
}

void Svg::curve(const std::vector<Point>& points, std::string_view look) {
    if (points.size() < 2) return;
    body_ += "<path class=\"" + std::string(look) + "\" d=\"" + path(points) + "\"/>";
    for (std::size_t i = 1; i < points.size(); ++i) { // small boxes along the line
        const auto a = points[i - 1], b = points[i];
        const int parts = std::max(1, static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / 6.0));
        for (int k = 0; k <= parts; ++k) {
            const double t = static_cast<double>(k) / parts;
            const double x = a.x + t * (b.x - a.x), y = a.y + t * (b.y - a.y);
            lines_.push_back({x - 1.5, y - 1.5, x + 1.5, y + 1.5});
        }
    }
}

void Svg::shape(const std::vector<Point>& points, std::string_view look) {
    if (points.size() > 2) body_ += "<path class=\"" + std::string(look) + "\" d=\"" + path(points) + "z\"/>";
}

void Svg::filled(const std::vector<Point>& points, Fill fill) {
    if (points.size() < 3) return;
    if (fill == Fill::hatched) {
        hatched_ = true;
        body_ += "<path fill=\"url(#" + name_ + "h)\" d=\"" + path(points) + "z\"/>";
    } else {
        shape(points, fill_class(fill));
    }
}

void Svg::rect(double x, double y, double width, double height, Fill fill, bool edged) {
    filled({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}, fill);
    if (edged)
        shape({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}, "edge none");
}

double Svg::length(std::string_view text, bool bold) {
    return letter * (bold ? bold_width : plain_width) * static_cast<double>(columns(text));
}

Box Svg::box_of(double x, double y, const std::string& text, bool bold, Anchor anchor) const {
    const double wide = length(text, bold);
    const double left = anchor == Anchor::start ? x : anchor == Anchor::end ? x - wide : x - wide / 2.0;
    return {left, y - 11.0, left + wide, y + 4.0};
}

void Svg::text(double x, double y, const std::string& text, std::string_view look, Anchor anchor) {
    if (text.empty()) return;
    const auto shown = spelled(text);
    boxes_.push_back(box_of(x, y, shown, is_bold(look), anchor));
    std::string name(look);
    if (anchor != Anchor::start) name += (name.empty() ? "" : " ") + std::string(anchor == Anchor::end ? "end" : "mid");
    body_ += name.empty() ? "<text" : "<text class=\"" + name + "\"";
    body_ += " x=\"" + svg_number(x) + "\" y=\"" + svg_number(y) + "\">" + escaped(shown) + "</text>";
}

bool Svg::label(const std::vector<Place>& places, const std::string& words, std::string_view look, double bottom) {
    if (words.empty()) return true;
    const auto shown = spelled(words);
    const Place* best = nullptr;
    std::size_t fewest = 0;
    for (const auto& place : places) {
        const auto box = box_of(place.x, place.y, shown, is_bold(look), place.anchor);
        if (box.left < 0.0 || box.right > width_ || box.top < 0.0 || box.bottom > bottom) continue;
        if (std::any_of(boxes_.begin(), boxes_.end(), [&box](const Box& other) { return box.meets(other); })) continue;
        const auto hits = static_cast<std::size_t>(
            std::count_if(lines_.begin(), lines_.end(), [&box](const Box& other) { return box.meets(other); }));
        if (best != nullptr && hits >= fewest) continue;
        best = &place;
        fewest = hits;
    }
    if (best == nullptr) return false;
    text(best->x, best->y, words, look, best->anchor);
    return true;
}

std::string Svg::finish(double height, const std::string& title, const std::string& description) const {
    std::string out = "<svg viewBox=\"0 0 " + svg_number(width_) + " " + svg_number(height) +
                      "\" role=\"img\" aria-labelledby=\"" + name_ + "t\" aria-describedby=\"" + name_ +
                      "d\"><title id=\"" + name_ + "t\">" + escaped(spelled(title)) + "</title><desc id=\"" + name_ +
                      "d\">" + escaped(spelled(description)) + "</desc>";
    if (hatched_)
        out += "<defs><pattern id=\"" + name_ +
               "h\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect "
               "class=\"open\" width=\"5\" height=\"5\"/><path class=\"thin\" d=\"M0 0V5\"/></pattern></defs>";
    return out + body_ + "</svg>";
}

} // namespace lakebound::page
