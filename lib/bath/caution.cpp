#include "lakebound/bath/caution.hpp"

#include <algorithm>

namespace lakebound {
namespace {

bool has_hazard(const Salt& salt, Hazard hazard) {
    return std::find(salt.hazards.begin(), salt.hazards.end(), hazard) != salt.hazards.end();
}

} // namespace

std::vector<BathCaution> bath_cautions(const Salt& aluminium, const Salt& alkali, bool plant) {
    const bool gas = alkali.gives[Ion::carbonate] + alkali.gives[Ion::bicarbonate] > 0.0;
    const bool ammonia = aluminium.gives[Ion::ammonium] + alkali.gives[Ion::ammonium] > 0.0;
    const bool eyes = has_hazard(aluminium, Hazard::eye_damage) || has_hazard(alkali, Hazard::eye_damage);
    std::vector<BathCaution> chosen;
    for (const auto& [each, word] : WordTable<BathCaution>::rows) {
        bool applies = true;
        switch (each) {
        case BathCaution::never_closed:
        case BathCaution::foam_over: applies = gas; break;
        case BathCaution::ammonia: applies = ammonia; break;
        case BathCaution::eye_damage: applies = eyes; break;
        case BathCaution::poisonous_plant: applies = plant; break;
        case BathCaution::alkali_splash:
        case BathCaution::scald:
        case BathCaution::kitchen:
        case BathCaution::drain:
        case BathCaution::mould:
        case BathCaution::dust:
        case BathCaution::data_sheet: break;
        }
        if (applies) chosen.push_back(each);
    }
    return chosen;
}

} // namespace lakebound
