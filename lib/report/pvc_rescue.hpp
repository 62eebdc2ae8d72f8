#pragma once
// What to add to a paint on the slab that is too lean, too rich or too soft, in words.

#include "lakebound/report/pvc_report.hpp"
#include "page_builder.hpp"

namespace lakebound::layout {

/// Nothing where no rescue was asked for.
void add_rescue(PageBuilder& page, const PvcSubject& subject);

} // namespace lakebound::layout
