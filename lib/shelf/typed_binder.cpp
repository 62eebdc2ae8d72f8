#include "typed_paint_steps.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/material/basis.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/shelf/typed_parts.hpp"

namespace lakebound {

void TypedPaint::set_family(Recipe& recipe) {
    if (texts_.family) {
        recipe.family = library_.family(*texts_.family);
        return;
    }
    const auto has = [&recipe](Role role) {
        return std::any_of(recipe.medium.parts.begin(), recipe.medium.parts.end(),
                           [role](const auto& part) { return part.ingredient.role == role; });
    };
    const char* id = has(Role::emulsion)     ? "egg-tempera"
                     : has(Role::drying_oil) ? "oil"
                     : has(Role::gum)        ? "watercolour-pan"
                                             : nullptr;
    if (id == nullptr) {
        std::string names;
        for (const auto& each : library_.ids(ShelfKind::family))
            names += (names.empty() ? "" : ", ") + each;
        throw typed_fault("family-missing", "what kind of paint is it? The binder does not tell",
                          "add --family with one of " + names);
    }
    recipe.family = library_.family(id);
    assumed_.push_back("Taken as " + name_in_sentence(recipe.family.name) +
                       " because of its binder (--family " + id + ").");
}

Mass TypedPaint::used_mass(const PvcQuestion& question) const {
    const auto amount = read_amount("--used", *texts_.used, bench_.kitchen, false);
    if (const auto* mass = std::get_if<Mass>(&amount)) return *mass;
    return std::get<Volume>(amount) * medium_properties(question.request.recipe.medium).density;
}

std::optional<MassDensity> TypedPaint::part_density(const PvcQuestion& question) const {
    const auto& recipe = question.request.recipe;
    if (texts_.paste) {
        if (!question.density_known)
            throw typed_fault("density-missing", "a paste by volume needs the density of the pigment",
                              "give it: --density \"1.88 g/cm3\"");
        const auto solids = positive_option<VolumeFraction>("--paste", *texts_.paste);
        return solids.value() * pigment_mixture(recipe.pigments).density;
    }
    if (recipe.pigments.size() != 1 || !recipe.pigments.front().pigment.tapped_density) return std::nullopt;
    return recipe.pigments.front().pigment.tapped_density->value();
}

namespace {

std::string parts_of(double number, const char* what) {
    return number_text(number) + (number > 1.0 ? " parts of " : " part of ") + what;
}

} // namespace

MediumPerPigment TypedPaint::medium_of_parts(PvcQuestion& question) {
    const auto& text = *texts_.parts;
    const auto refuse = [&text] {
        return typed_fault("parts-form",
                           "--parts \"" + text + "\": expected parts of binder and of pigment, and by what",
                           "write it like --parts \"1 binder : 2 pigment by weight\", or \"by volume\"");
    };
    const auto read = typed_parts(text);
    if (!read) throw refuse();
    const auto& recipe = question.request.recipe;
    const auto medium = medium_properties(recipe.medium);
    const auto bulk = part_density(question);
    const auto ratio = [&](double binder, double pigment, PartsBasis basis) {
        Parts parts;
        parts.medium = binder;
        parts.pigment = pigment;
        parts.basis = basis;
        return medium_per_pigment(parts, medium.density, bulk);
    };
    const auto k = [&](double binder, double pigment, PartsBasis basis) {
        return sufficiency_text(formulate(recipe, ratio(binder, pigment, basis)).k);
    };
    const double x = read->first.number, y = read->second.number;
    const bool to_same = read->even() && !read->basis; // asked for its basis below
    if (!read->order_said() && !to_same) {
        const auto binder_first = read->ordered("binder", "pigment"), pigment_first = read->ordered("pigment", "binder");
        auto message = "--parts \"" + text + "\": which is the binder? ";
        if (read->even()) {
            message += "Say so, though here both orders come to the same";
        } else if (question.oil_absorption_known && (read->basis != PartsBasis::volume || bulk)) {
            const auto basis = read->basis.value_or(PartsBasis::mass);
            message += "As " + binder_first + " k is " + k(x, y, basis) + ", as " + pigment_first + " " +
                       k(y, x, basis) + (read->basis ? "" : ", by weight");
        } else {
            message += "It may be " + binder_first + ", or " + pigment_first;
        }
        const auto by = std::string(read->basis == PartsBasis::volume ? " by volume" : " by weight");
        auto hint = "write --parts \"" + binder_first + by + "\"";
        if (!read->even()) hint += " or --parts \"" + pigment_first + by + "\"";
        if (!read->basis) hint += "; by volume, if that is how you measured";
        throw typed_fault("parts-order", message, hint);
    }
    const double binder = read->binder_first() ? x : y, pigment = read->binder_first() ? y : x;
    if (!read->basis) {
        auto message = "--parts \"" + text + "\": parts by weight or by volume?";
        if (question.oil_absorption_known) {
            message += " By weight k is " + k(binder, pigment, PartsBasis::mass);
            if (bulk) message += ", by volume " + k(binder, pigment, PartsBasis::volume) + ": two different paints";
        }
        const auto said = read->order_said() ? trimmed(text) : read->ordered("binder", "pigment");
        throw typed_fault("parts-basis", message,
                          "write --parts \"" + said + " by weight\" or --parts \"" + said + " by volume\"");
    }
    parts_read_ = parts_of(binder, "binder") + " to " + parts_of(pigment, "pigment") +
                  (*read->basis == PartsBasis::mass ? ", by weight" : ", by volume");
    if (*read->basis == PartsBasis::mass) return ratio(binder, pigment, PartsBasis::mass);
    if (!bulk)
        throw typed_fault("bulk-density-missing",
                          "a part of powder by volume holds air: how much is not known",
                          "weigh a tapped spoonful and give --tapped-density \"0.35 g/cm3\", or --paste "
                          "\"30 % v/v\" for a paste ground in water");
    if (!texts_.paste) {
        assumed_.push_back("A part of powder by volume is what a tapped spoon holds, air and all.");
        question.request.by_volume.push_back({0, *recipe.pigments.front().pigment.tapped_density});
    }
    return ratio(binder, pigment, PartsBasis::volume);
}

TypedPaint::TypedBinder TypedPaint::typed_binder(const std::string& text) {
    auto [label, amount_text] = labelled("--binder", text);
    if (label.empty()) {
        if (!is_id(amount_text) || amount_text[0] <= '9')
            throw typed_fault("binder-name",
                              "--binder \"" + text +
                                  "\": of what? Of oil all stays in the film, of gum water a fifth",
                              "write its name in front: --binder \"gum-water: " + amount_text + "\"");
        std::swap(label, amount_text);
    }
    TypedAmount amount;
    if (!amount_text.empty()) amount = read_amount("--binder", amount_text, bench_.kitchen, false);
    Medium medium;
    const bool is_medium = library_.find(ShelfKind::medium, label).has_value();
    if (is_medium || !library_.find(ShelfKind::ingredient, label)) {
        medium = library_.medium(label); // throws with the nearest names
    } else {
        const auto& ingredient = library_.ingredient(label);
        medium.id = ingredient.id;
        medium.name = ingredient.name;
        medium.parts = {{ingredient, 1.0}};
    }
    if (const auto* mass = std::get_if<Mass>(&amount)) return {std::move(medium), *mass};
    const double filling = library_.practice().spoon_filling;
    const auto* volume = std::get_if<Volume>(&amount);
    if (volume == nullptr) return {std::move(medium), std::nullopt};
    const double by_spoon = is_spooned(amount_text, bench_.kitchen) ? filling : 0.0;
    const auto& first = medium.parts.front().ingredient;
    if (is_medium || !is_powder(first)) {
        const Mass mass = *volume * medium_properties(medium).density;
        return {std::move(medium), mass, by_spoon};
    }
    if (!first.bulk_density)
        throw typed_fault("bulk-density-missing",
                          "--binder \"" + text + "\": what a spoonful of " + name_in_sentence(first.name) +
                              " weighs is not known",
                          "weigh it");
    const Mass mass = mass_of_bulk(*volume, first.bulk_density->value());
    const double doubt = std::hypot(filling, first.bulk_density->relative_uncertainty());
    return {std::move(medium), mass, doubt};
}

void TypedPaint::set_binder(PvcQuestion& question) {
    if (texts_.binders.empty())
        throw typed_fault(
            "binder-missing", "no binder is named",
            "add --binder \"gum-water: 40 g\" or --binder \"linseed-oil: 10 mL\"; 'lakebound-batch "
            "--list' shows the media");
    auto& recipe = question.request.recipe;
    Mass mixed;
    bool known = true;
    double spooned_variance = 0.0; // of the medium's mass, g2
    std::vector<std::string> names;
    const bool only = texts_.binders.size() == 1;
    for (const auto& text : texts_.binders) {
        auto [medium, mass, spooned] = typed_binder(text);
        spooned_variance += mass ? std::pow(spooned * in_grams(*mass), 2) : 0.0;
        names.push_back(name_in_sentence(medium.name));
        known = known && mass.has_value();
        if (mass) mixed += *mass;
        if (only) {
            recipe.medium = std::move(medium);
            break;
        }
        if (!mass)
            throw typed_fault("amount-missing", "--binder \"" + text + "\": how much of it?",
                              "write the amount: --binder \"" + medium.id + ": 20 g\"");
        const auto fractions = part_mass_fractions(medium);
        for (std::size_t i = 0; i < fractions.size(); ++i)
            recipe.medium.parts.push_back({medium.parts[i].ingredient, in_grams(*mass) * fractions[i].value()});
    }
    if (!only) {
        // A name with a comma would be cut at it: "gum arabic" for gum, water and glycerol together.
        recipe.medium.id = mixed_medium_id;
        for (std::size_t i = 0; i < names.size(); ++i)
            recipe.medium.name += (i == 0 ? "" : " + ") + names[i];
    }
    if (!(medium_properties(recipe.medium).dry_binder.value() > 0.0))
        throw typed_fault("binder-none",
                          "nothing of " + name_in_sentence(recipe.medium.name) + " stays in the film",
                          "add what binds: gum, oil, yolk, glue");
    set_family(recipe);
    if (texts_.parts) {
        if ((known && only) || texts_.used)
            throw typed_fault("option-conflict", "'--parts' and an amount of binder cannot both be met",
                              "leave one of them out");
        question.request.aim = medium_of_parts(question);
        return;
    }
    if (texts_.used) mixed = used_mass(question);
    if (!known && !texts_.used)
        throw typed_fault("amount-missing", "how much binder went in is not said",
                          "write the amount: --binder \"" + recipe.medium.id +
                              ": 40 g\", or --parts \"1 binder : 1 pigment by weight\"");
    if (texts_.used)
        question.request.medium_spooned =
            is_spooned(*texts_.used, bench_.kitchen) ? library_.practice().spoon_filling : 0.0;
    else if (mixed.value() > 0.0)
        question.request.medium_spooned = std::sqrt(spooned_variance) / in_grams(mixed);
    question.request.aim = MediumPerPigment::of(mixed / question.pigment);
}

} // namespace lakebound
