#include "lakebound/shelf/medium_file.hpp"

#include "lakebound/paint/medium_fit.hpp"
#include "lakebound/shelf/reader.hpp"
#include "reference.hpp"

namespace lakebound {

Medium read_medium(Document document, std::string id, Library& library) {
    require_kind(document, "medium");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a medium file",
                        {"kind", "name", "basis", "parts", "shelf_life", "source", "note"}, faults);
    Medium medium;
    medium.id = std::move(id);
    medium.name = map.text("name");
    medium.basis = map.word<PartsBasis>("basis");
    for (const Node* node : map.list("parts", true)) {
        const MapReader part(*node, "a part", {"ingredient", "parts"}, faults);
        MediumPart& entry = medium.parts.emplace_back();
        entry.parts = part.number("parts", range::positive);
        const Node* name = part.need("ingredient");
        if (name == nullptr) continue;
        const auto load = [&](const std::string& wanted) -> const Ingredient& {
            return library.ingredient(wanted);
        };
        if (const Ingredient* found =
                resolve(*name, "ingredient", ShelfKind::ingredient, library, faults, load))
            entry.ingredient = *found;
    }
    medium.shelf_life = map.text_or_empty("shelf_life");
    if (const Node* node = map.find("source")) (void)read_evidence(*node, "source", false, faults);
    medium.note = map.text_or_empty("note");
    faults.throw_if_any();
    return medium;
}

MisfitWords misfit_words(const Medium& medium, const Family& family, Library& library) {
    MisfitWords words;
    const auto misfit = medium_misfit(medium, family.process);
    words.message = "the medium '" + medium.id + "' does not fit " + family.name + ": " +
                    (misfit && !misfit->part.empty() ? misfit->part + " does not mix into such a paint"
                                                     : std::string("there is no yolk in it"));
    for (const std::string& id : library.ids(ShelfKind::medium)) {
        try {
            if (!medium_misfit(library.medium(id), family.process))
                words.hint += (words.hint.empty() ? "those that fit: " : ", ") + id;
        } catch (const InputError&) {
            // A file that cannot be read fits nothing; whoever names it is told why.
        }
    }
    if (words.hint.empty()) words.hint = "none on the shelf fits; write one";
    return words;
}

Medium read_medium_file(const std::string& path, Library& library) {
    return read_medium(load_document(path), id_of_path(path), library);
}

} // namespace lakebound
