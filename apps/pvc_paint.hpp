#pragma once
// The paint that lakebound-pvc is asked about: from a recipe, a weigh sheet's JSON, or quantities typed.

#include <optional>
#include <string>
#include <vector>

#include "common/streams.hpp"
#include "lakebound/paint/pvc_subject.hpp"
#include "lakebound/shelf/library.hpp"

namespace lakebound {

struct PaintOptions {
    using Text = std::optional<std::string>;
    Text recipe, jar, bench, used, total, parts, paste, family, humidity, blend_oil_absorption, test_oil;
    std::vector<std::string> pigments, binders;
    std::vector<std::string> oil_absorptions, densities, moistures, tapped_densities, median_sizes;
    bool bone_dry = false;
    bool jar_may_rest = false; ///< a recipe that takes nothing from the jar is no fault
};

/// The question without rescue, tests and rule. Throws InputError with the one thing that is missing.
PvcQuestion paint_question(const PaintOptions& options, Library& library, Streams& streams);

/// A recipe or a weigh sheet as it stands, for comparing layers.
PvcQuestion paint_question(const std::string& recipe, const PaintOptions& shared, Library& library,
                           Streams& streams);

} // namespace lakebound
