#pragma once
// The words of the bath: parts of a plant, cautions, what to do next.

#include <string>

#include "lakebound/bath/bath_jar.hpp"
#include "lakebound/bath/bath_jar.hpp"
#include "lakebound/bath/bath_progress.hpp"
#include "lakebound/bath/caution.hpp"
#include "lakebound/bath/liquor.hpp"
#include "lakebound/export.hpp"
#include "lakebound/report/caution.hpp"

namespace LAKEBOUND_EXPORT lakebound {

[[nodiscard]] const char* plant_part_words(PlantPart part) noexcept; ///< "root"
/// Subject and what to do; materials left empty.
[[nodiscard]] Caution bath_caution_words(BathCaution caution);
[[nodiscard]] const char* bath_caution_key(BathCaution caution) noexcept; ///< "never_closed", as JSON has it
[[nodiscard]] const char* bath_stage_words(BathStage stage) noexcept;     ///< "laying the lake"
[[nodiscard]] const char* bath_stage_key(BathStage stage) noexcept;
[[nodiscard]] const char* bath_step_words(BathStep step) noexcept; ///< a sentence: what to do now
[[nodiscard]] const char* bath_step_key(BathStep step) noexcept;
[[nodiscard]] const char* bath_doubt_words(BathDoubt doubt) noexcept; ///< a sentence
[[nodiscard]] const char* bath_doubt_key(BathDoubt doubt) noexcept;

[[nodiscard]] const char* jar_remark_words(JarRemark remark) noexcept;
/// What an entry of a bath tells, before its reading: "poured", "a decant".
[[nodiscard]] std::string bath_happened_words(std::string_view what);

} // namespace lakebound
