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
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/library.hpp"

namespace lakebound {

namespace exit_status {
inline constexpr int answered = 0;
inline constexpr int will_not_hold = 1;  ///< answered, and that is the answer
inline constexpr int input_is_wrong = 2; ///< a file or the command line
inline constexpr int fault_of_ours = 3;
} // namespace exit_status

struct CommonOptions {
    bool help = false, version = false, json = false, searched = false, force = false;
    std::optional<std::string> output;
    std::vector<std::string> shelves;
};

/// Adds the options that every app has, as the last group of the help.
void add_common_options(CommandLine& command_line, CommonOptions& options);

struct Answer {
    std::string text;
    int status = exit_status::answered;
};

/// Parses, answers --help, --version and --searched, else calls `answer`; writes its text to the stream
/// or to the file of -o, and faults to the error stream.
int run_app(CommandLine& command_line, const CommonOptions& options, std::span<const std::string> arguments,
            Streams& streams, const std::function<Answer()>& answer);

/// The shelves of the options, of the environment and of the program.
Library open_library(const CommonOptions& options);

/// All of the input stream, for a file named "-". Throws InputError file-too-large.
std::string read_all(Streams& streams);

} // namespace lakebound
