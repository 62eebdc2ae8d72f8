#include "lakebound/shelf/laking_habits_file.hpp"

#include <cmath>

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

/// A plain number among the habits.
struct LakingTag {
    static constexpr const char* name = "figure of laking habits";
    static constexpr const char* range = "0 to 1000";
    static constexpr double lowest = 0.0, highest = 1000.0;
};
using LakingFigure = Ratio<LakingTag>;

constexpr Range laking_share{0.0, 1.0, true, "above 0, at most 100 %", ""};
constexpr Range per_dry_plant{1e-4, 0.2, false, "0.1 to 200 mL/g", "per gram of dry plant"};
constexpr Range plant_range{500.0, 2500.0, false, "0.5 to 2.5 g/cm3", "check the unit: is it g/cm3?"};
constexpr Range laying_range = range::degrees(15.0, 55.0, "15 to 55 degC", "warmer the densities of the solutions are not known");
constexpr Range ph_range{4.0, 10.0, false, "4 to 10", "a lake lies down between"};

} // namespace

template <> struct DimensionOf<LakingFigure> { static constexpr Dimension value = Dimension::pure_number; };
template <> struct DimensionOf<HydroxidesPerAluminium> { static constexpr Dimension value = Dimension::pure_number; };

LakingHabits read_laking_habits(Document document) {
    require_kind(document, "laking habits");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a file of laking habits",
                        {"kind", "name", "lake", "chalk_lake", "dry_root", "dry_herb", "dry_leaf", "dry_flower", "dry_bark", "water_held",
                         "plant_density", "pot_headspace", "water_per_plant", "pulls", "alum_per_plant", "heat_limit",
                         "laying_warmth", "hydroxides_per_aluminium", "strength", "stop_from", "stop_to", "foam_life",
                         "foam_fill", "least_headspace", "vessel_times", "longest_pouring", "dye_per_hydroxide", "cake_salts", "bed_share",
                         "gypsum_dissolves", "note"},
                        faults);
    map.text("name");
    LakingHabits habits;
    habits.lake = map.text("lake");
    habits.chalk_lake = map.text("chalk_lake");
    constexpr auto style = FigureStyle::with_origin;
    const char* parts[] = {"dry_root", "dry_herb", "dry_leaf", "dry_flower", "dry_bark"}; // as in PlantPart
    for (std::size_t i = 0; i < habits.dry_share.size(); ++i)
        habits.dry_share[i] = map.figure<Share>(parts[i], laking_share, style);
    habits.water_held = map.figure<SpecificVolume>("water_held", per_dry_plant, style);
    habits.plant_density = map.figure<MassDensity>("plant_density", plant_range, style);
    habits.pot_headspace = map.figure<Share>("pot_headspace", laking_share, style);
    habits.water_per_plant = map.figure<SpecificVolume>("water_per_plant", per_dry_plant, style);
    habits.alum_per_plant = map.figure<Share>("alum_per_plant", laking_share, style);
    habits.heat_limit = map.figure<Temperature>("heat_limit", range::liquid_water, style);
    habits.laying_warmth = map.figure<Temperature>("laying_warmth", laying_range, style);
    constexpr Range hydroxides{2.0, 3.0, false, "2 to 3", "3 is the hydroxide of the books"};
    if (map.need("hydroxides_per_aluminium") != nullptr)
        if (auto n = read_figure<HydroxidesPerAluminium>(*map.find("hydroxides_per_aluminium"), "hydroxides_per_aluminium",
                                                         hydroxides, style, faults))
            habits.hydroxides = *n;
    habits.strength = map.figure<Share>("strength", {0.0, 0.3, true, "above 0, at most 30 %", "g in mL of solution"}, style);
    const auto number = [&](std::string_view key, const Range& range) {
        return map.figure<LakingFigure>(key, range, style).value().value();
    };
    habits.stop = {Ph::of(number("stop_from", ph_range)), Ph::of(number("stop_to", ph_range))};
    habits.vessel_times = number("vessel_times", {1.0, 20.0, true, "above 1, at most 20", "times the liquid"});
    const double pulls = number("pulls", {1.0, 6.0, false, "1 to 6", "it counts"});
    if (faults.none() && pulls - std::floor(pulls) > 0.0)
        faults.add(fault_at(*map.find("pulls"), "out-of-range", "pulls must be a whole number", "it counts"));
    habits.pulls = static_cast<unsigned>(pulls);
    if (faults.none() && !(habits.stop.low < habits.stop.high))
        faults.add(fault_at(*map.find("stop_to"), "out-of-range", "stop_to must lie above stop_from", "turn the two round"));
    habits.foam_life = map.figure<Time>("foam_life", range::positive, style);
    habits.foam_fill = map.figure<Share>("foam_fill", laking_share, style);
    habits.least_headspace = map.figure<Share>("least_headspace", laking_share, style);
    habits.longest_pouring = map.figure<Time>("longest_pouring", range::positive, style);
    habits.dye_per_hydroxide = map.figure<Share>("dye_per_hydroxide", laking_share, style);
    habits.cake_salts = map.figure<MassFraction>("cake_salts", {0.0, 0.2, true, "above 0, at most 20 %", ""}, style);
    habits.bed_share = map.figure<Share>("bed_share", laking_share, style);
    habits.gypsum_dissolves = map.figure<MassDensity>("gypsum_dissolves", {0.0, 100.0, true, "above 0, at most 100 g/L", ""}, style);
    map.text_or_empty("note");
    faults.throw_if_any();
    return habits;
}

LakingHabits read_laking_habits_file(const std::string& path) { return read_laking_habits(load_document(path)); }

} // namespace lakebound
