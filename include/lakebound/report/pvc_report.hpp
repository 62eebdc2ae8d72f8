#pragma once
// The limits of a paint for a person: which side of the CPVC, how sure, what to measure, how to save it.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/paint/pvc_subject.hpp"
#include "lakebound/record/jar_outlook.hpp"
#include "lakebound/report/text_options.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// outlook: what the record of its jar says, where it was taken up.
[[nodiscard]] page::Page pvc_page(const PvcSubject& subject, const JarOutlook* outlook = nullptr);
/// The same in text.
[[nodiscard]] std::string pvc_report_text(const PvcSubject& subject, const TextOptions& options = {});

/// "PVC, CPVC, reduced PVC and air in the film need the density of the pigment.": one sentence for each
/// thing that is missing; empty when all was answered.
[[nodiscard]] std::vector<std::string> unanswered_sentences(const QuickCheck& check);

} // namespace lakebound
