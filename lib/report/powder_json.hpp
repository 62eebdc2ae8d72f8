#pragma once
// Pieces of JSON that the reports on powder share. Internal.

#include <optional>

#include "json_pieces.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/particle/size_fit.hpp"
#include "lakebound/report/powder_words.hpp"

namespace lakebound::powder_json {

using json_pieces::computed_json;
using json_pieces::envelope;
using json_pieces::Json;
using json_pieces::json_text;
using json_pieces::provenance_json;

/// with_loss: {low, high} of the share, where part of the charge was lost.
Json residue_json(const Residue& residue, const std::optional<LossBounds>& with_loss);
Json passing_json(const PassingAt& passing);
Json target_json(const FinenessTarget& target);
Json cautions_json(PowderWork work);

} // namespace lakebound::powder_json
