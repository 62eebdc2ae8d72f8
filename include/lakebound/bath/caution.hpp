#pragma once
// What can hurt someone at a bath: chosen by what is in it, said by the report.
//
// Reminders only; the product's safety data sheet, local codes and licensed practice decide. Sources: docs/cautions.md.

#include <vector>

#include "lakebound/bath/salt.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class BathCaution {
    never_closed,    ///< gas: a closed vessel bursts
    foam_over,       ///< hot foam over the rim
    ammonia,         ///< ammonium salt and strong alkali
    eye_damage,      ///< a salt of the bath damages eyes
    alkali_splash,   ///< alkali in eyes and on skin
    scald,
    poisonous_plant, ///< many dye plants are
    kitchen,         ///< pots for good apart from food
    drain,           ///< neutral before the drain; local rules
    mould,           ///< on damp cake
    dust,
    data_sheet,      ///< defers; always last
};
inline constexpr BathCaution all_bath_cautions[] = {
    BathCaution::never_closed, BathCaution::foam_over,       BathCaution::ammonia, BathCaution::eye_damage,
    BathCaution::alkali_splash, BathCaution::scald,          BathCaution::poisonous_plant, BathCaution::kitchen,
    BathCaution::drain,        BathCaution::mould,           BathCaution::dust,    BathCaution::data_sheet};

/// The gravest first. plant: a dye plant is boiled.
[[nodiscard]] std::vector<BathCaution> bath_cautions(const Salt& aluminium, const Salt& alkali, bool plant);

} // namespace lakebound
