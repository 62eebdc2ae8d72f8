#pragma once
// A name in one file that stands for another file. Internal.

#include <string>

#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/reader.hpp"

namespace lakebound {

/// The id at the node when the library has it; empty, with a fault at the node, otherwise.
std::string known_id(const Node& node, std::string_view name, ShelfKind kind, const Library& library,
                     Faults& faults);

/// Takes over the faults of the file that the node refers to, once for all who refer to it.
void add_faults_of_reference(const Node& node, const InputError& error, Faults& faults);

/// What the node refers to, fetched by `load(id)`; nullptr after a fault.
template <class Load> auto resolve(const Node& node, std::string_view name, ShelfKind kind, Library& library,
                                   Faults& faults, Load load) -> decltype(&load(std::string())) {
    const std::string id = known_id(node, name, kind, library, faults);
    if (id.empty()) return nullptr;
    try {
        return &load(id);
    } catch (const InputError& error) {
        add_faults_of_reference(node, error, faults);
    }
    return nullptr;
}

} // namespace lakebound
