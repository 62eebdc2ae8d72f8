#pragma once
// Faults in what a person typed, as JSON: for a program that asked with --json and reads the error stream.

#include <cstddef>
#include <span>
#include <string>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct ToldFault {
    std::string id;                  ///< stable: docs/errors.md
    std::string path;                ///< of the file as typed, "command line" or "standard input"
    std::size_t line = 0, column = 0; ///< from 1; 0 where a whole file or an argument is meant
    std::string message, hint;       ///< the hint may be empty
};

inline constexpr int fault_json_version = 1;
/// One document of kind "faults", in the order given.
[[nodiscard]] std::string fault_json(std::span<const ToldFault> faults);

} // namespace lakebound
