#pragma once
// A DomainError of the computing rooms, told as a fault in what a person typed.

#include <string>
#include <string_view>

#include "lakebound/export.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/shelf/diagnostic.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// "water temperature is 120 degC; it must be 0 to 100 degC", without what mends it.
[[nodiscard]] std::string domain_sentence(const DomainError& error);

/// The same as the fault out-of-range of the file, or of command_line_path; what mends it is its hint.
[[nodiscard]] Diagnostic domain_fault(std::string_view path, const DomainError& error);
/// The same at a place in a file.
[[nodiscard]] Diagnostic domain_fault(const Excerpt& at, const DomainError& error);

} // namespace lakebound
