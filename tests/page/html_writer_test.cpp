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
    CHECK(has(html, "<code>lakebound-settle --depth &quot;100 mm&quot; --cut &quot;25 um&quot;</code>"));
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
