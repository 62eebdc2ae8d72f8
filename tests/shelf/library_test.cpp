#include "lakebound/shelf/library.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include "shelf/faults_of.hpp"
#include "shelf/small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("a shelf laid over another hides what has the same id", "[unit]") {
    const SmallShelf ours;
    const TempDir mine;
    mine.write("pigments/test-lake.yaml", changed(plain_pigment, "Test lake", "My lake"));
    mine.write("pigments/new-lake.yaml", plain_pigment);
    Library library({{mine.path().string(), "--shelf", true}, {ours.dir().path().string(), "shipped", true}});
    CHECK(library.pigment("test-lake").name == "My lake");
    CHECK(library.ingredient("water").name == "Water");
    CHECK(library.ids(ShelfKind::pigment) == std::vector<std::string>{"new-lake", "test-lake"});
    CHECK(library.describe_search() ==
          mine.path().string() + "  (--shelf)\n" + ours.dir().path().string() + "  (shipped)\n");
    CHECK(&library.pigment("test-lake") == &library.pigment("test-lake")); // read once
}

TEST_CASE("an id that the shelf has not is answered with the nearest names", "[errors]") {
    const SmallShelf shelf;
    Library library = shelf.library();
    auto faults = faults_of([&] { library.pigment("tset-lake"); });
    REQUIRE(summary(faults) == "id-unknown");
    CHECK(faults[0].at.place.path == "command line");
    CHECK(faults[0].hint == "did you mean 'test-lake'?");
    faults = faults_of([&] { library.pigment("Test Lake"); });
    REQUIRE(summary(faults) == "id-form");
    CHECK(faults[0].hint == "did you mean 'test-lake'?");
    for (const char* id : {"", "-", "a--b", "-a", "a-", "../pigments/test-lake", "a/b", "a.yaml", "ä", "A"})
        CHECK(!library.find(ShelfKind::pigment, id));
    CHECK(faults_of([&] { library.pigment("water"); }).at(0).hint == "'water' lies in the folder ingredients");
    Library empty({});
    CHECK(faults_of([&] { empty.pigment("test-lake"); }).at(0).hint ==
          "no shelf was found that has any; name one with --shelf");
    CHECK(empty.describe_search() == "no folder was searched\n");
}

TEST_CASE("recipes and jars are named by id or by path", "[unit]") {
    const SmallShelf shelf;
    Library library = shelf.library();
    const std::string path = shelf.dir().write("jars/weld.yaml", plain_jar);
    CHECK(library.jar(path).id == "weld");
    CHECK(library.jar("weld").id == "weld");
    CHECK(summary(faults_of([&] { library.jar("weld.yaml"); })) == "file-missing"); // a path, from here
    CHECK(!library.find_bench());
    shelf.dir().write("bench.yaml", plain_bench);
    CHECK(library.find_bench() == shelf.dir().file("bench.yaml"));
}

TEST_CASE("what a maker laid over the shelf is read or told, never passed over", "[errors]") {
    const SmallShelf shelf;
    const TempDir own;
    namespace fs = std::filesystem;
    fs::create_directories(own.path() / "pigments");
    const auto looked_up = [&] {
        Library library({{own.path().string(), "own", true}, {shelf.dir().path().string(), "shipped", true}});
        return library.find(ShelfKind::pigment, "test-lake").value_or("");
    };
    const auto file = own.path() / "pigments/test-lake.yaml";
    CHECK(looked_up().rfind(shelf.dir().path().string(), 0) == 0); // none of the maker's own: ours
    fs::create_symlink("nowhere.yaml", file);
    CHECK(looked_up() == file.string()); // a link to nowhere
    fs::remove(file);
    fs::create_symlink("test-lake.yaml", file);
    CHECK(looked_up() == file.string()); // a link to itself
    fs::remove(file);
    for (const char* near : {"Test-Lake.yaml", "test-lake.yml", "test_lake.yaml", "test lake.yaml"}) {
        std::ofstream(own.path() / "pigments" / near) << "kind: pigment\n";
        const auto faults = faults_of(looked_up);
        REQUIRE(summary(faults) == "shelf-near-miss");
        CHECK(faults[0].at.place.path == (own.path() / "pigments" / near).string());
        fs::remove(own.path() / "pigments" / near);
    }
    fs::remove_all(own.path() / "pigments");
    fs::create_symlink("pigments", own.path() / "pigments"); // a folder that is a loop
    CHECK(summary(faults_of(looked_up)) == "shelf-unusable");
    fs::remove(own.path() / "pigments");
    std::ofstream(own.path() / "pigments") << "a file\n"; // where a folder belongs
    CHECK(summary(faults_of(looked_up)) == "shelf-unusable");
    fs::remove(own.path() / "pigments");
    fs::create_symlink("nowhere", own.path() / "pigments"); // a link to no folder
    CHECK(summary(faults_of(looked_up)) == "shelf-unusable");
    fs::remove(own.path() / "pigments");

    Library bench({{own.path().string(), "own", true}});
    CHECK(!bench.find_bench());
    fs::create_symlink("nowhere.yaml", own.path() / "bench.yaml");
    CHECK(bench.find_bench() == (own.path() / "bench.yaml").string());
    fs::remove(own.path() / "bench.yaml");
    std::ofstream(own.path() / "Bench.yml") << "kind: bench\n";
    Library anew({{own.path().string(), "own", true}}); // a folder is looked into once
    CHECK(summary(faults_of([&] { anew.find_bench(); })) == "shelf-near-miss");
}

TEST_CASE("no name of a folder steers the terminal", "[errors]") {
    Library library({{"shelf\x1b[2J\nSHOULD HOLD", "test", false}});
    const auto text = library.describe_search();
    CHECK(text.find('\x1b') == std::string::npos);
    CHECK(text.find("\nSHOULD") == std::string::npos);
}

TEST_CASE("of many names alike three are told, of a longer one that begins alike that", "[errors]") {
    const SmallShelf shelf;
    for (const char* name : {"test-gum-a", "test-gum-b", "test-gum-c", "test-gum-d"})
        shelf.dir().write(std::string("ingredients/") + name + ".yaml", plain_gum);
    Library library = shelf.library();
    const auto hint = [&](const char* id) { return faults_of([&] { library.ingredient(id); }).at(0).hint; };
    CHECK(hint("test-gum-e-f") == "did you mean 'test-gum'?");
    CHECK(hint("test") == "did you mean 'test-gum', 'test-gum-a', 'test-gum-b'?");
    CHECK(hint("Test_Gum") == "did you mean 'test-gum'?");
    CHECK(hint("TEST GUM Z").find("names are file stems") == 0);
}

TEST_CASE("a file of the maker's own is looked for where it is typed, then on the shelf", "[unit]") {
    const SmallShelf shelf;
    const auto kept = shelf.dir().write("baths/one.yaml", "kind: bath\n");
    const Library library({{shelf.dir().path().string() + "/", "test", true}, {"/nowhere", "test", false}});
    CHECK(library.own_file("one.yaml", "baths") == kept);
    CHECK(library.own_file("two.yaml", "baths") == "two.yaml");
    CHECK(library.own_file("./one.yaml", "baths") == "./one.yaml");
    CHECK(library.own_file("-", "baths") == "-");
    CHECK(library.own_file("", "baths").empty());
}

TEST_CASE("a file whose name is none is told with the name that it must have", "[unit]") {
    const SmallShelf shelf;
    for (const char* name : {"-chalk-.yaml", "Zinc White.yml", "good.yaml", ".hidden.yaml", "\xC3\xA4.yaml", "note.md"})
        shelf.dir().write(std::string("pigments/") + name, plain_pigment);
    const auto text = shelf.library().describe_search();
    CHECK(text.find("not read: pigments/-chalk-.yaml; its name must be chalk.yaml\n") != std::string::npos);
    CHECK(text.find("not read: pigments/Zinc White.yml; its name must be zinc-white.yaml\n") != std::string::npos);
    CHECK(text.find("; names are small letters, digits and single hyphens\n") != std::string::npos);
    for (const char* quiet : {"good.yaml", "hidden", "note.md"})
        CHECK(text.find(quiet) == std::string::npos);
}

TEST_CASE("a name is of small letters, figures and single hyphens, and not too long", "[unit]") {
    for (const std::string& good : {std::string("a"), std::string("0"), std::string("z9"), std::string("a-b-c"), std::string(64, 'a')})
        CHECK(is_id(good));
    for (const std::string& none : {std::string(), std::string(65, 'a'), std::string("-a"), std::string("a-"), std::string("a--b"), std::string("a{"),
                                    std::string("a`"), std::string("a:"), std::string("a/b"), std::string("a_b"), std::string("A"), std::string("a.b")})
        CHECK_FALSE(is_id(none));
}

TEST_CASE("a folder that is not there is passed over, the root is a folder as any", "[unit]") {
    const SmallShelf shelf;
    const std::string there = shelf.dir().path().string() + "//";
    Library library({{"/nowhere", "test", false}, {"/", "test", true}, {there, "test", true}});
    CHECK(library.find(ShelfKind::pigment, "test-lake") == shelf.dir().file("pigments/test-lake.yaml"));
    CHECK(library.ids(ShelfKind::pigment) == std::vector<std::string>{"test-lake"});
    CHECK_FALSE(library.find_bench());
    CHECK(library.own_file("one.yaml", "baths") == "one.yaml");
    shelf.dir().write("bench.yaml", plain_bench);
    CHECK(library.find_bench() == shelf.dir().file("bench.yaml"));
    CHECK(&library.ingredient("water") == &library.ingredient("water"));
    CHECK(&library.family("test-family") == &library.family("test-family"));
    CHECK(&library.vessel("test-pan") == &library.vessel("test-pan"));
    CHECK(&library.medium("gum-water") == &library.medium("gum-water"));
    CHECK(library.jar_path("-") == "-");
    CHECK(library.jar_path("a/b") == "a/b");
    CHECK(summary(faults_of([&] { (void)library.jar_path(".yaml"); })) == "id-form"); // no more than an ending
}

TEST_CASE("names that mean a file but are written otherwise are told by what they mean", "[unit]") {
    const SmallShelf shelf;
    for (const char* name : {".yaml", "-.yaml", "--.yaml", "weld-.yaml", "-weld.yml.txt", "Rose Madder.yaml.txt", "Ochre.YML", "Ordinary@.yaml"})
        shelf.dir().write(std::string("pigments/") + name, plain_pigment);
    const auto told = shelf.library().describe_search();
    const std::string rest = told.substr(told.find('\n') + 1);
    const std::string other = "; names are small letters, digits and single hyphens\n";
    CHECK(rest == "  not read: pigments/--.yaml" + other + "  not read: pigments/-.yaml" + other + "  not read: pigments/-weld.yml.txt; its name must be weld.yaml\n" +
                      "  not read: pigments/Ochre.YML; its name must be ochre.yaml\n  not read: pigments/Ordinary@.yaml" + other +
                      "  not read: pigments/Rose Madder.yaml.txt; its name must be rose-madder.yaml\n" +
                      "  not read: pigments/weld-.yaml; its name must be weld.yaml\n");
    Library library = shelf.library();
    CHECK(library.find(ShelfKind::pigment, "ochre-red") == std::nullopt); // another's near miss is not its own
    CHECK(library.ids(ShelfKind::pigment) == std::vector<std::string>{"test-lake"});
    // Where the names are told, a folder that cannot be read is no answer.
    std::filesystem::create_symlink("loop", shelf.dir().path() / "salts");
    CHECK(faults_of([&] { library.pigment("quite-another") ; }).at(0).hint == "the shelf has test-lake");
}

TEST_CASE("where no name is near, a dozen that there are is told", "[errors]") {
    const SmallShelf shelf;
    std::string all = "test-lake";
    for (const char letter : std::string("abcdefghijk"))
        shelf.dir().write(std::string("pigments/quinacridone-number-") + letter + ".yaml", plain_pigment);
    const auto hint = [&] {
        Library library = shelf.library();
        return faults_of([&] { library.pigment("o"); }).at(0).hint;
    };
    const std::string eleven = "the shelf has quinacridone-number-a, quinacridone-number-b, quinacridone-number-c, quinacridone-number-d, "
                               "quinacridone-number-e, quinacridone-number-f, quinacridone-number-g, quinacridone-number-h, "
                               "quinacridone-number-i, quinacridone-number-j, quinacridone-number-k, ";
    CHECK(hint() == eleven + "test-lake");
    shelf.dir().write("pigments/quinacridone-number-l.yaml", plain_pigment);
    CHECK(hint() == eleven + "quinacridone-number-l, ...");
}

TEST_CASE("preservatives on the shelf are those that say how they work", "[unit]") {
    const SmallShelf shelf;
    CHECK(shelf.library().preservatives().empty());
    CHECK_FALSE(Library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}}).preservatives().empty());
}
