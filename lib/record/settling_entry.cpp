#include "lakebound/record/settling_entry.hpp"

#include "lakebound/particle/settling.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {

SettlingEntry settling_entry(const SettlingRecord& record, MassDensity solid, Temperature usual) {
    if (!record.grains) throw DomainError("settling test of a jar", "without timed grains", "timed grains");
    const TimedGrains& grains = *record.grains;
    const Fluid water = water_at(record.temperature.value_or(usual));
    const MassDensity effective = effective_density(grains.size, grains.depth, grains.time, water, solid);
    return {grains.size, effective, open_share(effective, solid, water)};
}

} // namespace lakebound
