#pragma once
// A rub-out and its dropper as files have them: bench readings and the entries of a record.

#include <optional>

#include "lakebound/material/rub_out.hpp"
#include "lakebound/shelf/reader.hpp"

namespace lakebound {

/// The keys `pigment` and `oil`; dropper: what a drop weighs is known.
RubOut read_rub_out(const MapReader& map, const Instrument<Mass>& scale, bool dropper, Faults& faults);
/// The key `dropper`, where there is one.
std::optional<DropCalibration> read_dropper(const MapReader& map, const Instrument<Mass>& scale, Faults& faults);

} // namespace lakebound
