#include "lakebound/shelf/source.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "shelf/faults_of.hpp"
#include "support/as_nobody.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using lakebound::testing::AsNobody;
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
    std::string told;
    {
        const AsNobody nobody;
        if (!nobody) {
            WARN("SKIPPED: root here cannot become another user, so permission was not tested");
            return;
        }
        told = faults_opening(path);
    }
    CHECK(told == "file-permission");
}

namespace {

/// What is read from standard input when it is this descriptor, which is closed.
std::shared_ptr<const Source> read_as_input(int fd, std::vector<Diagnostic>& faults) {
    const int before = ::dup(STDIN_FILENO);
    REQUIRE(::dup2(fd, STDIN_FILENO) == STDIN_FILENO);
    std::shared_ptr<const Source> source;
    faults = faults_of([&] { source = read_source("-"); });
    if (before >= 0) ::dup2(before, STDIN_FILENO);
    ::close(before);
    ::close(fd);
    return source;
}

} // namespace

TEST_CASE("a single hyphen reads standard input, pipes included", "[unit]") {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const std::string bytes = "kind: jar\nname: weld\n";
    REQUIRE(::write(ends[1], bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()));
    ::close(ends[1]);
    std::vector<Diagnostic> faults;
    const auto source = read_as_input(ends[0], faults);
    REQUIRE(faults.empty());
    CHECK(source->text() == bytes);
    CHECK(source->path() == "standard input");
}

TEST_CASE("standard input that has no end, or is a folder, is refused", "[errors]") {
    const TempDir dir;
    std::vector<Diagnostic> faults;
    CHECK_FALSE(read_as_input(::open(dir.write("large", std::string(most_bytes + 1, 'x')).c_str(), O_RDONLY), faults));
    REQUIRE(summary(faults) == "file-too-large");
    CHECK(faults[0].message == "the file is larger than 1 MiB; it was not read");
    CHECK_FALSE(read_as_input(::open(dir.path().c_str(), O_RDONLY | O_DIRECTORY), faults));
    REQUIRE(summary(faults) == "file-unreadable");
    CHECK(faults[0].message == "cannot read this file: Is a directory");
    CHECK(faults[0].at.place.path == "standard input");
}

TEST_CASE("a file is read whole, however its length falls", "[unit]") {
    const TempDir dir;
    for (const std::size_t length : {16383u, 16384u, 16385u, 32768u}) {
        const std::string path = dir.write("f.yaml", "a: " + std::string(length - 3, 'x'));
        CHECK(read_source(path)->text().size() == length);
    }
    CHECK(read_source(dir.write("f.yaml", "a: " + std::string(most_bytes - 3, 'x')))->text().size() == most_bytes);
}

TEST_CASE("a folder is told with what a file in it is called", "[errors]") {
    const TempDir dir;
    const std::string path = dir.path().string();
    CHECK(faults_of([&] { read_source(path); }).at(0).hint == "name a file in it, such as '" + path + "/weld.yaml'");
    CHECK(faults_of([&] { read_source(path + "/"); }).at(0).hint == "name a file in it, such as '" + path + "/weld.yaml'");
    CHECK(faults_opening(dir.file(std::string("a\0b", 3))) == "file-missing");
}

TEST_CASE("a table is known by the end of its name", "[unit]") {
    for (const char* table : {"a.csv", "a.CSV", "a.Csv", "b/a.csv", "-.csv"})
        CHECK(is_table_name(table));
    for (const char* none : {"", ".csv", "csv", "acsv", "a-csv", "a.csv.yaml", "a.cs", "a.cxv", "a\x0e" "csv"})
        CHECK_FALSE(is_table_name(none));
}

TEST_CASE("a text that begins with an empty line counts it", "[unit]") {
    const Source source("f.yaml", "\nkind: jar\n");
    CHECK(source.line(1).empty());
    CHECK(source.line(2) == "kind: jar");
    CHECK(source.excerpt(1, 4).place.line == 2);
}

TEST_CASE("lines that are not there are empty", "[unit]") {
    const Source source("f.yaml", "a: 1\nb: 2\n");
    CHECK(source.line_count() == 2);
    CHECK(source.line(0).empty());
    CHECK(source.line(3).empty());
    CHECK(source.line_start(1) == 0);
    CHECK(source.line_start(2) == 5);
    CHECK(source.line_start(0) == 10);
    CHECK(source.line_start(3) == 10);
}

TEST_CASE("every unusual space is told where it would be taken for an ordinary one", "[errors]") {
    const std::pair<const char*, const char*> spaces[] = {{"\xC2\xA0", "U+00A0"}, {"\xE2\x80\x80", "U+2000"}, {"\xE2\x80\x8A", "U+200A"},
                                                          {"\xE2\x80\xAF", "U+202F"}, {"\xE2\x81\x9F", "U+205F"}, {"\xE3\x80\x80", "U+3000"}};
    for (const auto& [space, name] : spaces) {
        const auto faults = faults_of([&, bytes = std::string("a: ") + space + "1\n"] { check_text("f.yaml", bytes); });
        REQUIRE(summary(faults) == "text-odd-space 1:4");
        CHECK(faults[0].message == std::string("a space of an unusual kind (") + name + ") stands here");
        CHECK(faults_in(std::string("a: 1") + space + "g\n").empty()); // within a text it is shown, not taken for a space
    }
    CHECK(faults_in("- \xE2\x80\x90 x\n").empty());      // a hyphen of its own sign
    CHECK(faults_in("- \xE1\x9A\x80x\n").empty());       // ogham space mark: seen as a stroke
    CHECK(faults_in("a:\t1\t2\nb:\t3\n") == "text-tab 1:3, text-tab 2:3"); // one a line
    CHECK(faults_of([] { check_text("f.csv", "a,b\n1\t,2\n"); }).at(0).message == "a tab stands here; commas part the columns of a table");
}

TEST_CASE("text of two bytes a sign is told from a file that is no text", "[errors]") {
    CHECK(faults_in("\xFE\xFF kind") == "file-utf16");
    CHECK(faults_in(std::string_view("\0k\0i", 4)) == "file-utf16");
    CHECK(faults_in(std::string_view("k\0i\0", 4)) == "file-utf16");
    for (const std::string_view none : {std::string_view("k\0\0i", 4), std::string_view("k\0i\1", 4), std::string_view("\0\0ki", 4),
                                        std::string_view("\0k\0\0", 4), std::string_view("kin\0", 4), std::string_view("k\0i", 3)})
        CHECK(faults_in(none) == "file-binary");
    CHECK(faults_in("a: 1\r") == "text-control 1:5"); // a carriage return without a line end
    CHECK(faults_in("a: 1\r\r\n") == "text-control 1:5");
}

TEST_CASE("a file is of a mebibyte and no more", "[errors]") {
    CHECK(faults_in("a: " + std::string(1024 * 1024 - 3, 'x')).empty());
    CHECK(faults_in("a: " + std::string(1024 * 1024 - 2, 'x')) == "file-too-large");
    const TempDir dir;
    CHECK(faults_opening(dir.write("f.yaml", "a: " + std::string(1024 * 1024 - 3, 'x'))).empty());
    CHECK(faults_opening(dir.write("f.yaml", "a: " + std::string(1024 * 1024 - 2, 'x'))) == "file-too-large");
}
