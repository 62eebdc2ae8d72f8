#include <algorithm>
#include <cmath>
#include <numbers>

#include "svg.hpp"

namespace lakebound::page {

namespace {

/// The pours that are drawn: all, or the first three and the last three.
std::vector<std::size_t> drawn_pours(const Filling& filling) {
    std::vector<std::size_t> drawn;
    const auto n = filling.pours.size();
    for (std::size_t i = 0; i < n; ++i)
        if (n <= 7 || i < 3 || i + 3 >= n) drawn.push_back(i);
    return drawn;
}

double last_second(const Clock& clock) {
    double last = 0.0;
    for (const auto& span : clock.spans)
        last = std::max(last, span.to_seconds);
    return last > 0.0 ? last : 1.0;
}

Fill fill_of(Clock::Doing doing) {
    switch (doing) {
    case Clock::Doing::busy:
        return Fill::hatched;
    case Clock::Doing::waiting:
        return Fill::open;
    case Clock::Doing::acting:
        return Fill::solid;
    }
    return Fill::open;
}

double middle_of(const Clock::Span& span) { return 0.5 * (span.from_seconds + span.to_seconds); }
bool on_the_right(const Clock::Span& span) { return middle_of(span) <= 1800.0; }

double draw_dial(Svg& svg, const Clock& clock, std::vector<std::string>& unplaced) {
    // Where there are words beside both halves the dial stands in the middle, else away from the words.
    const auto words_beside = [&](bool right) {
        return std::any_of(clock.spans.begin(), clock.spans.end(), [&](const Clock::Span& span) { return !span.label.empty() && on_the_right(span) == right; });
    };
    const double outer = 96.0, inner = 74.0, cy = 112.0, beside = 110.0;
    const double cx = !words_beside(false) ? beside : words_beside(true) ? 0.5 * svg.width() : svg.width() - beside;
    const auto at = [&](double seconds, double radius) {
        const double angle = seconds / 3600.0 * 2.0 * std::numbers::pi;
        return Point{cx + radius * std::sin(angle), cy - radius * std::cos(angle)};
    };
    const auto ring = [&](double from, double to, Fill fill) {
        std::vector<Point> outline;
        const int parts = std::max(2, static_cast<int>((to - from) / 40.0));
        for (int i = 0; i <= parts; ++i)
            outline.push_back(at(from + (to - from) * i / parts, outer));
        for (int i = parts; i >= 0; --i)
            outline.push_back(at(from + (to - from) * i / parts, inner));
        svg.filled(outline, fill);
        svg.shape(outline, "edge none");
    };
    for (const double radius : {outer, inner})
        svg.raw("<circle class=\"thin\" cx=\"" + svg_number(cx) + "\" cy=\"" + svg_number(cy) + "\" r=\"" + svg_number(radius) + "\"/>");
    for (const auto& span : clock.spans)
        ring(span.from_seconds, span.to_seconds, fill_of(span.doing));
    for (int minute = 0; minute < 60; minute += 5) {
        const auto p = at(minute * 60.0, inner - 11), a = at(minute * 60.0, inner), b = at(minute * 60.0, inner - 4);
        svg.line(a.x, a.y, b.x, b.y, "thin");
        if (minute % 15 == 0 || minute % 10 == 0)
            svg.text(p.x, p.y + 4.5, std::to_string(minute), minute % 15 == 0 ? "bold" : "quiet", Anchor::middle);
    }
    double y = cy - 8.0 * static_cast<double>(clock.middle.size()) + 12.0;
    for (std::size_t i = 0; i < clock.middle.size(); ++i, y += 16.0)
        if (!svg.label({{cx, y, Anchor::middle}}, clock.middle[i], i + 1 == clock.middle.size() ? "bold" : "", 224.0))
            unplaced.push_back(clock.middle[i]);
    for (const auto& span : clock.spans) {
        if (span.label.empty()) continue;
        const auto p = at(middle_of(span), outer + 9);
        const bool right = on_the_right(span);
        std::vector<Svg::Place> places;
        for (const double down : {4.0, 20.0, -12.0, 36.0})
            places.push_back({right ? p.x + 3 : p.x - 3, p.y + down, right ? Anchor::start : Anchor::end});
        for (const double down : {4.0, 20.0, 36.0})
            places.push_back({right ? svg.width() - 1 : 1, p.y + down, right ? Anchor::end : Anchor::start});
        if (!svg.label(places, span.label, "bold", 224.0)) unplaced.push_back(span.label);
    }
    return 224.0;
}

double draw_line_of_time(Svg& svg, const Clock& clock, std::vector<std::string>& unplaced) {
    const double last = last_second(clock), left = 4.0, right = svg.width() - 4.0, top = 6.0;
    const auto px = [&](double seconds) { return left + seconds / last * (right - left); };
    for (const auto& span : clock.spans)
        svg.rect(px(span.from_seconds), top, px(span.to_seconds) - px(span.from_seconds), 22, fill_of(span.doing), true);
    Axis axis{.low = 0.0, .high = last / 3600.0};
    for (const auto& tick : ticks_of(axis)) {
        svg.line(px(tick.at * 3600.0), top + 22, px(tick.at * 3600.0), top + 27, "axis");
        const double half = Svg::length(tick.text, false) / 2.0;
        svg.label({{std::clamp(px(tick.at * 3600.0), half, svg.width() - half), top + 41, Anchor::middle}}, tick.text, "", 60);
    }
    svg.text(right, top + 57, "hours", "bold", Anchor::end);
    double y = top + 57;
    for (const auto& span : clock.spans) {
        if (span.label.empty()) continue;
        bool placed = false;
        const double x = 0.5 * (px(span.from_seconds) + px(span.to_seconds));
        for (double down = top + 57; !placed && down < top + 57 + 17 * 6; down += 17) {
            placed = svg.label({{x, down, Anchor::middle}, {x, down, Anchor::end}, {x, down, Anchor::start}}, span.label,
                               "bold", down + 6);
            if (placed) y = std::max(y, down);
        }
        if (!placed) unplaced.push_back(span.label);
    }
    for (const auto& words : clock.middle)
        unplaced.push_back(words);
    return y + 6;
}

} // namespace

double draw(Svg& svg, const Filling& filling, std::vector<std::string>& unplaced) {
    const auto drawn = drawn_pours(filling);
    const double top = 32.0, deep = 66.0;
    const double step = svg.width() / static_cast<double>(std::max<std::size_t>(drawn.size(), 5));
    const double wide = std::min(50.0, step - 12.0), narrow = wide * 0.8;
    const auto half = [&](double level) { return 0.5 * (narrow + (wide - narrow) * level); };
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const auto& pour = filling.pours[drawn[i]];
        const double cx = step * (static_cast<double>(i) + 0.5);
        const auto layer = [&](double from, double to, Fill fill) {
            from = std::clamp(from, 0.0, 1.0), to = std::clamp(to, 0.0, 1.0);
            if (to <= from) return;
            const double y1 = top + deep * (1.0 - from), y2 = top + deep * (1.0 - to);
            svg.filled({{cx - half(from), y1}, {cx + half(from), y1}, {cx + half(to), y2}, {cx - half(to), y2}}, fill);
            svg.line(cx - half(to), y2, cx + half(to), y2, "thin");
        };
        double below = 0.0;
        for (std::size_t k = 0; k < drawn[i]; ++k) {
            layer(below, filling.pours[k].dry_level, Fill::shaded);
            below = filling.pours[k].dry_level;
        }
        layer(below, pour.dry_level, Fill::solid);
        layer(pour.dry_level, pour.wet_level, Fill::hatched);
        svg.curve({{cx - half(1.0), top}, {cx - half(0.0), top + deep}, {cx + half(0.0), top + deep}, {cx + half(1.0), top}},
                  "edge none");
        const auto put = [&](double y, const std::string& words, const char* look) {
            if (!svg.label({{cx, y, Anchor::middle}}, words, look, top + deep + 26)) unplaced.push_back(words);
        };
        put(11, pour.name, "quiet");
        put(26, pour.amount, Svg::length(pour.amount, true) < step ? "bold" : ""); // clear of its name above
        put(top + deep + 17, pour.after, "");
    }
    return top + deep + 24;
}

double draw(Svg& svg, const Glass& glass, std::vector<std::string>& unplaced) {
    const double left = 24.0, right = 108.0, top = 18.0, bottom = 138.0;
    const double mark = top + (bottom - top) * std::clamp(glass.drawn, 0.0, 1.0);
    svg.shape({{left, top}, {right, top}, {right, mark}, {left, mark}}, "tone");
    svg.filled({{left, mark}, {right, mark}, {right, bottom}, {left, bottom}}, Fill::shaded);
    svg.line(left, top, right, top, "thin");
    svg.curve({{left, 6}, {left, bottom}, {right, bottom}, {right, 6}}, "edge none");
    svg.line(left - 8, mark, right + 14, mark, "limit");
    svg.curve({{right + 8, top}, {right + 18, top}, {right + 18, mark - 4}, {right + 8, mark - 4}}, "thin");
    const double middle = 0.5 * (top + mark);
    const auto put = [&](const std::vector<Svg::Place>& places, const std::string& words, const char* look) {
        if (!svg.label(places, words, look, bottom + 20)) unplaced.push_back(words);
    };
    put({{right + 26, std::min(middle, mark - 22), Anchor::start}, {right + 26, 14, Anchor::start}}, glass.pour_off, "bold");
    put({{right + 20, mark + 4, Anchor::start}, {right + 20, mark + 14, Anchor::start}}, glass.mark, "red");
    put({{right + 20, mark + 22, Anchor::start}, {right + 20, bottom + 16, Anchor::start}}, glass.stays, "");
    return bottom + 22;
}

double draw(Svg& svg, const Clock& clock, std::vector<std::string>& unplaced) {
    return last_second(clock) < 55.0 * 60.0 ? draw_dial(svg, clock, unplaced) : draw_line_of_time(svg, clock, unplaced);
}

std::string described(const Filling& filling) {
    std::string text;
    for (const auto i : drawn_pours(filling)) {
        const auto& pour = filling.pours[i];
        text += (text.empty() ? "" : " ") + pour.name + ": " + pour.amount + ", full to " +
                fixed_number(100.0 * pour.wet_level, 0) + " % wet and " + fixed_number(100.0 * pour.dry_level, 0) +
                " % when dry.";
    }
    return text;
}

std::string described(const Glass& glass) {
    return "A glass of water. Poured off: " + glass.pour_off + ". The mark: " + glass.mark + ". Below it: " + glass.stays + ".";
}

std::string described(const Clock& clock) {
    std::string text;
    for (const auto& span : clock.spans)
        if (!span.label.empty()) text += (text.empty() ? "" : "; ") + span.label;
    const auto minutes = fixed_number(last_second(clock) / 60.0, 0);
    return "Work over " + minutes + " minutes" + (text.empty() ? "." : ": " + text + ".");
}

} // namespace lakebound::page
