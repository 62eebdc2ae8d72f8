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

TEST_CASE("how far a word may be from a name goes with its length", "[unit]") {
    const Names one = {"gum"}, two = {"weld"}, four = {"madder"}, long_one = {"cochineal"};
    CHECK(nearest_names("g", Names{"h"}).empty()); // one letter is no slip of another
    CHECK(nearest_names("g", Names{"g"}) == Names{"g"});
    CHECK(nearest_names("gm", one) == one);
    CHECK(nearest_names("gxx", one).empty());
    CHECK(nearest_names("wold", two) == two);
    CHECK(nearest_names("wodl", Names{"weld"}).empty()); // two edits in four letters
    CHECK(nearest_names("wolld", two) == two);           // five letters: two edits
    CHECK(nearest_names("mudderr", four) == four);
    CHECK(nearest_names("muddarr", four).empty()); // three edits in seven
    CHECK(nearest_names("koshinea", long_one).empty()); // three edits in eight
    CHECK(nearest_names("koshineal", long_one) == long_one); // two in nine
    CHECK(nearest_names("koshineel", long_one) == long_one); // three
    CHECK(nearest_names("koshineelx", long_one).empty());
    // Parts of a name, from three letters on, whole parts only.
    CHECK(nearest_names("oil", Names{"linseed-oil-stand"}) == Names{"linseed-oil-stand"});
    CHECK(nearest_names("lin", Names{"linseed-oil-stand"}) == Names{"linseed-oil-stand"}); // its beginning
    CHECK(nearest_names("li", Names{"linseed-oil-stand"}).empty());
    CHECK(nearest_names("see", Names{"linseed-oil-stand"}).empty());
    CHECK(nearest_names("stand", Names{"linseed-oil-stand", "stand-oil-linseed"}).size() == 2);
    CHECK(nearest_names(std::string(128, 'x'), Names{std::string(128, 'x')}).size() == 1);
    CHECK(nearest_names(std::string(129, 'x'), Names{std::string(129, 'x')}).empty());
    CHECK(nearest_names("MADDER LAKE", Names{"madder_lake"}) == Names{"madder_lake"});
    CHECK(nearest_names("a b c d", Names{"a_b_c_d"}) == Names{"a_b_c_d"});
    CHECK(nearest_names("a-b-c-d", Names{"a b c d"}) == Names{"a b c d"});
    CHECK(nearest_names("ZINC", Names{"zinc"}) == Names{"zinc"}); // to the last letter of the alphabet
    CHECK(nearest_names("AAAA", Names{"aaaa"}) == Names{"aaaa"}); // and from the first
    CHECK(nearest_names("ZZZZ", Names{"zzzz"}) == Names{"zzzz"});
    // Without a number asked for, three.
    CHECK(nearest_names("weld", Names{"weld", "welds", "weldy", "welda"}).size() == 3);
    CHECK(edit_distance("ab", "ba") == 1);
    CHECK(edit_distance("xab", "yba") == 2);
    CHECK(edit_distance("abcd", "badc") == 2);
}
