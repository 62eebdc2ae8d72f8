#include "common/command_line.hpp"

#include <algorithm>
#include <list>
#include <utility>

#include <CLI/CLI.hpp>

#include "lakebound/quantity/nearest.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/shelf/diagnostic.hpp"

namespace lakebound {

namespace {

constexpr std::size_t help_width = 80, option_width = 26;

/// The text in lines of the help, each after the first indented.
std::string beside(const std::string& text, std::size_t indent) {
    std::string result;
    std::size_t used = indent;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find(' ', at), text.size());
        const auto word = text.substr(at, end - at);
        at = end + 1;
        if (word.empty()) continue;
        if (used > indent && used + 1 + word.size() > help_width) {
            result += "\n" + std::string(indent, ' ');
            used = indent;
        }
        if (used > indent) result += ' ', ++used;
        result += word;
        used += word.size();
    }
    return result + "\n";
}

} // namespace

struct CommandLine::Parts {
    /// An option that may be given once, and what was given.
    struct Single {
        std::optional<std::string>* target;
        std::string names;
        std::vector<std::string> given;
    };
    std::string program, purpose, example, notes;
    CLI::App app;
    std::vector<Row> table;
    /// An option that asks a question of its own, and what else it reads.
    struct Question {
        std::string name;
        std::vector<std::string> reads;
        std::string hint;
    };
    std::vector<std::vector<std::string>> exclusive;
    std::vector<Question> questions;
    std::size_t shared_from = static_cast<std::size_t>(-1); ///< row of the table
    std::list<Single> singles; // CLI11 keeps references: elements must not move

    /// One text for each time it is given, so that it does not swallow the argument that follows.
    void add_texts(std::vector<std::string>& target, const std::string& names) {
        app.add_option(names, target)
            ->expected(1)
            ->allow_extra_args(false)
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    }
    void add_text(std::optional<std::string>& target, const std::string& names) {
        singles.push_back({&target, names, {}});
        auto* option = app.add_option(names, singles.back().given)->expected(1)->allow_extra_args(false);
        if (names.front() == '-') option->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    }
    void add_row(const std::string& names, std::string value, std::string help, bool repeatable) {
        Row row{Row::Kind::option, {}, std::move(value), std::move(help), repeatable};
        for (std::size_t at = 0; at <= names.size();) {
            const auto end = std::min(names.find(',', at), names.size());
            row.names.push_back(names.substr(at, end - at));
            at = end + 1;
        }
        table.push_back(std::move(row));
    }
    /// The names of options that may be meant by one that is not there: those it begins, else the nearest.
    std::vector<std::string> meant(const std::string& name) const {
        std::vector<std::string> known, begun;
        for (const auto& row : table)
            if (row.kind == Row::Kind::option) known.insert(known.end(), row.names.begin(), row.names.end());
        if (name.size() > 2) // more than the dashes
            for (const auto& each : known)
                if (each.starts_with(name)) begun.push_back(each);
        return begun.empty() ? nearest_names(name, known, 1) : begun;
    }
};

CommandLine::CommandLine(std::string program, std::string purpose, std::string example, std::string notes)
    : parts_(std::make_unique<Parts>()) {
    parts_->program = std::move(program);
    parts_->purpose = std::move(purpose);
    parts_->example = std::move(example);
    parts_->notes = std::move(notes);
    parts_->app.set_help_flag("");
    parts_->app.allow_extras(); // reported by parse(), with the nearest option
}

CommandLine::~CommandLine() = default;

const std::string& CommandLine::program() const noexcept { return parts_->program; }
const std::string& CommandLine::purpose() const noexcept { return parts_->purpose; }
const std::string& CommandLine::example() const noexcept { return parts_->example; }
const std::string& CommandLine::notes() const noexcept { return parts_->notes; }
const std::vector<CommandLine::Row>& CommandLine::table() const noexcept { return parts_->table; }

void CommandLine::group(std::string title) { parts_->table.push_back({Row::Kind::group, {}, {}, std::move(title), false}); }

void CommandLine::shared_group(std::string title) {
    parts_->shared_from = parts_->table.size();
    group(std::move(title));
}

void CommandLine::argument(std::optional<std::string>& target, const std::string& name, std::string help) {
    parts_->add_text(target, name);
    parts_->table.push_back({Row::Kind::argument, {name}, {}, std::move(help), false});
}

void CommandLine::arguments(std::vector<std::string>& target, const std::string& name, std::string help) {
    parts_->app.add_option(name, target);
    parts_->table.push_back({Row::Kind::argument, {name}, {}, std::move(help), true});
}

void CommandLine::option(std::optional<std::string>& target, const std::string& names, std::string value,
                         std::string help) {
    parts_->add_text(target, names);
    parts_->add_row(names, std::move(value), std::move(help), false);
}

void CommandLine::option(std::vector<std::string>& target, const std::string& names, std::string value,
                         std::string help) {
    parts_->add_texts(target, names);
    parts_->add_row(names, std::move(value), std::move(help) + "; may be repeated", true);
}

void CommandLine::flag(bool& target, const std::string& names, std::string help) {
    parts_->app.add_flag(names, target);
    parts_->add_row(names, {}, std::move(help), false);
}

void CommandLine::exclusive(std::vector<std::string> names) { parts_->exclusive.push_back(std::move(names)); }

void CommandLine::question(std::string name, std::vector<std::string> reads, std::string hint) {
    parts_->questions.push_back({std::move(name), std::move(reads), std::move(hint)});
}

void CommandLine::refuse_unread(const std::string& name, const std::vector<std::string>& reads, const std::string& why,
                                const std::string& hint) const {
    const auto is_read = [&](const Row& row) {
        return row.names.front() == name || std::find(reads.begin(), reads.end(), row.names.front()) != reads.end();
    };
    for (std::size_t i = 0; i < std::min(parts_->shared_from, parts_->table.size()); ++i) {
        const Row& row = parts_->table[i];
        if (row.kind == Row::Kind::group || is_read(row)) continue;
        const auto* option = parts_->app.get_option(row.names.front());
        if (option->count() == 0) continue;
        const std::string given = row.kind == Row::Kind::argument ? option->results().front() : row.names.front();
        const std::string goes_with = reads.empty() ? "" : "; it goes with " + name_list(reads);
        throw InputError(command_line_fault("option-unread", "'" + given + "' would not be read: " + why,
                                            hint.empty() ? "leave it out, or ask in two commands" + goes_with : hint));
    }
}

void CommandLine::parse(std::span<const std::string> arguments) {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend()); // as CLI11 wants them
    const auto see_help = "'" + parts_->program + " --help' lists the options";
    try {
        parts_->app.parse(reversed);
    } catch (const CLI::ArgumentMismatch& error) {
        const std::string text = error.what(); // "--k: 1 required TEXT missing"
        throw InputError(
            command_line_fault("option-value", text.substr(0, text.find(':')) + " needs a value", see_help));
    } catch (const CLI::ConversionError& error) {
        const std::string text = error.what(); // "Could not convert: --json = yes please"
        const auto name = text.find("--"), end = text.find(" = ");
        if (name == std::string::npos || end == std::string::npos || end < name)
            throw InputError(command_line_fault("option-value", text, see_help));
        const auto flag = text.substr(name, end - name);
        throw InputError(command_line_fault("option-value", flag + " takes no value",
                                            "write " + flag + " alone to switch it on, or leave it out"));
    } catch (const CLI::ParseError& error) {
        throw InputError(command_line_fault("option-value", error.what(), see_help));
    }
    bool options_ended = false;
    for (const auto& extra : parts_->app.remaining()) {
        if (extra == "--" && !options_ended) {
            options_ended = true;
            continue;
        }
        if (extra.size() > 1 && extra.front() == '-' && !options_ended) {
            const auto name = extra.substr(0, extra.find('='));
            const auto near = parts_->meant(name);
            std::string meant;
            for (std::size_t i = 0; i < near.size() && i < 3; ++i)
                meant.append(i == 0 ? "did you mean '" : ", '").append(near[i]).append("'");
            throw InputError(command_line_fault("option-unknown", "there is no option '" + name + "'",
                                                near.empty() ? see_help : meant + "?"));
        }
        throw InputError(command_line_fault("argument-extra", "'" + extra + "' is one argument too many",
                                            "put quotes round a quantity, \"10 g\"; " + see_help));
    }
    for (auto& single : parts_->singles) {
        if (single.given.size() > 1)
            throw InputError(command_line_fault(
                "option-twice", "'" + single.names.substr(0, single.names.find(',')) + "' is given twice",
                "leave one of them out"));
        if (!single.given.empty()) *single.target = single.given.front();
    }
    for (const auto& group : parts_->exclusive) {
        std::vector<std::string> given;
        for (const auto& name : group)
            if (parts_->app.get_option(name)->count() > 0) given.push_back(name);
        if (given.size() > 1)
            throw InputError(command_line_fault("option-conflict",
                                                "'" + given[0] + "' and '" + given[1] + "' cannot both be met",
                                                "leave one of them out"));
    }
    for (const auto& asked : parts_->questions)
        if (parts_->app.get_option(asked.name)->count() > 0)
            refuse_unread(asked.name, asked.reads, "'" + asked.name + "' asks a question of its own", asked.hint);
}

std::string CommandLine::short_help() const {
    std::string text = program() + ": " + purpose() + "\n\nExample:\n  " + example() + "\n\nUsage: " + program();
    for (const auto& row : table())
        if (row.kind == Row::Kind::argument) text += " " + row.names.front();
    return text + " [options]\n";
}

std::string CommandLine::help() const {
    const auto& parts = *parts_;
    std::string text = short_help();
    for (const auto& row : parts.table) {
        if (row.kind == Row::Kind::group) {
            text += "\n" + row.help + "\n";
            continue;
        }
        std::string left = "  ";
        for (const auto& name : row.names)
            left.append(&name == &row.names.front() ? "" : ", ").append(name);
        if (!row.value.empty()) left.append(" ").append(row.value);
        if (left.size() + 2 > option_width)
            left += "\n" + std::string(option_width, ' ');
        else
            left.resize(option_width, ' ');
        text += left + beside(row.help, option_width);
    }
    if (!parts.notes.empty()) text += "\n" + parts.notes;
    return text;
}

} // namespace lakebound
