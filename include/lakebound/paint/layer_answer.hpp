#pragma once
// Layers read: are several oil paints laid fat over lean, and in which order would they be?
// Example: docs/examples/order_the_layers.cpp.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/layers.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct LayerPaint {
    std::string name;
    PigmentVolumeConcentration pvc;
    MassFraction oil_by_mass; ///< of the dry paint; shown to be looked past
};

/// The paint of a batch as a layer: w = b / (1 + b), b the oil per pigment. Nothing where it is no oil paint.
[[nodiscard]] std::optional<LayerPaint> layer_paint(std::string name, const Batch& batch);

struct LayerAnswer {
    struct Layer {
        LayerPaint paint;
        VolumeFraction oil_by_volume; ///< of the dry film: what is judged
    };
    std::vector<Layer> from_the_ground_up{};
    std::vector<LeanOverFat> lean_over_fat{}; ///< empty: all is well
    std::vector<std::size_t> lean_to_fat{};   ///< positions, in the order to lay them
    double alike = 0.0;                       ///< difference in oil by volume up to which layers count as equally fat

    bool in_order() const noexcept { return lean_over_fat.empty(); }
};

/// Judges paints given from the ground up; alike: NoticeFrom::layers_alike. Errors: DomainError as lean_over_fat.
[[nodiscard]] LayerAnswer judge_layers(std::vector<LayerPaint> from_the_ground_up, double alike);

} // namespace lakebound
