#include "lakebound/shelf/ingredient_file.hpp"

#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/pigment_file.hpp"

namespace lakebound {
namespace {

constexpr Range stock_strength{0.0, 0.5, true, "above 0, at most 50 % w/w",
                               "a stock of an ingredient is weaker than the ingredient"};

/// Whether the shelf has the carriers is seen where a recipe needs them.
std::optional<StockPractice> read_stock(const MapReader& map) {
    const Node* node = map.find("stock");
    if (node == nullptr) return std::nullopt;
    const MapReader stock(*node, "a stock", {"in", "strongest", "most", "beside"}, map.faults());
    StockPractice practice;
    for (const Node* carrier : stock.list("in", true)) {
        const auto text = read_text(*carrier, "in", map.faults());
        if (!text) continue;
        if (*text != oil_of_the_medium && !is_id(*text))
            map.faults().add(fault_at(*carrier, "id-form",
                                      "'" + *text + "' is neither an ingredient's name nor 'oil of the medium'",
                                      "write a file's name without .yaml, such as ethanol"));
        practice.carriers.push_back(*text);
    }
    practice.strongest =
        stock.figure<MassFraction>("strongest", stock_strength, FigureStyle::with_origin);
    practice.most = stock.exact<Mass>("most", range::positive);
    practice.beside = stock.optional_figure<MassFraction>("beside", range::positive, FigureStyle::with_origin);
    return practice;
}

std::optional<EggYield> read_egg(const MapReader& map) {
    const Node* node = map.find("in_one_egg");
    if (node == nullptr) return std::nullopt;
    const MapReader egg(*node, "what one egg gives", {"usual", "least", "evidence"}, map.faults());
    EggYield yield;
    yield.usual = egg.exact<Mass>("usual", range::positive);
    yield.least = egg.exact<Mass>("least", range::positive);
    if (const Node* from = egg.need("evidence"))
        yield.evidence = read_evidence(*from, "evidence", false, map.faults()).value_or(Provenance{});
    return yield;
}

} // namespace

Ingredient read_ingredient(Document document, std::string id) {
    require_kind(document, "ingredient");
    const MapReader map(document.root, "an ingredient file",
                        {"kind", "name", "role", "density", "bulk_density", "non_volatile", "solids_density", "sorbs_as",
                         "works_as", "usual_dose", "stock", "in_one_egg", "hazards", "note"},
                        document.faults);
    constexpr auto style = FigureStyle::with_origin;
    Ingredient ingredient;
    ingredient.id = std::move(id);
    ingredient.name = map.text("name");
    ingredient.role = map.word<Role>("role");
    ingredient.density = map.figure<MassDensity>("density", range::density, style);
    ingredient.bulk_density = map.optional_figure<MassDensity>("bulk_density", range::density, style);
    ingredient.non_volatile = map.figure<MassFraction>("non_volatile", range::not_negative, style);
    ingredient.solids_density = map.optional_figure<MassDensity>("solids_density", range::density, style);
    ingredient.usual_dose = map.optional_figure<MassFraction>("usual_dose", range::not_negative, style);
    if (map.find("works_as") != nullptr) ingredient.works_as = map.word<PreservativeAcid>("works_as");
    ingredient.stock = read_stock(map);
    ingredient.in_one_egg = read_egg(map);
    if (map.find("sorbs_as") != nullptr) {
        ingredient.sorbs_as = map.word<SorbsAs>("sorbs_as");
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
