#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "run.hpp"
#include "sieve.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;
using Catch::StartsWith;

namespace {

Run sieve(const std::vector<std::string>& arguments, const std::string& input = {}) {
    return run_on_shelf(run_sieve, arguments, input);
}
const std::string weld = studio("sieve-tests/weld-15-min.yaml");

} // namespace

TEST_CASE("A sieve test is read, with and without a target", "[cli]") {
    const auto plain = sieve({weld});
    CHECK(plain.status == 0);
    CHECK(plain.err.empty());
    CHECK_THAT(plain.out,
               StartsWith("SIEVE TEST: Weld lake, 15 min in the mortar\n") && Contains("Rosin-Rammler"));
    const auto judged = sieve({weld, "--family", "watercolour-pan"});
    CHECK(judged.status == 1);
    CHECK(judged.err.empty());
    CHECK_THAT(judged.out,
               Contains("NO, TOO COARSE") && Contains("0.5 % may (estimate)") &&
                   Contains("72.1 % lies over 45 um") &&
                   Contains("\n    lakebound-settle --depth \"100 mm\" --cut \"25 um\" --density "));
    CHECK(sieve({weld, "--target", "No. 100", "--residue", "30 %"}).status == 0);
    CHECK(sieve({studio("sieve-tests/weld-washed.yaml"), "--family", "oil"}).status == 0);
}

TEST_CASE("The same test as YAML, as a table and from standard input answers alike", "[identity]") {
    const auto yaml = sieve({weld, "--json"});
    const auto table = sieve({studio("sieve-tests/weld-15-min.csv"), "--json"});
    CHECK(yaml.status == 0);
    CHECK(yaml.out == table.out);
    CHECK(sieve({"-", "--json"}, read_bytes(weld)).out == yaml.out);
    CHECK(sieve({"-", "--json"}, read_bytes(studio("sieve-tests/weld-15-min.csv"))).out == yaml.out);
}

TEST_CASE("Every family on the shelf has a target that a sieve test can be held to", "[cli]") {
    for (const std::string family : {"watercolour-pan", "watercolour-tube", "gouache", "oil", "egg-tempera"}) {
        const auto run = sieve({weld, "--family", family, "--json"});
        INFO(run.err);
        CHECK(run.status == 1);
        CHECK(nlohmann::json::parse(run.out).at("target").at("family") == family);
    }
}

TEST_CASE("The density for the surface can be given", "[cli]") {
    const auto half = nlohmann::json::parse(sieve({weld, "--json", "--density", "0.93 g/cm3"}).out);
    const auto whole = nlohmann::json::parse(sieve({weld, "--json"}).out);
    CHECK(half.at("surface").at("at_least_m2_per_kg").get<double>() ==
          Approx(2.0 * whole.at("surface").at("at_least_m2_per_kg").get<double>()));
}

TEST_CASE("Wrong questions to lakebound-sieve are refused", "[cli]") {
    check_refused(sieve({}), "test-missing");
    check_refused(sieve({"no-such.yaml"}), "file-missing");
    check_refused(sieve({weld, "--family", "oils"}), "id-unknown");
    check_refused(sieve({weld, "--family", "oil", "--target", "45 um"}), "option-conflict");
    check_refused(sieve({weld, "--residue", "1 %"}), "target-missing");
    check_refused(sieve({weld, "--target", "200 mesh"}), "sieve-mesh");
    check_refused(sieve({weld, "--target", "45"}), "sieve-mesh");
    check_refused(sieve({weld, "--target", "45 um", "--residue", "1"}), "unit-missing");
    check_refused(sieve({weld, "--target", "45 um", "--residue", "0 %"}), "out-of-range");
    check_refused(sieve({weld, "--density", "1.88 g"}), "unit-dimension");
    check_refused(sieve({"-"}, "screen,mass\n75 um,1,5 g\npan,2 g\n"), "number-comma");
    check_refused(sieve({studio("jars/weld.yaml")}), "kind-wrong");
}
