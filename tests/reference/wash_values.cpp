// Filters, washes, pens and drying cakes read from standard input, for wash_check.py: one question a line, figures in
// SI units; one line of answers each.

#include <iostream>
#include <sstream>
#include <string>

#include "lakebound/bath/conductivity.hpp"
#include "lakebound/bath/drying.hpp"
#include "lakebound/bath/filtration.hpp"
#include "lakebound/bath/washing.hpp"

namespace {
using namespace lakebound;

double next(std::istream& in) {
    double x = 0;
    in >> x;
    return x;
}

// filter n (t V)... whole: a, b, time of the whole, time of the rest with a second filter
void answer_filter(std::istream& in) {
    std::vector<FilterReading> readings(static_cast<std::size_t>(next(in)));
    for (auto& r : readings) {
        r.time = seconds(next(in));
        r.filtrate = Volume::from_value(next(in));
    }
    const Volume whole = Volume::from_value(next(in)), passed = readings.back().filtrate;
    const auto law = fit_filter(readings);
    std::cout << law.cake.value() << ' ' << law.paper.value() << ' ' << filter_time(law, whole).value() << ' '
              << time_with_second_filter(law, passed, whole - passed).value() << '\n';
}

// wash strength u scale bed ln-sd filled ln-sd lake ln-sd stirred target washes: chance
void answer_wash(std::istream& in) {
    WashedLake lake{};
    lake.water.strength = {kilograms_per_cubic_metre(next(in))};
    lake.water.standard_uncertainty = kilograms_per_cubic_metre(next(in));
    lake.water.scale = Share::of(next(in));
    const auto lognormal = [&](double median) { return std::pair(median, std::exp(next(in))); };
    const auto bed = lognormal(next(in)), filled = lognormal(next(in)), mass = lognormal(next(in));
    lake.bed = Estimate<Volume>::lognormal(Volume::from_value(bed.first), bed.second, {});
    lake.filled = Estimate<Volume>::lognormal(Volume::from_value(filled.first), filled.second, {});
    lake.lake = Estimate<Mass>::lognormal(kilograms(mass.first), mass.second, {});
    lake.stirred_to = Estimate<Share>::exact(Share::of(next(in)), {});
    const auto target = MassFraction::of(next(in));
    std::cout << chance_of_clean(lake, target, static_cast<unsigned>(next(in))).value() << '\n';
}

// pen Na K NH4 SO4 HCO3 g/L degC: uS/cm, and the strength back again
void answer_pen(std::istream& in) {
    DissolvedSalts salts{};
    for (const Ion ion : {Ion::sodium, Ion::potassium, Ion::ammonium, Ion::sulphate, Ion::bicarbonate})
        salts.ions[ion] = next(in);
    const WeightPerVolume strength{kilograms_per_cubic_metre(next(in))};
    const Temperature at = degrees_celsius(next(in));
    const auto kappa = salts_conductivity(salts, strength, at);
    std::cout << in_microsiemens_per_centimetre(kappa) << ' ' << strength_of(salts, kappa, at).value.value() << '\n';
}

// cake n (t m)... step repeat-share tau-median tau-ln-sd within: end at .05 .5 .95, time dry at .5 .9
void answer_cake(std::istream& in) {
    std::vector<DryingWeighing> weighings(static_cast<std::size_t>(next(in)));
    for (auto& w : weighings) {
        w.time = seconds(next(in));
        w.mass = kilograms(next(in));
    }
    const Instrument<Mass> scale{kilograms(next(in)), kilograms(0)};
    DryingHabits habits{};
    habits.weighing_repeats_to = Estimate<Share>::exact(Share::of(next(in)), {});
    const double median = next(in), log_sd = next(in);
    habits.usual_tau = Estimate<Time>::lognormal(seconds(median), std::exp(log_sd), {});
    const Share within = Share::of(next(in));
    const auto belief = drying_belief(weighings, scale, habits);
    for (const double p : {.05, .5, .95})
        std::cout << end_mass_quantile(belief, p).value() << ' ';
    std::cout << time_dry_with(belief, within, .5)->value() << ' ' << time_dry_with(belief, within, .9)->value() << '\n';
}
} // namespace

int main() {
    std::cout.precision(17);
    for (std::string line; std::getline(std::cin, line);) {
        std::istringstream in(line);
        std::string what;
        in >> what;
        if (what == "filter") answer_filter(in);
        if (what == "wash") answer_wash(in);
        if (what == "pen") answer_pen(in);
        if (what == "cake") answer_cake(in);
    }
}
