// A disk that fails in the midst of a write: the calls of the system stand here in place of its own, and fail when told to.

#include <catch2/catch.hpp>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "faults_of.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/source.hpp"
#include "support/as_nobody.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// Which call fails next, with which error, and how often.
struct Failing {
    std::string_view call;
    int error = 0, times = 0;
    std::size_t longest_write = static_cast<std::size_t>(-1); ///< bytes that one write takes
};
Failing failing;

/// True, with errno set, when this call is to fail.
bool fails(std::string_view call) {
    if (failing.call != call || failing.times == 0) return false;
    --failing.times;
    errno = failing.error;
    return true;
}

} // namespace

extern "C" {
int link(const char* from, const char* to) noexcept(noexcept(::link(from, to))) {
    return fails("link") ? -1 : ::linkat(AT_FDCWD, from, AT_FDCWD, to, 0);
}
int fsync(int fd) { return fails("fsync") ? -1 : static_cast<int>(::syscall(SYS_fsync, fd)); }
int fchmod(int fd, mode_t mode) noexcept(noexcept(::fchmod(fd, mode))) {
    return fails("fchmod") ? -1 : static_cast<int>(::syscall(SYS_fchmod, fd, mode));
}
int fchown(int fd, uid_t owner, gid_t group) noexcept(noexcept(::fchown(fd, owner, group))) {
    return fails("fchown") ? -1 : ::fchownat(fd, "", owner, group, AT_EMPTY_PATH);
}
int close(int fd) {
    const int done = static_cast<int>(::syscall(SYS_close, fd));
    return fails("close") ? -1 : done;
}
ssize_t write(int fd, const void* bytes, size_t count) {
    return fails("write") ? -1 : ::syscall(SYS_write, fd, bytes, count < failing.longest_write ? count : failing.longest_write);
}
}

namespace {

struct Fails {
    Fails(std::string_view call, int error, int times = 1) { failing = {call, error, times}; }
    ~Fails() { failing = {}; }
};

/// "id: message; hint" of the fault of a write, empty where it was written.
std::string told_of_write(const std::string& path, Overwrite overwrite, std::string_view call, int error) {
    std::vector<Diagnostic> faults;
    {
        const Fails now(call, error);
        faults = faults_of([&] { safe_write(path, "new", overwrite); });
    }
    return faults.empty() ? std::string() : faults[0].id + ": " + faults[0].message + "; " + faults[0].hint;
}

std::size_t count_in(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator()));
}

} // namespace

TEST_CASE("each error of a disk has its words, and leaves the old file and nothing besides", "[errors]") {
    const TempDir dir;
    const std::string path = dir.write("sheet.txt", "old"), failed = "write-failed: could not be written: ";
    const std::string folder = "write-folder: the folder to write to is not there; make it first",
                      permission = "write-permission: no permission to write here; choose another folder";
    const auto full = [&](int error) { return failed + std::strerror(error) + "; nothing was changed; is the disk full?"; };
    const std::pair<int, std::string> all[] = {{ENOENT, folder}, {ENOTDIR, folder}, {EACCES, permission}, {EPERM, permission}, {EROFS, permission},
                                               {ENAMETOOLONG, failed + "the name is too long; choose a shorter one"},
                                               {ENXIO, failed + "nobody reads from this pipe; start the program that reads it first"},
                                               {ENOSPC, full(ENOSPC)}, {EDQUOT, full(EDQUOT)}, {EFBIG, full(EFBIG)},
                                               {EIO, failed + std::strerror(EIO) + "; nothing was changed"}};
    for (const auto& [error, words] : all)
        for (const char* call : {"write", "fchmod", "fsync"}) {
            CAPTURE(error, call);
            CHECK(told_of_write(path, Overwrite::allow, call, error) == words);
            CHECK(told_of_write(dir.file("other.txt"), Overwrite::refuse, call, error) == words);
            CHECK(read_bytes(path) == "old");
            CHECK(count_in(dir.path()) == 1);
        }
    CHECK(told_of_write(path, Overwrite::allow, "close", EIO) == failed + std::strerror(EIO) + "; nothing was changed");
    CHECK(read_bytes(path) == "old");
    CHECK(count_in(dir.path()) == 1);
}

TEST_CASE("where the disk has no second names a new file is put in place by its own", "[unit][errors]") {
    for (const int error : {EPERM, ENOTSUP, ENOSYS, EMLINK}) {
        CAPTURE(error);
        const TempDir dir;
        CHECK(told_of_write(dir.file("sheet.txt"), Overwrite::refuse, "link", error).empty());
        CHECK(read_bytes(dir.file("sheet.txt")) == "new");
        CHECK(count_in(dir.path()) == 1);
    }
    const TempDir dir;
    CHECK(told_of_write(dir.file("sheet.txt"), Overwrite::refuse, "link", EEXIST) ==
          "write-exists: this file is there already and was left alone; choose another name, or add --force");
    CHECK(told_of_write(dir.file("sheet.txt"), Overwrite::refuse, "link", EIO).starts_with("write-failed: "));
    CHECK(told_of_write(dir.file("sheet.txt"), Overwrite::refuse, "link", ENOENT).starts_with("write-folder: "));
    CHECK(count_in(dir.path()) == 0);
}

TEST_CASE("a file that cannot be given back to its owner is not written by one who may give files away", "[errors]") {
    const TempDir dir;
    const std::string path = dir.write("sheet.txt", "old");
    CHECK(told_of_write(path, Overwrite::allow, "fchown", EIO).empty()); // one's own: nothing is given away
    CHECK(told_of_write(dir.file("fresh.txt"), Overwrite::allow, "fchown", EIO).empty());
    if (::geteuid() != 0) return;
    REQUIRE(::chown(path.c_str(), 12345, 12346) == 0);
    CHECK(told_of_write(path, Overwrite::allow, "fchown", EIO).starts_with("write-failed: "));
    REQUIRE(::chmod(path.c_str(), 0666) == 0);
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0777));
    std::string of_another = "not tried";
    {
        const AsNobody nobody;
        if (!nobody) return;
        of_another = told_of_write(path, Overwrite::allow, "fchown", EPERM);
    }
    CHECK(of_another.empty());
    CHECK(count_in(dir.path()) == 2);
}

TEST_CASE("a write that a signal interrupts, or that takes a few bytes at a time, goes on", "[unit]") {
    const TempDir dir;
    std::string bytes;
    for (int i = 0; i < 2000; ++i)
        bytes += std::to_string(i) + ",";
    {
        const Fails now("write", EINTR, 3);
        safe_write(dir.file("a"), bytes);
        CHECK(failing.times == 0);
    }
    CHECK(read_bytes(dir.file("a")) == bytes);
    {
        const Fails few("", 0, 0);
        failing.longest_write = 7;
        safe_write(dir.file("b"), bytes);
    }
    CHECK(read_bytes(dir.file("b")) == bytes);
}

TEST_CASE("a program without input reads and writes like any other, and leaves nothing behind", "[unit]") {
    const TempDir dir;
    const std::string text = dir.write("f.yaml", "kind: jar\n");
    const int before = ::dup(STDIN_FILENO);
    std::string read;
    std::vector<Diagnostic> faults;
    for (const int round : {0, 1, 2, 3, 4}) { // each opens number 0 anew
        ::close(STDIN_FILENO);
        const auto now = faults_of([&] {
            if (round == 0) read = read_source(text)->text();
            if (round == 1) safe_write(dir.file("a"), "a");
            if (round == 2) safe_write(dir.file("a"), "b", Overwrite::allow);
            if (round == 3) safe_write("/dev/null", "c");
            if (round == 4) CHECK(told_of_write(dir.file("d"), Overwrite::allow, "fsync", EIO).starts_with("write-failed: "));
        });
        faults.insert(faults.end(), now.begin(), now.end());
    }
    if (before >= 0) ::dup2(before, STDIN_FILENO), ::close(before);
    CHECK(faults.empty());
    CHECK(read == "kind: jar\n");
    CHECK(read_bytes(dir.file("a")) == "b");
    CHECK(count_in(dir.path()) == 2);
}

TEST_CASE("a new file may be read and written by whom the mask lets, and run by none", "[unit]") {
    for (const mode_t masked : {0u, 022u, 077u, 026u, 0777u}) {
        CAPTURE(masked);
        const TempDir dir;
        const mode_t before = ::umask(masked);
        const auto faults = faults_of([&] { safe_write(dir.file("a"), "x"); });
        const mode_t still = ::umask(before);
        CHECK(faults.empty());
        CHECK(still == masked); // asking for it leaves it
        struct stat status {};
        REQUIRE(::stat(dir.file("a").c_str(), &status) == 0);
        CHECK((status.st_mode & 07777) == (0666 & ~masked));
    }
}

TEST_CASE("nothing stays open behind a write, whether it went well or not", "[unit]") {
    const TempDir dir;
    const std::string path = dir.file("sheet.txt");
    const std::size_t before = count_in("/proc/self/fd");
    for (int i = 0; i < 3; ++i) {
        safe_write(path, "x", Overwrite::allow);
        (void)faults_of([&] { safe_write(path, "x", Overwrite::refuse); });
        safe_write("/dev/null", "x");
        (void)told_of_write(path, Overwrite::allow, "fsync", EIO);
        std::filesystem::remove(path);
        safe_write(path, "x", Overwrite::refuse);
    }
    CHECK(count_in("/proc/self/fd") == before);
}
