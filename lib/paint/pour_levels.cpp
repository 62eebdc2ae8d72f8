#include "lakebound/paint/pour_levels.hpp"

#include <algorithm>

namespace lakebound {

std::vector<PourLevel> pour_levels(const Filling& filling) {
    if (!filling.pours || !filling.pours->brim) return {};
    const double fill = filling.vessel.fill.value();
    const Volume capacity = filling.vessel.capacity.value();
    const double dry_per_wet = filling.paint_per_vessel / filling.wet_per_vessel;
    std::vector<PourLevel> levels;
    double level = 0.0;
    for (int i = 0; i < *filling.pours->brim; ++i) {
        const double poured = std::clamp((fill - level) / dry_per_wet, 0.0, 1.0 - level);
        const double wet = level + poured;
        level += dry_per_wet * poured;
        levels.push_back({capacity * poured, Share::of(std::min(wet, 1.0)), Share::of(std::min(level, 1.0))});
    }
    return levels;
}

} // namespace lakebound
