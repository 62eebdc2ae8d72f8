#pragma once
// Drawing with labels that do not meet: every text that is set takes its room, and a label that finds none
// is handed back, to be said below the picture.

#include <string>
#include <string_view>
#include <vector>

#include "lakebound/page/picture.hpp"

namespace lakebound::page {

struct Box {
    double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;
    bool meets(const Box& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
};

enum class Anchor { start, middle, end };

class Svg {
public:
    Svg(double width, std::string name) : width_(width), name_(std::move(name)) {}

    double width() const { return width_; }
    void line(double x1, double y1, double x2, double y2, std::string_view look);
    void curve(const std::vector<Point>& points, std::string_view look);
    void shape(const std::vector<Point>& points, std::string_view look);
    void rect(double x, double y, double width, double height, Fill fill, bool edged);
    void raw(std::string_view text) { body_ += text; }
    void filled(const std::vector<Point>& points, Fill fill);

    /// Text whose foot stands at y: always set.
    void text(double x, double y, const std::string& text, std::string_view look = {}, Anchor anchor = Anchor::start);
    /// Text at the first place that is free and inside [0, bottom]; false where there is none.
    struct Place {
        double x, y;
        Anchor anchor;
    };
    bool label(const std::vector<Place>& places, const std::string& text, std::string_view look, double bottom);
    void obstacle(const Box& box) { lines_.push_back(box); }

    static double length(std::string_view text, bool bold);
    std::string finish(double height, const std::string& title, const std::string& description) const;

private:
    Box box_of(double x, double y, const std::string& text, bool bold, Anchor anchor) const;

    double width_;
    std::string name_;
    std::string body_;
    bool hatched_ = false;
    std::vector<Box> boxes_; ///< of texts: never met
    std::vector<Box> lines_; ///< of lines: kept clear of where there is room
};

/// One digit behind the point at most.
std::string svg_number(double x);
/// `decimals` digits behind the point.
std::string fixed_number(double x, int decimals);
/// About three digits: "0.87", "120".
std::string short_number(double x);

/// What each kind of picture draws: returns the height used; labels that found no room go to `unplaced`.
double draw(Svg& svg, const Chart& chart, std::vector<std::string>& unplaced);
double draw(Svg& svg, const DotPlot& plot, std::vector<std::string>& unplaced);
double draw(Svg& svg, const Bars& bars, std::vector<std::string>& unplaced);
double draw(Svg& svg, const StackedBar& bar, std::vector<std::string>& unplaced);
double draw(Svg& svg, const Filling& filling, std::vector<std::string>& unplaced);
double draw(Svg& svg, const Glass& glass, std::vector<std::string>& unplaced);
double draw(Svg& svg, const Clock& clock, std::vector<std::string>& unplaced);
double draw(Svg& svg, const Stains& stains, std::vector<std::string>& unplaced);

/// What an eye sees, made of the data.
std::string described(const Chart& chart);
std::string described(const DotPlot& plot);
std::string described(const Bars& bars);
std::string described(const StackedBar& bar);
std::string described(const Filling& filling);
std::string described(const Glass& glass);
std::string described(const Clock& clock);
std::string described(const Stains& stains);

/// Share of the axis, 0 at its low end; outside 0 to 1 beyond its ends.
double along(const Axis& axis, double value);
struct Tick {
    double at;
    std::string text;
};
std::vector<Tick> ticks_of(const Axis& axis);

} // namespace lakebound::page
