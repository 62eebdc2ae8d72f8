#include "lakebound/shelf/ingredient_file.hpp"

#include "lakebound/shelf/pigment_file.hpp"

namespace lakebound {
namespace {

const std::vector<std::string_view> role_words{"gum",     "plasticiser",  "drying oil",    "resin",
                                               "wax",     "emulsion",     "protein",       "water",
                                               "solvent", "preservative", "wetting agent", "salt"};
const std::vector<std::string_view> sorbs_words{"nothing", "gum", "glycerol", "sugar"};
constexpr SorbsAs sorbs[] = {SorbsAs::nothing, SorbsAs::gum, SorbsAs::glycerol, SorbsAs::sugar};
constexpr Role roles[] = {Role::gum,     Role::plasticiser,  Role::drying_oil,    Role::resin,
                          Role::wax,     Role::emulsion,     Role::protein,       Role::water,
                          Role::solvent, Role::preservative, Role::wetting_agent, Role::salt};

} // namespace

Ingredient read_ingredient(Document document, std::string id) {
    require_kind(document, "ingredient");
    const MapReader map(document.root, "an ingredient file",
                        {"kind", "name", "role", "density", "bulk_density", "non_volatile", "solids_density", "sorbs_as",
                         "usual_dose", "strongest_solution", "hazards", "note"},
                        document.faults);
    constexpr auto style = FigureStyle::with_origin;
    Ingredient ingredient;
    ingredient.id = std::move(id);
    ingredient.name = map.text("name");
    ingredient.role = roles[map.word("role", role_words)];
    ingredient.density = map.figure<MassDensity>("density", range::density, style);
    ingredient.bulk_density = map.optional_figure<MassDensity>("bulk_density", range::density, style);
    ingredient.non_volatile = map.figure<MassFraction>("non_volatile", range::not_negative, style);
    ingredient.solids_density = map.optional_figure<MassDensity>("solids_density", range::density, style);
    ingredient.usual_dose = map.optional_figure<MassFraction>("usual_dose", range::not_negative, style);
    ingredient.strongest_solution =
        map.optional_figure<MassFraction>("strongest_solution", range::positive, style);
    if (map.find("sorbs_as") != nullptr) {
        ingredient.sorbs_as = sorbs[map.word("sorbs_as", sorbs_words, 0)];
    } else if (ingredient.role == Role::plasticiser) {
        document.faults.add(fault_at(*map.find("role"), "sorbs-as-missing",
                                     "how much of the room's water a plasticiser holds depends on what it is",
                                     "add 'sorbs_as: glycerol', or 'sorbs_as: sugar' for honey and syrups"));
    }
    ingredient.hazards = read_hazards(map);
    ingredient.note = map.text_or_empty("note");
    if (canonical(ingredient.non_volatile.value()) > 0.0 && map.find("solids_density") == nullptr)
        document.faults.add(fault_at(*map.find("non_volatile"), "solids-density-missing",
                                     "something stays in the dry film, but its density is not given",
                                     "add 'solids_density: ', the density of what stays"));
    document.faults.throw_if_any();
    return ingredient;
}

Ingredient read_ingredient_file(const std::string& path) {
    return read_ingredient(load_document(path), id_of_path(path));
}

} // namespace lakebound
