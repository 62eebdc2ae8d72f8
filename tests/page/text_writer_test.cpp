#include <catch2/catch.hpp>

#include <sstream>

#include "lakebound/page/line_fill.hpp"
#include "lakebound/page/text_writer.hpp"
#include "page/sample_page.hpp"

using namespace lakebound::page;
using lakebound::testing::sample_page;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);)
        lines.push_back(line);
    return lines;
}

/// Texts that a person might type, or someone might slip in.
const std::vector<std::string> odd_texts{
    "Krapplack, hell, aus dem Keller der Großmutter, zweiter Versuch, Glas Nr. 7, nicht der von 1994, links oben",
    "Farbstofflackpigmentaufbewahrungsglaeserbeschriftungsvorschriftensammlung",
    "line\nbreak\r\nTAKE CARE\n  Poison        none", "tab\tand \x1b[31mred\x1b[0m bell\x07",
    "\u202Eturned round\u202C and zero\u200Bwidth\uFEFF", "\u7d75\u5177\u7d75\u5177\u7d75\u5177\u7d75\u5177\u7d75\u5177\u7d75\u5177\u7d75\u5177",
    "broken \xC3\x28 \xff utf-8", "\u05e9\u05dc\u05d5\u05dd 6.0 g", "<b>&amp;\"'</b>", "e\u0301e\u0301e\u0301"};

} // namespace

TEST_CASE("a page as text of 80 columns", "[unit]") {
    CHECK(write_text(sample_page()) ==
          R"(WEIGH SHEET   Lake watercolour in half pans
              6.0 g of Weld lake, to fill 5 half pans

  SHOULD HOLD   k 1.40
  85 of 100 mixes made like this land in the window.
  Enough gum to bind, not so much that it shines.
  k is binder over what just fills.

WEIGH
  [ ]     6.0 g  Weld lake, Reedmere                     kitchen scale
  [ ]    0.26 g  Clove oil, 5 % w/w in ethanol           pocket scale
                 Only 0.013 g of it is wanted, too little for the scale: mix
                 1 part with 19 parts of ethanol by weight, at least 3.3 g in
                 all, and weigh that.
  [ ]    25.7 g  Gum water with glycerol and honey       kitchen scale
                 or 23.0 mL in the 10 mL syringe, 3 fills
                 It keeps: weeks to a month, in the refrigerator.

ORDER OF WORK
   1. Mask on. Weigh 6.0 g of Weld lake onto the slab.
   2. Wet it: work in 3.0 g of water, a little at a time, with the knife.
      Of the recipe: A lake needs much liquid.

WHAT LIES WHERE
  screen              kept             share     passing
  250 um            0.4 g        2.0 ± 0.2 %      98.0 %  ███████████████████▋
* 150 um           12.15 g      10.7 ± 0.2 %      87 %    █████████████████▍
  pan               4.0 g       20.3 ± 0.2 %
  One weighing on this scale of 0.1 g steps is sure to ± 0.041 g.

WHAT COMES OUT
  Fills         5 half pans, 90 % full when dry
  In the jar    18.0 g is left
  - All figures of gum arabic.
  ! Too little.
  KEEP THE WATER: it carries the fine pigment.
  To part at 25 um, with the depth of your water:
    lakebound-settle --depth "100 mm" --cut "25 um"
  Binder demand
             q = OA / (100 rho_o)
               = 0.80645 mL/g
  median_size: 80 um
              22.8 g

TAKE CARE
  Vapour        Ethanol. Burns and catches fire from a distance.
  Kitchen       Keep slab, jars and tools apart from food for good.
)");
}

TEST_CASE("text is never wider than its terminal, nor than 80 columns", "[identity]") {
    for (std::size_t width = 20; width <= 200; ++width)
        for (std::size_t i = 0; i <= odd_texts.size(); ++i)
            for (const auto& line : lines_of(write_text(sample_page(i == 0 ? "" : odd_texts[i - 1]), {.width = width})))
                if (columns(line) > std::min<std::size_t>(width, 80)) FAIL_CHECK(width << ": " << line);
}

TEST_CASE("what a person typed forges no line of text", "[unit]") {
    for (const auto& typed : odd_texts) {
        const auto text = write_text(sample_page(typed));
        INFO(text);
        CHECK(text.find('\x1b') == std::string::npos);
        CHECK(text.find('\t') == std::string::npos);
        CHECK(text.find("\u202E") == std::string::npos);
        CHECK(text.find("\n  Poison") == std::string::npos);
        CHECK(text.find("\nTAKE CARE\n  Vapour") != std::string::npos);
    }
}

TEST_CASE("text for a C locale is ASCII", "[unit]") {
    for (std::size_t i = 0; i <= odd_texts.size(); ++i) {
        const auto text = write_text(sample_page(i == 0 ? "" : odd_texts[i - 1]), {.ascii = true});
        for (const char c : text)
            if (c != '\n' && (c < ' ' || c > '~')) FAIL_CHECK(text);
    }
    const auto text = write_text(sample_page("Großmutters Krapplack für Łódź"), {.ascii = true});
    CHECK(text.find("Grossmutters Krapplack fur Lodz") != std::string::npos);
    CHECK(text.find("2.0 +- 0.2 %") != std::string::npos);
    CHECK(text.find("####") != std::string::npos);
}

TEST_CASE("colour is only where it is asked for", "[unit]") {
    CHECK(write_text(sample_page()).find('\x1b') == std::string::npos);
    const auto text = write_text(sample_page(), {.colour = true});
    CHECK(text.find("\x1b[1mWEIGH\x1b[0m\n") != std::string::npos);
    CHECK(text.find("\x1b[1;32m  SHOULD HOLD   k 1.40\x1b[0m\n") != std::string::npos);
}

TEST_CASE("a command that is too long for the line goes on behind a backslash", "[unit]") {
    const std::vector<Block> blocks{
        Command{"lakebound-settle --depth \"100 mm\" --cut \"25 um\" --density \"1.86 g/cm3\""}};
    CHECK(write_text(blocks, {.width = 40}) ==
          "  lakebound-settle --depth \"100 mm\" \\\n    --cut \"25 um\" --density \"1.86 g/cm3\"\n");
}

TEST_CASE("a table too wide for the terminal is told row by row", "[unit]") {
    Table table{.columns = {{.head = "ground", .align = Align::left}, {.head = "over 45 um", .unit = "%"},
                            {.head = "9 in 10", .align = Align::right, .unit = "%"}}};
    table.rows = {{.cells = {"15 min", "72", "70.4 to 73.9"}}};
    const std::vector<Block> blocks{table};
    CHECK(write_text(blocks) == "  ground  over 45 um         9 in 10\n  15 min        72 %  70.4 to 73.9 %\n");
    CHECK(write_text(blocks, {.width = 24}) == "  15 min\n   over 45 um: 72 %\n   9 in 10: 70.4 to\n   73.9 %\n");
}

TEST_CASE("text has its titles in three forms", "[unit]") {
    Page page;
    page.title = {.kind = "PVC limits", .name = "Weld in gum", .form = TitleForm::below};
    page.sections.push_back({.blocks = {Paragraph{"p"}}});
    CHECK(write_text(page).rfind("PVC LIMITS\n", 0) == 0);
    CHECK(write_text(page).find("Weld in gum") != std::string::npos);
    page.title.form = TitleForm::after_colon;
    CHECK(write_text(page).rfind("PVC LIMITS: Weld in gum\n", 0) == 0);
    page.title.form = TitleForm::beside;
    CHECK(write_text(page).rfind("PVC LIMITS   Weld in gum", 0) == 0);
    page.title.name.clear();
    CHECK(write_text(page).rfind("PVC LIMITS\n", 0) == 0);
}

TEST_CASE("text tells tones by colour where it may, guards and unseen pictures not", "[unit]") {
    const auto coloured = [](Block block) { return write_text(std::vector<Block>{std::move(block)}, {.colour = true}); };
    CHECK(coloured(Paragraph{"good", Tone::good}).find("\x1b[1;32m") != std::string::npos);
    CHECK(coloured(Paragraph{"care", Tone::care}).find("\x1b[1;33m") != std::string::npos);
    CHECK(coloured(Paragraph{"bad", Tone::bad}).find("\x1b[1;31m") != std::string::npos);
    CHECK(coloured(Paragraph{"plain"}).find('\x1b') == std::string::npos);
    CHECK(coloured(Guard{"mask on"}).find("\x1b[1;33m") != std::string::npos);
    const auto plain = [](Block block) { return write_text(std::vector<Block>{std::move(block)}); };
    CHECK(plain(Guard{"mask on"}) == "  mask on\n");
    CHECK(plain(Swatches{{"a", "b"}}).empty());
    CHECK(plain(Picture{Glass{.question = "Q"}}).empty());
    Clock clock{.question = "Q", .spans = {{.from_seconds = 0, .to_seconds = 60, .label = "stir"}}};
    CHECK(plain(Picture{clock}).empty());
    clock.in_text = true;
    CHECK(plain(Picture{clock}).find("stir") != std::string::npos);
    CHECK(plain(Paragraph{"soft " + loud("hard")}) == "  soft HARD\n");
    CHECK(plain(Facts{{{.label = "Worked by", .blank = true}, {.label = "Bench", .words = "b"}}}) == "  Bench         b\n");
}

TEST_CASE("characters of every length are counted, kept or replaced", "[unit]") {
    const auto plain = [](const std::string& text, bool ascii = false) {
        return write_text(std::vector<Block>{Paragraph{text}}, {.ascii = ascii});
    };
    CHECK(plain("a\U0001F58Cb") == "  a\U0001F58Cb\n");
    CHECK(plain("caf\xE9") == "  caf\uFFFD\n");
    // RFC 3629: overlong forms, halves of pairs, beyond the last, heads without tails.
    for (const char* bytes : {"\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xE2\x82", "\x80"}) {
        const auto text = plain("a" + std::string(bytes) + "b");
        INFO(text);
        CHECK(text.find("\uFFFD") != std::string::npos);
        CHECK(text.find(bytes) == std::string::npos);
    }
    CHECK(plain("a\uFFFEb").find("\uFFFE") == std::string::npos);
    CHECK(plain("\u00C0 \u017F \u0180", true).find('?') != std::string::npos);
    CHECK(plain("\u00D7 \u00B1", true) == "  x +-\n");
    CHECK(plain("~ {}|", true) == "  ~ {}|\n");
}

TEST_CASE("tables with units in the head, details and long words", "[unit]") {
    Table table{.columns = {{.align = Align::left}, {.head = "kept", .unit = "g", .text_unit = UnitPlace::head},
                            {.unit = "um", .text_unit = UnitPlace::head}}};
    table.rows = {{.cells = {Cell("k", "binder over what just fills"), "1.40", "5"}}, {.cells = {"PVC", "12", "50"}}};
    const auto text = write_text(std::vector<Block>{table});
    CHECK(text.find("kept, g") != std::string::npos);
    CHECK(text.find("1.40 g") == std::string::npos);
    CHECK(text.find("k  binder over what just fills") != std::string::npos);
    CHECK(text.find("PVC") != std::string::npos);
    CHECK(write_text(std::vector<Block>{Table{}}).empty());
    Table words{.columns = {{.head = "what", .align = Align::left}, {.head = "said", .align = Align::left}}};
    words.rows = {{.cells = {"a", "many words that are longer than what a narrow terminal has room for in one line"}}};
    const auto wrapped = write_text(std::vector<Block>{words}, {.width = 40});
    std::size_t longest = 0, line = 0;
    for (const char c : wrapped)
        line = c == '\n' ? 0 : line + 1, longest = std::max(longest, line);
    CHECK(longest <= 40);
    CHECK(wrapped.find("narrow") != std::string::npos);
    Table bars{.columns = {{.align = Align::left}, {.bar = true}}, .rows = {{.cells = {"none", Cell::bar(0.0)}}, {.cells = {"all", Cell::bar(1.0)}}}};
    CHECK(write_text(std::vector<Block>{bars}, {.ascii = true}).find("none\n") != std::string::npos);
}

namespace {

/// A page of this block alone, below the line of its title, which is empty.
std::string block_in_text(const Block& block, std::size_t width = 80) {
    TextOptions options;
    options.width = width;
    Page page;
    page.sections.push_back({.blocks = std::vector<Block>(1, block)});
    const auto text = write_text(page, options);
    return text.substr(std::min(text.find_first_not_of('\n'), text.size()));
}

} // namespace

TEST_CASE("blocks with a part left out are written without it", "[unit]") {
    CHECK(block_in_text(Verdict{.head = "Holds"}) == "  HOLDS\n");
    CHECK(block_in_text(Verdict{.head = "Holds", .figure = "k 1.4"}) == "  HOLDS   k 1.4\n");
    CHECK(block_in_text(Verdict{.chance = "Nine in ten."}) == "  Nine in ten.\n");
    CHECK(block_in_text(Verdict{.head = "Holds", .chance = "Nine in ten.", .chance_shown = Shown::html_only}) == "  HOLDS\n");
    CHECK(block_in_text({Cautions{{{"Dust", {}, "Mask on."}, {"Vapour", "Ethanol", "Burns."}}}}) == "  Dust          Mask on.\n  Vapour        Ethanol. Burns.\n");
    // A narrow page has the scale below, where there is one.
    TickList list;
    list.lines = {{{}, "Weld lake", {}}, {"6.0 g", "Weld lake", "kitchen scale", "6 mL", {"Mask on."}}};
    list.notes = {"It keeps."};
    CHECK(block_in_text(list, 30) == "  [ ] Weld lake\n  [ ] 6.0 g Weld lake\n   kitchen scale\n   or 6 mL\n   Mask on.\n   It keeps.\n");
    CHECK(block_in_text(list).find("  [ ]            Weld lake\n") == 0);
    // A command breaks between its words, never inside quotes; one without a space stands as it is.
    const std::string path(90, 'x');
    CHECK(block_in_text(Command{path}).find('\\') == std::string::npos);
    CHECK(block_in_text(Command{"ab " + path}).find("    ab\n") == 0); // too near its beginning to break
    CHECK(block_in_text(Command{"abc " + path}).find("    abc \\\n      xxx") == 0);
    const auto said = block_in_text(Command{"say \"" + std::string(40, 'y') + " " + std::string(40, 'z') + "\" now"});
    CHECK(said.find("    say \\\n      \"yyy") == 0);
    CHECK(std::count(said.begin(), said.end(), '\\') == 1); // not inside of the quotes
    CHECK(block_in_text(Command{std::string(60, 'a') + "  " + std::string(30, 'b')}) == "    " + std::string(60, 'a') + " \\\n       " + std::string(30, 'b') + "\n");
    INFO(block_in_text(Preformatted{{"a  ", "", "  b  ", "   ", "c"}}));
    CHECK(block_in_text(Preformatted{{"a  ", "", "  b  ", "   ", "c"}}) == "  a\n\n    b\n\n  c\n"); // nothing hangs behind a line
}

TEST_CASE("a table's row heads may have a second line, and its bars none", "[unit]") {
    Table table{.columns = {{.head = "what", .align = Align::left}, {.head = "value", .unit = "g"}, {.bar = true}}};
    table.rows = {{.cells = {Cell("k", "binder over what just fills"), "1.4", Cell::bar(0.5)}}, {.cells = {Words("PVC") + strong("!"), "30"}}, {.cells = {}}};
    const auto wide = block_in_text(table);
    CHECK(wide.find("  k") != std::string::npos);
    CHECK(wide.find("binder over what just fills") != std::string::npos);
    CHECK(wide.find("PVC!") != std::string::npos);
    for (const std::size_t width : {20u, 26u, 32u})
        for (const auto& line : lines_of(block_in_text(table, width)))
            CHECK(columns(line) <= width);
    const auto beside = block_in_text(table, 32);
    CHECK(beside.find("k binder     1.4 g") != std::string::npos);
    CHECK(beside.find("PVC!        30 g") != std::string::npos); // at the point of the one above
    CHECK(block_in_text(Table{}).empty());
}

TEST_CASE("a word longer than its line is cut where its letters end", "[unit]") {
    const std::string e = "e\u0301"; // one column, two characters
    CHECK(wrapped(e + e + e + e + e, 2) == std::vector<std::string>{e + e, e + e, e});
    CHECK(wrapped("a\u7d75b", 2) == std::vector<std::string>{"a", "\u7d75", "b"});
    CHECK(wrapped("abcd", 2) == std::vector<std::string>{"ab", "cd"});
    CHECK(wrapped("  ", 5) == wrapped("", 5));
    CHECK(wrapped("of 12 x/\u00f7 1.4 g", 14) == std::vector<std::string>{"of", "12 x/\u00f7 1.4 g"});
}
