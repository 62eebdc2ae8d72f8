#include "common/run_app.hpp"

#include <cstdlib>
#include <exception>
#include <iostream>

#include <unistd.h>

#include "lakebound/quantity/error.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/source.hpp"

#ifndef LAKEBOUND_VERSION
#error "LAKEBOUND_VERSION comes from CMake"
#endif

namespace lakebound {

namespace {

bool is_set(const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0';
}

/// To the stream or to the file; false when the stream takes no more.
bool deliver(const std::string& text, const CommonOptions& options, Streams& streams) {
    if (options.output) {
        safe_write(*options.output, text, options.force ? Overwrite::allow : Overwrite::refuse);
        return true;
    }
    streams.out << text << std::flush;
    return streams.out.good();
}

} // namespace

Streams standard_streams() {
    const char* terminal = std::getenv("TERM");
    const bool dumb = terminal == nullptr || std::string(terminal) == "dumb";
    return {std::cin, std::cout, std::cerr, ::isatty(STDOUT_FILENO) == 1 && !dumb && !is_set("NO_COLOR"),
            ::isatty(STDERR_FILENO) == 1 && !dumb};
}

void add_common_options(CommandLine& command_line, CommonOptions& options) {
    command_line.group("Shared by all lakebound commands");
    command_line.flag(options.json, "--json", "The answer as one JSON document");
    command_line.option(options.output, "--output,-o", "FILE", "Write the answer there, whole or not at all");
    command_line.flag(options.force, "--force", "Let -o replace a file that is there");
    command_line.option(options.shelves, "--shelf", "DIR",
                        "A folder of your own, laid over the shipped shelf; repeatable");
    command_line.flag(options.searched, "--searched", "Show which folders are searched for materials");
    command_line.flag(options.version, "--version", "Show the version");
    command_line.flag(options.help, "--help,-h", "Show this page");
}

int run_app(CommandLine& command_line, const CommonOptions& options, std::span<const std::string> arguments,
            Streams& streams, const std::function<Answer()>& answer) {
    const auto refuse = [&](const Diagnostic& fault) {
        streams.err << render(fault);
        return exit_status::input_is_wrong;
    };
    try {
        command_line.parse(arguments);
        Answer given;
        if (options.help)
            given.text = command_line.help();
        else if (options.version)
            given.text = command_line.program() + " " LAKEBOUND_VERSION "\n";
        else if (options.searched)
            given.text = open_library(options).describe_search();
        else
            given = answer();
        if (deliver(given.text, options, streams)) return given.status;
        streams.err << command_line.program()
                    << ": the answer could not be written: is the disk full, or the output closed?\n";
        return exit_status::input_is_wrong;
    } catch (const InputError& error) {
        streams.err << error.text();
        return exit_status::input_is_wrong;
    } catch (const DomainError& error) {
        return refuse(domain_fault(command_line_path, error));
    } catch (const std::exception& error) {
        streams.err << command_line.program() << ": a fault of ours: " << error.what() << "\n";
        return exit_status::fault_of_ours;
    }
}

Library open_library(const CommonOptions& options) {
    return Library(search_path(search_inputs(options.shelves)));
}

std::string read_all(Streams& streams) {
    std::string bytes;
    char buffer[4096];
    while (streams.in.read(buffer, sizeof buffer) || streams.in.gcount() > 0) {
        bytes.append(buffer, static_cast<std::size_t>(streams.in.gcount()));
        if (bytes.size() > most_bytes) break; // the reader of the text refuses it by name
    }
    return bytes;
}

} // namespace lakebound
