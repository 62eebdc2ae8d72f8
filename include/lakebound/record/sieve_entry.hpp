#pragma once
// Sieve entry: what a sieve test of a jar's powder leaves in its record.
//
//   median size: where the measured curve passes half, when that lies between two screens of the test. Its ln-sd is that
//   of "somewhere between these two", ln(a_above / a_below) / sqrt(12), for a curve of few screens says no more.
//   powder used: dry, what was lost (charge less what was recovered); wet, all of the charge, for it went with the water.
// Rule of this library (estimate).

#include <optional>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/particle/sieve_record.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct SieveEntry {
    std::optional<Estimate<Length>> median_size;
    Length finest{};     ///< screen
    MassFraction kept;   ///< on it and on all above
    Mass charge{};       ///< that was sieved; 0 where it was not weighed
    Mass used{};         ///< 0 or more; 0 where the charge was not weighed
    Mass uncertainty{};  ///< standard
};

/// DomainError as analyse (particle/sieve_test.hpp).
[[nodiscard]] SieveEntry sieve_entry(const SieveRecord& record);

} // namespace lakebound
