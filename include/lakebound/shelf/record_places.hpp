#pragma once
// Where the parts of a sieve test or a settling test stand in its file, for faults that only other tests, a
// target or the water show.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "lakebound/export.hpp"
#include "lakebound/particle/record_error.hpp"
#include "lakebound/particle/settling_record.hpp"
#include "lakebound/particle/sieve_record.hpp"
#include "lakebound/shelf/diagnostic.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct RecordPlaces {
    Excerpt whole; ///< the first line of the record
    std::optional<Excerpt> grinding_time, retained, density, timed_grains;

    /// Where the part stands; where it is not written, the whole.
    const Excerpt& at(RecordPart part) const noexcept;
};

struct PlacedSieveTest {
    SieveRecord record;
    RecordPlaces places;
};

struct PlacedSettlingTest {
    SettlingRecord record;
    RecordPlaces places;
};

/// The fault out-of-range at the part of the record that brings it about. records: in the order in which they
/// were asked about.
[[nodiscard]] Diagnostic record_fault(const RecordError& error, std::span<const RecordPlaces> records);

} // namespace lakebound
