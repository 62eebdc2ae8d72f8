#pragma once
// Provenance: where a number comes from, carried beside it to the last line of the report.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// How a figure came to be known. Files and reports use the words of its table.
enum class Origin {
    measured,        ///< by the maker, on this jar or this bench
    published,       ///< read in the source named
    memory,          ///< value from memory of a handbook or standard that was not opened
    computed,        ///< computed from other figures
    estimate,        ///< a judgement; the uncertainty says how loose
    common_practice, ///< a fact of the trade, no source
    definition,      ///< true because we name or count it so
};
template <> struct WordTable<Origin> {
    static constexpr WordRow<Origin> rows[] = {
        {Origin::measured, "measured"},
        {Origin::published, "published"},
        {Origin::memory, "memory"},
        {Origin::computed, "computed"},
        {Origin::estimate, "estimate"},
        {Origin::common_practice, "common practice"},
        {Origin::definition, "definition"},
    };
};

struct Provenance {
    Origin origin = Origin::estimate;
    std::string source; ///< key into docs/references.md, or a sentence; may be empty when measured
    bool library_default = false; ///< true when the shipped shelf filled it in, not the maker
    bool stand_in = false; ///< only fills a place that must not be empty: no answer rests on it, no report shows it
};

} // namespace lakebound
