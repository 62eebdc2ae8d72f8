#pragma once
// A sized batch as one JSON document, for programs.
//
// Keys are snake_case and end in their unit (pigment_g, wet_ml, density_g_per_cm3); ratios have none.
// Uncertain values are {value, standard_uncertainty, provenance}. Numbers read back to the same double
// and are never NaN: what is not known is left out. docs/json.md lists the keys.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch_subject.hpp"
#include "lakebound/report/weigh_sheet.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The schema_version written; a key is only ever added under one version.
inline constexpr int batch_json_version = 4;

/// record: what the record of its jar says, where it has one. with_working: the steps of --explain too.
[[nodiscard]] std::string batch_json(const BatchSubject& subject, bool with_working = false, const SheetRecord* record = nullptr);

} // namespace lakebound
