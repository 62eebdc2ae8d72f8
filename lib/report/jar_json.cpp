#include "lakebound/report/jar_card.hpp"

#include "json_pieces.hpp"
#include "lakebound/report/record_words.hpp"
#include "record_json.hpp"
#include "remains_json.hpp"

namespace lakebound {

namespace json_pieces {

Json outlook_json(const JarOutlook& outlook) {
    const auto worth = [](const WorthOfRecord& w) {
        return Json{{"rub_outs", w.readings}, {"paints", w.paints}, {"in_window", w.chance.value()}};
    };
    const Coaching& c = outlook.coaching;
    Json json{{"demand_over_library", outlook.demand_over_library},
              {"demand_over_library_p05", outlook.demand_low},
              {"demand_over_library_p95", outlook.demand_high},
              {"sigma_ln_demand", outlook.doubt.standard_deviation()},
              {"oil_absorption_g_per_100g", in_grams_per_100_grams(outlook.oil_absorption.value())},
              {"oil_absorption_ln_spread", outlook.oil_absorption_spread},
              {"step_from_oil", outlook.step_from_oil},
              {"odd_maker", outlook.odd_maker},
              {"likeliest_aim_k", outlook.aim.value()},
              {"in_window", c.now.chance.value()},
              {"even_bet_k", outlook.own_k(c.even_bet).value()},
              {"worth",
               {{"library", worth(outlook.library)},
                {"other_jars", worth(outlook.kin)},
                {"own_rub_outs", worth(outlook.own_readings)},
                {"own_paints", worth(outlook.own_paints)}}}};
    json["advice"] = key_of(c.advice);
    if (c.recommended) json["recommended"] = *c.recommended;
    json["steps"] = Json::array();
    for (const CoachStep& step : c.steps) {
        Json one{{"kind", key_of(step.cost.kind)},
                 {"swatches", step.cost.swatches},
                 {"attention_min", in_minutes(step.cost.attention)},
                 {"pigment_g", in_grams(step.cost.pigment)},
                 {"waiting_h", in_hours(step.cost.waiting)},
                 {"in_window_after", step.value.value()}};
        one["at_k"] = Json::array();
        for (const BinderSufficiency k : step.at)
            one["at_k"].push_back(outlook.own_k(k).value());
        json["steps"].push_back(std::move(one));
    }
    json["swatches"] = Json::array();
    for (const SwatchWeighing& swatch : outlook.swatches)
        json["swatches"].push_back({{"pigment_g", in_grams(swatch.powder)},
                                    {"medium_g", in_grams(swatch.medium)},
                                    {"k", outlook.own_k(swatch.library_k).value()},
                                    {"library_k", swatch.library_k.value()},
                                    {"ln_k_spread", swatch.spread}});
    json["kin"] = {{"in_spreads", outlook.kin_distance.in_spreads},
                   {"worth_saying", outlook.worth_saying},
                   {"unlike", outlook.unlike_its_kin}};
    json["surprises"] = Json::array();
    for (const Surprise& s : outlook.surprises)
        json["surprises"].push_back({{"of", s.rub_out ? "rub_out" : "paint"}, {"chance", s.chance.value()}});
    return json;
}

} // namespace json_pieces

using json_pieces::Json;

std::string jar_json(const JarStory& story, const JarAnswerWords& words) {
    Json json = json_pieces::envelope("jar", jar_json_version);
    json["id"] = story.id;
    json["name"] = story.name;
    json["plant"] = story.plant;
    json["as_of"] = day_text(story.today);
    json["family"] = story.family.id;
    json["medium"] = story.medium_id;
    json["bench"] = {{"name", story.bench.name}, {"assumed", story.bench_assumed}};
    if (story.wanted) json["wanted"] = story.wanted->value();
    if (!words.kept.empty()) json["kept"] = words.kept;
    if (!words.remarks.empty()) json["remarks"] = words.remarks;
    if (story.card.left)
        json["left_g"] = json_pieces::computed_json(in_grams(*story.card.left), in_grams(story.card.uncertainty));
    json["next"] = next_key(story);
    json["record"] = json_pieces::outlook_json(story.outlook);
    json["waiting"] = Json::array();
    for (const OpenSwatch& open : story.open)
        json["waiting"].push_back({{"entry", story.lines[open.line].name}, {"number", story.lines[open.line].number}, {"ready", day_text(open.ready)}, {"is_ready", open.is_ready}});
    if (story.slab)
        json["on_slab"] = {{"entry", story.lines[story.slab->line].name},
                           {"pigment_g", in_grams(story.slab->paint.powder)},
                           {"k", story.outlook.own_k(story.slab->paint.library_k).value()},
                           {"library_k", story.slab->paint.library_k.value()},
                           {"strokes", story.slab->paint.strokes}};
    if (story.lake.known()) json["bath_remains"] = json_pieces::remains_json(story.lake, story.remains);
    if (story.colour.any()) json["colour"] = json_pieces::colour_json(story.colour);
    json["entries"] = Json::array();
    for (const StoryLine& line : story.lines)
        json["entries"].push_back({{"entry", line.name}, {"date", day_text(line.entry.day)}, {"text", happened_text(story, line)}});
    json["warnings"] = record_warnings(story);
    return json_pieces::json_text(json);
}

std::string poured_json(const JarStory& story, const PouredQuestion& q, const PouredAnswer& answer) {
    Json json = json_pieces::envelope("poured", jar_json_version);
    json["id"] = story.id;
    json["batch"] = story.lines[story.batches.at(q.batch)].name;
    json["family"] = story.family.id;
    json["medium"] = story.medium_id;
    json["pigment_g"] = in_grams(q.powder);
    json["planned_g"] = in_grams(q.planned);
    json["poured_g"] = in_grams(q.poured);
    json["planned_k"] = answer.planned.value();
    json["k"] = answer.now.value();
    json["in_window_planned"] = answer.in_window_planned.value();
    json["in_window"] = answer.in_window_now.value();
    json["leave_it"] = answer.leave_it;
    if (!answer.leave_it) {
        const bool powder = answer.rescue.action == RescueAction::add_pigment;
        Json add{{"action", key_of(answer.rescue.action)},
                 {"mass_g", in_grams(powder ? answer.rescue.pigment : answer.rescue.medium)},
                 {"k", answer.rescue.after.value()},
                 {"in_window", answer.in_window_then.value()},
                 {"jar_holds_enough", answer.rescue.jar_holds_enough}};
        if (!answer.rescue.jar_holds_enough) add["short_g"] = in_grams(answer.rescue.pigment_short);
        json["add"] = std::move(add);
    }
    json["mixed"] = {{"pigment_g", in_grams(answer.mixed_powder)}, {"medium_g", in_grams(answer.mixed_medium)}};
    return json_pieces::json_text(json);
}

std::string new_jar_json(const Jar& jar, const std::string& path) {
    Json json = json_pieces::envelope("new_jar", jar_json_version);
    json["id"] = jar.id;
    json["name"] = jar.name;
    json["file"] = path;
    json["library_figures"] = jar.library_defaults;
    return json_pieces::json_text(json);
}

std::string studio_json(const std::string& studio, const std::vector<StudioLine>& lines) {
    Json json = json_pieces::envelope("studio", jar_json_version);
    json["studio"] = studio;
    json["jars"] = Json::array();
    for (const StudioLine& line : lines) {
        Json one{{"id", line.id}, {"name", line.name}, {"plant", line.plant}, {"entries", line.entries}, {"family", line.family},
                 {"in_window", line.in_window.value()}, {"next", line.next_key}};
        if (line.left) one["left_g"] = json_pieces::computed_json(in_grams(*line.left), in_grams(line.uncertainty));
        json["jars"].push_back(std::move(one));
    }
    return json_pieces::json_text(json);
}

} // namespace lakebound
