#pragma once
// Pictures of a bath's readings: the filter, the washes, the drying cake.

#include <optional>
#include <span>

#include "lakebound/bath/drying.hpp"
#include "lakebound/bath/filtration.hpp"
#include "lakebound/bath/washing.hpp"
#include "lakebound/export.hpp"
#include "lakebound/page/picture.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What has run through and when the rest will have, with and without a second paper.
[[nodiscard]] page::Picture filter_picture(const FilterOutlook& outlook, std::span<const FilterReading> readings);

/// Salts left in the lake by washes to come, with the doubt of the pen and the volumes. Nothing where none are left.
[[nodiscard]] std::optional<page::Picture> wash_picture(const WashOutlook& outlook, MassFraction allowed);

/// The weighings, the way of the mass as far as they leave it open, and the days from which it may be jarred.
/// weighings: those that the outlook is of.
[[nodiscard]] page::Picture drying_picture(const DryingOutlook& outlook, std::span<const DryingWeighing> weighings);

} // namespace lakebound
