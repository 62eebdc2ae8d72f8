#include "lakebound/shelf/fineness_target_file.hpp"

#include "lakebound/shelf/reader.hpp"
#include "screen_text.hpp"

namespace lakebound {

FinenessTarget read_fineness_target(Document document, std::string id) {
    require_kind(document, "fineness target");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a fineness target",
                        {"kind", "name", "grain", "residue_screen", "allowed_residue", "dry_sieving_ends",
                         "wet_screening_ends", "note"},
                        faults);
    FinenessTarget target;
    target.id = std::move(id);
    target.name = map.text("name");
    constexpr auto style = FigureStyle::with_origin;
    target.grain = map.figure<Length>("grain", range::grain_size, style);
    if (const Node* node = map.need("residue_screen"))
        if (const auto sieve = read_screen(*node, "residue_screen", faults))
            target.residue_screen = sieve->aperture;
    target.allowed_residue = map.figure<MassFraction>("allowed_residue", range::positive, style);
    target.dry_sieving_ends = map.figure<Length>("dry_sieving_ends", range::grain_size, style);
    target.wet_screening_ends = map.figure<Length>("wet_screening_ends", range::grain_size, style);
    target.note = map.text_or_empty("note");
    if (faults.none() && target.wet_screening_ends.value() > target.dry_sieving_ends.value()) {
        Diagnostic fault = fault_at(*map.find("wet_screening_ends"), "target-order",
                                    "wet screening reaches finer than dry sieving, so it must end below it",
                                    "are the two exchanged?");
        fault.second = SecondPlace{map.find("dry_sieving_ends")->excerpt(), "where dry sieving ends"};
        faults.add(std::move(fault));
    }
    faults.throw_if_any();
    return target;
}

FinenessTarget read_fineness_target_file(const std::string& path) {
    return read_fineness_target(load_document(path), id_of_path(path));
}

} // namespace lakebound
