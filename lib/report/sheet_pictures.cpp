#include "lakebound/report/sheet_pictures.hpp"

#include <fmt/format.h>

#include "amount_words.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"

namespace lakebound {

std::optional<page::Picture> pour_picture(const Filling& filling) {
    const auto levels = pour_levels(filling);
    if (levels.empty()) return std::nullopt;
    page::Filling picture{.question = fmt::format("One {}, pour by pour", filling.vessel.name)};
    int number = 0;
    for (const auto& level : levels)
        picture.pours.push_back({fmt::format("pour {}", ++number), volume_text(level.poured, millilitres(0.1)), level.wet_level.value(),
                                 level.dry_level.value(), percent_text(level.dry_level.value())});
    picture.caption = "Solid: left by this pour; hatched: dries off. Below: how full once it has dried.";
    return page::Picture{std::move(picture)};
}

page::Picture jar_picture(const JarShares& shares, const Batch& batch, const Bench& bench) {
    using page::Fill;
    const auto part = [&bench](const char* name, Mass mass, Fill fill) {
        return page::StackedBar::Part{name, total_text(mass, bench), in_grams(mass), fill};
    };
    page::StackedBar bar{.question = fmt::format("Where the jar's {} go", total_text(shares.in_jar, bench))};
    page::StackedBar::Group drawn{"this batch", total_text(shares.drawn, bench), {}};
    const bool filled = batch.filling && batch.filling->vessels > 0;
    drawn.parts.push_back(part(filled ? "filled" : "paint", shares.in_vessels, Fill::solid));
    if (shares.left_over.value() > 0.0) drawn.parts.push_back(part("left over", shares.left_over, Fill::shaded));
    drawn.parts.push_back(part("to the slab", shares.to_slab, Fill::hatched));
    page::StackedBar::Group stays{"stays", total_text(shares.stays, bench), {}};
    stays.parts.push_back({"", "", in_grams(shares.stays - shares.reserve), Fill::open});
    if (shares.reserve.value() > 0.0) stays.parts.push_back(part("reserve", shares.reserve, Fill::shaded));
    bar.groups = {std::move(drawn), std::move(stays)};
    return {std::move(bar)};
}

} // namespace lakebound
