#include "lakebound/report/pvc_json.hpp"

#include "json_pieces.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/library_figure.hpp"
#include "lakebound/report/verdict_words.hpp"

namespace lakebound {

namespace {

using json_pieces::computed_json;
using json_pieces::estimate_json;
using json_pieces::Json;
using json_pieces::provenance_json;

const char* answer_key(QuickAnswer answer) {
    switch (answer) {
    case QuickAnswer::k:
        return "k";
    case QuickAnswer::verdict:
        return "verdict";
    case QuickAnswer::binder_balance:
        return "spare_binder_ml";
    case QuickAnswer::pvc:
        return "pvc";
    case QuickAnswer::cpvc:
        return "cpvc";
    case QuickAnswer::reduced_pvc:
        return "reduced_pvc";
    case QuickAnswer::porosity:
        return "air_fraction";
    }
    return "";
}

const char* need_key(QuickNeed need) {
    switch (need) {
    case QuickNeed::oil_absorption:
        return "oil_absorption";
    case QuickNeed::pigment_density:
        return "pigment_density";
    case QuickNeed::family:
        return "family";
    }
    return "";
}

void add_answers(Json& json, const PvcSubject& subject) {
    const auto& check = subject.check;
    const BatchChance unknown;
    const auto& u = subject.base.chance ? *subject.base.chance : unknown;
    if (check.verdict) {
        json["verdict"] = verdict_key(*check.verdict);
        json["holds"] = !fails(*check.verdict);
    }
    json["dry_binder_ml"] = in_millilitres(check.dry_binder);
    if (check.k) json["k"] = computed_json(check.k->value(), u.k_uncertainty);
    if (check.pvc) json["pvc"] = computed_json(check.pvc->value(), u.pvc_uncertainty);
    if (check.cpvc) json["cpvc"] = computed_json(check.cpvc->value(), u.cpvc_uncertainty);
    if (check.reduced_pvc)
        json["reduced_pvc"] = computed_json(check.reduced_pvc->value(), u.reduced_pvc_uncertainty);
    if (check.porosity) json["air_fraction"] = check.porosity->value();
    if (check.spare_binder) json["spare_binder_ml"] = in_millilitres(*check.spare_binder);
    if (subject.spare_medium) json["spare_medium_g"] = in_grams(*subject.spare_medium);
    json["unanswered"] = Json::array();
    for (const auto& each : check.unanswered)
        json["unanswered"].push_back({{"answer", answer_key(each.answer)}, {"needs", need_key(each.needs)}});
}

Json budget_json(const BatchChance& chance, const Budget& budget) {
    Json lines = Json::array();
    for (std::size_t i = 0; i < budget.lines.size(); ++i)
        lines.push_back({{"input", chance_input_key(chance.kinds.at(i))},
                         {"subject", chance.subjects.at(i)},
                         {"share", budget.lines[i].share}});
    return {{"standard_deviation", budget.standard_uncertainty}, {"lines", std::move(lines)}};
}

Json chance_json(const PvcSubject& subject) {
    const auto& chance = *subject.base.chance;
    Json json{{"underbound", chance.chances.underbound.value()},
              {"below_amber", chance.chances.below_amber.value()},
              {"below_green", chance.chances.below_green.value()},
              {"above_green", chance.chances.above_green.value()},
              {"above_amber", chance.chances.above_amber.value()},
              {"k_for_5_percent", chance.k_for_5_percent.value()},
              {"k_for_10_percent", chance.k_for_10_percent.value()},
              {"ln_k", budget_json(chance, chance.ln_k)}};
    if (subject.check.reduced_pvc) {
        json["ln_pvc"] = budget_json(chance, chance.ln_pvc);
        json["ln_reduced_pvc"] = budget_json(chance, chance.ln_reduced_pvc);
        json["pvc_cpvc_correlation"] = chance.pvc_cpvc_correlation;
    }
    return json;
}

Json next_json(const PvcSubject& subject) {
    static constexpr const char* advice[] = {"measure", "below_limit", "stop_measuring", "change_the_recipe"};
    const auto& next = *subject.base.next;
    Json json{{"advice", advice[static_cast<std::size_t>(next.advice)]}, {"chance_now", next.now.value()}};
    if (next.recommended) json["recommended"] = subject.base.tests.at(*next.recommended).id;
    json["tests"] = Json::array();
    for (const auto& gain : next.gains) {
        const auto& test = subject.base.tests.at(gain.test);
        json["tests"].push_back({{"id", test.id},
                                 {"duration_min", in_minutes(test.duration)},
                                 {"pigment_g", in_grams(test.pigment)},
                                 {"chance_after", gain.after.value()}});
    }
    return json;
}

Json film_json(const FilmState& film) {
    return {{"k", film.k.value()}, {"pvc", film.pvc.value()}, {"reduced_pvc", film.reduced_pvc.value()}};
}

void add_process(Json& json, const PvcSubject& subject) {
    const auto& batch = subject.batch();
    const bool volumes = subject.check.pvc && subject.check.k;
    if (batch.watercolour && subject.check.k) {
        json["room"] = {{"humidity", subject.base.request.bench.humidity.value()},
                        {"held_water_ml", in_millilitres(batch.volumes.held_water)},
                        {"soft_share", batch.watercolour->soft_share.value()}};
        if (batch.watercolour->plasticiser_ratio)
            json["room"]["plasticiser_ratio"] = *batch.watercolour->plasticiser_ratio;
        if (volumes) json["room"]["pvc_in_room"] = batch.watercolour->pvc_in_room.value();
    }
    if (batch.oil && volumes) {
        json["cured"] = {{"shrinkage_2_percent", film_json(batch.oil->cured_low)},
                         {"shrinkage_15_percent", film_json(batch.oil->cured_high)}};
        json["oil_volume_fraction"] = 1.0 - subject.check.pvc->value();
    }
    if (batch.tempera)
        json["binder_index"] =
            estimate_json(subject.family().binder_index, [](BinderIndex e) { return e.value(); });
}

Json blend_json(const PvcSubject& subject) {
    const auto& blend = *subject.blend;
    Json json{{"source", blend.source == DemandSource::measured ? "measured" : "additive"},
              {"cpvc", blend.cpvc.value()},
              {"additive_cpvc", blend.additive_cpvc.value()},
              {"demand_ml_per_g", in_millilitres_per_gram(blend.demand)}};
    if (blend.possible_cpvc) {
        json["possible_cpvc"] = blend.possible_cpvc->value();
        json["possible_saving"] = blend.possible_saving;
    }
    json["volume_shares"] = Json::array();
    for (const auto& share : blend.volume_shares)
        json["volume_shares"].push_back(share.value());
    return json;
}

Json rescue_json(const RescueAnswer& answer) {
    static constexpr const char* actions[] = {"none", "add_medium", "add_pigment"};
    const auto& rescue = answer.rescue;
    Json json{{"action", actions[static_cast<std::size_t>(rescue.action)]},
              {"aim_k", answer.aim.value()},
              {"k_before", rescue.before.value()},
              {"k_after", answer.checked.value()},
              {"medium_g", in_grams(rescue.medium)},
              {"medium_ml", in_millilitres(rescue.medium_volume)},
              {"pigment_g", in_grams(rescue.pigment)},
              {"jar_holds_enough", rescue.jar_holds_enough},
              {"pigment_short_g", in_grams(rescue.pigment_short)}};
    if (rescue.dry_before) {
        json["dry_before_ml"] = in_millilitres(*rescue.dry_before);
        json["dry_after_ml"] = in_millilitres(*rescue.dry_after);
    }
    if (answer.sticky)
        json["sticky"] = {{"soft_before", answer.sticky->soft_before.value()},
                          {"soft_after", answer.sticky->soft_after.value()},
                          {"gum_g", in_grams(answer.sticky->gum_as_is)},
                          {"pigment_g", in_grams(answer.sticky->pigment.pigment)},
                          {"k_after", answer.sticky->pigment.after.value()}};
    return json;
}

} // namespace

std::string pvc_json(const PvcSubject& subject) {
    const auto& request = subject.base.request;
    const auto& window = subject.family().window;
    Json json;
    json["schema_version"] = pvc_json_version;
    json["kind"] = "pvc";
    json["title"] = subject.question.title;
    json["family"] = subject.family().id;
    json["window_k"] = {{"amber_low", window.amber_low.value()},
                        {"green_low", window.green_low.value()},
                        {"green_high", window.green_high.value()},
                        {"amber_high", window.amber_high.value()},
                        {"provenance", provenance_json(subject.family().evidence)}};
    json["pigment_g"] = in_grams(subject.batch().pigment);
    json["medium"] = request.recipe.medium.id;
    json["medium_g"] = in_grams(subject.batch().medium);
    json["pigments"] = Json::array();
    for (const auto& part : request.recipe.pigments) {
        Json pigment{
            {"id", part.pigment.id}, {"name", part.pigment.name}, {"mass_fraction", part.share.value()}};
        if (subject.question.oil_absorption_known)
            pigment["oil_absorption_g_per_100g"] =
                estimate_json(part.pigment.oil_absorption, in_grams_per_100_grams);
        if (subject.question.density_known)
            pigment["density_g_per_cm3"] = estimate_json(part.pigment.density, in_grams_per_cubic_centimetre);
        json["pigments"].push_back(std::move(pigment));
    }
    add_answers(json, subject);
    if (subject.base.chance) json["chance"] = chance_json(subject);
    if (subject.base.next) json["measure_next"] = next_json(subject);
    add_process(json, subject);
    if (subject.blend) json["blend"] = blend_json(subject);
    if (subject.rescue) json["rescue"] = rescue_json(*subject.rescue);
    json["assumed"] = subject.question.assumed;
    json["library_figures"] = library_figure_lines(request);
    return json.dump(2) + "\n";
}

} // namespace lakebound
