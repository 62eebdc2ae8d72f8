#include "lakebound/particle/grind_plan.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "class_fractions.hpp"
#include "lakebound/quantity/error.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

void check(const GrindLoad& load) {
    const std::size_t n = load.model.class_sizes.size();
    if (load.feed.size() != n)
        throw DomainError("class fractions", std::to_string(load.feed.size()),
                          std::to_string(n) + ", one per class");
    for (const double f : load.feed)
        if (!(f >= 0.0)) throw_out_of_range("class fraction", f, "", "0 or more");
    check_sum(load.feed);
    (void)residue_above(load.feed, load.limit); // refuses a limit that parts no classes
    if (!(load.load_exponent >= 0.0 && load.load_exponent <= 2.0))
        throw_out_of_range("load exponent", load.load_exponent, "", "0 to 2");
}

void check(const GrindLoad& load, const Separation& s) {
    if (s.carried.size() != load.feed.size())
        throw DomainError("shares carried off", std::to_string(s.carried.size()),
                          std::to_string(load.feed.size()) + ", one per class");
    for (const double c : s.carried)
        if (!(c >= 0.0 && c <= 1.0)) throw_out_of_range("share carried off", c, "", "0 to 1");
    if (!(in_seconds(s.hands) >= 0.0))
        throw_out_of_range("handling time", in_minutes(s.hands), "min", "0 or more");
    if (!(s.elapsed >= s.hands))
        throw_out_of_range("time of a separation", in_minutes(s.elapsed), "min", "at least its handling time");
    if (!(s.loss.value() < 1.0))
        throw_out_of_range("loss at a separation", s.loss.value() * 100.0, "%", "0 to below 100 %");
}

void check(const GrindTarget& target) {
    if (!(target.residue > 0.0 && target.residue < 1.0))
        throw_out_of_range("target residue", target.residue * 100.0, "%", "above 0 and below 100 %");
    if (target.most_rounds < 1 || target.most_rounds > 1000)
        throw_out_of_range("number of rounds", static_cast<double>(target.most_rounds), "", "1 to 1000");
}

/// The mortar between rounds.
class Mortar {
public:
    Mortar(const GrindLoad& load, const Separation& separation, const GrindTarget& target)
        : load_(load), separation_(separation), target_(target), masses_(load.feed) {
        const double sum = sum_of(masses_);
        for (double& m : masses_)
            m /= sum; // the charge is 1 to the last bit we can
        run_.product.assign(masses_.size(), 0.0);
    }
    double residue() const { return residue_above(masses_, load_.limit); }
    bool done() const { return residue() <= target_.residue * (1.0 + 1e-12); }

    void grind(const PopulationBalance& balance, Time time) {
        pending_.grind = time;
        balance.grind(masses_, time * std::pow(sum_of(masses_), -load_.load_exponent)); // an emptier one is faster
        run_.grinding += time;
        run_.hands += time;
        run_.elapsed += time;
    }
    void separate() {
        GrindRound round = pending_;
        pending_ = {};
        round.load = sum_of(masses_); // grinding neither makes nor loses any
        const double kept = 1.0 - separation_.loss.value();
        for (std::size_t i = 0; i < masses_.size(); ++i) {
            const double lost = masses_[i] * separation_.loss.value(), handled = masses_[i] * kept;
            const double out = handled * separation_.carried[i];
            round.lost += lost;
            round.through += out;
            run_.product[i] += out;
            masses_[i] = handled - out;
        }
        round.residue = residue();
        round.number = static_cast<unsigned>(run_.rounds.size()) + 1;
        run_.lost += round.lost;
        run_.through += round.through;
        run_.hands += separation_.hands;
        run_.elapsed += separation_.elapsed;
        run_.rounds.push_back(round);
    }
    GrindRun finish() {
        run_.residue = residue();
        run_.reached = done();
        run_.remains = sum_of(masses_);
        run_.left = std::move(masses_);
        return std::move(run_);
    }

private:
    const GrindLoad& load_;
    const Separation& separation_;
    const GrindTarget& target_;
    std::vector<double> masses_;
    GrindRound pending_;
    GrindRun run_;
};

GrindRun run(const GrindLoad& load, const PopulationBalance& balance, const Separation& separation, Time cycle,
             const GrindTarget& target) {
    Mortar mortar(load, separation, target);
    if (target.separate_first) mortar.separate();
    for (unsigned i = 0; i < target.most_rounds && !mortar.done(); ++i) {
        mortar.grind(balance, cycle);
        mortar.separate();
    }
    return mortar.finish();
}

std::string rounds_text(std::size_t count) { return std::to_string(count) + (count == 1 ? " round" : " rounds"); }
std::string minutes_text(Time t) { return fixed_text(in_minutes(t), in_minutes(t) < 10 ? 1 : 0) + " min"; }

} // namespace

GrindLoad one_screen_load(const FirstOrderLaw& law, Time since, Length screen, double load_exponent) {
    if (!(in_metres(screen) > 0.0)) throw_out_of_range("screen", in_micrometres(screen), "um", "above 0");
    if (!(in_seconds(since) >= 0.0)) throw_out_of_range("grinding time", in_minutes(since), "min", "0 or more");
    // The line may promise more than everything at early times: it holds only from the first test on.
    const double R = std::exp(law.log_initial_residue - law.rate.value() * in_seconds(since));
    if (!(R > 0.0 && R <= 1.0))
        throw_out_of_range("residue where the plan begins", R * 100.0, "%", "above 0, at most 100 %");
    GrindLoad load;
    load.model.class_sizes = {screen * 2.0, screen};
    load.model.selection = {law.rate, 0.0};
    load.feed = {R, 1.0 - R};
    load.limit = 1;
    load.load_exponent = load_exponent;
    return load;
}

Separation sieving(const GrindLoad& load, ScreeningAdvice kind, Share efficiency, Time hands, Time drying,
                   Share loss) {
    check(load);
    if (kind == ScreeningAdvice::levigation)
        throw DomainError("way to sieve", "levigation", "dry sieving or wet screening");
    if (!(efficiency.value() > 0.0))
        throw DomainError("sieving efficiency", "0 %", "above 0 to 100 %");
    if (!(in_seconds(drying) >= 0.0)) throw_out_of_range("drying time", in_minutes(drying), "min", "0 or more");
    Separation s;
    s.kind = kind;
    s.carried.assign(load.feed.size(), 0.0);
    for (std::size_t i = load.limit; i < s.carried.size(); ++i)
        s.carried[i] = efficiency.value();
    s.hands = hands;
    s.elapsed = hands + drying;
    s.loss = loss;
    return s;
}

Separation levigating(const GrindLoad& load, const LevigationPlan& plan, const Slurry& slurry, Length finest,
                      Time drying, Share loss) {
    check(load);
    if (!(in_seconds(drying) >= 0.0)) throw_out_of_range("drying time", in_minutes(drying), "min", "0 or more");
    const auto& sizes = load.model.class_sizes;
    std::vector<SizeClass> classes;
    for (std::size_t i = 0; i < sizes.size(); ++i)
        classes.push_back({i + 1 < sizes.size() ? sizes[i + 1] : finest, sizes[i], MassFraction::of(1.0)});
    const auto result = levigate(classes, plan.how, slurry);
    Separation s;
    s.kind = ScreeningAdvice::levigation;
    for (const auto& c : result.classes)
        s.carried.push_back(c.poured);
    s.hands = plan.hands;
    s.elapsed = plan.elapsed + drying;
    s.loss = loss;
    return s;
}

std::string plan_words(const GrindPlan& plan) {
    const std::string by(word_of(plan.by));
    return plan.in_rounds ? by + " in rounds" : "one grind, then " + by;
}

GrindRun run_rounds(const GrindLoad& load, const Separation& separation, Time cycle,
                    const GrindTarget& target) {
    check(load);
    check(load, separation);
    check(target);
    if (!(in_seconds(cycle) > 0.0))
        throw_out_of_range("length of a round", in_minutes(cycle), "min", "above 0");
    return run(load, PopulationBalance(load.model), separation, cycle, target);
}

GrindRun one_long_grind(const GrindLoad& load, const Separation& separation, const GrindTarget& target) {
    check(load);
    check(load, separation);
    check(target);
    const PopulationBalance balance(load.model);
    Mortar mortar(load, separation, target);
    const Time time = time_to_residue(balance, load.feed, load.limit, target.residue);
    mortar.grind(balance, time); // of the whole charge
    mortar.separate();
    return mortar.finish();
}

GrindPlan best_rounds(const GrindLoad& load, const Separation& separation, const GrindTarget& target,
                      const CycleSearch& search) {
    check(load);
    check(load, separation);
    check(target);
    if (!(in_seconds(search.shortest) > 0.0 && search.longest >= search.shortest))
        throw DomainError("cycle lengths to try",
                          minutes_text(search.shortest) + " to " + minutes_text(search.longest),
                          "above 0, rising");
    if (search.points < 1 || search.points > 100000)
        throw_out_of_range("cycle lengths to try", static_cast<double>(search.points), "", "1 to 100 000");
    const PopulationBalance balance(load.model);
    const double low = std::log(in_seconds(search.shortest)), high = std::log(in_seconds(search.longest));
    std::optional<GrindPlan> best;
    double least_residue = 1.0;
    for (std::size_t i = 0; i < search.points; ++i) {
        const double share =
            search.points > 1 ? static_cast<double>(i) / static_cast<double>(search.points - 1) : 0.0;
        const Time cycle = seconds(std::exp(low + share * (high - low)));
        GrindRun run_of_cycle = run(load, balance, separation, cycle, target);
        least_residue = std::min(least_residue, run_of_cycle.residue);
        if (!run_of_cycle.reached) continue;
        const bool fewer = best && run_of_cycle.rounds.size() < best->run.rounds.size();
        if (!best || run_of_cycle.hands < best->run.hands * (fewer ? 1.0 + 1e-9 : 1.0))
            best = GrindPlan{separation.kind, true, cycle, std::move(run_of_cycle)};
    }
    if (!best)
        throw DomainError("residue after " + rounds_text(target.most_rounds),
                          fixed_text(least_residue * 100.0, 2) + " % at best",
                          "at most " + fixed_text(target.residue * 100.0, 2) + " %",
                          "allow more or longer rounds");
    return *best;
}

GrindComparison compare_grinding(const GrindLoad& load, std::span<const Separation> separations,
                                 const GrindTarget& target, const CycleSearch& search) {
    if (separations.empty()) throw DomainError("ways to separate", "none", "one at least");
    GrindComparison out;
    const auto attempt = [&](const GrindPlan& way, auto&& make) {
        try {
            out.plans.push_back(make());
        } catch (const DomainError& e) {
            out.out_of_reach.push_back(plan_words(way) + ": " + e.what());
        }
    };
    check(load);
    check(target);
    for (const auto& s : separations) {
        check(load, s);
        attempt({s.kind, true, {}, {}}, [&] { return best_rounds(load, s, target, search); });
        attempt({s.kind, false, {}, {}}, [&] {
            GrindRun long_run = one_long_grind(load, s, target);
            const Time time = long_run.grinding;
            return GrindPlan{s.kind, false, time, std::move(long_run)};
        });
    }
    if (out.plans.empty())
        throw DomainError("grinding plan", "none reaches the target", "a target within reach",
                          out.out_of_reach.empty() ? "" : out.out_of_reach.front());
    std::stable_sort(out.plans.begin(), out.plans.end(),
                     [](const GrindPlan& a, const GrindPlan& b) { return a.run.hands < b.run.hands; });
    const GrindPlan& first = out.plans.front();
    const std::string rounds = rounds_text(first.run.rounds.size());
    out.recommendation = plan_words(first) + ": " + (first.in_rounds ? rounds + " of " : "") +
                         minutes_text(first.cycle) + ", " + minutes_text(first.run.hands) +
                         " of hands, least of the " + std::to_string(out.plans.size()) +
                         " ways that reach the target";
    return out;
}

} // namespace lakebound
