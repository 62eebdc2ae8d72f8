// Corners of records and of what is asked of them: which paint before tells the medium, what a jar that rests says, where a fault
// of a bath's plan stands, and which cells of a table are marked.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

#include "faults_of.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/family_file.hpp"
#include "lakebound/shelf/ingredient_file.hpp"
#include "lakebound/shelf/powder_habits_file.hpp"
#include "lakebound/shelf/search_path.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/typed_bath.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "own_studio.hpp"
#include "small_shelf.hpp"
#include "support/example_paint.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// "id line:column+span message; hint" of each fault.
std::string marked(const std::vector<Diagnostic>& faults) {
    std::string text;
    for (const auto& fault : faults)
        text += (text.empty() ? "" : " | ") + fault.id + " " + std::to_string(fault.at.place.line) + ":" + std::to_string(fault.at.place.column) + "+" +
                std::to_string(fault.at.span_length) + " " + fault.message + "; " + fault.hint;
    return text;
}

std::string table_marked(const std::string& text) {
    return marked(faults_of([&] { (void)read_sieve_test(parse_sieve_csv(check_text("trial.csv", text)), "trial"); }));
}

} // namespace

TEST_CASE("another family of the same kind tells the medium, the last one first", "[unit]") {
    OwnStudio own;
    RecordWish wish;
    wish.today = studio_today;
    const auto medium_as = [&](const char* family) {
        wish.family = family;
        return jar_story(own.read(), 0, studio_bench(), false, own.library, wish).medium_id;
    };
    REQUIRE(medium_as("watercolour-tube") == "gum-glycerol-honey"); // the usual one
    REQUIRE(medium_as("egg-tempera") != "gum-water");
    const std::string tempera = medium_as("egg-tempera");
    own.write(typed_swatch(own.context("2026-06-01"), "0.20 g, 0.80 g: chalks", "gouache", "gum-water"), "2026-06-01");
    CHECK(medium_as("watercolour-tube") == "gum-water");
    CHECK(medium_as("egg-tempera") == tempera); // of another kind
    own.write(typed_swatch(own.context("2026-06-02"), "0.20 g, 0.80 g: chalks", "watercolour-pan", "gum-glycerol-honey"), "2026-06-02");
    CHECK(medium_as("watercolour-tube") == "gum-glycerol-honey");
    CHECK(medium_as("gouache") == "gum-water");
    own.write(typed_mixed(own.context("2026-06-03"), "2.00 g, 7.00 g", "gouache", own.library.medium("gum-water")), "2026-06-03");
    CHECK(medium_as("watercolour-tube") == "gum-water");
}

TEST_CASE("a batch of less than a gram of medium is asked about like any other", "[unit]") {
    OwnStudio own;
    own.write(typed_mixed(own.context("2026-05-02"), "0.20 g, 0.70 g", "watercolour-pan", own.library.medium("gum-water")), "2026-05-02");
    const auto question = poured_question(own.read(), own.story(), "0.80 g", own.library);
    CHECK(in_grams(question.planned) == Approx(.7));
    CHECK(in_grams(question.poured) == Approx(.8));
    // 0.9 g of a lake in oil: less than a gram of medium is kept with its batch.
    auto request = example_request(Process::oil, grams(.9));
    const Batch batch = *size_batch(request).batch;
    const std::string text = kept_batch(own.context("2026-05-03"), request, batch, 0, .0001).text;
    CHECK(text.find("\nmedium: linseed\nmedium_mass: 0.") != std::string::npos);
    CHECK(text.find("\nk_spread: 0.00010000\n") != std::string::npos);
}

TEST_CASE("what a jar's record learned is taken up where the paint is of it, and of nothing else", "[unit]") {
    OwnStudio own;
    own.write(typed_rub_out(own.context("2026-05-02"), "2.00 g, 1.56 g", {}), "2026-05-02");
    const auto asked = [&](void (*change)(PaintTexts&)) {
        PaintTexts texts;
        texts.recipe = "lake-watercolour-half-pans", texts.jar = "jars/weld.yaml";
        change(texts);
        std::optional<JarOutlook> outlook;
        const auto question = paint_question(texts, own.library, []() -> std::string { return {}; }, &outlook);
        CHECK(outlook.has_value() == question.request.learned_doubt.has_value());
        return question;
    };
    CHECK(asked([](PaintTexts&) {}).request.learned_doubt.has_value());
    const auto resting = asked([](PaintTexts& t) { t.jar_may_rest = true; });
    CHECK_FALSE(resting.request.learned_doubt);
    CHECK_FALSE(resting.request.jar);
    CHECK_FALSE(asked([](PaintTexts& t) { t.without_record = true; }).request.learned_doubt);
    CHECK_FALSE(asked([](PaintTexts& t) { t.oil_absorptions = {"68 g/100g"}; }).request.learned_doubt);
    CHECK_FALSE(asked([](PaintTexts& t) { t.jar.reset(), t.recipe.reset(), t.pigments = {"alumina-lake: 10 g"}, t.binders = {"linseed: 9 g"}; }).request.learned_doubt);
}

TEST_CASE("a fault of a bath's plan stands at the key that it is of", "[errors]") {
    Library library = shipped_library();
    const auto told = [&](const std::string& lines) { return marked(faults_of([&] { (void)read_bath(load_document("b.yaml", "kind: bath\nname: B\n" + lines), library); })); };
    const auto place = [&](const std::string& lines) { const std::string all = told(lines); return all.substr(0, all.find(' ', all.find(' ') + 1)); };
    CHECK(place("alum: chalk, 50 g\nalkali: soda-ash\n") == "out-of-range 3:7+11");
    CHECK(place("alum: potash-alum, 50 g\nalkali: potash-alum\n") == "out-of-range 4:9+11");
    CHECK(place("alum: potash-alum\nalkali: soda-ash\n") == "out-of-range 1:1+10"); // the size of the bath is no key
    CHECK(place("alum: potash-alum\nlake: 10 g\nalkali: chalk\n") == "out-of-range 4:7+4");
    CHECK(place("alum: potash-alum, 50 g\nalkali: soda-ash\nvessel: 0.5 L\n") == "out-of-range 5:9+5");
    CHECK(place("plant: 100 g dry root\nalum: potash-alum, 50 g\nalkali: soda-ash\npot: 0.1 L\n") == "out-of-range 6:6+5");
    CHECK(place("alum: potash-alum, 50 g\nalkali: soda-ash\nwater: 0 L\n") == "out-of-range 5:8+3");
    CHECK(place("alum: potash-alumm, 50 g\nalkali: soda-ash\n") == "id-unknown 3:7+18");
    CHECK(place("alum: potash-alum, 50 g\nalkali: soda\n") == "salt-hydrate 4:9+4");
    CHECK(place("alum: potash-alum, 50 g\n") == "alkali-missing 1:1+10");
    CHECK(place("alum: potash-alum, 50 g\nalkali: soda-ash\nwater-ph: '15, pen'\n") == "ph-impossible 5:11+9");
    CHECK(place("alum: potash-alum, 50 g\nalkali: soda-ash\nweighed: 10\n") == "unit-missing 5:10+2");
    CHECK(place("alum: potash-alum, 50 g\nalkali: soda-ash\nplant: 100 g dry twig\n") == "bath-typed 5:8+14");
    CHECK(place("alum: potash-alum, 50 g\nalkali: soda-ash\nhue: ''\n") == "value-missing 5:6+2");
}

TEST_CASE("a cell of a table is marked from its first sign to its last", "[errors]") {
    const std::string comma = " commas part the columns here, so a comma cannot be the decimal sign; write ";
    CHECK(table_marked("mass,screen\n1,25 g,75 um\n2 g,pan\n") == "number-comma 2:1+6" + comma + "'1.25 g'");
    CHECK(table_marked("mass,screen\n  11 ,  25 g ,75 um\n2 g,pan\n") == "number-comma 2:3+10" + comma + "'11.25 g'");
    CHECK(table_marked("screen,mass\n75 um,\"1\",\"25 g\"\npan,2 g\n") == "number-comma 2:7+10" + comma + "'1.25 g'");
    CHECK(table_marked("screen,gross,tare\n75 um,3 g,1,5 g\npan,2 g,1 g\n") == "number-comma 2:11+5" + comma + "'1.5 g'");
    CHECK(table_marked("mass,screen\n,75 um\n2 g,pan\n") == "csv-columns 2:2+5 the column 'mass' is missing in this row; fill it in");
    CHECK(table_marked("tare,gross,screen\n,3 g,75 um\n1 g,2 g,pan\n") == "csv-columns 2:6+5 the column 'tare' is missing in this row; fill it in");
    CHECK(table_marked("tare,gross,screen\n1 g,,75 um\n1 g,2 g,pan\n") == "csv-columns 2:6+5 the column 'gross' is missing in this row; fill it in");
    for (const std::size_t more : {1u, 2u, 3u, 4u, 5u, 6u, 7u}) { // too many, the last of them ending in a digit
        std::string row = "75 um,1 g";
        for (std::size_t i = 0; i < more; ++i)
            row += ",x" + std::to_string(i);
        CHECK(table_marked("screen,mass\n" + row + "\npan,2 g\n") == "csv-columns 2:11+2 this cell belongs to no column; the header has 2 columns");
    }
    CHECK(table_marked("screen,mass\n75 um,  \"1\"\"25\n") == "csv-quote 2:9+6 this quote is never closed; close it, or leave quotes out: they are needed only round commas");
    CHECK(table_marked("screen,mass\n75 um, \"1 g\"  xyz ,\n") == "csv-quote 2:15+5 something stands between the closing quote and the comma; delete it");
    CHECK(table_marked("screen,\"\"\n75 um,1 g\n").starts_with("csv-header 1:8+2 there is no column ''; "));
    CHECK(table_marked("screen,  weight \n75 um,1 g\n").starts_with("csv-header 1:10+6 there is no column 'weight'; "));
    CHECK(table_marked("screen\n75 um\n").starts_with("csv-header 1:6+1 the column 'mass' is missing; "));
    CHECK(table_marked(" gross , screen \n75 um\n").starts_with("csv-header 1:15+1 the column 'tare' is missing; "));
    CHECK(table_marked("# screen,mass\n# nothing\n").starts_with("csv-header 2:1+9 ")); // the last line is the header
    CHECK(table_marked("# mine\n\nscreen,mass\n").starts_with("key-missing 3:1+6 "));
    CHECK(table_marked("  a;b \n").starts_with("csv-separator 1:3+3 columns are parted by commas, not semicolons; "));
    CHECK(table_marked("screen,mass\n75 um,1 g\npan,2 g\npan,3 g\n") == "csv-row 4:1+3 the row 'pan' stands here twice; keep the one that is right");
    CHECK(table_marked("screen,mass\n75 um,1 g\n" + std::string("\"p a n\",2 g\n")).starts_with("csv-row 3:1+7 'p a n' is no screen and no row known here; "));
    CHECK(table_marked("screen,mass\n75 um,1 g\n  , 2 g\n") == "csv-columns 3:3+1 this row does not say which screen it is; write the screen in the column 'screen'");
}

TEST_CASE("a whole name counts the number of the next entry, whatever follows it", "[unit]") {
    const TempDir dir;
    std::filesystem::create_directories(dir.path() / "weld");
    dir.write("weld/2026-05-03-123.yaml", "x"); // a person's, without what it tells
    CHECK(write_entry_file(dir.file("weld"), "2026-05-03", "note", "x") == dir.file("weld/2026-05-03-124-note.yaml"));
    dir.write("weld/2026-05-04-7-n.yaml", "x");
    CHECK(write_entry_file(dir.file("weld"), "2026-05-04", "note", "x") == dir.file("weld/2026-05-04-08-note.yaml"));
}

TEST_CASE("a shelf of the environment may be called by one letter", "[unit]") {
    const TempDir dir;
    const InFolder here(dir.path());
    for (const char* name : {"a", "b", "cc"})
        std::filesystem::create_directory(name);
    SearchInputs inputs;
    inputs.lakebound_shelf = "a::cc:b:";
    inputs.xdg_data_dirs = "relative";
    std::string order;
    for (const ShelfFolder& folder : search_path(inputs))
        order += folder.path + " ";
    CHECK(order == "a cc b ");
    // Beside the program, and where it is installed.
    const auto shipped = search_inputs({}).shipped;
    REQUIRE(shipped.size() == 2);
    for (const auto& each : shipped)
        CHECK(each.ends_with("/lakebound/formulations"));
    CHECK(shipped[0].starts_with(std::filesystem::read_symlink("/proc/self/exe").parent_path().parent_path().string() + "/share/"));
    CHECK(shipped[1].starts_with("/"));
}

TEST_CASE("the first sign of a file is looked at like every other", "[errors]") {
    const auto told = [](const std::string& bytes) { return marked(faults_of([&] { (void)check_text("f.yaml", bytes); })); };
    CHECK(told("\x01" "a: 1\n") == "text-control 1:1+1 control character U+0001; delete it");
    CHECK(told("\xFF" "a: 1\n").starts_with("text-utf8 1:1+1 "));
    CHECK(told("\ta: 1\n").starts_with("text-tab 1:1+1 "));
    CHECK(told("\xC2\xA0" "a: 1\n").starts_with("text-odd-space 1:1+1 "));
    CHECK(told("\xEF\xBB\xBF\xEF\xBB\xBF" "a: 1\n").starts_with("text-mark-inside 1:1+1 "));
    CHECK(told("\r").starts_with("text-control 1:1+1 "));
    CHECK(told("a: 1\xFF").starts_with("text-utf8 1:5+1 "));
    CHECK(told("a: 1\xFF\n\xFF").starts_with("text-utf8 1:5+1 "));
    CHECK(told("a").empty());
    CHECK(told("\xE2\x80\xAE").starts_with("text-control 1:1+1 invisible character U+202E; "));
}

TEST_CASE("a medium that is on the shelf no more, or was not told, leaves the usual one", "[unit]") {
    OwnStudio own;
    std::filesystem::create_directories("records/weld");
    const auto medium = [&](const char* keys) {
        std::ofstream("records/weld/2026-05-03-01-batch.yaml") << "kind: entry\njar: weld\ndate: 2026-05-03\nwhat: batch\nfamily: watercolour-pan\npigment: 2.0 g\ndry_binder: 1.5 mL\nk_spread: 0.02\n" << keys;
        return own.story().medium_id;
    };
    CHECK(medium("") == "gum-glycerol-honey");
    CHECK(medium("medium: of-old\n") == "gum-glycerol-honey");
    CHECK(medium("medium: gum-water\n") == "gum-water");
}

TEST_CASE("a recipe of several pigments is none to weigh a jar's paint out by", "[unit]") {
    OwnStudio own;
    std::filesystem::create_directories("records/weld");
    const auto offered = [&](const char* recipe, const char* family) {
        std::ofstream("records/weld/2026-05-03-01-batch.yaml")
            << "kind: entry\njar: weld\ndate: 2026-05-03\nwhat: batch\nfamily: oil\npigment: 2.5 g\nmedium: linseed\ndry_binder: 1.7 mL\nk_spread: 0.02\nrecipe: " << recipe << "\n";
        RecordWish wish;
        wish.today = studio_today, wish.wanted = Probability::of(.1), wish.family = family;
        const JarStory story = jar_story(own.read(), 0, studio_bench(), false, own.library, wish);
        CHECK(story.outlook.coaching.advice != CoachAdvice::measure);
        return story.recipe_id;
    };
    CHECK(offered("lake-oil-with-wax", "oil") == "lake-oil-with-wax"); // the last one's
    REQUIRE(own.library.recipe("lake-chalk-oil", &own.jar).pigments.size() == 2);
    CHECK(offered("lake-chalk-oil", "oil") == "lake-oil-tube");
    CHECK(offered("no-such-recipe", "oil") == "lake-oil-tube");
    CHECK(offered("lake-oil-with-wax", "watercolour-pan") != "lake-oil-with-wax"); // of another family
}

TEST_CASE("each option that a recipe or a sheet already answers is told by its name", "[errors]") {
    const SmallShelf shelf;
    auto library = shelf.library();
    shelf.dir().write("recipes/two.yaml", changed(plain_recipe, "pigment: jar", "pigment: other-lake"));
    shelf.dir().write("pigments/other-lake.yaml", plain_pigment);
    const auto asked = [&](void (*change)(PaintTexts&), const std::string& input = "") {
        PaintTexts texts;
        texts.recipe = input.empty() ? "two" : "-";
        change(texts);
        return paint_question(texts, library, [&] { return input; });
    };
    const auto told = [&](void (*change)(PaintTexts&), const std::string& input = "") {
        const auto faults = faults_of([&] { (void)asked(change, input); });
        return faults.empty() ? std::string() : faults[0].id + ": " + faults[0].message;
    };
    CHECK(told([](PaintTexts&) {}).empty());
    CHECK(told([](PaintTexts& t) { t.pigments = {"x"}; }) == "option-conflict: a recipe and '--pigment' cannot both be met");
    CHECK(told([](PaintTexts& t) { t.binders = {"x"}; }) == "option-conflict: a recipe and '--binder' cannot both be met");
    CHECK(told([](PaintTexts& t) { t.parts = "x"; }) == "option-conflict: a recipe and '--parts' cannot both be met");
    CHECK(told([](PaintTexts& t) { t.paste = "x"; }) == "option-conflict: a recipe and '--paste' cannot both be met");
    // Of two pigments a figure must say whose it is.
    CHECK(told([](PaintTexts& t) { t.densities = {"2.5 g/cm3"}; }).starts_with("label-missing: "));
    const auto one = asked([](PaintTexts& t) { t.densities = {"other-lake: 2.5 g/cm3"}; }).request.recipe.pigments;
    CHECK(in_grams_per_cubic_centimetre(one.at(0).pigment.density.value()) == Approx(2.5));
    CHECK(in_grams_per_cubic_centimetre(one.at(1).pigment.density.value()) == Approx(1.9));
    const std::string sheet = R"( 	
{"schema_version": 4, "kind": "batch", "recipe": {"id": "p", "name": "P", "family": "test-family", "medium": "gum-water"},
"pigments": [{"id": "test-lake", "name": "T", "class": "lake", "density_state": "as weighed",
 "density_g_per_cm3": {"value": 1.9, "standard_uncertainty": 0.1, "provenance": {"origin": "estimate"}},
 "oil_absorption_g_per_100g": {"value": 65, "standard_uncertainty": 6.5, "provenance": {"origin": "measured"}},
 "test_oil_density_g_per_cm3": {"value": 0.93, "standard_uncertainty": 0, "provenance": {"origin": "estimate"}}}],
"batch": {"weigh": [{"part": "pigment", "id": "test-lake", "exact_g": 4, "to_weigh_g": 4, "rounded_g": 4},
 {"part": "medium", "id": "gum-water", "exact_g": 16, "to_weigh_g": 16, "rounded_g": 16}]}})";
    const std::string plain_sheet = sheet.substr(sheet.find('{'));
    CHECK(in_grams(asked([](PaintTexts&) {}, plain_sheet).pigment) == Approx(4.0));
    CHECK(in_grams(asked([](PaintTexts&) {}, " \n \n" + plain_sheet).pigment) == Approx(4.0));
    CHECK(told([](PaintTexts&) {}, sheet).starts_with("text-tab: ")); // a tab before it is told as one
    const std::string unread = "option-unread: '", says = "' would not be read: a weigh sheet says what went in, of what kind of paint";
    CHECK(told([](PaintTexts& t) { t.total = "1 g"; }, plain_sheet) == unread + "--total" + says);
    CHECK(told([](PaintTexts& t) { t.used = "1 g"; }, plain_sheet) == unread + "--used" + says);
    CHECK(told([](PaintTexts& t) { t.family = "oil"; }, plain_sheet) == unread + "--family" + says);
    CHECK(in_grams_per_cubic_centimetre(asked([](PaintTexts& t) { t.densities = {"2.5 g/cm3"}; }, plain_sheet).request.recipe.pigments.at(0).pigment.density.value()) == Approx(2.5));
    for (const char* nothing : {" ", "\n", " \n "})
        CHECK(told([](PaintTexts&) {}, nothing).starts_with("file-empty: "));
}

TEST_CASE("shares make up the whole to a thousandth, and a spoon is a spoon", "[errors]") {
    const SmallShelf shelf;
    shelf.dir().write("bench.yaml", std::string(plain_bench) + "teaspoon: 5 mL\n");
    auto library = shelf.library();
    const auto asked = [&](const std::vector<std::string>& pigments, const std::vector<std::string>& binders, const std::optional<std::string>& used = {}, const std::optional<std::string>& parts = {}) {
        PaintTexts texts;
        texts.pigments = pigments, texts.binders = binders, texts.used = used, texts.parts = parts, texts.family = "test-family";
        texts.oil_absorptions = {"chalk: 20 g/100g"}, texts.densities = {"chalk: 2.7 g/cm3"};
        if (pigments.size() == 1) texts.oil_absorptions.clear(), texts.densities.clear();
        if (pigments[0].ends_with("w/w")) texts.total = "10 g";
        return paint_question(texts, library, []() -> std::string { return {}; });
    };
    const auto sum = [&](const char* share) {
        const auto faults = faults_of([&] { (void)asked({"test-lake: 60 % w/w", std::string("chalk: ") + share}, {"gum-water: 40 g"}); });
        return faults.empty() ? std::string() : faults[0].message;
    };
    CHECK(sum("40.09 % w/w").empty());
    CHECK(sum("39.91 % w/w").empty());
    CHECK(sum("40.11 % w/w").starts_with("the shares of the pigments add up to "));
    CHECK(sum("39.89 % w/w").starts_with("the shares of the pigments add up to "));
    const double filling = library.practice().spoon_filling;
    CHECK(asked({"test-lake: 10 g"}, {"gum-water: 10 mL"}).request.medium_spooned == 0.0);
    CHECK(asked({"test-lake: 10 g"}, {"gum-water: 2 tsp"}).request.medium_spooned == Approx(filling));
    CHECK(asked({"test-lake: 10 g"}, {"gum-water"}, "10 mL").request.medium_spooned == 0.0);
    CHECK(asked({"test-lake: 10 g"}, {"gum-water"}, "10 g").request.medium_spooned == 0.0);
    CHECK(asked({"test-lake: 10 g"}, {"gum-water"}, "2 tsp").request.medium_spooned == Approx(filling));
    const auto title = [&](const char* parts) { return asked({"test-lake"}, {"gum-water"}, {}, parts).title; };
    CHECK(title("1.1 binder : 1 pigment by weight").ends_with("(1.1 parts of binder to 1 part of pigment, by weight)"));
    CHECK(title("0.9 binder : 2 pigment by weight").ends_with("(0.9 part of binder to 2 parts of pigment, by weight)"));
}

TEST_CASE("what hardly stays in a film has a density all the same, and a start near nothing lies outside", "[errors]") {
    const auto ingredient = [](const char* stays) {
        std::string text = changed(plain_water, "value: 0 % w/w", std::string("value: ") + stays);
        return marked(faults_of([&] { (void)read_ingredient(load_document("i.yaml", text), "i"); }));
    };
    CHECK(ingredient("0 % w/w").empty());
    CHECK(ingredient("0.01 % w/w").starts_with("solids-density-missing 5:"));
    const auto family = [](const char* start) { return marked(faults_of([&] { (void)read_family(load_document("f.yaml", changed(plain_family, "start: 1.4", std::string("start: ") + start)), "f"); })); };
    CHECK(family("0.0005").starts_with("window-order 4:8+6 the start lies outside the window; "));
    CHECK(family("0.999").starts_with("window-order 4:8"));
    CHECK(family("1.0").empty());
    CHECK(family("2.4").empty());
    CHECK(family("2.401").starts_with("window-order 4:8"));
    std::string powder = read_bytes(std::string(LAKEBOUND_FORMULATIONS_DIR) + "/habits/powder.yaml");
    const auto at = powder.find("\ncushioning:"), from = powder.find("value: ", at) + 7;
    const auto cushioning = [&](const char* value) {
        std::string text = powder;
        text.replace(from, text.find_first_of(",\n", from) - from, value);
        const auto faults = faults_of([&] { (void)read_powder_habits(load_document("p.yaml", text)); });
        return faults.empty() ? std::string() : faults[0].message;
    };
    CHECK(cushioning("0.5 +- 0.0005").empty());
    CHECK(cushioning("0 +- 0.0005").empty());
    CHECK(cushioning("0.5") == "the cushioning must have an uncertainty");
}
