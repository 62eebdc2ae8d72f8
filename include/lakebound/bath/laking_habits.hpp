#pragma once
// What is usual at a dye pot until the maker says otherwise. The figures lie on the shelf (kind: laking habits) with
// their origin; none lives in code.

#include <array>
#include <string>

#include "lakebound/bath/liquor.hpp"
#include "lakebound/bath/precipitation.hpp"
#include "lakebound/bath/titration.hpp"
#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct LakingHabits {
    std::string lake, chalk_lake;                 ///< ids of the pigments that a bath makes, with soda and its like and with chalk
    std::array<Estimate<Share>, 5> dry_share{};   ///< of the fresh plant, by part, in the order of PlantPart
    Estimate<SpecificVolume> water_held{};        ///< by the drained plant, per dry mass
    Estimate<MassDensity> plant_density{};        ///< of the soaked plant's solid
    Estimate<Share> pot_headspace{};              ///< above water and plant
    Estimate<SpecificVolume> water_per_plant{};   ///< poured on in all, per dry mass
    unsigned pulls = 1;
    Estimate<Share> alum_per_plant{};             ///< aluminium salt per dry mass, where only the plant is known
    Estimate<Temperature> heat_limit{};           ///< of the dye liquor: a caution
    Estimate<Temperature> laying_warmth{};        ///< of the liquor when alkali goes in
    Estimate<HydroxidesPerAluminium> hydroxides = Estimate<HydroxidesPerAluminium>::exact(HydroxidesPerAluminium::of(3.0), {});
    Estimate<Share> strength{};                   ///< of the solutions, g/mL
    PhRange stop;                                 ///< between which pouring ends
    Estimate<Time> foam_life{};
    Estimate<Share> foam_fill{};                  ///< of the headspace
    Estimate<Share> least_headspace{};            ///< of the liquid: less is refused
    double vessel_times = 1.0;                    ///< the liquid, of a vessel that is comfortable
    Estimate<Time> longest_pouring{};             ///< slower than this the vessel is called too small
    Estimate<Share> dye_per_hydroxide{};          ///< dye fixed per mass of dry hydroxide laid
    Estimate<MassFraction> cake_salts{};          ///< of the dry lake, washed as usual
    Estimate<Share> bed_share{};                  ///< of the vessel, liquid left with the settled lake
    Estimate<MassDensity> gypsum_dissolves{};     ///< per volume of liquor
};

} // namespace lakebound
