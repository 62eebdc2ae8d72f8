// Where the shelf draws its lines: how far a file is read before it is replaced, whose it stays, which sheet has water.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

#include <sys/stat.h>
#include <unistd.h>

#include "faults_of.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/shown_file.hpp"
#include "lakebound/shelf/studio.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "lakebound/shelf/weigh_sheet_file.hpp"
#include "own_studio.hpp"
#include "small_shelf.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// A weigh sheet of one lake, with these keys of its powder.
std::string sheet_with(const std::string& state, const std::string& density, const std::string& more) {
    return R"({"schema_version": 4, "kind": "batch",
"recipe": {"id": "test-paint", "name": "Test paint", "family": "test-family", "medium": "gum-water"},
"pigments": [{"id": "test-lake", "name": "Test lake", "class": "lake", "density_state": ")" + state + R"(",
  "density_g_per_cm3": {"value": )" + density + R"(, "standard_uncertainty": 0, "provenance": {"origin": "estimate"}},
  "oil_absorption_g_per_100g": {"value": 65, "standard_uncertainty": 6.5, "provenance": {"origin": "measured"}},
  "test_oil_density_g_per_cm3": {"value": 0.93, "standard_uncertainty": 0, "provenance": {"origin": "estimate"}})" + more + R"(}],
"batch": {"weigh": [
  {"part": "pigment", "id": "test-lake", "exact_g": 4.0, "to_weigh_g": 4.0, "rounded_g": 4.0},
  {"part": "medium", "id": "gum-water", "exact_g": 20.0, "to_weigh_g": 20.0, "rounded_g": 20.0}]}
})";
}

WeighedPaint weighed(const std::string& text) {
    const SmallShelf shelf;
    auto library = shelf.library();
    return read_weighed_paint(load_document("sheet.json", text), library);
}

const std::string damp = R"(, "moisture": {"value": 0.07, "standard_uncertainty": 0.01, "provenance": {"origin": "measured"}})";

} // namespace

TEST_CASE("a sheet's powder has the water that the sheet says, whatever its density is of", "[unit]") {
    const auto pigment = [](const std::string& state, const std::string& more) {
        return weighed(sheet_with(state, "1.9", more)).recipe.pigments.at(0).pigment;
    };
    for (const char* state : {"as weighed", "bone dry"}) {
        CAPTURE(state);
        const Pigment wet = pigment(state, damp);
        REQUIRE(wet.moisture);
        CHECK(wet.moisture->value().value() == Approx(.07));
        CHECK(wet.moisture->standard_uncertainty().value() == Approx(.01));
    }
    CHECK_FALSE(pigment("as weighed", "").moisture);
    // A bone-dry density says nothing of the powder that was weighed, unless its water is known.
    CHECK(summary(faults_of([] { (void)weighed(sheet_with("bone dry", "1.9", "")); })).starts_with("key-missing"));
}

TEST_CASE("densities of a weigh sheet go from .01 to 25 g/cm3", "[errors]") {
    const auto faults = [](const std::string& density) {
        return summary(faults_of([&] { (void)weighed(sheet_with("as weighed", density, "")); }));
    };
    for (const char* possible : {"0.01", "0.0101", "0.0124", "24.9", "25"}) {
        INFO(possible);
        CHECK(faults(possible).empty());
    }
    for (const char* none : {"0.00999", "25.01", "0", "-1"}) {
        INFO(none);
        CHECK_FALSE(faults(none).empty());
    }
}

TEST_CASE("what looks typed by hand within its first two hundred lines is not replaced", "[errors]") {
    const TempDir dir;
    for (const int lines_before : {0, 1, 198, 199, 200, 201, 400}) {
        CAPTURE(lines_before);
        std::string text;
        for (int i = 0; i < lines_before; ++i)
            text += "# a remark\n";
        const std::string path = dir.write("jar" + std::to_string(lines_before) + ".yaml", text + "kind: jar\n");
        CHECK(summary(faults_of([&] { safe_write(path, "new", Overwrite::allow); })) == (lines_before < 200 ? "write-input" : ""));
        CHECK(read_bytes(path) == (lines_before < 200 ? text + "kind: jar\n" : "new"));
    }
}

TEST_CASE("a file stays its owner's and its group's, each by itself", "[unit]") {
    if (::geteuid() != 0) {
        SUCCEED("only root may give files away");
        return;
    }
    const TempDir dir;
    const struct {
        uid_t owner;
        gid_t group;
    } all[] = {{::geteuid(), ::getegid()}, {12345, ::getegid()}, {::geteuid(), 12346}, {12345, 12346}};
    for (const auto& each : all) {
        CAPTURE(each.owner, each.group);
        const std::string path = dir.write("sheet.txt", "old");
        REQUIRE(::chown(path.c_str(), each.owner, each.group) == 0);
        safe_write(path, "new", Overwrite::allow);
        struct stat status {};
        REQUIRE(::stat(path.c_str(), &status) == 0);
        CHECK(status.st_uid == each.owner);
        CHECK(status.st_gid == each.group);
        REQUIRE(::unlink(path.c_str()) == 0);
    }
}

TEST_CASE("what stands beside a value is shown, before it or after it", "[unit]") {
    TempDir dir;
    const auto shown = [&](const std::string& start) {
        std::string text;
        for (const auto& each : shown_file(dir.write("f.yaml", "kind: family\nname: F\nstart:\n" + start)).figures)
            text += each.key + " = " + each.value + " (" + each.origin + ")\n";
        return text;
    };
    CHECK(shown("  value: 2 %\n  within: 3 %\n  origin: estimate\n") == "start = 2 % (estimate)\nstart: within = 3 % ()\n");
    CHECK(shown("  within: 3 %\n  value: 2 %\n  origin: estimate\n") == "start = 2 % (estimate)\nstart: within = 3 % ()\n");
    CHECK(shown("  origin: estimate\n  within: 3 %\n  value: 2 %\n  step: 4 %\n") ==
          "start = 2 % (estimate)\nstart: within = 3 % ()\nstart: step = 4 % ()\n");
}

TEST_CASE("a binder that begins with a figure is an amount of nothing named", "[errors]") {
    const auto fault = [](const std::string& binder) {
        const SmallShelf shelf;
        auto library = shelf.library();
        PaintTexts texts;
        texts.pigments = {"test-lake: 10 g"};
        texts.binders = {binder};
        texts.family = "test-family";
        const StandardInput none = []() -> std::string { throw std::logic_error("standard input is not asked for"); };
        return summary(faults_of([&] { (void)paint_question(texts, library, none); }));
    };
    for (const char digit : {'0', '1', '4', '5', '8', '9'}) {
        CAPTURE(digit);
        CHECK(fault(std::string(1, digit) + "0g") == "binder-name");
    }
    CHECK(fault("gum-water") == "amount-missing");
    CHECK(fault("a9") != "binder-name");
    CHECK(fault("z0") != "binder-name");
}

TEST_CASE("a jar that does not say since when was there on the first day that a date may be", "[unit]") {
    OwnStudio own;
    std::ofstream("jars/weld.yaml") << "kind: jar\nname: Weld\npigment: alumina-lake\nnet_mass: 24 +- 0.1 g\n";
    std::filesystem::create_directories("records/weld");
    std::ofstream("records/weld/1900-01-01-01-drawn.yaml") << "kind: entry\njar: weld\ndate: 1900-01-01\nwhat: drawn\nmass: 3 g\n";
    const Studio studio = own.read();
    REQUIRE(studio.card.jars.size() == 1);
    CHECK(in_grams(*studio.card.jars[0].left) == Approx(24.0 - 3.0));
}
