// Tables, tick lists and words as HTML, whole. The text under expected/ was read: what each cell says, how it is told to a
// screen reader, which digits are set unseen.
#include <catch2/catch.hpp>

#include <algorithm>

#include "lakebound/page/html_writer.hpp"
#include "support/expected_text.hpp"

using namespace lakebound::page;
using namespace lakebound::testing;

namespace {

/// What stands in the one section, an element to a line.
std::string section_of(const Block& block) {
    const auto html = write_html(Page{.title = {.kind = "T"}, .sections = {{.blocks = {block}}}});
    const auto from = html.find("<section"), start = html.find('\n', from) + 1;
    std::string text = html.substr(start, html.find("</section>", from) - start);
    for (std::size_t at = 0; (at = text.find("><", at)) != std::string::npos; at += 2)
        text.insert(at + 1, "\n");
    return text;
}
/// The words of a paragraph as HTML has them, a space that does not break shown as "~".
std::string printed(const std::string& words) {
    auto text = section_of(Paragraph{words});
    text = text.substr(3, text.find("</p>") - 3);
    for (std::size_t at = 0; (at = text.find("\u00a0", at)) != std::string::npos;) text.replace(at, 2, "~");
    return text;
}

} // namespace

TEST_CASE("tables as HTML, whole", "[unit]") {
    std::string text;
    const auto told = [&](const char* what, const Block& block) { text += std::string("==== ") + what + "\n" + section_of(block); };
    Table table{.caption = "Kept by screen", .columns = {{.head = "screen", .align = Align::left}, {.head = "kept", .unit = "g"}, {.unit = "um"}, {.align = Align::right, .strong = true}}};
    table.rows = {{.cells = {"250 um", "0.4", "1.25", "a"}}, {.cells = {Cell("150 um", "of nylon"), "12.15", "10", "b"}, .chosen = true}, {.cells = {"pan", "7", "-"}, .total = true}, {.cells = {}},
                  {.cells = {"note", "1.5 g", "3.", "c"}}};
    table.notes = {"A note."};
    told("four columns, figures aligned at their points", table);
    table.columns.push_back({.head = "said", .align = Align::left, .strong = true});
    table.chosen_word = "taken", table.caption_shown = true, table.large = true;
    told("five columns, stacked on a phone", table);
    table.columns.resize(4), table.tick = true, table.blank = "found", table.blank_unit = "um";
    told("four, to be ticked and filled in", table);
    table.columns.resize(3), table.blank_unit.clear(), table.large = false;
    told("three, to be ticked and filled in with words", table);
    table.columns.resize(1), table.chosen_word.clear();
    told("one column", table);
    Table bars{.columns = {{.align = Align::left}, {.bar = true}, {.head = "share", .unit = "%"}, {.align = Align::left}, {.align = Align::left}}, .rows = {{.cells = {"a", Cell::bar(0.5), "50"}}}};
    told("a bar is none of its columns", bars);
    bars.columns[2].head.clear(), bars.columns[2].unit.clear();
    told("without heads", bars);
    told("nothing", Table{});
    TickList list{.caption = "What to weigh", .lines = {{"6.0 g", "Weld lake", "kitchen scale", "3.0 mL in a syringe", {"Only this."}}, {"0.26 g", "Clove <oil>", {}, "2 drops", {}}, {"12 g", "Gum", "scale", {}, {}},
                                                        {"none", "Honey", {}, {}, {}}, {"1 drop", "Ox gall", "dropper", {}, {"a", "b"}}, {"a lot", "Water", {}, {}, {}}}};
    told("a tick list", list);
    list.lines.resize(1), list.caption.clear(), list.compact = true, list.notes = {"It keeps."};
    told("a compact one", list);
    check_expected("page", "tables-as-html", text);
}

TEST_CASE("in HTML a figure is spelled as print does, and stays with what belongs to it", "[unit]") {
    const std::pair<const char*, const char*> words[] = {
        // every unit behind a figure, and none behind a word
        {"5 um", "5~µm"}, {"5 degC", "5~°C"}, {"5 degF", "5~°F"}, {"5 g/cm3", "5~g/cm³"}, {"5 kg/m3", "5~kg/m³"}, {"5 cm3", "5~cm³"}, {"5 m3", "5~m³"}, {"5 mm2", "5~mm²"}, {"5 cm2", "5~cm²"},
        {"5 m2", "5~m²"}, {"5 m2/kg", "5~m²/kg"}, {"5 m2/g", "5~m²/g"}, {"5 ug", "5~µg"}, {"5 mL", "5~mL"}, {"in um", "in um"}, {"um", "um"}, {"the m2", "the m2"},
        // marks behind a unit stay behind it
        {"5 um.", "5~µm."}, {"5 um, 6 um; 7 um: 8 um) 9 um? 1 um!", "5~µm, 6~µm; 7~µm: 8~µm) 9~µm? 1~µm!"}, {"(5 um)", "(5~µm)"}, {"5 um-wide", "5~um-wide"},
        // what belongs together, and what is too long for that
        {"6.0 g of it", "6.0~g of it"}, {"12 abcdefghi x", "12~abcdefghi x"}, {"12 abcdefghij x", "12 abcdefghij x"}, {"12 abcdefghi, x", "12~abcdefghi, x"}, {"a ± b", "a~±~b"}, {"of %", "of~%"}, {"a x/ b", "a~x/~b"},
        {"a b", "a b"}, {"1 2 3 4 5 6 7 8 9 0 1 2 3 4", "1~2~3~4~5~6~7~8~9~0~1~2 3~4"}, {"abcdefghijklmnopqrstu1 a", "abcdefghijklmnopqrstu1~a"}, {"abcdefghijklmnopqrstuv1 a", "abcdefghijklmnopqrstuv1 a"},
        {"ends here ", "ends here "}, {"two  spaces", "two  spaces"}, {"5  mL", "5  mL"}, {"5  um", "5  um"}, {"<&>\"'", "&lt;&amp;&gt;&quot;&#39;"}};
    for (const auto& [typed, print] : words) {
        CAPTURE(typed);
        CHECK(printed(typed) == print);
    }
}

TEST_CASE("a command's options are not broken at their hyphens, and it is kept as it is typed", "[unit]") {
    const auto command = [](const char* line) {
        auto text = section_of(Command{line});
        text.erase(std::remove(text.begin(), text.end(), '\n'), text.end());
        return text.substr(25, text.find("</code>") - 25);
    };
    CHECK(command("a b") == "a b");
    CHECK(command("") == "");
    CHECK(command(" a ") == " a ");
    CHECK(command("x --keep -y z-1") == "x <span>--keep</span> <span>-y</span> <span>z-1</span>");
    CHECK(command("<a> \"b-c\"") == "&lt;a&gt; <span>&quot;b-c&quot;</span>");
}

TEST_CASE("a picture's caption says what found no room, after what it says itself", "[unit]") {
    Bars bars{.question = "Q", .bars = {{std::string(80, 'w'), {{1}}, "5 %"}, {std::string(80, 'v'), {{1}}, "6 %"}}};
    const auto caption = [&] {
        const auto html = section_of(Picture{bars});
        const auto from = html.find("<figcaption>");
        return from == std::string::npos ? std::string("(none)") : html.substr(from + 12, html.find("</figcaption>") - from - 12);
    };
    const std::string said = std::string(80, 'w') + ". " + std::string(80, 'v') + ".";
    CHECK(caption() == said);
    bars.caption = "Below.";
    CHECK(caption() == "Below. " + said);
    for (auto& bar : bars.bars) bar.label = "short";
    CHECK(caption() == "Below.");
    bars.caption.clear();
    CHECK(caption() == "(none)");
    CHECK(section_of(Picture{bars}).find("<figure>\n<svg viewBox=\"0 0 360 ") == 0);
    CHECK(section_of(Picture{bars, true}).find("<figure class=\"narrow\">\n<svg viewBox=\"0 0 300 ") == 0);
}
