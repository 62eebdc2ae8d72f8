#include "lakebound/shelf/wash_habits_file.hpp"

#include <cmath>

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

/// A plain number among the habits.
struct WashTag {
    static constexpr const char* name = "figure of wash habits";
    static constexpr const char* range = "0 to 1000";
    static constexpr double lowest = 0.0, highest = 1000.0;
};
using WashFigure = Ratio<WashTag>;

constexpr Range small_share{0.0, 0.5, true, "above 0, at most 50 %", ""};
constexpr Range whole_share{0.0, 1.0, true, "above 0, at most 100 %", ""};
constexpr Range lake_share{0.0, 0.5, true, "above 0, at most 50 %", ""};

} // namespace

template <> struct DimensionOf<WashFigure> { static constexpr Dimension value = Dimension::pure_number; };

WashHabits read_wash_habits(Document document) {
    require_kind(document, "wash habits");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a file of wash habits",
                        {"kind", "name",
                         "filter_volume_read_to", "filter_time_read_to", "filter_law_holds_to", "second_paper",
                         "pen_calibrated_to", "pen_repeats_to", "conductivity_per_kelvin", "warmth_read_to",
                         "solids_per_conductivity", "bed_read_to", "filled_read_to", "stirred_to",
                         "wash_takes", "chalk_washes", "colour_matched_to", "second_depth", "second_least",
                         "usual_drying_time", "weighing_repeats_to", "dry_within", "drained_cake_water",
                         "constant_within", "constant_over", "air_dry_water", "recovered", "dye_density",
                         "salts_density", "salts_allowed", "salts_for_oil", "preservative_active",
                         "ph_strip_read_to", "ph_pen_read_to", "ph_rests_within", "first_portion", "end_point_doubt", "alkaline_above", "said_from",
                         "note"},
                        faults);
    map.text("name");
    WashHabits habits;
    constexpr auto style = FigureStyle::with_origin;
    const auto number = [&](std::string_view key, const Range& range) {
        return map.figure<WashFigure>(key, range, style).value().value();
    };
    habits.filter.volume_read_to = map.figure<Share>("filter_volume_read_to", small_share, style);
    habits.filter.time_read_to = map.figure<Time>("filter_time_read_to", range::positive, style);
    habits.filter.law_holds_to = map.figure<Share>("filter_law_holds_to", small_share, style);
    habits.filter.second_paper = map.figure<Time>("second_paper", range::not_negative, style);
    habits.pen_calibrated_to = map.figure<Share>("pen_calibrated_to", small_share, style);
    habits.pen_repeats_to = map.figure<Share>("pen_repeats_to", small_share, style);
    habits.conductivity_per_kelvin = map.figure<Share>("conductivity_per_kelvin", small_share, style);
    habits.warmth_read_to = map.figure<TemperatureDifference>("warmth_read_to", {0.0, 20.0, true, "above 0, at most 20 K", ""}, style);
    habits.solids_per_conductivity = map.figure<Share>("solids_per_conductivity", whole_share, style);
    habits.bed_read_to = map.figure<Share>("bed_read_to", small_share, style);
    habits.filled_read_to = map.figure<Share>("filled_read_to", small_share, style);
    habits.stirred_to = map.figure<Share>("stirred_to", small_share, style);
    habits.wash_takes = map.figure<Time>("wash_takes", range::positive, style);
    habits.chalk_washes = number("chalk_washes", {1.0, 20.0, false, "1 to 20", ""});
    if (faults.none() && habits.chalk_washes - std::floor(habits.chalk_washes) > 0.0)
        faults.add(fault_at(*map.find("chalk_washes"), "out-of-range", "chalk_washes must be a whole number", "it counts"));
    habits.colour.matched_to = map.figure<Share>("colour_matched_to", whole_share, style);
    habits.colour.second_depth = map.figure<Share>("second_depth", {0.01, 0.99, false, "1 to 99 %", ""}, style);
    habits.colour.second_least = map.figure<Share>("second_least", whole_share, style);
    habits.drying.usual_tau = map.figure<Time>("usual_drying_time", range::positive, style);
    habits.drying.weighing_repeats_to = map.figure<Share>("weighing_repeats_to", small_share, style);
    habits.drying.dry_within = map.figure<Share>("dry_within", small_share, style);
    habits.drying.drained_water = map.figure<MassFraction>("drained_cake_water", {0.2, 0.99, false, "20 to 99 % w/w", ""}, style);
    habits.drying.constant_within = map.figure<Share>("constant_within", small_share, style);
    habits.drying.constant_over = map.figure<Time>("constant_over", range::positive, style);
    habits.air_dry_water = map.figure<MassFraction>("air_dry_water", lake_share, style);
    habits.recovered = map.figure<Share>("recovered", whole_share, style);
    habits.dye_density = map.figure<MassDensity>("dye_density", {500.0, 4000.0, false, "0.5 to 4 g/cm3", "check the unit: is it g/cm3?"}, style);
    habits.salts_density = map.figure<MassDensity>("salts_density", {500.0, 4000.0, false, "0.5 to 4 g/cm3", "check the unit: is it g/cm3?"}, style);
    habits.salts_allowed = map.figure<MassFraction>("salts_allowed", lake_share, style);
    habits.salts_for_oil = map.figure<MassFraction>("salts_for_oil", lake_share, style);
    habits.preservative_active = map.figure<Share>("preservative_active", whole_share, style);
    constexpr Range of_ph{0.0, 2.0, true, "above 0, at most 2", ""};
    habits.ph_read_to = {PhDifference::of(number("ph_strip_read_to", of_ph)), PhDifference::of(number("ph_pen_read_to", of_ph))};
    habits.ph_rests_within = PhDifference::of(number("ph_rests_within", of_ph));
    habits.first_portion = map.figure<Share>("first_portion", whole_share, style);
    habits.end_point_doubt = number("end_point_doubt", {0.0, 1.0, true, "above 0, at most 1", ""});
    habits.alkaline_above = Ph::of(number("alkaline_above", {4.0, 14.0, false, "4 to 14", ""}));
    habits.said_from = map.figure<Share>("said_from", small_share, style);
    map.text_or_empty("note");
    faults.throw_if_any();
    return habits;
}

WashHabits read_wash_habits_file(const std::string& path) { return read_wash_habits(load_document(path)); }

} // namespace lakebound
