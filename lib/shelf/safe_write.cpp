#include "lakebound/shelf/safe_write.hpp"

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "lakebound/shelf/diagnostic.hpp"

namespace lakebound {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const std::string& path, int error) {
    switch (error) {
    case ENOENT:
    case ENOTDIR:
        throw InputError(
            whole_file_fault("write-folder", path, "the folder to write to is not there", "make it first"));
    case EACCES:
    case EPERM:
    case EROFS:
        throw InputError(
            whole_file_fault("write-permission", path, "no permission to write here", "choose another folder"));
    case ENAMETOOLONG:
        throw InputError(whole_file_fault("write-failed", path, "could not be written: the name is too long",
                                          "choose a shorter one"));
    case ENXIO: // of a pipe
        throw InputError(
            whole_file_fault("write-failed", path, "could not be written: nobody reads from this pipe",
                             "start the program that reads it first"));
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
        throw InputError(whole_file_fault("write-failed", path,
                                          std::string("could not be written: ") + std::strerror(error),
                                          "nothing was changed; is the disk full?"));
    default:
        throw InputError(whole_file_fault("write-failed", path,
                                          std::string("could not be written: ") + std::strerror(error),
                                          "nothing was changed"));
    }
}

[[noreturn]] void refuse_existing(const std::string& path) {
    throw InputError(whole_file_fault("write-exists", path, "this file is there already and was left alone",
                                      "choose another name, or add --force"));
}

/// True of files of the shelf, which begin in any order of their keys: one line is "kind: ...".
bool is_typed_by_hand(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::string line;
    for (int i = 0; i < 200 && std::getline(in, line); ++i)
        if (line.rfind("kind:", 0) == 0) return true;
    return false;
}

/// What a person typed and what the command reads is not replaced, whatever the command line says.
void refuse_input(const std::string& path, const struct stat& status, std::span<const std::string> inputs) {
    const bool read = std::any_of(inputs.begin(), inputs.end(), [&status](const std::string& input) {
        struct stat other {};
        return ::stat(input.c_str(), &other) == 0 && other.st_dev == status.st_dev && other.st_ino == status.st_ino;
    });
    if (!read && !is_typed_by_hand(path)) return;
    throw InputError(whole_file_fault("write-input", path,
                                      read ? "this file is read by the same command and was left alone"
                                           : "this file was typed by a person and was left alone",
                                      "choose another name"));
}

/// Keeps the signals that end a program waiting until the file is in place or gone.
class SignalsWait {
public:
    SignalsWait() {
        sigset_t ending;
        ::sigemptyset(&ending);
        for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGALRM, SIGXCPU})
            ::sigaddset(&ending, signal);
        ::pthread_sigmask(SIG_BLOCK, &ending, &before_);
    }
    ~SignalsWait() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
    SignalsWait(const SignalsWait&) = delete;
    SignalsWait& operator=(const SignalsWait&) = delete;

private:
    sigset_t before_{};
};

// Returns 0 or the errno of the first write that failed.
int write_all(int fd, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t done = ::write(fd, bytes.data(), bytes.size());
        if (done < 0 && errno == EINTR) continue;
        if (done < 0) return errno;
        bytes.remove_prefix(static_cast<std::size_t>(done));
    }
    return 0;
}

/// A new file of a name of its own in the target's folder, removed unless it was put in place.
class NewFile {
public:
    // A name of its own: with the target's before it, a long one would be too long.
    explicit NewFile(const std::string& target) : name_((fs::path(target).parent_path() / ".lakebound-XXXXXX").string()) {
        fd_ = ::mkstemp(name_.data());
        exists_ = fd_ >= 0;
    }
    ~NewFile() {
        close();
        if (exists_) ::unlink(name_.c_str());
    }
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    int fd() const { return fd_; }
    const char* name() const { return name_.c_str(); }
    void was_moved() { exists_ = false; }
    int close() {
        const int fd = fd_;
        fd_ = -1;
        return fd >= 0 && ::close(fd) != 0 ? errno : 0;
    }

private:
    std::string name_;
    int fd_ = -1;
    bool exists_ = false;
};

// So that the new name survives a power cut. A failure here leaves a whole file all the same.
void flush_folder(const fs::path& folder) {
    const int fd = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) return;
    ::fsync(fd);
    ::close(fd);
}

mode_t default_mode() {
    const mode_t mask = ::umask(0); // there is no other way to ask for it
    ::umask(mask);
    return 0666 & ~mask;
}

} // namespace

bool check_target(const std::string& path, Overwrite overwrite, std::span<const std::string> inputs) {
    if (path.empty() || path.find('\0') != std::string::npos) fail(path, ENOENT);
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) {
        if (errno != ENOENT) fail(path, errno);
        const fs::path folder = fs::path(path).parent_path();
        if (::stat(folder.empty() ? "." : folder.c_str(), &status) != 0) fail(path, errno);
        return false;
    }
    if (S_ISDIR(status.st_mode))
        throw InputError(whole_file_fault(
            "write-directory", path, "this is a folder, the name of a file is wanted", "add the file's name"));
    if (!S_ISREG(status.st_mode)) return true;
    if (overwrite == Overwrite::refuse) refuse_existing(path);
    refuse_input(path, status, inputs);
    return true;
}

void safe_write(const std::string& path, std::string_view bytes, Overwrite overwrite,
                std::span<const std::string> inputs) {
    const bool exists = check_target(path, overwrite, inputs);
    struct stat status {};
    if (exists && ::stat(path.c_str(), &status) != 0) fail(path, errno);
    if (exists && !S_ISREG(status.st_mode)) { // nothing of these can be kept whole
        // Without waiting, or a pipe that nobody reads would hold the command for ever.
        const int fd = ::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
        if (fd < 0) fail(path, errno);
        ::fcntl(fd, F_SETFL, ::fcntl(fd, F_GETFL) & ~O_NONBLOCK);
        const int error = write_all(fd, bytes);
        ::close(fd);
        if (error != 0) fail(path, error);
        return;
    }
    std::error_code ignored;
    const fs::path real = exists ? fs::canonical(path, ignored) : fs::path(path);
    const std::string target = real.empty() ? path : real.string();
    if (exists && ::access(target.c_str(), W_OK) != 0) fail(path, errno); // rename would not ask
    const SignalsWait until_done;
    NewFile fresh(target);
    if (fresh.fd() < 0) fail(path, errno);
    if (const int error = write_all(fresh.fd(), bytes)) fail(path, error);
    // The owner stays, where we may give a file away; a new content has no claim to run as him.
    if (exists && (status.st_uid != ::geteuid() || status.st_gid != ::getegid()) &&
        ::fchown(fresh.fd(), status.st_uid, status.st_gid) != 0 && ::geteuid() == 0)
        fail(path, errno);
    if (::fchmod(fresh.fd(), exists ? status.st_mode & 0777 : default_mode()) != 0) fail(path, errno);
    if (::fsync(fresh.fd()) != 0) fail(path, errno);
    if (const int error = fresh.close()) fail(path, error);
    if (overwrite == Overwrite::refuse) {
        // link, unlike rename, fails when somebody made the file meanwhile.
        if (::link(fresh.name(), target.c_str()) == 0) {
            flush_folder(real.parent_path());
            return;
        }
        if (errno == EEXIST) refuse_existing(path);
        if (errno != EPERM && errno != ENOTSUP && errno != ENOSYS && errno != EMLINK) fail(path, errno);
    }
    if (::rename(fresh.name(), target.c_str()) != 0) fail(path, errno);
    fresh.was_moved();
    flush_folder(real.parent_path());
}

} // namespace lakebound
