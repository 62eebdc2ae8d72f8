// Prints what the library says of one watercolour with ten uncertain inputs, for paint_draws.py to
// work out again: first order, closed form and both ways of drawing.

#include <cmath>
#include <cstdio>
#include <vector>

#include "lakebound/estimate/budget.hpp"
#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/paint/chance_kernel.hpp"
#include "lakebound/paint/spread.hpp"

using namespace lakebound;

int main() {
    const auto normal = [](double m, double s) { return Distribution{Shape::normal, m, s}; };
    const auto lognormal = [](double m, double s) { return Distribution{Shape::lognormal, m, s}; };
    const PaintInputs in{normal(.010, 2e-4),   lognormal(1, .03),     lognormal(.70, .12), normal(930, 4),
                         lognormal(1, .10),    lognormal(1880, .106), normal(.0365, 6e-4), normal(.3685, .012),
                         lognormal(1398, .02), normal(.90, .04)};
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    const auto fast = draw_paint(in, {k(1.0), k(1.2), k(1.8), k(2.4)}, 4'000'000, 11, 2);

    std::vector<UncertainInput> inputs;
    for (const Distribution& d :
         {in.pigment_mass, in.moisture_factor, in.oil_absorption, in.test_oil_density, in.method_transfer,
          in.pigment_density, in.medium_mass, in.binder_solids, in.solids_density, in.binder_index})
        inputs.push_back({"", d, {}});
    const auto ln_k = [](std::span<const double> x) {
        return std::log(std::min(1.0, x[9]) * x[6] * x[7] / x[8] / (x[0] * x[1] * x[2] * x[4] / x[3]));
    };
    const auto first_order = budget(ln_k, inputs);
    MonteCarloOptions options;
    options.draws = 1'000'000;
    const auto slow = monte_carlo(ln_k, inputs, options);

    std::printf("kernel %.17g %.17g %.17g %.17g %.17g %.17g %.17g %.17g %.17g %.17g %.17g\n", fast.k.mean,
                fast.k.standard_deviation, fast.pvc.mean, fast.pvc.standard_deviation, fast.cpvc.mean,
                fast.cpvc.standard_deviation, fast.reduced_pvc.mean, fast.reduced_pvc.standard_deviation,
                fast.pvc_cpvc_correlation, fast.underbound, fast.above_green);
    std::printf("general %.17g %.17g\n", probability_below(slow, 0.0).value,
                probability_above(slow, std::log(1.8)).value);
    std::printf("closed %.17g %.17g\n", first_order.standard_uncertainty,
                chance_below({k(std::exp(first_order.value)), first_order.standard_uncertainty}).value());
}
