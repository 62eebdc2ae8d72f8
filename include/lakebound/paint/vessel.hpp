#pragma once
// Vessel: a pan, tube or jar that a batch fills.

#include <string>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class FilledBy {
    dry_volume, ///< poured again and again until the dried cake fills it: pans
    wet_volume, ///< filled once with wet paint: tubes and jars
};
template <> struct WordTable<FilledBy> {
    static constexpr WordRow<FilledBy> rows[] = {
        {FilledBy::dry_volume, "dry volume"},
        {FilledBy::wet_volume, "wet volume"},
    };
};

struct Vessel {
    std::string id;
    std::string name;
    Estimate<Volume> capacity; ///< brim-full
    Share fill = Share::of(0.9); ///< of the capacity that the paint takes at the end
    FilledBy filled_by = FilledBy::wet_volume;
    std::string note;

    /// A tube leaves no room for air under its cap.
    bool is_filled_up() const noexcept { return fill >= Share::from_proven(1.0); }
};

} // namespace lakebound
