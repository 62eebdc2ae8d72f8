#include <catch2/catch.hpp>

#include "lakebound/quantity/nearest.hpp"

using lakebound::edit_distance;
using lakebound::nearest_names;
using Names = std::vector<std::string>;

TEST_CASE("edit distance of textbook pairs", "[unit]") {
    // kitten/sitting and Saturday/Sunday: Wagner and Fischer's measure, worked in any textbook.
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("saturday", "sunday") == 3);
    CHECK(edit_distance("", "weld") == 4);
    CHECK(edit_distance("weld", "") == 4);
    CHECK(edit_distance("weld", "weld") == 0);
    CHECK(edit_distance("wled", "weld") == 1); // neighbours swapped
    CHECK(edit_distance("ca", "abc") == 3);    // optimal string alignment, not unrestricted Damerau
}

TEST_CASE("edit distance is symmetric and obeys its bounds", "[unit]") {
    const Names words = {"", "g", "gum", "gum-arabic", "madder", "mader", "oil_absorption", "\xC2\xB5g"};
    for (const auto& a : words)
        for (const auto& b : words) {
            const std::size_t d = edit_distance(a, b);
            CHECK(d == edit_distance(b, a));
            CHECK((d == 0) == (a == b));
            CHECK(d <= std::max(a.size(), b.size()));
            CHECK(d >= std::max(a.size(), b.size()) - std::min(a.size(), b.size()));
        }
}

TEST_CASE("nearest names of mistyped keys", "[unit]") {
    const Names keys = {"name", "net_mass", "density", "density_state", "oil_absorption", "moisture", "note"};
    CHECK(nearest_names("densty", keys) == Names{"density"});
    CHECK(nearest_names("Density", keys).front() == "density");
    CHECK(nearest_names("oil-absorption", keys) == Names{"oil_absorption"});
    CHECK(nearest_names("oil absorbtion", keys) == Names{"oil_absorption"});
    CHECK(nearest_names("nmae", keys) == Names{"name"});
    CHECK(nearest_names("vessel", keys).empty());
    CHECK(nearest_names("", keys).empty());
    CHECK(nearest_names(std::string(100000, 'x'), keys).empty());
}

TEST_CASE("nearest names: nearest first, equals in the order given, no more than asked", "[unit]") {
    const Names names = {"madder-pale", "rose-madder", "madders", "mudder", "madder"};
    CHECK(nearest_names("madder", names, 5) ==
          Names{"madder", "madders", "mudder", "madder-pale", "rose-madder"});
    CHECK(nearest_names("madder", names, 2) == Names{"madder", "madders"});
    CHECK(nearest_names("madder", names, 0).empty());
}
