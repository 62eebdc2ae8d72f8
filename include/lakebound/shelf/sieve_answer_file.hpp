#pragma once
// What lakebound-sieve answers in JSON, read back as the sieve test that it answers.

#include "lakebound/export.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The schema_version that is understood.
inline constexpr int sieve_answer_version = 2;

/// True for an answer in JSON, of whatever kind: it says the version of its schema, which no file of a maker does.
[[nodiscard]] bool is_answer(const Document& document);

/// The tree that the same test would have as a file of kind `sieve test`, every value at its own place in the
/// JSON, so that one reader checks both. Screens, masses, method, charge, scale step, grinding time and density are
/// taken over; what was computed from them is not, and is computed anew. Throws InputError: kind-wrong for the
/// answer to another question, schema-version, value-shape.
[[nodiscard]] Document sieve_test_of_answer(Document answer);

} // namespace lakebound
