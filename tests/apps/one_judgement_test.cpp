// One paint, one judgement: batch and pvc say the same of the same paint, over every shipped recipe.

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "lakebound/shelf/library.hpp"
#include "run.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;
using nlohmann::json;

namespace {

std::string upper(std::string text) {
    for (auto& c : text)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return text;
}

/// The line of the verdict: the first that names k.
std::string verdict_line(const std::string& text) {
    const auto end = text.find('\n', text.find("   k "));
    return text.substr(text.rfind('\n', end - 1) + 1, end - text.rfind('\n', end - 1) - 1);
}

} // namespace

TEST_CASE("batch, pvc and pvc on batch's weigh sheet judge one paint once", "[identity]") {
    const std::string shelf = LAKEBOUND_FORMULATIONS_DIR;
    const Library library({{shelf, "test", true}});
    std::size_t paints = 0;
    for (const auto& recipe : library.ids(ShelfKind::recipe))
        for (const char* jar : {"weld", "madder"})
            for (const char* k : {"0.85", "0.95", "1.00", "1.4", "2.4", "2.6"}) {
                INFO(recipe << " of " << jar << " at k " << k);
                std::vector<std::string> arguments{recipe,  "--k",     k,         "--pigment", "8 g",
                                                   "--shelf", shelf, "--bench", studio("bench.yaml")};
                if (recipe.rfind("lake", 0) == 0) // the others name a pigment of the shelf
                    arguments.insert(arguments.end(),
                                     {"--jar", studio("jars/" + std::string(jar) + ".yaml")});
                const auto sheet = batch(and_also(arguments, {"--json"}));
                REQUIRE((sheet.status == 0 || sheet.status == 1));
                const auto made = json::parse(sheet.out).at("batch");
                const std::vector<std::string> again{"-", "--shelf", shelf, "--bench", studio("bench.yaml")};
                const auto check = pvc(and_also(again, {"--json"}), sheet.out);
                const auto checked = json::parse(check.out);
                CHECK(check.status == sheet.status);
                CHECK(made.at("holds") == (sheet.status == 0));
                for (const char* key : {"verdict", "verdict_words", "certainty", "holds"})
                    CHECK(made.at(key) == checked.at(key));
                // The sheet's masses are read back by subtraction: nine digits and more stay.
                CHECK(made.at("as_weighed").at("k").at("value").get<double>() ==
                      Approx(checked.at("k").at("value").get<double>()).epsilon(1e-9));
                // A spread that the sheet holds as a standard uncertainty comes back as a lognormal one, and
                // weighing is that of the masses as rounded: a thousandth of a chance.
                for (const char* key : {"underbound", "below_green", "in_window", "above_green", "above_amber"})
                    CHECK(made.at("chance").at(key).get<double>() ==
                          Approx(checked.at("chance").at(key).get<double>()).margin(0.002));
                // What a person reads is what a program reads.
                const auto text = batch(arguments).out, report = pvc(again, sheet.out).out;
                CHECK(verdict_line(text) == verdict_line(report));
                CHECK_THAT(verdict_line(text), Contains(upper(made.at("verdict_words").get<std::string>())));
                ++paints;
            }
    CHECK(paints >= 120);
}

TEST_CASE("a maker's own test counts in both commands", "[cli]") {
    const TempDir own;
    own.write("tests/rub-out.yaml", "kind: bench test\nname: Rub-out by my machine\nduration: 1 min\n"
                                    "improves: oil absorption\nspread_after: {value: 0.02, origin: measured}\n");
    const std::vector<std::string> shelves{"--shelf", own.path().string(), "--shelf", LAKEBOUND_FORMULATIONS_DIR,
                                           "--json"};
    const auto minutes_of = [](const json& tests) {
        for (const auto& test : tests)
            if (test.at("id") == "rub-out") return test.at("duration_min").get<double>();
        return 0.0;
    };
    const auto made = json::parse(
        batch(and_also({"lake-oil-tube", "--jar", studio("jars/madder.yaml"), "--pigment", "5 g"}, shelves)).out);
    const auto checked = json::parse(
        pvc(and_also({"lake-oil-tube", "--jar", studio("jars/madder.yaml"), "--total", "5 g"}, shelves)).out);
    CHECK(minutes_of(made.at("batch").at("measure_next").at("tests")) == Approx(1.0));
    CHECK(minutes_of(checked.at("measure_next").at("tests")) == Approx(1.0));
    CHECK(made.at("batch").at("measure_next").at("recommended") == "rub-out");
    CHECK(checked.at("measure_next").at("recommended") == "rub-out");
}

TEST_CASE("where neither maker nor recipe aims, both commands aim where the window is likeliest met", "[cli]") {
    const TempDir own;
    own.write("recipes/no-aim.yaml", "kind: recipe\nname: No aim\nfamily: oil\npigments:\n"
                                     "  - {pigment: alumina-lake, share: 50 % w/w}\n"
                                     "  - {pigment: ultramarine, share: 50 % w/w}\n"
                                     "medium: linseed\nsource: {origin: estimate}\n");
    const std::vector<std::string> shelves{"--shelf", own.path().string(), "--shelf", LAKEBOUND_FORMULATIONS_DIR,
                                           "--json"};
    const auto made = json::parse(batch(and_also({"no-aim", "--pigment", "10 g"}, shelves)).out).at("batch");
    const auto checked = json::parse(pvc(and_also({"no-aim", "--total", "10 g"}, shelves)).out);
    const double aim = made.at("chance").at("likeliest_aim_k").get<double>();
    CHECK(made.at("as_computed").at("k").at("value").get<double>() == Approx(aim).margin(0.001));
    CHECK(checked.at("k").at("value").get<double>() == Approx(aim).margin(0.001));
    CHECK(aim > 1.35); // not at the left, where the family begins
    CHECK(made.at("chance").at("in_window").get<double>() ==
          Approx(made.at("chance").at("in_window_at_likeliest_aim").get<double>()).margin(0.002));
}
