#pragma once
// The command line of an app: its options, its help, and faults that say how to mend them.
//
// Wraps CLI11 in one translation unit, for that header costs seconds wherever it is included. Options
// hold text; what a text means is read later, where the bench is known.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lakebound {

class CommandLine {
public:
    /// One row of the table of options, of which help, manual page and completions are made.
    struct Row {
        enum class Kind { group, argument, option };
        Kind kind = Kind::option;
        std::vector<std::string> names; ///< "--output", "-o"; of an argument its word
        std::string value;              ///< "FILE"; empty: a flag
        std::string help;               ///< of a group its title
        bool repeatable = false;
    };

    /// purpose: one line; example: a command that works as it stands; notes: paragraphs after the options.
    CommandLine(std::string program, std::string purpose, std::string example, std::string notes = {});
    ~CommandLine();
    CommandLine(const CommandLine&) = delete;
    CommandLine& operator=(const CommandLine&) = delete;

    /// Begins a group of the help.
    void group(std::string title);
    /// The same, of options that go with every question.
    void shared_group(std::string title);
    // names: "--output,-o". The target must outlive the parse.
    void argument(std::optional<std::string>& target, const std::string& name, std::string help);
    /// As many as are given.
    void arguments(std::vector<std::string>& target, const std::string& name, std::string help);
    void option(std::optional<std::string>& target, const std::string& names, std::string value,
                std::string help);
    /// As often as it is given, which its help then says.
    void option(std::vector<std::string>& target, const std::string& names, std::string value,
                std::string help);
    void flag(bool& target, const std::string& names, std::string help);
    /// Of these options ("--pigment") one at most may be given.
    void exclusive(std::vector<std::string> names);
    /// This option asks a question of its own, to which only these of the others, and the shared ones, say anything.
    /// hint: how to mend it; else made of their names.
    void question(std::string name, std::vector<std::string> reads, std::string hint = {});

    /// What follows an argument "--" is no option. Throws InputError: option-unknown, option-value, option-twice,
    /// option-conflict, option-unread, argument-extra.
    void parse(std::span<const std::string> arguments);
    /// After parse: throws InputError option-unread for what was given and is neither this option, nor among these, nor
    /// shared: nobody's word is passed over in silence. why: "'--mull' asks a question of its own".
    void refuse_unread(const std::string& name, const std::vector<std::string>& reads, const std::string& why,
                       const std::string& hint = {}) const;
    std::string help() const;
    /// What it is for, the example, and where to read on: for whoever typed the name alone.
    std::string short_help() const;
    const std::string& program() const noexcept;
    const std::string& purpose() const noexcept;
    const std::string& example() const noexcept;
    const std::string& notes() const noexcept;
    const std::vector<Row>& table() const noexcept;

private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

} // namespace lakebound
