#include "lakebound/shelf/typed_salt.hpp"

#include <algorithm>
#include <vector>

#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {
namespace {

std::string folded(std::string_view name) {
    std::string out;
    for (const char c : name)
        out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c == '-' || c == '_' ? ' ' : c;
    return out;
}

} // namespace

const Salt& named_salt(Library& library, const std::string& option, const std::string& name) {
    if (library.find(ShelfKind::salt, name)) return library.salt(name);
    const std::string wanted = folded(name);
    std::vector<const Salt*> meant;
    for (const std::string& id : library.ids(ShelfKind::salt)) {
        const Salt& salt = library.salt(id);
        if (folded(id) == wanted || folded(salt.name) == wanted) return salt;
        if (std::any_of(salt.trade_names.begin(), salt.trade_names.end(),
                        [&](const std::string& each) { return folded(each) == wanted; }))
            meant.push_back(&salt);
    }
    if (meant.size() == 1) return *meant.front();
    if (meant.empty()) {
        Diagnostic unknown = library.unknown(ShelfKind::salt, name);
        unknown.message = option + ": " + unknown.message;
        throw InputError(std::move(unknown));
    }
    std::string which;
    for (const Salt* each : meant) which += (which.empty() ? "" : ", ") + each->id + " (" + each->formula + ")";
    throw InputError(command_line_fault(
        "salt-hydrate", option + ": '" + name + "' is sold as " + std::to_string(meant.size()) + " different salts",
        "look at the packet and name one: " + which + "; which-soda-have-i-got.md tells them apart"));
}

TypedSalt typed_salt(Library& library, const std::string& option, const std::string& text) {
    const auto comma = text.find(',');
    if (comma == std::string::npos)
        throw typed_fault("salt-typed", option + " \"" + text + "\": a salt and its mass are wanted",
                          "write it like " + option + " \"potash-alum, 50 g\"");
    TypedSalt typed;
    typed.salt = &named_salt(library, option, trimmed(text.substr(0, comma)));
    const std::string mass = trimmed(text.substr(comma + 1));
    bool is_volume = true;
    try {
        (void)read_quantity(mass, Dimension::volume, {millilitres(0.05), millilitres(5)});
    } catch (const QuantityTextError&) {
        is_volume = false;
    }
    if (is_volume)
        throw typed_fault("salt-typed", option + " \"" + text + "\": a spoon of a salt may weigh twice what another does",
                          "weigh it; with its bulk density the mass is volume times density");
    typed.mass = positive_option<Mass>(option, mass);
    return typed;
}

Strength typed_strength(const std::string& option, const std::string& text) {
    const std::string example = "write \"10 % w/v\" (g in 100 mL of solution), \"10 % w/w\" or \"10 g per 100 mL water\"";
    const std::string per_water = " per 100 mL water";
    Strength strength;
    try {
        if (text.size() > per_water.size() && text.ends_with(per_water)) {
            strength.value = in_grams(read<Mass>(text.substr(0, text.size() - per_water.size()))) / 100.0;
            strength.basis = StrengthBasis::per_water;
        } else {
            const Reading reading = read_quantity(text, Dimension::solution_strength);
            strength.value = reading.value;
            strength.basis = reading.weight_per_volume ? StrengthBasis::by_volume : StrengthBasis::by_mass;
        }
    } catch (const QuantityTextError& error) {
        throw typed_fault("strength-form", option + " \"" + text + "\": " + error.what(), example);
    }
    if (!(strength.value >= 0.005 && strength.value <= 0.25))
        throw typed_fault("strength-form", option + " \"" + text + "\": a solution of 0.5 to 25 % is wanted", example);
    return strength;
}

} // namespace lakebound
