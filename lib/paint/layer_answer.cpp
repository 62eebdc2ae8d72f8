#include "lakebound/paint/layer_answer.hpp"

#include <utility>

namespace lakebound {

std::optional<LayerPaint> layer_paint(std::string name, const Batch& batch) {
    if (!batch.oil) return std::nullopt;
    const double oil = batch.oil->oil_per_pigment.value();
    return LayerPaint{std::move(name), batch.film.pvc, MassFraction::of(oil / (1.0 + oil))};
}

LayerAnswer judge_layers(std::vector<LayerPaint> paints, double alike) {
    std::vector<VolumeFraction> oil;
    LayerAnswer answer{.alike = alike};
    for (auto& paint : paints) {
        oil.push_back(oil_volume_fraction(paint.pvc));
        answer.from_the_ground_up.push_back({std::move(paint), oil.back()});
    }
    answer.lean_over_fat = lean_over_fat(oil, alike);
    answer.lean_to_fat = lean_to_fat(oil);
    return answer;
}

} // namespace lakebound
