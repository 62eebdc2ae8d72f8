#include "lakebound/shelf/salt_file.hpp"

#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/library.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;

namespace {

Library shipped_salts() { return Library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}}); }

Salt read(const std::string& text) { return read_salt(load_document("salt.yaml", text), "salt"); }
const std::string soda = "kind: salt\nname: Soda\nformula: Na2CO3.10H2O\nwater_of_crystallisation: 10\norigin: definition\n"
                         "gives: {sodium: 2, carbonate: 1}\n";

template <class Code> std::string first_id(Code&& code) {
    const auto faults = faults_of(std::forward<Code>(code));
    return faults.empty() ? std::string() : faults.front().id;
}

} // namespace

TEST_CASE("a salt is read with its solubility and what it is sold as", "[unit]") {
    const Salt salt = read(soda + "trade_names: [washing soda]\nhazards: [eye irritant]\nsolubility:\n  origin: memory\n"
                                  "  source: a handbook\n  points:\n    - {at: 0 degC, in_100_g_water: 21 g}\n"
                                  "    - {at: 20 degC, in_100_g_water: 90 g}\n");
    CHECK(salt.hydrate_water == Approx(10.0));
    CHECK(salt.gives[Ion::sodium] == Approx(2.0));
    CHECK(*solubility_at(salt, degrees_celsius(10)) == Approx(.555));
    CHECK(salt.hazards.size() == 1);
    CHECK(salt.trade_names == std::vector<std::string>{"washing soda"});
}

TEST_CASE("a salt that contradicts itself is refused", "[errors]") {
    CHECK(first_id([] { read("kind: salt\nname: S\nformula: Na2CO3\nwater_of_crystallisation: 10\norigin: definition\ngives: {sodium: 2, carbonate: 1}\n"); }) ==
          "salt-formula");
    CHECK(first_id([] { read("kind: salt\nname: S\nformula: Na2XO3\nwater_of_crystallisation: 0\norigin: definition\ngives: {sodium: 2, carbonate: 1}\n"); }) ==
          "salt-formula");
    CHECK(first_id([] { read("kind: salt\nname: S\nformula: Na2CO3\nwater_of_crystallisation: 0\norigin: definition\ngives: {sodium: 2, magnesium: 1}\n"); }) ==
          "key-unknown");
    CHECK(first_id([] {
              read(soda + "solubility:\n  origin: memory\n  source: a handbook\n  points:\n    - {at: 20 degC, in_100_g_water: 90 g}\n"
                          "    - {at: 0 degC, in_100_g_water: 21 g}\n");
          }) == "salt-solubility");
    CHECK(first_id([] { read("kind: salt\nname: S\nformula: NaCl\nwater_of_crystallisation: 0\ngives: {sodium: 1, chloride: 1}\n"); }) ==
          "key-missing"); // where its formula is from
}

TEST_CASE("shipped salts hold the aluminium and the base of the published table", "[reference]") {
    // Domain brief B.1, own computation there: mmol of aluminium per gram of salt.
    Library library = shipped_salts();
    const std::vector<std::pair<const char*, double>> rows{{"potash-alum", 2.108}, {"ammonium-alum", 2.206}, {"soda-alum", 2.182},
        {"aluminium-sulphate-dry", 5.846}, {"aluminium-sulphate-14", 3.365}, {"aluminium-sulphate-16", 3.173},
        {"aluminium-sulphate-18", 3.001}, {"aluminium-triacetate", 4.899}, {"basic-aluminium-acetate", 6.170}, {"aluminium-chloride", 4.142}};
    for (const auto& [id, mmol] : rows) {
        INFO(id);
        CHECK(ions_of(library.salt(id), grams(1))[Ion::aluminium] * 1e3 == Approx(mmol).margin(.0006));
    }
}
