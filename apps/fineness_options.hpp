#pragma once
// What lakebound-sieve and lakebound-grind ask alike: which test, and how fine is fine enough.

#include <optional>
#include <string>

#include "common/command_line.hpp"
#include "common/quantity_option.hpp"
#include "common/streams.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/record_places.hpp"

namespace lakebound {

struct FinenessOptions {
    std::optional<std::string> family, target, residue;
};

/// --family, --target, --residue, as a group of the help.
void add_fineness_options(CommandLine& line, FinenessOptions& options);

/// The target of the family, or of the screen given; --residue replaces what may stay on it. Nothing when
/// neither is named. Throws InputError.
std::optional<FinenessTarget> find_target(const FinenessOptions& options, Library& library);

/// The sieve test at the path, or on the input stream for "-".
PlacedSieveTest read_sieve_test_or_input(const std::string& path, Streams& streams);

/// A size as --cut and --target take it: a length, or a screen such as "No. 325". Throws InputError.
Length size_option(const std::string& option, const std::string& text);

/// The size of a grain, above 0: a length, for which um is proposed when the unit is missing. Throws
/// InputError.
Length grain_size_option(const std::string& option, const std::string& text);

} // namespace lakebound
