// Writes the sample page with every block and every picture to standard output, for the checks from outside.

#include <iostream>

#include "lakebound/page/html_writer.hpp"
#include "page/sample_page.hpp"
#include "page/sample_pictures.hpp"

int main(int count, char** arguments) {
    auto page = lakebound::testing::sample_page(count > 1 ? arguments[1] : "");
    bool left = true;
    for (const auto& picture : lakebound::testing::sample_pictures()) {
        page.sections.push_back({.heading = "A picture",
                                 .blocks = {picture},
                                 .place = left ? lakebound::page::Place::left : lakebound::page::Place::right,
                                 .split = lakebound::page::Split::even});
        left = !left;
    }
    std::cout << lakebound::page::write_html(page);
}
