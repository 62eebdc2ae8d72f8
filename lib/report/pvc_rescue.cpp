#include "pvc_rescue.hpp"

#include <fmt/format.h>

#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/report/judgement_page.hpp"
#include "text_layout.hpp"

namespace lakebound::layout {

namespace {

using page::Place;

/// "20.1 g of gum arabic + water (18 mL: 6.7 g of gum arabic and 13.4 g of water)".
std::string rescue_medium_text(const PvcSubject& subject, const Rescue& rescue) {
    const auto& medium = subject.base.request.recipe.medium;
    auto text = fmt::format("{} of {} ({}", mass_text(rescue.medium), name_in_sentence(medium.name),
                            volume_text(rescue.medium_volume));
    if (medium.id == mixed_medium_id) {
        std::vector<std::string> parts;
        for (const auto& part : subject.rescue->medium_parts)
            parts.push_back(fmt::format("{} of {}", mass_text(part.mass), name_in_sentence(part.name)));
        text += ": " + name_list(parts);
    }
    return text + ")";
}

/// What is added after the gum, or alone; empty when nothing is.
std::string addition_text(const PvcSubject& subject, const Rescue& rescue) {
    switch (rescue.action) {
    case RescueAction::none:
        return {};
    case RescueAction::add_medium:
        return rescue_medium_text(subject, rescue);
    case RescueAction::add_pigment:
        return fmt::format("{} of pigment", mass_text(rescue.pigment));
    }
    return {};
}

void show_what_to_add(PageBuilder& page, const PvcSubject& subject) {
    const auto& answer = *subject.rescue;
    const auto& last = answer.last();
    const auto addition = addition_text(subject, last);
    if (answer.gum_first()) {
        const auto& sticky = *answer.sticky;
        auto text = fmt::format("To set at {} humidity: dissolve {} of gum in as little water as will do and mull "
                                "it in. The soft share goes from {} to {}.",
                                percent_text(subject.base.request.bench.humidity.value()),
                                mass_text(sticky.gum_as_is), percent_text(sticky.soft_before.value()),
                                percent_text(sticky.soft_after.value()));
        if (!addition.empty()) text += fmt::format(" Then add {} and mull again.", addition);
        page.paragraph(text);
    } else if (addition.empty()) {
        page.paragraph(fmt::format("Nothing to add: k is at its aim of {}.", sufficiency_text(answer.aim)));
    } else {
        page.paragraph(fmt::format("Add {} and mull again.", addition));
    }
    if (!last.jar_holds_enough)
        page.paragraph(fmt::format("The jar cannot give more: {} is missing, the reserve kept back.",
                                   mass_text(last.pigment_short)));
}

} // namespace

void add_rescue(PageBuilder& page, const PvcSubject& subject) {
    if (!subject.rescue) return;
    const auto& answer = *subject.rescue;
    page.section("Rescue", Place::left);
    show_what_to_add(page, subject);
    if (!addition_text(subject, answer.last()).empty() || answer.gum_first()) {
        auto text = fmt::format("k goes from {} to {}", sufficiency_text(answer.rescue.before),
                                sufficiency_text(answer.checked));
        if (answer.rescue.dry_before)
            text += fmt::format(", and the dry paint from {} to {}", volume_text(*answer.rescue.dry_before),
                                volume_text(*answer.last().dry_after));
        page.paragraph(text + ".");
    }
    const auto& window = subject.family().window;
    const auto parts = of_hundred(answer.chances);
    page.paragraph(fmt::format("Of 100 such rescues {} end in the window (k {} to {}), {} below it and {} above.",
                               parts.in_window, sufficiency_text(window.green_low), sufficiency_text(window.green_high),
                               parts.leaner, parts.richer));
    if (answer.by_accepted_chance)
        page.paragraph((answer.accepted_in_reach
                            ? "The nearest aim that misses the window no oftener than you accept is k "
                            : "No aim misses the window as seldom as you accept; it is missed least at k ") +
                       sufficiency_text(answer.aim) + ".");
    if (answer.sticky && !answer.gum_first())
        page.paragraph(fmt::format("It is not too soft at {} humidity: no gum needs to be added.",
                                   percent_text(subject.base.request.bench.humidity.value())));
    page.paragraph("A film that is dry on its support cannot be saved this way.");
}

} // namespace lakebound::layout
