#include "lakebound/shelf/vessel_file.hpp"

#include "lakebound/shelf/reader.hpp"

namespace lakebound {

Vessel read_vessel(Document document, std::string id) {
    require_kind(document, "vessel");
    const MapReader map(document.root, "a vessel file",
                        {"kind", "name", "capacity", "fill", "filled_by", "note"}, document.faults);
    Vessel vessel;
    vessel.id = std::move(id);
    vessel.name = map.text("name");
    vessel.capacity = map.figure<Volume>("capacity", range::positive, FigureStyle::with_origin);
    vessel.fill = map.exact<Share>("fill", range::positive);
    vessel.filled_by = map.word<FilledBy>("filled_by");
    vessel.note = map.text_or_empty("note");
    document.faults.throw_if_any();
    return vessel;
}

Vessel read_vessel_file(const std::string& path) { return read_vessel(load_document(path), id_of_path(path)); }

} // namespace lakebound
