#pragma once
// A chart as data: two axes, and what stands between them. Writers place the labels so that none meets
// another.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

enum class Scale {
    linear,
    logarithmic, ///< ticks at 1, 2, 5
    probability  ///< of shares from 0 to 1, ticks in per cent: a normal distribution is a straight line
};

struct Axis {
    std::string name = {}; ///< "screen"
    std::string unit = {}; ///< "um"; of a probability axis always "%"
    double low = 0.0;
    double high = 1.0; ///< above low; both above 0 on a logarithmic axis, both within (0, 1) on one of probability
    Scale scale = Scale::linear;
    std::vector<double> ticks = {}; ///< labelled; empty: chosen by the writer
};

struct Point {
    double x = 0.0;
    double y = 0.0;
};

enum class Stroke {
    solid,       ///< the best line, where data carry it
    dashed,      ///< the same beyond the data
    thin,        ///< others of its family
    thin_dashed, ///< its bounds
    dotted       ///< a help for the eye
};

struct Series {
    std::string label = {}; ///< written at the line itself; empty: none
    std::vector<Point> points = {};
    Stroke stroke = Stroke::solid;
    int number = 0; ///< above 0: a numbered disc on the line, for a family of curves
};

/// A window: from one value of an axis to another.
struct Band {
    double from = 0.0;
    double to = 1.0;
    std::string label = {}; ///< written inside
    bool of_x = false;      ///< upright, between two values of x
};

/// Doubt as a shape between two curves over the same x.
struct Region {
    std::vector<Point> low = {};
    std::vector<Point> high = {};
    std::string label = {};
};

struct Limit {
    double at = 0.0;
    std::string label = {};
    bool of_x = false; ///< an upright line at this x
};

enum class Symbol {
    square, ///< measured
    diamond ///< the answer
};

struct Interval {
    double low = 0.0;
    double high = 0.0;
};

struct Mark {
    Point at = {};
    Symbol symbol = Symbol::square;
    std::string label = {};
    std::optional<Interval> likely = {};      ///< of y, two times in three: a thick bar
    std::optional<Interval> nearly_sure = {}; ///< of y, nine times in ten: a thin bar
    std::optional<Interval> along = {};       ///< of x: a thin bar
    bool dropped = false;                     ///< a dotted line down to the x axis
};

/// A second graduation below the x axis: "this much gives that".
struct Graduation {
    struct Entry {
        double x = 0.0;
        std::string text = {};
    };
    std::string name = {};
    std::vector<Entry> entries = {};
};

struct Chart {
    std::string question = {};    ///< what it shows, in a few words: the picture's title
    std::string description = {}; ///< what an eye sees, for who does not see; empty: made of the data
    Axis x = {};
    Axis y = {};
    std::vector<Band> bands = {};
    std::vector<Region> regions = {};
    std::vector<Series> series = {};
    std::vector<Limit> limits = {};
    std::vector<Mark> marks = {};
    std::optional<Graduation> graduation = {};
    std::string caption = {}; ///< below: what dashes and shades mean
    double height = 190.0;    ///< of the plot, where its width is about 316
    bool in_text = false;     ///< text draws it in letters; otherwise text leaves it out
};

} // namespace page
} // namespace lakebound
