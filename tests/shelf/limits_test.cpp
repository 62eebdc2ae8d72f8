// The limits of every figure in the files that come with the program: each is kept where it is told to be.

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

#include "faults_of.hpp"
#include "lakebound/shelf/check_file.hpp"
#include "lakebound/shelf/library.hpp"
#include "limits.hpp"
#include "support/expected_text.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

std::vector<std::string> shipped_files() {
    std::vector<std::string> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(LAKEBOUND_FORMULATIONS_DIR))
        if (entry.path().extension() == ".yaml") files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    return files;
}

std::string kind_of(const std::string& text) {
    const auto at = text.rfind("kind: ", text.find("\nkind: ") + 1);
    return text.substr(at + 6, text.find('\n', at) - at - 6);
}

/// Of the files in these folders of the shelf.
void check_limits(const std::string& name, const std::vector<std::string>& folders) {
    Library library({{LAKEBOUND_FORMULATIONS_DIR, "test", true}});
    const Jar jar = library.jar(std::string(LAKEBOUND_FORMULATIONS_DIR) + "/studios/reedmere/jars/weld.yaml");
    Limits limits;
    for (const std::string& path : shipped_files()) {
        const std::string folder = path.substr(std::string(LAKEBOUND_FORMULATIONS_DIR).size() + 1);
        if (std::find(folders.begin(), folders.end(), folder.substr(0, folder.find('/'))) == folders.end()) continue;
        CAPTURE(path);
        const std::string text = read_bytes(path);
        limits.file(kind_of(text), text, [&](const std::string& changed) {
            return faults_of([&] { check_document(load_document(path, changed), std::filesystem::path(path).stem().string(), library, &jar); });
        });
    }
    check_expected("shelf", name, limits.text());
}

} // namespace

TEST_CASE("the limits of every shipped figure are kept where they are told to be", "[errors]") {
    check_limits("limits-materials", {"families", "ingredients", "media", "pigments", "recipes", "salts", "targets", "vessels"});
}

TEST_CASE("the limits of every shipped habit are kept where they are told to be", "[errors]") {
    check_limits("limits-habits", {"habits", "laking", "learning", "practice", "tests", "washing"});
}

TEST_CASE("the limits of every figure of a shipped studio are kept where they are told to be", "[errors]") {
    check_limits("limits-studios", {"studios"});
}
