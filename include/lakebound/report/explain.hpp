#pragma once
// The worked example: every step behind a batch with its symbols and numbers, as a handbook prints it.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/paint/batch_subject.hpp"
#include "lakebound/report/text_options.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Steps by topic, then the chance with its budget. No sections when the subject has no batch.
[[nodiscard]] page::Page explanation_page(const BatchSubject& subject);
/// The same in text; empty when the subject has no batch.
[[nodiscard]] std::string explanation_text(const BatchSubject& subject, const TextOptions& options = {});

} // namespace lakebound
