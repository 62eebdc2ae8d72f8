#include <catch2/catch.hpp>

#include "lakebound/material/name.hpp"

using namespace lakebound;

TEST_CASE("Names are cut and made small for a sentence", "[unit]") {
    CHECK(short_name("Gum arabic, powder") == "Gum arabic");
    CHECK(short_name("Lead white (basic lead carbonate)") == "Lead white");
    CHECK(short_name("Honey") == "Honey");
    CHECK(name_in_sentence("Egg yolk, hen, fresh") == "egg yolk");
    CHECK(name_in_sentence("CMC, powder") == "CMC");
}

TEST_CASE("Vessels are counted", "[unit]") {
    CHECK(counted_name(1, "Half pan") == "1 half pan");
    CHECK(counted_name(5, "Half pan") == "5 half pans");
    CHECK(counted_name(1, "Tube, 15 mL") == "1 tube of 15 mL");
    CHECK(counted_name(2, "Small jar, 10 mL") == "2 small jars of 10 mL");
    CHECK(counted_name(3, "Paint box") == "3 paint boxes");
}

TEST_CASE("Names of one letter, of none and with odd ends", "[unit]") {
    CHECK(short_name(", powder") == ", powder");
    CHECK(short_name("Gum  (tears)") == "Gum");
    CHECK(name_in_sentence("A") == "A");
    CHECK(name_in_sentence("AZ") == "AZ"); // the second capital marks it
    CHECK(name_in_sentence("CMc") == "CMc");
    CHECK(name_in_sentence("BA grade") == "BA grade"); // from the first letter of the alphabet
    CHECK(name_in_sentence("PZ grade") == "PZ grade"); // to the last
    CHECK(name_in_sentence("Zinc white") == "zinc white");
    CHECK(name_in_sentence("Alum") == "alum");
    CHECK(name_in_sentence("A4") == "a4");
    CHECK(name_in_sentence("5 mL cup") == "5 mL cup");
    CHECK(name_in_sentence("[odd]") == "[odd]");
    CHECK(counted_name(0, "Dish") == "0 dishes");
    CHECK(counted_name(2, "Glass") == "2 glasses");
    CHECK(counted_name(2, "Patch") == "2 patches");
    CHECK(counted_name(2, "s") == "2 ses");
}
