#include <algorithm>
#include <cmath>

#include "svg.hpp"

namespace lakebound::page {

namespace {

double sum(const Bars::Bar& bar) {
    double total = 0.0;
    for (const auto& segment : bar.segments)
        total += std::max(segment.value, 0.0);
    return total;
}

double full_of(const Bars& bars) {
    double full = bars.full;
    for (const auto& bar : bars.bars)
        full = std::max(full, sum(bar));
    return full > 0.0 ? full : 1.0;
}

double total_of(const StackedBar& bar) {
    double total = 0.0;
    for (const auto& group : bar.groups)
        for (const auto& part : group.parts)
            total += std::max(part.value, 0.0);
    return total > 0.0 ? total : 1.0;
}

std::string amount_of(const std::string& name, const std::string& amount) {
    return name.empty() || amount.empty() ? name + amount : name + " " + amount;
}

} // namespace

double draw(Svg& svg, const Bars& bars, std::vector<std::string>& unplaced) {
    constexpr double thick = 9.0, step = 34.0;
    const double full = full_of(bars), width = svg.width() - 2.0;
    double top = 0.0;
    for (const auto& bar : bars.bars) {
        const char* look = bar.chosen ? "bold" : "";
        svg.text(svg.width() - 1, top + 13, bar.value, "bold", Anchor::end);
        if (!svg.label({{0, top + 13, Anchor::start}}, bar.label, look, top + 18)) { // the words need a line of their own
            top += 16;
            if (!svg.label({{0, top + 13, Anchor::start}}, bar.label, look, top + 18)) unplaced.push_back(bar.label);
        }
        svg.shape({{0, top + 18}, {width, top + 18}, {width, top + 18 + thick}, {0, top + 18 + thick}}, "tone");
        double x = 0.0;
        for (const auto& segment : bar.segments) {
            const double wide = std::max(segment.value, 0.0) / full * width;
            svg.rect(x, top + 18, wide, thick, segment.fill, true);
            x += wide;
        }
        top += step;
        if (!bar.end.empty()) {
            svg.text(std::clamp(x, Svg::length(bar.end, false), width), top + 7, bar.end, "", Anchor::end);
            top += 14;
        }
    }
    return top + 2.0;
}

double draw(Svg& svg, const StackedBar& bar, std::vector<std::string>& unplaced) {
    constexpr double top = 26.0, thick = 28.0, step = 17.0;
    const double total = total_of(bar), width = svg.width() - 4.0;
    double x = 2.0;
    struct LeadLine {
        double at;
        std::string text;
    };
    std::vector<LeadLine> leads;
    for (const auto& group : bar.groups) {
        const double start = x;
        for (const auto& part : group.parts) {
            const double wide = std::max(part.value, 0.0) / total * width;
            svg.rect(x, top, wide, thick, part.fill, true);
            if (!part.name.empty()) leads.push_back({x + wide / 2, amount_of(part.amount, part.name)});
            x += wide;
        }
        svg.line(x, top - 8, x, top + thick, "edge");
        const auto words = amount_of(group.name, group.amount);
        if (!svg.label({{(start + x) / 2, 14, Anchor::middle}, {start, 14, Anchor::start}, {x, 14, Anchor::end}}, words,
                       "bold", top))
            unplaced.push_back(words);
    }
    // Leads go down in steps, the leftmost longest, so that none crosses another's words.
    double lowest = top + thick;
    const auto n = static_cast<double>(leads.size());
    for (std::size_t i = 0; i < leads.size(); ++i) {
        const double y = top + thick + 12.0 + step * (n - 1.0 - static_cast<double>(i));
        const double length = Svg::length(leads[i].text, false);
        const bool to_left = leads[i].at + 12 + length > svg.width();
        const double end = to_left ? leads[i].at - 8 : leads[i].at + 8;
        svg.curve({{leads[i].at, top + thick}, {leads[i].at, y}, {end, y}}, "thin");
        const std::vector<Svg::Place> places{{to_left ? end - 4 : end + 4, y + 4.5, to_left ? Anchor::end : Anchor::start}};
        if (!svg.label(places, leads[i].text, "", y + 9)) unplaced.push_back(leads[i].text);
        lowest = std::max(lowest, y + 8.0);
    }
    return lowest + 2.0;
}

double draw(Svg& svg, const DotPlot& plot, std::vector<std::string>& unplaced) {
    const auto& axis = plot.axis;
    const double left = 10.0, right = svg.width() - 10.0;
    const double window = plot.window.to - plot.window.from;
    if (!(axis.low < axis.high) || !(window > 0.0)) {
        svg.text(0, 14, "no range to draw");
        return 20.0;
    }
    const auto px = [&](double v) { return left + std::clamp(along(axis, v), 0.0, 1.0) * (right - left); };
    // Columns of dots begin at the edge of the window, so that none stands astride it.
    const double columns_in_window = std::max(1.0, std::floor((px(plot.window.to) - px(plot.window.from)) / 25.0));
    const double step = window / columns_in_window;
    const auto column_of = [&](double v) {
        return std::floor((std::clamp(v, axis.low, axis.high) - plot.window.from) / step);
    };
    std::vector<std::pair<double, int>> stacks;
    int most = 1;
    for (const double value : plot.values) {
        const double k = column_of(value);
        auto found = std::find_if(stacks.begin(), stacks.end(), [k](const auto& s) { return std::abs(s.first - k) < 0.5; });
        if (found == stacks.end()) found = stacks.insert(stacks.end(), {k, 0});
        most = std::max(most, ++found->second);
    }
    const double across = std::min(px(plot.window.from + step) - px(plot.window.from), 26.0), radius = across / 2.0 - 1.3;
    const double top = 18.0, bottom = top + static_cast<double>(most) * across + 8.0;
    const double a = px(plot.window.from), b = px(plot.window.to);
    svg.shape({{a, top}, {b, top}, {b, bottom}, {a, bottom}}, "tone");
    svg.line(a, top, a, bottom, "thin");
    svg.line(b, top, b, bottom, "thin");
    for (const auto& limit : plot.limits)
        svg.line(px(limit.at), top, px(limit.at), bottom, "limit");
    for (const auto& [k, count] : stacks) {
        const double value = plot.window.from + (k + 0.5) * step;
        const bool inside = value > plot.window.from && value < plot.window.to;
        for (int i = 0; i < count; ++i)
            svg.raw("<circle class=\"edge " + std::string(inside ? "solid" : "open") + "\" cx=\"" + svg_number(px(value)) +
                    "\" cy=\"" + svg_number(bottom - 2 - across * (i + 0.5)) + "\" r=\"" + svg_number(radius) + "\"/>");
        svg.obstacle({px(value) - radius, bottom - 2 - across * count, px(value) + radius, bottom});
    }
    svg.line(left, bottom, right, bottom, "axis");
    if (!svg.label({{(a + b) / 2, 12, Anchor::middle}}, plot.window.label, "bold", top)) unplaced.push_back(plot.window.label);
    for (const auto& limit : plot.limits) {
        const double at = px(limit.at);
        if (!svg.label({{at - 5, top + 12, Anchor::end}, {at + 5, top + 12, Anchor::start}, {at, 12, Anchor::middle}},
                       limit.label, "red", bottom))
            unplaced.push_back(limit.label);
    }
    svg.text(0, bottom + 19, axis.name, "bold");
    for (const auto& tick : ticks_of(axis)) {
        svg.line(px(tick.at), bottom, px(tick.at), bottom + 5, "axis");
        svg.label({{px(tick.at), bottom + 19, Anchor::middle}}, tick.text, "", bottom + 25);
    }
    return bottom + 26.0;
}

std::string described(const Bars& bars) {
    std::string text;
    for (const auto& bar : bars.bars)
        text += (text.empty() ? "" : "; ") + amount_of(bar.label.empty() ? bar.label : bar.label + ":", bar.value) +
                (bar.end.empty() ? "" : ", " + bar.end);
    return text + ".";
}

std::string described(const StackedBar& bar) {
    std::string text;
    for (const auto& group : bar.groups) {
        text += (text.empty() ? "" : " ") + amount_of(group.name, group.amount);
        std::string parts;
        for (const auto& part : group.parts)
            if (!part.name.empty()) parts += (parts.empty() ? ": " : ", ") + amount_of(part.amount, part.name);
        text += parts + ".";
    }
    return text;
}

std::string described(const DotPlot& plot) {
    int below = 0, in = 0, above = 0;
    for (const double value : plot.values)
        ++(value < plot.window.from ? below : value > plot.window.to ? above : in);
    std::string text = "Dots on " + plot.axis.name + " from " + short_number(plot.axis.low) + " to " +
                       short_number(plot.axis.high) + ". Of " + std::to_string(plot.values.size()) + ", " +
                       std::to_string(in) + " lie between " + short_number(plot.window.from) + " and " +
                       short_number(plot.window.to) + ", " + std::to_string(below) + " below and " +
                       std::to_string(above) + " above.";
    for (const auto& limit : plot.limits)
        text += " Limit at " + short_number(limit.at) + (limit.label.empty() ? "" : ": " + limit.label) + ".";
    return text;
}

} // namespace lakebound::page
