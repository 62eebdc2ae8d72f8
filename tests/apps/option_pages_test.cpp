// The command line to the letter, and what is made of its table of options.

#include "common/option_pages.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <regex>

#include "bath.hpp"
#include "common/run_app.hpp"
#include "grind.hpp"
#include "jar.hpp"
#include "run.hpp"
#include "settle.hpp"
#include "sieve.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

const std::vector<std::string> an_oil{"lake-oil-tube", "--jar", studio("jars/weld.yaml"), "--shelf", shipped(""),
                                      "--pigment", "6 g"};

std::size_t escapes(const std::string& text) { return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\x1b')); }

} // namespace

TEST_CASE("Two dashes end the options", "[cli]") {
    const auto plain = batch(an_oil);
    REQUIRE(plain.status == 0);
    const auto dashed = batch({"--jar", studio("jars/weld.yaml"), "--shelf", shipped(""), "--pigment", "6 g", "--", "lake-oil-tube"});
    CHECK(dashed.err == "");
    CHECK(dashed.out == plain.out);
    // What follows is no option, though it looks like one.
    check_refused(batch({"--", "--json", "--k"}), "argument-extra");
    check_refused(batch({"--shelf", shipped(""), "--", "--json"}), "id-form"); // the name of a recipe, and in no JSON
}

TEST_CASE("A dash for a file is standard output", "[cli]") {
    const TempDir folder;
    const InFolder stand(folder.path());
    const auto plain = batch(an_oil);
    for (const auto& how : {std::vector<std::string>{"-o", "-"}, {"--output=-"}, {"-o-"}}) {
        const auto run = batch(and_also(an_oil, how));
        CHECK(run.status == 0);
        CHECK(run.out == plain.out);
        CHECK(batch(and_also(an_oil, how), {}, true).out == batch(an_oil, {}, true).out); // with its colours
    }
    CHECK_FALSE(std::filesystem::exists("-"));
    check_refused(batch(and_also(an_oil, {"--page", "-"})), "page-output", "--page sheet.html");
}

TEST_CASE("Nothing typed gives a short help, and is no answer", "[cli]") {
    const std::vector<std::string> nothing;
    for (const auto run : {run_batch, run_pvc, run_jar, run_sieve, run_grind, run_settle}) {
        const auto said = run_command(run, nothing);
        CHECK(said.status == 2);
        CHECK(said.out.empty());
        CHECK_THAT(said.err, Contains("\nExample:\n  lakebound-") && Contains("Usage: ") && Contains("--help' lists the options\n"));
        CHECK(std::count(said.err.begin(), said.err.end(), '\n') < 12);
    }
}

TEST_CASE("Colours can be done without", "[cli]") {
    CHECK(escapes(batch(an_oil, {}, true).out) > 0);
    CHECK(batch(and_also(an_oil, {"--no-color"}), {}, true).out == batch(an_oil).out);
}

TEST_CASE("The beginning of an option is known again", "[cli]") {
    check_refused(batch({"--pig", "6 g"}), "option-unknown", "did you mean '--pigment'?");
    check_refused(batch({"--me", "x"}), "option-unknown", "did you mean '--medium-ratio', '--medium'?");
    check_refused(batch({"--pigmant", "6 g"}), "option-unknown", "did you mean '--pigment'?");
}

TEST_CASE("A comma in a number is answered with what to type", "[cli]") {
    check_refused(batch({"lake-oil-tube", "--jar", studio("jars/weld.yaml"), "--shelf", shipped(""), "--pigment", "12,5 g"}), "number-comma",
                  "write '12.5 g'");
}

TEST_CASE("A shipped studio goes by its name", "[cli]") {
    const auto path = batch({"lake-oil-tube", "--jar", "weld", "--shelf", studio(""), "--pigment", "6 g"});
    REQUIRE(path.status == 0);
    const TempDir folder;
    const InFolder stand(folder.path());
    CHECK(batch({"lake-oil-tube", "--jar", "weld", "--shelf", "reedmere", "--pigment", "6 g"}).out == path.out);
    check_refused(batch({"--list", "--shelf", "reedmer"}), "shelf-missing");
}

TEST_CASE("What is in a recipe, a medium and a family is shown with where it is from", "[cli]") {
    const auto shown = [](const std::string& id) { return batch({"--show", id, "--shelf", shipped("")}); };
    const auto medium = shown("gum-water");
    CHECK(medium.status == 0);
    CHECK_THAT(medium.out, Contains("ingredient gum-arabic, parts 1") && Contains("published [1]") && Contains("[1]           gum-water-recipe"));
    const auto family = shown("oil"); // a family and a target of fineness
    CHECK_THAT(family.out, Contains("window: green low") && Contains("1.15") && Contains("estimate [") && Contains("judgement") &&
                               Contains("published [") && Contains("linseed-film-study") && Contains("FAMILY") && Contains("FINENESS TARGET"));
    CHECK_THAT(shown("lake-oil-tube").out, Contains("linseed") && Contains("aim: k"));
    check_refused(shown("gum-watr"), "id-unknown", "did you mean 'gum-water'");
    const auto json = batch({"--show", "gum-water", "--json", "--shelf", shipped("")});
    CHECK(json.status == 0);
    CHECK_THAT(json.out, Contains("\"kind\": \"shelf_files\"") && Contains("\"text\": \"ingredient gum-arabic, parts 1\"") &&
                             Contains("\"source\": \"gum-water-recipe\""));
}

TEST_CASE("The names of a kind, for completions", "[cli]") {
    CHECK(batch({"--names", "vessels", "--shelf", shipped("")}).out.find("half-pan\n") != std::string::npos);
    CHECK(batch({"--names", "jars", "--shelf", studio("")}).out == "madder\nweld\n");
    const auto all = batch({"--names", "shown", "--shelf", studio("")}).out; // each once, though family and target are both oil
    CHECK_THAT(all, Contains("\noil\n") && Contains("\ngum-water\n") && Contains("\nweld\n"));
    CHECK(all.find("\noil\n") == all.rfind("\noil\n"));
    CHECK(batch({"--names", "nothing", "--shelf", shipped("")}).out.empty());
}

TEST_CASE("Pages of options are made of the one table", "[cli]") {
    const auto help = batch({"--help"}).out;
    const auto man = batch({"--written-as", "man", "lakebound-batch", "lakebound-jar"}).out;
    const auto bash = batch({"--written-as", "bash"}).out, zsh = batch({"--written-as", "zsh"}).out,
               fish = batch({"--written-as", "fish"}).out;
    std::size_t options = 0;
    for (std::size_t at = help.find("\n  --"); at != std::string::npos; at = help.find("\n  --", at + 1)) {
        const auto name = help.substr(at + 5, help.find_first_of(" ,\n", at + 5) - at - 5);
        INFO(name);
        ++options;
        CHECK_THAT(bash, Contains("--" + name));
        CHECK_THAT(zsh, Contains("--" + name + "["));
        CHECK_THAT(fish, Contains("-l " + name));
        std::string in_roff = name;
        for (std::size_t dash = 0; (dash = in_roff.find('-', dash)) != std::string::npos; dash += 2)
            in_roff.insert(dash, "\\");
        CHECK_THAT(man, Contains("\\-\\-" + in_roff + "\\fR"));
    }
    CHECK(options > 20);
    CHECK_THAT(man, Contains(".SH EXIT STATUS\n0 answered") && Contains(".BR lakebound\\-jar (1)") && Contains("LAKEBOUND_SHELF"));
    CHECK_THAT(bash, Contains("--jar)\n        _lakebound_batch_names jars"));
    check_refused(batch({"--written-as", "smoke"}), "option-value");
}

TEST_CASE("The example of each help works as it is typed, wherever one stands", "[cli]") {
    const TempDir folder;
    const InFolder stand(folder.path());
    for (const auto run : {run_batch, run_pvc, run_jar, run_sieve, run_grind, run_settle}) {
        const auto help = run_command(run, std::vector<std::string>{"--help"}).out;
        const auto begin = help.find("Example:\n  ") + 11;
        const auto line = help.substr(begin, help.find('\n', begin) - begin);
        std::vector<std::string> words(1);
        bool quoted = false;
        for (const char c : line) {
            if (c == '"') quoted = !quoted;
            else if (c == ' ' && !quoted) words.emplace_back();
            else words.back() += c;
        }
        words.erase(words.begin()); // the program
        const auto said = run_command(run, words);
        INFO(line << "\n" << said.err);
        CHECK(said.status < 2);
        CHECK(line.size() <= 78);
    }
}

TEST_CASE("The help repeats no figure of the shelf, and says what may be given more than once", "[cli]") {
    for (const auto run : {run_batch, run_pvc, run_jar, run_sieve, run_grind, run_settle, run_bath}) {
        const auto help = run_command(run, {"--help"}).out;
        INFO(help);
        CHECK_FALSE(std::regex_search(help, std::regex("else\\s+(about\\s+)?[0-9]|[0-9]\\s+[^ ]+\\s+if not given")));
        CHECK_THAT(std::regex_replace(help, std::regex("\\s+"), " "), Contains("studio by name: reedmere; may be repeated --no-color"));
    }
    const auto help = run_command(run_pvc, {"--help"}).out;
    std::size_t told = 0;
    for (auto at = help.find("may be"); at != std::string::npos; at = help.find("may be", at + 1))
        ++told;
    CHECK(told == 9); // --pigment, --binder, five figures of powders, --layer, --shelf
}

TEST_CASE("Faults fill the lines of a terminal, and what a file holds stays as it stands there", "[cli]") {
    const auto told = [](const std::vector<std::string>& arguments, std::size_t width) {
        std::istringstream in;
        std::ostringstream out, err;
        Streams streams{in, out, err};
        streams.error_width = width;
        CHECK(run_pvc(arguments, streams) == 2);
        return err.str();
    };
    const std::vector<std::string> stray{"--pigment", "alumina-lake: 10 g", "--binder", "linseed-oil: 9 g", "--sweep", "medium", "--accept", "5 %"};
    CHECK(told(stray, 60) == "command line: error: '--accept' would not be read: a sweep\n"
                             "  is a table, without a verdict [option-unread]\n"
                             "hint: leave it out, or ask in two commands\n");
    CHECK(told(stray, 0) == pvc(stray).err); // no terminal: a fault is one line
    const TempDir folder;
    const auto jar = folder.write("jar.yaml", "kind: jar\nname: Weld\npigment: alumina-lake\nnet_mass: 24 furlong                                and so on\n");
    const auto narrow = told({"--reading", jar}, 40), whole = told({"--reading", jar}, 0);
    INFO(narrow << whole);
    const auto at = whole.find("\n    1 | ");
    REQUIRE(at != std::string::npos);
    CHECK_THAT(narrow, Contains(whole.substr(at, whole.find("hint:") - at)));
}
