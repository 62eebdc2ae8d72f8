#include "lakebound/shelf/source.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "lakebound/quantity/shown_text.hpp"

namespace lakebound {
namespace {

bool is_odd_space(std::uint32_t c) {
    return c == 0xA0 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F || c == 0x205F || c == 0x3000;
}

std::string code_point_name(std::uint32_t c) {
    std::string hex;
    for (; c != 0 || hex.size() < 4; c /= 16)
        hex.insert(hex.begin(), "0123456789ABCDEF"[c % 16]);
    return "U+" + hex;
}

Diagnostic fault_at(const Source& source, std::size_t offset, std::size_t length, std::string_view id,
                    std::string message, std::string hint) {
    Diagnostic fault = whole_file_fault(id, source.path(), std::move(message), std::move(hint));
    fault.at = source.excerpt(offset, length);
    return fault;
}

void check_characters(const Source& source) {
    const std::string& text = source.text();
    Faults faults;
    const bool table = is_table_name(source.path());
    bool at_start = true;  // only spaces so far on this line, or right behind "key:" or "-"
    bool tab_seen = false; // one fault per line is enough
    for (std::size_t i = 0; i < text.size();) {
        if (text[i] > ' ' && text[i] <= '~') { // what nearly all of a file is
            at_start = text[i] == ':' || text[i] == '-';
            ++i;
            continue;
        }
        const Character c = decode_character(text, i);
        const std::size_t length = std::max<std::size_t>(c.length, 1);
        if (c.length == 0) {
            faults.add(fault_at(source, i, 1, "text-utf8", "these bytes are not UTF-8 text",
                                "save the file as UTF-8; is it an old Latin-1 file, or no text at all?"));
            while (i + 1 < text.size() && text[i + 1] != '\n')
                ++i; // one fault per line is enough
        } else if (c.code == 0xFEFF) {
            faults.add(fault_at(source, i, length, "text-mark-inside",
                                "a byte order mark stands inside the file (were two files joined?)",
                                "delete it"));
        } else if (is_control(c.code)) {
            faults.add(fault_at(source, i, length, "text-control",
                                "control character " + code_point_name(c.code), "delete it"));
        } else if (is_invisible(c.code)) {
            faults.add(fault_at(source, i, length, "text-control",
                                "invisible character " + code_point_name(c.code),
                                "delete it and type the text anew"));
        } else if (c.code == '\t' && !tab_seen) {
            tab_seen = true;
            faults.add(table ? fault_at(source, i, 1, "text-tab",
                                        "a tab stands here; commas part the columns of a table",
                                        "write a comma where a column ends, and delete the tab where none does")
                             : fault_at(source, i, 1, "text-tab",
                                        "a tab stands here; only spaces may space things out",
                                        "replace the tab by spaces"));
        } else if (at_start && is_odd_space(c.code)) {
            faults.add(fault_at(source, i, length, "text-odd-space",
                                "a space of an unusual kind (" + code_point_name(c.code) + ") stands here",
                                "replace it by an ordinary space"));
        }
        if (c.code == '\n')
            at_start = true, tab_seen = false;
        else if (c.code != ' ')
            at_start = false;
        i += length;
    }
    faults.throw_if_any();
}

Diagnostic too_large(const std::string& path, const std::string& size) {
    return whole_file_fault("file-too-large", path,
                            "the file is larger than 1 MiB" + size + "; it was not read",
                            "a file of the shelf is a few kilobytes: is this the right one?");
}

Diagnostic open_fault(const std::string& path, int error) {
    switch (error) {
    case ENOENT:
    case ENOTDIR:
        return whole_file_fault("file-missing", path, "there is no such file", "check the name and the folder");
    case EACCES:
    case EPERM:
        return whole_file_fault("file-permission", path, "no permission to read this file",
                                "ask its owner, or change its permissions");
    default:
        return whole_file_fault("file-unreadable", path,
                                std::string("cannot read this file: ") + std::strerror(error));
    }
}

class Descriptor {
public:
    explicit Descriptor(int fd) : fd_(fd) {}
    ~Descriptor() { ::close(fd_); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    int get() const { return fd_; }

private:
    int fd_;
};

// Reads most_bytes + 1 at most, whatever the file's size was said to be, so that a file growing
// meanwhile is refused like a large one. The end of a file that is as long as it was said to be is not asked for again.
std::string read_bounded(int fd, const std::string& path, std::size_t said = 0) {
    std::string bytes;
    char buffer[16384];
    while (bytes.size() <= most_bytes) {
        const ssize_t got = ::read(fd, buffer, std::min(sizeof buffer, most_bytes + 1 - bytes.size()));
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) throw InputError(open_fault(path, errno));
        if (got == 0) return bytes;
        bytes.append(buffer, static_cast<std::size_t>(got));
        if (bytes.size() == said && static_cast<std::size_t>(got) < sizeof buffer) return bytes;
    }
    throw InputError(too_large(path, ""));
}

} // namespace

bool is_table_name(std::string_view path) noexcept {
    constexpr std::string_view ending = ".csv";
    return path.size() > ending.size() &&
           std::equal(ending.rbegin(), ending.rend(), path.rbegin(),
                      [](char wanted, char c) { return c == wanted || (wanted != '.' && c == wanted - 'a' + 'A'); });
}

Source::Source(std::string path, std::string text) : path_(std::move(path)), text_(std::move(text)) {
    line_starts_.push_back(0);
    for (std::size_t i = 0; i < text_.size(); ++i)
        if (text_[i] == '\n' && i + 1 < text_.size()) line_starts_.push_back(i + 1);
}

std::size_t Source::line_start(std::size_t number) const {
    return number == 0 || number > line_starts_.size() ? text_.size() : line_starts_[number - 1];
}

std::string_view Source::line(std::size_t number) const {
    if (number == 0 || number > line_starts_.size()) return {};
    const std::size_t start = line_starts_[number - 1];
    return std::string_view(text_).substr(start, text_.find('\n', start) - start);
}

std::size_t Source::line_of(std::size_t byte_offset) const {
    const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), byte_offset);
    return static_cast<std::size_t>(after - line_starts_.begin());
}

Excerpt Source::excerpt(std::size_t byte_offset, std::size_t length) const {
    const std::size_t number = line_of(std::min(byte_offset, text_.size()));
    const std::string_view all = line(number);
    const std::size_t from = std::min(byte_offset - line_start(number), all.size());
    const auto characters = [](std::string_view part) {
        return static_cast<std::size_t>(std::count_if(
            part.begin(), part.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
    };
    Excerpt at;
    at.place = {path_, number, characters(all.substr(0, from)) + 1};
    at.source_line = all;
    at.span_length = std::max<std::size_t>(1, characters(all.substr(from, length)));
    return at;
}

std::shared_ptr<const Source> read_source(const std::string& path) {
    if (path == "-")
        return check_text(std::string(standard_input_path),
                          read_bounded(STDIN_FILENO, std::string(standard_input_path)));
    if (path.empty())
        throw InputError(
            command_line_fault("file-missing", "the name of the file is empty", "give the path of a file"));
    if (path.find('\0') != std::string::npos) throw InputError(open_fault(path, ENOENT));
    // Without O_NONBLOCK the opening of a pipe would wait for its writer for ever. The checks are made
    // on the open file, so nothing can be put in its place between check and reading.
    const int fd = ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY);
    if (fd < 0) throw InputError(open_fault(path, errno));
    const Descriptor file(fd);
    struct stat status {};
    if (::fstat(file.get(), &status) != 0) throw InputError(open_fault(path, errno));
    if (S_ISDIR(status.st_mode))
        throw InputError(whole_file_fault("file-directory", path, "this is a folder, a file is wanted",
                                          "name a file in it, such as '" + path +
                                              (path.back() == '/' ? "" : "/") + "weld.yaml'"));
    if (!S_ISREG(status.st_mode))
        throw InputError(whole_file_fault("file-special", path, "this is a pipe or a device, a file is wanted",
                                          "write '-' to read from standard input"));
    if (status.st_size > static_cast<off_t>(most_bytes))
        throw InputError(too_large(path, " (" + std::to_string(status.st_size) + " bytes)"));
    return check_text(path, read_bounded(file.get(), path, static_cast<std::size_t>(status.st_size)));
}

std::shared_ptr<const Source> check_text(const std::string& path, std::string bytes) {
    if (bytes.size() > most_bytes) throw InputError(too_large(path, ""));
    const std::string_view start = std::string_view(bytes).substr(0, 4);
    const bool utf16_mark = start.substr(0, 2) == "\xFF\xFE" || start.substr(0, 2) == "\xFE\xFF";
    const bool every_other_nul = start.size() == 4 && (start[0] == '\0') != (start[1] == '\0') &&
                                 (start[0] == '\0') == (start[2] == '\0') &&
                                 (start[1] == '\0') == (start[3] == '\0');
    if (utf16_mark || every_other_nul)
        throw InputError(whole_file_fault("file-utf16", path, "this text is UTF-16, UTF-8 is wanted",
                                          "save the file again with the encoding UTF-8"));
    if (bytes.find('\0') != std::string::npos)
        throw InputError(whole_file_fault("file-binary", path, "this is not a text file: it holds NUL bytes",
                                          "is this the right file?"));
    if (start.substr(0, 3) == "\xEF\xBB\xBF") bytes.erase(0, 3);
    std::string text;
    if (bytes.find('\r') == std::string::npos) {
        text = std::move(bytes);
    } else {
        text.reserve(bytes.size());
        for (std::size_t i = 0; i < bytes.size(); ++i)
            if (bytes[i] != '\r' || i + 1 >= bytes.size() || bytes[i + 1] != '\n') text += bytes[i];
    }
    if (text.find_first_not_of(" \n") == std::string::npos)
        throw InputError(whole_file_fault("file-empty", path, "the file is empty",
                                          "its first line must be 'kind: ' and what it describes"));
    auto source = std::make_shared<const Source>(path, std::move(text));
    check_characters(*source);
    return source;
}

} // namespace lakebound
