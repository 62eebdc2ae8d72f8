#include "lakebound/shelf/typed_batch.hpp"

#include <algorithm>
#include <vector>

#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

/// The ids of all that is in a paint, each once.
std::vector<std::string> parts_of_paint(const Recipe& recipe) {
    std::vector<std::string> used{recipe.medium.id};
    for (const auto& part : recipe.pigments)
        used.push_back(part.pigment.id);
    for (const auto& part : recipe.medium.parts)
        used.push_back(part.ingredient.id);
    for (const auto& additive : recipe.additives)
        used.push_back(additive.ingredient.id);
    for (const auto& carrier : recipe.carriers)
        if (std::find(used.begin(), used.end(), carrier.id) == used.end()) used.push_back(carrier.id);
    return used;
}

} // namespace

VesselCount fill_option(const std::string& option, const std::string& text, Library& library) {
    const auto space = text.find(' ');
    const auto number = text.substr(0, space);
    const bool whole =
        !number.empty() && number.size() <= 6 && number.find_first_not_of("0123456789") == std::string::npos;
    const auto vessel = trimmed(space == std::string::npos ? "" : text.substr(space));
    if (!whole || vessel.empty() || std::stoi(number) < 1)
        throw typed_fault("fill-form", option + " \"" + text + "\": expected how many of which vessel",
                          "write it like " + option + " \"10 half-pan\"");
    return {library.vessel(vessel), std::stoi(number)};
}

Stock stock_option(const std::string& option, const std::string& text, const Recipe& recipe, const Bench& bench) {
    const auto colon = text.find(':');
    if (colon == std::string::npos || colon == 0)
        throw typed_fault("stock-form", option + " \"" + text + "\": expected a name, a colon and a mass",
                          "write it like " + option + " \"gum-arabic: 40 g\"");
    const auto start = std::min(text.find_first_not_of(' ', colon + 1), text.size());
    Stock stock{text.substr(0, colon), quantity_option<Mass>(option, text.substr(start), bench.kitchen)};
    const auto used = parts_of_paint(recipe);
    if (std::find(used.begin(), used.end(), stock.id) == used.end())
        throw typed_fault("stock-not-used", option + " \"" + text + "\": this paint has no '" + stock.id + "' in it",
                          "it is made of " + name_list(used));
    return stock;
}

} // namespace lakebound
