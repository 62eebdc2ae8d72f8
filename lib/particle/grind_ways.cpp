#include "grind_parts.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {

namespace {

using detail::Analysed;
using detail::range_of;

constexpr double never = 1e6; // rounds: not reached in those that are looked at

GrindLoad law_load(const GrindAnswer& answer, double rate, double cushioning, double exponent) {
    GrindLoad load;
    const Length screen = answer.question.target.residue_screen;
    load.model.class_sizes = {screen * 2.0, screen};
    load.model.selection = {BreakageRate::from_value(rate), 0.0};
    load.model.cushioning = cushioning;
    load.feed = {answer.residue_now, 1.0 - answer.residue_now}; // what lies in the mortar now was measured
    load.limit = 1;
    load.load_exponent = exponent;
    return load;
}

GrindLoad balance_load(const GrindAnswer& answer, const Analysed& data, BreakageModel model, double exponent) {
    GrindLoad load;
    load.model = std::move(model);
    load.feed = data.tests.back().fractions;
    load.limit = class_limit(load.model, answer.question.target.residue_screen);
    load.load_exponent = exponent;
    return load;
}

GrindLoad load_now(const GrindAnswer& answer, const Analysed& data, double exponent) {
    if (!answer.fit) return law_load(answer, answer.law->rate.value(), answer.cushioning, exponent);
    return balance_load(answer, data, answer.fit->model, exponent);
}

/// Mortars that the tests allow, each with an exponent that the habits allow.
std::vector<GrindLoad> loads_allowed(const GrindAnswer& answer, const Analysed& data) {
    constexpr std::size_t wanted = 100;
    const auto& habit = answer.question.habits.emptier_is_faster;
    const bool said = answer.question.say.emptier_is_faster.has_value();
    RandomEngine engine(20260104);
    const auto exponent = [&] {
        const double spread = said ? 0.0 : habit.standard_uncertainty().value();
        return std::clamp(answer.emptier_is_faster.value.value() + spread * standard_normal(engine), 0.0, 2.0);
    };
    std::vector<GrindLoad> loads;
    if (answer.fit) {
        const auto& draws = answer.fit->draws;
        const std::size_t step = std::max<std::size_t>(1, draws.size() / wanted);
        for (std::size_t i = 0; i < draws.size(); i += step)
            loads.push_back(balance_load(answer, data, drawn_model(*answer.fit, draws[i]), exponent()));
    } else {
        const auto& draws = answer.law->draws;
        const std::size_t step = std::max<std::size_t>(1, draws.size() / wanted);
        for (std::size_t i = 0; i < draws.size(); i += step)
            if (draws[i].rate > 0.0)
                loads.push_back(law_load(answer, draws[i].rate, draws[i].cushioning, exponent()));
    }
    return loads;
}

std::vector<Separation> separations(const GrindAnswer& answer, const GrindLoad& load) {
    const auto& habits = answer.question.habits;
    const auto& say = answer.question.say;
    const auto& target = answer.question.target;
    const Time drying = say.drying.value_or(habits.drying.value());
    const Share loss = answer.loss.value;
    std::vector<Separation> ways;
    const auto advice = screening_advice(target.residue_screen, target);
    if (advice == ScreeningAdvice::dry_sieving)
        ways.push_back(sieving(load, ScreeningAdvice::dry_sieving, habits.dry_efficiency.value(),
                               say.handling.value_or(habits.dry_handling.value()), Time{}, loss));
    if (advice != ScreeningAdvice::levigation)
        ways.push_back(sieving(load, ScreeningAdvice::wet_screening, habits.wet_efficiency.value(),
                               say.handling.value_or(habits.wet_handling.value()), drying, loss));
    const Slurry slurry{answer.density.value, water_at(answer.question.water), habits.solids.value()};
    const LevigationHandling handling{habits.fill_and_stir.value(), habits.pour.value()};
    const Length depth = habits.water_depth.value();
    const auto plan =
        plan_levigation(target.residue_screen, depth, habits.draw.value().value() * depth, habits.refills + 1, slurry,
                        handling);
    const Length finest = std::min(micrometres(1.0), 0.1 * target.residue_screen);
    ways.push_back(levigating(load, plan, slurry, finest, drying, loss));
    return ways;
}

std::size_t grinds_in(const GrindRun& run, bool separate_first) {
    return run.rounds.size() - (separate_first ? 1U : 0U);
}

/// Rounds of this length in every mortar that the tests allow, of so many at the most.
RoundsNeeded rounds_needed(std::vector<double> counts, double most) {
    const auto quantile = [&](double p) { return sample_quantile(counts, p); };
    const double low = quantile(0.05), high = quantile(0.95);
    RoundsNeeded needed{static_cast<unsigned>(std::min(low, most)), std::nullopt};
    if (high <= most) needed.high = static_cast<unsigned>(high);
    return needed;
}

double rounds_in(const GrindLoad& load, const GrindWay& way, double allowed) {
    const auto run = run_rounds(load, way.separation, way.plan.cycle, {allowed, most_grinding_rounds, way.separate_first});
    return run.reached ? static_cast<double>(grinds_in(run, way.separate_first)) : never;
}

/// Share of the charge in the mortar after so many rounds, whether or not they are enough.
double stays_after(const GrindLoad& load, const GrindWay& way, unsigned rounds) {
    const GrindTarget target{1e-300, rounds, way.separate_first}; // which stops no run
    return run_rounds(load, way.separation, way.plan.cycle, target).remains;
}

void bound_rounds(GrindWay& way, std::span<const GrindLoad> loads, double allowed) {
    if (!way.plan.in_rounds || loads.empty()) return;
    std::vector<double> counts, stays;
    for (const auto& load : loads) {
        counts.push_back(rounds_in(load, way, allowed));
        stays.push_back(stays_after(load, way, 2));
    }
    way.needed = rounds_needed(std::move(counts), most_grinding_rounds);
    if (grinds_of(way) > 2) way.stays_after_two = range_of(std::move(stays));
}

/// The exponent at which this mortar leaves that share after so many rounds; the more an emptier mortar gains,
/// the less stays.
double exponent_of(GrindLoad load, const GrindWay& way, unsigned rounds, double stays, bool& beyond) {
    double low = 0.0, high = 2.0;
    const auto left = [&](double exponent) {
        load.load_exponent = exponent;
        return stays_after(load, way, rounds);
    };
    if (stays >= left(low)) return beyond = stays > 1.02 * left(low), low;
    if (stays <= left(high)) return beyond = stays < 0.98 * left(high), high;
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        (left(middle) > stays ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

void go_on_from_weighing(GrindAnswer& answer, const Analysed& data, std::vector<GrindLoad> loads) {
    const auto& weighed = *answer.question.say.weighed;
    const double allowed = answer.question.target.allowed_residue.value().value();
    const double stays = weighed.stays / answer.charge;
    if (!(stays < 1.0))
        throw DomainError("mass that stays", quantity_text(weighed.stays, "g"),
                          "below the charge of the last sieve test, " + quantity_text(answer.charge, "g"),
                          "weigh what goes back to the mortar, dry, and grind the charge of the test");
    const auto plan = std::find_if(answer.ways.begin(), answer.ways.end(), [&](const GrindWay& way) {
        return way.plan.in_rounds && !way.own && (!weighed.by || way.separation.kind == *weighed.by);
    });
    if (plan == answer.ways.end())
        throw DomainError("rounds that were weighed", "none of the plan", "rounds of a way that the plan names",
                          "name the way as the plan does: dry, wet or levigated");
    RoundsLeft left;
    left.weighed = weighed;
    left.way = *plan;
    left.way.plan.cycle = weighed.cycle;
    auto load = load_now(answer, data, 0.0);
    left.exponent = exponent_of(load, left.way, weighed.rounds, stays, left.beyond_model);
    load.load_exponent = left.exponent;
    left.way.plan.run =
        run_rounds(load, left.way.separation, weighed.cycle, {allowed, most_grinding_rounds, left.way.separate_first});
    const auto more = [&](double all) { return std::max(0.0, all - weighed.rounds); };
    if (left.way.plan.run.reached) left.more = static_cast<unsigned>(more(rounds_in(load, left.way, allowed)));
    RandomEngine engine(20260105);
    const double doubt =
        sieving_deviation(answer.question.habits.sieving_repeats_to.value(), stays);
    std::vector<double> counts;
    for (auto& drawn : loads) {
        bool ignored = false;
        const double seen = std::clamp(stays + doubt * standard_normal(engine), 1e-6, 1.0);
        drawn.load_exponent = exponent_of(drawn, left.way, weighed.rounds, seen, ignored);
        counts.push_back(more(rounds_in(drawn, left.way, allowed)));
    }
    left.range = rounds_needed(std::move(counts), more(most_grinding_rounds));
    answer.rounds_left = std::move(left);
}

/// Rounds of whole minutes, which a kitchen clock can tell: the better of the two beside the best.
GrindPlan in_whole_minutes(const GrindLoad& load, const Separation& separation, const GrindTarget& target,
                           GrindPlan plan) {
    std::optional<GrindPlan> best;
    for (const double m : {std::floor(in_minutes(plan.cycle)), std::ceil(in_minutes(plan.cycle))}) {
        if (!(m >= 1.0)) continue;
        auto run = run_rounds(load, separation, minutes(m), target);
        if (run.reached && (!best || run.hands < best->run.hands))
            best = GrindPlan{plan.by, true, minutes(m), std::move(run)};
    }
    return best ? *best : plan;
}

void compare_ways(GrindAnswer& answer, const GrindLoad& load, Progress progress) {
    const double allowed = answer.question.target.allowed_residue.value().value();
    const auto& say = answer.question.say;
    const auto ways = separations(answer, load);
    double done = 0.7;
    for (const auto& separation : ways) {
        std::optional<GrindWay> rounds;
        std::string reason;
        for (const bool first : {false, true}) {
            const GrindTarget target{allowed, most_grinding_rounds, first};
            try {
                auto plan = in_whole_minutes(load, separation, target, best_rounds(load, separation, target));
                if (!rounds || plan.run.hands < rounds->plan.run.hands)
                    rounds = GrindWay{std::move(plan), separation, first, false, {}, {}};
            } catch (const DomainError& error) {
                reason = error.what();
            }
            if (say.cycle) {
                auto run = run_rounds(load, separation, *say.cycle, target);
                if (run.reached && !first)
                    answer.ways.push_back(
                        {{separation.kind, true, *say.cycle, std::move(run)}, separation, first, true, {}, {}});
                else if (!first)
                    answer.out_of_reach.push_back(std::string(word_of(separation.kind)) +
                                                   " in rounds of your length: not reached in 60");
            }
        }
        if (rounds)
            answer.ways.push_back(std::move(*rounds));
        else
            answer.out_of_reach.push_back(std::string(word_of(separation.kind)) + " in rounds: " + reason);
        try {
            auto run = one_long_grind(load, separation, {allowed, most_grinding_rounds, false});
            const Time time = run.grinding;
            answer.ways.push_back(
                {{separation.kind, false, time, std::move(run)}, separation, false, false, {}, {}});
        } catch (const DomainError& error) {
            answer.out_of_reach.push_back("one grind, then " + std::string(word_of(separation.kind)) + ": " + error.what());
        }
        progress(done += 0.3 / static_cast<double>(ways.size()));
    }
    std::stable_sort(answer.ways.begin(), answer.ways.end(),
                     [](const GrindWay& a, const GrindWay& b) { return a.plan.run.hands < b.plan.run.hands; });
}

} // namespace

namespace detail {

std::optional<CoverageInterval> range_of(std::vector<double> values) {
    if (values.size() < 20) return std::nullopt;
    return summarise(std::move(values), grind_coverage).symmetric;
}

void plan_ways(GrindAnswer& answer, const Analysed& data, Progress progress) {
    compare_ways(answer, load_now(answer, data, answer.emptier_is_faster.value.value()), progress);
    auto loads = loads_allowed(answer, data);
    const double allowed = answer.question.target.allowed_residue.value().value();
    for (auto& way : answer.ways)
        if (&way == &answer.ways.front() || way.own) bound_rounds(way, loads, allowed);
    if (answer.question.say.weighed) go_on_from_weighing(answer, data, std::move(loads));
}

} // namespace detail

std::optional<MassesThatStay> masses_after_two(const GrindWay& way, Mass charge) {
    if (!way.stays_after_two) return std::nullopt;
    return MassesThatStay{way.stays_after_two->low * charge, way.stays_after_two->high * charge};
}

bool fine_part_in_water(const GrindWay& way) noexcept {
    return way.separation.kind != ScreeningAdvice::dry_sieving;
}

std::size_t grinds_of(const GrindWay& way) noexcept { return grinds_in(way.plan.run, way.separate_first); }

} // namespace lakebound
