#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sstream>

#include <nlohmann/json.hpp>

#include "bath.hpp"
#include "batch.hpp"
#include "jar.hpp"
#include "pvc.hpp"
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
    CHECK_THAT(run.out, StartsWith("BATH: madder, washing\n"));
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

namespace {

/// A maker's own folder with the shipped shelf behind it.
struct OwnBaths {
    TempDir folder;
    InFolder here{folder.path()};

    OwnBaths() { std::filesystem::copy_file(shipped("studios/reedmere/bench.yaml"), "bench.yaml"); }
    Json told(const std::vector<std::string>& arguments) const { return json(and_also({"madder"}, arguments)); }
    void begin() const {
        const auto sheet = bath(and_also({"madder", "--new", "--date", "2026-05-04"}, madder_bath));
        INFO(sheet.err);
        REQUIRE(sheet.status == 0);
        CHECK_THAT(sheet.out, Contains("Begun: baths/madder.yaml."));
    }
};

std::size_t entries_of_madder() {
    std::error_code none;
    const std::filesystem::directory_iterator all("baths/madder", none);
    return none ? 0 : static_cast<std::size_t>(std::distance(all, std::filesystem::directory_iterator()));
}

} // namespace

TEST_CASE("From the sheet to the weigh sheet, entry by entry", "[cli]") {
    const OwnBaths own;
    own.begin();
    CHECK(own.told({})["kind"] == "bath_plan"); // nothing was read of it yet
    auto at = own.told({"--poured", "115 mL", "--ph", "5.4, pen, fizzing", "--date", "2026-05-04"});
    CHECK(at["next"] == "stir_and_read");
    CHECK(at["kept"] == "baths/madder/2026-05-04-02-ph.yaml");
    at = own.told({"--poured", "28 mL", "--ph", "6.6, pen", "--date", "2026-05-04"});
    CHECK(at["next"] == "stir_and_read"); // once is not at rest
    at = own.told({"--ph", "6.6, pen", "--date", "2026-05-04"});
    CHECK(at["next"] == "settle_and_wash");
    at = own.told({"--colour", "1 in 6", "--date", "2026-05-05"});
    CHECK(at["colour"]["left"].get<double>() == Approx(3.34 / 2.7 / 6).margin(.005));
    // Two washes more, dry on such days, expect so much: one sentence.
    const auto told = bath({"madder", "--wash-water", "120 uS/cm", "--decant", "11900 uS/cm", "--date", "2026-05-05"});
    CHECK_THAT(told.out, Contains("2 washes more, dry on ") && Contains(" May to ") && Contains("by what is usual, expect") && Contains("Kept in baths/madder/"));
    at = own.told({"--decant", "4270 uS/cm", "--date", "2026-05-05"});
    CHECK(at["stage"] == "washing");
    CHECK(at["washing"]["washes_more"] == 1);
    at = own.told({"--decant", "1500 uS/cm", "--date", "2026-05-06"});
    CHECK(at["washing"]["washes_more"] == 0);
    CHECK(at["next"] == "drain_and_dry");
    own.told({"--cake", "38.6 g", "--date", "2026-05-08"});
    at = own.told({"--cake", "24.9 g", "--date", "2026-05-09"});
    CHECK(at["next"] == "weigh_tomorrow");
    CHECK_FALSE(at.contains("dry_on")); // two weighings fit any end
    at = own.told({"--cake", "17.9 g", "--date", "2026-05-10"});
    // 8.3 days after the first (domain brief D): Saturday the 16th, within a day or so.
    CHECK(at["dry_on"]["first"] <= "2026-05-16");
    CHECK(at["dry_on"]["first"] >= "2026-05-15");
    CHECK(at["dry_on"]["last"] >= "2026-05-16");
    CHECK(at["dry_on"]["last"] <= "2026-05-18");
    at = own.told({"--hue", "warm rose, wet; brick red, dry", "--swatch", "12", "--date", "2026-05-18"});
    CHECK(at["kept"] == "baths/madder/2026-05-18-02-swatch.yaml");
    CHECK(at["colour_record"]["hue"] == "warm rose, wet; brick red, dry");
    CHECK(at["colour_record"]["swatch"] == 12);
    CHECK(at["colour_record"]["strike_ph"]["value"].get<double>() == Approx(6.6)); // read, at rest
    check_refused(bath({"madder", "--swatch", "twelve"}), "bath-typed", "12");
    check_refused(bath({"madder", "--hue", " "}), "bath-typed");
    check_refused(bath({"madder", "--jar", "madder-third", "--water-ph", "6.8"}), "bath-typed", "--water-ph \"6.4, pen\"");
    const auto jarred = bath({"madder", "--jar", "madder-third", "--weighed", "10.4 g", "--water-ph", "6.8, pen", "--date", "2026-05-18"});
    INFO(jarred.err);
    REQUIRE(jarred.status == 0);
    CHECK_THAT(jarred.out, Contains("jars/madder-third.yaml") && Contains("dry a gram and weigh it") && !Contains("not at rest"));
    CHECK(own.told({})["stage"] == "jarred");
    // The next bath of this alum is planned by what this one took: 2.56 hydroxides, against 2.6 +- .15 of the shelf.
    const auto next = bath({"weld", "--new", "--alum", "potash-alum, 30 g", "--alkali", "soda-ash", "--water", "1 L"});
    CHECK_THAT(next.out, Contains("By an end point of your own: 2.57 ± 0.08 hydroxides"));
    CHECK_THAT(bath({"other", "--new", "--alum", "ammonium-alum, 30 g", "--alkali", "soda-ash", "--water", "1 L"}).out, !Contains("of your own"));
    const auto sheet = run_on_shelf(run_batch, {"lake-watercolour-half-pans", "--jar", "madder-third", "--pigment", "4 g"});
    INFO(sheet.err);
    CHECK(sheet.status != 2);
    CHECK_THAT(sheet.out, Contains("WEIGH SHEET") && Contains("WHAT ITS BATH LEFT IN THE JAR") && Contains("6.8 ± 0.2"));
    // What the paint makes of it: by hand, benzoate is dead above pH 5.481, (6.8 - 5.481)/.2 = 6.6 standard uncertainties.
    std::filesystem::create_directories("recipes");
    std::ofstream("recipes/kept-pans.yaml") << "kind: recipe\nname: Pans with benzoate\nfamily: watercolour-pan\npigments:\n  - {pigment: jar}\n"
                                               "medium: gum-glycerol-honey\nadditives:\n  - {ingredient: sodium-benzoate, dose: 0.2 % w/w, of: medium}\n"
                                               "working_water: 0.5 mL/g\nvessel: half-pan\nsource:\n  origin: common practice\n";
    const auto kept = run_on_shelf(run_batch, {"kept-pans", "--jar", "madder-third", "--pigment", "4 g", "--json"});
    INFO(kept.err);
    const auto batch = Json::parse(kept.out)["batch"];
    REQUIRE(batch["bath_remains"]["preservatives"].size() == 2);
    CHECK(batch["bath_remains"]["preservatives"][0]["ingredient"] == "sodium-benzoate");
    CHECK(batch["bath_remains"]["preservatives"][0]["in_paint"] == true);
    CHECK(batch["bath_remains"]["preservatives"][1]["in_paint"] == false);
    CHECK(batch["bath_remains"]["preservatives"][0]["chance_dead"].get<double>() > .99);
    CHECK(batch["bath_remains"]["salts"]["provenance"]["source"].get<std::string>().starts_with("computed from the bath: 50.0 g"));
    CHECK_THAT(batch["warnings"].dump(), Contains("preservative_dead") && Contains("keeps nothing from mould"));
    const auto checked = run_on_shelf(run_pvc, {"--pigment", "jar: 4 g", "--jar", "madder-third", "--binder", "gum-glycerol-honey: 10 g", "--json"});
    INFO(checked.err);
    REQUIRE(checked.status != 2);
    CHECK(Json::parse(checked.out)["bath_remains"]["preservatives"].size() == 2);
    const auto card = run_on_shelf(run_jar, {"madder-third"});
    CHECK_THAT(card.out, Contains("warm rose, wet; brick red, dry") && Contains("number 12") && Contains("pH 6.6 ± 0.2") && Contains("pH in water"));
}

TEST_CASE("What cannot be is refused with both places, and no entry is written", "[errors]") {
    const OwnBaths own;
    own.begin();
    own.told({"--cake", "20.0 g", "--date", "2026-05-08"});
    const auto rises = bath({"madder", "--cake", "26.0 g", "--date", "2026-05-09"});
    check_refused(rises, "entry-contradicts", "weigh it again");
    CHECK_THAT(rises.err, Contains("baths/madder/2026-05-08-01-cake.yaml:4:"));
    check_refused(bath({"madder", "--cake", "19 g", "--date", "2099-05-09"}), "date-form");
    check_refused(bath({"madder", "--cake", "19 g", "--date", "2026-05-01"}), "entry-contradicts", "since");
    check_refused(bath({"madder", "--cake", "19 g", "--date", "2026-05-08"}), "entry-contradicts", "--at 08:30");
    check_refused(bath({"madder", "--ph", "15, pen"}), "ph-impossible");
    check_refused(bath({"madder", "--drying", "38.6 g, 24.9 g, 17.9 g every 24 h"}), "bath-typed", "--cake");
    check_refused(bath({"madder", "--vessel", "3 L"}), "option-conflict");
    check_refused(bath({"madder", "--blanket", "100 mm, 62 mm, 10 mm every 2 h"}), "out-of-range");
    check_refused(bath({"mader"}), "id-unknown", "madder");
    check_refused(bath({"--note", "red"}), "option-alone");
    check_refused(bath(and_also({"madder", "--new"}, madder_bath)), "write-exists");
    check_refused(bath(and_also({"weld", "--new", "--poured", "3 mL"}, madder_bath)), "option-unread");
    CHECK(entries_of_madder() == 1);
    // Taken back, the next weighing may be what it is.
    const auto undone = bath({"madder", "--undo", "last", "--date", "2026-05-09"});
    CHECK_THAT(undone.out, Contains("Taken back: 2026-05-08-01-cake."));
    own.told({"--cake", "26.0 g", "--date", "2026-05-09"});
}

TEST_CASE("A bath with chalk is followed by its own rule", "[cli]") {
    const OwnBaths own;
    const std::vector<std::string> chalk{"--alum", "potash-alum, 50 g", "--alkali", "chalk", "--water", "1.5 L"};
    const auto stands = [&](const std::vector<std::string>& readings) { return json(and_also(chalk, readings)); };
    auto at = stands({"--poured", "100 mL", "--ph", "4.2, strip", "--ph", "4.2, strip"});
    CHECK(at["next"] == "pour_rest_by_drops");
    at = stands({"--poured", "200 mL", "--ph", "6.5, strip", "--ph", "6.5, strip"});
    CHECK(at["next"] == "settle_and_wash");
    CHECK(at["doubts"] == Json::array({"chalk_is_slow"}));
    CHECK(stands({"--poured", "100 mL", "--ph", "11.6, pen", "--ph", "11.6, pen"})["next"] == "look_at_the_salt"); // chalk never does
    at = stands({"--wash-water", "300 uS/cm", "--decant", "3000 uS/cm", "--decant", "2400 uS/cm"});
    CHECK(at["next"] == "wash_again");
    CHECK(at["doubts"] == Json::array({"gypsum_on_the_pen"}));
    CHECK_FALSE(at.contains("washing"));
    at = stands({"--decant", "3000 uS/cm", "--decant", "2400 uS/cm", "--decant", "2300 uS/cm"});
    CHECK(at["next"] == "drain_and_dry");
    // Gypsum and chalk besides: far more of it than of alumina alone, and denser (2.32 and 2.71 g/cm3).
    const auto soda = json({"--alum", "potash-alum, 50 g", "--alkali", "soda-ash", "--water", "1.5 L"});
    CHECK(at["lake"]["mass_g"]["value"].get<double>() > 2.0 * soda["lake"]["mass_g"]["value"].get<double>());
    const auto jarred = bath(and_also(chalk, {"--poured", "200 mL", "--jar", "chalked", "--date", "2026-05-08"}));
    INFO(jarred.err);
    REQUIRE(jarred.status == 0);
    CHECK_THAT(jarred.out, Contains("another pigment"));
}

TEST_CASE("Ammonia water lays without foam, and two strengths of it are asked about", "[cli]") {
    const auto sheet = bath({"--alum", "potash-alum, 50 g", "--alkali", "ammonia-10", "--water", "1.5 L"});
    INFO(sheet.err);
    CHECK(sheet.status == 0);
    CHECK_THAT(sheet.out, Contains("Ammonia comes off an alkaline bath") && !Contains("fizz") && !Contains("foams over"));
    check_refused(bath({"--alum", "potash-alum, 50 g", "--alkali", "ammonia water"}), "salt-hydrate", "ammonia-25");
}
