#pragma once
// What a page is made of. Each block says what it is; how it looks is the writers' matter.

#include <string>
#include <variant>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/picture.hpp"
#include "lakebound/page/table.hpp"
#include "lakebound/page/tick_list.hpp"
#include "lakebound/page/words.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

/// How glad or grave it is. The words always say it too: tone only helps the eye.
enum class Tone { plain, good, care, bad };

/// Which of the two writers shows a block or a section.
enum class Shown { always, text_only, html_only };

struct Paragraph {
    Words words = {};
    Tone tone = Tone::plain;
};

/// A quieter paragraph: how a figure was got, what a sign means.
struct Note {
    Words words = {};
};

/// What and how much the page is for, under the title; indented in text as the title's own lead is.
struct Lead {
    Words words = {};
};

struct Fact {
    std::string label = {};
    Words words = {};
    bool blank = false; ///< HTML: a line to write on; text leaves it out
};
struct Facts {
    std::vector<Fact> facts = {};
};

/// What to do, in order, numbered from 1.
struct Steps {
    std::vector<Words> steps = {};
    std::vector<Words> asides = {}; ///< below them: "Of the recipe: ..."
};

struct Bullets {
    std::vector<Words> items = {};
    char marker = '-'; ///< in text; '!' for a warning
};

/// A sentence that must not be missed, in a box.
struct Watch {
    Words words = {};
    Tone tone = Tone::care;
};

/// One line of what protects, before hands begin: mask, goggles, no flame.
struct Guard {
    Words words = {};
};

struct Caution {
    std::string subject = {}; ///< "Dust"
    std::string who = {};     ///< "Weld lake and gum arabic"; empty: whatever is used
    Words words = {};
};
struct Cautions {
    std::vector<Caution> cautions = {};
};

/// A command to take up whole: never re-spelled; where the line is too short it is continued with a backslash.
struct Command {
    std::string line = {};
};

/// One step of a calculation: `symbol = first line`, the others under it, each after an equals sign.
struct Formula {
    Words name = {};
    std::string symbol = {};
    std::vector<std::string> lines = {};
};

/// Lines kept as they are, in letters of one width.
struct Preformatted {
    std::vector<std::string> lines = {};
};

/// HTML: boxes on paper for swatches and what is seen; text leaves them out.
struct Swatches {
    std::vector<std::string> labels = {};
};

/// The last words: program, version, date, and the command that makes the page again. HTML only.
struct Foot {
    Words words = {};
    std::string command = {};
};

struct Block;

/// The answer in a few words, in the one box of the page. A template of its own Block, for clang makes the vectors'
/// initial values as soon as the struct ends, and Block is complete only when this is.
template <class B> struct VerdictOf {
    enum class Seal { none, holds, may_hold, fails }; ///< a disc beside the word, never instead of it
    std::string head = {};   ///< "Should hold": capitals in text
    std::string figure = {}; ///< beside the head: "k 1.40"
    Tone tone = Tone::plain;
    Seal seal = Seal::none;
    Words chance = {};                ///< the chance in whole numbers; second largest in HTML, a paragraph in text
    Shown chance_shown = Shown::always;
    std::vector<B> body = {};
    std::vector<B> beside = {};       ///< HTML: at the right of the box; text: after the body
};
using Verdict = VerdictOf<Block>;

struct Block {
    using Kind = std::variant<Paragraph, Note, Lead, Facts, Steps, Bullets, Watch, Guard, Cautions, Command, Formula,
                              Preformatted, Swatches, Foot, Table, TickList, Picture, Verdict>;
    Kind is;
    Shown shown = Shown::always;

    template <class Any>
        requires std::is_constructible_v<Kind, Any> && (!std::is_same_v<std::remove_cvref_t<Any>, Block>)
    Block(Any&& any, Shown where = Shown::always) : is(std::forward<Any>(any)), shown(where) {} // NOLINT
};

} // namespace page
} // namespace lakebound
