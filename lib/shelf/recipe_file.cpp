#include "lakebound/shelf/recipe_file.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/paint/medium_fit.hpp"
#include "lakebound/paint/pigment_mixture.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "lakebound/shelf/reader.hpp"
#include "reference.hpp"

namespace lakebound {
namespace {

constexpr double share_tolerance = 1e-3;
constexpr Range share_range{0.0, 1.0, true, "above 0, at most 100 % w/w",
                            "leave out a pigment that is not in it"};
constexpr Range dose_range{0.0, 1.0, true, "above 0, at most 100 % w/w",
                           "leave out an additive that is not in it"};
constexpr Range water_range{0.0, 0.1, false, "0 to 100 mL/g",
                            "check the unit: is it mL of water for each g of pigment?"};

std::vector<PigmentPart> read_pigments(const MapReader& map, Library& library, const Jar* jar) {
    Faults& faults = map.faults();
    std::vector<PigmentPart> parts;
    const auto items = map.list("pigments", true);
    const std::size_t before = faults.count();
    double sum = 0.0;
    bool has_jar = false;
    for (const Node* node : items) {
        const MapReader part(*node, "a pigment of a recipe", {"pigment", "share"}, faults);
        PigmentPart& entry = parts.emplace_back();
        const bool alone = items.size() == 1 && part.find("share") == nullptr;
        entry.share = alone ? MassFraction::of(1.0) : part.exact<MassFraction>("share", share_range);
        sum += entry.share.value();
        const Node* name = part.need("pigment");
        if (name == nullptr) continue;
        if (name->kind == Node::Kind::scalar && name->text == "jar") {
            if (has_jar)
                faults.add(fault_at(*name, "jar-twice", "the jar stands twice in this recipe",
                                    "add the two shares up"));
            else if (jar == nullptr)
                faults.add(fault_at(*name, "jar-missing",
                                    "this recipe takes its pigment from a jar, and none was named",
                                    "name a jar file on the command line, or put a pigment of the shelf here"));
            else
                entry.pigment = jar->pigment;
            has_jar = true;
            continue;
        }
        const auto load = [&](const std::string& wanted) -> const Pigment& { return library.pigment(wanted); };
        if (const Pigment* found = resolve(*name, "pigment", ShelfKind::pigment, library, faults, load))
            entry.pigment = *found;
    }
    if (faults.count() != before || items.empty()) return parts;
    if (std::abs(sum - 1.0) > share_tolerance) {
        faults.add(fault_at(*map.node().find_key("pigments"), "share-sum",
                            "the shares sum to " + fixed_text(sum * 100.0, 2) + " %, not to 100 %",
                            "change one share, so that they make up the whole"));
        return parts;
    }
    for (PigmentPart& part : parts)
        part.share = MassFraction::of(std::min(1.0, part.share.value() / sum));
    return as_weighed_shares(std::move(parts));
}

std::optional<Aim> read_aim(const MapReader& map) {
    const Node* node = map.find("aim");
    if (node == nullptr) return std::nullopt;
    Faults& faults = map.faults();
    const MapReader aim(*node, "the aim", {"k", "reduced_pvc", "pvc", "medium_per_pigment"}, faults);
    if (!aim.is_map()) return std::nullopt;
    if (node->items.size() != 1) {
        faults.add(fault_at(
            *node, "aim-count", "a paint has exactly one aim",
            "keep one of k, reduced_pvc, pvc, medium_per_pigment; leave the aim out for the family's start"));
        return std::nullopt;
    }
    if (aim.find("k") != nullptr) return aim.exact<BinderSufficiency>("k", range::aim);
    if (aim.find("reduced_pvc") != nullptr)
        return aim.exact<ReducedPigmentVolumeConcentration>("reduced_pvc", range::aim);
    if (aim.find("pvc") != nullptr) return aim.exact<PigmentVolumeConcentration>("pvc", range::aim_pvc);
    if (aim.find("medium_per_pigment") != nullptr)
        return aim.exact<MediumPerPigment>("medium_per_pigment", range::aim);
    return std::nullopt; // an unknown key, reported
}

std::vector<Additive> read_additives(const MapReader& map, Library& library) {
    std::vector<Additive> additives;
    for (const Node* node : map.list("additives", false)) {
        const MapReader part(*node, "an additive", {"ingredient", "dose", "of"}, map.faults());
        Additive& entry = additives.emplace_back();
        entry.dose = part.exact<MassFraction>("dose", dose_range);
        entry.basis = part.word<DoseBasis>("of");
        const Node* name = part.need("ingredient");
        if (name == nullptr) continue;
        const auto load = [&](const std::string& wanted) -> const Ingredient& {
            return library.ingredient(wanted);
        };
        if (const Ingredient* found =
                resolve(*name, "ingredient", ShelfKind::ingredient, library, map.faults(), load))
            entry.ingredient = *found;
    }
    return additives;
}

} // namespace

std::vector<Ingredient> stock_carriers(const Recipe& recipe, Library& library) {
    std::vector<Ingredient> carriers;
    const auto add = [&](const Ingredient& ingredient) {
        if (!ingredient.stock) return;
        for (const std::string& id : ingredient.stock->carriers) {
            const bool known = std::any_of(carriers.begin(), carriers.end(),
                                           [&id](const Ingredient& each) { return each.id == id; });
            if (id == oil_of_the_medium || known) continue;
            if (!library.find(ShelfKind::ingredient, id)) {
                Diagnostic fault = library.unknown(ShelfKind::ingredient, id);
                fault.message = "the stock of " + ingredient.id + " is made with '" + id +
                                "', which no ingredient on the shelf is called";
                if (const auto path = library.find(ShelfKind::ingredient, ingredient.id)) fault.at.place.path = *path;
                throw InputError(fault);
            }
            carriers.push_back(library.ingredient(id));
        }
    };
    for (const MediumPart& part : recipe.medium.parts)
        add(part.ingredient);
    for (const Additive& additive : recipe.additives)
        add(additive.ingredient);
    return carriers;
}

Recipe read_recipe(Document document, std::string id, Library& library, const Jar* jar) {
    require_kind(document, "recipe");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a recipe file",
                        {"kind", "name", "family", "pigments", "medium", "additives", "aim", "working_water",
                         "vessel", "source", "note"},
                        faults);
    Recipe recipe;
    recipe.id = std::move(id);
    recipe.name = map.text("name");
    if (const Node* node = map.need("family")) {
        const auto load = [&](const std::string& wanted) -> const Family& { return library.family(wanted); };
        if (const Family* found = resolve(*node, "family", ShelfKind::family, library, faults, load))
            recipe.family = *found;
    }
    recipe.pigments = read_pigments(map, library, jar);
    if (const Node* node = map.need("medium")) {
        const auto load = [&](const std::string& wanted) -> const Medium& { return library.medium(wanted); };
        if (const Medium* found = resolve(*node, "medium", ShelfKind::medium, library, faults, load))
            recipe.medium = *found;
    }
    if (faults.none() && medium_misfit(recipe.medium, recipe.family.process)) {
        const auto words = misfit_words(recipe.medium, recipe.family, library);
        faults.add(fault_at(*map.find("medium"), "medium-unfit", words.message, words.hint));
    }
    recipe.additives = read_additives(map, library);
    recipe.aim = read_aim(map);
    recipe.working_water =
        map.optional_exact<SpecificVolume>("working_water", water_range).value_or(SpecificVolume());
    if (const Node* node = map.find("vessel")) {
        const auto load = [&](const std::string& wanted) -> const Vessel& { return library.vessel(wanted); };
        if (const Vessel* found = resolve(*node, "vessel", ShelfKind::vessel, library, faults, load))
            recipe.vessel = *found;
    }
    if (const Node* node = map.find("source")) (void)read_evidence(*node, "source", false, faults);
    recipe.note = map.text_or_empty("note");
    faults.throw_if_any();
    recipe.carriers = stock_carriers(recipe, library);
    return recipe;
}

Recipe read_recipe_file(const std::string& path, Library& library, const Jar* jar) {
    return read_recipe(load_document(path), id_of_path(path), library, jar);
}

} // namespace lakebound
