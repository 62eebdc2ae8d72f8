#pragma once
// DomainError: a value lies outside the range in which a formula or a type holds.
//
// It names the quantity, the value with its unit and the range that is valid. Domain code throws
// it instead of returning NaN or an extrapolation. Faults in what a person typed are InputError,
// which has a place in a file and lives with the shelf.

#include <stdexcept>
#include <string>
#include <string_view>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

class DomainError : public std::runtime_error {
public:
    /// quantity: its name ("oil absorption"); value: with unit ("450 g/100g"); valid: the range or
    /// condition that holds ("2 to 400 g/100g"); mend: what the reader can do, may be empty.
    DomainError(std::string_view quantity, std::string_view value, std::string_view valid,
                std::string_view mend = {});

    const std::string& quantity() const noexcept { return quantity_; }
    const std::string& value() const noexcept { return value_; }
    const std::string& valid() const noexcept { return valid_; }
    const std::string& mend() const noexcept { return mend_; }

private:
    std::string quantity_, value_, valid_, mend_;
};

/// Throws DomainError with the value written in the shortest form that reads back unchanged.
/// Separate from the class so that constexpr makers can call it on their failing branch.
[[noreturn]] void throw_out_of_range(const char* quantity, double value, const char* unit, const char* valid);

} // namespace lakebound
