#include "lakebound/quantity/word_table.hpp"

#include <catch2/catch.hpp>

#include "lakebound/estimate/provenance.hpp"
#include "lakebound/particle/size_fit.hpp"

using namespace lakebound;

TEST_CASE("a word goes to its value and back, and JSON has it with underscores", "[unit]") {
    CHECK(word_of(Origin::common_practice) == "common practice");
    CHECK(key_of(Origin::common_practice) == "common_practice");
    CHECK(key_of(SizeModel::rosin_rammler) == "rosin_rammler"); // "Rosin-Rammler"
    CHECK(value_of_word<Origin>("common practice") == Origin::common_practice);
    CHECK(value_of_word<SizeModel>("Rosin-Rammler") == SizeModel::rosin_rammler);
    CHECK_FALSE(value_of_word<Origin>("Common practice"));
    CHECK_FALSE(value_of_word<Origin>("common"));
    CHECK_FALSE(value_of_word<Origin>(""));
    CHECK(word_of(static_cast<Origin>(77)).empty());
    STATIC_REQUIRE(HasWords<Origin>);
    STATIC_REQUIRE_FALSE(HasWords<int>);
}
