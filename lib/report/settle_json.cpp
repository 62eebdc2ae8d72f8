#include <nlohmann/json.hpp>

#include "lakebound/report/settle_report.hpp"
#include "powder_json.hpp"

namespace lakebound {

namespace {

using namespace powder_json;

Json levigated_json(const SettleSubject& subject) {
    Json classes = Json::array();
    for (const auto& row : subject.levigated->classes)
        classes.push_back({{"lower_um", in_micrometres(row.of.lower)},
                           {"upper_um", in_micrometres(row.of.upper)},
                           {"share", row.of.share.value()},
                           {"poured", row.poured},
                           {"left", row.left}});
    Json json{{"name", subject.question.sieve->name},
              {"charge_g", in_grams(subject.charge)},
              {"classes", classes},
              {"poured", subject.levigated->poured},
              {"left", subject.levigated->left}};
    if (subject.carried_on)
        json["carried_on_below_um"] = {{"um", in_micrometres(subject.carried_on->finest)},
                                       {"model", model_key(subject.carried_on->model)}};
    return json;
}

} // namespace

std::string settle_json(const SettleSubject& subject) {
    const auto& q = subject.question;
    const auto& how = subject.plan.how;
    Json json;
    json["schema_version"] = settle_json_version;
    json["kind"] = "levigation";
    json["cut_um"] = in_micrometres(q.cut);
    json["depth_mm"] = in_millimetres(how.total_depth);
    json["draw_mm"] = in_millimetres(how.draw_depth);
    json["pours"] = how.pours;
    json["wait_s"] = in_seconds(how.wait);
    json["temperature_degc"] = in_degrees_celsius(q.temperature);
    json["solid_density_g_per_cm3"] = in_grams_per_cubic_centimetre(q.density);
    json["grain_density_g_per_cm3"] = in_grams_per_cubic_centimetre(subject.slurry.grain);
    json["grain_density_origin"] = subject.effective ? "timed grains" : q.density_origin;
    json["water_density_g_per_cm3"] = in_grams_per_cubic_centimetre(subject.water.density);
    json["water_viscosity_mpa_s"] = in_millipascal_seconds(subject.water.viscosity);
    json["solids_volume_fraction"] = q.solids.value();
    json["powder_per_half_litre_g"] = in_grams(subject.powder_per_half_litre);
    json["velocity_m_per_s"] = in_metres_per_second(subject.at_cut.velocity);
    json["hindered_velocity_m_per_s"] = in_metres_per_second(subject.hindered);
    json["reynolds_number"] = subject.at_cut.reynolds;
    json["drag_over_stokes"] = subject.at_cut.drag;
    json["flags"] = {{"drag_corrected", beyond_stokes(subject.at_cut)},
                     {"too_fast", subject.too_fast},
                     {"too_slow", subject.too_slow},
                     {"very_fine", subject.brownian},
                     {"crowded", subject.crowded}};
    json["steps"] = Json::array();
    for (const auto& step : subject.plan.steps)
        json["steps"].push_back({{"number", step.number},
                                 {"stirred_s", in_seconds(step.stirred)},
                                 {"pour_s", in_seconds(step.pour)}});
    json["elapsed_s"] = in_seconds(subject.plan.elapsed);
    json["hands_s"] = in_seconds(subject.plan.hands);
    json["recovery"] = Json::array();
    for (const auto& row : subject.recovery)
        json["recovery"].push_back({{"size_um", in_micrometres(row.size)},
                                    {"falls_s", in_seconds(row.falls)},
                                    {"poured", row.poured}});
    if (subject.levigated) json["sieve_test"] = levigated_json(subject);
    json["cautions"] = cautions_json(PowderWork::settling);
    return json.dump(2) + "\n";
}

std::string decant_json(const DecantSubject& subject) {
    Json json;
    json["schema_version"] = settle_json_version;
    json["kind"] = "decanting";
    if (!subject.name.empty()) json["name"] = subject.name;
    json["heights_mm"] = {in_millimetres(subject.heights.first), in_millimetres(subject.heights.second),
                          in_millimetres(subject.heights.third)};
    json["interval_h"] = in_hours(subject.heights.interval);
    json["end_height_mm"] = in_millimetres(subject.zone.end_height);
    json["tau_h"] = in_hours(subject.zone.tau);
    json["within_of_end"] = subject.within.value();
    json["decant_h"] = in_hours(subject.decant);
    json["at_decanting"] = {{"h", in_hours(subject.at)},
                            {"blanket_mm", in_millimetres(subject.blanket)},
                            {"draw_to_mm", in_millimetres(subject.draw_to)},
                            {"drawn_mm", in_millimetres(subject.drawn)}};
    json["cautions"] = cautions_json(PowderWork::settling);
    return json.dump(2) + "\n";
}

} // namespace lakebound
