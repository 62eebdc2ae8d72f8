#pragma once
// A pigment from its file (kind: pigment; docs/file-formats.md).

#include <functional>
#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/shelf/reader.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Density of the oil of a rub-out where a file does not say it: BenchPractice::test_oil. Asked only then.
using UsualTestOil = std::function<Estimate<MassDensity>()>;

/// The pigment of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] Pigment read_pigment(Document document, std::string id, const UsualTestOil& usual);
/// The same from a path ("-": standard input); the id is the file's stem.
[[nodiscard]] Pigment read_pigment_file(const std::string& path, const UsualTestOil& usual);

// Shared with jars, which measure the same things.

/// hazards: [dust, silica, ...]
[[nodiscard]] std::vector<Hazard> read_hazards(const MapReader& map);
/// density_state; as weighed when absent.
[[nodiscard]] MoistureState read_density_state(const MapReader& map);
/// A density of bone-dry powder is of no use without the moisture: a fault at the density_state.
void require_moisture(const MapReader& map, MoistureState state, bool moisture_known);
/// Oil absorption, with a question when it lies outside 2 to 400 g/100g.
[[nodiscard]] Range oil_absorption_range();
/// 0 to 50 % w/w: what a powder holds before it is a paste.
[[nodiscard]] Range powder_moisture_range();

} // namespace lakebound
