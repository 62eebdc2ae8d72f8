#pragma once
// How long to grind, in how many rounds, through which screen, what is left, and when to stop: a plan
// from the maker's own sieve tests.
// Example: docs/examples/grind_a_powder.cpp.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/estimate/function_view.hpp"
#include "lakebound/export.hpp"
#include "lakebound/particle/cushioned_law.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/particle/grind_plan.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/particle/sieve_record.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What stayed in the mortar, weighed dry after some rounds of the plan: it tells what an emptier mortar gains.
struct WeighedStay {
    Mass stays;
    unsigned rounds = 1; ///< grinds, each followed by its separation
    Time cycle;          ///< of each
    std::optional<ScreeningAdvice> by; ///< how it was separated; nothing: as the plan recommends
};

/// What the maker says in place of the habits of the shelf.
struct GrindSay {
    std::optional<Time> handling; ///< hands per separation, dry or wet
    std::optional<Time> drying;
    std::optional<Share> loss; ///< per separation; else as the tests lost
    std::optional<LoadExponent> emptier_is_faster;
    std::optional<Time> cycle;           ///< the maker's own round, shown beside the best
    std::optional<MassDensity> density;  ///< of the grains, for levigation; else as the tests say
    std::optional<Length> largest_grain; ///< else twice the coarsest screen
    std::optional<WeighedStay> weighed;
};

struct GrindQuestion {
    std::vector<SieveRecord> tests; ///< each with its grinding time, at different times
    FinenessTarget target;
    PowderHabits habits;
    GrindSay say;
    MassDensity usual_density; ///< of the grains, where neither the maker nor a test says
    Temperature water{}; ///< in which grains are parted
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
    std::vector<double> passing; ///< of each screen of the model, coarse to fine
    double residue = 0.0;        ///< over the target screen
    CoverageInterval interval;   ///< 90 %
};

/// Rounds that are looked at, in all; an estimate of what a person would ever do.
inline constexpr unsigned most_grinding_rounds = 60;

/// How many rounds of one length, over what the tests and the emptier mortar leave open; 9 times in 10.
struct RoundsNeeded {
    unsigned low = 1;
    std::optional<unsigned> high; ///< nothing: more than most_grinding_rounds in all
};

struct GrindWay {
    GrindPlan plan;
    Separation separation;
    bool separate_first = false;
    bool own = false;                        ///< the round that the maker asked for
    std::optional<RoundsNeeded> needed;      ///< grinds; of the recommended rounds and the maker's own
    std::optional<CoverageInterval> stays_after_two; ///< share of the charge; 90 %
};

/// What stays of a charge after two rounds, 9 times in 10: few rounds are left at the low end, many at the high one.
struct MassesThatStay {
    Mass low, high;
};
/// Nothing where the way does not tell it.
[[nodiscard]] std::optional<MassesThatStay> masses_after_two(const GrindWay& way, Mass charge);

/// The rounds that are still to do, once what stayed was weighed.
struct RoundsLeft {
    WeighedStay weighed;
    GrindWay way;         ///< from the beginning, with what the weighing told
    double exponent = 0.0; ///< e of rate ~ (load / charge)^-e that the weighing tells
    bool beyond_model = false; ///< even e = 0 or 2 leaves another mass: charge, screen or rounds differ
    std::optional<unsigned> more; ///< nothing: not in most_grinding_rounds in all
    RoundsNeeded range;
};

struct GrindAnswer {
    GrindQuestion question; ///< tests in the order of their times
    std::vector<GrindTestRow> rows;
    GrindModel model = GrindModel::one_screen;
    std::string why_one_screen; ///< one sentence, without a full stop
    std::optional<BreakageFit> fit;
    std::optional<CoverageInterval> rate_per_minute, selection_exponent, breakage_exponent; ///< 90 %
    std::optional<CushionedLaw> law;
    double cushioning = 0.0;                          ///< c
    std::optional<CoverageInterval> cushioning_range; ///< 90 %
    std::vector<GrindLaterTest> later;
    bool slowing = false; ///< the tests say so beyond chance
    Mass charge;          ///< of the latest test, for masses in the plan
    Time now;             ///< grinding time of the latest test; plans begin here
    double residue_now = 0.0;
    bool fine_already = false;
    std::vector<Length> screens; ///< of the forecast
    std::vector<GrindForecast> forecast;
    bool forecast_far = false; ///< its last rows lie far_forecast times as far as the tests
    std::optional<PredictedTime> one_long_grind; ///< on the clock of the tests, 90 %
    Time long_grind_left;                        ///< of it, from the latest test; 0 when it is past
    std::string why_no_time;                     ///< when the target is out of reach of grinding alone
    Given<Share> loss;
    Given<MassDensity> density;
    Given<LoadExponent> emptier_is_faster;
    std::vector<GrindWay> ways; ///< that reach the target, least hand time first
    std::vector<std::string> out_of_reach;
    std::optional<RoundsLeft> rounds_left; ///< where what stayed was weighed
};

/// A forecast over more times the grinding that was tested is to be sieved half way (estimate).
inline constexpr double far_forecast = 3.0;

/// Told now and then how much of a long computation is done, 0 to 1.
using Progress = FunctionView<void(double)>;

/// Errors: RecordError for tests that cannot be compared or do not grow finer, a target that no screen of the
/// tests can see, and grains lighter than water; DomainError for what the question says beside them.
[[nodiscard]] GrindAnswer plan_grinding(GrindQuestion question, Progress progress);

/// True when what comes through is carried off by water, and must be caught and settled.
[[nodiscard]] bool fine_part_in_water(const GrindWay& way) noexcept;

/// Grinds of a way in rounds: its separations, less the one before the first.
[[nodiscard]] std::size_t grinds_of(const GrindWay& way) noexcept;

/// True when the answer is that grinding will not get there.
[[nodiscard]] bool will_not_get_there(const GrindAnswer& answer) noexcept;

} // namespace lakebound
