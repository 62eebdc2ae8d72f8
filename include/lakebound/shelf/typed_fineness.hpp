#pragma once
// How fine is fine enough, as it is typed: the target of a family, or a screen and what may stay on it.

#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct FinenessTexts {
    std::optional<std::string> family, target, residue;
};

/// The target of the family, or of the screen given; the residue replaces what may stay on it. Nothing when
/// neither is named. Throws InputError.
[[nodiscard]] std::optional<FinenessTarget> find_target(const FinenessTexts& texts, Library& library);

/// A size as --cut and --target take it: a length, or a screen such as "No. 325". Throws InputError.
[[nodiscard]] Length size_option(const std::string& option, const std::string& text);

/// The size of a grain, above 0: a length, for which um is proposed when the unit is missing. Throws
/// InputError.
[[nodiscard]] Length grain_size_option(const std::string& option, const std::string& text);

} // namespace lakebound
