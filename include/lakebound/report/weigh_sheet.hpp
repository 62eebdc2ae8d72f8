#pragma once
// The weigh sheet: what a person works from at the slab.
// Example: docs/examples/batch_from_the_shelf.cpp.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/paint/batch_subject.hpp"
#include "lakebound/record/jar_outlook.hpp"
#include "lakebound/report/text_options.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What the record of the jar adds to a sheet.
struct SheetRecord {
    JarOutlook outlook;
    LearningHabits habits;
    std::string jar_id;   ///< as a command names the jar: "weld --shelf reedmere"
    std::string kept{};   ///< file of the entry, where the batch was kept
    std::string remark{}; ///< of that entry, where it may be a slip
};

/// The whole sheet in working order. A request that cannot be met opens with what runs out and shows
/// the sheet of the largest batch that fits, if any does.
/// record: what the record of its jar says, where it has one.
[[nodiscard]] page::Page weigh_sheet_page(const BatchSubject& subject, const SheetRecord* record = nullptr);
/// The same in text.
[[nodiscard]] std::string weigh_sheet_text(const BatchSubject& subject, const TextOptions& options = {});

} // namespace lakebound
