#include "common/option_pages.hpp"

#include <algorithm>

#include "lakebound/shelf/diagnostic.hpp"
#include "lakebound/version.hpp"

namespace lakebound {

namespace {

using Row = CommandLine::Row;

std::string replaced(std::string text, std::string_view what, std::string_view with) {
    for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += with.size())
        text.replace(at, what.size(), with);
    return text;
}

/// A value in words: "POWDER, OIL" without its quotes.
std::string bare(const std::string& value) { return replaced(value, "\"", ""); }

// ---- what a value is, for completions

/// What stands for a value, by the word that the table has for it.
struct Completed {
    std::string names; ///< folder of the shelf whose names may stand here; "shown": any that --show knows
    bool files = false, folders = false;
};

Completed completed(const std::string& value) {
    for (const auto& [word, folder] :
         {std::pair{"RECIPE", "recipes"}, {"JAR", "jars"}, {"MEDIUM", "media"}, {"VESSEL", "vessels"},
          {"FAMILY", "families"}, {"THING", "shown"}})
        if (value == word) return {folder, value == "RECIPE" || value == "JAR", false};
    return {{}, value.rfind("FILE", 0) == 0 || value.rfind("TEST", 0) == 0, value == "DIR"};
}

std::vector<Row> of_kind(const CommandLine& command, Row::Kind kind) {
    std::vector<Row> found;
    for (const auto& row : command.table())
        if (row.kind == kind) found.push_back(row);
    return found;
}

std::string joined(const std::vector<std::string>& parts, std::string_view with) {
    std::string text;
    for (const auto& part : parts)
        text.append(text.empty() ? "" : with).append(part);
    return text;
}

/// lakebound-batch: _lakebound_batch.
std::string function_name(const CommandLine& command) { return "_" + replaced(command.program(), "-", "_"); }

// ---- the manual page

std::string roff(std::string text) {
    text = replaced(replaced(std::move(text), "\\", "\\e"), "-", "\\-");
    if (text.starts_with('.') || text.starts_with('\'')) text.insert(0, "\\&");
    return text;
}

std::string entry(const std::string& term, const std::string& meaning) {
    return ".TP\n" + term + "\n" + roff(meaning) + "\n";
}

std::string manual_page(const CommandLine& command, std::span<const std::string> commands) {
    std::string upper = command.program();
    std::transform(upper.begin(), upper.end(), upper.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
    std::string text = ".TH " + roff(upper) + " 1 \"\" \"Lakebound " + std::string(version_text) + "\" \"Lakebound\"\n";
    text += ".SH NAME\n" + roff(command.program()) + " \\- " + roff(command.purpose()) + "\n";
    text += ".SH SYNOPSIS\n.B " + roff(command.program()) + "\n";
    for (const auto& row : of_kind(command, Row::Kind::argument))
        text += ".RI [ " + roff(bare(row.names.front())) + " ]\n";
    text += ".RI [ options ]\n";
    const auto& notes = command.notes();
    const auto status = notes.find("Exit status:");
    text += ".SH DESCRIPTION\n" + roff(replaced(notes.substr(0, status), "\n", " ")) + "\n";
    text += "Quantities are a number and a unit, in quotes where the shell would part them: \"12.5 g\". "
            "Files and names of the shelf are told apart so: what holds a / or ends in .yaml is a file.\n";
    for (const auto& row : of_kind(command, Row::Kind::argument))
        text += entry(".I " + roff(row.names.front()), row.help);
    text += ".SH OPTIONS\n";
    for (const auto& row : command.table()) {
        if (row.kind == Row::Kind::group) text += ".SS " + roff(row.help) + "\n";
        if (row.kind != Row::Kind::option) continue;
        std::string names;
        for (const auto& name : row.names)
            names += (names.empty() ? "\\fB" : ", \\fB") + roff(name) + "\\fR";
        text += entry(names + (row.value.empty() ? "" : " \\fI" + roff(bare(row.value)) + "\\fR"), row.help);
    }
    text += ".TP\n\\fB\\-\\-\\fR\nWhat follows is no option, though it begin with a dash\n";
    text += ".SH EXAMPLES\n.EX\n" + roff(command.example()) + "\n.EE\n";
    text += ".SH FILES\n";
    text += entry(".I ../share/lakebound/formulations", "The shipped shelf, from the folder of the command");
    text += entry(".I ~/.local/share/lakebound", "A shelf of your own, laid over it");
    text += entry(".I bench.yaml\\fR, \\fIjars/\\fR, \\fIrecords/", "Of the studio you stand in");
    text += ".SH ENVIRONMENT\n";
    text += entry(".B LAKEBOUND_SHELF", "Folders of your own, separated by colons, laid over the shipped shelf");
    text += entry(".B XDG_DATA_HOME\\fR, \\fBXDG_DATA_DIRS", "Where a shelf is sought after those; see --searched");
    text += entry(".B NO_COLOR", "Set and not empty: text without colours, as --no-color");
    text += entry(".B LC_ALL\\fR, \\fBLC_CTYPE\\fR, \\fBLANG", "Without UTF-8 in them the text is plain ASCII");
    if (status != std::string::npos) {
        const auto told = notes.substr(status + std::string_view("Exit status:").size());
        text += ".SH EXIT STATUS\n" + roff(replaced(told.substr(told.find_first_not_of(" \n")), "\n", " ")) + "\n";
    }
    std::vector<std::string> others;
    for (const auto& other : commands)
        if (other != command.program()) others.push_back(".BR " + roff(other) + " (1)");
    if (!others.empty()) text += ".SH SEE ALSO\n" + joined(others, " ,\n") + "\n.PP\nThe pages in share/doc/lakebound.\n";
    return text;
}

// ---- bash

std::string bash(const CommandLine& command) {
    const auto name = function_name(command), names = name + "_names";
    std::string cases, all;
    for (const auto& row : of_kind(command, Row::Kind::option)) {
        all += joined(row.names, " ") + " ";
        if (row.value.empty()) continue;
        const auto what = completed(row.value);
        cases += "    " + joined(row.names, "|") + ")\n";
        if (!what.names.empty()) cases += "        " + names + " " + what.names + "\n";
        if (what.files) cases += "        compopt -o filenames; COMPREPLY+=($(compgen -f -- \"$word\"))\n";
        if (what.folders) cases += "        compopt -o filenames; COMPREPLY+=($(compgen -d -- \"$word\"))\n";
        cases += "        return ;;\n";
    }
    std::string argument;
    for (const auto& row : of_kind(command, Row::Kind::argument)) {
        const auto what = completed(row.names.front());
        if (!what.names.empty()) argument += "        " + names + " " + what.names + "\n";
        if (what.files) argument += "        compopt -o filenames; COMPREPLY+=($(compgen -f -- \"$word\"))\n";
    }
    return "# bash completion for " + command.program() + "\n" + names +
           "() {\n"
           "    local list; list=$(" +
           command.program() + " --names \"$1\" \"${shelves[@]}\" 2>/dev/null)\n" +
           "    COMPREPLY+=($(compgen -W \"$list\" -- \"$word\"))\n"
           "}\n" + name + "() {\n" +
           "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} at\n"
           "    local -a shelves=()\n"
           "    [[ $word == '=' ]] && word=\n"
           "    [[ $before == '=' ]] && before=${COMP_WORDS[COMP_CWORD-2]}\n"
           "    for ((at = 1; at + 1 < ${#COMP_WORDS[@]}; at++)); do\n"
           "        [[ ${COMP_WORDS[at]} == --shelf ]] && shelves+=(--shelf \"${COMP_WORDS[at+1]}\")\n"
           "    done\n"
           "    COMPREPLY=()\n"
           "    case $before in\n" + cases +
           "    esac\n"
           "    if [[ $word == -* ]]; then\n"
           "        COMPREPLY=($(compgen -W \"" + all + "\" -- \"$word\"))\n"
           "    else\n" + (argument.empty() ? "        :\n" : argument) +
           "    fi\n}\ncomplete -F " + name + " " + command.program() + "\n";
}

// ---- zsh

std::string zsh_words(std::string text) {
    text = replaced(replaced(std::move(text), "\\", "\\\\"), "'", "'\\''");
    for (const char* special : {"[", "]", ":"})
        text = replaced(std::move(text), special, std::string("\\") + special);
    return text;
}

std::string zsh_action(const Completed& what, const std::string& names) {
    if (!what.names.empty()) return "{" + names + " " + what.names + (what.files ? "; _files" : "") + "}";
    return what.files ? "_files" : what.folders ? "_files -/" : " ";
}

std::string zsh(const CommandLine& command) {
    const auto name = function_name(command), names = name + "_names";
    std::string specs;
    for (const auto& row : of_kind(command, Row::Kind::option))
        for (const auto& each : row.names)
            specs += "        '" + std::string(row.repeatable ? "*" : "") + each + "[" + zsh_words(row.help) + "]" +
                     (row.value.empty() ? ""
                                        : ":" + zsh_words(bare(row.value)) + ":" +
                                              zsh_action(completed(row.value), names)) +
                     "' \\\n";
    for (const auto& row : of_kind(command, Row::Kind::argument))
        specs += "        '" + std::string(row.repeatable ? "*" : "") + ":" + zsh_words(row.names.front()) + ":" +
                 zsh_action(completed(row.names.front()), names) + "' \\\n";
    return "#compdef " + command.program() + "\n" + names +
           "() {\n"
           "    local -a shelves found\n"
           "    local at\n"
           "    for ((at = 2; at < $#words; at++)); do\n"
           "        [[ $words[at] == --shelf ]] && shelves+=(--shelf $words[at+1])\n"
           "    done\n"
           "    found=(${(f)\"$(" + command.program() + " --names $1 $shelves 2>/dev/null)\"})\n"
           "    compadd -a found\n"
           "}\n" + name + "() {\n    _arguments -s \\\n" + specs + "        && return 0\n}\n" + name + " \"$@\"\n";
}

// ---- fish

std::string fish_words(const std::string& text) { return replaced(replaced(text, "\\", "\\\\"), "'", "\\'"); }

std::string fish(const CommandLine& command) {
    const auto names = "_" + function_name(command) + "_names";
    const auto listed = [&](const Completed& what) { return " -a '(" + names + " " + what.names + ")'"; };
    std::string text = "# fish completion for " + command.program() + "\nfunction " + names +
                       "\n"
                       "    set -l shelves\n"
                       "    set -l words (commandline -opc)\n"
                       "    for at in (seq 2 (count $words))\n"
                       "        if test \"$words[$at]\" = --shelf; and set -q words[(math $at + 1)]\n"
                       "            set -a shelves --shelf $words[(math $at + 1)]\n"
                       "        end\n"
                       "    end\n"
                       "    " + command.program() + " --names $argv[1] $shelves 2>/dev/null\nend\n";
    for (const auto& row : of_kind(command, Row::Kind::option)) {
        text += "complete -c " + command.program();
        for (const auto& each : row.names)
            text += each.starts_with("--") ? " -l " + each.substr(2) : " -s " + each.substr(1);
        if (!row.value.empty()) {
            const auto what = completed(row.value);
            text += what.files || what.folders ? " -r" : " -x";
            if (what.files) text += " -F";
            if (what.folders) text += " -a '(__fish_complete_directories)'";
            if (!what.names.empty()) text += listed(what);
        }
        text += " -d '" + fish_words(row.help) + "'\n";
    }
    for (const auto& row : of_kind(command, Row::Kind::argument)) {
        const auto what = completed(row.names.front());
        if (!what.names.empty()) text += "complete -c " + command.program() + (what.files ? "" : " -f") + listed(what) + "\n";
    }
    return text;
}

} // namespace

std::string written_as(const std::string& form, const CommandLine& command, std::span<const std::string> commands) {
    if (form == "man") return manual_page(command, commands);
    if (form == "bash") return bash(command);
    if (form == "zsh") return zsh(command);
    if (form == "fish") return fish(command);
    throw InputError(command_line_fault("option-value", "--written-as " + form + ": nothing is written so",
                                        "write man, bash, zsh or fish"));
}

} // namespace lakebound
