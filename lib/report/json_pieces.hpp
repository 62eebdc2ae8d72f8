#pragma once
// Pieces that every JSON report shares.

#include <nlohmann/json.hpp>

#include "lakebound/estimate/estimate.hpp"

namespace lakebound::json_pieces {

using Json = nlohmann::ordered_json;

/// What every document begins with: the version of its schema, and its kind. The schema is
/// formulations/schema/answers/<kind>.schema.json.
inline Json envelope(const char* kind, int version) { return {{"schema_version", version}, {"kind", kind}}; }

/// The document as text; what a person typed and is no UTF-8 shows as U+FFFD.
inline std::string json_text(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

inline Json provenance_json(const Provenance& from) {
    Json json{{"origin", word_of(from.origin)}};
    if (!from.source.empty()) json["source"] = from.source;
    json["library_default"] = from.library_default;
    return json;
}

/// in_unit must be linear: it turns the standard uncertainty too.
template <class Q, class Getter> Json estimate_json(const Estimate<Q>& estimate, Getter in_unit) {
    const double value = in_unit(estimate.value());
    const double canonical_value = canonical(estimate.value());
    const double u = canonical_value == 0.0 ? 0.0 : value / canonical_value * canonical(estimate.standard_uncertainty());
    return {
        {"value", value}, {"standard_uncertainty", u}, {"provenance", provenance_json(estimate.provenance())}};
}

inline Json computed_json(double value, double u) {
    return {{"value", value},
            {"standard_uncertainty", u},
            {"provenance", provenance_json({Origin::computed, "", false})}};
}

} // namespace lakebound::json_pieces
