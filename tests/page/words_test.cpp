#include <catch2/catch.hpp>

#include "lakebound/page/words.hpp"

using namespace lakebound::page;

TEST_CASE("words are put together from text and emphasis", "[unit]") {
    const Words words = strong("Before you begin:") + " mask on" + std::string(", ") + code("--zone") + ".";
    CHECK(words.plain() == "Before you begin: mask on, --zone.");
    REQUIRE(words.spans().size() == 4);
    CHECK(words.spans()[0].style == Style::strong);
    CHECK(words.spans()[1].text == " mask on, ");
    CHECK(words.spans()[2].style == Style::code);
    CHECK(Words("").empty());
}

TEST_CASE("words added to themselves are there twice", "[unit]") {
    Words words = "ha";
    words += words;
    CHECK(words.plain() == "haha");
}
