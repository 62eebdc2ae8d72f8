#pragma once
// An answer laid out as data: a title and sections. `write_text` and `write_html` read nothing else.
// Example: docs/examples/lay_out_a_page.cpp.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/block.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

/// How text joins kind and name of a title.
enum class TitleForm {
    beside,      ///< "WEIGH SHEET   Lake watercolour", the lead under the name
    after_colon, ///< "SIEVE TEST: Weld lake", the lead indented by two
    below        ///< "PVC LIMITS", the name on the next line
};

struct Title {
    std::string kind = {}; ///< "Weigh sheet": capitals in text
    std::string name = {};
    TitleForm form = TitleForm::beside;
    std::vector<Words> lead = {}; ///< what and how much
    std::vector<Fact> slip = {};  ///< HTML: date, bench, jar, a line to sign
};

/// Where a section stands on paper and on a desk; a phone and text have one column. Sections in columns
/// that follow each other share one pair of columns.
enum class Place { across, left, right };
/// Of a pair of columns; the first section of the pair decides.
enum class Split { seven_to_five, even };

struct Section {
    std::string heading = {};
    std::vector<Block> blocks = {};
    Place place = Place::across;
    Split split = Split::seven_to_five;
    bool new_side = false;      ///< on paper it begins a side
    bool keep_together = false; ///< on paper no break inside
    bool heading_shown = true;  ///< text leaves out a heading not shown; HTML has it for a screen reader
    Shown shown = Shown::always;
};

struct Page {
    Title title = {};
    std::vector<Section> sections = {};
    std::string language = "en"; ///< of the words, as in BCP 47
};

} // namespace page
} // namespace lakebound
