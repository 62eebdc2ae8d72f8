// What a jar's own paints say, by integrals over the two quantities that they see: where the chalk test flips and how far
// the rich edge lies beyond, or where the paint itself turns lean. One rub-out; variances by hand from the stated priors.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "record/stated_priors.hpp"

using namespace lakebound;
using namespace lakebound::test;

namespace {

double falls(double z) { return 1 / (1 + std::exp(-z)); }
struct Moments {
    double weight = 0, z = 0, c = 0, cc = 0, rich = 0;
    void add(double w, double at_z, double at_c, double open, double at_rich) {
        weight += w, z += w * at_z, c += w * at_c, cc += w * (at_c * at_c + open), rich += w * at_rich;
    }
    double mean() const { return c / weight; }
    double sd() const { return std::sqrt(cc / weight - mean() * mean()); }
};
/// Of z, c and z + g after these trials; each either a swatch or, in use, a trial of c.
Moments by_integral(double oil_absorption, const std::vector<PaintTrial>& trials) {
    // d given a rub-out: prior .26 (+) .15, reading .05 (+) .095.
    const double y = std::log(oil_absorption / 65.0), prior = 0.26 * 0.26 + 0.15 * 0.15, read = 0.05 * 0.05 + 0.095 * 0.095;
    const double d = y * prior / (prior + read);
    const double open_c = prior * read / (prior + read) + 0.08 * 0.08 + 0.04 * 0.04 + 0.06 * 0.06 + 0.03 * 0.03 + 0.04 * 0.04;
    const double open_z = open_c + 0.05 * 0.05, sz = std::sqrt(open_z);
    const double slope = open_c / open_z, open = open_c - slope * open_c; // of c given z
    const double g = std::log(2.4), sg = 0.15;
    const bool in_use = std::any_of(trials.begin(), trials.end(), [](const PaintTrial& t) { return t.in_use; });
    const auto chance = [](const PaintTrial& t, double edge, double beyond) {
        const double x = std::log(t.library_k.value()), narrow = t.weighing_spread / 1.7;
        const double lean = falls((edge - x) / std::hypot(t.in_use ? 0.08 : 0.06, narrow)), rich = falls((x - beyond) / std::hypot(0.10, narrow));
        switch (t.outcome) {
        case PaintOutcome::lean:
            return lean;
        case PaintOutcome::not_lean:
            break;
        case PaintOutcome::holds:
            return (1 - lean) * (1 - rich);
        case PaintOutcome::rich:
            return (1 - lean) * rich;
        }
        return 1 - lean;
    };
    Moments m;
    constexpr int steps = 120;
    for (int i = -steps; i <= steps; ++i)
        for (int j = -steps; j <= steps; ++j) {
            const double u = 6.5 * i / steps, v = 6.5 * j / steps, z = d + sz * u;
            double w = std::exp(-0.5 * (u * u + v * v));
            // The second quantity: c given z, where a paint was judged in use, else g.
            const double c = d + slope * (z - d) + (in_use ? std::sqrt(open) * v : 0.0), beyond = g + (in_use ? 0.0 : sg * v);
            for (const PaintTrial& t : trials)
                w *= chance(t, t.in_use ? c : z, (t.in_use ? c : z) + beyond);
            m.add(w, z, c, in_use ? 0.0 : open, z + beyond);
        }
    return m;
}
PaintTrial own(double k, PaintOutcome outcome, double spread, bool in_use = false) {
    PaintTrial t;
    t.jar = 0, t.family = gum, t.library_k = BinderSufficiency::of(k), t.outcome = outcome, t.weighing_spread = spread, t.in_use = in_use;
    return t;
}

} // namespace

TEST_CASE("own swatches and batches in use say what integrals over the edges they see say", "[reference]") {
    using enum PaintOutcome;
    const std::vector<std::vector<PaintTrial>> records{
        {own(1.6, rich, 0.02)},
        {own(1.4, holds, 0.02)},
        {own(1.15, lean, 0.02), own(1.7, holds, 0.0), own(2.6, rich, 0.05)},
        {own(1.3, not_lean, 0.1), own(3.4, holds, 0.02)},
        {own(1.4, lean, 0.0, true)},
        {own(1.4, not_lean, 0.03, true), own(1.1, lean, 0.02)},
        {own(1.2, not_lean, 0.0, true), own(1.5, lean, 0.02), own(1.3, not_lean, 0.02)},
    };
    for (std::size_t i = 0; i < records.size(); ++i)
        for (const double oil_absorption : {70.0, 90.0}) {
            CAPTURE(i, oil_absorption);
            auto bench = lakebound::test::Bench().rub_out({oil_absorption});
            bench.record.trials = records[i];
            const DemandBelief belief = bench.belief(plain_world());
            const Moments m = by_integral(oil_absorption, records[i]);
            CHECK(belief.critical().mean() == Approx(m.mean()).margin(1e-5).epsilon(0));
            CHECK(belief.critical().standard_deviation() == Approx(m.sd()).margin(1e-5).epsilon(0));
            CHECK(belief.flip_mean() == Approx(m.z / m.weight).margin(1e-5).epsilon(0));
            double rich_edge = 0.0;
            for (const DemandNode& n : belief.parts.at(0).nodes)
                rich_edge += n.weight * n.rich;
            CHECK(rich_edge == Approx(m.rich / m.weight).margin(1e-5).epsilon(0));
        }
}
