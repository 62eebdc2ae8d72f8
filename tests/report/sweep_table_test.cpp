#include "lakebound/report/sweep_table.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>

#include <nlohmann/json.hpp>

#include "lakebound/report/sweep_json.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

PvcQuestion question(Process process = Process::oil) {
    PvcQuestion asked;
    asked.request = example_request(process);
    asked.request.recipe.vessel.reset();
    asked.request.aim = BinderSufficiency::of(1.35);
    asked.pigment = grams(10.0);
    asked.title = "10.0 g";
    return asked;
}
bool has(const SweepTable& table, const std::string& key) {
    return std::any_of(table.columns.begin(), table.columns.end(), [&](const auto& each) { return each.key == key; });
}

} // namespace

TEST_CASE("Text, CSV and JSON tell one table", "[identity]") {
    const auto subject = pvc_subject(question());
    const auto table = sweep_table(sweep_paint(subject, usual_range(SweepOver::medium, subject)));
    const auto json = nlohmann::json::parse(sweep_json(table));
    CHECK(json.at("kind") == "sweep");
    CHECK(json.at("title") == table.title);
    std::istringstream csv(sweep_csv(table));
    std::string line;
    std::getline(csv, line);
    CHECK(line == "medium_per_pigment,k,pvc,cpvc,reduced_pvc,chance_underbound");
    std::size_t told = 0;
    for (std::size_t i = 0; std::getline(csv, line); ++i, ++told) {
        std::istringstream cells(line);
        for (const auto& each : table.columns) {
            std::string text;
            REQUIRE(std::getline(cells, text, ','));
            CHECK_FALSE(std::abs(std::stod(text) - each.values.at(i)) > 0.0); // to the very double
            CHECK(json.at("columns").at(each.key).at(i).get<double>() == Approx(each.values[i]).epsilon(1e-15));
        }
    }
    CHECK(told == table.columns.front().values.size());
    const auto text = sweep_text(table);
    CHECK_THAT(text, Catch::StartsWith(table.title + "\n\n") && Contains("underbound") && Contains("below 0.1 %"));
    std::istringstream lines(text);
    std::size_t count = 0;
    for (; std::getline(lines, line); ++count)
        CHECK(line.size() <= 80);
    CHECK(count == 2 + 1 + 8);
    // Narrower, its columns are no wider than they need be, and below each other where they do not fit.
    for (const std::size_t width : {60u, 44u, 30u}) {
        std::istringstream narrow(sweep_text(table, width));
        std::size_t blocks = 0, heads = 0;
        for (std::string each; std::getline(narrow, each);) {
            if (each.find("g/g") != std::string::npos && each.find("Over") == std::string::npos) ++blocks;
            for (const char* head : {" PVC", "CPVC", "Lambda", "underbound"})
                heads += each.find(head) != std::string::npos ? 1 : 0;
            if (each.find("Over") == std::string::npos) CHECK(each.size() <= width);
        }
        CHECK(blocks == (width == 60 ? 1u : width == 44 ? 2u : 3u));
        CHECK(heads == 4);
    }
    // Without a density there is no concentration by volume.
    auto unknown = question();
    unknown.density_known = false;
    const auto bare = sweep_table(sweep_paint(pvc_subject(unknown), {SweepOver::medium, 0.5, 1.0, 2}));
    CHECK_FALSE(has(bare, "pvc"));
    CHECK_FALSE(has(bare, "reduced_pvc"));
    CHECK(has(bare, "chance_underbound"));
}

TEST_CASE("Every curve has a heading, and its key is its unit's", "[unit]") {
    SweepAnswer all;
    for (const auto& row : WordTable<SweepFigure>::rows)
        all.curves.push_back({row.value, {1.0, 2.0}});
    const auto table = sweep_table(all);
    REQUIRE(table.columns.size() == std::size(WordTable<SweepFigure>::rows));
    std::set<std::string> headings;
    for (const auto& each : table.columns) {
        CHECK_FALSE(each.heading.empty());
        CHECK(each.key.find(' ') == std::string::npos);
        headings.insert(each.heading);
    }
    CHECK(headings.size() == table.columns.size());
    CHECK(has(table, "binder_demand_ml_per_g"));
    CHECK(has(table, "extender_mass_fraction"));
    CHECK(sweep_table({.over = SweepOver::extender}).title != sweep_table({.over = SweepOver::size_ratio}).title);
}
