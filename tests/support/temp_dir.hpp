#pragma once
// A folder of its own for one test, removed with everything in it when the test ends.

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include <unistd.h>

namespace lakebound::testing {

class TempDir {
public:
    TempDir() {
        // A test that was killed may have left a folder of the same number: the system gives a name that is free.
        std::string name = (std::filesystem::temp_directory_path() / "lakebound-test-XXXXXX").string();
        if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("cannot create " + name);
        path_ = name;
    }
    ~TempDir() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    TempDir(const TempDir&) = delete;
    TempDir& operator=(const TempDir&) = delete;

    const std::filesystem::path& path() const { return path_; }
    std::string file(std::string_view name) const { return (path_ / name).string(); }
    /// Writes the file, its folders too, and returns its path.
    std::string write(std::string_view name, std::string_view text) const {
        const std::filesystem::path at = path_ / name;
        std::filesystem::create_directories(at.parent_path());
        std::ofstream(at, std::ios::binary) << text;
        return at.string();
    }

private:
    std::filesystem::path path_;
};

/// The bytes of a file; throws when it cannot be read.
inline std::string read_bytes(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + path.string());
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

} // namespace lakebound::testing
