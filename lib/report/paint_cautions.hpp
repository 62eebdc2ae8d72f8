#pragma once
// Cautions for rub-outs and swatches, where no recipe says what is in them.

#include <vector>

#include "lakebound/report/caution.hpp"
#include "page_builder.hpp"

namespace lakebound::layout {

inline void add_paint_cautions(PageBuilder& page, const Family& family, std::span<const HazardousMaterial> materials) {
    page.section("Take care");
    page::Cautions block;
    for (const auto& caution : cautions(materials, family)) {
        std::vector<std::string> names(caution.materials);
        block.cautions.push_back({caution.subject, names.empty() ? std::string() : names.front(), caution.text});
    }
    page.add(std::move(block));
}

} // namespace lakebound::layout
