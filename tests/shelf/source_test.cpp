#include "lakebound/shelf/source.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "shelf/faults_of.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;
using lakebound::testing::TempDir;

namespace {

std::string faults_in(std::string_view bytes) {
    return summary(faults_of([&] { check_text("f.yaml", std::string(bytes)); }));
}
std::string faults_opening(const std::string& path) {
    return summary(faults_of([&] { read_source(path); }));
}

} // namespace

TEST_CASE("lines and places count from one, columns in characters", "[unit]") {
    const Source source("f.yaml", "a: 1\nnaïf: µm\n\nlast");
    CHECK(source.line_count() == 4);
    CHECK(source.line(2) == "naïf: µm");
    CHECK(source.line(3).empty());
    CHECK(source.line(4) == "last");
    CHECK(source.line(5).empty());
    const std::size_t mu = source.text().find("µ");
    const Excerpt at = source.excerpt(mu, 3);
    CHECK(at.place.line == 2);
    CHECK(at.place.column == 7);
    CHECK(at.span_length == 2);
    CHECK(source.excerpt(source.text().size(), 5).place.line == 4);
    CHECK(source.excerpt(mu, 1000).span_length == 2);
}

TEST_CASE("a byte order mark at the start and carriage returns at line ends are no fault", "[unit]") {
    const auto source = check_text("f.yaml", "\xEF\xBB\xBFkind: jar\r\nname: weld\r\n");
    CHECK(source->text() == "kind: jar\nname: weld\n");
}

TEST_CASE("text that is no plain UTF-8 is refused with its place", "[errors]") {
    CHECK(faults_in("").rfind("file-empty", 0) == 0);
    CHECK(faults_in(" \n\r\n").rfind("file-empty", 0) == 0);
    CHECK(faults_in(std::string_view("a\0b", 3)) == "file-binary");
    CHECK(faults_in(std::string_view("k\0i\0n\0d\0", 8)) == "file-utf16");
    CHECK(faults_in(std::string_view("\0k\0i\0n\0d", 8)) == "file-utf16");
    CHECK(faults_in("\xFF\xFEkind") == "file-utf16");
    CHECK(faults_in("a: caf\xE9\nb: \xC0\xAF\nc: \xED\xA0\x80\nd: \xF5\x80\x80\x80\n") ==
          "text-utf8 1:7, text-utf8 2:4, text-utf8 3:4, text-utf8 4:4");
    CHECK(faults_in("a: \xE2\x82") == "text-utf8 1:4");
    CHECK(faults_in("a: 1\n\xEF\xBB\xBF"
                    "b: 2\n") == "text-mark-inside 2:1");
    CHECK(faults_in("a: \x1b[31m\n") == "text-control 1:4");
    CHECK(faults_in("a: \xC2\x9B\n") == "text-control 1:4");
    CHECK(faults_in("a: 1\rb: 2\n") == "text-control 1:5");
    CHECK(faults_in("a: x\xE2\x80\xAEy\n") == "text-control 1:5"); // right-to-left override
    CHECK(faults_in("a:\n\tb: 1\n\tc: 2\n") == "text-tab 2:1, text-tab 3:1");
    CHECK(faults_in("a:\xC2\xA0"
                    "1\n\xC2\xA0 b: 1\n") == "text-odd-space 1:3, text-odd-space 2:1");
    CHECK(faults_in("note: 5\xC2\xA0µm of it\n").empty());
    CHECK(faults_in(std::string(most_bytes + 1, 'x')) == "file-too-large");
}

TEST_CASE("what cannot be opened as a file is refused, each case in its own words", "[errors]") {
    const TempDir dir;
    CHECK(faults_opening(dir.file("none.yaml")) == "file-missing");
    CHECK(faults_opening(dir.write("plain", "x") + "/under.yaml") == "file-missing");
    CHECK(faults_opening("") == "file-missing");
    CHECK(faults_opening(dir.path().string()) == "file-directory");
    CHECK(faults_opening("/dev/zero") == "file-special");
    const std::string pipe = dir.file("pipe");
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    CHECK(faults_opening(pipe) == "file-special"); // and does not wait for a writer
    std::filesystem::create_symlink(dir.file("loop"), dir.file("loop"));
    CHECK(faults_opening(dir.file("loop")) == "file-unreadable");
}

TEST_CASE("a file of 10 MB is refused by its size", "[errors]") {
    const TempDir dir;
    const std::string path = dir.write("large.yaml", "kind: jar\n");
    std::filesystem::resize_file(path, 10'000'000);
    const auto faults = faults_of([&] { read_source(path); });
    CHECK(summary(faults) == "file-too-large");
    CHECK(faults.at(0).message.find("10000000 bytes") != std::string::npos);
}

TEST_CASE("a file without read permission is refused", "[errors]") {
    const TempDir dir;
    const std::string path = dir.write("secret.yaml", "kind: jar\n");
    std::filesystem::permissions(path, std::filesystem::perms::none);
    std::filesystem::permissions(dir.path(), std::filesystem::perms::all);
    if (::geteuid() != 0) {
        CHECK(faults_opening(path) == "file-permission");
        return;
    }
    // Root may read everything: look with the eyes of somebody else, in a process of its own.
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        if (::setgid(65534) != 0 || ::setuid(65534) != 0) ::_exit(77);
        ::_exit(faults_opening(path) == "file-permission" ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFEXITED(status));
    if (WEXITSTATUS(status) == 77)
        WARN("SKIPPED: root here cannot become another user, so permission was not tested");
    else
        CHECK(WEXITSTATUS(status) == 0);
}

TEST_CASE("a single hyphen reads standard input, pipes included", "[unit]") {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const std::string bytes = "kind: jar\nname: weld\n";
    REQUIRE(::write(ends[1], bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()));
    ::close(ends[1]);
    const int before = ::dup(STDIN_FILENO);
    REQUIRE(::dup2(ends[0], STDIN_FILENO) == STDIN_FILENO);
    std::shared_ptr<const Source> source;
    const auto faults = faults_of([&] { source = read_source("-"); });
    if (before >= 0) ::dup2(before, STDIN_FILENO);
    ::close(before);
    ::close(ends[0]);
    REQUIRE(faults.empty());
    CHECK(source->text() == bytes);
    CHECK(source->path() == "standard input");
}
