#include <algorithm>
#include <cmath>
#include <numbers>

#include "html_text.hpp"
#include "svg.hpp"

namespace lakebound::page {

namespace {

/// The quantile of the normal distribution, by bisection of erfc: a few dozen calls a chart, and exact.
double probit(double p) {
    p = std::clamp(p, 1e-9, 1.0 - 1e-9);
    double low = -7.0, high = 7.0;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (0.5 * std::erfc(-middle / std::numbers::sqrt2) < p ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

double scaled(const Axis& axis, double value) {
    switch (axis.scale) {
    case Scale::linear:
        return value;
    case Scale::logarithmic:
        return std::log10(std::max(value, 1e-300));
    case Scale::probability:
        return probit(value);
    }
    return value;
}

std::vector<Tick> linear_ticks(const Axis& axis) {
    const double rough = (axis.high - axis.low) / 5.0;
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    const double lead = rough / power;
    const double step = power * (lead < 1.5 ? 1.0 : lead < 3.5 ? 2.0 : lead < 7.5 ? 5.0 : 10.0);
    const int decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 6);
    std::vector<Tick> ticks;
    for (double k = std::ceil(axis.low / step - 1e-9); k * step <= axis.high + 1e-9 * step && ticks.size() < 12; ++k)
        ticks.push_back({k * step, fixed_number(k * step, decimals)});
    return ticks;
}

std::vector<Tick> log_ticks(const Axis& axis) {
    const double decades = std::log10(axis.high / axis.low);
    std::vector<Tick> ticks;
    for (double power = std::pow(10.0, std::floor(std::log10(axis.low))); power <= axis.high; power *= 10.0)
        for (const double lead : {1.0, 2.0, 5.0}) {
            if (lead > 1.0 && decades > 3.0) continue;
            const double at = lead * power;
            if (at >= axis.low * (1 - 1e-9) && at <= axis.high * (1 + 1e-9)) ticks.push_back({at, short_number(at)});
        }
    return ticks;
}

std::string axis_name(const Axis& axis) {
    const auto unit = axis.scale == Scale::probability ? std::string("%") : axis.unit;
    const auto print = unit == "um" ? std::string("µm") : unit == "degC" ? std::string("°C") : unit;
    return print.empty() ? axis.name : axis.name + ", " + print;
}

const char* look_of(Stroke stroke) {
    switch (stroke) {
    case Stroke::solid:
        return "line";
    case Stroke::dashed:
        return "line dash";
    case Stroke::thin:
        return "thin";
    case Stroke::thin_dashed:
        return "thin dash";
    case Stroke::dotted:
        return "thin dots";
    }
    return "line";
}

bool sound(const Axis& axis) {
    if (!(std::isfinite(axis.low) && std::isfinite(axis.high) && axis.low < axis.high)) return false;
    if (axis.scale == Scale::logarithmic) return axis.low > 0.0;
    if (axis.scale == Scale::probability) return axis.low > 0.0 && axis.high < 1.0;
    return true;
}

/// The plot on the paper, and what is drawn in it.
class Plot {
public:
    Plot(Svg& svg, const Chart& chart, std::vector<std::string>& unplaced);
    double draw();

private:
    double px(double x) const { return left_ + std::clamp(along(chart_.x, x), 0.0, 1.0) * (right_ - left_); }
    double py(double y) const { return bottom_ - std::clamp(along(chart_.y, y), 0.0, 1.0) * (bottom_ - top_); }
    void axes();
    void bands();
    void series(const Series& series);
    void limits();
    void mark(const Mark& mark);
    void put(const std::vector<Svg::Place>& places, const std::string& text, const char* look) {
        if (!svg_.label(places, text, look, bottom_ - 2.0)) unplaced_.push_back(text);
    }
    /// Around a point: right, left, above, below.
    static std::vector<Svg::Place> around(double x, double y) {
        return {{x + 11, y + 4, Anchor::start}, {x - 11, y + 4, Anchor::end},   {x, y - 13, Anchor::middle},
                {x, y + 24, Anchor::middle},    {x + 9, y - 12, Anchor::start}, {x - 9, y - 12, Anchor::end},
                {x + 9, y + 20, Anchor::start}, {x - 9, y + 20, Anchor::end}};
    }

    Svg& svg_;
    const Chart& chart_;
    std::vector<std::string>& unplaced_;
    std::vector<Tick> x_ticks_, y_ticks_;
    double left_ = 34.0, right_, top_ = 26.0, bottom_;
};

Plot::Plot(Svg& svg, const Chart& chart, std::vector<std::string>& unplaced)
    : svg_(svg), chart_(chart), unplaced_(unplaced), x_ticks_(ticks_of(chart.x)), y_ticks_(ticks_of(chart.y)),
      right_(svg.width() - 12.0), bottom_(top_ + chart.height) {
    for (const auto& tick : y_ticks_)
        left_ = std::max(left_, Svg::length(tick.text, false) + 9.0);
}

void Plot::bands() {
    for (const auto& region : chart_.regions) {
        std::vector<Point> outline;
        for (const auto& p : region.high)
            outline.push_back({px(p.x), py(p.y)});
        for (auto p = region.low.rbegin(); p != region.low.rend(); ++p)
            outline.push_back({px(p->x), py(p->y)});
        svg_.filled(outline, Fill::shaded);
    }
    for (const auto& band : chart_.bands) {
        const double a = band.of_x ? px(band.from) : py(band.from), b = band.of_x ? px(band.to) : py(band.to);
        const Box box = band.of_x ? Box{a, top_, b, bottom_} : Box{left_, std::min(a, b), right_, std::max(a, b)};
        svg_.shape({{box.left, box.top}, {box.right, box.top}, {box.right, box.bottom}, {box.left, box.bottom}}, "tone");
        for (const double edge : {a, b})
            band.of_x ? svg_.line(edge, top_, edge, bottom_, "thin") : svg_.line(left_, edge, right_, edge, "thin");
    }
}

void Plot::axes() {
    for (const auto& tick : y_ticks_) {
        const double y = py(tick.at);
        svg_.raw("<path class=\"grid\" d=\"M" + svg_number(left_) + " " + svg_number(y) + "H" + svg_number(right_) + "\"/>");
        svg_.line(left_ - 4, y, left_, y, "axis");
        svg_.label({{left_ - 7, y + 4.5, Anchor::end}}, tick.text, "", bottom_ + 10);
    }
    svg_.line(left_, top_, left_, bottom_, "axis");
    svg_.line(left_, bottom_, right_, bottom_, "axis");
    svg_.text(0, 12, axis_name(chart_.y), "bold");
    for (const auto& tick : x_ticks_) {
        const double x = px(tick.at);
        svg_.line(x, bottom_, x, bottom_ + 5, "axis");
        const double half = Svg::length(tick.text, false) / 2.0;
        svg_.label({{std::clamp(x, half, svg_.width() - half), bottom_ + 20, Anchor::middle}}, tick.text, "",
                   bottom_ + 25);
    }
    svg_.text(right_, bottom_ + 36, axis_name(chart_.x), "bold", Anchor::end);
}

void Plot::series(const Series& series) {
    std::vector<Point> line;
    for (const auto& p : series.points)
        if (std::isfinite(p.x) && std::isfinite(p.y)) line.push_back({px(p.x), py(p.y)});
    svg_.curve(line, look_of(series.stroke));
    if (series.number > 0 && !line.empty()) {
        const auto at = line[std::min(line.size() - 1, line.size() * (1 + static_cast<std::size_t>(series.number)) / 8)];
        svg_.raw("<circle class=\"edge open\" cx=\"" + svg_number(at.x) + "\" cy=\"" + svg_number(at.y) + "\" r=\"9\"/>");
        svg_.text(at.x, at.y + 4.5, std::to_string(series.number), "bold", Anchor::middle);
    }
}

void Plot::limits() {
    for (const auto& limit : chart_.limits) {
        if (limit.of_x)
            svg_.line(px(limit.at), top_, px(limit.at), bottom_, "limit");
        else
            svg_.line(left_, py(limit.at), right_, py(limit.at), "limit");
    }
}

void Plot::mark(const Mark& mark) {
    const double x = px(mark.at.x), y = py(mark.at.y);
    if (mark.dropped) svg_.line(x, bottom_, x, y, "thin dots");
    if (mark.nearly_sure) svg_.line(x, py(mark.nearly_sure->low), x, py(mark.nearly_sure->high), "edge");
    if (mark.likely) svg_.line(x, py(mark.likely->low), x, py(mark.likely->high), "thick");
    if (mark.along) svg_.line(px(mark.along->low), y, px(mark.along->high), y, "edge");
    if (mark.symbol == Symbol::square)
        svg_.shape({{x - 4, y - 4}, {x + 4, y - 4}, {x + 4, y + 4}, {x - 4, y + 4}}, "open edge");
    else
        svg_.shape({{x, y - 8}, {x + 8, y}, {x, y + 8}, {x - 8, y}}, "open edge");
    svg_.obstacle({x - 8, y - 8, x + 8, y + 8});
}

double Plot::draw() {
    bands();
    axes();
    for (const auto& each : chart_.series)
        series(each);
    limits();
    for (const auto& each : chart_.marks)
        mark(each);
    for (const auto& each : chart_.marks) // what must be read first finds its place first
        put(around(px(each.at.x), py(each.at.y)), each.label, "bold");
    for (const auto& limit : chart_.limits) {
        const double at = limit.of_x ? px(limit.at) : py(limit.at);
        put(limit.of_x ? std::vector<Svg::Place>{{at - 5, top_ + 12, Anchor::end}, {at + 5, top_ + 12, Anchor::start},
                                                 {at - 5, top_ + 29, Anchor::end}, {at + 5, top_ + 29, Anchor::start},
                                                 {at - 5, bottom_ - 8, Anchor::end}, {at + 5, bottom_ - 8, Anchor::start}}
                       : std::vector<Svg::Place>{{right_ - 2, at + 15, Anchor::end}, {left_ + 4, at + 15, Anchor::start},
                                                 {right_ - 2, at - 6, Anchor::end}, {left_ + 4, at - 6, Anchor::start}},
            limit.label, "red");
    }
    for (const auto& band : chart_.bands) {
        const double a = band.of_x ? px(band.from) : py(band.to), b = band.of_x ? px(band.to) : py(band.from);
        put(band.of_x ? std::vector<Svg::Place>{{(a + b) / 2, top_ + 14, Anchor::middle}, {(a + b) / 2, bottom_ - 8, Anchor::middle}}
                      : std::vector<Svg::Place>{{left_ + 5, a + 15, Anchor::start}, {right_ - 3, a + 15, Anchor::end},
                                                {left_ + 5, b - 6, Anchor::start}, {right_ - 3, b - 6, Anchor::end}},
            band.label, "bold");
    }
    for (const auto& each : chart_.series) {
        std::vector<Svg::Place> places;
        for (const std::size_t k : {7U, 6U, 5U, 4U, 3U, 2U, 1U}) {
            if (each.points.empty()) break;
            const auto& p = each.points[(each.points.size() - 1) * k / 8];
            for (const auto& place : around(px(p.x), py(p.y)))
                places.push_back(place);
        }
        put(places, each.label, "");
    }
    for (const auto& region : chart_.regions) {
        if (region.low.empty()) continue;
        const auto& p = region.low[region.low.size() / 2];
        put(around(px(p.x), py(p.y)), region.label, "quiet");
    }
    double height = bottom_ + 40;
    if (chart_.graduation) {
        height += 16;
        for (const auto& entry : chart_.graduation->entries)
            svg_.label({{px(entry.x), height, Anchor::middle}, {px(entry.x), height, Anchor::end}}, entry.text, "bold", height + 6);
        height += 16;
        if (!svg_.label({{left_, height, Anchor::start}, {svg_.width() - 1, height, Anchor::end}},
                        chart_.graduation->name, "quiet", height + 6))
            unplaced_.push_back(chart_.graduation->name);
        height += 4;
    }
    return height;
}

std::string end_text(const Axis& axis, double value) {
    if (axis.scale == Scale::probability) return short_number(100.0 * value) + " %";
    return short_number(value) + (axis.unit.empty() ? "" : " " + axis.unit);
}

} // namespace

double along(const Axis& axis, double value) {
    const double low = scaled(axis, axis.low);
    return (scaled(axis, value) - low) / (scaled(axis, axis.high) - low);
}

std::vector<Tick> ticks_of(const Axis& axis) {
    if (!sound(axis)) return {};
    std::vector<Tick> ticks;
    for (const double at : axis.ticks)
        if (at >= axis.low && at <= axis.high)
            ticks.push_back({at, short_number(axis.scale == Scale::probability ? 100.0 * at : at)});
    if (!ticks.empty()) return ticks;
    if (axis.scale == Scale::linear) return linear_ticks(axis);
    if (axis.scale == Scale::logarithmic) return log_ticks(axis);
    for (const double at : {0.001, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 0.99, 0.999})
        if (at >= axis.low && at <= axis.high) ticks.push_back({at, short_number(100.0 * at)});
    return ticks;
}

double draw(Svg& svg, const Chart& chart, std::vector<std::string>& unplaced) {
    if (!sound(chart.x) || !sound(chart.y)) { // nothing that could be drawn truly
        svg.text(0, 14, "no range to draw");
        return 20.0;
    }
    return Plot(svg, chart, unplaced).draw();
}

std::string described(const Chart& chart) {
    std::string text = "Across: " + chart.x.name + " from " + end_text(chart.x, chart.x.low) + " to " +
                       end_text(chart.x, chart.x.high) + ". Up: " + chart.y.name + " from " +
                       end_text(chart.y, chart.y.low) + " to " + end_text(chart.y, chart.y.high) + ".";
    for (const auto& band : chart.bands)
        text += " Band from " + end_text(band.of_x ? chart.x : chart.y, band.from) + " to " +
                end_text(band.of_x ? chart.x : chart.y, band.to) + (band.label.empty() ? "" : ": " + band.label) + ".";
    for (const auto& limit : chart.limits)
        text += " Limit at " + end_text(limit.of_x ? chart.x : chart.y, limit.at) +
                (limit.label.empty() ? "" : ": " + limit.label) + ".";
    for (const auto& series : chart.series) {
        if (series.points.empty() || series.stroke == Stroke::dotted) continue;
        const auto &a = series.points.front(), &b = series.points.back();
        text += (series.label.empty() ? std::string(" A line") : " " + series.label) + " from " + end_text(chart.y, a.y) +
                " at " + end_text(chart.x, a.x) + " to " + end_text(chart.y, b.y) + " at " + end_text(chart.x, b.x) + ".";
    }
    for (const auto& mark : chart.marks)
        text += (mark.label.empty() ? std::string(" Point") : " " + mark.label) + ": " + end_text(chart.y, mark.at.y) +
                " at " + end_text(chart.x, mark.at.x) + ".";
    return text;
}

} // namespace lakebound::page
