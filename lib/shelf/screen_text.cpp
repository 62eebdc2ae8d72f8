#include "screen_text.hpp"

#include <algorithm>

#include "lakebound/shelf/reader.hpp"

namespace lakebound {

std::optional<Sieve> read_screen(const Node& node, std::string_view name, Faults& faults) {
    const auto text = read_text(node, name, faults);
    if (!text) return std::nullopt;
    try {
        return parse_sieve(*text);
    } catch (const QuantityTextError& error) {
        Diagnostic fault =
            fault_at(node, error.id, std::string(name).append(": ").append(error.what()), error.hint);
        fault.at = node.part(std::min(error.offset, node.text.size()), std::max<std::size_t>(error.length, 1));
        faults.add(std::move(fault));
    }
    return std::nullopt;
}

} // namespace lakebound
