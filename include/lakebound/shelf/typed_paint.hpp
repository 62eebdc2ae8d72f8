#pragma once
// A paint that is asked about, put together from texts: a recipe, a weigh sheet's JSON, or quantities typed.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc_subject.hpp"
#include "lakebound/record/jar_outlook.hpp"
#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/maker_files.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The texts of a paint; each is read as docs/file-formats.md writes a quantity.
struct PaintTexts {
    using Text = std::optional<std::string>;
    Text recipe, jar, bench, used, total, parts, paste, family, humidity, blend_oil_absorption, test_oil;
    std::vector<std::string> pigments, binders;
    std::vector<std::string> oil_absorptions, densities, moistures, tapped_densities, median_sizes;
    bool bone_dry = false;
    bool without_record = false; ///< the jar is taken as its file has it: a sweep leaves the paint that was learned of
    bool jar_may_rest = false; ///< a recipe that takes nothing from the jar is no fault
};

/// The question without rescue, tests and rule. outlook: set to what the record of the jar says, where it was taken
/// up; may be nullptr. Throws InputError with the one thing that is missing.
[[nodiscard]] PvcQuestion paint_question(const PaintTexts& texts, Library& library, const StandardInput& standard_input,
                                         std::optional<JarOutlook>* outlook = nullptr);

/// A recipe or a weigh sheet as it stands, for comparing layers.
[[nodiscard]] PvcQuestion paint_question(const std::string& recipe, const PaintTexts& shared, Library& library,
                                                       const StandardInput& standard_input);

} // namespace lakebound
