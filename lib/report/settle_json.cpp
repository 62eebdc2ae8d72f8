#include <nlohmann/json.hpp>

#include "lakebound/report/settle_report.hpp"
#include "powder_json.hpp"

namespace lakebound {

namespace {

using namespace powder_json;

Json levigated_json(const SettleAnswer& answer) {
    Json classes = Json::array();
    for (const auto& row : answer.levigated->classes)
        classes.push_back({{"lower_um", in_micrometres(row.of.lower)},
                           {"upper_um", in_micrometres(row.of.upper)},
                           {"share", row.of.share.value()},
                           {"poured", row.poured},
                           {"left", row.left}});
    Json json{{"name", answer.question.sieve->name},
              {"charge_g", in_grams(answer.charge)},
              {"classes", classes},
              {"poured", answer.levigated->poured},
              {"left", answer.levigated->left}};
    if (answer.carried_on)
        json["carried_on_below_um"] = {{"um", in_micrometres(answer.carried_on->finest)},
                                       {"model", key_of(answer.carried_on->model)}};
    return json;
}

} // namespace

std::string settle_json(const SettleAnswer& answer) {
    const auto& q = answer.question;
    const auto& how = answer.plan.how;
    Json json = envelope("levigation", settle_json_version);
    json["cut_um"] = in_micrometres(q.cut);
    json["depth_mm"] = in_millimetres(how.total_depth);
    json["draw_mm"] = in_millimetres(how.draw_depth);
    json["pours"] = how.pours;
    json["wait_s"] = in_seconds(how.wait);
    json["temperature_degc"] = in_degrees_celsius(q.temperature.value);
    json["solid_density_g_per_cm3"] = in_grams_per_cubic_centimetre(q.density.value);
    json["grain_density_g_per_cm3"] = in_grams_per_cubic_centimetre(answer.slurry.grain);
    json["grain_density_origin"] = answer.effective ? "timed_grains" : key_of(q.density.by);
    json["water_density_g_per_cm3"] = in_grams_per_cubic_centimetre(answer.water.density);
    json["water_viscosity_mpa_s"] = in_millipascal_seconds(answer.water.viscosity);
    json["solids_volume_fraction"] = q.solids.value();
    json["powder_per_half_litre_g"] = in_grams(answer.powder_per_half_litre);
    json["velocity_m_per_s"] = in_metres_per_second(answer.at_cut.velocity);
    json["hindered_velocity_m_per_s"] = in_metres_per_second(answer.hindered);
    json["temperature_given_by"] = key_of(q.temperature.by);
    json["reynolds_number"] = answer.at_cut.reynolds;
    json["drag_over_stokes"] = answer.at_cut.drag;
    json["flags"] = {{"drag_corrected", beyond_stokes(answer.at_cut)},
                     {"too_fast", answer.too_fast},
                     {"too_slow", answer.too_slow},
                     {"very_fine", answer.brownian},
                     {"crowded", answer.crowded}};
    json["steps"] = Json::array();
    for (const auto& step : answer.plan.steps)
        json["steps"].push_back({{"number", step.number},
                                 {"stirred_s", in_seconds(step.stirred)},
                                 {"pour_s", in_seconds(step.pour)}});
    json["elapsed_s"] = in_seconds(answer.plan.elapsed);
    json["hands_s"] = in_seconds(answer.plan.hands);
    json["recovery"] = Json::array();
    for (const auto& row : answer.recovery)
        json["recovery"].push_back({{"size_um", in_micrometres(row.size)},
                                    {"falls_s", in_seconds(row.falls)},
                                    {"poured", row.poured}});
    if (answer.levigated) json["sieve_test"] = levigated_json(answer);
    json["cautions"] = cautions_json(PowderWork::settling);
    return json_text(json);
}

std::string decant_json(const DecantAnswer& answer) {
    Json json = envelope("decanting", settle_json_version);
    if (!answer.question.name.empty()) json["name"] = answer.question.name;
    json["heights_mm"] = {in_millimetres(answer.question.heights.first), in_millimetres(answer.question.heights.second),
                          in_millimetres(answer.question.heights.third)};
    json["interval_h"] = in_hours(answer.question.heights.interval);
    json["end_height_mm"] = in_millimetres(answer.zone.end_height);
    json["end_height_interval_mm"] = {{"coverage", 0.9},
                                      {"low", answer.interval.end_height_m.low * 1e3},
                                      {"high", answer.interval.end_height_m.high * 1e3}};
    json["height_read_to_mm"] = in_millimetres(answer.question.height_read_to);
    json["tau_h"] = in_hours(answer.zone.tau);
    json["within_of_end"] = answer.question.within.value();
    json["decant_h"] = in_hours(answer.decant);
    json["decant_interval_h"] = {{"coverage", 0.9}, {"low", in_hours(answer.interval.decant_low)}};
    if (answer.interval.decant_high)
        json["decant_interval_h"]["high"] = in_hours(*answer.interval.decant_high);
    json["at_decanting"] = {{"h", in_hours(answer.at)},
                            {"blanket_mm", in_millimetres(answer.blanket)},
                            {"draw_to_mm", in_millimetres(answer.draw_to)},
                            {"drawn_mm", in_millimetres(answer.drawn)}};
    json["cautions"] = cautions_json(PowderWork::settling);
    return json_text(json);
}

} // namespace lakebound
