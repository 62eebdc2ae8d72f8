#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>

#include <nlohmann/json.hpp>

#include "common/run_app.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "run.hpp"
#include "sieve.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;
using Catch::StartsWith;

namespace {
const std::vector<std::string> weld_in_oil = {
    "lake-oil-tube", "--jar", studio("jars/weld.yaml"), "--bench", studio("bench.yaml"), "--pigment", "6 g"};
} // namespace

TEST_CASE("A sheet for the demo jar: status 0 and nothing on stderr", "[cli]") {
    for (const std::string recipe : {"lake-watercolour-half-pans", "lake-oil-tube", "lake-egg-tempera"}) {
        auto arguments = weld_in_oil;
        arguments[0] = recipe;
        const auto run = batch(arguments);
        INFO(run.err);
        CHECK(run.status == 0);
        CHECK(run.err.empty());
        CHECK_THAT(run.out, StartsWith("WEIGH SHEET") && Contains("SHOULD HOLD") &&
                                Contains("6.0 g  Weld lake, Reedmere") && Contains("TAKE CARE"));
    }
}

TEST_CASE("Wax goes into the oil by heat, before the powder lies open", "[cli]") {
    auto arguments = weld_in_oil;
    arguments[0] = "lake-oil-with-wax";
    const auto order = [](const std::string& text) {
        const auto at = text.find("ORDER OF WORK");
        return text.substr(at, text.find("WHAT COMES OUT") - at);
    };
    // 0.12 g of wax on the pocket scale: weighed straight, melted in the oil of the paint.
    const auto straight = order(batch(arguments).out);
    CHECK_THAT(straight, Contains("water bath") && Contains("cold"));
    CHECK(straight.find("water bath") < straight.find("Mask on"));
    // 1 g of lake and no bench of one's own: too little wax for any scale or stock. Nothing is asked for that
    // the scale cannot show, and what goes in is what k says.
    const auto none = batch({"lake-oil-with-wax", "--jar", studio("jars/weld.yaml"), "--pigment", "1 g"}).out;
    CHECK_THAT(none, Contains("none  Beeswax") && Contains("leave it out") && !Contains(" 0.0 g"));
    CHECK_THAT(order(none), !Contains("eeswax"));
    // A stock is made first, stirred in cold.
    arguments = {"lake-oil-with-wax", "--jar", studio("jars/weld.yaml"), "--pigment", "6 g"};
    const auto stock = order(batch(arguments).out);
    CHECK_THAT(stock, Contains("Make the stock of beeswax"));
    CHECK(stock.find("water bath") < stock.find("Mask on"));
    CHECK(stock.find("water bath") == stock.rfind("water bath"));
    // In a medium of its own it is warmed too.
    arguments.insert(arguments.end(), {"--medium", "linseed-wax"});
    arguments[0] = "lake-oil-tube";
    CHECK_THAT(order(batch(arguments).out), Contains("Warm the wax in its oil"));
    // It is binder, and its figures are the library's.
    CHECK_THAT(stock + batch({"lake-oil-with-wax", "--jar", studio("jars/weld.yaml"), "--pigment", "6 g"}).out,
               Contains("linseed oil, beeswax"));
}

TEST_CASE("Oil is rubbed when it is dry, tempered paint is not kept", "[cli]") {
    CHECK_THAT(batch(weld_in_oil).out, Contains("a fingertip") && !Contains("dry for a day"));
    auto arguments = weld_in_oil;
    arguments[0] = "lake-egg-tempera";
    CHECK_THAT(batch(arguments).out,
               Contains("to 1 g of paste") && Contains("Throw away") && !Contains("leave none under the cap"));
}

TEST_CASE("Help opens with an example, before anything is read", "[cli]") {
    const auto run = batch({"--help"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("Example:\n  lakebound-batch "));
    CHECK(run.out.find("Example") < run.out.find("Usage"));
    std::istringstream lines(run.out);
    for (std::string line; std::getline(lines, line);)
        CHECK(line.size() <= 80);
    CHECK(batch({"-h"}).out == run.out);
}

TEST_CASE("The version is one line", "[cli]") { CHECK(batch({"--version"}).out == "lakebound-batch 0.1.0\n"); }

TEST_CASE("What was searched can be seen", "[cli]") {
    const auto run = batch({"--searched", "--shelf", studio("")});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("(--shelf)") && Contains("shipped with the program"));
}

TEST_CASE("The list names recipes, pigments, media and vessels, as text and as JSON", "[cli]") {
    const auto run = batch({"--list"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("lake-oil-tube") && Contains("ultramarine") &&
                            Contains("gum-glycerol-honey") && Contains("half-pan") && Contains("Half pan"));
    const auto json = nlohmann::json::parse(batch({"--list", "--json"}).out);
    CHECK(json["recipes"].size() >= 6);
}

TEST_CASE("A jar alone means all of it but the reserve", "[cli]") {
    const auto run =
        batch({"lake-oil-tube", "--jar", studio("jars/weld.yaml"), "--bench", studio("bench.yaml"), "--json"});
    CHECK(run.status == 0);
    const auto json = nlohmann::json::parse(run.out);
    CHECK(json["batch"]["pigment_g"].get<double>() ==
          Approx(23.5).epsilon(1e-12)); // 24.0 less 0.5 g of reserve
    CHECK(json["batch"]["left_in_jar_g"].get<double>() == Approx(0.5).epsilon(1e-9));
}

TEST_CASE("More pans than the jar holds: status 1, what was asked, and what fits", "[cli]") {
    const auto run = batch({"lake-watercolour-half-pans", "--jar", studio("jars/weld.yaml"), "--bench",
                            studio("bench.yaml"), "--fill", "30 half-pan"});
    CHECK(run.status == 1);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Contains("NOT ENOUGH: Weld lake") && Contains("You asked for 30 half pans") &&
                            Contains("The most that fits is 23 half pans") && Contains("ORDER OF WORK"));
}

TEST_CASE("A stock that runs short: status 1", "[cli]") {
    const auto run = batch(and_also(weld_in_oil, {"--stock", "linseed-oil: 2 g"}));
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("NOT ENOUGH: Linseed oil"));
    CHECK(batch(and_also(weld_in_oil, {"--stock", "linseed-oil: 200 g"})).status == 0);
}

TEST_CASE("A paint that will not hold is an answer with status 1", "[cli]") {
    const auto run = batch(and_also(weld_in_oil, {"--k", "0.6"}));
    CHECK(run.status == 1);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Contains("WILL CHALK"));
    CHECK(batch(and_also(weld_in_oil, {"--k", "3"})).status == 1);
    CHECK(batch(and_also(weld_in_oil, {"--k", "1.05"})).status == 0); // lean, but holds
}

TEST_CASE("The four aims agree with each other", "[cli]") {
    const auto k_of = [](const std::vector<std::string>& aim) {
        const auto run = batch(and_also(and_also(weld_in_oil, aim), {"--json"}));
        INFO(run.err);
        REQUIRE(run.status == 0);
        return nlohmann::json::parse(run.out)["batch"];
    };
    const auto by_k = k_of({"--k", "1.5"});
    const auto value = [&](const char* key) {
        return number_text(by_k["as_computed"][key]["value"].get<double>() * 100.0);
    };
    CHECK(k_of({"--pvc", value("pvc") + " %"})["as_computed"]["k"]["value"].get<double>() ==
          Approx(1.5).epsilon(1e-9));
    CHECK(k_of({"--reduced-pvc",
                number_text(
                    by_k["as_computed"]["reduced_pvc"]["value"].get<double>())})["as_computed"]["k"]["value"]
              .get<double>() == Approx(1.5).epsilon(1e-9));
    CHECK(k_of({"--medium-ratio",
                number_text(by_k["medium_per_pigment"].get<double>()) + " g/g"})["as_computed"]["k"]["value"]
              .get<double>() == Approx(1.5).epsilon(1e-9));
}

TEST_CASE("Another medium and another vessel", "[cli]") {
    const auto run = batch(and_also(weld_in_oil, {"--medium", "walnut", "--vessel", "small-jar-10-ml"}));
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("Walnut oil") && Contains("small jar of 10 mL"));
}

TEST_CASE("Without a bench one is assumed, and the sheet says so", "[cli]") {
    const auto run = batch({"lake-oil-tube", "--jar", studio("jars/weld.yaml"), "--pigment", "6 g"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("No bench file was found"));
    const auto own = batch({"lake-oil-tube", "--jar", "weld", "--shelf", studio(""), "--pigment", "6 g"});
    CHECK(own.status == 0); // jar and bench of the maker's own shelf
    CHECK_THAT(own.out, Contains("kitchen scale") && !Contains("No bench file was found"));
}

TEST_CASE("A jar brings its measurements to a recipe that names its pigment", "[cli]") {
    const TempDir dir;
    const auto jar = dir.write("blue.yaml", "kind: jar\nname: My blue\npigment: ultramarine\nnet_mass: 50 g\n"
                                            "oil_absorption: 40 x/ 1.05 g/100g\n");
    const auto run = batch({"ultramarine-oil", "--jar", jar, "--pigment", "20 g", "--json"});
    INFO(run.err);
    REQUIRE(run.status == 0);
    const auto json = nlohmann::json::parse(run.out);
    CHECK(json["pigments"][0]["name"] == "My blue");
    // Her reading, and what it makes together with the library's 35 +- 4 (precisions of the logarithms).
    const auto& pigment = json["pigments"][0];
    CHECK(pigment["oil_absorption_from"]["reading_g_per_100g"]["value"].get<double>() ==
          Approx(40.0).epsilon(1e-12));
    const double expected = pigment["oil_absorption_from"]["expected_g_per_100g"]["value"].get<double>();
    const double believed = pigment["oil_absorption_g_per_100g"]["value"].get<double>();
    CHECK(believed > expected);
    CHECK(believed < 40.0);
    check_refused(batch({"ultramarine-oil", "--jar", studio("jars/weld.yaml"), "--pigment", "20 g"}),
                  "jar-not-used");
}

TEST_CASE("The worked example follows the sheet, or joins the JSON", "[cli]") {
    const auto run = batch(and_also(weld_in_oil, {"--explain"}));
    CHECK(run.status == 0);
    CHECK_THAT(run.out,
               StartsWith("WEIGH SHEET") && Contains("HOW IT IS WORKED OUT") && Contains("= OA / (100 rho_o)"));
    CHECK(nlohmann::json::parse(batch(and_also(weld_in_oil, {"--explain", "--json"})).out)["batch"].size() > 5);
}

TEST_CASE("A recipe from standard input", "[cli]") {
    const auto text = read_bytes(shipped("recipes/lake-oil-tube.yaml"));
    auto arguments = weld_in_oil;
    arguments[0] = "-";
    const auto piped = batch(arguments, text);
    INFO(piped.err);
    CHECK(piped.status == 0);
    CHECK(piped.out == batch(weld_in_oil).out);
    const auto mistyped = batch(arguments, "kind: recipe\nname: x\nfamilly: oil\n");
    CHECK(mistyped.status == 2);
    CHECK_THAT(mistyped.err,
               Contains("standard input:3:1: error:") && Contains("familly") && Contains("family"));
}

TEST_CASE("An option takes one value and leaves the recipe that follows it alone", "[cli]") {
    const auto usual = batch(weld_in_oil);
    const auto last = batch({"--shelf", studio(""), "--jar", "weld", "--stock", "linseed-oil: 100 g",
                             "--pigment", "6 g", "lake-oil-tube"});
    INFO(last.err);
    CHECK(last.status == 0);
    CHECK_THAT(last.out, StartsWith("WEIGH SHEET   Lake in linseed oil"));
    CHECK(batch({"--pigment=6 g", "--jar=" + studio("jars/weld.yaml"), "--bench", studio("bench.yaml"),
                 "lake-oil-tube"})
              .out == usual.out);
}

TEST_CASE("Only one file can come from standard input", "[cli]") {
    check_refused(batch({"-", "--jar", "-", "--pigment", "6 g"}, "x"), "option-conflict");
}

TEST_CASE("Colour only where the stream shows it, and never in a file", "[cli]") {
    CHECK(batch(weld_in_oil).out.find('\x1b') == std::string::npos);
    CHECK(batch(weld_in_oil, {}, true).out.find('\x1b') != std::string::npos);
    const TempDir dir;
    CHECK(batch(and_also(weld_in_oil, {"-o", dir.file("sheet.txt")}), {}, true).status == 0);
    CHECK(read_bytes(dir.file("sheet.txt")).find('\x1b') == std::string::npos);
}

TEST_CASE("NO_COLOR keeps the process without colour", "[cli]") {
    REQUIRE(::setenv("NO_COLOR", "1", 1) == 0);
    CHECK_FALSE(standard_streams().colour);
    REQUIRE(::unsetenv("NO_COLOR") == 0);
}

TEST_CASE("Option -o writes the whole answer to a new file and prints nothing", "[cli]") {
    const TempDir dir;
    const auto file = dir.file("sheet.txt");
    const auto run = batch(and_also(weld_in_oil, {"-o", file}));
    CHECK(run.status == 0);
    CHECK(run.out.empty());
    CHECK(run.err.empty());
    CHECK(read_bytes(file) == batch(weld_in_oil).out);
}

TEST_CASE("Option -o never replaces a file unless forced", "[cli]") {
    const TempDir dir;
    const auto file = dir.write("typed.yaml", "kind: jar # typed by hand\n");
    check_refused(batch(and_also(weld_in_oil, {"-o", file})), "write-exists");
    CHECK(read_bytes(file) == "kind: jar # typed by hand\n");
    check_refused(batch(and_also(weld_in_oil, {"-o", file, "--force"})), "write-input"); // nor is this one then
    CHECK(read_bytes(file) == "kind: jar # typed by hand\n");
    const auto sheet = dir.write("sheet.txt", "an older sheet\n");
    CHECK(batch(and_also(weld_in_oil, {"-o", sheet, "--force"})).status == 0);
    CHECK_THAT(read_bytes(sheet), StartsWith("WEIGH SHEET"));
    check_refused(batch(and_also(weld_in_oil, {"-o", dir.file("nowhere/sheet.txt")})), "write-folder");
}

TEST_CASE("A name that is no UTF-8 is answered or told, never a fault of ours", "[cli]") {
    const TempDir dir;
    const auto jar = dir.write("we\xeald.yaml", "kind: jar\nname: Weld\npigment: alumina-lake\nnet_mass: 24 g\n");
    for (const char* form : {"--json", "--explain"}) {
        const auto run = batch({"lake-oil-tube", "--jar", jar, "--pigment", "6 g", form});
        INFO(run.err);
        CHECK(run.status < 2);
    }
    for (const char* name : {"\xe9t\xe9", "\xff.yaml"}) {
        const auto run = batch({"lake-oil-tube", "--jar", name, "--pigment", "6 g", "--json"});
        CHECK(run.status == 2);
        CHECK_THAT(run.err, Contains("\"kind\": \"faults\""));
    }
    const auto test = dir.write("t\xe9st.csv", "screen,mass\n150 um,5.0 g\n75 um,6.0 g\npan,7.4 g\n");
    const auto page = dir.file("p\xe9ge.html");
    const auto run = run_on_shelf(run_sieve, {test, "--json", "--page", page});
    INFO(run.err);
    CHECK(run.status < 2);
}

TEST_CASE("Wrong input writes nothing", "[cli]") {
    const TempDir dir;
    CHECK(batch({"lake-oil-tube", "--jar", studio("jars/weld.yaml"), "--pigment", "6 mL", "-o", dir.file("x")})
              .status == 2);
    CHECK(std::filesystem::is_empty(dir.path()));
}

TEST_CASE("A mistyped jar file is shown with its place and a hint", "[cli]") {
    const TempDir dir;
    const auto jar = dir.write("weld.yaml", "kind: jar\nname: Weld\npigment: alumina-lake\nnet_mass: 24\n"
                                            "density: 1.86 g/cm2\noil_absorbtion: 75 g/100g\n");
    const auto run = batch({"lake-oil-tube", "--jar", jar, "--pigment", "6 g"});
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK_THAT(run.err, Contains("weld.yaml:4:11: error:") && Contains("weld.yaml:5:") &&
                            Contains("[unit-dimension]") && Contains("weld.yaml:6:1: error:") &&
                            Contains("oil_absorption") && Contains("^~~"));
}

TEST_CASE("Command lines that cannot be used say how to mend them", "[cli]") {
    const auto jar = studio("jars/weld.yaml");
    check_refused(batch({"--no-color"}), "recipe-missing", "--list");
    check_refused(batch({"lake-oil", "--jar", jar}), "id-unknown", "lake-oil-tube");
    check_refused(batch({"lake-oil-tube"}), "jar-missing", "--jar");
    check_refused(batch({"ultramarine-oil"}), "amount-missing", "--pigment");
    check_refused(batch({"ultramarine-oil", "--whole-jar"}), "jar-missing", "--jar");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--pigment", "6 ml"}), "unit-dimension");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--pigment", "6"}), "unit-missing", "6 g");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--pigment", "0 g"}), "out-of-range");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--pigment", "-3 g"}), "out-of-range");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--k", "1,4"}), "number-comma", "1.4");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--k", "1.4", "--pvc", "30 %"}), "option-conflict");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--k", "1.4", "--k", "1.5"}), "option-twice");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--pvc", "130 %"}), "out-of-range");
    for (const auto& aim : std::vector<std::vector<std::string>>{{"--k", "1e9"}, {"--k", "1e-9"}, {"--k", "0"},
             {"--reduced-pvc", "1e8"}, {"--reduced-pvc", "1e-8"}, {"--medium-ratio", "1e6 g/g"},
             {"--medium-ratio", "1e-6 g/g"}, {"--pvc", "1e-9 %"}, {"--pvc", "99.5 %"}}) {
        const auto run = batch(and_also({"ultramarine-oil", "--pigment", "10 g"}, aim));
        check_refused(run, "out-of-range", "hint:");
        CHECK_THAT(run.err, Contains(aim[0] + " \"" + aim[1] + "\": must be 0.")); // which option, and what it may be
    }
    check_refused(batch({"ultramarine-oil", "--pigment", "1 ug"}), "out-of-range", "pigment to weigh");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--fill", "ten half-pan"}), "fill-form", "10 half-pan");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--fill", "10 halfpan"}), "id-unknown", "half-pan");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--fill", "0 half-pan"}), "fill-form");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--stock", "linseed-oil 3 g"}), "stock-form");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--stock", "honey: 3 g"}), "stock-not-used",
                  "linseed-oil");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--pigment", "6", "g"}), "argument-extra", "quotes");
    check_refused(batch({"--lst"}), "option-unknown", "--list");
    check_refused(batch({"lake-oil-tube", "--jar"}), "option-value", "--help");
    check_refused(batch({"lake-oil-tube", "--jar", "nowhere.yaml"}), "file-missing");
    check_refused(batch({"lake-oil-tube", "--jar", jar, "--medium", "linsed"}), "id-unknown", "linseed");
    check_refused(batch({"lake-oil-tube", "--shelf", "/nowhere/at/all"}), "shelf-missing");
}

TEST_CASE("JSON and sheet carry the same weighings", "[cli]") {
    const auto sheet = batch(weld_in_oil).out;
    const auto json = nlohmann::json::parse(batch(and_also(weld_in_oil, {"--json"})).out);
    for (const auto& line : json["batch"]["weigh"])
        CHECK_THAT(sheet, Contains(mass_text(grams(line["rounded_g"].get<double>()),
                                             grams(line["scale_step_g"].get<double>()))));
}

TEST_CASE("The moisture of the jar changes what is weighed, and damp powder is not for oil", "[cli]") {
    TempDir dir;
    const auto sheet = [&dir](const std::string& recipe, const std::string& moisture) {
        const auto jar = dir.write("jar.yaml", "kind: jar\nname: Damp lake\npigment: alumina-lake\nnet_mass: 24 g\n"
                                               "moisture: " + moisture + "\n");
        return batch({recipe, "--jar", jar, "--pigment", "6 g", "--json"});
    };
    const auto oil = [&](const std::string& moisture) {
        const auto run = sheet("lake-oil-tube", moisture);
        INFO(run.err);
        REQUIRE(run.status == 0);
        return nlohmann::json::parse(run.out)["batch"]["medium_g"].get<double>();
    };
    // The dry matter takes the oil: 98 and 78 parts in a hundred, against 85 in the library.
    CHECK(oil("2 % w/w") / oil("15 % w/w") == Approx(98.0 / 85.0).epsilon(1e-6));
    CHECK(oil("22 % w/w") / oil("15 % w/w") == Approx(78.0 / 85.0).epsilon(1e-6));
    const auto damp = sheet("lake-oil-tube", "30 % w/w");
    CHECK(damp.status == 2);
    CHECK_THAT(damp.err, Contains("dry it first"));
    CHECK(sheet("lake-watercolour-half-pans", "30 % w/w").status != 2);
    const auto paste = sheet("lake-watercolour-half-pans", "90 % w/w");
    CHECK(paste.status == 2);
    CHECK_THAT(paste.err, Contains("0 to 50 % w/w"));
}

TEST_CASE("A medium of another kind of paint is refused, and those that fit are listed", "[cli]") {
    auto arguments = weld_in_oil;
    arguments.insert(arguments.end(), {"--medium", "gum-water"});
    const auto run = batch(arguments);
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains("[medium-unfit]") && Contains("linseed, linseed-stand") && !Contains("yolk"));
}
