#pragma once
// Grind, separate, return: how long, how many rounds, how much is lost, and what it costs in hand time.
//
// Every way is the same loop: grind the mortar's load, take out what is fine enough, put the rest back.
// They differ in what the separation carries off and how long hands are at it.

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/breakage.hpp"
#include "lakebound/particle/first_order_grinding.hpp"
#include "lakebound/particle/levigation.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

namespace ratio_tag {
struct LoadExponent {
    static constexpr const char* name = "gain of an emptier mortar";
    static constexpr const char* range = "0 to 2";
    static constexpr double lowest = 0.0, highest = 2.0;
};
} // namespace ratio_tag
/// e of rate ~ (load / charge)^-e: 0 an emptier mortar grinds no faster, 1 twice as fast when half empty.
using LoadExponent = Ratio<ratio_tag::LoadExponent>;

/// The material and how it grinds. Masses are shares of the charge put into the mortar.
struct GrindLoad {
    BreakageModel model;
    std::vector<double> feed; ///< class fractions, coarse to fine, adding up to 1
    std::size_t limit = 1;    ///< class limit that is the target screen
    /// Rate ~ (load / charge)^-e: an emptier mortar grinds faster. 0: not at all; 1: in proportion.
    double load_exponent = 0.0;
};

/// A load that only knows its one-screen law: two classes, above and below the screen.
/// `since` is the time on the law's clock at which the plan begins.
/// Errors: DomainError when nothing is left on the screen then, or more than everything.
[[nodiscard]] GrindLoad one_screen_load(const FirstOrderLaw& law, Time since, Length screen, double load_exponent = 0.0);

enum class ScreeningAdvice { dry_sieving, wet_screening, levigation };
template <> struct WordTable<ScreeningAdvice> {
    static constexpr WordRow<ScreeningAdvice> rows[] = {
        {ScreeningAdvice::dry_sieving, "dry sieving"},
        {ScreeningAdvice::wet_screening, "wet screening"},
        {ScreeningAdvice::levigation, "levigation"},
    };
};

/// What one separation does.
struct Separation {
    ScreeningAdvice kind = ScreeningAdvice::dry_sieving;
    std::vector<double> carried; ///< share of each class that leaves as product, coarse to fine
    Time hands;                  ///< with hands on, once
    Time elapsed;                ///< from start to end, at least `hands`; drying wet oversize counts here
    Share loss;                  ///< of all that is handled, once: dust, cloth, brush
};

/// Sieving on the target screen, dry or wet: a share `efficiency` of what is finer goes through, nothing
/// coarser. `drying` is the wait before the rest can be ground again.
/// Range: efficiency above 0 to 1, drying 0 or more. Errors: DomainError, also for levigation.
[[nodiscard]] Separation sieving(const GrindLoad& load, ScreeningAdvice kind, Share efficiency, Time hands, Time drying,
                                 Share loss);

/// Levigation: each class is carried off as pour_off_recovery gives it over the class; `finest` bounds the
/// last class. `drying` is the wait before the rest can be ground again. Errors: as levigate.
[[nodiscard]] Separation levigating(const GrindLoad& load, const LevigationPlan& plan, const Slurry& slurry, Length finest,
                                    Time drying, Share loss);

/// One round of the loop; shares of the charge.
struct GrindRound {
    unsigned number = 1;
    Time grind;
    double load = 0.0;    ///< in the mortar at its beginning
    double through = 0.0; ///< product of this round
    double lost = 0.0;    ///< at this round's separation
    double residue = 0.0; ///< above the target screen, returned to the mortar
};

struct GrindRun {
    std::vector<GrindRound> rounds;
    std::vector<double> product;                     ///< class masses that came through, all rounds
    std::vector<double> left;                        ///< class masses in the mortar at the end
    double through = 0.0, remains = 0.0, lost = 0.0; ///< with 1 = through + remains + lost
    double residue = 0.0;                            ///< of which above the target screen at the end
    Time grinding;                                   ///< time with the pestle
    Time hands;                                      ///< grinding and separations
    Time elapsed;
    bool reached = false; ///< residue is at or below the target
};

/// What a run makes of a charge.
struct RunMasses {
    Mass through, lost, remains;
};
[[nodiscard]] inline RunMasses masses_of(const GrindRun& run, Mass charge) {
    return {run.through * charge, run.lost * charge, run.remains * charge};
}

struct GrindTarget {
    double residue = 0.01; ///< stop when at most this share of the charge lies above the screen
    unsigned most_rounds = 60;
    bool separate_first = false; ///< take out what is already fine before the first grind
};

/// Rounds of one length until the target is reached or the rounds run out. Masses add up to 1e-12.
/// Range: cycle above 0; target above 0 and below 1. Errors: DomainError.
[[nodiscard]] GrindRun run_rounds(const GrindLoad& load, const Separation& separation, Time cycle, const GrindTarget& target);

/// One grind without separation until the residue is on target, then one separation.
/// Errors: DomainError when it is not reached in 1000 h.
[[nodiscard]] GrindRun one_long_grind(const GrindLoad& load, const Separation& separation, const GrindTarget& target);

struct GrindPlan {
    ScreeningAdvice by = ScreeningAdvice::dry_sieving; ///< the separation
    bool in_rounds = true;                             ///< else one long grind
    Time cycle; ///< of each round
    GrindRun run;
};

/// "dry sieving in rounds", "one grind, then levigation".
[[nodiscard]] std::string plan_words(const GrindPlan& plan);

struct CycleSearch {
    Time shortest = minutes(1);
    Time longest = minutes(60);
    std::size_t points = 400; ///< cycle lengths tried, evenly on a logarithmic scale; up to 100 000
};
/// The cycle with the least hand time among those that reach the target; the fewest rounds among equals.
/// Errors: DomainError when none reaches it.
[[nodiscard]] GrindPlan best_rounds(const GrindLoad& load, const Separation& separation, const GrindTarget& target,
                                    const CycleSearch& search = {});

struct GrindComparison {
    std::vector<GrindPlan> plans;          ///< those that reach the target, least hand time first
    std::vector<std::string> out_of_reach; ///< ways that do not, with the reason
    std::string recommendation;            ///< one sentence
};
/// For each separation, its best rounds and one long grind; the first of `plans` is recommended.
/// Errors: DomainError when no way reaches the target.
[[nodiscard]] GrindComparison compare_grinding(const GrindLoad& load, std::span<const Separation> separations,
                                               const GrindTarget& target, const CycleSearch& search = {});

} // namespace lakebound
