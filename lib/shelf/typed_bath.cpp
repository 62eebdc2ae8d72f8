#include "lakebound/shelf/typed_bath.hpp"

#include <algorithm>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/typed_bath_reading.hpp"
#include "lakebound/shelf/typed_salt.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {
namespace {

PlantLot plant_of(const std::string& option, const std::string& text) {
    const auto words = typed_pieces(text, ' ');
    const std::string example = "100 g dry root";
    if (words.size() != 4 || (words[2] != "dry" && words[2] != "fresh"))
        refuse_typed_bath(option, text, "a mass, dry or fresh, and the part of the plant are wanted", example);
    PlantLot lot;
    lot.mass = positive_option<Mass>(option, words[0] + " " + words[1]);
    lot.fresh = words[2] == "fresh";
    if (const auto part = value_of_word<PlantPart>(words[3])) {
        lot.part = *part;
        return lot;
    }
    refuse_typed_bath(option, text, "'" + words[3] + "' is no part of a plant: root, herb, leaf, flower, bark", example);
}

unsigned pulls_of(const std::string& option, const std::string& text) {
    if (text.size() != 1 || text[0] < '1' || text[0] > '6') refuse_typed_bath(option, text, "a whole number from 1 to 6 is wanted", "2");
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

bool says_what_is_at_hand(const BathTexts& t) noexcept {
    return t.plant || t.alum || t.lake || t.alkali || t.water || t.pulls || t.pot || t.vessel || t.strength;
}

bool has_readings(const BathTexts& t) noexcept {
    return !t.filter.empty() || !t.poured.empty() || !t.ph.empty() || t.wash_water || !t.decant.empty() || t.drying ||
           t.alum_added || t.colour || t.blanket || t.cake || t.to_filter || t.hue || t.swatch;
}

void refuse_lone_options(const BathTexts& t) {
    if (!t.plant)
        for (const auto& [given, name] : {std::pair{t.pulls.has_value(), "--pulls"}, std::pair{t.pot.has_value(), "--pot"}})
            if (given) throw typed_fault("option-alone", "'" + std::string(name) + "' is of a plant, and none is named", "add --plant \"100 g dry root\"");
    if (t.to_filter && t.filter.empty())
        throw typed_fault("option-alone", "'--to-filter' goes with a reading at the filter", "add --filter \"0.5 L, 4 min\"");
}

BathReadings bath_readings(const BathTexts& texts, const BathPlan& plan) {
    const auto name = [&](const char* key) { return texts.before + key; };
    BathReadings readings;
    for (const auto& each : texts.filter) readings.filter.push_back(typed_filter_reading(name("filter"), each));
    if (texts.to_filter) readings.to_filter = positive_option<Volume>(name("to-filter"), *texts.to_filter);
    for (const auto& each : texts.poured) {
        const Volume volume = positive_option<Volume>(name("poured"), each);
        readings.alkali.push_back(plan.alkali_solution.salt * (volume / plan.alkali_solution.volume));
    }
    for (const auto& each : texts.ph) readings.ph.push_back(typed_ph(name("ph"), each));
    if (texts.alum_added) readings.aluminium.push_back(positive_option<Mass>(name("alum-added"), *texts.alum_added));
    if (texts.colour) readings.colour = typed_colour_match(name("colour"), *texts.colour);
    if (texts.blanket) readings.blanket = blanket_option(name("blanket"), *texts.blanket);
    if (texts.cake) {
        const CakeEntry cake = typed_cake(name("cake"), *texts.cake);
        readings.weighings.push_back({Time{}, cake.mass, cake.surface_wet});
    }
    if (texts.foam) readings.foam_life = positive_option<Time>(name("foam"), *texts.foam);
    if (texts.wash_water) readings.wash_water = typed_pen_reading(name("wash-water"), *texts.wash_water);
    for (const auto& each : texts.decant) readings.decants.push_back(typed_pen_reading(name("decant"), each));
    if (texts.hue) readings.hue = typed_hue(name("hue"), *texts.hue);
    if (texts.swatch) readings.swatch = typed_swatch_number(name("swatch"), *texts.swatch);
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

BathSetting bath_setting(const BathPlan& plan, const LakingHabits& laking, const WashHabits& washing, const PowderHabits& powder,
                         const Bench& bench) {
    const auto lognormal = [](Volume volume, const Estimate<Share>& u) {
        return Estimate<Volume>::lognormal(volume, 1.0 + u.value().value(), u.provenance());
    };
    const HydroxideBelief usual = usual_hydroxides(plan.wish.aluminium, laking);
    BathSetting setting{titration_of(plan),
                        plan.wish.hydroxides.value_or(usual),
                        plan.stop,
                        plan.liquor,
                        plan.headspace.value_or(plan.vessel_good - plan.liquid),
                        laking.laying_warmth.value(),
                        laking.foam_fill.value(),
                        *plan.lake_inputs,
                        plan.chalk,
                        salts_of(plan, plan.wish.hydroxides.value_or(usual)),
                        lognormal(plan.wash.bed, washing.bed_read_to),
                        lognormal(plan.wash.filled, washing.filled_read_to),
                        usual_pen(washing, Compensation::to_25_degrees, microsiemens_per_centimetre(1)),
                        {},
                        washing,
                        plan.washes,
                        powder.height_read_to.value(),
                        powder.decant_within.value()};
    setting.scale.step = bench.scales.front().step;
    return setting;
}

namespace {

/// What was read of the washed and dried lake.
struct LakeRead {
    std::optional<Estimate<Ph>> ph;
    std::optional<Estimate<Mass>> weighed;
    std::optional<Estimate<MassFraction>> moisture;
};

LakeRead lake_read(const BathTexts& texts, const WashHabits& washing) {
    LakeRead lake;
    if (texts.water_ph) {
        const PhSeen seen = typed_ph(texts.before + "water-ph", *texts.water_ph);
        lake.ph = Estimate<Ph>::normal(seen.ph, washing.ph_read_to.by(seen.means), {Origin::measured, {}, false});
    }
    bool ignored = false;
    if (texts.weighed) lake.weighed = figure_option<Mass>(texts.before + "weighed", *texts.weighed, 0.01, ignored);
    if (texts.moisture) lake.moisture = figure_option<MassFraction>(texts.before + "moisture", *texts.moisture, 0.1, ignored);
    return lake;
}

} // namespace

BathTexts read_bath(Document document, Library& library) {
    require_kind(document, "bath");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a bath's file",
                        {"kind", "name", "since", "plant", "alum", "lake", "alkali", "water", "pulls", "pot", "vessel", "strength", "foam",
                         "filter", "to-filter", "poured", "alum-added", "ph", "colour", "blanket", "wash-water", "decant", "drying", "hue", "swatch", "weighed", "moisture",
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
    text("alum-added", texts.alum_added), text("colour", texts.colour), text("blanket", texts.blanket);
    if (const Node* node = map.find("since")) texts.since = read_date(*node, "since", faults);
    text("hue", texts.hue), text("swatch", texts.swatch);
    text("moisture", texts.moisture), text("water-ph", texts.water_ph);
    list("filter", texts.filter), list("poured", texts.poured), list("ph", texts.ph), list("decant", texts.decant);
    faults.throw_if_any();
    try { // all that could be wrong shows here, at its key
        (void)bath_readings(texts, plan_bath(bath_wish(texts, library), library.laking_habits(), library.wash_habits()));
        (void)lake_read(texts, library.wash_habits());
    } catch (const InputError& error) {
        for (Diagnostic fault : error.faults()) {
            const Node* node = map.find(fault.message.substr(0, fault.message.find(' ')));
            if (node == nullptr) node = map.find(fault.message.substr(0, fault.message.find(':')));
            const Node& at = node != nullptr ? *node : map.node();
            faults.add(placed_fault(fault.id, at.excerpt(), fault.message, fault.hint));
        }
    } catch (const DomainError& error) { // the plan names what it refuses: "vessel in which the lake is laid", "pot"
        const std::string first = error.quantity().substr(0, error.quantity().find(' '));
        const Node* node = map.find(first == "salt" ? "alum" : first);
        faults.add(domain_fault((node != nullptr ? *node : map.node()).excerpt(), error));
    }
    faults.throw_if_any();
    return texts;
}

BathJar bath_jar(const BathTexts& texts, const BathPlan& plan, const BathStanding& standing, const WashHabits& washing) {
    BathEnd end{*plan.lake_inputs, {}, false, {}, {}, {}, {}, {}, {}, {}};
    Mass aluminium = plan.aluminium;
    for (const Mass& added : standing.readings.aluminium) aluminium += added;
    end.poured = {{plan.wish.aluminium.name, aluminium}, {plan.wish.alkali.name, standing.alkali ? standing.alkali->poured : plan.alkali.middle}};
    end.laid_with_chalk = plan.chalk.has_value();
    end.chalk = plan.chalk;
    end.washed = standing.washed;
    end.dried = standing.dried;
    const LakeRead read = lake_read(texts, washing);
    end.ph = read.ph;
    end.weighed = read.weighed;
    end.moisture = read.moisture;
    end.colour = colour_written_down(standing);
    return jar_from(end, washing);
}

} // namespace lakebound
