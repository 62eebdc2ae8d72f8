#pragma once
// JSON of what the answers of batch and pvc share: films, pigments and what only one kind of paint has.

#include "json_pieces.hpp"
#include "lakebound/paint/chance.hpp"

namespace lakebound::json_pieces {

/// {k, pvc, cpvc, reduced_pvc, air_fraction} as plain numbers.
Json film_json(const FilmState& film);
/// The same with the standard uncertainties of the chance.
Json film_json(const FilmState& film, const BatchChance& chance);

/// What is known of a paint: a figure that is not is left out, and all that rests on it.
struct Known {
    bool oil_absorption = true, density = true;
};
Json pigments_json(const Recipe& recipe, Known known = {});
/// Adds `watercolour`, `oil` or `egg_tempera`.
void add_process(Json& json, const BatchRequest& request, const Batch& batch, Known known = {});

} // namespace lakebound::json_pieces
