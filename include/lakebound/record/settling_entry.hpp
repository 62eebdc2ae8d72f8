#pragma once
// Settling entry: what timed grains of a jar's powder leave in its record.
//
//   the density that makes grains of their size fall as they did, and the water within them by volume: how far the
//   powder is clumped (particle/settling.hpp). It says nothing of the solid's own density.

#include "lakebound/export.hpp"
#include "lakebound/particle/settling_record.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct SettlingEntry {
    Length size{};          ///< of the grains
    MassDensity effective{};
    VolumeFraction open;    ///< water in them
};

/// record: with timed grains, else DomainError. solid: density of the pigment. usual: of the water where the record does not
/// say. DomainError as effective_density.
[[nodiscard]] SettlingEntry settling_entry(const SettlingRecord& record, MassDensity solid, Temperature usual);

} // namespace lakebound
