#pragma once
// Diagnostic: one fault in what a person typed, with its place, and how it is printed.
//
// InputError carries all faults found in a file (at most 20). Every fault has a stable id, listed in
// shelf/error_catalogue.hpp and docs/errors.md. Rendering, ready for a terminal or a log:
//
//   jars/weld-3.yaml:12:14: error: density must be mass per volume, got '2.7 g/cm2' [unit-dimension]
//      12 |     density: 2.7 g/cm2
//         |              ^~~~~~~~~
//   hint: write '2.7 g/cm3'

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The path shown for a fault in the arguments of a command.
inline constexpr std::string_view command_line_path = "command line";
/// The path shown for what was read from standard input.
inline constexpr std::string_view standard_input_path = "standard input";
/// The most faults that one InputError holds.
inline constexpr std::size_t most_faults = 20;

enum class Severity { error, note };

/// Where something stands. Line and column count from 1, columns in characters (Unicode code points);
/// line 0 means the file as a whole, or an argument of the command.
struct Place {
    std::string path; ///< as typed
    std::size_t line = 0;
    std::size_t column = 0;
};

/// A place with the line that stands there.
struct Excerpt {
    Place place;
    std::string source_line;     ///< as read; empty when place.line is 0
    std::size_t span_length = 1; ///< characters to underline from place.column on
};

/// The other place of a fault that has two: where the key stood first, what was drawn from.
struct SecondPlace {
    Excerpt at;
    std::string message;
};

struct Diagnostic {
    std::string id;
    Severity severity = Severity::error;
    std::string message;
    Excerpt at;
    std::string hint; ///< may be empty
    std::optional<SecondPlace> second;
};

/// A fault without a line: a whole file (path as typed) or an argument (command_line_path).
[[nodiscard]] Diagnostic whole_file_fault(std::string_view id, std::string_view path, std::string message,
                                          std::string hint = {});
/// A fault at a place in a file.
[[nodiscard]] Diagnostic placed_fault(std::string_view id, const Excerpt& at, std::string message, std::string hint = {});
[[nodiscard]] Diagnostic command_line_fault(std::string_view id, std::string message, std::string hint = {});

/// The fault as text, lines ended by '\n'. Control characters are shown as '?', a line longer than
/// 160 characters is cut around the fault.
[[nodiscard]] std::string render(const Diagnostic& fault);

/// What a person typed cannot be used. Holds one fault at least, most_faults at most; files in the
/// order in which they were read, the faults of each from its top to its end.
class InputError : public std::runtime_error {
public:
    explicit InputError(Diagnostic fault);
    /// more: further faults were not looked for. Throws std::invalid_argument when faults is empty.
    explicit InputError(std::vector<Diagnostic> faults, bool more = false);

    const std::vector<Diagnostic>& faults() const noexcept { return faults_; }
    bool more() const noexcept { return more_; }
    /// All faults rendered one after the other; the same text as what().
    std::string text() const;

private:
    struct Ordered {
        std::vector<Diagnostic> faults;
    };
    InputError(Ordered ordered, bool more);

    std::vector<Diagnostic> faults_;
    bool more_ = false;
};

/// Gathers the faults of a file while reading goes on; throws InputError itself at most_faults.
class Faults {
public:
    void add(Diagnostic fault);
    /// The same, unless a fault of that id is known at that place: a file referred to twice is faulty once.
    void add_once(Diagnostic fault);
    void add_all(const InputError& error);
    bool none() const noexcept { return faults_.empty(); }
    std::size_t count() const noexcept { return faults_.size(); }
    /// Throws InputError when there is any.
    void throw_if_any() const;

private:
    std::vector<Diagnostic> faults_;
};

} // namespace lakebound
