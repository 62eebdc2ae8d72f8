#include "judgement_json.hpp"

#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/library_figure.hpp"
#include "lakebound/report/objection_words.hpp"
#include "lakebound/report/verdict_words.hpp"

namespace lakebound::json_pieces {

namespace {

Json budget_json(const BatchChance& chance, const Budget& budget) {
    Json lines = Json::array();
    for (std::size_t i = 0; i < budget.lines.size(); ++i)
        lines.push_back({{"input", chance_input_key(chance.kinds.at(i))},
                         {"subject", chance.subjects.at(i)},
                         {"contribution", budget.lines[i].contribution},
                         {"share", budget.lines[i].share},
                         {"provenance", provenance_json(budget.lines[i].provenance)}});
    return {{"standard_deviation", budget.standard_uncertainty}, {"lines", std::move(lines)}};
}

} // namespace

Json window_json(const Family& family) {
    return {{"amber_low", family.window.amber_low.value()},
            {"green_low", family.window.green_low.value()},
            {"green_high", family.window.green_high.value()},
            {"amber_high", family.window.amber_high.value()},
            {"provenance", provenance_json(family.evidence)}};
}

void add_judgement(Json& json, const Judgement& judgement, Process process) {
    json["verdict"] = key_of(judgement.verdict);
    json["verdict_words"] = verdict_head(judgement, process);
    json["certainty"] = key_of(judgement.certainty);
    json["holds"] = judgement.holds;
    json["objections"] = Json::array();
    for (const Objection& objection : judgement.objections)
        json["objections"].push_back({{"kind", key_of(objection.kind)},
                                      {"forbids", forbids(objection.kind)},
                                      {"value", objection.value.value()},
                                      {"limit", objection.limit.value()}});
}

Json chance_json(const BatchSubject& subject, bool with_pvc) {
    const auto& chance = *subject.chance;
    const auto& judgement = *subject.judgement;
    Json json{{"sigma_ln_k", chance.sigma},
              {"underbound", judgement.chances.underbound.value()},
              {"below_amber", judgement.chances.below_amber.value()},
              {"below_green", judgement.chances.below_green.value()},
              {"in_window", judgement.chances.in_window.value()},
              {"above_green", judgement.chances.above_green.value()},
              {"above_amber", judgement.chances.above_amber.value()},
              {"k_for_5_percent", chance.k_for_5_percent.value()},
              {"k_for_10_percent", chance.k_for_10_percent.value()},
              {"likeliest_aim_k", judgement.likeliest_aim.value()},
              {"in_window_at_likeliest_aim", judgement.in_window_there.value()},
              {"ln_k", budget_json(chance, chance.ln_k)}};
    if (!with_pvc) return json;
    json["ln_pvc"] = budget_json(chance, chance.ln_pvc);
    json["ln_reduced_pvc"] = budget_json(chance, chance.ln_reduced_pvc);
    json["pvc_cpvc_correlation"] = chance.pvc_cpvc_correlation;
    return json;
}

Json measure_next_json(const BatchSubject& subject) {
    const auto& next = *subject.next;
    Json json{{"advice", key_of(next.advice)},
              {"chance_now", next.now.value()},
              {"chance_aimed_anew", next.aimed_anew.value()},
              {"aim_k", next.aim.value()}};
    if (next.recommended) json["recommended"] = subject.tests.at(*next.recommended).id;
    json["tests"] = Json::array();
    for (const auto& gain : next.gains) {
        const auto& test = subject.tests.at(gain.test);
        json["tests"].push_back({{"id", test.id},
                                 {"duration_min", in_minutes(test.duration)},
                                 {"pigment_g", in_grams(test.pigment)},
                                 {"chance_after", gain.after.value()}});
    }
    json["text"] = next_measurement_text(subject);
    return json;
}

Json library_figures_json(const BatchRequest& request) {
    Json list = Json::array();
    for (const auto& figure : library_figures(request))
        list.push_back({{"material", figure.material},
                        {"figure", figure.figure},
                        {"text", figure.value},
                        {"provenance", provenance_json(figure.provenance)}});
    return list;
}

} // namespace lakebound::json_pieces
