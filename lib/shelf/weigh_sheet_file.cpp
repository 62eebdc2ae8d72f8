#include "lakebound/shelf/weigh_sheet_file.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "lakebound/shelf/reader.hpp"
#include "reference.hpp"

namespace lakebound {
namespace {

constexpr double great = std::numeric_limits<double>::infinity();
constexpr Range zero_or_more{0.0, great, false, "0 or more", ""};

// Of a map, keys that this reader does not use may stand there: a version only ever gains keys.
std::string around(std::string_view before, std::string_view word, std::string_view after) {
    std::string sentence(before); // appended to, for GCC 12 warns of an overlap in a chain of '+'
    sentence.append("'").append(word).append("'").append(after);
    return sentence;
}

const Node* need(const Node& map, std::string_view key, Faults& faults) {
    if (map.kind == Node::Kind::broken) return nullptr;
    if (map.kind != Node::Kind::map) {
        faults.add_once(fault_at(map, "value-shape", around("expected an object with ", key, " in it")));
        return nullptr;
    }
    const Node* value = map.find(key);
    if (value == nullptr)
        faults.add(fault_at(map, "key-missing", around("a weigh sheet needs ", key, " here"),
                            "write the sheet anew with lakebound-batch --json"));
    return value;
}

double number(const Node& map, std::string_view key, const Range& range, Faults& faults) {
    const Node* value = need(map, key, faults);
    return value == nullptr ? 1.0 : read_plain_number(*value, key, range, faults).value_or(1.0);
}

std::string text(const Node& map, std::string_view key, Faults& faults) {
    const Node* value = need(map, key, faults);
    return value == nullptr ? std::string() : read_text(*value, key, faults).value_or("");
}

std::vector<const Node*> items(const Node& map, std::string_view key, Faults& faults) {
    std::vector<const Node*> found;
    const Node* list = need(map, key, faults);
    if (list == nullptr) return found;
    if (list->kind != Node::Kind::sequence) {
        faults.add_once(fault_at(*list, "value-shape", around("", key, " must be a list"))); // of every part's lines
        return found;
    }
    for (const Node& item : list->items)
        found.push_back(&item);
    return found;
}

struct Figure {
    double value = 1.0, uncertainty = 0.0;
    Provenance from;
};

Figure figure(const Node& map, std::string_view key, const Range& range, Faults& faults) {
    Figure result;
    const Node* node = need(map, key, faults);
    if (node == nullptr) return result;
    result.value = number(*node, "value", range, faults);
    result.uncertainty = number(*node, "standard_uncertainty", zero_or_more, faults);
    const Node* from = need(*node, "provenance", faults);
    if (from == nullptr) return result;
    if (const Node* origin = need(*from, "origin", faults))
        if (const auto which = read_word<Origin>(*origin, "origin", faults)) result.from.origin = *which;
    if (from->kind == Node::Kind::map) {
        if (const Node* source = from->find("source"))
            result.from.source = read_text(*source, "source", faults).value_or("");
        if (const Node* ours = from->find("library_default"))
            result.from.library_default = ours->text == "true";
    }
    return result;
}

MassDensity density(double x) { return grams_per_cubic_centimetre(x); }

Pigment read_pigment_of(const Node& node, Faults& faults) {
    constexpr Range possible{2.0, 400.0, false, "2 to 400 g/100g", ""};
    constexpr Range dense{0.01, 25.0, false, "0.01 to 25 g/cm3", ""};
    Pigment pigment;
    pigment.id = text(node, "id", faults);
    pigment.name = text(node, "name", faults);
    if (const Node* word = need(node, "class", faults))
        if (const auto which = read_word<PigmentClass>(*word, "class", faults)) pigment.pigment_class = *which;
    const auto rho = figure(node, "density_g_per_cm3", dense, faults);
    const auto oil = figure(node, "oil_absorption_g_per_100g", possible, faults);
    const auto test_oil = figure(node, "test_oil_density_g_per_cm3", dense, faults);
    if (!faults.none()) return pigment;
    pigment.density = Estimate<MassDensity>::normal(density(rho.value), density(rho.uncertainty), rho.from);
    pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(
        grams_per_100_grams(oil.value), std::exp(lognormal_scale(oil.value, oil.uncertainty)), oil.from);
    pigment.test_oil_density =
        Estimate<MassDensity>::normal(density(test_oil.value), density(test_oil.uncertainty), test_oil.from);
    if (node.kind == Node::Kind::map && node.find("excess_water") != nullptr)
        pigment.excess_water = MassFraction::from_proven(
            number(node, "excess_water", {0.0, 0.99, false, "0 to 0.99", ""}, faults));
    const bool bone_dry = text(node, "density_state", faults) == word_of(MoistureState::bone_dry);
    if (bone_dry) pigment.density_state = MoistureState::bone_dry;
    if (bone_dry || (node.kind == Node::Kind::map && node.find("moisture") != nullptr)) {
        const auto water = figure(node, "moisture", {0.0, 0.99, false, "0 to 0.99", ""}, faults);
        pigment.moisture = Estimate<MassFraction>::normal(MassFraction::from_proven(water.value),
                                                          MassFraction::Difference::of(water.uncertainty),
                                                          water.from);
    }
    return pigment;
}

/// One line of `weigh`.
struct WeighedLine {
    const Node* id = nullptr;
    double grams = 0.0; ///< of the material itself, as rounded for the scale
};

/// What other lines do to the medium: carriers of stocks are taken off it, drops are stirred into it.
struct MediumBalance {
    double carriers = 0.0, drops = 0.0; ///< grams
};

MediumBalance medium_balance(const Node& batch, Faults& faults) {
    MediumBalance balance;
    for (const Node* line : items(batch, "weigh", faults)) {
        if (line->kind != Node::Kind::map) continue;
        if (line->find("drops") != nullptr) balance.drops += number(*line, "exact_g", zero_or_more, faults);
        const Node* stock = line->find("stock_solution");
        if (stock == nullptr || stock->kind != Node::Kind::map) continue;
        const Node* from = stock->find("carrier_taken_off");
        if (from == nullptr || from->text != "medium") continue;
        const double to_weigh = number(*line, "to_weigh_g", zero_or_more, faults);
        if (to_weigh > 0.0)
            balance.carriers += number(*stock, "carrier_g", zero_or_more, faults) *
                                (number(*line, "rounded_g", zero_or_more, faults) / to_weigh);
    }
    return balance;
}

/// The lines of a part ("pigment", "additive"), in order. What a stock solution brings is what is in it; the
/// medium holds what was taken off it and not the drops that are weighed with it.
std::vector<WeighedLine> lines_of(const Node& batch, std::string_view part, Faults& faults) {
    const auto balance = part == "medium" ? medium_balance(batch, faults) : MediumBalance{};
    std::vector<WeighedLine> found;
    for (const Node* line : items(batch, "weigh", faults)) {
        if (text(*line, "part", faults) != part) continue;
        WeighedLine weighed;
        weighed.id = need(*line, "id", faults);
        const double rounded = number(*line, "rounded_g", zero_or_more, faults);
        const double to_weigh = number(*line, "to_weigh_g", zero_or_more, faults);
        const double exact = number(*line, "exact_g", zero_or_more, faults);
        const bool is_map = line->kind == Node::Kind::map;
        if (part == "medium")
            weighed.grams =
                (exact > 0.0 ? rounded * (exact / (exact + balance.drops)) : rounded) + balance.carriers;
        else if (is_map && line->find("stock_solution") != nullptr && to_weigh > 0.0)
            weighed.grams = exact * (rounded / to_weigh);
        else if (is_map && line->find("drops") != nullptr)
            weighed.grams = exact;
        else
            weighed.grams = rounded + (exact - to_weigh);
        if (weighed.grams < 0.0)
            faults.add(fault_at(*line, "quantity-negative", "this line weighs less than nothing",
                                "write the sheet anew with lakebound-batch --json"));
        found.push_back(weighed);
    }
    return found;
}

} // namespace

WeighedPaint read_weighed_paint(Document document, Library& library) {
    Faults& faults = document.faults;
    const Node& root = document.root;
    const Node* kind = need(root, "kind", faults);
    if (kind != nullptr && kind->text != "batch")
        faults.add(fault_at(*kind, "kind-wrong", around("expected a weigh sheet, this is a ", kind->text, ""),
                            "write the sheet with lakebound-batch --json"));
    const Node* version = need(root, "schema_version", faults);
    const std::string oldest = std::to_string(oldest_weigh_sheet_version), newest = std::to_string(weigh_sheet_version);
    static_assert(oldest_weigh_sheet_version + 1 == weigh_sheet_version);
    if (version != nullptr && version->text != oldest && version->text != newest)
        faults.add(fault_at(*version, "schema-version", "expected version " + oldest + " or " + newest + " of a weigh sheet",
                            "write the sheet anew with the lakebound-batch of this version"));
    faults.throw_if_any();

    WeighedPaint paint;
    const Node* recipe = need(root, "recipe", faults);
    const Node* batch = root.find("batch");
    if (batch == nullptr)
        faults.add(fault_at(root, "sheet-empty", "the sheet has no batch: nothing could be made",
                            "size a batch that fits first"));
    const auto pigments = items(root, "pigments", faults);
    faults.throw_if_any();
    paint.recipe.id = text(*recipe, "id", faults);
    paint.recipe.name = text(*recipe, "name", faults);
    if (const Node* id = need(*recipe, "family", faults))
        if (const auto* found =
                resolve(*id, "family", ShelfKind::family, library, faults,
                        [&](const std::string& x) -> const Family& { return library.family(x); }))
            paint.recipe.family = *found;
    if (const Node* id = need(*recipe, "medium", faults))
        if (const auto* found =
                resolve(*id, "medium", ShelfKind::medium, library, faults,
                        [&](const std::string& x) -> const Medium& { return library.medium(x); }))
            paint.recipe.medium = *found;

    const auto weighed = lines_of(*batch, "pigment", faults);
    const auto medium = lines_of(*batch, "medium", faults);
    const auto additives = lines_of(*batch, "additive", faults);
    const auto water = lines_of(*batch, "working_water", faults);
    if (weighed.size() != pigments.size() || medium.size() != 1)
        faults.add(fault_at(*batch, "value-shape",
                            "the sheet does not weigh one medium and every one of its pigments",
                            "write the sheet anew with lakebound-batch --json"));
    double total = 0.0;
    for (const auto& line : weighed)
        total += line.grams;
    if (!(total > 0.0))
        faults.add(fault_at(*batch, "quantity-negative", "the sheet weighs no pigment",
                            "size a batch that the scale can weigh"));
    faults.throw_if_any();
    constexpr Range step{0.05, 20.0, false, "0.05 to 20", ""};
    for (std::size_t i = 0; i < pigments.size(); ++i) {
        PigmentPart part{read_pigment_of(*pigments[i], faults), MassFraction::of(std::min(1.0, weighed[i].grams / total))};
        if (pigments[i]->find("step_from_oil") != nullptr) part.step_from_oil = number(*pigments[i], "step_from_oil", step, faults);
        paint.recipe.pigments.push_back(std::move(part));
    }
    if (const Node* record = root.find("record"); record != nullptr && pigments.size() == 1)
        paint.learned_spread = number(*record, "sigma_ln_demand", {0.0, 5.0, false, "0 to 5", ""}, faults);
    for (const auto& line : additives)
        if (const auto* found = line.id == nullptr
                                    ? nullptr
                                    : resolve(*line.id, "additive", ShelfKind::ingredient, library, faults,
                                              [&](const std::string& x) -> const Ingredient& {
                                                  return library.ingredient(x);
                                              })) {
            const double dose = line.grams / total;
            if (dose <= 1.0)
                paint.recipe.additives.push_back({*found, MassFraction::of(dose), DoseBasis::pigment});
            else
                faults.add(fault_at(*line.id, "fraction-above-one", "more of an additive than of pigment",
                                    "count it as a part of the medium"));
        }
    paint.pigment = grams(total);
    paint.medium_per_pigment = MediumPerPigment::of(medium.front().grams / total);
    for (const auto& line : water)
        paint.recipe.working_water = millilitres_per_gram(line.grams / total / 0.9982071);
    faults.throw_if_any();
    return paint;
}

} // namespace lakebound
