// The k/PVC/CPVC kernel on quantities and on raw doubles, for counting instructions, not time.
// usage: kernel_instructions none|quantities|doubles   (kernel_instructions.sh counts and compares)
//
// Both forms refuse the same bad input; a raw program that is safe has to make the same comparisons.

#include <cstdio>
#include <span>
#include <string_view>
#include <vector>

#include "lakebound/paint/pvc.hpp"

using namespace lakebound;

namespace {

struct Input {
    Mass pigment;
    OilAbsorption oil_absorption = OilAbsorption::from_proven(1.0); // set below
    MassDensity density, test_oil;
    Volume dry_binder;
};
struct Result {
    BinderSufficiency k;
    PigmentVolumeConcentration pvc;
    CriticalPigmentVolumeConcentration cpvc;
    ReducedPigmentVolumeConcentration reduced;
};
struct RawInput {
    double pigment, oil_absorption, density, test_oil, dry_binder;
};
struct RawResult {
    double k, pvc, cpvc, reduced;
};

[[gnu::noinline]] void on_quantities(std::span<const Input> inputs, std::span<Result> results) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        const auto& in = inputs[i];
        auto& out = results[i];
        const auto demand = binder_demand(in.oil_absorption, in.test_oil);
        out.cpvc = critical_pigment_volume_concentration(demand, in.density);
        out.k = binder_sufficiency(in.dry_binder, in.pigment, demand);
        out.pvc = pigment_volume_concentration({.pigment = pigment_volume(in.pigment, in.density), .dry_binder = in.dry_binder});
        out.reduced = reduced_pigment_volume_concentration(out.pvc, out.cpvc);
    }
}

double positive(double x) {
    if (!(x > 0.0)) throw_out_of_range("number", x, "", "above 0");
    return x;
}
double within(double x, double lowest, double highest) {
    if (!(x >= lowest && x <= highest)) throw_out_of_range("number", x, "", "in range");
    return x;
}

[[gnu::noinline]] void on_doubles(std::span<const RawInput> inputs, std::span<RawResult> results) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        const auto& in = inputs[i];
        auto& out = results[i];
        const double demand = positive(in.oil_absorption) / positive(in.test_oil);
        out.cpvc = within(1.0 / (1.0 + demand * in.density), 0.0, 1.0);
        out.k = within(in.dry_binder / positive(in.pigment * demand), 0.0, std::numeric_limits<double>::max());
        const double pigment = in.pigment / positive(in.density);
        out.pvc = within(pigment / positive(pigment + in.dry_binder), 0.0, 1.0);
        out.reduced = within(out.pvc / out.cpvc, 0.0, std::numeric_limits<double>::max());
    }
}

} // namespace

int main(int count, char** arguments) {
    constexpr std::size_t formulas = 1000;
    const std::string_view form = count > 1 ? arguments[1] : "none";
    std::vector<Input> inputs(formulas);
    std::vector<Result> results(formulas);
    std::vector<RawInput> raw_inputs(formulas);
    std::vector<RawResult> raw_results(formulas);
    for (std::size_t i = 0; i < formulas; ++i) {
        const double x = static_cast<double>(i);
        raw_inputs[i] = {0.01 + 1e-5 * x, 0.3 + 5e-4 * x, 1500.0 + x, 930.0, 1e-5};
        inputs[i] = {kilograms(raw_inputs[i].pigment), OilAbsorption::of(raw_inputs[i].oil_absorption),
                     kilograms_per_cubic_metre(raw_inputs[i].density), kilograms_per_cubic_metre(930.0),
                     Volume::from_value(1e-5)};
    }
    for (int round = 0; round < 1000; ++round) {
        if (form == "quantities") on_quantities(inputs, results);
        if (form == "doubles") on_doubles(raw_inputs, raw_results);
    }
    std::printf("%g %g\n", results.back().reduced.value(), raw_results.back().reduced);
}
