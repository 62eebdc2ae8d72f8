// One formula, three ways: its value, its first-order budget, and seeded draws on two threads.
// By hand: 1 / (1 + .68 / .93 x 1.88) = 42.1 %; dc/c = (1 - c)(dOA/OA, drho/rho): (1 - .421) x hypot(.1029, .0266)
// = 6.2 % of 42.1 %.
// Prints:
//   CPVC 42.1 %
//   budget: +- 2.6 %
//     oil absorption  94 % of the variance
//     density          6 % of the variance
//   draws: +- 2.6 %, 95 % of them from 38 % to 48 %
#include <cstdio>
#include <lakebound/estimate/budget.hpp>
#include <lakebound/estimate/monte_carlo.hpp>
#include <lakebound/paint/pvc.hpp>
using namespace lakebound;

int main() {
    const Provenance mine{Origin::measured, "rub-out of the jar, twice", false};
    const auto oil_absorption =
        Estimate<OilAbsorption>::normal(grams_per_100_grams(68), OilAbsorption::Difference::of(0.07), mine);
    const auto density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.88),
                                                       grams_per_cubic_centimetre(0.05), mine);

    // The formula knows nothing of uncertainty: plain quantities in, a plain quantity out.
    const MassDensity test_oil = grams_per_cubic_centimetre(0.93);
    const auto cpvc = [&](OilAbsorption oa, MassDensity rho) {
        return critical_pigment_volume_concentration(binder_demand(oa, test_oil), rho);
    };
    std::printf("CPVC %.1f %%\n", 100 * cpvc(oil_absorption.value(), density.value()).value());

    // At the border to the estimate room inputs are numbers in SI base units, in their order.
    const UncertainInput inputs[] = {uncertain_input("oil absorption", oil_absorption),
                                     uncertain_input("density", density)};
    const auto model = [&](std::span<const double> x) {
        return cpvc(OilAbsorption::of(x[0]), MassDensity::from_value(x[1])).value();
    };
    const Budget first_order = budget(model, inputs);
    std::printf("budget: +- %.1f %%\n", 100 * first_order.standard_uncertainty);
    for (const auto& line : first_order.lines)
        std::printf("  %-15s %2.0f %% of the variance\n", line.name.c_str(), 100 * line.share);

    // The same seed gives the same answer on any machine and on any number of threads.
    MonteCarloOptions options;
    options.seed = 1;
    options.threads = 2;
    const auto draws = monte_carlo(model, inputs, options);
    const SampleSummary drawn = summarise(draws);
    std::printf("draws: +- %.1f %%, 95 %% of them from %.0f %% to %.0f %%\n", 100 * drawn.standard_deviation,
                100 * drawn.symmetric.low, 100 * drawn.symmetric.high);
}
