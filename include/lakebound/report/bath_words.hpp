#pragma once
// The words of the bath: cautions, what to do next, what is in doubt.

#include <string>

#include "lakebound/bath/bath_jar.hpp"
#include "lakebound/bath/bath_progress.hpp"
#include "lakebound/bath/caution.hpp"
#include "lakebound/bath/liquor.hpp"
#include "lakebound/export.hpp"
#include "lakebound/report/caution.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Subject and what to do; materials left empty.
[[nodiscard]] Caution bath_caution_words(BathCaution caution);
[[nodiscard]] const char* bath_stage_words(BathStage stage) noexcept;     ///< "laying the lake"
[[nodiscard]] const char* bath_step_words(BathStep step) noexcept; ///< a sentence: what to do now
[[nodiscard]] const char* bath_doubt_words(BathDoubt doubt) noexcept; ///< a sentence

[[nodiscard]] const char* jar_remark_words(JarRemark remark) noexcept;
/// What an entry of a bath tells, before its reading: "poured", "a decant".
[[nodiscard]] std::string bath_happened_words(std::string_view what);

} // namespace lakebound
