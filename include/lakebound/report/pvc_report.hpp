#pragma once
// The limits of a paint as text for a person: which side of the CPVC, how sure, what to measure, how to
// save it. 80 columns, UTF-8.

#include <string>

#include "lakebound/paint/pvc_subject.hpp"
#include "lakebound/report/weigh_sheet.hpp"

namespace lakebound {

std::string pvc_report_text(const PvcSubject& subject, const TextOptions& options = {});

/// "PVC, CPVC, reduced PVC and air in the film need the density of the pigment.": one sentence for each
/// thing that is missing; empty when all was answered.
std::vector<std::string> unanswered_sentences(const QuickCheck& check);

} // namespace lakebound
