// Tables and lists at every width of a terminal, each text once with the widths that it stands at. The texts under
// expected/ were read: no line beyond its width, every figure in its column, no word lost.
#include <catch2/catch.hpp>

#include <sstream>

#include "lakebound/page/line_fill.hpp"
#include "lakebound/page/text_writer.hpp"
#include "support/expected_text.hpp"

using namespace lakebound::page;
using namespace lakebound::testing;

namespace {

/// "---- 34 to 37" and the text; every line within its width.
std::string at_widths(const Block& block, std::size_t from, std::size_t to) {
    std::string text, last;
    std::size_t since = from;
    const auto tell = [&](std::size_t until) { text += "---- " + std::to_string(since) + " to " + std::to_string(until) + "\n" + last; };
    for (std::size_t width = from; width <= to; ++width) {
        const auto now = write_text(std::vector<Block>{block}, {.width = width});
        std::istringstream lines(now);
        for (std::string line; std::getline(lines, line);) {
            INFO(width << ": " << line);
            CHECK(columns(line) <= width);
            CHECK((line.empty() || line.back() != ' '));
        }
        if (width > from && now != last) tell(width - 1), since = width;
        last = now;
    }
    tell(to);
    return text;
}

} // namespace

TEST_CASE("tables at every width", "[unit]") {
    std::string text;
    Table sieve{.caption = "Kept", .columns = {{.head = "screen", .align = Align::left, .width = 12}, {.head = "kept", .align = Align::right, .unit = "g", .width = 10},
                                               {.head = "share", .unit = "%", .width = 9}, {.head = "passing", .align = Align::right, .unit = "%", .width = 12, .text_unit = UnitPlace::head},
                                               {.width = 22, .bar = true}}};
    sieve.rows = {{.cells = {"250 um", "0.4", "2.05", "98", Cell::bar(0.98)}}, {.cells = {"150 um", "12.15", "10", "87.4", Cell::bar(0.5)}, .chosen = true},
                  {.cells = {"with the water", "-", "none"}}, {.cells = {"pan"}}, {.cells = {}}};
    sieve.notes = {"One weighing is sure to ± 0.04 g."};
    text += "==== figures of every alignment and a bar\n" + at_widths(sieve, 20, 80);
    Table figures{.columns = {{.head = "sign", .align = Align::left}, {.head = "as weighed", .align = Align::right, .width = 15}, {.head = "what it says", .align = Align::left, .width = 20}, {.align = Align::right}, {.align = Align::right}}};
    figures.rows = {{.cells = {Cell("k", "binder over what just fills"), "1.40 ± 0.19", "Enough gum to bind, not so much that it shines.", "7", "12.5"}},
                    {.cells = {Cell("Lambda", "reduced PVC"), "0.85", "none", "11", "3"}}, {.cells = {"air", "0 %"}}};
    text += "==== details beside the heads, words behind figures, figures behind words\n" + at_widths(figures, 20, 80);
    Table words{.columns = {{.align = Align::left}, {.align = Align::left, .width = 30}}};
    words.rows = {{.cells = {"a rather long head of a row", "many words that are longer than what a narrow terminal has room for"}, .chosen = true}, {.cells = {"short", "few"}}, {.cells = {"", "no head"}}};
    text += "==== words alone, without heads\n" + at_widths(words, 20, 80);
    Table right{.columns = {{.head = "pull", .align = Align::right, .width = 6}, {.head = "water", .align = Align::right, .unit = "L", .width = 11}, {.head = "left behind", .align = Align::right, .width = 13}}};
    right.rows = {{.cells = {"1", "2.4", "27 %"}}, {.cells = {"2", "10", "7.3 %"}}};
    text += "==== figures alone\n" + at_widths(right, 20, 60);
    Table one{.columns = {{.head = "only", .align = Align::left, .width = 40}}, .rows = {{.cells = {"abcdefghijklmnopqrstuvwxyz"}}, {.cells = {"a bc def ghij klmno pqrstu vwxyz"}}}};
    text += "==== one column\n" + at_widths(one, 20, 50);
    check_expected("page", "tables-at-every-width", text);
}

TEST_CASE("lists at every width", "[unit]") {
    std::string text;
    const auto told = [&](const char* what, const Block& block) {
        text += std::string("==== ") + what + "\n";
        for (const auto& [from, to] : {std::pair{20u, 26u}, {38u, 42u}, {54u, 64u}, {78u, 80u}}) text += at_widths(block, from, to);
    };
    told("facts", Facts{{{"Fills", "5 half pans, 90 % full when dry, and what is left over goes into a small pot"}, {"A label that is long", "x"}, {"Blank", {}, true}}});
    Steps steps{{"Mask on. Weigh 6.0 g of Weld lake onto the slab.", "Stir."}, {"Of the recipe: a lake needs much liquid."}};
    for (int i = 0; i < 8; ++i) steps.steps.push_back("Again.");
    told("steps", steps);
    told("bullets", Bullets{{"All figures of gum arabic, glycerol and honey.", "Too little."}, '!'});
    told("cautions", Cautions{{{"Vapour", "Ethanol", "Burns and catches fire from a distance."}, {"First of all", {}, "Ask."}}});
    told("formula", Formula{"Binder demand of the lake", "q", {"OA / (100 rho_o)", "68.78 / (100 x 0.93)", "0.73957 mL/g"}});
    told("a command", Command{"lakebound-settle --depth \"100 mm\" --cut \"25 um\" --density \"1.86 g/cm3\" --keep"});
    told("a tick list", TickList{.lines = {{"6.0 g", "Weld lake, Reedmere, of the third bath", "kitchen scale", "23.0 mL in the 10 mL syringe, 3 fills", {"Only 0.013 g of it is wanted."}},
                                          {"none", "Honey", "a pocket scale with a long name", {}, {}}, {{}, "Water", {}, {}, {}}},
                                .notes = {"It keeps: weeks, in the refrigerator."}});
    told("paragraphs", Paragraph{"A word, and a wordthatislongerthananylineofanarrowterminal, and 12 ± 0.5 g/cm3 of it."});
    told("a verdict", Verdict{.head = "Should hold, not surely", .figure = "k 1.40", .chance = "85 of 100 land in the window.", .body = {Paragraph{"Enough gum to bind."}}, .beside = {Note{"Beside."}}});
    check_expected("page", "lists-at-every-width", text);
}

TEST_CASE("titles, headings and long names at every width", "[unit]") {
    std::string text;
    for (const auto form : {TitleForm::beside, TitleForm::after_colon, TitleForm::below})
        for (const std::size_t width : {20u, 24u, 25u, 39u, 40u, 59u, 60u, 80u}) {
            Page page{.title = {.kind = "Weigh sheet", .name = "Lake watercolour in half pans", .form = form, .lead = {"6.0 g of Weld lake, to fill 5 half pans"}}};
            page.sections = {{.heading = "Not measured, taken from the library", .blocks = {Lead{"What it is for."}, Note{"A note."}}}, {.heading = "Hidden", .blocks = {Paragraph{"P."}}, .heading_shown = false}};
            text += "---- " + std::to_string(width) + "\n" + write_text(page, {.width = width});
        }
    check_expected("page", "titles-at-every-width", text);
}

TEST_CASE("words that cling, and words wider than their line, at the very width", "[unit]") {
    using Lines = std::vector<std::string>;
    CHECK(wrapped("12 g", 4) == Lines{"12 g"});
    CHECK(wrapped("12 g", 3) == Lines{"12", "g"});
    CHECK(wrapped("ab 12 g", 7) == Lines{"ab 12 g"});
    CHECK(wrapped("ab 12 g", 6) == Lines{"ab", "12 g"});
    CHECK(wrapped("x/ 1.2", 6) == Lines{"x/ 1.2"});
    CHECK(wrapped("a ± 2 b", 5) == Lines{"a ± 2", "b"});
    CHECK(wrapped("of %", 4) == Lines{"of %"});
    CHECK(wrapped("abc", 3) == Lines{"abc"});
    CHECK(wrapped("abcd", 3) == Lines{"abc", "d"});
    CHECK(wrapped("\u7d75b", 1) == Lines{"\u7d75", "b"}); // one wide letter, more than the line
    CHECK(wrapped("\u7d75\u5177", 2) == Lines{"\u7d75", "\u5177"});
    CHECK(wrapped("\u7d75\u5177", 3) == Lines{"\u7d75", "\u5177"});
    CHECK(wrapped("e\u0301a", 1) == Lines{"e\u0301", "a"});
    CHECK(wrapped("ab", 0) == Lines{"a", "b"});
    // Marks laid over the last letter that fits stay with it, also at the end of the text.
    CHECK(wrapped("abe\u0301\u0302", 3) == Lines{"abe\u0301\u0302"});
    CHECK(wrapped("abe\u0301\u0302c", 3) == Lines{"abe\u0301\u0302", "c"});
}

TEST_CASE("characters at the ends of their kinds are kept, counted, laid over or left out", "[reference]") {
    // Ends of the blocks of Unicode (from memory): of one, two, three and four bytes; marks laid over letters; wide letters.
    const auto shown = [](char32_t c) {
        std::string text = "a";
        if (c < 0x80) text += static_cast<char>(c);
        else if (c < 0x800) text += static_cast<char>(0xC0 | c >> 6), text += static_cast<char>(0x80 | (c & 0x3F));
        else if (c < 0x10000) text += static_cast<char>(0xE0 | c >> 12), text += static_cast<char>(0x80 | (c >> 6 & 0x3F)), text += static_cast<char>(0x80 | (c & 0x3F));
        else text += static_cast<char>(0xF0 | c >> 18), text += static_cast<char>(0x80 | (c >> 12 & 0x3F)), text += static_cast<char>(0x80 | (c >> 6 & 0x3F)), text += static_cast<char>(0x80 | (c & 0x3F));
        text += "b";
        const auto out = write_text(std::vector<Block>{Paragraph{text}});
        return out == "  " + text + "\n" ? "kept " + std::to_string(columns(text) - 2) : out == "  ab\n" ? std::string("left out") : out == "  a b\n" ? std::string("space") : out;
    };
    const std::pair<char32_t, const char*> kinds[] = {
        {0x1F, "space"}, {0x20, "kept 1"}, {0x7E, "kept 1"}, {0x7F, "space"}, {0x9F, "space"}, {0xA0, "space"}, {0xA1, "kept 1"}, {0xAD, "left out"}, {0xAE, "kept 1"},
        {0x2FF, "kept 1"}, {0x300, "kept 0"}, {0x34E, "kept 0"}, {0x34F, "left out"}, {0x36F, "kept 0"}, {0x370, "kept 1"}, {0x7FF, "kept 1"}, {0x800, "kept 1"}, {0x10FF, "kept 1"},
        {0x1100, "kept 2"}, {0x115E, "kept 2"}, {0x115F, "left out"}, {0x1160, "left out"}, {0x1161, "kept 1"}, {0x200A, "space"}, {0x200B, "left out"}, {0x200F, "left out"}, {0x2010, "kept 1"},
        {0x2028, "space"}, {0x2029, "space"}, {0x202A, "left out"}, {0x202E, "left out"}, {0x202F, "space"}, {0x3000, "space"}, {0x3001, "kept 2"}, {0xD7A3, "kept 2"}, {0xFEFF, "left out"},
        {0xFFEF, "kept 1"}, {0xFFFE, "left out"}, {0xFFFF, "left out"}, {0x10000, "kept 1"}, {0x1EFFF, "kept 1"}, {0x1F000, "kept 2"}, {0x3FFFD, "kept 2"}};
    for (const auto& [c, kind] : kinds) {
        CAPTURE(static_cast<unsigned>(c));
        CHECK(shown(c) == kind);
    }
}
