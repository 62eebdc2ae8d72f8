#pragma once
// The weigh sheet: what a person works from at the slab.

#include <string>

#include "lakebound/page/page.hpp"
#include "lakebound/paint/batch_subject.hpp"
#include "lakebound/report/text_options.hpp"

namespace lakebound {

/// The whole sheet in working order. A request that cannot be met opens with what runs out and shows
/// the sheet of the largest batch that fits, if any does.
page::Page weigh_sheet_page(const BatchSubject& subject);
/// The same in text.
std::string weigh_sheet_text(const BatchSubject& subject, const TextOptions& options = {});

} // namespace lakebound
