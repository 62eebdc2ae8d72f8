#include "lakebound/shelf/powder_habits_file.hpp"

#include <cmath>

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

/// A plain number among the habits.
struct HabitTag {
    static constexpr const char* name = "figure of powder habits";
    static constexpr const char* range = "0 to 1000";
    static constexpr double lowest = 0.0, highest = 1000.0;
};
using HabitFigure = Ratio<HabitTag>;

constexpr Range gain{0.0, 2.0, false, "0 to 200 %", "100 % is a mortar twice as fast when half empty"};
constexpr Range share_let_through{0.0, 1.0, true, "above 0, at most 100 %", ""};
constexpr Range share_lost{0.0, 0.5, false, "0 to 50 %", "name what is lost at one separation"};
constexpr Range habit_share{0.0, 0.5, true, "above 0, at most 50 %", ""};
constexpr Range height{0.0, 1.0, true, "above 0, at most 1 m", "check the unit: is it mm?"};

} // namespace

template <> struct DimensionOf<HabitFigure> { static constexpr Dimension value = Dimension::pure_number; };

namespace {

unsigned read_refills(const MapReader& map) {
    constexpr Range counted{0.0, 999.0, false, "0 to 999", "it counts"};
    const double refills = map.figure<HabitFigure>("refills", counted, FigureStyle::with_origin).value().value();
    if (refills - std::floor(refills) > 0.0)
        map.faults().add(fault_at(*map.find("refills"), "out-of-range", "refills must be a whole number", "it counts"));
    return static_cast<unsigned>(refills);
}

} // namespace

PowderHabits read_powder_habits(Document document) {
    require_kind(document, "powder habits");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a file of powder habits",
                        {"kind", "name", "usual_powder", "sieving_repeats_to", "dry_efficiency", "wet_efficiency", "loss",
                         "emptier_is_faster", "dry_handling", "wet_handling", "drying", "fill_and_stir", "pour",
                         "solids", "water_depth", "draw", "refills", "shortest_wait", "longest_wait", "dry_sieving_ends",
                         "wet_screening_ends", "usual_residue", "largest_grain", "selection_exponent",
                         "breakage_exponent", "exponent_spread", "sieving_repeats_weight", "cushioning",
                         "mulling_gain", "mulling_spell", "height_read_to", "water_above_blanket", "decant_within", "note"},
                        faults);
    map.text("name");
    PowderHabits habits;
    habits.usual_powder = map.text("usual_powder");
    constexpr auto style = FigureStyle::with_origin;
    habits.sieving_repeats_to = map.figure<MassFraction>("sieving_repeats_to", habit_share, style);
    habits.dry_efficiency = map.figure<Share>("dry_efficiency", share_let_through, style);
    habits.wet_efficiency = map.figure<Share>("wet_efficiency", share_let_through, style);
    habits.loss = map.figure<Share>("loss", share_lost, style);
    habits.emptier_is_faster = map.figure<Share>("emptier_is_faster", gain, style);
    habits.dry_handling = map.figure<Time>("dry_handling", range::not_negative, style);
    habits.wet_handling = map.figure<Time>("wet_handling", range::not_negative, style);
    habits.drying = map.figure<Time>("drying", range::not_negative, style);
    habits.fill_and_stir = map.figure<Time>("fill_and_stir", range::not_negative, style);
    habits.pour = map.figure<Time>("pour", range::not_negative, style);
    habits.solids = map.figure<VolumeFraction>("solids", habit_share, style);
    habits.water_depth = map.figure<Length>("water_depth", range::water_depth, style);
    habits.draw = map.figure<Share>("draw", share_let_through, style);
    habits.refills = read_refills(map);
    habits.shortest_wait = map.figure<Time>("shortest_wait", range::not_negative, style);
    habits.longest_wait = map.figure<Time>("longest_wait", range::positive, style);
    habits.dry_sieving_ends = map.figure<Length>("dry_sieving_ends", range::grain_size, style);
    habits.wet_screening_ends = map.figure<Length>("wet_screening_ends", range::grain_size, style);
    habits.usual_residue = map.figure<MassFraction>("usual_residue", habit_share, style);
    const auto number = [&map](std::string_view key, const Range& range) {
        return map.figure<HabitFigure>(key, range, style).value().value();
    };
    habits.largest_grain = number("largest_grain", {1.0, 100.0, true, "above 1, at most 100", "it is times a screen"});
    constexpr Range exponent{0.0, 5.0, true, "above 0, at most 5", "it is an exponent"};
    constexpr Range spread{0.0, 2.0, true, "above 0, at most 2", "it is the standard deviation of a logarithm"};
    auto& prior = habits.breakage;
    prior.log_exponent = std::log(number("selection_exponent", exponent));
    prior.log_gamma = std::log(number("breakage_exponent", exponent));
    prior.log_exponent_deviation = prior.log_gamma_deviation = number("exponent_spread", spread);
    prior.fraction_deviation = habits.sieving_repeats_to.value().value();
    prior.fraction_deviation_weight =
        number("sieving_repeats_weight", {0.0, 1000.0, true, "above 0, at most 1000", "it counts readings"});
    const auto cushioning = map.figure<HabitFigure>("cushioning", {0.0, 100.0, false, "0 to 100", ""}, style);
    habits.cushioning = {cushioning.value().value(), cushioning.standard_uncertainty().value()};
    if (map.find("cushioning") != nullptr && faults.none() && !(habits.cushioning.latent_deviation > 0.0))
        faults.add(fault_at(*map.find("cushioning"), "out-of-range", "the cushioning must have an uncertainty",
                            "write it like '0.5 +- 2.6'"));
    habits.mulling_gain = map.figure<Length>("mulling_gain", range::grain_size, style);
    habits.mulling_spell = map.figure<Time>("mulling_spell", range::positive, style);
    habits.height_read_to = map.figure<Length>("height_read_to", height, style);
    habits.water_above_blanket = map.figure<Length>("water_above_blanket", height, style);
    habits.decant_within = map.figure<Share>("decant_within", habit_share, style);
    map.text_or_empty("note");
    faults.throw_if_any();
    return habits;
}

PowderHabits read_powder_habits_file(const std::string& path) {
    return read_powder_habits(load_document(path));
}

} // namespace lakebound
