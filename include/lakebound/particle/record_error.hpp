#pragma once
// RecordError: a DomainError that what a maker recorded brings about, and which part of which record it is.
//
// A reader of files can tell it where that part stands (shelf/record_places.hpp).

#include <cstddef>
#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/quantity/error.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A part of a sieve test or a settling test that a fault can lie in.
enum class RecordPart {
    whole,         ///< something is missing from it
    grinding_time, ///< of a sieve test
    retained,      ///< of a sieve test: its screens and what they kept
    density,       ///< of the grains, in a sieve test
    timed_grains,  ///< of a settling test
};

class RecordError : public DomainError {
public:
    /// record, beside: places of sieve tests in the question as it was asked; beside: the test that it contradicts.
    RecordError(const DomainError& error, RecordPart part, std::size_t record = 0,
                std::optional<std::size_t> beside = std::nullopt)
        : DomainError(error), part_(part), record_(record), beside_(beside) {}

    RecordPart part() const noexcept { return part_; }
    std::size_t record() const noexcept { return record_; }
    const std::optional<std::size_t>& beside() const noexcept { return beside_; }

private:
    RecordPart part_;
    std::size_t record_;
    std::optional<std::size_t> beside_;
};

} // namespace lakebound
