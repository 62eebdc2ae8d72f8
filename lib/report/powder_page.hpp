#pragma once
// What the pages about powders share.

#include "lakebound/report/powder_pictures.hpp"
#include "lakebound/report/powder_words.hpp"
#include "page_builder.hpp"

namespace lakebound::layout {

inline void add_powder_cautions(PageBuilder& page, PowderWork work) {
    page.section("Cautions");
    page::Cautions block;
    for (const auto& caution : powder_cautions(work))
        block.cautions.push_back({caution.subject, {}, caution.text});
    page.add(std::move(block));
}

} // namespace lakebound::layout
