#pragma once
// How long to grind, in how many rounds, through which screen, what is left, and when to stop: a plan
// from the maker's own sieve tests. As text of 80 columns and as JSON.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/estimate/function_view.hpp"
#include "lakebound/particle/breakage_fit.hpp"
#include "lakebound/particle/fineness_of_grind.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/particle/grind_plan.hpp"
#include "lakebound/particle/sieve_record.hpp"
#include "lakebound/report/text_options.hpp"

namespace lakebound {

/// What the work at the mortar costs. All are estimates until the maker says otherwise.
struct GrindHabits {
    std::optional<Time> handling; ///< hands per separation; else 4 min dry, 10 min wet
    Time drying = hours(12.0);    ///< before wet oversize can be ground again; no hands on
    std::optional<Share> loss;    ///< per separation; else as the tests lost, or 1 %
    double load_exponent = 0.5;   ///< how much faster an emptier mortar grinds
    Share dry_efficiency = Share::of(0.90), wet_efficiency = Share::of(0.95);
    std::optional<Time> cycle;          ///< the maker's own round, shown beside the best
    std::optional<MassDensity> density; ///< of the grains, for levigation; else as the tests say, or 1.88 g/cm3
    Temperature water = degrees_celsius(20.0);
    std::optional<Length> largest_grain; ///< else twice the coarsest screen
};

struct GrindQuestion {
    std::vector<SieveRecord> tests; ///< each with its grinding time, at different times
    FinenessTarget target;
    GrindHabits habits;
};

enum class GrindModel { population_balance, one_screen };

struct GrindTestRow {
    std::string name;
    Time time;
    Residue residue; ///< over the target screen
    std::optional<Percentile> d50;
    std::optional<LossBounds> with_loss; ///< of the residue
};

/// A third or further test against what the first two foresee.
struct GrindLaterTest {
    Time time;
    double predicted = 0.0, observed = 0.0, deviations = 0.0;
    bool slowing = false, faster = false;
};

struct GrindForecast {
    Time time;
    std::vector<double> passing;              ///< of each screen of the model, coarse to fine
    double residue = 0.0;                     ///< over the target screen
    std::optional<CoverageInterval> interval; ///< 90 %; nothing once the grinding is slowing
};

/// The limits hold 9 times in 10 only while the grinding is not slowing; then `time` is the least.
struct GrindTime {
    Time time, low;
    std::optional<Time> high; ///< nothing: the tests cannot exclude that it is never reached
};

struct GrindWay {
    GrindPlan plan;
    Separation separation;
    bool separate_first = false;
    bool own = false; ///< the round that the maker asked for
};

struct GrindSubject {
    GrindQuestion question; ///< tests in the order of their times
    std::vector<GrindTestRow> rows;
    GrindModel model = GrindModel::one_screen;
    std::string why_one_screen; ///< one sentence, without a full stop
    std::optional<BreakageFit> fit;
    std::optional<CoverageInterval> rate_per_minute, selection_exponent, breakage_exponent; ///< 90 %
    std::optional<FirstOrderLaw> law;
    std::vector<GrindLaterTest> later;
    bool slowing = false;
    Mass charge; ///< of the latest test, for masses in the plan
    Time now;    ///< grinding time of the latest test; plans begin here
    double residue_now = 0.0;
    bool fine_already = false;
    std::vector<Length> screens; ///< of the forecast
    std::vector<GrindForecast> forecast;
    std::optional<GrindTime> one_long_grind; ///< on the clock of the tests
    std::string why_no_time;                 ///< when the target is out of reach of grinding alone
    Share loss;
    std::string loss_origin; ///< "as your tests lost", "as you say", "an estimate"
    MassDensity density;
    std::string density_origin;
    std::vector<GrindWay> ways; ///< that reach the target, least hand time first
    std::vector<std::string> out_of_reach;
};

/// Told now and then how much of a long computation is done, 0 to 1.
using Progress = FunctionView<void(double)>;

/// Errors: DomainError for tests that cannot be compared or do not grow finer, and a target that no screen
/// of the tests can see.
GrindSubject grind_subject(GrindQuestion question, Progress progress);

/// True when what comes through is carried off by water, and must be caught and settled.
bool fine_part_in_water(const GrindWay& way) noexcept;

/// True when the answer is that grinding will not get there.
bool will_not_get_there(const GrindSubject& subject) noexcept;

std::string grind_text(const GrindSubject& subject, const TextOptions& options = {});

inline constexpr int grind_json_version = 1;
/// One document of kind "grinding_plan"; docs/json.md.
std::string grind_json(const GrindSubject& subject);

/// Readings of the gauge while mulling: when it stops to pay.
struct MullQuestion {
    std::vector<FinenessReading> readings;
    std::optional<Length> target; ///< grain wanted in the paint
};
struct MullSubject {
    MullQuestion question;
    Mulling mulling;
    Time stop;                          ///< after the first reading: the next 10 min gain less than 2 um
    std::optional<Time> reached;        ///< when the target is reached
    bool out_of_reach = false;          ///< the target lies below what mulling can do
    Time so_far;                        ///< of mulling, to the last reading
    Time more_to_stop;                  ///< from the last reading, 0 when it is past
    std::optional<Time> more_to_target; ///< the same, in whole minutes upward
};
/// Errors: DomainError as fit_mulling.
MullSubject mull_subject(const MullQuestion& question);
std::string mull_text(const MullSubject& subject, const TextOptions& options = {});
/// One document of kind "mulling".
std::string mull_json(const MullSubject& subject);

} // namespace lakebound
