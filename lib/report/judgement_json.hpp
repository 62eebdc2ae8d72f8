#pragma once
// What every JSON document about a paint says of its judgement, its doubt and what to measure next: one
// spelling for the answers of batch and pvc.

#include "json_pieces.hpp"
#include "lakebound/paint/batch_subject.hpp"

namespace lakebound::json_pieces {

/// {amber_low, green_low, green_high, amber_high, provenance}
Json window_json(const Family& family);
/// Adds verdict, verdict_words, certainty and holds.
void add_judgement(Json& json, const Judgement& judgement, Process process);
/// Chances and budgets; those of PVC only when `with_pvc`, for a density that nobody knows says nothing.
Json chance_json(const BatchSubject& subject, bool with_pvc = true);
Json measure_next_json(const BatchSubject& subject);
/// Every figure that the library filled in.
Json library_figures_json(const BatchRequest& request);

} // namespace lakebound::json_pieces
