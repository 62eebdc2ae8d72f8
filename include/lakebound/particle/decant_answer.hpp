#pragma once
// When to decant a fresh lake, how far down, and how sure that is.

#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/particle/zone_settling.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct DecantQuestion {
    std::string name; ///< of the test; may be empty
    InterfaceHeights heights;
    Length height_read_to; ///< standard uncertainty of each height
    Length water_above_blanket;
    Share within; ///< of the end height
};

struct DecantAnswer {
    DecantQuestion question;
    ZoneSettling zone;
    ZoneInterval interval; ///< 90 %, of the end and of the decanting time
    Time read;             ///< of the third reading
    Time decant;           ///< after the first reading
    Time at;               ///< when it can be poured: decant, or the third reading where that is later
    Time wait;             ///< from the third reading until then
    Length blanket;        ///< height of the blanket then
    Length draw_to;        ///< the water line that leaves a finger of water above it
    Length drawn;          ///< from the first reading's height down to there
};

/// Errors: DomainError as fit_zone_settling.
[[nodiscard]] DecantAnswer plan_decanting(const DecantQuestion& question);

} // namespace lakebound
