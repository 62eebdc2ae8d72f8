#pragma once
// What a piece of code reports, for tests of bad input.

#include "lakebound/shelf/diagnostic.hpp"

#include <string>
#include <utility>
#include <vector>

namespace lakebound::testing {

/// The faults that `code` throws; empty when it throws none.
template <class Code> std::vector<Diagnostic> faults_of(Code&& code) {
    try {
        std::forward<Code>(code)();
    } catch (const InputError& error) {
        return error.faults();
    }
    return {};
}

/// "id line:column" of each fault, separated by ", ".
inline std::string summary(const std::vector<Diagnostic>& faults) {
    std::string text;
    for (const Diagnostic& fault : faults) {
        if (!text.empty()) text += ", ";
        text += fault.id;
        if (fault.at.place.line != 0) {
            text.append(" ").append(std::to_string(fault.at.place.line));
            text.append(":").append(std::to_string(fault.at.place.column));
        }
    }
    return text;
}

} // namespace lakebound::testing
