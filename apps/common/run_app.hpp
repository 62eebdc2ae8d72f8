#pragma once
// What all apps share: common options, exit status, where the answer goes.

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "common/command_line.hpp"
#include "common/streams.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/maker_files.hpp"

namespace lakebound {

namespace exit_status {
inline constexpr int answered = 0;
inline constexpr int will_not_hold = 1;  ///< answered, and that is the answer
inline constexpr int input_is_wrong = 2; ///< a file or the command line
inline constexpr int fault_of_ours = 3;
} // namespace exit_status

struct CommonOptions {
    bool help = false, version = false, json = false, searched = false, force = false, no_colour = false;
    std::optional<std::string> output;
    std::optional<std::string> page; ///< a file for the answer as HTML
    std::vector<std::string> shelves;

    /// Whether this file is standard output.
    static bool to_stream(const std::optional<std::string>& file) { return file == "-"; }
    /// False when nobody would see the answer as a page: it is not worth laying out.
    bool wants_page() const { return !json || page.has_value(); }
};

/// Adds the options that every app has, as the last group of the help.
void add_common_options(CommandLine& command_line, CommonOptions& options);

struct Answer {
    std::string text; ///< to be written as it is: JSON, CSV. Empty: the pages are written as text.
    int status = exit_status::answered;
    std::vector<page::Page> pages = {}; ///< for --page as well; empty where an answer has no page
};

/// Parses, answers --help, --version and --searched, else calls `answer`; writes its text to the stream
/// or to the file of -o, its pages as HTML to the file of --page, and faults to the error stream: in JSON where the
/// answer was asked for in JSON.
/// Faults of its own: page-none, page-output.
int run_app(CommandLine& command_line, const CommonOptions& options, std::span<const std::string> arguments,
            Streams& streams, const std::function<Answer()>& answer);

/// The shelves of the options, of the environment and of the program.
Library open_library(const CommonOptions& options);

/// The folders that were named, as they are named again in a command that is shown: " --shelf reedmere". Empty: none.
std::string shelves_again(const CommonOptions& options);

/// All of the input stream, for a file named "-". Throws InputError file-too-large.
std::string read_all(Streams& streams);
/// The same, for whoever may find that a file is named "-".
StandardInput standard_input(Streams& streams);

} // namespace lakebound
