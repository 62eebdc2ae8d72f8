#pragma once
// The jar of a bath as a file (kind: jar), each figure with where it is from.

#include <string>

#include "lakebound/bath/bath_jar.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// pigment: id, of LakingHabits. bath: name of its record; empty without one. day: ISO 8601, of its net mass.
[[nodiscard]] std::string bath_jar_text(const std::string& name, const BathJar& jar, const std::string& pigment, const std::string& bath,
                                        const std::string& day);
/// Writes jars/<id>.yaml in the studio one stands in, and returns its path. Throws InputError: id-form, and as safe_write.
[[nodiscard]] std::string write_bath_jar(const std::string& id, const BathJar& jar, const std::string& pigment, const std::string& bath,
                                         const std::string& day);

} // namespace lakebound
