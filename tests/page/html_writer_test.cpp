#include <catch2/catch.hpp>

#include "lakebound/page/html_writer.hpp"
#include "page/sample_page.hpp"

using namespace lakebound::page;
using lakebound::testing::sample_page;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("an HTML page needs nothing but itself", "[unit]") {
    const auto html = write_html(sample_page());
    CHECK(has(html, "<!DOCTYPE html>\n<html lang=\"en\">"));
    CHECK(has(html, "<title>Weigh sheet: Lake watercolour in half pans</title>"));
    for (const char* fetched : {"http:", "https:", "src=", "@import", "url(", "<script", "<link", "onclick"})
        CHECK_FALSE(has(html, fetched));
}

TEST_CASE("HTML says what each part is", "[unit]") {
    const auto html = write_html(sample_page());
    CHECK(has(html, "<h1>Lake watercolour in half pans</h1>"));
    CHECK(has(html, "<h2 class=\"red\">Take care</h2>"));
    CHECK(has(html, "<th scope=\"col\" role=\"columnheader\" class=\"right\">kept, g</th>"));
    CHECK(has(html, "<th scope=\"row\" role=\"rowheader\">250\u00a0µm</th>"));
    CHECK(has(html, "<caption class=\"unseen\">What to weigh</caption>"));
    CHECK(has(html, "<dt>Vapour</dt><dd><b>Ethanol.</b> Burns"));
    CHECK(has(html, "aria-label=\"Weld lake, Reedmere: done\""));
    CHECK(has(html, "<section class=\"side whole\">"));
}

TEST_CASE("HTML spells units as print does, and leaves what is typed back alone", "[unit]") {
    const auto html = write_html(sample_page());
    CHECK(has(html, "To part at 25\u00a0µm, with"));
    CHECK(has(html, "<code><span>lakebound-settle</span> <span>--depth</span> &quot;100 mm&quot; <span>--cut</span> "
                    "&quot;25 um&quot;</code>"));
    CHECK(has(write_html(sample_page("rund um die Uhr")), "rund um die Uhr"));
}

TEST_CASE("the points of a column stand in one line", "[unit]") {
    const auto html = write_html(sample_page());
    CHECK(has(html, ">0.4<i data-fill=\"0\"></i></td>"));
    CHECK(has(html, ">87<i data-fill=\".0\"></i></td>"));
    CHECK(has(html, ">12.15</td>"));
}

TEST_CASE("what a person typed stays inside its element", "[unit]") {
    const auto html = write_html(sample_page("</h1><script>alert('\"&')</script>\n\u202E<!--"));
    CHECK_FALSE(has(html, "<script"));
    CHECK_FALSE(has(html, "<!--"));
    CHECK_FALSE(has(html, "\u202E"));
    CHECK(has(html, "&lt;/h1&gt;&lt;script&gt;alert(&#39;&quot;&amp;&#39;)&lt;/script&gt; &lt;!--"));
}

TEST_CASE("words from right to left are set apart", "[unit]") {
    CHECK(has(write_html(sample_page("\u05e9\u05dc\u05d5\u05dd \u05e9 6.0 g")),
              "\u2068\u05e9\u05dc\u05d5\u05dd \u05e9\u2069 6.0\u00a0g"));
}

TEST_CASE("a language that is none is not believed", "[unit]") {
    auto page = sample_page();
    page.language = "en\" onload=\"x";
    CHECK(has(write_html(page), "<html lang=\"en\">"));
}

namespace {

std::string html_of(Block block) {
    Page page;
    page.title = {.kind = "K", .name = "N"};
    page.sections.push_back({.blocks = {std::move(block)}});
    return write_html(page);
}

} // namespace

TEST_CASE("HTML has each tone, each seal and each style", "[unit]") {
    CHECK(has(html_of(Paragraph{"plain"}), "<p>plain</p>"));
    CHECK(has(html_of(Paragraph{"look", Tone::care}), "class=\"care\""));
    CHECK(has(html_of(Paragraph{"no", Tone::bad}), "class=\"bad\""));
    CHECK(has(html_of(Watch{"look"}), "<p class=\"watch\">look"));
    CHECK(has(html_of(Watch{"no", Tone::bad}), "<p class=\"watch bad\">no"));
    CHECK(has(html_of(Paragraph{strong("s") + emphasis(" e") + code(" 25 um") + loud(" l")}),
              "<b>s</b><em> e</em><code> 25 um</code><b> l</b>"));
    CHECK(has(html_of(Paragraph{Words(std::string_view("a view"))}), "a view"));
    const auto sealed = [](Verdict::Seal seal) { return html_of(Verdict{.head = "May hold", .seal = seal}); };
    CHECK_FALSE(has(sealed(Verdict::Seal::none), "<circle"));
    CHECK(has(sealed(Verdict::Seal::holds), "class=\"edge solid\""));
    CHECK(has(sealed(Verdict::Seal::may_hold), "class=\"edge open\""));
    CHECK(has(sealed(Verdict::Seal::may_hold), "class=\"solid\""));
    CHECK(has(sealed(Verdict::Seal::fails), "M5 19L19 5"));
    const Verdict full{.head = "Holds", .figure = "k 1.40", .chance = "85 of 100", .beside = {Paragraph{"at the right"}}};
    CHECK(has(html_of(full), "class=\"figure\">k"));
    CHECK(has(html_of(full), "<p class=\"chance\">85"));
    CHECK(has(html_of(full), "at the right"));
    const Verdict mute{.head = "Holds", .chance = "85 of 100", .chance_shown = Shown::text_only};
    CHECK_FALSE(has(html_of(mute), "<p class=\"chance\""));
    CHECK_FALSE(has(html_of(mute), "class=\"figure\""));
    CHECK_FALSE(has(html_of(Block(Paragraph{"only text"}, Shown::text_only)), "only text"));
    CHECK(has(html_of(Facts{{{.label = "Worked by", .blank = true}}}), "aria-label=\"Worked by\""));
    CHECK_FALSE(has(html_of(Facts{{{.label = "Bench", .words = "b"}}}), "<input"));
    CHECK(has(html_of(Foot{"made by", "lakebound-batch x"}), "<code><span>lakebound-batch</span> x</code>"));
    CHECK_FALSE(has(html_of(Foot{"made by"}), "<code>"));
}

TEST_CASE("HTML tables can be ticked, filled in, and told apart", "[unit]") {
    Table table{.caption = "Rounds", .caption_shown = true,
                .columns = {{.head = "round", .align = Align::left}, {.unit = "min"}, {.head = "over", .unit = "%", .strong = true}, {.head = "left"}, {.head = "lost"}},
                .rows = {{.cells = {Cell("1", "the first"), "5", "40.5"}}, {.cells = {}}, {.cells = {"3", "none", "7"}, .chosen = true}},
                .tick = true, .blank = "really", .blank_unit = "g", .large = true};
    const auto html = html_of(table);
    CHECK(has(html, "<caption>Rounds</caption>"));
    CHECK(has(html, "<span class=\"unseen\">Done</span>"));
    CHECK(has(html, ">min</th>"));
    CHECK(has(html, ">really</th>"));
    CHECK(has(html, "<br><span class=\"note\">the first</span>"));
    CHECK(has(html, "aria-label=\"1: done\""));
    CHECK(has(html, "aria-label=\": done\"")); // a row without a head
    CHECK(has(html, "aria-label=\"1: really\""));
    CHECK(has(html, "class=\"stacked large\" style=\"--n:6\"")); // too many columns for a phone
    CHECK(has(html, ">none<"));
    CHECK_FALSE(has(html, "none\u00a0min"));
    CHECK(has(html, "taken"));
    table.chosen_word.clear();
    table.caption_shown = table.tick = table.large = false;
    table.blank.clear();
    table.columns = {{.align = Align::left}, {}};
    const auto bare = html_of(table);
    CHECK(has(bare, "<caption class=\"unseen\">Rounds</caption>"));
    CHECK_FALSE(has(bare, "<thead"));
    CHECK_FALSE(has(bare, "<input"));
    CHECK_FALSE(has(bare, "taken"));
    table.caption.clear();
    CHECK_FALSE(has(html_of(table), "<caption"));
    table.columns.clear();
    CHECK_FALSE(has(html_of(table), "<table"));
}

TEST_CASE("HTML tick lists part an amount from its unit, and say what else would do", "[unit]") {
    TickList list{.caption = "Weigh", .lines = {{"6.0 g", "lake", "kitchen scale", "3.0 mL"}, {"none", "oil", "", "a drop"}, {" x", "odd"}},
                  .compact = true};
    const auto html = html_of(list);
    CHECK(has(html, "class=\"ticks compact\""));
    CHECK(has(html, "kitchen scale; or 3.0\u00a0mL"));
    CHECK(has(html, "or a drop"));
    CHECK_FALSE(has(html, "; or a drop"));
    CHECK(has(html, ">none<"));
    list.caption.clear();
    list.compact = false;
    CHECK(has(html_of(list), "class=\"ticks\""));
    CHECK_FALSE(has(html_of(list), "<caption"));
}

TEST_CASE("a page of paper begins sides and halves where it is told", "[unit]") {
    Page page;
    page.title = {.kind = "K", .name = "N"};
    page.language = "de-AT";
    page.sections.push_back({.heading = "left", .blocks = {Paragraph{"l"}}, .place = Place::left, .split = Split::even, .new_side = true});
    page.sections.push_back({.heading = "right", .blocks = {Paragraph{"r"}}, .place = Place::right});
    page.sections.push_back({.heading = "unseen", .blocks = {Paragraph{"u"}}, .shown = Shown::text_only});
    page.sections.push_back({.heading = "next left", .blocks = {Paragraph{"l2"}}, .place = Place::left});
    page.sections.push_back({.heading = "next side", .blocks = {Paragraph{"l3"}}, .place = Place::left, .new_side = true});
    const auto html = write_html(page);
    CHECK(has(html, "<html lang=\"de-AT\">"));
    CHECK(has(html, "pair even side"));
    CHECK_FALSE(has(html, "unseen</h2>"));
    CHECK(has(html, "l3"));
    page.language = "zh-Hant-9"; // digits are allowed too
    CHECK(has(write_html(page), "<html lang=\"zh-Hant-9\">"));
    page.language.clear();
    CHECK(has(write_html(page), "<html lang=\"en\">"));
    CHECK(has(write_html(std::vector<Page>{}), "<!DOCTYPE html>"));
    const auto two = write_html(std::vector<Page>{page, sample_page()});
    CHECK(has(two, "Lake watercolour in half pans"));
    CHECK(has(two, ">N<"));
}

TEST_CASE("HTML leaves out what a block does not say", "[unit]") {
    const auto only_chance = html_of(Verdict{.chance = "Nine in ten."});
    CHECK(has(only_chance, "<p class=\"chance\">Nine in ten.</p>"));
    CHECK_FALSE(has(only_chance, "<p class=\"word\">"));
    CHECK_FALSE(has(html_of(Verdict{.head = "Holds", .chance = "Nine in ten.", .chance_shown = Shown::text_only}), "Nine in ten."));
    const auto head = html_of(Verdict{.head = "Holds"});
    CHECK(has(head, "<p class=\"word\"><span>Holds</span></p>"));
    CHECK(has(html_of(Verdict{.head = "Fails", .seal = Verdict::Seal::fails}), "M5 19L19 5"));
    CHECK(has(html_of(Verdict{.head = "May hold", .seal = Verdict::Seal::may_hold}), "M12 2a10 10 0 0 0 0 20z"));
}

TEST_CASE("a tick list parts a figure from its unit, and takes words as they are", "[unit]") {
    TickList list;
    list.lines = {{"6.0 g", "Weld", {}}, {"a few drops", "Clove oil", {}, "2 drops"}, {"3", "Eggs", "none"}, {" g", "Odd", {}}};
    const auto html = html_of(list);
    CHECK(has(html, ">6.0<span class=\"unit\">g</span></td>"));
    CHECK(has(html, "class=\"amount\">a few drops</td>"));
    CHECK(has(html, "<span class=\"note\">or 2\u00a0drops</span>"));
    CHECK(has(html, "<span class=\"note\">none</span>"));
    for (char last = ' '; last <= '~'; ++last) { // a figure ends in one of 0 to 9
        TickList one;
        one.lines = {{std::string("1.") + last + " mL", "Water", {}}};
        CAPTURE(last);
        CHECK(has(html_of(one), "<span class=\"unit\">mL</span>") == (last >= '0' && last <= '9'));
    }
    // Only what has a unit has a blank to write into.
    std::size_t blanks = 0;
    for (auto at = html.find("inputmode"); at != std::string::npos; at = html.find("inputmode", at + 1))
        ++blanks;
    CHECK(blanks == 1);
}

TEST_CASE("a table in HTML has a class for what it is, and cells for what it lacks", "[unit]") {
    Table table{.columns = {{.head = "what", .align = Align::left}, {.head = "value", .align = Align::right, .strong = true}, {.head = "name", .align = Align::left, .strong = true}}};
    table.rows = {{.cells = {Cell("k", "binder"), "1.4"}, .chosen = true}, {.cells = {"PVC", "30", "x"}}};
    auto html = html_of(table);
    CHECK(has(html, "class=\"right strong\">1.4</td>"));
    CHECK(has(html, "class=\"strong\">x</td>"));
    CHECK(has(html, "<br><span class=\"note\">binder</span>"));
    CHECK(has(html, "k, taken<br>"));
    table.large = true, table.tick = true, table.blank = "really", table.blank_unit = "g", table.chosen_word.clear();
    html = html_of(table);
    CHECK(has(html, "large\""));
    CHECK(has(html, ">really</th>"));
    CHECK(has(html, "<span class=\"unit\">g</span>"));
    CHECK_FALSE(has(html, "k, taken"));
    table.blank_unit.clear();
    CHECK_FALSE(has(html_of(table), "<span class=\"unit\">g</span>"));
    CHECK_FALSE(has(html_of(Table{}), "<table"));
}

TEST_CASE("in HTML a figure stays with its sign and its unit", "[unit]") {
    const auto line = [](const char* words) { return html_of(Paragraph{words}); };
    CHECK(has(line("2.0 \u00b1 0.2 %"), "2.0\u00a0\u00b1\u00a00.2\u00a0%"));
    CHECK(has(line("65 x/ 1.35 g"), "65\u00a0x/\u00a01.35\u00a0g"));
    CHECK(has(line("a  b"), "a"));
    CHECK(has(line("6 antidisestablishment"), "6 antidisestablishment")); // no unit is that long
}

TEST_CASE("an amount ends in any digit before its unit", "[unit]") {
    TickList list;
    for (const char* amount : {"1.0 g", "2.9 g", "3.5 g", "a few"})
        list.lines.push_back({.amount = amount, .name = "Lake"});
    const auto html = write_html(Page{.title = {.kind = "Test"}, .sections = {{.blocks = {list}}}});
    // The unit stands by itself behind a figure; words are one piece.
    for (const char* number : {"1.0", "2.9", "3.5"}) {
        CAPTURE(number);
        CHECK(html.find(std::string("class=\"amount\">") + number + "<span class=\"unit\">g</span></td>") != std::string::npos);
    }
    CHECK(html.find("<span class=\"unit\">few") == std::string::npos);
}
