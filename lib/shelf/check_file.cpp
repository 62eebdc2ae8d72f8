#include "lakebound/shelf/check_file.hpp"

#include <utility>
#include <vector>

#include "lakebound/shelf/file_kind.hpp"
#include "lakebound/shelf/reader.hpp"

namespace lakebound {

void check_document(Document document, const std::string& id, Library& library, const Jar* jar) {
    std::vector<std::string_view> words;
    for (const auto& row : file_kinds())
        words.push_back(row.word);
    const Node* kind = document.root.find("kind");
    if (kind == nullptr) require_kind(document, "jar"); // the commonest of a maker's files; always throws
    const auto which = read_word(*kind, "kind", words, document.faults);
    if (!which) document.faults.throw_if_any();
    if (which) file_kinds()[*which].read(std::move(document), id, library, jar);
}

void check_file(const std::string& path, Library& library, const Jar* jar) {
    check_document(load_document(path), id_of_path(path), library, jar);
}

} // namespace lakebound
