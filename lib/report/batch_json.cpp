#include "lakebound/report/batch_json.hpp"

#include <cmath>

#include <nlohmann/json.hpp>

#include "lakebound/paint/working.hpp"
#include "lakebound/report/caution.hpp"
#include "lakebound/report/order_of_work.hpp"
#include "lakebound/report/warning_words.hpp"

#include "judgement_json.hpp"
#include "paint_json.hpp"
#include "record_json.hpp"
#include "remains_json.hpp"

namespace lakebound {

namespace {

using namespace json_pieces;

Json weighing_json(const Weighing& weighing, const Bench& bench) {
    const auto& scale = bench.scales.at(weighing.scale);
    Json json{{"part", key_of(weighing.part)},
              {"id", weighing.id},
              {"name", weighing.name},
              {"exact_g", in_grams(weighing.exact)},
              {"to_weigh_g", in_grams(mass_on_slab(weighing))},
              {"rounded_g", in_grams(rounded_mass_on_slab(weighing))},
              {"scale", scale.name},
              {"scale_step_g", in_grams(scale.step)},
              {"portions", weighing.portions},
              {"relative_error", weighing.error.value()},
              {"below_scale_minimum", weighing.below_minimum}};
    if (weighing.stock) {
        const auto step = [](const StockStep& each) {
            return Json{{"taken_g", in_grams(each.taken)}, {"carrier_g", in_grams(each.carrier)}};
        };
        const auto& stock = *weighing.stock;
        json["stock_solution"] = {{"strength_w_per_w", stock.strength.value()},
                                  {"carrier", stock.carrier},
                                  {"carrier_g", in_grams(stock.carrier_mass)},
                                  {"mixing", step(stock.mixing)},
                                  {"carrier_needed_g", in_grams(stock.carrier_needed)}};
        if (stock.deducted_from)
            json["stock_solution"]["carrier_taken_off"] = key_of(*stock.deducted_from);
        if (stock.strong) json["stock_solution"]["mixing_first"] = step(*stock.strong);
    }
    if (weighing.drops)
        json["drops"] = {{"count", weighing.drops->drops}, {"into_medium_g", in_grams(weighing.drops->medium)}};
    if (weighing.syringe)
        json["syringe"] = {{"name", bench.syringes.at(weighing.syringe->syringe).name},
                           {"exact_ml", in_millilitres(weighing.syringe->exact)},
                           {"rounded_ml", in_millilitres(weighing.syringe->rounded)},
                           {"fills", weighing.syringe->fills}};
    return json;
}

Json filling_json(const Filling& filling) {
    Json json{{"vessel", filling.vessel.id},
              {"vessels", filling.vessels},
              {"vessels_exact", filling.vessels_exact},
              {"paint_per_vessel_ml", in_millilitres(filling.paint_per_vessel)},
              {"wet_per_vessel_ml", in_millilitres(filling.wet_per_vessel)},
              {"pigment_per_vessel_g", in_grams(filling.pigment_per_vessel)},
              {"wet_left_over_ml", in_millilitres(filling.wet_left_over)},
              {"capacity_ml", estimate_json(filling.vessel.capacity, in_millilitres)}};
    if (filling.pours) {
        Json pours{{"thirds", filling.pours->thirds}};
        if (filling.pours->brim) pours["brim"] = *filling.pours->brim;
        json["pours"] = std::move(pours);
    }
    return json;
}

Json shortfall_json(const Shortfall& shortfall) {
    Json json{{"id", shortfall.id},
              {"needed_g", in_grams(shortfall.needed)},
              {"available_g", in_grams(shortfall.available)},
              {"pigment_wanted_g", in_grams(shortfall.pigment_wanted)},
              {"pigment_possible_g", in_grams(shortfall.pigment_possible)}};
    if (shortfall.vessels_wanted) json["vessels_wanted"] = *shortfall.vessels_wanted;
    if (shortfall.vessels_possible) json["vessels_possible"] = *shortfall.vessels_possible;
    return json;
}

Json batch_part(const BatchSubject& subject, const Batch& batch) {
    const auto& request = subject.request;
    const auto& family = request.recipe.family;
    Json json;
    if (subject.judgement) add_judgement(json, *subject.judgement, family.process);
    json["as_weighed"] =
        subject.chance ? film_json(batch.sheet.film, *subject.chance) : film_json(batch.sheet.film);
    json["as_computed"] = subject.chance ? film_json(batch.film, *subject.chance) : film_json(batch.film);
    if (subject.judgement) json["chance"] = chance_json(subject);
    if (subject.next) json["measure_next"] = measure_next_json(subject);
    json["k_shift_by_rounding"] = batch.sheet.k_shift;
    json["pigment_g"] = in_grams(batch.pigment);
    json["medium_g"] = in_grams(batch.medium);
    json["medium_ml"] = in_millilitres(batch.medium_volume);
    json["working_water_g"] = in_grams(batch.working_water);
    json["paint_g"] = in_grams(batch.paint);
    json["paint_density_g_per_cm3"] = in_grams_per_cubic_centimetre(batch.paint_density);
    json["pigment_ml"] = in_millilitres(batch.volumes.pigment);
    json["dry_binder_ml"] = in_millilitres(batch.volumes.dry_binder);
    json["wet_ml"] = in_millilitres(batch.volumes.wet);
    json["dry_ml"] = in_millilitres(batch.volumes.dry);
    json["cake_ml"] = in_millilitres(batch.volumes.cake);
    json["held_water_ml"] = in_millilitres(batch.volumes.held_water);
    json["excess_water_g"] = in_grams(batch.excess_water);
    json["shrinkage"] = batch.volumes.shrinkage.value();
    json["slab_loss_g"] = in_grams(batch.loss);
    json["slab_loss_share"] = batch.loss_share.value();
    json["binder_demand_ml_per_g"] = in_millilitres_per_gram(batch.formulation.pigment.demand);
    json["medium_per_pigment"] = batch.formulation.medium_per_pigment.value();
    if (batch.left_in_jar) json["left_in_jar_g"] = in_grams(*batch.left_in_jar);
    json["weigh"] = Json::array();
    for (const auto& weighing : batch.sheet.slab)
        json["weigh"].push_back(weighing_json(weighing, request.bench));
    if (batch.sheet.least_medium) json["least_medium_g"] = in_grams(*batch.sheet.least_medium);
    json["medium_fresh"] = Json::array();
    for (const auto& weighing : batch.sheet.medium)
        json["medium_fresh"].push_back(weighing_json(weighing, request.bench));
    if (batch.filling) json["filling"] = filling_json(*batch.filling);
    if (batch.limiting)
        json["limiting"] = {{"id", batch.limiting->id},
                            {"batches", batch.limiting->factor},
                            {"needed_g", in_grams(batch.limiting->needed)},
                            {"available_g", in_grams(batch.limiting->available)}};
    add_process(json, request, batch);
    json["order_of_work"] = order_of_work(request, batch);
    if (batch.remains) json["bath_remains"] = remains_json(request.jar.value().remains, *batch.remains);
    json["warnings"] = Json::array();
    for (const auto& warning : batch.warnings)
        json["warnings"].push_back({{"kind", key_of(warning.kind)},
                                    {"subject", warning.subject},
                                    {"value", warning.value},
                                    {"limit", warning.limit},
                                    {"text", warning_text(warning, request)}});
    return json;
}

} // namespace

std::string batch_json(const BatchSubject& subject, bool with_working, const SheetRecord* record) {
    const auto& request = subject.request;
    const auto& family = request.recipe.family;
    Json json = envelope("batch", batch_json_version);
    json["recipe"] = {{"id", request.recipe.id},
                      {"name", request.recipe.name},
                      {"family", family.id},
                      {"medium", request.recipe.medium.id}};
    json["window_k"] = window_json(family);
    if (!subject.jar_name.empty()) json["jar"] = subject.jar_name;
    json["bench"] = {{"name", request.bench.name}, {"assumed", subject.bench_assumed}};
    json["pigments"] = pigments_json(request.recipe);
    json["binder_index"] = estimate_json(family.binder_index, [](BinderIndex e) { return e.value(); });
    json["enough"] = !subject.answer.shortfall.has_value();
    if (subject.answer.shortfall) json["shortfall"] = shortfall_json(*subject.answer.shortfall);
    if (subject.answer.batch) json["batch"] = batch_part(subject, *subject.answer.batch);
    if (record) {
        json["record"] = outlook_json(record->outlook);
        if (!record->kept.empty()) json["kept"] = record->kept;
        if (!record->remark.empty()) json["remarks"] = Json::array({record->remark});
    }
    if (with_working && subject.answer.batch) {
        json["working"] = Json::array();
        for (const auto& step : working(request, *subject.answer.batch))
            json["working"].push_back({{"name", step.name},
                                       {"symbol", step.symbol},
                                       {"formula", step.formula},
                                       {"substituted", step.substituted},
                                       {"value", step.result},
                                       {"unit", step.unit}});
    }
    json["library_figures"] = library_figures_json(request);
    json["cautions"] = Json::array();
    const auto materials =
        materials_of(request.recipe, subject.answer.batch ? &subject.answer.batch->sheet : nullptr);
    for (const auto& caution : cautions(materials, family))
        json["cautions"].push_back(
            {{"subject", caution.subject}, {"text", caution.text}, {"materials", caution.materials}});
    return json_pieces::json_text(json);
}

} // namespace lakebound
