#pragma once
// Medium: a binder ready to use, as parts by mass or by volume.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/ingredient.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class PartsBasis {
    mass,   ///< parts are masses as supplied
    volume, ///< parts are volumes as supplied: a loose powder by its bulk density, a liquid by its density
};
template <> struct WordTable<PartsBasis> {
    static constexpr WordRow<PartsBasis> rows[] = {{PartsBasis::mass, "mass"}, {PartsBasis::volume, "volume"}};
};

struct MediumPart {
    Ingredient ingredient;
    double parts = 0.0; ///< in the basis of the medium, above 0
};

struct Medium {
    std::string id;
    std::string name;
    PartsBasis basis = PartsBasis::mass;
    std::vector<MediumPart> parts;
    std::string shelf_life; ///< in words: "days, in the refrigerator"; empty when not perishable
    std::string note;
};

} // namespace lakebound
