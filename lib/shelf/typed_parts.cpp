#include "lakebound/shelf/typed_parts.hpp"

#include <cmath>

#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

std::optional<TypedPart> typed_part(const std::string& text) {
    const auto space = text.find(' ');
    TypedPart part;
    try {
        part.number = read_number(text.substr(0, space));
    } catch (const QuantityTextError&) {
        return std::nullopt;
    }
    if (!(part.number > 0.0)) return std::nullopt;
    const auto what = space == std::string::npos ? std::string() : trimmed(text.substr(space));
    if (what == "binder" || what == "medium")
        part.of = PartOf::binder;
    else if (what == "pigment" || what == "powder")
        part.of = PartOf::pigment;
    else if (!what.empty())
        return std::nullopt;
    return part;
}

} // namespace

bool TypedParts::even() const noexcept { return std::abs(first.number / second.number - 1.0) < 1e-12; }

std::string TypedParts::ordered(const char* one, const char* other) const {
    return number_text(first.number) + " " + one + " : " + number_text(second.number) + " " + other;
}

std::optional<TypedParts> typed_parts(const std::string& text) {
    const auto colon = text.find(':');
    const auto by = text.find(" by ");
    if (colon == std::string::npos || (by != std::string::npos && by < colon)) return std::nullopt;
    const auto first = typed_part(trimmed(text.substr(0, colon)));
    const auto second = typed_part(trimmed(text.substr(colon + 1, by == std::string::npos ? by : by - colon - 1)));
    if (!first || !second || (first->of != PartOf::unsaid && first->of == second->of)) return std::nullopt;
    TypedParts parts{*first, *second, std::nullopt};
    const auto basis = by == std::string::npos ? std::string() : trimmed(text.substr(by + 4));
    if (basis == "weight" || basis == "mass")
        parts.basis = PartsBasis::mass;
    else if (basis == "volume")
        parts.basis = PartsBasis::volume;
    else if (!basis.empty())
        return std::nullopt;
    return parts;
}

} // namespace lakebound
