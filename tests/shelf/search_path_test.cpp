#include "lakebound/shelf/search_path.hpp"

#include <catch2/catch.hpp>

#include <cerrno>
#include <filesystem>

#include "faults_of.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace fs = std::filesystem;

namespace {

/// "why: path" of each folder, without the test's own folder; "(not there)" behind what is not.
std::vector<std::string> told(const SearchInputs& inputs, const TempDir& dir) {
    std::vector<std::string> lines;
    for (const ShelfFolder& folder : search_path(inputs)) {
        std::string path = folder.path;
        if (const std::size_t at = path.find(dir.path().string()); at == 0) path.erase(0, dir.path().string().size());
        lines.push_back(folder.why + ": " + path + (folder.present ? "" : " (not there)"));
    }
    return lines;
}

std::vector<Diagnostic> faults(const SearchInputs& inputs) {
    return faults_of([&] { search_path(inputs); });
}

using Lines = std::vector<std::string>;

} // namespace

TEST_CASE("the search path is: option, variable, XDG folders, shipped", "[unit]") {
    const TempDir dir;
    for (const char* name :
         {"option", "one", "two", "home/lakebound", "share/lakebound/formulations", "shipped", "other"})
        std::filesystem::create_directories(dir.path() / name);
    SearchInputs inputs;
    inputs.options = {dir.file("option")};
    inputs.lakebound_shelf = dir.file("one") + "::" + dir.file("two");
    inputs.xdg_data_home = dir.file("home");
    inputs.xdg_data_dirs = dir.file("share") + ":relative:" + dir.file("none");
    inputs.shipped = {dir.file("absent"), dir.file("shipped"), dir.file("other")};
    std::string order;
    for (const ShelfFolder& folder : search_path(inputs))
        order += (folder.present ? "" : "not ") + folder.path.substr(dir.path().string().size() + 1) + " ";
    CHECK(order == "option one two home/lakebound share/lakebound share/lakebound/formulations not "
                   "none/lakebound shipped ");

    inputs.shipped = {dir.file("share/lakebound/formulations")}; // already there, is not searched twice
    CHECK(search_path(inputs).size() == 7);
    inputs.options.push_back(dir.file("nowhere"));
    CHECK(summary(faults_of([&] { search_path(inputs); })) == "shelf-missing");
    CHECK(!search_inputs({}).shipped.empty());
}

TEST_CASE("The studio one stands in comes first, and one folder counts once whatever path leads to it", "[unit]") {
    const TempDir dir;
    fs::create_directories(dir.path() / "studio/jars");
    fs::create_directories(dir.path() / "own");
    fs::create_directory_symlink(dir.path() / "own", dir.path() / "link");
    SearchInputs inputs;
    inputs.xdg_data_dirs = "relative";
    CHECK(search_path(inputs).empty()); // a relative folder of data is passed over, and there is no home
    inputs.standing = dir.file("studio");
    inputs.options = {dir.file("own"), dir.file("link"), dir.file("own/."), dir.file("studio")};
    inputs.lakebound_shelf = ":" + dir.file("own") + "::";
    CHECK(told(inputs, dir) == Lines{"the studio you stand in: /studio", "--shelf: /own"});
}

TEST_CASE("A bench or a folder of jars makes a studio of where one stands", "[unit]") {
    for (const char* what : {"bench.yaml", "jars", ""}) {
        CAPTURE(what);
        const TempDir dir;
        const InFolder here(dir.path());
        if (std::string(what) == "bench.yaml") dir.write(what, "kind: bench\n");
        if (std::string(what) == "jars") fs::create_directory(dir.path() / what);
        CHECK(search_inputs({}).standing == (*what == 0 ? "" : "."));
    }
    const TempDir dir; // the two the other way round make none
    const InFolder here(dir.path());
    fs::create_directory(dir.path() / "bench.yaml");
    dir.write("jars", "none");
    CHECK(search_inputs({}).standing.empty());
}

TEST_CASE("Folders of data go by the XDG order: the home's, then those of all", "[unit]") {
    const TempDir dir;
    SearchInputs inputs;
    inputs.home = dir.file("maker");
    CHECK(told(inputs, dir).front() == "XDG data folder: /maker/.local/share/lakebound (not there)");
    CHECK(told(inputs, dir).size() == 3);
    inputs.xdg_data_dirs = dir.file("a") + ":relative:" + dir.file("b");
    inputs.xdg_data_home = dir.file("data");
    fs::create_directories(dir.path() / "b/lakebound/formulations");
    CHECK(told(inputs, dir) == Lines{"XDG data folder: /data/lakebound (not there)",
                                     "XDG data folder: /a/lakebound (not there)", "XDG data folder: /b/lakebound",
                                     "XDG data folder: /b/lakebound/formulations"});
}

TEST_CASE("The first shipped shelf that is there is taken, and its studios go by name", "[unit]") {
    const TempDir dir;
    SearchInputs inputs;
    inputs.xdg_data_dirs = "relative";
    inputs.shipped = {dir.file("gone"), dir.file("built"), dir.file("installed")};
    fs::create_directories(dir.path() / "built/studios/mallow");
    fs::create_directories(dir.path() / "installed/studios/madder");
    CHECK(told(inputs, dir) == Lines{"shipped with the program: /built"});
    inputs.options = {"mallow", "madder"};
    CHECK(told(inputs, dir) == Lines{"--shelf: /built/studios/mallow", "--shelf: /installed/studios/madder",
                                     "shipped with the program: /built"});
    inputs.options = {"./mallow"}; // with a '/' it is a path
    REQUIRE(faults(inputs).size() == 1);
    CHECK(faults(inputs)[0].id == "shelf-missing");
    CHECK(faults(inputs)[0].message == "--shelf names a folder that is not there: './mallow'");
    inputs.options = {"weld"};
    CHECK(faults(inputs)[0].message == "--shelf names 'weld', and there is no folder and no studio of that name");
    CHECK(faults(inputs)[0].hint == "the studios are madder and mallow; a shelf of your own is a folder with pigments/, media/ and so on");
    inputs.options = {"malow"};
    CHECK(faults(inputs)[0].hint == "did you mean 'mallow'?");
    inputs.options = {"mallow"};
    inputs.lakebound_shelf = dir.file("none"); // is told, beside an option that is well
    CHECK(faults(inputs)[0].message == "LAKEBOUND_SHELF, which is set in your environment, names a folder that is not there: '" + dir.file("none") + "'");
    CHECK(faults(inputs)[0].hint == "it counts beside --shelf: mend it, or take it away with 'unset LAKEBOUND_SHELF'");
}

TEST_CASE("A studio is found by its name on the shelf of the environment too", "[unit]") {
    const TempDir dir;
    fs::create_directories(dir.path() / "own/studios/mallow");
    fs::create_directories(dir.path() / "built/studios/mallow");
    SearchInputs inputs;
    inputs.xdg_data_dirs = "relative";
    inputs.options = {"mallow"};
    inputs.lakebound_shelf = dir.file("own");
    CHECK(told(inputs, dir) == Lines{"--shelf: /own/studios/mallow", "LAKEBOUND_SHELF: /own"}); // where none is shipped
    inputs.shipped = {dir.file("built")};
    CHECK(told(inputs, dir).front() == "--shelf: /own/studios/mallow"); // one's own first
}

TEST_CASE("What is there and no folder is told, and never passed over", "[unit][errors]") {
    const TempDir dir;
    dir.write("file", "");
    fs::create_directory_symlink(dir.path() / "nowhere", dir.path() / "broken");
    fs::create_directory_symlink(dir.path() / "loop", dir.path() / "loop");
    dir.write("data/lakebound", "");
    SearchInputs inputs;
    inputs.xdg_data_dirs = "relative";
    const auto reason = [&](const std::string& option) {
        inputs.options = {option};
        const auto found = faults(inputs);
        REQUIRE(found.size() == 1);
        CHECK(found[0].id == "shelf-unusable");
        return found[0].message;
    };
    CHECK(reason(dir.file("file")) == "this is no folder, and the shelf wants one here");
    CHECK(reason(dir.file("broken")) == "this link leads to a folder that is not there");
    CHECK(reason(dir.file("loop")) == "this link leads back to itself");
    inputs.options.clear();
    inputs.xdg_data_home = dir.file("data");
    CHECK(summary(faults(inputs)) == "shelf-unusable");
    inputs.options = {dir.file("file/below")}; // nothing can be below a file, so nothing is there
    inputs.xdg_data_home.clear();
    CHECK(summary(faults(inputs)) == "shelf-missing");
    CHECK(unusable_folder("p", EACCES).message == "no permission to look into this folder of the shelf");
    CHECK(unusable_folder("p", EPERM).message == unusable_folder("p", EACCES).message);
    CHECK(unusable_folder("p", EIO).message.find("cannot look into this folder of the shelf: ") == 0);
}
