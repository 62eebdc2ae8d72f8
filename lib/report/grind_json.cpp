#include <nlohmann/json.hpp>

#include "lakebound/report/grind_report.hpp"
#include "lakebound/report/powder_words.hpp"
#include "powder_json.hpp"

namespace lakebound {

namespace {

using namespace powder_json;

Json interval_json(const CoverageInterval& interval) {
    return {{"coverage", 0.9}, {"low", interval.low}, {"high", interval.high}};
}

template <class Tag> Json figure_json(const Estimate<Ratio<Tag>>& e) {
    return {{"value", e.value().value()},
            {"standard_uncertainty", e.standard_uncertainty().value()},
            {"provenance", provenance_json(e.provenance())}};
}

Json fit_json(const GrindAnswer& answer) {
    const auto& model = answer.fit->model;
    Json sizes = Json::array();
    for (const auto& size : model.class_sizes)
        sizes.push_back(in_micrometres(size));
    return {{"class_sizes_um", sizes},
            {"rate_per_min",
             {{"value", in_per_minute(model.selection.top)},
              {"interval", interval_json(*answer.rate_per_minute)}}},
            {"selection_exponent",
             {{"value", model.selection.exponent}, {"interval", interval_json(*answer.selection_exponent)}}},
            {"breakage_exponent",
             {{"value", model.breakage.gamma}, {"interval", interval_json(*answer.breakage_exponent)}}},
            {"class_fraction_deviation", answer.fit->fraction_deviation},
            {"resamples", answer.fit->draws.size()}};
}

Json needed_json(const RoundsNeeded& needed) {
    Json json{{"coverage", 0.9}, {"low", needed.low}};
    if (needed.high) json["high"] = *needed.high;
    return json;
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
    Json json{{"name", plan_words(way.plan)},
            {"separation", key_of(way.separation.kind)},
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
    if (way.needed) json["rounds_needed"] = needed_json(*way.needed);
    if (way.stays_after_two) json["stays_after_two"] = interval_json(*way.stays_after_two);
    return json;
}

} // namespace

std::string grind_json(const GrindAnswer& answer) {
    Json json = envelope("grinding_plan", grind_json_version);
    json["target"] = target_json(answer.question.target);
    json["tests"] = Json::array();
    for (const auto& row : answer.rows) {
        Json test{{"name", row.name},
                  {"time_min", in_minutes(row.time)},
                  {"residue", residue_json(row.residue, row.with_loss)}};
        if (row.d50)
            test["d50"] = {{"um", in_micrometres(row.d50->size)}, {"reach", key_of(row.d50->reach)}};
        json["tests"].push_back(std::move(test));
    }
    json["model"] = answer.fit ? "population_balance" : "one_screen";
    if (!answer.why_one_screen.empty()) json["why_one_screen"] = answer.why_one_screen;
    if (answer.fit) json["breakage"] = fit_json(answer);
    if (answer.law) json["rate_per_min"] = in_per_minute(answer.law->rate);
    json["cushioning"] = {{"value", answer.cushioning}};
    if (answer.cushioning_range) json["cushioning"]["interval"] = interval_json(*answer.cushioning_range);
    json["later_tests"] = Json::array();
    for (const auto& check : answer.later)
        json["later_tests"].push_back({{"time_min", in_minutes(check.time)},
                                       {"predicted_residue", check.predicted},
                                       {"residue", check.observed},
                                       {"deviations", check.deviations},
                                       {"slowing", check.slowing},
                                       {"faster", check.faster}});
    json["slowing"] = answer.slowing;
    json["fine_already"] = answer.fine_already;
    json["now_min"] = in_minutes(answer.now);
    json["residue_now"] = answer.residue_now;
    json["charge_g"] = in_grams(answer.charge);
    if (answer.one_long_grind) {
        Json time{{"coverage", 0.9}, {"low_min", in_minutes(answer.one_long_grind->low)}};
        if (answer.one_long_grind->high) time["high_min"] = in_minutes(*answer.one_long_grind->high);
        json["time_to_target"] = {{"value_min", in_minutes(answer.one_long_grind->time)}, {"interval", time}};
    } else {
        json["no_time_to_target"] = answer.why_no_time;
    }
    json["forecast"] = Json::array();
    for (const auto& row : answer.forecast) {
        Json passing = Json::array();
        for (std::size_t i = 0; i < row.passing.size(); ++i)
            passing.push_back(
                {{"screen_um", in_micrometres(answer.screens.at(i))}, {"passing", row.passing[i]}});
        Json line{{"time_min", in_minutes(row.time)}, {"passing", passing}, {"residue", row.residue}};
        line["residue_interval"] = interval_json(row.interval);
        json["forecast"].push_back(std::move(line));
    }
    const auto& habits = answer.question.habits;
    const auto& say = answer.question.say;
    json["assumed"] = {
        {"loss_per_separation", answer.loss.value.value()},
        {"loss_given_by", key_of(answer.loss.by)},
        {"emptier_is_faster", answer.emptier_is_faster.value.value()},
        {"emptier_is_faster_given_by", key_of(answer.emptier_is_faster.by)},
        {"dry_efficiency", figure_json(habits.dry_efficiency)},
        {"wet_efficiency", figure_json(habits.wet_efficiency)},
        {"sieving_repeats_to", figure_json(habits.sieving_repeats_to)},
        {"drying_min", in_minutes(say.drying.value_or(habits.drying.value()))},
        {"density_g_per_cm3", in_grams_per_cubic_centimetre(answer.density.value)},
        {"density_given_by", key_of(answer.density.by)}};
    json["ways"] = Json::array();
    for (const auto& way : answer.ways)
        json["ways"].push_back(way_json(way));
    json["out_of_reach"] = answer.out_of_reach;
    if (answer.rounds_left) {
        const auto& left = *answer.rounds_left;
        json["rounds_left"] = {{"stays_g", in_grams(left.weighed.stays)},
                               {"after_rounds", left.weighed.rounds},
                               {"cycle_min", in_minutes(left.weighed.cycle)},
                               {"separation", key_of(left.way.separation.kind)},
                               {"emptier_is_faster", left.exponent},
                               {"beyond_model", left.beyond_model}};
        if (left.more) json["rounds_left"]["more"] = *left.more;
        json["rounds_left"]["range"] = needed_json(left.range);
    }
    json["cautions"] = cautions_json(PowderWork::grinding);
    return json_text(json);
}

std::string mull_json(const MullAnswer& answer) {
    const auto& readings = answer.question.readings;
    Json json = envelope("mulling", grind_json_version);
    json["readings"] = Json::array();
    for (const auto& reading : readings)
        json["readings"].push_back(
            {{"time_min", in_minutes(reading.time)}, {"fineness_um", in_micrometres(reading.fineness)}});
    json["end_um"] =
        computed_json(in_micrometres(answer.mulling.end), in_micrometres(answer.mulling.end_uncertainty));
    json["tau_min"] = in_minutes(answer.mulling.tau);
    json["stop_min"] = in_minutes(answer.stop);
    json["so_far_min"] = in_minutes(answer.so_far);
    json["more_to_stop_min"] = in_minutes(answer.more_to_stop);
    if (answer.question.target) {
        json["target_um"] = in_micrometres(*answer.question.target);
        json["out_of_reach"] = answer.out_of_reach;
        if (answer.reached) json["target_min"] = in_minutes(*answer.reached);
        if (answer.more_to_target) json["more_to_target_min"] = in_minutes(*answer.more_to_target);
    }
    json["cautions"] = cautions_json(PowderWork::grinding);
    return json_text(json);
}

} // namespace lakebound
