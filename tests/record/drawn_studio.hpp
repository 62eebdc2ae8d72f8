#pragma once
// A studio drawn from the stated priors, for the benchmark and for the sampler outside the project.

#include <cmath>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "record/stated_priors.hpp"

namespace lakebound::test {

/// Jars of three plants with one rub-out each and swatches in two kinds of binder near their true edges; every third
/// is watched for the rich side.
inline DemandRecord drawn_studio(std::size_t jars, std::size_t swatches) {
    RandomEngine engine(11);
    const auto normal = [&](double sd) { return sd * standard_normal(engine); };
    const double plant[3] = {normal(.26), normal(.26), normal(.26)}, hand = normal(.05), bias = normal(.05);
    const double step[2] = {normal(.09), normal(.09)};
    DemandRecord record;
    std::vector<double> demand, own[2];
    for (std::size_t j = 0; j < jars; ++j) {
        record.jars.push_back({j % 3, grams_per_100_grams(reference_oil_absorption), 0, false});
        demand.push_back(plant[j % 3] + normal(.15));
        own[0].push_back(normal(.078));
        own[1].push_back(normal(.078));
        const double y = demand[j] + hand + normal(.095);
        record.rub_outs.push_back({j, grams_per_100_grams(reference_oil_absorption * std::exp(y)), 0, 0.0});
    }
    for (std::size_t i = 0; i < swatches; ++i) {
        const std::size_t jar = i % jars, kind = (i / jars) % 3 == 2 ? oil : gum;
        const double edge = demand[jar] + step[kind] + own[kind][jar] + bias, x = edge + normal(.12);
        PaintTrial t;
        t.jar = jar;
        t.family = kind;
        t.library_k = BinderSufficiency::of(std::exp(x));
        t.weighing_spread = swatch_spread;
        const bool lean = normal(1.0) * .1 > x - edge;
        t.outcome = lean ? PaintOutcome::lean : i % 3 == 0 ? PaintOutcome::holds : PaintOutcome::not_lean;
        record.trials.push_back(t);
    }
    return record;
}

} // namespace lakebound::test
