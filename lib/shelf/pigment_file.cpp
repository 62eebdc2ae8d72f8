#include "lakebound/shelf/pigment_file.hpp"

#include "lakebound/material/moisture.hpp"

namespace lakebound {
std::vector<Hazard> read_hazards(const MapReader& map) {
    std::vector<Hazard> found;
    const Node* list = map.find("hazards");
    if (list == nullptr) return found;
    if (list->kind == Node::Kind::sequence && list->items.empty()) return found; // "none" said aloud
    for (const Node* item : map.list("hazards", false))
        if (const auto word = read_word<Hazard>(*item, "a hazard", map.faults())) found.push_back(*word);
    return found;
}

MoistureState read_density_state(const MapReader& map) {
    return map.word<MoistureState>("density_state", MoistureState::as_weighed);
}

void require_moisture(const MapReader& map, MoistureState state, bool moisture_known) {
    if (state != MoistureState::bone_dry || moisture_known) return;
    if (const Node* at = map.find("density_state"); at != nullptr && at->kind == Node::Kind::scalar)
        map.faults().add(fault_at(*at, "moisture-missing",
                                  "a bone-dry density needs the moisture of the powder as weighed",
                                  "add 'moisture: ', the loss at 105 degC, as in 'moisture: 8 % w/w'"));
}

Range oil_absorption_range() {
    return {0.02, 4.0, false, "2 to 400 g/100g",
            "is the unit g of oil for 100 g of pigment, and the point in its place?"};
}

Range powder_moisture_range() {
    return {0.0, wettest_powder.value(), false, "0 to 50 % w/w",
            "a powder that is half water is a paste: dry it first, then weigh it anew"};
}

Pigment read_pigment(Document document, std::string id, const UsualTestOil& usual) {
    require_kind(document, "pigment");
    const MapReader map(document.root, "a pigment file",
                        {"kind", "name", "class", "density", "density_state", "oil_absorption",
                         "test_oil_density", "moisture", "tapped_density", "median_size", "hazards", "note"},
                        document.faults);
    constexpr auto style = FigureStyle::with_origin;
    Pigment pigment;
    pigment.id = std::move(id);
    pigment.name = map.text("name");
    pigment.pigment_class = map.word<PigmentClass>("class");
    pigment.density = map.figure<MassDensity>("density", range::density, style);
    pigment.density_state = read_density_state(map);
    pigment.oil_absorption = map.needed_figure<OilAbsorption>("oil_absorption", oil_absorption_range(), style);
    const auto own_oil = map.optional_figure<MassDensity>("test_oil_density", range::density, style);
    pigment.test_oil_density = own_oil ? *own_oil : usual();
    pigment.moisture = map.optional_figure<MassFraction>("moisture", powder_moisture_range(), style);
    pigment.tapped_density = map.optional_figure<MassDensity>("tapped_density", range::density, style);
    pigment.median_size = map.optional_figure<Length>("median_size", range::grain_size, style);
    pigment.hazards = read_hazards(map);
    pigment.note = map.text_or_empty("note");
    require_moisture(map, pigment.density_state, map.find("moisture") != nullptr);
    document.faults.throw_if_any();
    return pigment;
}

Pigment read_pigment_file(const std::string& path, const UsualTestOil& usual) {
    return read_pigment(load_document(path), id_of_path(path), usual);
}

} // namespace lakebound
