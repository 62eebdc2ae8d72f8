#pragma once
// What lakebound-sieve and lakebound-grind ask alike: which test, and how fine is fine enough.

#include <string>

#include "common/command_line.hpp"
#include "common/streams.hpp"
#include "lakebound/shelf/record_places.hpp"
#include "lakebound/shelf/typed_fineness.hpp"
#include "lakebound/shelf/typed_quantity.hpp"

namespace lakebound {

/// --family, --target, --residue, as a group of the help.
void add_fineness_options(CommandLine& line, FinenessTexts& options);

/// The sieve test at the path, or on the input stream for "-".
PlacedSieveTest read_sieve_test_or_input(const std::string& path, const Library& library, Streams& streams);

} // namespace lakebound
