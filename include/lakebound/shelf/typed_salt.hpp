#pragma once
// Salts as they are typed: by what people call them, and with a mass.

#include <string>

#include "lakebound/bath/solution.hpp"
#include "lakebound/export.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The salt of that id, or the one that is sold under that name. Throws InputError: salt-hydrate when the name means
/// several salts, with each and its formula; id-unknown when it means none.
[[nodiscard]] const Salt& named_salt(Library& library, const std::string& option, const std::string& name);

/// A salt and how much of it: "potash-alum, 50 g".
struct TypedSalt {
    const Salt* salt = nullptr;
    Mass mass{};
};
/// Throws InputError: salt-typed unless it is a name, a comma and a mass (a volume of powder needs its bulk density);
/// as named_salt.
[[nodiscard]] TypedSalt typed_salt(Library& library, const std::string& option, const std::string& text);

/// "10 % w/w", "10 % w/v" or "10 g per 100 mL water". Throws InputError strength-form; a bare per cent does not say of
/// what.
[[nodiscard]] Strength typed_strength(const std::string& option, const std::string& text);

} // namespace lakebound
