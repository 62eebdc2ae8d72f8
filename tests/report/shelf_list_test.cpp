#include "lakebound/report/shelf_list.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "lakebound/page/text_writer.hpp"

using namespace lakebound;

TEST_CASE("What lies on the shelf is listed by kind, by id and by name", "[unit]") {
    const std::vector<ListedKind> groups{{"recipes", {{"lake-pans", "Lake in pans"}, {"lake-tube", "Lake in a tube"}}},
                                         {"pigments", {{"weld", "Weld lake"}}},
                                         {"vessels", {}}};
    const auto page = shelf_list_page(groups);
    REQUIRE(page.sections.size() == 3);
    CHECK(page.sections[0].heading == "recipes");
    const auto& table = std::get<page::Table>(page.sections[0].blocks.at(0).is);
    CHECK(table.caption == "recipes");
    REQUIRE(table.rows.size() == 2);
    const auto text = page::write_text(page, {});
    for (const char* word : {"lake-pans", "Lake in pans", "lake-tube", "weld", "Weld lake"})
        CHECK_THAT(text, Catch::Contains(word));
    const auto json = nlohmann::json::parse(shelf_list_json(groups));
    CHECK(json.at("kind") == "shelf_list");
    CHECK(json.at("schema_version") == 1);
    CHECK(json.at("recipes").at(1).at("id") == "lake-tube");
    CHECK(json.at("pigments").at(0).at("name") == "Weld lake");
    CHECK(json.at("vessels").empty());
    CHECK(json.at("vessels").is_array());
}

TEST_CASE("What is in a file of the shelf is told to programs as it is written, and nothing that is not there", "[unit]") {
    const std::vector<ListedFile> files{{"medium", "Gum water", "/shelf/media/gum-water.yaml", "Keeps a week.",
                                         {{"parts", "ingredient gum, parts 1", "published", "a-book", ""},
                                          {"source", "", "memory", "", "as taught"}}}};
    const auto json = nlohmann::json::parse(shelf_files_json("gum-water", files));
    CHECK(json.at("kind") == "shelf_files");
    CHECK(json.at("id") == "gum-water");
    const auto& file = json.at("files").at(0);
    CHECK(file.at("kind") == "medium");
    CHECK(file.at("path") == "/shelf/media/gum-water.yaml");
    CHECK(file.at("note") == "Keeps a week.");
    CHECK(file.at("figures").at(0).dump() ==
          R"({"key":"parts","origin":"published","source":"a-book","text":"ingredient gum, parts 1"})");
    CHECK(file.at("figures").at(1).dump() == R"({"key":"source","note":"as taught","origin":"memory"})");
}
