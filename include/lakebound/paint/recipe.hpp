#pragma once
// Recipe: pigments, medium, additives and family, and what the paint aims at.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/medium.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/paint/family.hpp"
#include "lakebound/paint/vessel.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct PigmentPart {
    Pigment pigment;
    MassFraction share; ///< of the pigment mass; the shares of a recipe sum to 1
    /// What this binder wants over the oil of a rub-out, by the maker's own swatches (record); 1: nothing learned.
    double step_from_oil = 1.0;
};

/// The mass that an additive's dose is a fraction of.
enum class DoseBasis { medium, pigment, paint };
template <> struct WordTable<DoseBasis> {
    static constexpr WordRow<DoseBasis> rows[] = {
        {DoseBasis::medium, "medium"},
        {DoseBasis::pigment, "pigment"},
        {DoseBasis::paint, "paint"},
    };
};

struct Additive {
    Ingredient ingredient;
    MassFraction dose;
    DoseBasis basis = DoseBasis::medium;
};

/// What the paint aims at: exactly one of these.
using Aim = std::variant<BinderSufficiency, ReducedPigmentVolumeConcentration, PigmentVolumeConcentration,
                         MediumPerPigment>;

struct Recipe {
    std::string id;
    std::string name;
    Family family;
    std::vector<PigmentPart> pigments;
    Medium medium;
    std::vector<Additive> additives;
    std::optional<Aim> aim;              ///< the family's start when absent
    SpecificVolume working_water;        ///< water added at the slab per mass of pigment; 0 for oil
    /// What the stock solutions of its ingredients may be made with, as the shelf has it: nothing of it is
    /// in the paint until a weigh sheet puts it there.
    std::vector<Ingredient> carriers;
    std::optional<Vessel> vessel;        ///< what it is usually filled into
    std::string note;
};

} // namespace lakebound
