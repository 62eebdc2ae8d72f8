#pragma once
// The weigh sheet: the text a person works from at the slab. 80 columns, UTF-8.

#include <string>

#include "lakebound/paint/batch_subject.hpp"
#include "lakebound/report/text_options.hpp"

namespace lakebound {

/// The whole sheet in working order. A request that cannot be met opens with what runs out and shows
/// the sheet of the largest batch that fits, if any does.
std::string weigh_sheet_text(const BatchSubject& subject, const TextOptions& options = {});

} // namespace lakebound
