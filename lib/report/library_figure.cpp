#include "lakebound/report/library_figure.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/record/jar_outlook.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

/// "1.88 ± 0.20 g/cm3" or "65 x/ 1.35 g/100 g".
template <class Q, class Getter>
std::string estimate_text(const Estimate<Q>& estimate, Getter in_unit, const char* unit) {
    const double value = in_unit(estimate.value());
    if (estimate.distribution().shape == Shape::lognormal)
        return fmt::format("{} x/ {}{}", significant_text(value, 3),
                           significant_text(std::exp(estimate.distribution().scale), 3), unit);
    const double u = canonical(estimate.value()) == 0.0
                         ? 0.0
                         : value * (canonical(estimate.standard_uncertainty()) / canonical(estimate.value()));
    return value_text(value, u) + unit;
}

} // namespace

std::vector<LibraryFigure> library_figures(const BatchRequest& request) {
    std::vector<LibraryFigure> found;
    bool own_jar = false; // a jar marks what it borrowed; elsewhere only "measured" is the maker's own
    const auto add = [&](const std::string& material, const char* figure, const auto& estimate, auto in_unit,
                         const char* unit) {
        const auto& from = estimate.provenance();
        if (from.stand_in) return;
        if (from.library_default || (!own_jar && from.origin != Origin::measured))
            found.push_back({material, figure, estimate_text(estimate, in_unit, unit), from});
    };
    for (std::size_t i = 0; i < request.recipe.pigments.size(); ++i) {
        own_jar = request.jar && request.jar->pigment == i;
        const auto& pigment = request.recipe.pigments[i].pigment;
        add(pigment.name, "oil absorption", pigment.oil_absorption.value(), in_grams_per_100_grams, " g/100 g");
        add(pigment.name, "density", pigment.density, in_grams_per_cubic_centimetre, " g/cm3");
        add(pigment.name, "rub-out oil", pigment.test_oil_density, in_grams_per_cubic_centimetre, " g/cm3");
        for (const auto& spooned : request.by_volume)
            if (spooned.pigment == i)
                add(pigment.name, "tapped density", spooned.tapped_density, in_grams_per_cubic_centimetre,
                    " g/cm3");
    }
    own_jar = false;
    const auto add_binder = [&](const Ingredient& ingredient) {
        if (!counts_as_binder(ingredient.role)) return;
        add(
            ingredient.name, "non-volatile", ingredient.non_volatile,
            [](MassFraction x) { return x.value() * 100.0; }, " %");
        if (ingredient.solids_density)
            add(ingredient.name, "density of what stays", *ingredient.solids_density,
                in_grams_per_cubic_centimetre, " g/cm3");
    };
    for (const auto& part : request.recipe.medium.parts)
        add_binder(part.ingredient);
    for (const auto& additive : request.recipe.additives)
        add_binder(additive.ingredient);
    const auto& index = request.recipe.family.binder_index;
    if (index.standard_uncertainty().value() > 0.0)
        add(
            request.recipe.family.name, "binder index", index, [](BinderIndex e) { return e.value(); }, "");
    for (const auto* vessel : {&request.vessel, &request.recipe.vessel})
        if (*vessel) {
            add((*vessel)->name, "capacity", (*vessel)->capacity, in_millilitres, " mL");
            break;
        }
    return found;
}

std::vector<std::string> library_figure_lines(const BatchRequest& request) {
    std::vector<std::string> lines, others;
    std::string material;
    const auto is_pigment = [&request](const std::string& name) {
        return std::any_of(request.recipe.pigments.begin(), request.recipe.pigments.end(),
                           [&name](const auto& part) { return part.pigment.name == name; });
    };
    for (const auto& figure : library_figures(request)) {
        if (!is_pigment(figure.material)) {
            const auto name = name_in_sentence(figure.material);
            if (std::find(others.begin(), others.end(), name) == others.end()) others.push_back(name);
            continue;
        }
        const auto text =
            fmt::format("{} {} ({})", figure.figure, figure.value, word_of(figure.provenance.origin));
        if (!lines.empty() && figure.material == material)
            lines.back() += ", " + text;
        else
            lines.push_back(short_name(figure.material) + ": " + text);
        material = figure.material;
    }
    for (const auto& part : request.recipe.pigments)
        if (const auto& belief = part.pigment.oil_absorption_belief)
            lines.push_back(fmt::format(
                "{}: your {} and the library's {} together make the oil absorption {}.", short_name(part.pigment.name),
                estimate_text(belief->reading, in_grams_per_100_grams, ""),
                estimate_text(belief->expected, in_grams_per_100_grams, ""),
                estimate_text(part.pigment.oil_absorption.value(), in_grams_per_100_grams, " g/100 g")));
    if (!others.empty()) lines.push_back("All figures of " + name_list(others) + ".");
    return lines;
}

std::vector<std::string> taken_as_read_lines(const BatchRequest& request) {
    std::vector<std::string> lines;
    for (const auto& part : request.recipe.pigments) {
        const auto& read = part.pigment.oil_absorption.value();
        if (part.pigment.oil_absorption_belief || read.provenance().library_default ||
            read.provenance().origin != Origin::measured || read.provenance().source == record_source)
            continue;
        lines.push_back(fmt::format(
            "{}: the oil absorption {} is taken as it was read; the library expects nothing of this powder.",
            short_name(part.pigment.name), estimate_text(read, in_grams_per_100_grams, " g/100 g")));
    }
    return lines;
}

} // namespace lakebound
