#include "lakebound/report/pvc_json.hpp"

#include "judgement_json.hpp"
#include "lakebound/report/warning_words.hpp"
#include "paint_json.hpp"
#include "record_json.hpp"
#include "remains_json.hpp"

namespace lakebound {

namespace {

using json_pieces::computed_json;
using json_pieces::Json;

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

void add_answers(Json& json, const PvcSubject& subject) {
    const auto& check = subject.check;
    const BatchChance unknown;
    const auto& u = subject.base.chance ? *subject.base.chance : unknown;
    if (subject.base.judgement)
        json_pieces::add_judgement(json, *subject.base.judgement, subject.family().process);
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
        json["unanswered"].push_back({{"answer", answer_key(each.answer)}, {"needs", key_of(each.needs)}});
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
    const auto& rescue = answer.last();
    Json json{{"action", key_of(rescue.action)},
              {"aim_k", answer.aim.value()},
              {"aim_by_accepted_chance", answer.by_accepted_chance},
              {"accepted_chance_in_reach", answer.accepted_in_reach},
              {"k_before", answer.rescue.before.value()},
              {"k_after", answer.checked.value()},
              {"medium_g", in_grams(rescue.medium)},
              {"medium_ml", in_millilitres(rescue.medium_volume)},
              {"pigment_g", in_grams(rescue.pigment)},
              {"jar_holds_enough", rescue.jar_holds_enough},
              {"pigment_short_g", in_grams(rescue.pigment_short)},
              {"chance_below_window", answer.chances.below_green.value()},
              {"chance_in_window", answer.chances.in_window.value()},
              {"chance_above_window", answer.chances.above_green.value()}};
    if (answer.rescue.dry_before) {
        json["dry_before_ml"] = in_millilitres(*answer.rescue.dry_before);
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

std::string pvc_json(const PvcSubject& subject, const JarOutlook* outlook) {
    const auto& request = subject.base.request;
    Json json = json_pieces::envelope("pvc", pvc_json_version);
    const json_pieces::Known known{subject.question.oil_absorption_known, subject.question.density_known};
    json["title"] = subject.question.title;
    json["family"] = subject.family().id;
    json["window_k"] = json_pieces::window_json(subject.family());
    json["pigment_g"] = in_grams(subject.batch().pigment);
    json["medium"] = request.recipe.medium.id;
    json["medium_g"] = in_grams(subject.batch().medium);
    json["pigments"] = json_pieces::pigments_json(request.recipe, known);
    json["binder_index"] = json_pieces::estimate_json(subject.family().binder_index,
                                                      [](BinderIndex e) { return e.value(); });
    add_answers(json, subject);
    if (subject.base.judgement)
        json["chance"] = json_pieces::chance_json(subject.base, subject.check.reduced_pvc.has_value());
    if (subject.base.next) json["measure_next"] = json_pieces::measure_next_json(subject.base);
    if (outlook) json["record"] = json_pieces::outlook_json(*outlook);
    json_pieces::add_process(json, request, subject.batch(), known);
    if (subject.batch().remains) {
        json["bath_remains"] = json_pieces::remains_json(request.jar.value().remains, *subject.batch().remains);
        json["warnings"] = Json::array();
        for (const auto& warning : subject.batch().warnings)
            if (is_of_remains(warning.kind))
                json["warnings"].push_back({{"kind", key_of(warning.kind)}, {"subject", warning.subject}, {"value", warning.value},
                                            {"limit", warning.limit}, {"text", warning_text(warning, request)}});
    }
    if (subject.blend) json["blend"] = blend_json(subject);
    if (subject.rescue) json["rescue"] = rescue_json(*subject.rescue);
    json["assumed"] = subject.question.assumed;
    json["library_figures"] = json_pieces::library_figures_json(request);
    return json_pieces::json_text(json);
}

} // namespace lakebound
