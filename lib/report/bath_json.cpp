#include <nlohmann/json.hpp>

#include "json_pieces.hpp"
#include "remains_json.hpp"
#include "lakebound/report/bath_sheet.hpp"
#include "lakebound/report/bath_words.hpp"
#include "lakebound/report/record_words.hpp"

namespace lakebound {

namespace {

using json_pieces::Json;

Json salt_json(const Salt& salt) { return {{"id", salt.id}, {"name", salt.name}, {"formula", salt.formula}}; }

Json mass_range_json(const MassRange& range) {
    return {{"low_g", in_grams(range.low)}, {"middle_g", in_grams(range.middle)}, {"high_g", in_grams(range.high)}};
}

Json made_json(const MadeUp& made) {
    return {{"salt_g", in_grams(made.salt)}, {"water_g", in_grams(made.water)}, {"volume_ml", in_millilitres(made.volume)},
            {"by_mass", made.by_mass.value()}, {"density_g_per_cm3", in_grams_per_cubic_centimetre(made.density)}};
}

Json lake_json(const LakeExpectation& lake) {
    return {{"mass_g", json_pieces::computed_json(in_grams(lake.mass), in_grams(lake.mass_standard_uncertainty))},
            {"mass_interval_g", {{"coverage", 0.9}, {"low", lake.mass_kg.low * 1e3}, {"high", lake.mass_kg.high * 1e3}}},
            {"density_g_per_cm3", json_pieces::computed_json(in_grams_per_cubic_centimetre(lake.density),
                                                              in_grams_per_cubic_centimetre(lake.density_standard_uncertainty))},
            {"density_interval_g_per_cm3", {{"coverage", 0.9}, {"low", lake.density_kg_m3.low / 1e3}, {"high", lake.density_kg_m3.high / 1e3}}}};
}

Json range_json(const PhRange& range) { return {range.low.value(), range.high.value()}; }

Json curve_json(const std::vector<TitrationPoint>& curve) {
    Json rows = Json::array();
    for (const auto& point : curve) {
        Json row{{"alkali_g", in_grams(point.alkali)}, {"hydroxides_per_aluminium", point.hydroxides}, {"laid", point.laid.value()}};
        if (point.ph) row["ph"] = point.ph->value();
        rows.push_back(std::move(row));
    }
    return rows;
}

Json cautions_array(const std::vector<BathCaution>& cautions) {
    Json rows = Json::array();
    for (const auto each : cautions) {
        const auto words = bath_caution_words(each);
        rows.push_back({{"key", key_of(each)}, {"subject", words.subject}, {"text", words.text}});
    }
    return rows;
}

} // namespace

std::string bath_json(const BathPlan& plan) {
    Json json = json_pieces::envelope("bath_plan", bath_json_version);
    json["aluminium_salt"] = salt_json(plan.wish.aluminium);
    json["alkali"] = salt_json(plan.wish.alkali);
    json["amount_by"] = key_of(plan.by);
    if (plan.plant_dry) json["plant_dry_g"] = in_grams(*plan.plant_dry);
    json["pulls"] = Json::array();
    for (const auto& pull : plan.pulls)
        json["pulls"].push_back({{"water_ml", in_millilitres(pull.water)}, {"liquor_ml", in_millilitres(pull.liquor)}, {"left", pull.left.value()}});
    if (plan.pot_needed) json["pot_needed_ml"] = in_millilitres(*plan.pot_needed);
    json["liquor_ml"] = in_millilitres(plan.liquor);
    json["aluminium_salt_g"] = in_grams(plan.aluminium);
    json["aluminium_solution"] = made_json(plan.aluminium_solution);
    json["alkali_solution"] = made_json(plan.alkali_solution);
    json["alkali_needed"] = mass_range_json(plan.alkali);
    json["book_alkali_g"] = in_grams(plan.book_alkali);
    json["first_portion_ml"] = in_millilitres(plan.first_portion);
    json["half_measure_excess"] = plan.half_measure_excess;
    json["stop_ph"] = range_json(plan.stop);
    json["liquid_ml"] = in_millilitres(plan.liquid);
    json["vessel_least_ml"] = in_millilitres(plan.vessel_least);
    json["vessel_good_ml"] = in_millilitres(plan.vessel_good);
    if (plan.foam)
        json["foam"] = {{"gas_ml", in_millilitres(plan.foam->gas)}, {"headspace_ml", in_millilitres(plan.foam->headspace)},
                        {"pouring_s", in_seconds(plan.foam->pouring)}, {"portions", plan.foam->portions}};
    if (plan.chalk) {
        json["chalk_lake"] = {{"chalk_used_g", in_grams(plan.chalk->chalk_used)}, {"chalk_left_g", in_grams(plan.chalk->chalk_left)},
                              {"gypsum_g", in_grams(plan.chalk->gypsum)}, {"alumina_g", in_grams(plan.chalk->alumina)},
                              {"solids_g", in_grams(plan.chalk->solids)}, {"alumina_share", plan.chalk->alumina_share.value()}};
    } else {
        if (plan.over_by_tenth)
            json["tenth_too_much"] = {{"ph_fizzing", plan.over_by_tenth->fizzing.value()}, {"ph_at_rest", plan.over_by_tenth->at_rest.value()}};
        json["curves"] = {{"hydroxide", curve_json(plan.hydroxide_curve)}, {"basic_sulphate", curve_json(plan.basic_curve)}};
        json["salts_g"] = in_grams(plan.salts);
        json["washes"] = plan.washes;
        json["wash_water_ml"] = in_millilitres(plan.wash_water);
    }
    if (plan.lake) json["lake"] = lake_json(*plan.lake);
    json["cautions"] = cautions_array(plan.cautions);
    return json_pieces::json_text(json);
}

std::string bath_standing_json(const BathStanding& at, const BathTold& told) {
    Json json = json_pieces::envelope("bath_standing", bath_json_version);
    json["stage"] = key_of(at.stage);
    json["next"] = key_of(at.next);
    json["next_words"] = bath_step_words(at.next);
    json["doubts"] = Json::array();
    for (const auto doubt : at.doubts) json["doubts"].push_back(key_of(doubt));
    if (at.filter)
        json["filter"] = {{"finish_s", in_seconds(at.filter->finish.middle)}, {"finish_with_second_s", in_seconds(at.filter->finish_with_second.middle)},
                          {"second_pays", at.filter->second_pays.value()}};
    if (at.alkali) {
        const auto& a = *at.alkali;
        Json alkali{{"poured_g", in_grams(a.poured)}, {"needed", mass_range_json({a.needed_low, a.needed, a.needed_high})},
                    {"hydroxides_per_aluminium", a.hydroxides_poured}, {"at_rest", a.at_rest}};
        if (a.ph) alkali["ph"] = range_json(*a.ph);
        if (a.possible) alkali["possible_ph"] = range_json(*a.possible);
        if (a.pour_now) alkali["pour_now_g"] = in_grams(*a.pour_now);
        if (a.add_aluminium) alkali["add_aluminium_salt_g"] = in_grams(*a.add_aluminium);
        json["alkali"] = alkali;
    }
    if (at.washes_by_plan) json["washes_by_plan"] = *at.washes_by_plan;
    if (at.washed) {
        Json washed{{"left", at.washed->left.value()}, {"left_interval", {{"coverage", 0.9}, {"low", at.washed->left_low.value()}, {"high", at.washed->left_high.value()}}},
                    {"chance_clean", at.washed->clean.value()}};
        if (at.washed->sure) washed["washes_more"] = *at.washed->sure;
        json["washing"] = washed;
    }
    if (at.dried) {
        Json dried{{"end_g", in_grams(at.dried->end)}, {"end_interval_g", {{"coverage", 0.9}, {"low", in_grams(at.dried->end_low)}, {"high", in_grams(at.dried->end_high)}}},
                   {"chance_dry_now", at.dried->dry_now.value()}};
        if (at.dried->sure) dried["dry_nine_in_ten_d"] = in_hours(*at.dried->sure) / 24.0;
        json["drying"] = dried;
    }
    if (at.sinking) {
        json["sinking"] = {{"draw_off_h", in_hours(at.sinking->draw_off)}, {"blanket_mm", in_millimetres(at.sinking->blanket)}};
    }
    if (at.second) {
        const auto& l = at.second->laying;
        json["colour"] = {{"left", l.left.value()}, {"left_interval", {{"coverage", 0.9}, {"low", l.left_low.value()}, {"high", l.left_high.value()}}},
                          {"second_pays", l.pays.value()}, {"second_aluminium_salt_g", in_grams(at.second->aluminium)},
                          {"second_alkali_g", in_grams(at.second->alkali)}};
    }
    json["lake"] = lake_json(at.expected);
    const ColourRecord colour = colour_written_down(at);
    if (colour.any()) json["colour_record"] = json_pieces::colour_json(colour);
    if (told.dry) json["dry_on"] = {{"coverage", 0.9}, {"first", day_text(told.dry->first)}, {"last", day_text(told.dry->last)}};
    if (!told.bath.empty()) {
        json["bath"] = told.bath;
        json["entries"] = Json::array();
        for (const BathLine& line : told.lines) {
            Json row{{"entry", line.name}, {"date", day_text(line.day)}, {"what", line.what}, {"reading", line.reading}};
            if (!line.note.empty()) row["note"] = line.note;
            json["entries"].push_back(std::move(row));
        }
    }
    if (!told.kept.empty()) json["kept"] = told.kept;
    if (told.jar) {
        Json remarks = Json::array();
        for (const JarRemark remark : told.jar->remarks) remarks.push_back({{"key", key_of(remark)}, {"text", jar_remark_words(remark)}});
        const BathJar& jar = *told.jar;
        json["jar"] = {{"file", told.jar_file}, {"remarks", std::move(remarks)},
                       {"net_mass_g", json_pieces::estimate_json(jar.net_mass, in_grams)},
                       {"density_g_per_cm3", json_pieces::estimate_json(jar.density, in_grams_per_cubic_centimetre)},
                       {"moisture", json_pieces::estimate_json(jar.moisture, [](MassFraction x) { return x.value(); })},
                       {"bath_remains", json_pieces::remains_json({jar.salts, jar.ph}, {})}};
        if (jar.colour.any()) json["jar"]["colour"] = json_pieces::colour_json(jar.colour);
    }
    return json_pieces::json_text(json);
}

} // namespace lakebound
