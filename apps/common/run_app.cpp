#include "common/run_app.hpp"
#include "common/option_pages.hpp"

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <exception>
#include <iostream>
#include <sstream>

#include <langinfo.h>
#include <locale.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "lakebound/page/html_writer.hpp"
#include "lakebound/page/line_fill.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/report/fault_json.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/shown_file.hpp"
#include "lakebound/shelf/source.hpp"
#include "lakebound/version.hpp"

namespace lakebound {

namespace {

bool is_set(const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0';
}

std::size_t terminal_width(int file) {
    winsize size{};
    return ::ioctl(file, TIOCGWINSZ, &size) == 0 && size.ws_col > 0 ? size.ws_col : page::text_width;
}

bool locale_is_utf8() {
    const locale_t locale = ::newlocale(LC_CTYPE_MASK, "", nullptr);
    if (locale == nullptr) return false;
    const std::string codes = ::nl_langinfo_l(CODESET, locale);
    ::freelocale(locale);
    return codes == "UTF-8";
}

std::string today() {
    const std::time_t now = std::time(nullptr);
    std::tm day{};
    ::localtime_r(&now, &day);
    char text[16];
    return {text, std::strftime(text, sizeof text, "%Y-%m-%d", &day)};
}

/// The arguments that the answer rests on: without where it goes.
std::vector<std::string> answering_arguments(std::span<const std::string> arguments) {
    std::vector<std::string> kept;
    bool options_ended = false;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const auto& argument = arguments[i];
        options_ended = options_ended || argument == "--";
        if (options_ended) {
            kept.push_back(argument);
            continue;
        }
        const auto is = [&argument](const char* option) { return argument.rfind(option, 0) == 0; };
        if (argument == "--page" || argument == "-o" || argument == "--output")
            ++i; // and its file
        else if (argument != "--force" && argument != "--no-color" && !is("--page=") && !is("--output=") && !(is("-o") && argument.size() > 2))
            kept.push_back(argument);
    }
    return kept;
}

/// An argument as it is typed: in quotes where the shell would part or change it.
std::string shell_word(const std::string& argument) {
    const bool plain = !argument.empty() && argument.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQ"
                                                                       "RSTUVWXYZ0123456789-_=./,:+") == std::string::npos;
    if (plain) return argument;
    std::string word = "\"";
    for (const char c : argument) {
        if (c == '"' || c == '$' || c == '`' || c == '\\') word += '\\';
        word += c;
    }
    return word + '"';
}

/// The command as it would be typed again.
std::string typed_again(const std::string& program, std::span<const std::string> arguments) {
    std::string line = program;
    for (const auto& argument : answering_arguments(arguments))
        line += " " + shell_word(argument);
    return line;
}

std::string program_and_version(std::string program) { return program.append(" ").append(version_text); }

/// The page with the day on it, and what makes it again: at the foot of its first side.
std::string as_html(const Answer& given, const std::string& program, std::span<const std::string> arguments) {
    auto pages = given.pages;
    pages.front().title.slip.insert(pages.front().title.slip.begin(), {"Sheet of", today()});
    page::Section foot;
    foot.blocks = {page::Foot{program_and_version(program) + ", " + today() + ":", typed_again(program, arguments)}};
    auto& sections = pages.front().sections;
    sections.insert(std::find_if(sections.begin(), sections.end(), [](const auto& each) { return each.new_side; }),
                    std::move(foot));
    return page::write_html(pages);
}

void write_page(const Answer& given, const CommonOptions& options, const std::string& program,
                std::span<const std::string> arguments) {
    if (given.pages.empty())
        throw InputError(command_line_fault("page-none", "this answer has no page", "leave --page out, or ask for a "
                                            "sheet, a plan or a verdict"));
    safe_write(*options.page, as_html(given, program, arguments),
               options.force ? Overwrite::allow : Overwrite::refuse, answering_arguments(arguments));
}

/// What can be told beforehand of the files that the answer goes to.
void check_targets(const CommonOptions& options, std::span<const std::string> arguments) {
    for (const auto* target : {&options.output, &options.page})
        if (*target && !options.to_stream(*target))
            (void)check_target(**target, options.force ? Overwrite::allow : Overwrite::refuse, answering_arguments(arguments));
}

std::string as_text(const Answer& given, const page::TextOptions& options) {
    std::string text;
    for (const auto& each : given.pages)
        text += (text.empty() ? "" : "\n") + page::write_text(each, options);
    return text;
}

std::string faults_as_json(const InputError& error) {
    std::vector<ToldFault> told;
    for (const auto& fault : error.faults())
        told.push_back({fault.id, fault.at.place.path, fault.at.place.line, fault.at.place.column, fault.message, fault.hint});
    return fault_json(told);
}

/// A line of a file as a fault shows it, or the marks below: "   12 |     density: 2.7 g/cm2".
bool is_excerpt(const std::string& line) {
    const auto bar = line.find_first_not_of(" 0123456789");
    return bar != std::string::npos && bar > 0 && line[bar] == '|' && line[bar - 1] == ' ';
}

/// Faults in the lines of a terminal; what is shown of a file stays as it stands there.
std::string filled_lines(const std::string& text, std::size_t width) {
    static constexpr std::size_t indent = 2;
    if (width <= 2 * indent) return text;
    std::string filled;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        if (is_excerpt(line) || page::columns(line) <= width) {
            filled += line + "\n";
            continue;
        }
        const auto parts = page::wrapped(line, width - indent);
        for (const auto& part : parts)
            filled += (&part == &parts.front() ? "" : std::string(indent, ' ')) + part + "\n";
    }
    return filled;
}

/// The names of a kind, or of all that --show knows, one to a line; nothing for a kind that is not there.
std::string names_on_shelf(const std::string& folder, const Library& library) {
    std::string text;
    if (folder == "shown")
        for (const auto& id : shown_ids(library))
            text += id + "\n";
    for (const auto kind : {ShelfKind::recipe, ShelfKind::pigment, ShelfKind::ingredient, ShelfKind::medium,
                            ShelfKind::family, ShelfKind::vessel, ShelfKind::jar})
        if (folder == kind_folder(kind))
            for (const auto& id : library.ids(kind))
                text += id + "\n";
    return text;
}

/// To the stream or to the file; false when the stream takes no more.
bool deliver(const std::string& text, const CommonOptions& options, std::span<const std::string> arguments,
             Streams& streams) {
    if (options.output && !options.to_stream(options.output)) {
        safe_write(*options.output, text, options.force ? Overwrite::allow : Overwrite::refuse,
                   answering_arguments(arguments));
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
            ::isatty(STDERR_FILENO) == 1 && !dumb,
            ::isatty(STDOUT_FILENO) == 1 ? terminal_width(STDOUT_FILENO) : page::text_width,
            !locale_is_utf8(),
            ::isatty(STDERR_FILENO) == 1 ? terminal_width(STDERR_FILENO) : 0};
}

void add_common_options(CommandLine& command_line, CommonOptions& options) {
    command_line.shared_group("Shared by all lakebound commands");
    command_line.flag(options.json, "--json", "The answer as one JSON document");
    command_line.option(options.output, "--output,-o", "FILE",
                        "Write the answer there, whole or not at all; - is standard output");
    command_line.option(options.page, "--page", "FILE.html",
                        "Also a page to pin up, with pictures: one file for browser and printer");
    command_line.flag(options.force, "--force", "Let -o and --page replace a file that is there");
    command_line.option(options.shelves, "--shelf", "DIR",
                        "A folder of your own, laid over the shipped shelf, or a shipped studio by name: reedmere");
    command_line.flag(options.no_colour, "--no-color", "No colours, as with NO_COLOR set");
    command_line.flag(options.searched, "--searched", "Show which folders are searched for materials");
    command_line.flag(options.version, "--version", "Show the version");
    command_line.flag(options.help, "--help,-h", "Show this page");
}

int run_app(CommandLine& command_line, const CommonOptions& options, std::span<const std::string> arguments,
            Streams& streams, const std::function<Answer()>& answer) {
    // The command line itself may be at fault, so that its options are not read yet.
    const auto options_end = std::find(arguments.begin(), arguments.end(), "--");
    const bool in_json = std::find(arguments.begin(), options_end, "--json") != options_end;
    const auto refuse = [&](const InputError& error) {
        streams.err << (in_json ? faults_as_json(error) : filled_lines(error.text(), streams.error_width));
        return exit_status::input_is_wrong;
    };
    try {
        if (arguments.empty()) {
            streams.err << command_line.short_help() << "\n'" << command_line.program() << " --help' lists the options\n";
            return exit_status::input_is_wrong;
        }
        if (arguments.size() > 1 && arguments[0] == "--written-as") { // for the build: see option_pages.hpp
            streams.out << written_as(arguments[1], command_line, arguments.subspan(2)) << std::flush;
            return exit_status::answered;
        }
        if (arguments.size() > 1 && arguments[0] == "--names") { // for completions
            command_line.parse(arguments.subspan(2));
            streams.out << names_on_shelf(arguments[1], open_library(options)) << std::flush;
            return exit_status::answered;
        }
        command_line.parse(arguments);
        if (options.page && options.to_stream(options.page))
            throw InputError(command_line_fault("page-output", "--page writes a file, and - is standard output",
                                                "name a file: --page sheet.html"));
        if (options.page && options.output == options.page)
            throw InputError(command_line_fault("page-output", "--page and -o name the same file", "name two files"));
        Answer given;
        if (options.help)
            given.text = command_line.help();
        else if (options.version)
            given.text = program_and_version(command_line.program()) + "\n";
        else if (options.searched)
            given.text = open_library(options).describe_search();
        else {
            check_targets(options, arguments); // first of all, for an answer may write to a record
            given = answer();
        }
        if (given.text.empty())
            given.text = as_text(given, options.output && !options.to_stream(options.output)
                                            ? page::TextOptions{}
                                            : page::TextOptions{streams.width, streams.colour && !options.no_colour,
                                                                streams.ascii});
        if (options.page && !options.help && !options.version) write_page(given, options, command_line.program(), arguments);
        if (deliver(given.text, options, arguments, streams)) return given.status;
        streams.err << command_line.program()
                    << ": the answer could not be written: is the disk full, or the output closed?\n";
        return exit_status::input_is_wrong;
    } catch (const InputError& error) {
        return refuse(error);
    } catch (const DomainError& error) {
        return refuse(InputError(domain_fault(command_line_path, error)));
    } catch (const std::exception& error) {
        streams.err << command_line.program() << ": a fault of ours: " << error.what() << "\n";
        return exit_status::fault_of_ours;
    }
}

std::string shelves_again(const CommonOptions& options) {
    std::string text;
    for (const auto& shelf : options.shelves)
        text += " --shelf " + shell_word(shelf);
    return text;
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

StandardInput standard_input(Streams& streams) {
    return [&streams] { return read_all(streams); };
}

} // namespace lakebound
