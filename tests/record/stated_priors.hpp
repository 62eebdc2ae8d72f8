#pragma once
// The priors that the model of learning states (all estimates; docs/theory.md), and studios built up in few words.

#include <cstddef>
#include <initializer_list>
#include <vector>

#include "lakebound/paint/judgement.hpp"
#include "lakebound/record/learned_demand.hpp"

namespace lakebound::test {

inline constexpr double reference_oil_absorption = 65.0; ///< g/100 g, of the class
inline constexpr std::size_t gum = 0, oil = 1;           ///< kinds, and their one family each
inline constexpr double swatch_spread = 0.021;           ///< 0.2 g on a scale of 0.01 g

inline DemandWorld stated_world() {
    DemandWorld w;
    w.priors = {.plant_spread = 0.26,
                .jar_spread = 0.15,
                .jar_spread_doubt = 0.40,
                .unlike_jar_spread = 0.30,
                .regrind_spread = 0.08,
                .hand_spread = 0.05,
                .repeat_spread = 0.095,
                .repeat_weight = 4.0,
                .chalk_bias_spread = 0.05,
                .jar_step_spread = 0.06,
                .damp_spread = 0.03,
                .lot_spread = 0.04,
                .odd_share = 0.10,
                .odd_factor = 2.5,
                .solids_spread = 0.01,
                .rich_step_spread = 0.15,
                .lean_width = 0.06,
                .rich_width = 0.10,
                .use_width = 0.08};
    w.kinds = {{0.08, 0.04}, {0.08, 0.04}};
    const auto one = BinderSufficiency::of(1.0), rich = BinderSufficiency::of(2.4);
    w.families = {{gum, one, rich}, {oil, one, rich}};
    return w;
}
/// Spread between jars known to be .15, and no odd makers: as most check cases have it.
inline DemandWorld plain_world() {
    DemandWorld w = stated_world();
    w.priors.jar_spread_doubt = 0.0;
    w.priors.odd_share = 0.0;
    return w;
}
/// Green from 1.2 to 1.8; the amber limits are those of the family.
inline SufficiencyWindow pan_window() {
    return {BinderSufficiency::of(1.0), BinderSufficiency::of(1.2), BinderSufficiency::of(1.8),
            BinderSufficiency::of(2.4)};
}
inline constexpr double batch_spread = 0.01; ///< of the batch's weighing

/// Where to mix, by the library's k, and the chance of the window there.
struct BestMix {
    double library_k = 0.0, chance = 0.0; ///< chance in %
};
inline double window_percent(const DemandBelief& belief, double library_k) {
    return 100.0 * window_chances(BinderSufficiency::of(library_k), belief.doubt(batch_spread), pan_window())
                       .in_window.value();
}
inline BestMix best_aim(const DemandBelief& belief) {
    const double k = likeliest_aim(belief.doubt(batch_spread), pan_window()).value();
    return {k, window_percent(belief, k)};
}

/// Jars of one plant; the last is the one asked about, as a pan.
class Bench {
public:
    explicit Bench(std::size_t past = 0) {
        record.jars.resize(past + 1, {0, grams_per_100_grams(reference_oil_absorption), 0, false});
    }
    std::size_t asked() const { return record.jars.size() - 1; }
    Bench& rub_out(std::initializer_list<double> values) { return rub_out_of(asked(), values); }
    Bench& rub_out_of(std::size_t jar, std::initializer_list<double> values) {
        for (const double oa : values)
            record.rub_outs.push_back({jar, grams_per_100_grams(oa), 0, 0.0});
        return *this;
    }
    Bench& trial(double k, PaintOutcome outcome) { return trial_of(asked(), gum, k, outcome); }
    Bench& trial_of(std::size_t jar, std::size_t family, double k, PaintOutcome outcome,
                    double spread = swatch_spread) {
        PaintTrial t;
        t.jar = jar;
        t.family = family;
        t.library_k = BinderSufficiency::of(k);
        t.weighing_spread = spread;
        t.outcome = outcome;
        record.trials.push_back(t);
        return *this;
    }
    Bench& chalks(std::initializer_list<double> ks) { return all(ks, PaintOutcome::lean); }
    Bench& does_not(std::initializer_list<double> ks) { return all(ks, PaintOutcome::not_lean); }
    DemandBelief belief(const DemandWorld& world) const { return learned_demand(world, record, {asked(), gum, {}}); }

    DemandRecord record;

private:
    Bench& all(std::initializer_list<double> ks, PaintOutcome outcome) {
        for (const double k : ks)
            trial(k, outcome);
        return *this;
    }
};

} // namespace lakebound::test
