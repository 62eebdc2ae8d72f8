#pragma once
// A sieve test as a maker keeps it: the masses, and what has to be known to use them.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/sieve_series.hpp"
#include "lakebound/particle/sieve_test.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class SieveMethod {
    dry, ///< shaken through, the pan weighed
    wet, ///< washed through, only the dried residues weighed: what passed is charge less residues
};
template <> struct WordTable<SieveMethod> {
    static constexpr WordRow<SieveMethod> rows[] = {{SieveMethod::dry, "dry"}, {SieveMethod::wet, "wet"}};
};

struct SieveRecord {
    std::string id;   ///< file stem; "standard input" has none
    std::string path; ///< as typed, for messages
    std::string name;
    SieveMethod method = SieveMethod::dry;
    SieveTest test;                     ///< wet: the charge is there, and the pan is computed from it
    std::vector<Sieve> sieves;          ///< of test.screens, as the maker named them
    std::optional<Time> grinding_time;  ///< in the mortar before this test, from the beginning
    std::optional<MassDensity> density; ///< of the grains, for the surface estimate
    std::string note;
};

} // namespace lakebound
