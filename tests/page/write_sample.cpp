// Writes the sample page with every block and every picture to standard output, for the checks from outside; with
// "--gallery" as its name the pictures at every edge too, to be looked at.

#include <iostream>
#include <string_view>

#include "lakebound/page/html_writer.hpp"
#include "page/picture_gallery.hpp"
#include "page/sample_page.hpp"
#include "page/sample_pictures.hpp"

int main(int count, char** arguments) {
    auto page = lakebound::testing::sample_page(count > 1 ? arguments[1] : "");
    auto pictures = lakebound::testing::sample_pictures();
    if (count > 1 && std::string_view(arguments[1]) == "--gallery")
        for (auto& picture : lakebound::testing::picture_gallery())
            pictures.push_back(std::move(picture));
    bool left = true;
    for (const auto& picture : pictures) {
        page.sections.push_back({.heading = "A picture",
                                 .blocks = {picture},
                                 .place = left ? lakebound::page::Place::left : lakebound::page::Place::right,
                                 .split = lakebound::page::Split::even});
        left = !left;
    }
    std::cout << lakebound::page::write_html(page);
}
