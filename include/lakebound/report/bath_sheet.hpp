#pragma once
// A bath sheet in the order of the work, and where a bath stands, as pages and as JSON.

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/bath/bath_jar.hpp"
#include "lakebound/bath/bath_plan.hpp"
#include "lakebound/bath/bath_progress.hpp"
#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/record/bath_story.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// bench: whose scales the masses are written for.
[[nodiscard]] page::Page bath_page(const BathPlan& plan, const Bench& bench);

inline constexpr int bath_json_version = 1;
/// One document of kind "bath_plan"; docs/json.md.
[[nodiscard]] std::string bath_json(const BathPlan& plan);

/// An entry of the record as it is shown.
struct BathLine {
    std::string name; ///< of its file
    std::chrono::sys_days day{};
    std::string what, reading, note;
};
/// What the record adds to where a bath stands, and the jar that came out.
struct BathTold {
    std::string bath;             ///< its name; empty without a record
    std::string asked_shelf;      ///< of folders that were named, and must be named again to find it: " --shelf reedmere"
    std::string kept, taken_back; ///< file of what was entered now, the last; name of what it takes back
    std::vector<std::string> entered; ///< what it tells, each
    std::vector<BathLine> lines;
    std::optional<DayRange> dry;
    std::string jar_file;
    std::optional<BathJar> jar;
};

/// Where the bath stands by its readings. plan: it stands on. After an entry only what it is about.
[[nodiscard]] page::Page bath_standing_page(const BathPlan& plan, const BathStanding& standing, const Bench& bench,
                                            const BathTold& told = {});
/// One document of kind "bath_standing"; docs/json.md.
[[nodiscard]] std::string bath_standing_json(const BathStanding& standing, const BathTold& told = {});
/// A bath's file was begun: what it is called, then its sheet.
[[nodiscard]] page::Page new_bath_page(const BathPlan& plan, const Bench& bench, const std::string& bath, const std::string& file);

} // namespace lakebound
