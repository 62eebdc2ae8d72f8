#pragma once
// Provenance: where a number comes from, carried beside it to the last line of the report.

#include <string>

namespace lakebound {

/// How a figure came to be known. The words in files and reports are those of `origin_words`.
enum class Origin {
    measured,        ///< by the maker, on this jar or this bench
    published,       ///< read in the source named
    memory,          ///< value from memory of a handbook or standard that was not opened
    computed,        ///< computed from other figures
    estimate,        ///< a judgement; the uncertainty says how loose
    common_practice, ///< a fact of the trade, no source
    definition,      ///< true because we name or count it so
};
inline constexpr Origin all_origins[] = {Origin::measured, Origin::published,       Origin::memory,    Origin::computed,
                                         Origin::estimate, Origin::common_practice, Origin::definition};

struct Provenance {
    Origin origin = Origin::estimate;
    std::string source; ///< key into docs/references.md, or a sentence; may be empty when measured
    bool library_default = false; ///< true when the shipped shelf filled it in, not the maker
};

/// "measured", "published", "memory", "computed", "estimate", "common practice",
/// "definition".
constexpr const char* origin_words(Origin origin) noexcept {
    switch (origin) {
    case Origin::measured: return "measured";
    case Origin::published: return "published";
    case Origin::memory: return "memory";
    case Origin::computed: return "computed";
    case Origin::estimate: return "estimate";
    case Origin::common_practice: return "common practice";
    case Origin::definition: return "definition";
    }
    return "estimate";
}

} // namespace lakebound
