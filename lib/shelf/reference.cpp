#include "reference.hpp"

namespace lakebound {

std::string known_id(const Node& node, std::string_view name, ShelfKind kind, const Library& library,
                     Faults& faults) {
    const auto id = read_text(node, name, faults);
    if (!id) return {};
    if (!library.find(kind, *id)) {
        Diagnostic fault = library.unknown(kind, *id);
        fault.at = node.excerpt();
        faults.add(std::move(fault));
        return {};
    }
    return *id;
}

void add_faults_of_reference(const Node& node, const InputError& error, Faults& faults) {
    for (Diagnostic fault : error.faults()) {
        if (!fault.second) fault.second = SecondPlace{node.excerpt(), "referred to from here"};
        faults.add_once(std::move(fault));
    }
}

} // namespace lakebound
