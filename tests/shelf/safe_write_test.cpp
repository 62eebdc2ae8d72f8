#include "lakebound/shelf/safe_write.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

#include <csignal>
#include <vector>

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "shelf/faults_of.hpp"
#include "support/as_nobody.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using lakebound::testing::AsNobody;
using lakebound::testing::faults_of;
using lakebound::testing::InFolder;
using lakebound::testing::read_bytes;
using lakebound::testing::summary;
using lakebound::testing::TempDir;

namespace {

std::size_t files_in(const TempDir& dir) {
    std::size_t count = 0;
    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(dir.path()))
        ++count;
    return count;
}

} // namespace

TEST_CASE("a file is written whole, and an existing one only when told to", "[unit]") {
    const TempDir dir;
    const std::string path = dir.file("sheet.txt");
    safe_write(path, "first");
    CHECK(read_bytes(path) == "first");
    CHECK(summary(faults_of([&] { safe_write(path, "second"); })) == "write-exists");
    CHECK(read_bytes(path) == "first");
    std::filesystem::permissions(path, std::filesystem::perms(0640));
    safe_write(path, std::string(300'000, 'x'), Overwrite::allow);
    CHECK(std::filesystem::file_size(path) == 300'000);
    struct stat status {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    CHECK((status.st_mode & 07777) == 0640);
    CHECK(files_in(dir) == 1);
}

TEST_CASE("a new file has the usual permissions", "[unit]") {
    const TempDir dir;
    const mode_t mask = ::umask(027);
    safe_write(dir.file("a"), "x");
    ::umask(mask);
    struct stat status {};
    REQUIRE(::stat(dir.file("a").c_str(), &status) == 0);
    CHECK((status.st_mode & 07777) == 0640);
}

TEST_CASE("a link is followed, and stays a link", "[unit]") {
    const TempDir dir;
    const std::string real = dir.write("real.txt", "old"), link = dir.file("link.txt");
    std::filesystem::create_symlink("real.txt", link);
    safe_write(link, "new", Overwrite::allow);
    CHECK(std::filesystem::is_symlink(link));
    CHECK(read_bytes(real) == "new");
}

TEST_CASE("what cannot be written leaves nothing behind", "[errors]") {
    const TempDir dir;
    CHECK(summary(faults_of([&] { safe_write(dir.path().string(), "x"); })) == "write-directory");
    CHECK(summary(faults_of([&] { safe_write(dir.file("none/a"), "x"); })) == "write-folder");
    CHECK(summary(faults_of([&] { safe_write("", "x"); })) == "write-folder");
    CHECK(files_in(dir) == 0);
    CHECK_NOTHROW(safe_write("/dev/null", "x"));
    CHECK(summary(faults_of([] { safe_write("/dev/full", "x"); })) == "write-failed");
}

TEST_CASE("what a person typed and what a command reads is never replaced", "[errors]") {
    const TempDir dir;
    const auto jar = dir.write("weld.yaml", "# mine\nkind: jar\n"), csv = dir.write("test.csv", "screen,mass\n");
    const std::string inputs[] = {"6 g", csv};
    CHECK(summary(faults_of([&] { safe_write(jar, "x", Overwrite::allow); })) == "write-input");
    CHECK(summary(faults_of([&] { safe_write(csv, "x", Overwrite::allow, inputs); })) == "write-input");
    std::filesystem::create_symlink("test.csv", dir.file("link"));
    CHECK(summary(faults_of([&] { safe_write(dir.file("link"), "x", Overwrite::allow, inputs); })) == "write-input");
    CHECK(read_bytes(jar) == "# mine\nkind: jar\n");
    CHECK(read_bytes(csv) == "screen,mass\n");
    CHECK_NOTHROW(safe_write(csv, "x", Overwrite::allow)); // read by no command
}

TEST_CASE("a pipe that nobody reads does not hold the command", "[errors]") {
    const TempDir dir;
    REQUIRE(::mkfifo(dir.file("pipe").c_str(), 0600) == 0);
    CHECK(summary(faults_of([&] { safe_write(dir.file("pipe"), "x", Overwrite::allow); })) == "write-failed");
    const int reader = ::open(dir.file("pipe").c_str(), O_RDONLY | O_NONBLOCK);
    REQUIRE(reader >= 0);
    safe_write(dir.file("pipe"), "sheet");
    char got[8] = {};
    CHECK(::read(reader, got, sizeof got) == 5);
    ::close(reader);
}

TEST_CASE("names up to what the file system takes are written, longer ones told so", "[errors]") {
    const TempDir dir;
    for (const std::size_t length : {249u, 255u}) {
        safe_write(dir.file(std::string(length, 'a')), "x");
        CHECK(read_bytes(dir.file(std::string(length, 'a'))) == "x");
    }
    const auto faults = faults_of([&] { safe_write(dir.file(std::string(256, 'a')), "x"); });
    REQUIRE(summary(faults) == "write-failed");
    CHECK(faults[0].message.find("too long") != std::string::npos);
    CHECK(faults[0].hint.find("disk") == std::string::npos);
}

TEST_CASE("rights to run as the owner are not handed on, the owner stays", "[unit]") {
    const TempDir dir;
    const std::string path = dir.write("sheet.txt", "old");
    if (::geteuid() == 0) REQUIRE(::chown(path.c_str(), 12345, 12345) == 0);
    REQUIRE(::chmod(path.c_str(), 06755) == 0);
    safe_write(path, "new", Overwrite::allow);
    struct stat status {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    CHECK((status.st_mode & 07777) == 0755);
    if (::geteuid() == 0) CHECK(status.st_uid == 12345);
}

TEST_CASE("a signal leaves no half file and nothing besides", "[errors]") {
    const TempDir dir;
    // A signal that comes as soon as the child is there waits until it is no longer the test program's to handle: that
    // would report a failure, and could wait for ever for memory that was locked when it was copied.
    sigset_t stops, before;
    ::sigemptyset(&stops);
    ::sigaddset(&stops, SIGTERM);
    ::sigaddset(&stops, SIGINT);
    for (int round = 0; round < 40; ++round) {
        REQUIRE(::pthread_sigmask(SIG_BLOCK, &stops, &before) == 0);
        const pid_t child = ::fork();
        if (child != 0) ::pthread_sigmask(SIG_SETMASK, &before, nullptr);
        REQUIRE(child >= 0);
        if (child == 0) {
            ::signal(SIGTERM, SIG_DFL);
            ::signal(SIGINT, SIG_DFL);
            ::pthread_sigmask(SIG_SETMASK, &before, nullptr);
            for (int i = 0;; ++i)
                safe_write(dir.file("sheet" + std::to_string(i % 5)), std::string(20'000, 'x'), Overwrite::allow);
        }
        ::usleep(static_cast<useconds_t>(500 + 137 * round));
        ::kill(child, round % 2 == 0 ? SIGTERM : SIGINT);
        int status = 0;
        REQUIRE(::waitpid(child, &status, 0) == child);
        CHECK(WIFSIGNALED(status));
    }
    for (const auto& entry : std::filesystem::directory_iterator(dir.path())) {
        INFO(entry.path());
        CHECK(entry.path().filename().string().rfind("sheet", 0) == 0);
        CHECK(entry.file_size() == 20'000);
    }
}

TEST_CASE("a disk that fills up leaves the old file as it was", "[errors]") {
    const TempDir dir;
    const std::string path = dir.write("sheet.txt", "old");
    std::vector<Diagnostic> told;
    {
        rlimit before{};
        REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
        const auto handler = ::signal(SIGXFSZ, SIG_IGN);
        const rlimit small{1000, before.rlim_max};
        REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
        told = faults_of([&] { safe_write(path, std::string(5000, 'x'), Overwrite::allow); });
        ::setrlimit(RLIMIT_FSIZE, &before);
        ::signal(SIGXFSZ, handler);
    }
    REQUIRE(summary(told) == "write-failed");
    CHECK(told[0].message == "could not be written: File too large");
    CHECK(told[0].hint == "nothing was changed; is the disk full?");
    CHECK(read_bytes(path) == "old");
    CHECK(files_in(dir) == 1);
}

TEST_CASE("a folder or file that may not be written to is refused", "[errors]") {
    const TempDir dir;
    const std::string path = dir.write("mine.txt", "old");
    std::filesystem::permissions(path, std::filesystem::perms(0444));
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0555));
    std::vector<Diagnostic> old_file, new_file, hidden;
    {
        const AsNobody nobody;
        if (!nobody) {
            WARN("SKIPPED: root here cannot become another user, so permission was not tested");
            return;
        }
        old_file = faults_of([&] { safe_write(path, "x", Overwrite::allow); });
        new_file = faults_of([&] { safe_write(dir.file("new"), "x"); });
    }
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0000));
    {
        const AsNobody nobody;
        hidden = faults_of([&] { safe_write(dir.file("sub/new"), "x"); });
    }
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0755));
    for (const auto* told : {&old_file, &new_file, &hidden}) {
        REQUIRE(summary(*told) == "write-permission");
        CHECK(told->front().message == "no permission to write here");
    }
    CHECK(read_bytes(path) == "old");
    CHECK(files_in(dir) == 1);
}

TEST_CASE("a folder that may be written to but not looked into takes a file", "[unit]") {
    const TempDir dir;
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0333));
    const std::string path = dir.file("sheet.txt");
    {
        const AsNobody nobody;
        if (!nobody) return;
        safe_write(path, "first");
        safe_write(path, "second", Overwrite::allow);
    }
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0755));
    CHECK(read_bytes(path) == "second");
    CHECK(files_in(dir) == 1);
}

TEST_CASE("another's file in a folder of all is written anew, as one's own where it cannot stay another's", "[unit]") {
    if (::geteuid() != 0) return; // only root can lay a file of another's there
    const TempDir dir;
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0777));
    const std::string path = dir.write("sheet.txt", "old");
    REQUIRE(::chmod(path.c_str(), 0666) == 0);
    {
        const AsNobody nobody;
        if (!nobody) return;
        safe_write(path, "new", Overwrite::allow);
    }
    struct stat status {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    CHECK(status.st_uid == 65534);
    CHECK(read_bytes(path) == "new");
    REQUIRE(::chown(path.c_str(), 0, 12345) == 0); // one's own, of another group
    safe_write(path, "newer", Overwrite::allow);
    REQUIRE(::stat(path.c_str(), &status) == 0);
    CHECK(status.st_uid == 0);
    CHECK(status.st_gid == 12345);
}

TEST_CASE("a name that cannot be one of a file is told in words of its own", "[errors]") {
    const TempDir dir;
    const std::string plain = dir.write("plain", "x");
    const auto told = [](const std::string& path) {
        const auto faults = faults_of([&] { safe_write(path, "x", Overwrite::allow); });
        return faults.empty() ? std::string() : faults[0].id + ": " + faults[0].message + "; " + faults[0].hint;
    };
    CHECK(told(plain + "/under") == "write-folder: the folder to write to is not there; make it first");
    CHECK(told(dir.file(std::string("a\0b", 3))) == "write-folder: the folder to write to is not there; make it first");
    std::filesystem::create_symlink("loop", dir.file("loop"));
    CHECK(told(dir.file("loop")) == "write-failed: could not be written: Too many levels of symbolic links; nothing was changed");
    CHECK(read_bytes(plain) == "x");
    const InFolder here(dir.path());
    safe_write("beside.txt", "here"); // a name without a folder
    CHECK(read_bytes(dir.path() / "beside.txt") == "here");
}

TEST_CASE("a long table without 'kind:' at the head of a line is no file of a person's shelf", "[unit]") {
    const TempDir dir;
    std::string rows;
    for (int i = 0; i < 300; ++i)
        rows += "row of a kind: " + std::to_string(i) + "\n";
    const std::string table = dir.write("table.txt", rows + "kind: jar\n");
    const std::string inputs[] = {"/dev/null", dir.write("other.txt", "x"), dir.file("none")};
    safe_write(table, "new", Overwrite::allow, inputs);
    CHECK(read_bytes(table) == "new");
}

TEST_CASE("a person's shelf file says its kind in its first 200 lines", "[unit]") {
    const TempDir dir;
    std::string rows;
    for (int i = 0; i < 199; ++i)
        rows += "# a remark\n";
    const std::string typed = dir.write("typed.yaml", rows + "kind: jar\n"), table = dir.write("table.txt", rows + "#\nkind: jar\n");
    CHECK(summary(faults_of([&] { safe_write(typed, "x", Overwrite::allow); })) == "write-input");
    CHECK_NOTHROW(safe_write(table, "x", Overwrite::allow));
    CHECK(read_bytes(table) == "x");
}
