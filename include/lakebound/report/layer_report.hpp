#pragma once
// Fat over lean: several oil paints ordered by the volume of oil in them, and a faulty order flagged.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/layers.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/report/text_options.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct LayerPaint {
    std::string name;
    PigmentVolumeConcentration pvc;
    MassFraction oil_by_mass; ///< of the dry paint; shown to be looked past
};

/// from_the_ground_up: as they are to be laid; alike: NoticeFrom::layers_alike.
[[nodiscard]] page::Page layer_page(const std::vector<LayerPaint>& from_the_ground_up, double alike);
[[nodiscard]] std::string layer_text(const std::vector<LayerPaint>& from_the_ground_up, double alike, const TextOptions& options = {});
[[nodiscard]] std::string layer_json(const std::vector<LayerPaint>& from_the_ground_up, double alike);
/// True when a layer lies lean over fat: exit status 1.
[[nodiscard]] bool lies_lean_over_fat(const std::vector<LayerPaint>& from_the_ground_up, double alike);

} // namespace lakebound
