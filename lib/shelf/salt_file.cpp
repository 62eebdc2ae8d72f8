#include "lakebound/shelf/salt_file.hpp"

#include <algorithm>
#include <initializer_list>

#include "lakebound/quantity/error.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

constexpr Range counted_ions{0.0, 20.0, true, "above 0, at most 20", "it counts ions in the formula"};
constexpr Range counted_water{0.0, 40.0, false, "0 to 40", "it counts molecules of water in the formula"};
constexpr Range crystal_range{500.0, 6000.0, false, "0.5 to 6 g/cm3", "check the unit: is it g/cm3?"};

std::vector<std::string_view> ion_words() {
    std::vector<std::string_view> words;
    for (std::size_t i = 0; i < ion_count; ++i) words.emplace_back(ion_formula(static_cast<Ion>(i)).name);
    return words;
}

void read_ions(const MapReader& map, Salt& salt) {
    const Node* gives = map.need("gives");
    if (gives == nullptr) return;
    const MapReader ions(*gives, "the ions of a salt", ion_words(), map.faults());
    for (std::size_t i = 0; i < ion_count; ++i) {
        const Ion ion = static_cast<Ion>(i);
        if (ions.find(ion_formula(ion).name) != nullptr) salt.gives[ion] = ions.number(ion_formula(ion).name, counted_ions);
    }
}

/// A map with these of its keys alone.
Node only(Node map, std::initializer_list<std::string_view> keys) {
    for (std::size_t i = map.keys.size(); i-- > 0;)
        if (std::find(keys.begin(), keys.end(), map.keys[i].text) == keys.end()) {
            map.keys.erase(map.keys.begin() + static_cast<std::ptrdiff_t>(i));
            map.items.erase(map.items.begin() + static_cast<std::ptrdiff_t>(i));
        }
    return map;
}

void read_solubility(const MapReader& map, Salt& salt) {
    const Node* node = map.find("solubility");
    if (node == nullptr) return;
    Faults& faults = map.faults();
    const MapReader table(*node, "a solubility", {"origin", "source", "note", "points"}, faults);
    if (auto evidence = read_evidence(only(*node, {"origin", "source", "note"}), "solubility", true, faults)) salt.solubility_evidence = *evidence;
    for (const Node* item : table.list("points", true)) {
        const MapReader row(*item, "a point of a solubility", {"at", "in_100_g_water"}, faults);
        Solubility point;
        point.at = row.exact<Temperature>("at", range::liquid_water);
        point.per_water = in_grams(row.exact<Mass>("in_100_g_water", range::positive)) / 100.0;
        if (faults.none() && !salt.solubility.empty() && !(point.at > salt.solubility.back().at))
            faults.add(fault_at(*item, "salt-solubility", "the points of a solubility go from cold to warm",
                                "put them in the order of their temperatures"));
        salt.solubility.push_back(point);
    }
}

} // namespace

Salt read_salt(Document document, std::string id) {
    require_kind(document, "salt");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a salt's file",
                        {"kind", "name", "formula", "water_of_crystallisation", "gives", "trade_names", "crystal_density",
                         "solubility", "hazards", "origin", "source", "note"},
                        faults);
    Salt salt;
    salt.id = std::move(id);
    salt.name = map.text("name");
    salt.formula = map.text("formula");
    salt.hydrate_water = map.number("water_of_crystallisation", counted_water);
    read_ions(map, salt);
    if (auto evidence = read_evidence(only(document.root, {"origin", "source"}), "formula", true, faults))
        salt.formula_evidence = *evidence;
    for (const Node* item : map.list("trade_names", false))
        if (auto name = read_text(*item, "a trade name", faults)) salt.trade_names.push_back(std::move(*name));
    salt.crystal_density = map.optional_figure<MassDensity>("crystal_density", crystal_range, FigureStyle::with_origin);
    read_solubility(map, salt);
    salt.hazards = read_hazards(map);
    salt.note = map.text_or_empty("note");
    if (const Node* formula = map.find("formula"); formula != nullptr && faults.none()) {
        try {
            if (!is_consistent(salt))
                faults.add(fault_at(*formula, "salt-formula",
                                    "the ions under 'gives' with the water of crystallisation do not make up " + salt.formula,
                                    "count again: their charges cancel, and every atom of the formula is in one of them"));
        } catch (const DomainError& error) {
            faults.add(fault_at(*formula, "salt-formula", "'" + salt.formula + "' is no formula of a bath's salt",
                                "write it like KAl(SO4)2.12H2O: elements, brackets, a point before the water"));
        }
    }
    faults.throw_if_any();
    return salt;
}

Salt read_salt_file(const std::string& path) { return read_salt(load_document(path), id_of_path(path)); }

} // namespace lakebound
