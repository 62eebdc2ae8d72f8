#include <catch2/catch.hpp>

#include <filesystem>
#include <sstream>

#include <nlohmann/json.hpp>

#include "bath.hpp"
#include "run.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;
using Catch::StartsWith;
using Json = nlohmann::json;

namespace {

Run bath(const std::vector<std::string>& arguments, const std::string& input = {}) {
    return run_on_shelf(run_bath, arguments, input);
}
const std::vector<std::string> madder_bath{"--plant", "100 g dry root", "--alum", "potash-alum, 50 g", "--alkali", "soda-ash",
                                      "--water", "3.0 L", "--vessel", "12 L"};
Json json(const std::vector<std::string>& arguments) {
    const auto run = bath(and_also(arguments, {"--json"}));
    INFO(run.err);
    REQUIRE(run.status == 0);
    return Json::parse(run.out);
}

} // namespace

TEST_CASE("A bath sheet in the order of the work", "[cli]") {
    const auto run = bath(madder_bath);
    CHECK(run.status == 0);
    CHECK(run.err.empty());
    std::size_t last = 0;
    for (const char* part : {"IN SHORT", "1. THE DYE LIQUOR", "2. SOLUTIONS TO MAKE UP", "3. LAY THE LAKE", "IF IT WENT WRONG",
                             "4. SETTLE AND WASH", "5. DRY, AND JAR", "6. WRITE DOWN", "CAUTIONS"}) {
        INFO(part);
        const auto at = run.out.find(part);
        REQUIRE(at != std::string::npos);
        CHECK(at >= last);
        last = at;
    }
    CHECK_THAT(run.out, StartsWith("BATH SHEET: ") && Contains("Never a lid on it") && Contains("safety data sheet") &&
                            Contains("KAl(SO4)2.12H2O") && Contains("49 % over"));
    std::istringstream lines(run.out);
    for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 86); // bytes; 80 columns
}

TEST_CASE("What the plan says in numbers", "[cli]") {
    const auto plan = json(madder_bath);
    CHECK(plan["kind"] == "bath_plan");
    CHECK(plan["book_alkali_g"].get<double>() == Approx(16.757).margin(.002));
    CHECK(plan["alkali_needed"]["low_g"].get<double>() < plan["alkali_needed"]["middle_g"].get<double>());
    CHECK(plan["lake"]["density_g_per_cm3"]["value"].get<double>() == Approx(1.78).margin(.06));
    CHECK(plan["half_measure_excess"].get<double>() == Approx(.492).margin(.002));
    CHECK_FALSE(plan["curves"]["hydroxide"][0].contains("ph")); // nothing is said of strong alum
    const auto crystals = json({"--alum", "potash-alum, 50 g", "--alkali", "soda-crystals", "--water", "1.5 L"});
    CHECK(crystals["book_alkali_g"].get<double>() == Approx(16.757 * 286.141 / 105.988).margin(.02)); // 37 %
}

TEST_CASE("Where a bath stands", "[cli]") {
    const auto poured = [&](const std::vector<std::string>& readings) { return json(and_also(madder_bath, readings)); };
    const auto fizzing = poured({"--poured", "115 mL", "--ph", "5.2, strip, fizzing"});
    CHECK(fizzing["stage"] == "laying");
    CHECK(fizzing["next"] == "stir_and_read");
    const auto over = poured({"--poured", "240 mL", "--ph", "8.6, pen", "--ph", "8.7, pen"});
    CHECK(over["next"] == "add_aluminium");
    CHECK(over["alkali"]["add_aluminium_salt_g"].get<double>() > 5.0);
    const auto impossible = poured({"--poured", "40 mL", "--ph", "9.0, pen", "--ph", "9.0, pen"});
    CHECK(impossible["next"] == "look_at_the_salt"); // told as such
    const auto dry = poured({"--poured", "143 mL", "--ph", "6.6, pen", "--ph", "6.6, pen", "--drying", "38.6 g, 24.9 g, 17.9 g every 24 h"});
    CHECK(dry["stage"] == "drying");
    CHECK(dry["drying"]["end_g"].get<double>() == Approx(10.6).margin(.8)); // domain brief D: 10.59 through the three
    const auto text = bath(and_also(madder_bath, {"--poured", "115 mL", "--ph", "5.2, strip, fizzing"}));
    CHECK_THAT(text.out, StartsWith("BATH: laying the lake\n") && Contains("STILL IN DOUBT"));
}

TEST_CASE("A bath from its file, and a jar out of it that a recipe takes", "[cli]") {
    const auto run = bath({studio("baths/madder.yaml")});
    INFO(run.err);
    CHECK(run.status == 0);
    CHECK_THAT(run.out, StartsWith("BATH: washing\n"));
    const TempDir folder;
    const InFolder here(folder.path());
    const auto jarred = bath(and_also(madder_bath, {"--poured", "143 mL", "--ph", "6.6, pen", "--ph", "6.6, pen", "--jar", "madder-two",
                                               "--weighed", "10.4 g", "--date", "2026-11-20"}));
    INFO(jarred.err);
    REQUIRE(jarred.status == 0);
    REQUIRE(std::filesystem::exists("jars/madder-two.yaml"));
    const auto sheet = run_on_shelf(run_batch, {"lake-oil-tube", "--jar", "jars/madder-two.yaml", "--pigment", "4 g"});
    INFO(sheet.err);
    CHECK(sheet.status != 2);
    check_refused(bath(and_also(madder_bath, {"--jar", "madder-two"})), "write-exists");
}

TEST_CASE("A fault in a bath's file stands at its key", "[errors]") {
    const auto run = bath({"-"}, "kind: bath\nname: B\nalum: potash-alum, 50 g\nalkali: washing soda\n");
    check_refused(run, "salt-hydrate", "soda-crystals");
    CHECK_THAT(run.err, Contains(":4:"));
    check_refused(bath({"-"}, "kind: bath\nname: B\nalum: potash-alum, 50 g\nalkali: soda-ash\nstrength: 10 %\n"), "strength-form");
}
