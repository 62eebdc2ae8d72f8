#pragma once
// A bath sheet in the order of the work, and where a bath stands, as pages and as JSON.

#include <string>

#include "lakebound/bath/bath_plan.hpp"
#include "lakebound/bath/bath_progress.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/paint/bench.hpp"

namespace lakebound {

/// bench: whose scales the masses are written for.
page::Page bath_page(const BathPlan& plan, const Bench& bench);

inline constexpr int bath_json_version = 1;
/// One document of kind "bath_plan"; docs/json.md.
std::string bath_json(const BathPlan& plan);

/// Where the bath stands by its readings. plan: it stands on.
page::Page bath_standing_page(const BathPlan& plan, const BathStanding& standing, const Bench& bench);
/// One document of kind "bath_standing"; docs/json.md.
std::string bath_standing_json(const BathStanding& standing);

} // namespace lakebound
