#pragma once
// Pigment: a dry powder, a lake or an extender, as the formulas need to know it.
//
// Basis: mass, density and oil absorption are all of the powder *as weighed*, moisture included,
// unless `density_state` says bone dry. Pair rule: a mass and a density may meet in one formula only
// at the same moisture; `as_weighed_density` (density.hpp) converts.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/hazard.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class PigmentClass { lake, organic, inorganic, extender };
template <> struct WordTable<PigmentClass> {
    static constexpr WordRow<PigmentClass> rows[] = {
        {PigmentClass::lake, "lake"},
        {PigmentClass::organic, "organic"},
        {PigmentClass::inorganic, "inorganic"},
        {PigmentClass::extender, "extender"},
    };
};
enum class MoistureState { as_weighed, bone_dry };
template <> struct WordTable<MoistureState> {
    static constexpr WordRow<MoistureState> rows[] = {
        {MoistureState::as_weighed, "as weighed"},
        {MoistureState::bone_dry, "bone dry"},
    };
};

/// What the oil absorption of a pigment was made from, where its own reading met the library's expectation.
struct OilAbsorptionBelief {
    Estimate<OilAbsorption> reading;  ///< of the maker
    Estimate<OilAbsorption> expected; ///< of its kind, by the library
};

/// Every member has an initialiser, so that a designated one may leave out the rest without a warning.
struct Pigment {
    std::string id{};   ///< file stem on the shelf: "alumina-lake"
    std::string name{}; ///< as a person says it
    PigmentClass pigment_class = PigmentClass::inorganic;
    Estimate<MassDensity> density{}; ///< true (solid) density, at density_state
    MoistureState density_state = MoistureState::as_weighed;
    std::optional<Estimate<OilAbsorption>> oil_absorption{}; ///< rub-out, per mass as weighed; every formula wants it
    std::optional<OilAbsorptionBelief> oil_absorption_belief{}; ///< where it is both read and expected
    Estimate<MassDensity> test_oil_density{};              ///< of the oil used in the rub-out
    std::optional<Estimate<MassFraction>> moisture{};      ///< water per mass as weighed
    /// Of the powder left open in a room, where it is another than `moisture` (moisture.hpp).
    std::optional<Estimate<MassFraction>> air_dry_moisture{};
    /// Water beyond the air-dry state, per mass as weighed: weighed with the powder, no part of its volume
    /// (moisture.hpp).
    MassFraction excess_water{};
    std::optional<Estimate<MassDensity>> tapped_density{}; ///< powder in a tapped jar
    std::optional<Estimate<Length>> median_size{};         ///< D50 of the grains
    std::vector<Hazard> hazards{};
    std::string note{};
};

} // namespace lakebound
