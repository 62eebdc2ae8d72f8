// What a file of the shelf holds, as it is written, each figure with where it is from.

#include "lakebound/shelf/shown_file.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "lakebound/shelf/diagnostic.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const ShownFigure& figure(const ShownFile& file, const std::string& key) {
    const auto found = std::find_if(file.figures.begin(), file.figures.end(), [&](const auto& each) { return each.key == key; });
    INFO(key);
    REQUIRE(found != file.figures.end());
    return *found;
}

} // namespace

TEST_CASE("A figure is shown with its own origin, or with the evidence beside it", "[unit]") {
    TempDir dir;
    const auto path = dir.write("families/oil.yaml", "kind: family\nname: Oil\nstart: 1.35\n"
                                                     "window: {green_low: 1.15, green_high: 1.7}\n"
                                                     "shrinks:\n  least: 2 %\n  evidence: {origin: published, source: a-film-study}\n"
                                                     "index:\n  value: 1\n  origin: common practice\n  note: Of the oil.\n"
                                                     "parts:\n  - {ingredient: gum, parts: 1}\n  - {ingredient: water, parts: 2}\n"
                                                     "evidence: {origin: estimate, source: judgement}\nnote: Provisional.\n");
    const auto file = shown_file(path);
    CHECK(file.kind == "family");
    CHECK(file.name == "Oil");
    CHECK(file.note == "Provisional.");
    CHECK(figure(file, "window: green low").value == "1.15");
    CHECK(figure(file, "window: green low").source == "judgement"); // what stands at the top speaks for all
    CHECK(figure(file, "shrinks: least").value == "2 %");
    CHECK(figure(file, "shrinks: least").origin == "published");
    CHECK(figure(file, "shrinks: least").source == "a-film-study");
    CHECK(figure(file, "index").value == "1");
    CHECK(figure(file, "index").origin == "common practice");
    CHECK(figure(file, "index").note == "Of the oil.");
    CHECK(figure(file, "parts").value == "ingredient gum, parts 1");
    CHECK(std::count_if(file.figures.begin(), file.figures.end(), [](const auto& each) { return each.key == "parts"; }) == 2);
}

TEST_CASE("Whatever bears the name is shown, and a slip is answered with the nearest", "[unit]") {
    TempDir dir;
    dir.write("families/oil.yaml", "kind: family\nname: Oil\n");
    dir.write("targets/oil.yaml", "kind: fineness target\nname: Oil\n");
    dir.write("media/gum-water.yaml", "kind: medium\nname: Gum water\nsource: {origin: published, source: a-book}\n");
    const Library library({{dir.path().string(), "a test"}});
    CHECK(shown_files(library, "oil").size() == 2);
    const auto medium = shown_files(library, "gum-water").at(0);
    CHECK(figure(medium, "source").source == "a-book");
    try {
        (void)shown_files(library, "gum-watr");
        FAIL("a name that is not there is shown");
    } catch (const InputError& error) {
        CHECK(error.faults().front().id == "id-unknown");
        CHECK(error.faults().front().hint.find("'gum-water'") != std::string::npos);
    }
}
