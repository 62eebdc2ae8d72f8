#pragma once
// The worked example: every step behind a batch with its symbols and numbers, as a handbook prints it.

#include <string>

#include "lakebound/report/weigh_sheet.hpp"

namespace lakebound {

/// Steps by topic, then the chance with its budget. Empty when the subject has no batch.
std::string explanation_text(const BatchSubject& subject, const TextOptions& options = {});

} // namespace lakebound
