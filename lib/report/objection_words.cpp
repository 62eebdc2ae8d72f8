#include "lakebound/report/objection_words.hpp"

#include <fmt/format.h>

#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "process_words.hpp"

namespace lakebound {

namespace {

std::string leaner_medium(const Batch& batch) {
    const auto& extras = batch.watercolour.value();
    if (!extras.plasticiser_ratio_for_room)
        return "No medium of these parts sets there: dry the pans, and keep them, in drier air.";
    return fmt::format("A leaner medium suits that room: {} g of glycerol and honey to a gram of dry gum, where "
                       "this one has {}.",
                       ratio_text(*extras.plasticiser_ratio_for_room), ratio_text(*extras.plasticiser_ratio));
}

} // namespace

const char* objection_head(ObjectionKind kind) noexcept {
    switch (kind) {
    case ObjectionKind::does_not_bind:
        return "will not bind";
    case ObjectionKind::never_sets:
        return "will not set in this room";
    case ObjectionKind::binds_weakly:
        return "binds weakly";
    case ObjectionKind::stays_sticky:
        return "stays sticky in this room";
    }
    return "";
}

std::string objection_text(const Objection& objection, const BatchRequest& request, const Batch& batch) {
    const auto process = request.recipe.family.process;
    switch (objection.kind) {
    case ObjectionKind::does_not_bind:
    case ObjectionKind::binds_weakly:
        if (!(objection.value.value() > 0.0))
            return fmt::format("Nothing in it binds: {}.", layout::process_words(process).fills);
        return fmt::format("Only {} of what dries is {}; {}. {} wants {} or more (an estimate).",
                           percent_text(objection.value.value()), layout::process_words(process).binds, layout::process_words(process).fills,
                           request.recipe.family.name, percent_text(objection.limit.value()));
    case ObjectionKind::never_sets:
    case ObjectionKind::stays_sticky:
        return fmt::format("In air of {} humidity {} of the dried paint is water that does not leave, and {} of "
                           "its binder is soft, where {} is the most that is not sticky (an estimate). {}",
                           percent_text(request.bench.humidity.value()),
                           percent_text(batch.volumes.water_share().value()),
                           percent_text(objection.value.value()),
                           percent_text(request.recipe.family.soft_share.good_to.value()), leaner_medium(batch));
    }
    return {};
}

} // namespace lakebound
