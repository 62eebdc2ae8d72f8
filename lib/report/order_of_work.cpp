#include "lakebound/report/order_of_work.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "amount_words.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "process_words.hpp"
#include "text_layout.hpp"
#include "work_steps.hpp"

namespace lakebound {

namespace {

using Steps = std::vector<std::string>;

/// The words that all processes share, with the amounts of one batch.
struct Words {
    const BatchRequest& request;
    const Batch& batch;

    std::string amounts(SheetPart part) const { return amounts(weighings_of(part, batch.sheet)); }
    std::string amounts(const std::vector<const Weighing*>& weighings) const {
        std::vector<std::string> each;
        for (const auto* weighing : weighings)
            each.push_back(
                fmt::format("{} of {}", amount_text(*weighing, request.bench), what_in_sentence(*weighing)));
        return name_list(each);
    }
    std::string amount(SheetPart part) const {
        const auto found = weighings_of(part, batch.sheet);
        return found.empty() ? std::string{} : amount_text(*found.front(), request.bench);
    }
    bool has(SheetPart part) const { return !weighings_of(part, batch.sheet).empty(); }
    bool has_dust() const {
        return std::any_of(request.recipe.pigments.begin(), request.recipe.pigments.end(),
                           [](const auto& part) {
                               const auto& hazards = part.pigment.hazards;
                               return std::find(hazards.begin(), hazards.end(), Hazard::dust) != hazards.end();
                           });
    }
    bool has_role(Role role) const {
        const auto& parts = request.recipe.medium.parts;
        return std::any_of(parts.begin(), parts.end(),
                           [role](const auto& part) { return part.ingredient.role == role; });
    }
    bool stocks_bring_water() const {
        const auto& parts = batch.sheet.medium;
        return std::any_of(parts.begin(), parts.end(),
                           [](const Weighing& part) { return part.stock.has_value(); });
    }
    std::string with_mask() const { return has_dust() ? "Mask on. " : ""; }

    std::string weigh_pigment(const char* onto) const {
        auto text = fmt::format("{}Weigh {} onto {}.", with_mask(), amounts(SheetPart::pigment), onto);
        if (request.recipe.pigments.size() > 1) text += " Mix the powders dry, gently, with the knife.";
        return text;
    }
    /// An additive that the medium carries is easiest stirred into the medium.
    void stir_in_additives(Steps& steps, const char* into) const {
        std::vector<const Weighing*> weighed;
        for (const auto* weighing : weighings_of(SheetPart::additive, batch.sheet))
            if (weighing->drops)
                steps.push_back(fmt::format("Stir {} of {} into {} of the medium.",
                                            amount_text(*weighing, request.bench), what_in_sentence(*weighing),
                                            dropped_into_text(*weighing->drops)));
            else
                weighed.push_back(weighing);
        if (!weighed.empty()) steps.push_back(fmt::format("Stir {} into {}.", amounts(weighed), into));
    }
    void fill(Steps& steps) const {
        if (!batch.filling || batch.filling->vessels < 1) {
            steps.push_back("Scrape the paint together into a small pot and close it.");
            return;
        }
        const auto& filling = *batch.filling;
        const auto pots = counted_name(filling.vessels, filling.vessel.name);
        if (!filling.pours) {
            const bool full = filling.vessel.is_filled_up();
            steps.push_back(fmt::format("Fill {} with {}{}. Tap the air out{}.", pots,
                                        volume_text(filling.wet_per_vessel), filling.vessels > 1 ? " each" : "",
                                        full ? "; leave none under the cap" : ""));
            return;
        }
        const auto& pours = *filling.pours;
        auto text = fmt::format("Pour into {}. ", pots);
        if (pours.brim)
            text += fmt::format("To the brim it takes {} {}, a third at a time {}. ", *pours.brim,
                                *pours.brim == 1 ? "pour" : "pours", pours.thirds);
        else
            text += fmt::format("A third at a time: {} pours in all. ", pours.thirds);
        steps.push_back(text +
                        "Keep the rest of the paint closed and cold. Let each pour set before the next: a day, "
                        "up to three in damp air. Thin pours crack less; with the last one stop at the rim.");
    }
    /// The paste keeps, the tempered paint does not.
    void keep_tempera(Steps& steps) const {
        if (batch.filling && batch.filling->vessels > 0)
            steps.push_back(fmt::format(
                "Fill {} with what is not tempered; tempered, it would be {}{}. Throw away what "
                "was tempered and not used: raw egg spoils.",
                counted_name(batch.filling->vessels, batch.filling->vessel.name),
                volume_text(batch.filling->wet_per_vessel), batch.filling->vessels > 1 ? " each" : ""));
        else
            steps.push_back("Throw away what was tempered and not used: raw egg spoils.");
    }
    void label(Steps& steps, const char* dry = "let it dry for a day") const {
        steps.push_back(
            fmt::format("Label it: name, date, k {}. Paint out a swatch and {}; rub it with a tissue. "
                        "Write down what you see: it makes the next batch surer.",
                        sufficiency_text(batch.sheet.film.k), dry));
    }
};

Steps watercolour(const Words& words) {
    Steps steps;
    if (words.has_role(Role::gum) && words.request.recipe.medium.parts.size() > 1)
        steps.push_back(
            fmt::format("No medium ready? Make it the day before: soak the gum in its water{} overnight, "
                        "strain it, stir in the rest.",
                        words.stocks_bring_water() ? " and what the stocks bring" : ""));
    steps.push_back(words.weigh_pigment("the slab"));
    const bool water = words.has(SheetPart::working_water);
    if (water)
        steps.push_back(
            fmt::format("Wet it: work in {} of water, a little at a time, with the knife. If the powder "
                        "floats, a few drops of ethanol help; they leave again.",
                        words.amount(SheetPart::working_water)));
    words.stir_in_additives(steps, "the medium");
    steps.push_back(fmt::format(
        "Add {} in four portions. Work each in until no dry lump is left.{}", words.amounts(SheetPart::medium),
        words.batch.watercolour && words.batch.watercolour->fluid
            ? " It turns as fluid as cream: that is right. A stiff paste would be underbound."
            : ""));
    steps.push_back(
        "Mull in heaps of a spoonful, in figures of eight, and scrape together often, until a smear on glass "
        "shows no grit. Put back with a dropper the water that dries off.");
    words.fill(steps);
    words.label(steps);
    return steps;
}

constexpr const char* melted =
    "in a water bath, never over a flame, until it is clear; take it off and stir until it "
    "is cold, or the wax sets in grains";

/// Waxes and soaps go into the oil by heat, and before the powder lies open; the rest is stirred in cold.
Steps oil(const Words& words) {
    Steps steps;
    std::vector<const Weighing*> melting, cold;
    for (const auto* weighing : weighings_of(SheetPart::additive, words.batch.sheet)) {
        const bool wax = words.request.recipe.additives.at(weighing->index).ingredient.role == Role::wax;
        if (weighing->drops) {
            steps.push_back(fmt::format("Stir {} of {} into {} of the oil.",
                                        amount_text(*weighing, words.request.bench),
                                        what_in_sentence(*weighing), dropped_into_text(*weighing->drops)));
            continue;
        }
        if (wax && weighing->stock)
            steps.push_back(
                fmt::format("Make the stock of {}: warm it in its oil {}. What comes is a soft paste, to be "
                            "weighed from a knife.",
                            name_in_sentence(weighing->name), melted));
        (wax && !weighing->stock ? melting : cold).push_back(weighing);
    }
    if (words.request.recipe.medium.parts.size() > 1 && words.has_role(Role::wax))
        steps.push_back(fmt::format("No medium ready? Warm the wax in its oil {}.", melted));
    auto cup = fmt::format("Weigh {} into a cup.", words.amounts(SheetPart::medium));
    if (!melting.empty())
        steps.push_back(cup + fmt::format(" Add {} and warm it {}.", words.amounts(melting), melted));
    steps.push_back(words.weigh_pigment("the slab") + " Make a hollow in the heap.");
    if (melting.empty()) steps.push_back(cup);
    if (!cold.empty()) steps.push_back(fmt::format("Stir {} into the oil in the cup.", words.amounts(cold)));
    steps.push_back(
        "Work in about two thirds with the knife, in portions, to a stiff paste without dry powder. It looks "
        "short of oil: it loosens under the muller.");
    steps.push_back(
        "Mull in heaps of a spoonful. Work in the rest of the oil, all of it, and mull until a smear on glass "
        "is even and shows no grit.");
    words.fill(steps);
    steps.push_back(
        "Clean slab and knife with oil, then soap. Spread the rags flat outdoors: never in a heap.");
    words.label(steps, "let it dry, days to weeks, until a fingertip neither marks nor sticks");
    return steps;
}

Steps egg_tempera(const Words& words) {
    Steps steps;
    steps.push_back(words.weigh_pigment("the slab"));
    if (words.has(SheetPart::working_water))
        steps.push_back(
            fmt::format("Work in {} of water with the knife, then mull to a smooth paste. Under water in a "
                        "closed jar this paste keeps.",
                        words.amount(SheetPart::working_water)));
    if (words.batch.tempera && words.batch.tempera->eggs > 0) {
        const int eggs = words.batch.tempera->eggs;
        steps.push_back(
            fmt::format("Separate {} {}. Roll the yolk on paper until it is dry, hold it by its skin over a "
                        "cup, prick it and let it run out. Throw the skin away.",
                        eggs, eggs == 1 ? "egg" : "eggs"));
    }
    if (words.request.recipe.medium.parts.size() > 1) steps.push_back("Stir the medium together as above.");
    words.stir_in_additives(steps, "the medium");
    steps.push_back(fmt::format(
        "Temper only what you paint today: to 1 g of paste {} g of the {}. All of it takes {}.",
        significant_text(words.batch.tempera ? words.batch.tempera->medium_per_paste : 0.0, 2),
        words.request.recipe.medium.parts.size() > 1 ? "medium" : "yolk", words.amounts(SheetPart::medium)));
    steps.push_back("Thin with water as the brush wants it: the water leaves again and binds nothing.");
    steps.push_back(
        "Dry a stripe on glass. It should peel as one film: powder means more yolk, grease means less.");
    words.keep_tempera(steps);
    words.label(steps);
    return steps;
}

} // namespace

namespace layout {

std::vector<std::string> work_in_gum(const BatchRequest& request, const Batch& batch) { return watercolour({request, batch}); }
std::vector<std::string> work_in_oil(const BatchRequest& request, const Batch& batch) { return oil({request, batch}); }
std::vector<std::string> work_in_yolk(const BatchRequest& request, const Batch& batch) { return egg_tempera({request, batch}); }

} // namespace layout

std::vector<std::string> order_of_work(const BatchRequest& request, const Batch& batch) {
    return layout::process_words(request.recipe.family.process).order_of_work(request, batch);
}

} // namespace lakebound
