#pragma once
// What can hurt someone at a bath: chosen by what is in it, said by the report.
//
// Reminders only; the product's safety data sheet, local codes and licensed practice decide. Sources: docs/cautions.md.

#include <vector>

#include "lakebound/bath/salt.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/word_table.hpp"

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
template <> struct WordTable<BathCaution> {
    static constexpr WordRow<BathCaution> rows[] = {
        {BathCaution::never_closed, "never closed"},
        {BathCaution::foam_over, "foam over"},
        {BathCaution::ammonia, "ammonia"},
        {BathCaution::eye_damage, "eye damage"},
        {BathCaution::alkali_splash, "alkali splash"},
        {BathCaution::scald, "scald"},
        {BathCaution::poisonous_plant, "poisonous plant"},
        {BathCaution::kitchen, "kitchen"},
        {BathCaution::drain, "drain"},
        {BathCaution::mould, "mould"},
        {BathCaution::dust, "dust"},
        {BathCaution::data_sheet, "data sheet"},
    };
};

/// The gravest first. plant: a dye plant is boiled.
[[nodiscard]] std::vector<BathCaution> bath_cautions(const Salt& aluminium, const Salt& alkali, bool plant);

} // namespace lakebound
