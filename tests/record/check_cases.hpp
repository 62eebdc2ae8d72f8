#pragma once
// Check cases K1 to K19 of the model of learning. Their values come from quadrature over the quantities that trials see,
// exact but for the grid; tests/reference/learning_check.py works them out anew from the statement of the model and
// holds the library against them. K6 to K8, K13, K15, K17 and K19 were also sampled by a general Gibbs sampler (100 000
// draws: .0006 in mean, .0005 in sd, .15 point).

#include <stdexcept>
#include <string>
#include <vector>

#include "record/stated_priors.hpp"

namespace lakebound::test {

struct CheckCase {
    std::string id;
    Bench bench;
    double mean, sd, best_k, best_chance, chance_at_147, next_k, sd_z; ///< chances in %
    /// Coach, %: value after a rub-out, and after 1, 2, 4 swatches; none where 0.
    double rub_out = 0.0, one = 0.0, two = 0.0, four = 0.0;
};

inline std::vector<CheckCase> check_cases() {
    const auto not_lean = PaintOutcome::not_lean;
    std::vector<CheckCase> cases;
    const auto add = [&](const char* id, const Bench& b, double mean, double sd, double k, double best, double p,
                         double next, double sd_z, double r = 0, double one = 0, double two = 0, double four = 0) {
        cases.push_back({id, b, mean, sd, k, best, p, next, sd_z, r, one, two, four});
    };
    add("K1", Bench(), 0, .3228, 1.470, 46.98, 46.98, 1.000, .3266, 80.55, 67.98, 76.09, 86.69);
    add("K2", Bench().rub_out({78}), .1616, .1559, 1.728, 80.55, 59.43, 1.175, .1638, 84.11, 90.82, 94.37, 97.22);
    add("K3", Bench().rub_out({78, 74}), .1459, .1412, 1.701, 84.79, 64.96, 1.157, .1498, 85.93, 92.97, 95.82, 97.99);
    add("K4", Bench().rub_out({50, 75, 100}), .0866, .1706, 1.603, 76.46, 70.68, 1.090, .1777, 78.79, 88.62, 92.82,
        96.39);
    add("K5", Bench().chalks({1.00}), .2413, .2144, 1.786, 67.98, 47.02, 1.253, .2136, 86.69, 82.54, 87.96, 93.23);
    add("K6", Bench().rub_out({78}).chalks({1.20}).does_not({1.35}), .2116, .0954, 1.815, 96.36, 45.91, 1.244, .0911,
        96.92, 98.02, 98.76, 99.37);
    add("K7", Bench().rub_out({65}).chalks({1.25}).does_not({1.05}), .0820, .0989, 1.594, 95.74, 88.77, 1.096, .0957,
        96.40, 97.73, 98.60, 99.30);
    add("K8", Bench().rub_out({65}).does_not({1.30, 1.10, .90, .80}), -.2300, .0999, 1.163, 95.56, 40.28, .780, .0968,
        96.25, 97.60, 98.51, 99.25);
    add("K10", Bench().does_not({1.30, 1.15}).chalks({.95, .85}), .0410, .1051, 1.531, 94.58, 92.72, 1.043, .0950,
        97.42, 97.03, 98.14, 99.03);
    add("K11", Bench().rub_out({65}).chalks({1.1, 1.1, 1.1, 1.1, 1.1}).does_not({1.1, 1.1, 1.1, 1.1, 1.1}), .0814,
        .0596, 1.594, 99.91, 97.79, 1.094, .0395, 99.93, 99.93, 99.94, 99.95);
    Bench coarse;
    coarse.rub_out({65}).trial_of(0, gum, 1.00, PaintOutcome::lean, .205);
    add("K12", coarse, .0698, .1394, 1.575, 85.38, 80.58, 1.079, .1445, 87.93, 93.02, 95.79, 97.93);
    Bench shines;
    shines.rub_out({65}).trial(1.60, PaintOutcome::rich);
    add("K13", shines, -.1557, .1385, 1.257, 85.60, 62.56, .842, .1435);
    Bench in_use;
    in_use.rub_out({65}).chalks({1.25}).does_not({1.05}).trial(1.60, not_lean);
    in_use.record.trials.back().in_use = true;
    in_use.record.trials.back().weighing_spread = 0.0;
    add("K15", in_use, .0802, .0979, 1.591, 95.96, 89.33, 1.095, .0949);
    Bench kin(4);
    kin.rub_out_of(0, {72}).rub_out_of(1, {81}).rub_out_of(2, {69}).rub_out_of(3, {77});
    add("K16", kin, .1195, .2135, 1.656, 65.70, 58.58, 1.127, .2193, 81.48, 82.22, 87.98, 93.70);
    Bench unlike(3);
    unlike.rub_out_of(0, {72}).rub_out_of(1, {81}).rub_out_of(2, {69}).rub_out({115});
    add("K17", unlike, .4609, .1530, 2.330, 81.40, 4.62, 1.585, .1609, 84.33, 91.26, 94.67, 97.39);
    Bench two_kinds(1);
    two_kinds.rub_out_of(0, {75}).rub_out({70});
    two_kinds.trial_of(0, oil, 1.15, PaintOutcome::lean).trial_of(0, oil, 1.30, not_lean);
    add("K19", two_kinds, .0816, .1533, 1.595, 81.31, 75.31, 1.090, .1594, 84.45, 91.19, 94.65, 97.39);
    return cases;
}

inline const CheckCase& check_case(const std::string& id) {
    static const auto cases = check_cases();
    for (const auto& c : cases)
        if (c.id == id) return c;
    throw std::out_of_range(id);
}

} // namespace lakebound::test
