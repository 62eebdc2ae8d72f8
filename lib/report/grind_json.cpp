#include <nlohmann/json.hpp>

#include "lakebound/report/grind_report.hpp"
#include "powder_json.hpp"

namespace lakebound {

namespace {

using namespace powder_json;

Json interval_json(const CoverageInterval& interval) {
    return {{"coverage", 0.9}, {"low", interval.low}, {"high", interval.high}};
}

Json fit_json(const GrindSubject& subject) {
    const auto& model = subject.fit->model;
    Json sizes = Json::array();
    for (const auto& size : model.class_sizes)
        sizes.push_back(in_micrometres(size));
    return {{"class_sizes_um", sizes},
            {"rate_per_min",
             {{"value", in_per_minute(model.selection.top)},
              {"interval", interval_json(*subject.rate_per_minute)}}},
            {"selection_exponent",
             {{"value", model.selection.exponent}, {"interval", interval_json(*subject.selection_exponent)}}},
            {"breakage_exponent",
             {{"value", model.breakage.gamma}, {"interval", interval_json(*subject.breakage_exponent)}}},
            {"class_fraction_deviation", subject.fit->fraction_deviation},
            {"resamples", subject.fit->draws.size()}};
}

Json way_json(const GrindWay& way) {
    const auto& run = way.plan.run;
    Json rounds = Json::array();
    for (const auto& round : run.rounds)
        rounds.push_back({{"grind_min", in_minutes(round.grind)},
                          {"load", round.load},
                          {"through", round.through},
                          {"lost", round.lost},
                          {"residue", round.residue}});
    return {{"name", way.plan.name},
            {"separation", way.separation.name},
            {"fine_part_in_water", fine_part_in_water(way)},
            {"settling_counted", false},
            {"in_rounds", way.plan.in_rounds},
            {"asked_for", way.own},
            {"separate_first", way.separate_first},
            {"cycle_min", in_minutes(way.plan.cycle)},
            {"grinding_min", in_minutes(run.grinding)},
            {"hands_min", in_minutes(run.hands)},
            {"elapsed_min", in_minutes(run.elapsed)},
            {"through", run.through},
            {"remains", run.remains},
            {"lost", run.lost},
            {"residue", run.residue},
            {"rounds", rounds}};
}

} // namespace

std::string grind_json(const GrindSubject& subject) {
    Json json;
    json["schema_version"] = grind_json_version;
    json["kind"] = "grinding_plan";
    json["target"] = target_json(subject.question.target);
    json["tests"] = Json::array();
    for (const auto& row : subject.rows) {
        Json test{{"name", row.name},
                  {"time_min", in_minutes(row.time)},
                  {"residue", residue_json(row.residue, row.with_loss)}};
        if (row.d50)
            test["d50"] = {{"um", in_micrometres(row.d50->size)}, {"reach", reach_key(row.d50->reach)}};
        json["tests"].push_back(std::move(test));
    }
    json["model"] = subject.fit ? "population_balance" : "one_screen";
    if (!subject.why_one_screen.empty()) json["why_one_screen"] = subject.why_one_screen;
    if (subject.fit) json["breakage"] = fit_json(subject);
    if (subject.law) json["rate_per_min"] = in_per_minute(subject.law->rate);
    json["later_tests"] = Json::array();
    for (const auto& check : subject.later)
        json["later_tests"].push_back({{"time_min", in_minutes(check.time)},
                                       {"predicted_residue", check.predicted},
                                       {"residue", check.observed},
                                       {"deviations", check.deviations},
                                       {"slowing", check.slowing},
                                       {"faster", check.faster}});
    json["slowing"] = subject.slowing;
    json["fine_already"] = subject.fine_already;
    json["now_min"] = in_minutes(subject.now);
    json["residue_now"] = subject.residue_now;
    json["charge_g"] = in_grams(subject.charge);
    if (subject.one_long_grind) {
        json["time_to_target"] = {{"value_min", in_minutes(subject.one_long_grind->time)},
                                  {"at_least", subject.slowing}};
        if (!subject.slowing) {
            Json time{{"coverage", 0.9}, {"low_min", in_minutes(subject.one_long_grind->low)}};
            if (subject.one_long_grind->high) time["high_min"] = in_minutes(*subject.one_long_grind->high);
            json["time_to_target"]["interval"] = time;
        }
    } else {
        json["no_time_to_target"] = subject.why_no_time;
    }
    json["forecast"] = Json::array();
    for (const auto& row : subject.forecast) {
        Json passing = Json::array();
        for (std::size_t i = 0; i < row.passing.size(); ++i)
            passing.push_back(
                {{"screen_um", in_micrometres(subject.screens.at(i))}, {"passing", row.passing[i]}});
        Json line{{"time_min", in_minutes(row.time)}, {"passing", passing}, {"residue", row.residue}};
        if (row.interval) line["residue_interval"] = interval_json(*row.interval);
        json["forecast"].push_back(std::move(line));
    }
    json["assumed"] = {{"loss_per_separation", subject.loss.value()},
                       {"loss_origin", subject.loss_origin},
                       {"load_exponent", subject.question.habits.load_exponent},
                       {"drying_min", in_minutes(subject.question.habits.drying)},
                       {"density_g_per_cm3", in_grams_per_cubic_centimetre(subject.density)},
                       {"density_origin", subject.density_origin}};
    json["ways"] = Json::array();
    for (const auto& way : subject.ways)
        json["ways"].push_back(way_json(way));
    json["out_of_reach"] = subject.out_of_reach;
    json["cautions"] = cautions_json(PowderWork::grinding);
    return json.dump(2) + "\n";
}

std::string mull_json(const MullSubject& subject) {
    const auto& readings = subject.question.readings;
    Json json;
    json["schema_version"] = grind_json_version;
    json["kind"] = "mulling";
    json["readings"] = Json::array();
    for (const auto& reading : readings)
        json["readings"].push_back(
            {{"time_min", in_minutes(reading.time)}, {"fineness_um", in_micrometres(reading.fineness)}});
    json["end_um"] =
        computed(in_micrometres(subject.mulling.end), in_micrometres(subject.mulling.end_uncertainty));
    json["tau_min"] = in_minutes(subject.mulling.tau);
    json["stop_min"] = in_minutes(subject.stop);
    json["so_far_min"] = in_minutes(subject.so_far);
    json["more_to_stop_min"] = in_minutes(subject.more_to_stop);
    if (subject.question.target) {
        json["target_um"] = in_micrometres(*subject.question.target);
        json["out_of_reach"] = subject.out_of_reach;
        if (subject.reached) json["target_min"] = in_minutes(*subject.reached);
        if (subject.more_to_target) json["more_to_target_min"] = in_minutes(*subject.more_to_target);
    }
    json["cautions"] = cautions_json(PowderWork::grinding);
    return json.dump(2) + "\n";
}

} // namespace lakebound
