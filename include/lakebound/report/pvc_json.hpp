#pragma once
// The limits of a paint as one JSON document, for programs.
//
// Keys are snake_case and end in their unit; ratios have none. Uncertain values are {value,
// standard_uncertainty, provenance}. What cannot be answered is left out and named under `unanswered`
// with what it waits for. docs/json.md lists the keys.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc_subject.hpp"
#include "lakebound/record/jar_outlook.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The schema_version written; a key is only ever added under one version.
inline constexpr int pvc_json_version = 3;

/// outlook: what the record of its jar says, where it was taken up.
[[nodiscard]] std::string pvc_json(const PvcSubject& subject, const JarOutlook* outlook = nullptr);

} // namespace lakebound
