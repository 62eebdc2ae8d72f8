#pragma once
// The warnings of a batch as sentences that say what to do.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch_subject.hpp"

namespace LAKEBOUND_EXPORT lakebound {

[[nodiscard]] std::string warning_text(const BatchWarning& warning, const BatchRequest& request);
/// A warning by what the bath left in the jar (is_of_remains). ingredient: name of its subject, where it has one.
[[nodiscard]] std::string remains_warning_text(const BatchWarning& warning, const std::string& ingredient);
/// Name of a pigment, medium, ingredient or vessel of the request; the id itself when it has none.
[[nodiscard]] std::string name_of(const std::string& id, const BatchRequest& request);

} // namespace lakebound
