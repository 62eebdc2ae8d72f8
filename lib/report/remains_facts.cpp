#include "remains_facts.hpp"

#include <fmt/format.h>

#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/report/chance_words.hpp"

namespace lakebound {

namespace {

std::string estimated_ph_text(const Estimate<Ph>& ph) {
    return fixed_text(ph.value().value(), 1) + " ± " + fixed_text(ph.standard_uncertainty().value(), 1);
}

} // namespace

namespace layout {

void add_remains(PageBuilder& page, const LakeRemains& lake, const JarRemains& remains) {
    if (lake.ph) page.fact("pH in water", estimated_ph_text(*lake.ph));
    for (const PreservativeInPaint& each : remains.preservatives)
        page.fact("Preservative", fmt::format("{}{}: {} of it active; chance {} that it keeps nothing from mould", each.part.name,
                                              each.part.in_paint ? "" : ", if it is added",
                                              percent_text(each.active.value()), chance_percent_text(each.dead)));
    if (lake.salts)
        page.fact("Salts", fmt::format("{} of the lake", percent_value_text(lake.salts->value().value(),
                                                                            lake.salts->standard_uncertainty().value())));
    if (remains.salts)
        page.fact("Paint bears", fmt::format("{} of its pigment; chance {} that they are more", percent_text(remains.salts->borne.value()),
                                                  chance_percent_text(remains.salts->too_many)));
}

void add_colour(PageBuilder& page, const ColourRecord& colour) {
    if (!colour.hue.empty()) page.fact("Hue", colour.hue);
    if (colour.swatch) page.fact("Swatch", fmt::format("number {}", *colour.swatch));
    if (colour.strike) page.fact("Struck at", "pH " + estimated_ph_text(*colour.strike));
}

} // namespace layout

} // namespace lakebound
