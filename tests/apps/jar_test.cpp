// lakebound-jar at work: from an empty studio to a sheet that says 19 in 20, and one judgement by the record.

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <tuple>

#include <nlohmann/json.hpp>

#include "bath.hpp"
#include "jar.hpp"
#include "run.hpp"
#include "support/in_folder.hpp"
#include "support/page_width.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace fs = std::filesystem;

namespace {

const std::string second_year = "studios/reedmere-second-year";

/// An own studio that one stands in, with a bench and the shipped shelf behind it.
struct OwnStudio {
    TempDir folder;
    InFolder here{folder.path()};

    OwnStudio() { fs::copy_file(shipped("studios/reedmere/bench.yaml"), "bench.yaml"); }

    Run jar(std::vector<std::string> arguments) const {
        arguments.insert(arguments.end(), {"--shelf", shipped("")});
        return run_command(run_jar, arguments);
    }
    /// Its answer with the commands that were broken over two lines put together again.
    std::string text(std::vector<std::string> arguments) const {
        std::string out = jar(std::move(arguments)).out;
        for (std::size_t at; (at = out.find(" \\\n      ")) != std::string::npos;)
            out.replace(at, 9, " ");
        return out;
    }
    nlohmann::json card(std::vector<std::string> arguments) const {
        arguments.emplace_back("--json");
        const auto run = jar(std::move(arguments));
        INFO(run.err);
        REQUIRE(run.status == 0);
        return nlohmann::json::parse(run.out);
    }
    nlohmann::json sheet(std::vector<std::string> arguments) const {
        arguments.insert(arguments.end(), {"--shelf", shipped(""), "--json"});
        const auto run = batch(arguments);
        INFO(run.err);
        REQUIRE(run.status == 0);
        return nlohmann::json::parse(run.out);
    }
};

double window(const nlohmann::json& card) { return card["record"]["in_window"].get<double>(); }

} // namespace

TEST_CASE("From an empty studio to a sheet that says 19 in 20", "[cli]") {
    OwnStudio own;
    CHECK(own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"})["file"] == "jars/weld.yaml");
    const auto bare = own.card({"weld", "--date", "2026-05-01"});
    CHECK(bare["next"] == "measure");
    // Case K1 with the odd maker, by two other programs: 46.32 %, and 78.18 % after K2. There the spread between jars is
    // known to be .15; here it is in doubt, which costs a point.
    CHECK(window(bare) == Approx(0.463).margin(0.012));
    const auto rubbed = own.card({"weld", "--rub-out", "2.00 g, 1.56 g", "--date", "2026-05-02"});
    CHECK(window(rubbed) == Approx(0.782).margin(0.012));
    CHECK(rubbed["record"]["steps"][rubbed["record"]["recommended"].get<std::size_t>()]["kind"] == "swatches");
    CHECK(own.card({"weld", "--as-planned", "--date", "2026-05-02"})["next"] == "wait_for_swatch");
    CHECK(own.card({"weld", "--date", "2026-05-03"})["next"] == "judge_swatch");
    CHECK(own.card({"weld"})["next"] == "judge_swatch"); // long dry
    own.card({"weld", "--saw", "chalks", "--date", "2026-05-03"});
    own.card({"weld", "--as-planned", "--date", "2026-05-03"});
    const auto known = own.card({"weld", "--saw", "does not chalk", "--date", "2026-05-04"});
    CHECK(known["next"] == "target_met");
    CHECK(window(known) > 0.95);
    CHECK(known["left_g"]["value"].get<double>() == Approx(21.6));
    CHECK(own.jar({"weld"}).out.find("19 chances in 20") != std::string::npos);

    // A batch kept is known to the next sheet, which promises other grams; how it went is entered.
    const std::vector<std::string> pans{"lake-watercolour-half-pans", "--jar", "weld", "--fill",
                                        "5 half-pan", "--keep", "--date", "2026-05-05"};
    const auto first = own.sheet(pans);
    CHECK(first["kept"] == "records/weld/2026-05-05-01-batch.yaml");
    CHECK(first["batch"]["chance"]["in_window"].get<double>() > 0.9);
    const auto after = own.card({"weld"});
    CHECK(after["left_g"]["value"].get<double>() == Approx(first["batch"]["left_in_jar_g"].get<double>()).margin(0.06));
    CHECK(own.sheet(pans)["batch"]["left_in_jar_g"].get<double>() < first["batch"]["left_in_jar_g"].get<double>() - 3.0);
    const auto went = own.card({"weld", "--went", "holds", "--date", "2026-06-20"});
    CHECK(went["record"]["worth"]["own_paints"]["paints"] == 3);
    CHECK(own.card({"weld", "--undo", "last", "--date", "2026-06-21"})["record"]["worth"]["own_paints"]["paints"] == 2);
    CHECK(own.card({"--studio"})["jars"].size() == 1);
}

TEST_CASE("A batch brought up by strokes, entered and learned from", "[cli]") {
    OwnStudio own;
    own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
    const auto sheet = own.card({"weld", "--by-strokes", "6 g", "--date", "2026-05-01"});
    REQUIRE(sheet["kind"] == "stepwise");
    REQUIRE(sheet["doses"].size() == 8);
    CHECK(sheet["in_window"].get<double>() > 0.90); // 46 % when it is mixed at once
    const auto& first = sheet["doses"][0];
    const auto& second = sheet["doses"][1];
    const auto grams = [](const nlohmann::json& x) { return std::to_string(x.get<double>()) + " g"; };
    own.card({"weld", "--stroke", "6.0 g, " + grams(first["in_all_g"]) + ": chalks", "--date", "2026-05-02"});
    const auto known = own.card({"weld", "--stroke", "6.0 g, " + grams(second["in_all_g"]) + ": does not chalk", "--date", "2026-05-03"});
    // What the record then says is what the sheet said of it in advance; but that its masses are taken to be read on the
    // finest scale. The powder is on the slab.
    CHECK(known["left_g"]["value"].get<double>() == Approx(18.0));
    CHECK(known["next"] == "finish_batch");
    CHECK(known["on_slab"]["strokes"] == 2);
    CHECK(known["on_slab"]["pigment_g"].get<double>() == Approx(6.0));
    const auto end = own.card({"weld", "--by-strokes", "6 g", "--date", "2026-05-03"});
    CHECK(end["doses"].empty());
    CHECK(end["on_slab"]["chalks"] == false);
    CHECK(end["if_all_chalk"]["in_all_g"].get<double>() == Approx(second["if_not"]["in_all_g"].get<double>()).margin(0.05));
    CHECK(own.text({"weld", "--by-strokes", "6 g", "--date", "2026-05-03"}).find("WORK IN THE LAST DOSE, AND STOP") != std::string::npos);
    CHECK(window(known) == Approx(second["if_not"]["in_window"].get<double>()).margin(0.01));
    CHECK(known["record"]["worth"]["own_paints"]["paints"] == 2);
    CHECK(known["entries"][0]["text"].get<std::string>().find("stroke at k ") == 0);
    const auto mixed = own.card({"weld", "--mixed", "6.0 g, " + grams(second["if_not"]["in_all_g"]), "--date", "2026-05-03"});
    CHECK(mixed["left_g"]["value"].get<double>() == Approx(18.0));
    CHECK(mixed.count("on_slab") == 0);
    // It can be judged in use, and asked about once more was poured.
    CHECK(own.text({"weld", "--poured", "20 g", "--date", "2026-05-03"}).find("--mixed \"") != std::string::npos);
    const auto poured = own.card({"weld", "--poured", "1: 20 g"});
    CHECK(poured["kind"] == "poured");
    CHECK(poured["poured_g"].get<double>() == Approx(20.0));
    CHECK(poured["add"]["action"] == "add_pigment");
    // The card of a day is as of that day; a slab that is given up, a batch told twice and an empty jar are said.
    CHECK(own.card({"weld", "--date", "2026-05-02"})["next"] == "finish_batch");
    CHECK(own.text({"weld", "--date", "2026-05-02"}).find(": thrown away\"") != std::string::npos);
    const auto twice = own.card({"weld", "--mixed", "6.0 g, " + grams(second["if_not"]["in_all_g"]), "--date", "2026-05-03"});
    CHECK(twice["remarks"][0].get<std::string>().find("tells the very same") != std::string::npos);
    CHECK(own.card({"weld", "--weighed", "0.0 +- 0.01 g", "--date", "2026-05-04"})["next"] == "too_little_left");
    CHECK(own.text({"weld"}).find("TOO LITTLE IS LEFT") != std::string::npos);
    own.card({"weld", "--undo", "last", "--date", "2026-05-04"});
    own.card({"weld", "--undo", twice["entries"].back()["entry"].get<std::string>(), "--date", "2026-05-04"});
    CHECK(window(own.card({"weld", "--went", "holds", "--date", "2026-06-03"})) > window(known));
}

TEST_CASE("What a card prints can be typed as it stands, of whatever paint it was asked", "[cli]") {
    OwnStudio own;
    own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
    own.card({"weld", "--rub-out", "2.00 g, 1.56 g", "--date", "2026-05-01"});
    const auto oil = own.text({"weld", "--as", "oil", "--lack", "days", "--sure", "93 %", "--date", "2026-05-01"});
    CHECK(oil.find("--as-planned --as oil --sure \"93 %\" --lack days") != std::string::npos);
    const auto tempera = own.text({"weld", "--as", "egg-tempera", "--bottle", "May", "--date", "2026-05-01"});
    CHECK(tempera.find("--as egg-tempera --bottle \"May\"") != std::string::npos);
    CHECK(own.text({"weld", "--by-strokes", "40 g", "--as", "oil"}).find("The jar holds less than that: 22.0 g") != std::string::npos);
    // The whole of what is poured and added is entered, as the paint that the batch was, whatever was painted since.
    own.card({"weld", "--mixed", "6.0 g, 20.0 g", "--as", "watercolour-pan", "--with", "gum-water", "--date", "2026-05-02"});
    own.card({"weld", "--swatch", "0.20 g, 0.14 g", "--as", "oil", "--date", "2026-05-03"});
    const auto lean = own.text({"weld", "--poured", "15 g", "--date", "2026-05-04"});
    CHECK(lean.find("of gum water more") != std::string::npos);
    CHECK(lean.find("--as watercolour-pan --with gum-water") != std::string::npos);
    CHECK(lean.find("\"6.00 g, 15.00 g\"") == std::string::npos);
}

TEST_CASE("A swatch keeps its number until the end, and what is taken back is said", "[cli]") {
    OwnStudio own;
    own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
    for (const char* medium : {"0.50 g", "0.60 g", "0.70 g"})
        own.card({"weld", "--swatch", std::string("0.20 g, ") + medium, "--date", "2026-05-01"});
    const auto first = own.card({"weld", "--saw", "1 chalks", "--date", "2026-05-02"});
    REQUIRE(first["waiting"].size() == 2);
    CHECK(first["waiting"][0]["number"] == 2);
    const auto second = own.card({"weld", "--saw", "2 chalks", "--date", "2026-05-02"});
    REQUIRE(second["waiting"].size() == 1);
    CHECK(second["waiting"][0]["number"] == 3);
    CHECK(own.jar({"weld", "--saw", "2 does not chalk", "--date", "2026-05-02"}).err.find("those that wait: 3") != std::string::npos);
    CHECK(own.jar({"weld", "--as-planned", "--date", "2026-05-02"}).status == 2); // one waits: nothing is planned
    own.card({"weld", "--drew", "0.3 g", "--date", "2026-05-03"});
    CHECK(own.jar({"weld", "--undo", "last", "--date", "2026-05-03"}).out.find("Taken back: 0.30 g drawn, of 2026-05-03.") != std::string::npos);
}

TEST_CASE("Plants are told apart by their letters alone, and a mended batch must fit itself", "[cli]") {
    OwnStudio own;
    for (const char* id : {"weld-one", "weld-two"}) {
        own.card({id, "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
        std::ofstream(std::string("jars/") + id + ".yaml", std::ios::app)
            << (id[5] == 'o' ? "plant: Weld\n" : "plant: weld\n");
    }
    own.card({"weld-one", "--rub-out", "2.00 g, 1.56 g", "--date", "2026-05-01"});
    CHECK(own.jar({"weld-two", "--date", "2026-05-02"}).out.find("your other jars: 1 rub-out ") != std::string::npos);
    own.card({"madder-new", "--new", "madder-lake, 9 g", "--date", "2026-05-01"});
    std::ifstream begun("jars/madder-new.yaml");
    const std::string text(std::istreambuf_iterator<char>(begun), {});
    CHECK(text.find("# plant: madder\n") != std::string::npos);

    own.card({"weld-one", "--mixed", "6.0 g, 20.0 g", "--date", "2026-05-02"});
    std::ofstream("records/weld-one/2026-05-02-01-batch.yaml")
        << "kind: entry\njar: weld-one\ndate: 2026-05-02\nwhat: batch\nfamily: watercolour-pan\npigment: 6.0 g\n"
           "medium: gum-water\nmedium_mass: 9.0 g\ndry_binder: 4.1 mL\nk_spread: 0.01\n";
    const auto mended = own.jar({"weld-one", "--date", "2026-05-03"});
    CHECK(mended.status == 2);
    CHECK(mended.err.find("2026-05-02-01-batch.yaml:9:13: error: this is not the dry binder") != std::string::npos);
}

TEST_CASE("A sieve test is kept whole in its entry, by YAML and by CSV", "[cli]") {
    OwnStudio own;
    own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
    const auto sieved = own.card({"weld", "--sieved", shipped("studios/reedmere/sieve-tests/weld-15-min.yaml"), "--date", "2026-05-02"});
    CHECK(sieved["left_g"]["value"].get<double>() == Approx(24.0 - 0.25)); // 19.97 g went on, 19.72 g came off
    CHECK(sieved["entries"][0]["text"].get<std::string>().find("sieved: half is finer than 90 um") == 0);
    std::ofstream("own.csv") << "screen,mass\n75 um,0.90 g\npan,4.85 g\n";
    const auto again = own.card({"weld", "--sieved", "own.csv", "--date", "2026-05-03"});
    CHECK(again["entries"][1]["text"].get<std::string>().find("sieved: 16 % stays on 75 um") == 0);
    fs::remove("own.csv"); // the entry alone is the truth
    CHECK(own.jar({"weld", "--date", "2026-05-03"}).out.find("Median size   90 um") != std::string::npos);
    own.card({"weld", "--changed", "--date", "2026-05-04"});
    CHECK(own.jar({"weld", "--date", "2026-05-04"}).out.find("Median size") == std::string::npos);
}

TEST_CASE("A bench of one's own is begun once, and found", "[cli]") {
    TempDir folder;
    const InFolder here(folder.path());
    const auto begun = run_command(run_jar, {"--new-bench", "0.1 g, 0.01 g", "--shelf", shipped("")});
    INFO(begun.err);
    REQUIRE(begun.status == 0);
    CHECK(run_command(run_jar, {"--new-bench", "1 g", "--shelf", shipped("")}).status == 2);
    CHECK(run_command(run_jar, {"weld", "--new", "alumina-lake, 24.0 g", "--shelf", shipped("")}).status == 0);
    const auto card = nlohmann::json::parse(run_command(run_jar, {"weld", "--shelf", shipped(""), "--json"}).out);
    CHECK(card["bench"]["name"] == "My bench");
    CHECK(card["bench"]["assumed"] == false);
}

TEST_CASE("The card offers a recipe that paints what it advises, with the medium that was learned", "[cli]") {
    OwnStudio own;
    own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
    const auto paint = [&](const char* family) {
        auto text = own.text({"weld", "--as", family, "--sure", "30 %", "--date", "2026-05-01"});
        const std::string shelf = " --shelf " + shipped("");
        const auto at = text.find(shelf);
        return at == std::string::npos ? text : text.erase(at, shelf.size());
    };
    CHECK(paint("watercolour-pan").find("lakebound-batch lake-watercolour-half-pans --jar weld --k") != std::string::npos);
    CHECK(paint("watercolour-tube").find("lakebound-batch lake-watercolour-tube --jar weld --k") != std::string::npos);
    CHECK(paint("egg-tempera").find("lakebound-batch lake-egg-tempera --jar weld --medium yolk-water --k") != std::string::npos);
}

TEST_CASE("The commands of a card find its jar again: the folders that were named are named in them", "[cli]") {
    const auto card = run_command(run_jar, {"weld", "--shelf", "reedmere"}).out;
    CHECK_THAT(card, Catch::Contains("\n    lakebound-jar weld --shelf reedmere --as-planned\n"));
    const TempDir folder;
    fs::copy(shipped("studios/reedmere"), folder.path() / "my studio", fs::copy_options::recursive);
    const auto spaced = run_command(run_jar, {"weld", "--shelf", folder.file("my studio")}).out;
    CHECK_THAT(spaced, Catch::Contains("lakebound-jar weld --shelf \"" + folder.file("my studio") + "\""));
    const InFolder here(folder.path() / "my studio");
    CHECK_THAT(run_command(run_jar, {"weld"}).out, Catch::Contains("\n    lakebound-jar weld --as-planned\n"));
    const auto kept = batch({"lake-watercolour-half-pans", "--jar", "weld", "--pigment", "4 g", "--keep", "--shelf", "."});
    INFO(kept.err);
    CHECK_THAT(kept.out, Catch::Contains("lakebound-jar weld --shelf . --went holds."));
    const auto bath = run_command(run_bath, {"madder", "--wash-water", "350 uS/cm", "--shelf", "."});
    INFO(bath.err);
    CHECK_THAT(bath.out, Catch::Contains("All that happened: lakebound-bath madder --shelf ."));
}

TEST_CASE("An entry is answered in short, the whole card has the rest", "[cli]") {
    OwnStudio own;
    own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
    const auto kept = own.jar({"weld", "--rub-out", "2.00 g, 1.56 g", "--date", "2026-05-02"}).out;
    const auto card = own.jar({"weld", "--date", "2026-05-02"}).out;
    CHECK(kept.find("Kept in records/weld/2026-05-02-01-rub-out.yaml") != std::string::npos);
    CHECK(kept.find("THE SWATCH") != std::string::npos);
    CHECK(kept.find("WHAT IS KNOWN") == std::string::npos);
    CHECK(card.find("WHAT IS KNOWN") != std::string::npos);
    CHECK(kept.find("TAKE CARE") != std::string::npos); // for a swatch is to be mulled
    const auto wet = own.jar({"weld", "--as-planned", "--date", "2026-05-02"}).out;
    CHECK(wet.find("TAKE CARE") == std::string::npos); // for nothing is to be done but wait
    CHECK(std::count(wet.begin(), wet.end(), '\n') * 3 < std::count(card.begin(), card.end(), '\n'));
}

TEST_CASE("A refusal keeps nothing: no entry is written where the answer cannot be", "[errors]") {
    OwnStudio own;
    own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
    std::ofstream("taken.txt") << "mine\n";
    const std::vector<std::vector<std::string>> refused{
        {"weld", "--drew", "1 g", "-o", "taken.txt"},      {"weld", "--drew", "1 g", "--page", "taken.txt"},
        {"weld", "--drew", "1 g", "-o", "no-folder/card"}, {"weld", "--drew", "1 g", "--poured", "7 g"},
        {"weld", "--drew", "1 g", "--dropper", "50 drops, 1.8 g"},
        {"madder", "--new", "madder-lake, 9 g", "--note", "from the summer"},
    };
    for (const auto& arguments : refused) {
        const auto run = own.jar(arguments);
        INFO(arguments[1] << " " << arguments.back());
        CHECK(run.status == 2);
        CHECK(run.out.empty());
        CHECK_FALSE(fs::exists("records"));
        CHECK_FALSE(fs::exists("jars/madder.yaml"));
    }
    CHECK(batch({"lake-watercolour-half-pans", "--jar", "weld", "--pigment", "4 g", "--keep", "-o", "taken.txt", "--shelf",
                 shipped("")}).status == 2);
    CHECK(batch({"lake-watercolour-half-pans", "--jar", "weld", "--pigment", "4 g", "--date", "2026-05-02", "--shelf",
                 shipped("")}).status == 2); // a day without --keep would be passed over
    CHECK_FALSE(fs::exists("records"));
    CHECK(read_bytes("taken.txt") == "mine\n");
}

TEST_CASE("Batch, check and sheet say the same of a paint that the record judges", "[identity]") {
    const std::string jar = shipped(second_year + "/jars/weld-spring.yaml"), bench = shipped(second_year + "/bench.yaml");
    TempDir folder;
    for (const char* k : {"0.9", "1.1", "1.4", "1.7", "2.6"}) {
        INFO("k " << k);
        const auto sheet = batch({"lake-watercolour-half-pans", "--jar", jar, "--bench", bench, "--pigment", "4 g", "--k", k, "--json"});
        const auto said = nlohmann::json::parse(sheet.out)["batch"];
        std::ofstream(folder.file("sheet.json")) << sheet.out;
        const auto read = pvc({folder.file("sheet.json"), "--bench", bench, "--json"});
        const auto checked = nlohmann::json::parse(read.out);
        CHECK(checked["verdict"] == said["verdict"]);
        CHECK(read.status == sheet.status);
        CHECK(checked["chance"]["in_window"].get<double>() == Approx(said["chance"]["in_window"].get<double>()).margin(0.01));
        const auto with_jar = nlohmann::json::parse(pvc({folder.file("sheet.json"), "--jar", jar, "--bench", bench, "--json"}).out);
        CHECK(with_jar["chance"]["in_window"].get<double>() ==
              Approx(said["chance"]["in_window"].get<double>()).margin(0.002));
    }
}

TEST_CASE("What a studio knows helps a new jar of its plant", "[cli]") {
    const auto card = [](const std::string& jar) {
        const auto run = run_command(run_jar, std::vector<std::string>{shipped(second_year + "/jars/" + jar + ".yaml"), "--bench",
                                                                       shipped(second_year + "/bench.yaml"), "--json"});
        REQUIRE(run.status == 0);
        return nlohmann::json::parse(run.out)["record"];
    };
    const auto autumn = card("weld-autumn");
    CHECK(autumn["worth"]["other_jars"]["in_window"].get<double>() > autumn["worth"]["library"]["in_window"].get<double>() + 0.1);
    CHECK(card("weld-spring")["in_window"].get<double>() > 0.95);
}

TEST_CASE("Cards and tests keep to the page", "[cli]") {
    for (const char* jar : {"weld-autumn", "weld-spring", "madder"}) {
        const auto run = run_command(run_jar, std::vector<std::string>{shipped(second_year + "/jars/" + jar + ".yaml"), "--bench",
                                                                       shipped(second_year + "/bench.yaml")});
        CHECK(run.status == 0);
        CHECK(run.err.empty());
        check_page(run.out);
    }
    for (const char* family : {"oil", "watercolour-pan", "egg-tempera"})
        check_page(run_command(run_jar, std::vector<std::string>{"--swatch-test", "--as", family}).out);
}

TEST_CASE("The first batch that is kept is told as kept, and a remark is never lost", "[cli]") {
    OwnStudio own;
    own.card({"weld", "--new", "alumina-lake, 24.0 g", "--date", "2026-05-01"});
    const std::vector<std::string> keep{"lake-watercolour-half-pans", "--jar", "weld", "--pigment", "4 g", "--keep", "--date", "2026-05-02", "--shelf", shipped("")};
    const auto first = batch(keep), second = batch(keep);
    REQUIRE(first.status == 0);
    CHECK_THAT(first.out, Catch::Contains("Kept in records/weld/2026-05-02-01-batch.yaml"));
    CHECK_THAT(first.out, !Catch::Contains("very same"));
    CHECK_THAT(second.out, Catch::Contains("Kept in records/weld/2026-05-02-02-batch.yaml") && Catch::Contains("the very same"));
    for (const std::vector<std::string>& asked : {std::vector<std::string>{"--studio"}, {"--swatch-test"}, {"--new-bench", "0.1 g"}, {"weld", "--poured", "7 g"}, {"weld", "--by-strokes", "6 g"}}) {
        auto with = asked;
        with.insert(with.end(), {"--note", "the lid was loose"});
        CHECK(own.jar(with).status == 2);
        CHECK_THAT(own.jar(with).err, Catch::Contains("[option-conflict]"));
    }
}

TEST_CASE("Of a jar without a record its sheet and its card advise the same next step, at the same cost and for the same gain", "[cli][identity]") {
    const std::tuple<const char*, const char*, double> paints[] = {{"lake-watercolour-half-pans", "watercolour-pan", 0.02},
                                                                   {"lake-oil-tube", "oil", 0.03},
                                                                   {"lake-egg-tempera", "egg-tempera", 0.04}};
    const std::string reedmere = shipped("studios/reedmere");
    for (const auto& [recipe, family, near] : paints) {
        CAPTURE(recipe);
        const auto sheet = nlohmann::json::parse(batch({recipe, "--jar", "weld", "--shelf", reedmere, "--json"}).out)["batch"]["measure_next"];
        const auto card = nlohmann::json::parse(run_command(run_jar, {"weld", "--as", family, "--shelf", reedmere, "--json"}).out)["record"];
        const auto& advised = card["steps"][card["recommended"].get<std::size_t>()];
        CHECK(advised["kind"] == "swatches");
        CHECK(advised["swatches"] == 1);
        CHECK(sheet["recommended"] == "one-swatch");
        const std::pair<const char*, int> ladders[] = {{"one-swatch", 1}, {"two-swatches", 2}, {"swatch-ladder", 4}};
        for (const auto& [id, swatches] : ladders) {
            CAPTURE(id);
            const auto test = std::find_if(sheet["tests"].begin(), sheet["tests"].end(), [&](const auto& each) { return each["id"] == id; });
            const auto step = std::find_if(card["steps"].begin(), card["steps"].end(), [&](const auto& each) { return each["swatches"] == swatches; });
            REQUIRE(test != sheet["tests"].end());
            REQUIRE(step != card["steps"].end());
            CHECK((*test)["duration_min"] == (*step)["attention_min"]);
            CHECK((*test)["pigment_g"].get<double>() == Approx((*step)["pigment_g"].get<double>()));
            CHECK((*test)["chance_after"].get<double>() == Approx((*step)["in_window_after"].get<double>()).margin(near));
        }
    }
}
