#pragma once
// Parts as they are typed: "1 binder : 2 pigment by volume". Which side is which, and by what, may be left out
// and is then asked for by whoever knows the paint.

#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/material/medium.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What one side of the parts is of.
enum class PartOf {
    unsaid,
    binder,  ///< also "medium"
    pigment, ///< also "powder"
};

struct TypedPart {
    double number = 0.0; ///< above 0
    PartOf of = PartOf::unsaid;
};

struct TypedParts {
    TypedPart first, second;
    std::optional<PartsBasis> basis; ///< empty: parts by weight or by volume is not said

    bool order_said() const noexcept { return first.of != PartOf::unsaid || second.of != PartOf::unsaid; }
    /// The first side is the binder, by the word at either side.
    bool binder_first() const noexcept { return first.of == PartOf::binder || second.of == PartOf::pigment; }
    /// As many of one as of the other: both orders come to the same.
    bool even() const noexcept;
    /// "1 binder : 2 pigment", for the words given.
    std::string ordered(const char* one, const char* other) const;
};

/// The parts of a text; nothing when it is of another form, or both sides are of the same.
[[nodiscard]] std::optional<TypedParts> typed_parts(const std::string& text);

} // namespace lakebound
