#pragma once
// Source: the text of one file as read, with the places of its lines.

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/shelf/diagnostic.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The largest file that is read, in bytes.
inline constexpr std::size_t most_bytes = std::size_t{1} << 20;

class Source {
public:
    /// path: as typed; text: UTF-8 without byte order mark, lines ended by '\n'.
    Source(std::string path, std::string text);

    const std::string& path() const noexcept { return path_; }
    const std::string& text() const noexcept { return text_; }
    std::size_t line_count() const noexcept { return line_starts_.size(); }
    /// Line `number` (from 1) without its end; empty when there is no such line.
    std::string_view line(std::size_t number) const;
    std::size_t line_of(std::size_t byte_offset) const; ///< from 1
    /// Byte offset of the first character of line `number` (from 1).
    std::size_t line_start(std::size_t number) const;
    /// The excerpt for `length` bytes from `byte_offset` on; cut at the end of the line.
    Excerpt excerpt(std::size_t byte_offset, std::size_t length) const;

private:
    std::string path_, text_;
    std::vector<std::size_t> line_starts_;
};

/// Whether a file by its name holds a table: "trial.csv", in any case.
[[nodiscard]] bool is_table_name(std::string_view path) noexcept;

/// Reads one file ("-": standard input) once, refusing it before it is read whole when it is larger
/// than most_bytes. Throws InputError: file-missing, file-directory, file-permission, file-special
/// (a pipe or device), file-unreadable, file-too-large, and the faults of `check_text`.
[[nodiscard]] std::shared_ptr<const Source> read_source(const std::string& path);

/// Makes a source of bytes already in memory. Carriage returns before line ends and a byte order
/// mark at the start are dropped. Throws InputError: file-empty, file-too-large, file-utf16,
/// file-binary (NUL), text-utf8, text-control, text-mark-inside, text-tab, text-odd-space.
[[nodiscard]] std::shared_ptr<const Source> check_text(const std::string& path, std::string bytes);

} // namespace lakebound
