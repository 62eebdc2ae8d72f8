#pragma once
// Pictures as data. HTML draws each as inline SVG with a title and a description; text shows those that
// letters can show, where `in_text` asks for it. Readable in grey: fills are solid, hatched, shaded or open.

#include <string>
#include <variant>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/chart.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

enum class Fill {
    solid,   ///< measured, or the work of hands
    hatched, ///< estimated, or what passes
    shaded,  ///< doubt, lower layers
    open     ///< what stays as it is
};

/// One dot for each of a number of equal chances, stacked on an axis: solid inside the window, open outside.
struct DotPlot {
    std::string question = {};
    std::string description = {};
    Axis axis = {};
    Band window = {};
    std::vector<Limit> limits = {};
    std::vector<double> values = {}; ///< one for each dot; those beyond an end stand at that end
    std::string caption = {};
    bool in_text = false;
};

/// One or more segments in a row, a line of words above them.
struct Bars {
    struct Segment {
        double value = 0.0;
        Fill fill = Fill::solid;
    };
    struct Bar {
        std::string label = {};
        std::vector<Segment> segments = {};
        std::string value = {}; ///< at the right of the label
        std::string end = {};   ///< at the end of the bar
        bool chosen = false;
    };
    std::string question = {};
    std::string description = {};
    std::vector<Bar> bars = {};
    double full = 0.0; ///< value of the whole length; 0: the longest bar
    std::string caption = {};
    bool in_text = false;
};

/// One bar of everything there is, and where it goes.
struct StackedBar {
    struct Part {
        std::string name = {};
        std::string amount = {}; ///< "4.7 g"
        double value = 0.0;
        Fill fill = Fill::solid;
    };
    /// Parts that belong together, named above the bar: "this batch", "stays".
    struct Group {
        std::string name = {};
        std::string amount = {};
        std::vector<Part> parts = {}; ///< a part without a name is not labelled
    };
    std::string question = {};
    std::string description = {};
    std::vector<Group> groups = {};
    std::string caption = {};
    bool in_text = false;
};

/// A vessel filled pour by pour: each pour is drawn over what the earlier ones left.
struct Filling {
    struct Pour {
        std::string name = {};   ///< "pour 1"
        std::string amount = {}; ///< "2.0 mL"
        double wet_level = 0.0;  ///< how full it stands when poured, 0 to 1
        double dry_level = 0.0;  ///< how full once that pour has dried
        std::string after = {};  ///< "40 %"
    };
    std::string question = {};
    std::string description = {};
    std::vector<Pour> pours = {}; ///< more than seven: the first three, the last three
    std::string caption = {};
    bool in_text = false;
};

/// A glass of water: what is poured off, and the mark that it is poured down to.
struct Glass {
    std::string question = {};
    std::string description = {};
    double drawn = 0.0;       ///< share of the depth poured off, from the top
    std::string pour_off = {};///< "the top 80 mm"
    std::string mark = {};    ///< "mark, 80 mm below the water"
    std::string stays = {};   ///< "leave 20 mm"
    std::string caption = {};
};

/// Work by the clock: 60 minutes round while it is shorter than 55, else a straight line of time.
struct Clock {
    enum class Doing { busy, waiting, acting }; ///< hatched, open, solid
    struct Span {
        double from_seconds = 0.0;
        double to_seconds = 0.0;
        Doing doing = Doing::waiting;
        std::string label = {};
    };
    std::string question = {};
    std::string description = {};
    std::vector<Span> spans = {};
    std::vector<std::string> middle = {}; ///< words in the middle of the dial; the last is bold
    std::string caption = {};
    bool in_text = false;
};

/// What a tissue looks like after a rub, score by score, to compare with: cloths with more and more colour on them.
struct Stains {
    struct Cloth {
        std::string score = {};  ///< "0"
        std::string words = {};  ///< "clean"
        double colour = 0.0;     ///< how much of the rubbed spot is covered, 0 to 1
    };
    std::string question = {};
    std::string description = {};
    std::vector<Cloth> cloths = {};
    std::string caption = {};
    bool in_text = false;
};

struct Picture {
    std::variant<Chart, DotPlot, Bars, StackedBar, Filling, Glass, Clock, Stains> is;
    bool narrow = false; ///< for a narrow column: drawn at 300 units across, not 360
};

} // namespace page
} // namespace lakebound
