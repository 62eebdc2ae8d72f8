// The sample page and its pictures whole, as both writers write them. The texts under expected/ were read, and the
// pictures looked at; what is new there must be looked at before it is kept.
#include <catch2/catch.hpp>

#include "lakebound/page/html_writer.hpp"
#include "lakebound/page/text_writer.hpp"
#include "page/picture_gallery.hpp"
#include "page/sample_page.hpp"
#include "page/sample_pictures.hpp"
#include "support/expected_text.hpp"

using namespace lakebound::page;
using namespace lakebound::testing;

namespace {

/// What stands in the body, an element to a line.
std::string body_of(const std::string& html) {
    std::string text = html.substr(html.find("<body"));
    for (std::size_t at = 0; (at = text.find("><", at)) != std::string::npos; at += 2)
        text.insert(at + 1, "\n");
    return text;
}
/// Pictures, drawn in letters too.
Page of_pictures(bool narrow, const std::vector<Picture>& pictures = sample_pictures()) {
    Page page{.title = {.kind = "Pictures"}};
    for (auto picture : pictures) {
        picture.narrow = narrow;
        std::visit([](auto& each) { if constexpr (requires { each.in_text; }) each.in_text = true; }, picture.is);
        page.sections.push_back({.heading = "Picture", .blocks = {picture}});
    }
    return page;
}
/// A crowded chart: bands both ways, a region, numbered lines, marks along, words that find no room.
Page of_a_full_chart() {
    Chart chart{.question = "All", .x = {.name = "x", .unit = "degC", .low = 0, .high = 10, .ticks = {0, 2.5, 5, 10}},
                .y = {.name = "y", .low = 0, .high = 1}};
    chart.regions = {{.low = {{1, 0.2}, {9, 0.3}}, .high = {{1, 0.6}, {9, 0.7}}, .label = "doubt"}};
    chart.bands = {{.from = 2, .to = 4, .label = "window", .of_x = true}, {.from = 0.1, .to = 0.2, .label = "wanted"}};
    chart.series = {{.label = "first", .points = {{1, 0.5}, {3, 0.55}, {9, 0.5}}, .number = 3},
                    {.label = "second", .points = {{1, 0.1}, {9, 0.9}}, .stroke = Stroke::thin}};
    chart.limits = {{.at = 0.8, .label = "at most"}, {.at = 8, .label = "noon", .of_x = true}};
    chart.marks = {{.at = {5, 0.5}, .label = "seen", .nearly_sure = Interval{0.4, 0.6}, .along = Interval{4, 6}}};
    for (int i = 0; i < 12; ++i)
        chart.marks.push_back({.at = {5.0, 0.5}, .symbol = Symbol::diamond, .label = "mark number " + std::to_string(i)});
    chart.caption = "Below.", chart.height = 120;
    return {.title = {.kind = "Chart"}, .sections = {{.blocks = {Picture{chart}, Picture{chart, true}}}}};
}

} // namespace

TEST_CASE("the sample page as text of every kind", "[unit]") {
    const auto page = sample_page();
    std::string text = write_text(page);
    for (const auto& options : {TextOptions{.width = 70}, {.width = 60}, {.width = 59}, {.width = 55}, {.width = 40}, {.width = 20}, {.colour = true}, {.ascii = true}})
        text += "\n=====\n" + write_text(page, options);
    for (std::size_t at = 0; (at = text.find('\x1b', at)) != std::string::npos;)
        text.replace(at, 1, "ESC");
    check_expected("page", "sample-text", text);
}

TEST_CASE("a cell without a figure gets no unit, and a mark on a letter is no letter of its own", "[unit]") {
    Table table{.caption = "Kept", .columns = {{.head = "screen", .align = Align::left}, {.head = "kept", .unit = "g", .width = 11}}};
    table.rows = {{.cells = {"250 um", "0.4"}}, {.cells = {"pan", "-"}}, {.cells = {"all", ""}}, {.cells = {"lost", "none"}}};
    const Page page{.title = {.kind = "Test"}, .sections = {{.blocks = {table}}}};
    CHECK(write_text(page) == "TEST\n\n  screen         kept\n  250 um        0.4 g\n  pan               -\n  all\n  lost           none\n");
    CHECK(write_text(Page{.title = {.kind = "Test", .name = "cafe\u0301"}}, {.ascii = true}).find('?') == std::string::npos);
    CHECK(write_text(Page{.title = {.kind = "Test", .name = "\u4e2d"}}, {.ascii = true}).find('?') != std::string::npos);
    for (const char* tag : {"zh-ZZ-09", "az-AZ", "Zz9"})
        CHECK(write_html(Page{.title = {.kind = "Test"}, .language = tag}).find(std::string("lang=\"") + tag + "\"") != std::string::npos);
    for (const char* tag : {"", "e n", "[", "`", "{", "@", "en/us", "en:"})
        CHECK(write_html(Page{.title = {.kind = "Test"}, .language = tag}).find("lang=\"en\"") != std::string::npos);
}

TEST_CASE("the sample page as HTML", "[unit]") {
    check_expected("page", "sample-html", body_of(write_html(sample_page())) + body_of(write_html(std::vector{sample_page("<i>typed</i> & 'so'"), of_a_full_chart()})));
}

TEST_CASE("pictures of every kind, wide, narrow and in letters", "[unit]") {
    check_expected("page", "pictures-wide", body_of(write_html(of_pictures(false))) + body_of(write_html(of_a_full_chart())));
    check_expected("page", "pictures-narrow", body_of(write_html(of_pictures(true))));
    check_expected("page", "pictures-in-letters", write_text(of_pictures(false)) + write_text(of_pictures(false), {.width = 40, .ascii = true}));
}

TEST_CASE("pictures at every edge, wide, narrow and in letters", "[unit]") {
    check_expected("page", "gallery-wide", body_of(write_html(of_pictures(false, picture_gallery()))));
    check_expected("page", "gallery-narrow", body_of(write_html(of_pictures(true, picture_gallery()))));
    check_expected("page", "gallery-in-letters", write_text(of_pictures(false, picture_gallery())) + write_text(of_pictures(false, picture_gallery()), {.width = 44}));
}
