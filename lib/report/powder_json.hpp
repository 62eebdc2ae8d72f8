#pragma once
// Pieces of JSON that the reports on powder share. Internal.

#include <optional>

#include <nlohmann/json.hpp>

#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/particle/size_fit.hpp"
#include "lakebound/report/powder_words.hpp"

namespace lakebound::powder_json {

using Json = nlohmann::ordered_json;

Json provenance(const Provenance& from);
/// {value, standard_uncertainty, provenance: computed}
Json computed(double value, double standard_uncertainty);
/// with_loss: {low, high} of the share, where part of the charge was lost.
Json residue_json(const Residue& residue, const std::optional<LossBounds>& with_loss);
Json passing_json(const PassingAt& passing);
Json target_json(const FinenessTarget& target);
Json cautions_json(PowderWork work);
const char* reach_key(Reach reach) noexcept;
const char* model_key(SizeModel model) noexcept;

} // namespace lakebound::powder_json
