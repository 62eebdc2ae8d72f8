#pragma once
// The dye liquor: water to plant, what each pull leaves behind, and the pot that holds it.
//
// Perfect mixing and draining: S mL of water to a gram of dry plant, of which U mL stay in the drained plant.
// One pull leaves U/S of what dissolves; each fresh pull of w mL leaves U/(U + w) of what was left.
// Source: algebra; U and the plant's own bulk are the maker's habits (formulations/baths). Validity: a plant that gives
// what it has in the time of a pull; what dissolves slowly stays behind besides.

#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class PlantPart { root, herb, leaf, flower, bark };
template <> struct WordTable<PlantPart> {
    static constexpr WordRow<PlantPart> rows[] = {
        {PlantPart::root, "root"},
        {PlantPart::herb, "herb"},
        {PlantPart::leaf, "leaf"},
        {PlantPart::flower, "flower"},
        {PlantPart::bark, "bark"},
    };
};

/// Dry mass in a fresh mass, m d. Range: share above 0. Errors: DomainError.
[[nodiscard]] Mass dry_plant(Mass fresh, Share dry_share);

struct Pull {
    Volume water;       ///< poured on
    Volume liquor;      ///< that drains off
    Share left;         ///< of what dissolves, still in the plant after it
};

/// Pulls of equal water that sum to `water`, all on the same drained plant.
/// Range: 1 to 6 pulls; more water in the first than the plant holds. Errors: DomainError.
[[nodiscard]] std::vector<Pull> plan_pulls(Mass dry, Volume water, unsigned pulls, SpecificVolume held);

/// Pot for one pull: (water + dry / rho) (1 + headspace). Errors: DomainError, rho above 0.
[[nodiscard]] Volume pot_for(Volume water, Mass dry, MassDensity plant, Share headspace);
/// Most water of one pull that a pot takes with the plant in it; 0 when the plant alone fills it. Errors: as above.
[[nodiscard]] Volume water_that_fits(Volume pot, Mass dry, MassDensity plant, Share headspace);

} // namespace lakebound
