#include "lakebound/shelf/typed_text.hpp"

#include <utility>

#include "lakebound/shelf/library.hpp"

namespace lakebound {

InputError typed_fault(std::string_view id, std::string message, std::string hint) {
    return InputError(command_line_fault(id, std::move(message), std::move(hint)));
}

std::string trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

Probability chance_option(const std::string& option, const std::string& text) {
    const auto bare = [&]() -> std::optional<double> {
        try {
            return read_number(trimmed(text));
        } catch (const QuantityTextError&) {
            return std::nullopt; // it has a unit, or is told as no quantity below
        }
    }();
    if (bare && *bare > 0.0 && *bare < 100.0)
        throw typed_fault("unit-missing", option + " \"" + text + "\": a chance is written in per cent",
                          "write " + option + " \"" + number_text(*bare < 1.0 ? 100.0 * *bare : *bare) + " %\"");
    const auto share = positive_option<Share>(option, text);
    if (!(share.value() < 1.0))
        throw typed_fault("out-of-range", option + " \"" + text + "\": must be below 100 %", "a chance is never all or nothing: name one above 0 and below 100 %");
    return Probability::of(share.value());
}

Labelled labelled(const std::string& option, const std::string& given) {
    const auto colon = given.find(':');
    if (colon == std::string::npos) return {"", trimmed(given)};
    Labelled result{trimmed(given.substr(0, colon)), trimmed(given.substr(colon + 1))};
    if (!is_id(result.label))
        throw typed_fault("label-form", option + " \"" + given + "\": '" + result.label + "' is not a name",
                          "names are small letters, digits and single hyphens: " + option +
                              " \"weld-lake: 10 g\"");
    return result;
}

namespace {

bool is_parts(const std::string& text) { return text.ends_with(" part") || text.ends_with(" parts"); }

} // namespace

TypedAmount read_amount(const std::string& option, const std::string& text, const KitchenMeasures& kitchen,
                        bool shares) {
    if (is_parts(text))
        throw typed_fault(
            "parts-basis", option + " \"" + text + "\": parts of what, weight or volume?",
            "name the powder and the binder without amounts, and add --parts \"1 binder : 1 pigment by weight\" "
            "or \"by volume\"");
    if (shares && text.ends_with("v/v")) return quantity_option<VolumeFraction>(option, text, kitchen);
    if (shares && text.find('%') != std::string::npos)
        return quantity_option<MassFraction>(option, text, kitchen);
    try {
        (void)read_quantity(text, Dimension::volume, kitchen);
    } catch (const QuantityTextError& error) {
        if (error.id == "unit-unqualified" || error.id == "unit-uncalibrated")
            return quantity_option<Volume>(option, text, kitchen);
        return positive_option<Mass>(option, text, kitchen);
    }
    return positive_option<Volume>(option, text, kitchen);
}

bool is_spooned(const std::string& text, const KitchenMeasures& kitchen) {
    try {
        const auto unit = read_quantity(text, Dimension::volume, kitchen).unit;
        return unit.starts_with("tsp") || unit.starts_with("teaspoon") || unit.starts_with("drop");
    } catch (const QuantityTextError&) {
        return false; // a mass
    }
}

std::optional<std::string> text_for(const std::string& option, const std::vector<std::string>& texts,
                                    const std::string& id, bool only_pigment) {
    std::optional<std::string> found;
    for (const auto& text : texts) {
        const auto each = labelled(option, text);
        if (each.label.empty() && !only_pigment)
            throw typed_fault("label-missing", option + " \"" + text + "\": of which pigment?",
                              "write its name in front: " + option + " \"" + id + ": " + each.text + "\"");
        if (!each.label.empty() && each.label != id) continue;
        if (found)
            throw typed_fault("option-twice", option + " is given twice for '" + id + "'",
                              "leave one of them out");
        found = each.text;
    }
    return found;
}

} // namespace lakebound
