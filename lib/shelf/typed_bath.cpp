#include "lakebound/shelf/typed_bath.hpp"

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/typed_salt.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {
namespace {

std::vector<std::string> pieces(const std::string& text, char at) {
    std::vector<std::string> found;
    std::stringstream stream(text);
    for (std::string each; std::getline(stream, each, at);) found.push_back(trimmed(each));
    return found;
}

[[noreturn]] void refuse(const std::string& option, const std::string& text, const std::string& wanted, const std::string& example) {
    throw typed_fault("bath-typed", option + " \"" + text + "\": " + wanted, "write it like " + option + " \"" + example + "\"");
}

PlantLot plant_of(const std::string& option, const std::string& text) {
    const auto words = pieces(text, ' ');
    const std::string example = "100 g dry root";
    static constexpr std::pair<const char*, PlantPart> parts[] = {{"root", PlantPart::root}, {"herb", PlantPart::herb},
        {"leaf", PlantPart::leaf}, {"flower", PlantPart::flower}, {"bark", PlantPart::bark}};
    if (words.size() != 4 || (words[2] != "dry" && words[2] != "fresh"))
        refuse(option, text, "a mass, dry or fresh, and the part of the plant are wanted", example);
    PlantLot lot;
    lot.mass = positive_option<Mass>(option, words[0] + " " + words[1]);
    lot.fresh = words[2] == "fresh";
    for (const auto& [word, part] : parts)
        if (words[3] == word) {
            lot.part = part;
            return lot;
        }
    refuse(option, text, "'" + words[3] + "' is no part of a plant: root, herb, leaf, flower, bark", example);
}

PhSeen ph_of(const std::string& option, const std::string& text) {
    const auto words = pieces(text, ',');
    const std::string example = "6.4, pen";
    if (words.size() < 2 || words.size() > 3 || (words[1] != "pen" && words[1] != "strip") || (words.size() == 3 && words[2] != "fizzing"))
        refuse(option, text, "the pH, how it was read (pen or strip), and 'fizzing' if it still did are wanted", example);
    PhSeen seen;
    try {
        seen.ph = read_number(words[0]);
    } catch (const QuantityTextError& error) {
        refuse(option, text, error.what(), example);
    }
    if (!(seen.ph >= 0.0 && seen.ph <= 14.0))
        throw typed_fault("ph-impossible", option + " \"" + text + "\": a pH lies between 0 and 14", "read it again, of the clear liquor");
    seen.means = words[1] == "pen" ? PhMeans::pen : PhMeans::strip;
    seen.fizzing = words.size() == 3;
    return seen;
}

PenReading pen_of(const std::string& option, const std::string& text) {
    const auto words = pieces(text, ',');
    const std::string example = "350 uS/cm, 16 degC", unit = " uS/cm";
    if (words.empty() || words.size() > 2 || !words[0].ends_with(unit))
        refuse(option, text, "a conductivity in uS/cm, and the water's temperature if the pen does not correct for it, are wanted", example);
    PenReading reading;
    try {
        reading.shown = microsiemens_per_centimetre(read_number(words[0].substr(0, words[0].size() - unit.size())));
    } catch (const QuantityTextError& error) {
        refuse(option, text, error.what(), example);
    }
    reading.water = words.size() == 2 ? quantity_option<Temperature>(option, words[1]) : degrees_celsius(25);
    if (words.size() == 2) reading.compensation = Compensation::none; // it is named for the pens that do not correct
    return reading;
}

FilterReading filter_of(const std::string& option, const std::string& text) {
    const auto words = pieces(text, ',');
    if (words.size() != 2) refuse(option, text, "the volume run through and the time since pouring are wanted", "0.5 L, 4 min");
    return {positive_option<Time>(option, words[1]), positive_option<Volume>(option, words[0])};
}

unsigned pulls_of(const std::string& option, const std::string& text) {
    if (text.size() != 1 || text[0] < '1' || text[0] > '6') refuse(option, text, "a whole number from 1 to 6 is wanted", "2");
    return static_cast<unsigned>(text[0] - '0');
}

} // namespace

BathWish bath_wish(const BathTexts& texts, Library& library) {
    const auto name = [&](const char* key) { return texts.before + key; };
    BathWish wish;
    if (texts.plant) wish.plant = plant_of(name("plant"), *texts.plant);
    if (!texts.alum)
        throw typed_fault("alum-missing", "which alum is laid is not said", "add " + name("alum") + " \"potash-alum, 50 g\"");
    if (!texts.alkali)
        throw typed_fault("alkali-missing", "with which alkali it is laid is not said, and soda is sold in three forms",
                          "add " + name("alkali") + " soda-ash; which-soda-have-i-got.md tells which you have");
    if (texts.alum->find(',') == std::string::npos) {
        wish.aluminium = named_salt(library, name("alum"), *texts.alum);
    } else {
        const TypedSalt typed = typed_salt(library, name("alum"), *texts.alum);
        wish.aluminium = *typed.salt;
        wish.aluminium_mass = typed.mass;
    }
    wish.alkali = named_salt(library, name("alkali"), *texts.alkali);
    if (texts.lake) wish.lake = positive_option<Mass>(name("lake"), *texts.lake);
    if (texts.water) wish.water = positive_option<Volume>(name("water"), *texts.water);
    if (texts.pulls) wish.pulls = pulls_of(name("pulls"), *texts.pulls);
    if (texts.pot) wish.pot = positive_option<Volume>(name("pot"), *texts.pot);
    if (texts.vessel) wish.vessel = positive_option<Volume>(name("vessel"), *texts.vessel);
    if (texts.strength) wish.strength = typed_strength(name("strength"), *texts.strength);
    if (texts.foam) wish.foam_life = positive_option<Time>(name("foam"), *texts.foam);
    return wish;
}

bool has_readings(const BathTexts& t) noexcept {
    return !t.filter.empty() || !t.poured.empty() || !t.ph.empty() || t.wash_water || !t.decant.empty() || t.drying;
}

BathReadings bath_readings(const BathTexts& texts, const BathPlan& plan) {
    const auto name = [&](const char* key) { return texts.before + key; };
    BathReadings readings;
    for (const auto& each : texts.filter) readings.filter.push_back(filter_of(name("filter"), each));
    if (texts.to_filter) readings.to_filter = positive_option<Volume>(name("to-filter"), *texts.to_filter);
    for (const auto& each : texts.poured) {
        const Volume volume = positive_option<Volume>(name("poured"), each);
        readings.alkali.push_back(plan.alkali_solution.salt * (volume / plan.alkali_solution.volume));
    }
    for (const auto& each : texts.ph) readings.ph.push_back(ph_of(name("ph"), each));
    if (texts.foam) readings.foam_life = positive_option<Time>(name("foam"), *texts.foam);
    if (texts.wash_water) readings.wash_water = pen_of(name("wash-water"), *texts.wash_water);
    for (const auto& each : texts.decant) readings.decants.push_back(pen_of(name("decant"), each));
    if (texts.drying) {
        const auto series = series_option(name("drying"), *texts.drying, "38.6 g, 24.9 g, 17.9 g every 24 h");
        Time at{};
        for (const auto& each : series.readings) {
            readings.weighings.push_back({at, positive_option<Mass>(name("drying"), each), false});
            at += series.interval;
        }
    }
    return readings;
}

namespace {

/// What the plan leaves dissolved at its stop; where a pen cannot tell it, what alum and soda leave.
DissolvedSalts salts_of(const BathPlan& plan, const HydroxideBelief& hydroxides) {
    BathContents contents;
    contents.add(plan.wish.aluminium, plan.aluminium);
    contents.add(plan.wish.alkali, plan.alkali.middle);
    try {
        return salts_of_liquor(precipitate(contents, HydroxidesPerAluminium::of(hydroxides.mean)).liquor);
    } catch (const DomainError&) { // chloride, or a little aluminium left by rounding
        return salts_of_alum_and_soda();
    }
}

} // namespace

BathSetting bath_setting(const BathPlan& plan, const LakingHabits& laking, const WashHabits& washing, const Bench& bench) {
    const auto lognormal = [](Volume volume, const Estimate<Share>& u) {
        return Estimate<Volume>::lognormal(volume, 1.0 + u.value().value(), u.provenance());
    };
    const HydroxideBelief usual{laking.hydroxides.value().value(), laking.hydroxides.standard_uncertainty().value()};
    BathSetting setting{titration_of(plan),
                        plan.wish.hydroxides.value_or(usual),
                        plan.stop_low,
                        plan.stop_high,
                        plan.headspace.value_or(plan.vessel_good - plan.liquid),
                        laking.laying_warmth.value(),
                        laking.foam_fill.value(),
                        *plan.lake_inputs,
                        salts_of(plan, plan.wish.hydroxides.value_or(usual)),
                        lognormal(plan.wash.bed, washing.bed_read_to),
                        lognormal(plan.wash.filled, washing.filled_read_to),
                        usual_pen(washing, Compensation::to_25_degrees, microsiemens_per_centimetre(1)),
                        {},
                        washing};
    setting.scale.step = bench.scales.front().step;
    return setting;
}

BathTexts read_bath(Document document, Library& library) {
    require_kind(document, "bath");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a bath's file",
                        {"kind", "name", "plant", "alum", "lake", "alkali", "water", "pulls", "pot", "vessel", "strength", "foam",
                         "filter", "to-filter", "poured", "ph", "wash-water", "decant", "drying", "weighed", "moisture",
                         "water-ph", "note"},
                        faults);
    map.text("name");
    map.text_or_empty("note");
    BathTexts texts;
    texts.before = "";
    const auto text = [&](const char* key, BathTexts::Text& into) {
        if (const Node* node = map.find(key)) into = read_text(*node, key, faults);
    };
    const auto list = [&](const char* key, std::vector<std::string>& into) {
        for (const Node* item : map.list(key, false))
            if (auto each = read_text(*item, key, faults)) into.push_back(std::move(*each));
    };
    text("plant", texts.plant), text("alum", texts.alum), text("lake", texts.lake), text("alkali", texts.alkali);
    text("water", texts.water), text("pulls", texts.pulls), text("pot", texts.pot), text("vessel", texts.vessel);
    text("strength", texts.strength), text("foam", texts.foam), text("to-filter", texts.to_filter);
    text("wash-water", texts.wash_water), text("drying", texts.drying), text("weighed", texts.weighed);
    text("moisture", texts.moisture), text("water-ph", texts.water_ph);
    list("filter", texts.filter), list("poured", texts.poured), list("ph", texts.ph), list("decant", texts.decant);
    faults.throw_if_any();
    try { // all that could be wrong shows here, at its key
        bath_readings(texts, plan_bath(bath_wish(texts, library), library.laking_habits(), library.wash_habits()));
    } catch (const InputError& error) {
        for (Diagnostic fault : error.faults()) {
            const Node* node = map.find(fault.message.substr(0, fault.message.find(' ')));
            if (node == nullptr) node = map.find(fault.message.substr(0, fault.message.find(':')));
            const Node& at = node != nullptr ? *node : map.node();
            faults.add(placed_fault(fault.id, at.excerpt(), fault.message, fault.hint));
        }
    }
    faults.throw_if_any();
    return texts;
}

std::string write_bath_jar(const std::string& id, const BathTexts& texts, const BathPlan& plan, const BathStanding& standing,
                           const WashHabits& washing, const std::string& day) {
    if (!is_id(id)) throw typed_fault("id-form", texts.before + "jar \"" + id + "\" cannot be the name of a jar", "small letters, digits and single hyphens");
    BathEnd end{*plan.lake_inputs, {}, false, {}, {}, {}, {}, {}, {}};
    end.poured = {{plan.wish.aluminium.name, plan.aluminium}, {plan.wish.alkali.name, standing.alkali ? standing.alkali->poured : plan.alkali.middle}};
    end.laid_with_chalk = plan.chalk.has_value();
    end.chalk = plan.chalk;
    end.washed = standing.washed;
    end.dried = standing.dried;
    if (texts.water_ph) {
        const PhSeen seen = ph_of(texts.before + "water-ph", *texts.water_ph);
        end.ph = PhOfLake{seen.ph, ph_reading_doubt(seen.means)};
    }
    bool ignored = false;
    if (texts.weighed) end.weighed = figure_option<Mass>(texts.before + "weighed", *texts.weighed, 0.01, ignored);
    if (texts.moisture) end.moisture = figure_option<MassFraction>(texts.before + "moisture", *texts.moisture, 0.1, ignored);
    const BathJar jar = jar_from(end, washing);
    std::string name = id;
    std::replace(name.begin(), name.end(), '-', ' ');
    const auto spread = [](double value, double u, int decimals) { return fixed_text(value, decimals) + " +- " + fixed_text(std::max(u, 0.01), decimals); };
    std::string out = "kind: jar\nname: " + name + "\npigment: " + (plan.chalk ? "chalk-lake" : "alumina-lake") + "\nnet_mass: " +
                      spread(in_grams(jar.net_mass.value()), std::max(0.1, in_grams(jar.net_mass.standard_uncertainty())), 1) + " g\nsince: " + day + "\ndensity:\n  value: " +
                      spread(in_grams_per_cubic_centimetre(jar.density.value()), in_grams_per_cubic_centimetre(jar.density.standard_uncertainty()), 2) +
                      " g/cm3\n  origin: computed\n  source: \"" + jar.provenance + "\"\nmoisture: " +
                      spread(jar.moisture.value().value() * 100.0, jar.moisture.standard_uncertainty().value() * 100.0, 1) + " % w/w\nnote: >-\n  Out of a bath: " +
                      "salts about " + fixed_text(jar.salts.value().value() * 100.0, 1) + " % of the lake" +
                      (jar.ph ? ", pH in water " + fixed_text(jar.ph->ph, 1) : std::string()) + ".\n";
    std::error_code error;
    std::filesystem::create_directories("jars", error); // a fault shows when the file is written
    const std::string path = "jars/" + id + ".yaml";
    safe_write(path, out);
    return path;
}

} // namespace lakebound
