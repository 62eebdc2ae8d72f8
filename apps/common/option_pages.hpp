#pragma once
// What is made of a command's table of options beside its help: the manual page, and completions for shells.
//
// The build asks each command for them (`lakebound-batch --written-as man`), so that they cannot differ from what
// the command takes.

#include <span>
#include <string>

#include "common/command_line.hpp"

namespace lakebound {

/// "man", "bash", "zsh", "fish": others throw InputError option-value. commands: all of them, for "see also".
std::string written_as(const std::string& form, const CommandLine& command, std::span<const std::string> commands);

} // namespace lakebound
