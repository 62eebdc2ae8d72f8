#include "lakebound/shelf/powder_habits_file.hpp"

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

constexpr Range gain{0.0, 2.0, false, "0 to 200 %", "100 % is a mortar twice as fast when half empty"};
constexpr Range share_let_through{0.0, 1.0, true, "above 0, at most 100 %", ""};
constexpr Range share_lost{0.0, 0.5, false, "0 to 50 %", "name what is lost at one separation"};
constexpr Range habit_share{0.0, 0.5, true, "above 0, at most 50 %", ""};
constexpr Range height{0.0, 1.0, true, "above 0, at most 1 m", "check the unit: is it mm?"};

} // namespace

PowderHabits read_powder_habits(Document document) {
    require_kind(document, "powder habits");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a file of powder habits",
                        {"kind", "name", "sieving_repeats_to", "dry_efficiency", "wet_efficiency", "loss",
                         "emptier_is_faster", "dry_handling", "wet_handling", "drying", "fill_and_stir", "pour",
                         "solids", "height_read_to", "water_above_blanket", "decant_within", "note"},
                        faults);
    map.text("name");
    PowderHabits habits;
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
