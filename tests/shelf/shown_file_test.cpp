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

TEST_CASE("Whatever form a figure has, it is shown with what speaks for it", "[unit]") {
    TempDir dir;
    const auto lines = [&](const std::string& text) {
        std::string all;
        for (const auto& each : shown_file(dir.write("f.yaml", "kind: family\nname: F\n" + text)).figures)
            all += each.key + " = " + each.value + " (" + each.origin + ", " + each.source + ")\n";
        return all;
    };
    CHECK(lines("start: 1.2\nevidence: judgement\n") == "start = 1.2 (, )\n"); // an evidence that is none speaks for nothing
    CHECK(lines("window: {low: 1, evidence: judgement}\n") == "window: low = 1 (, )\n");
    CHECK(lines("hazards: [dust, eye irritant]\n") == "hazards = dust (, )\nhazards = eye irritant (, )\n");
    CHECK(lines("points:\n  - {at: 0 degC, origin: memory, source: a-book}\n  - {at: 20 degC}\n  - [1, 2]\n") ==
          "points: at = 0 degC (memory, a-book)\npoints = at 20 degC (, )\npoints = 1, 2 (, )\n");
    CHECK(lines("density: {value: [1, 2], origin: memory}\n") == "density: value = 1 (memory, )\ndensity: value = 2 (memory, )\n");
    CHECK(lines("density: {value: 2, of: {what: {then: 3}}, source: a-book}\n") == "density = 2 (, a-book)\ndensity: of: what: then = 3 (, )\n");
    CHECK(lines("density: {value: 2}\nevidence: {origin: estimate, source: judgement}\n") == "density = 2 (estimate, judgement)\n");
    CHECK(lines("source: {origin: memory}\nempty: {note: nothing}\n") == "source =  (memory, )\n");
}

TEST_CASE("A name that is not there is answered with three at most, or with where to look", "[errors]") {
    TempDir dir;
    for (const char* name : {"gum-water", "gum-waters", "gum-wate", "gum-waterr"})
        dir.write(std::string("media/") + name + ".yaml", "kind: medium\nname: M\n");
    const Library library({{dir.path().string(), "a test"}});
    const auto fault = [&](const char* id) {
        try {
            (void)shown_files(library, id);
        } catch (const InputError& error) {
            return error.faults().front().message + "; " + error.faults().front().hint;
        }
        return std::string();
    };
    CHECK(fault("gum-watre") == "--show gum-watre: nothing of that name is on the shelf; did you mean 'gum-wate', 'gum-water', 'gum-waterr'?");
    CHECK(fault("zinc") == "--show zinc: nothing of that name is on the shelf; 'lakebound-batch --list' shows what there is");
    CHECK(fault("Gum Water") == "--show Gum Water: nothing of that name is on the shelf; did you mean 'gum-water', 'gum-wate', 'gum-waterr'?");
}
