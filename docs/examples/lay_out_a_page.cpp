// An answer as data, written as text and as HTML: the page room alone, which knows nothing of paint.
// Prints:
//   SIEVE TEST: weld, first grinding
//
//   WHAT LIES WHERE
//     KEEP THE PAN: it is paint.
//     screen            kept
//     250 um           0.4 g
//     150 um           2.1 g
//
//   as HTML: the same, with µm
#include <cstdio>
#include <lakebound/page/html_writer.hpp>
#include <lakebound/page/text_writer.hpp>
using namespace lakebound;

int main() {
    page::Table table{.caption = "Kept by screen",
                      .columns = {{.head = "screen", .align = page::Align::left, .width = 12},
                                  {.head = "kept", .unit = "g", .width = 10}}};
    table.rows.push_back({.cells = {"250 um", "0.4"}});
    table.rows.push_back({.cells = {"150 um", "2.1"}});

    page::Page sheet;
    sheet.title = {.kind = "Sieve test", .name = "weld, first grinding", .form = page::TitleForm::after_colon};
    sheet.sections.push_back({.heading = "What lies where",
                              .blocks = {page::Paragraph{page::loud("Keep the pan:") + " it is paint."}, table}});
    std::printf("%s", page::write_text(sheet).c_str());

    const std::string html = page::write_html({sheet});
    std::printf("\nas HTML: %s\n", html.find("µm") != std::string::npos ? "the same, with µm" : "without µm");
}
