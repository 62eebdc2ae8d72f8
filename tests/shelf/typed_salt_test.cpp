#include "lakebound/shelf/typed_salt.hpp"

#include <catch2/catch.hpp>

#include "faults_of.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;

namespace {

Library shelf_of_salts() { return Library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}}); }

template <class Code> std::string first_id(Code&& code) {
    const auto faults = faults_of(std::forward<Code>(code));
    return faults.empty() ? std::string() : faults.front().id;
}

} // namespace

TEST_CASE("a trade name that means two salts is asked about, not guessed", "[errors]") {
    Library library = shelf_of_salts();
    CHECK(named_salt(library, "--alkali", "soda-ash").id == "soda-ash");
    CHECK(named_salt(library, "--alkali", "Soda Ash").id == "soda-ash"); // its name
    CHECK(named_salt(library, "--alkali", "whiting").id == "chalk");     // the only one sold so
    for (const char* name : {"washing soda", "soda", "potash", "alum", "aluminium sulphate", "aluminium acetate"}) {
        INFO(name);
        const auto faults = faults_of([&] { named_salt(library, "--alkali", name); });
        REQUIRE(faults.size() == 1);
        CHECK(faults.front().id == "salt-hydrate");
        CHECK_THAT(faults.front().hint, Catch::Contains("(") && Catch::Contains("which-soda-have-i-got"));
    }
    CHECK(first_id([&] { named_salt(library, "--alkali", "sodaash"); }) == "id-unknown");
}

TEST_CASE("a salt and its mass", "[unit]") {
    Library library = shelf_of_salts();
    const auto typed = typed_salt(library, "--alum", "potash-alum, 50 g");
    CHECK(typed.salt->id == "potash-alum");
    CHECK(in_grams(typed.mass) == Approx(50.0));
    CHECK(first_id([&] { typed_salt(library, "--alum", "50 g"); }) == "salt-typed");
    CHECK(first_id([&] { typed_salt(library, "--alum", "potash-alum, 50"); }) == "unit-missing");
    CHECK(first_id([&] { typed_salt(library, "--alum", "potash-alum, -5 g"); }) == "out-of-range");
    // A volume of powder without its bulk density.
    CHECK(first_id([&] { typed_salt(library, "--alum", "potash-alum, 3 tsp"); }) == "salt-typed");
    CHECK(first_id([&] { typed_salt(library, "--alum", "potash-alum, 30 mL"); }) == "salt-typed");
}

TEST_CASE("a strength says of what", "[unit]") {
    CHECK(typed_strength("--strength", "10 % w/v").basis == StrengthBasis::by_volume);
    CHECK(typed_strength("--strength", "10 % w/w").basis == StrengthBasis::by_mass);
    const auto per_water = typed_strength("--strength", "8 g per 100 mL water");
    CHECK(per_water.basis == StrengthBasis::per_water);
    CHECK(per_water.value == Approx(.08));
    for (const char* text : {"10 %", "10", "strong", "10 % v/v", "40 % w/v", "0 % w/v", "10 per 100 mL water"})
        CHECK(first_id([&] { typed_strength("--strength", text); }) == "strength-form");
}

TEST_CASE("a salt goes by its name in any hand", "[unit]") {
    Library library = shelf_of_salts();
    CHECK(named_salt(library, "--alum", "potash_alum").id == "potash-alum");
    const std::string name = library.salt("potash-alum").name; // as its file has it
    CHECK(named_salt(library, "--alum", name).id == "potash-alum");
}
