#include "lakebound/record/sieve_entry.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound {
namespace {

const double spread_of_even_chance = std::sqrt(12.0);

/// By the straight line in ln size between the screens that enclose one half; nothing where none do.
std::optional<Estimate<Length>> median_of(const SieveAnalysis& analysis) {
    const auto& f = analysis.fractions;
    for (std::size_t i = 1; i < f.size(); ++i) {
        if (!f[i].aperture) break; // the pan
        const double above = f[i - 1].passing.value(), below = f[i].passing.value();
        if (!(above >= 0.5 && below < 0.5)) continue;
        const double upper = std::log(f[i - 1].aperture->value()), lower = std::log(f[i].aperture->value());
        const double at = lower + (upper - lower) * (0.5 - below) / (above - below);
        return Estimate<Length>::lognormal(Length::from_value(std::exp(at)), std::exp((upper - lower) / spread_of_even_chance),
                                           {Origin::measured, "a sieve test", false});
    }
    return std::nullopt;
}

} // namespace

SieveEntry sieve_entry(const SieveRecord& record) {
    const SieveAnalysis analysis = analyse(record.test);
    SieveEntry entry;
    entry.median_size = median_of(analysis);
    entry.finest = record.test.screens.back().aperture;
    entry.kept = analysis.fractions[record.test.screens.size() - 1].cumulative_retained;
    if (!record.test.charge) return entry;
    entry.charge = *record.test.charge;
    const Mass lost = *record.test.charge - analysis.recovered;
    entry.used = record.method == SieveMethod::wet ? *record.test.charge : lost.value() > 0.0 ? lost : Mass{};
    const double readings = static_cast<double>(record.test.screens.size()) + 2.0; // screens, pan, charge
    if (record.method == SieveMethod::dry) entry.uncertainty = grams(analysis.reading_uncertainty_g * std::sqrt(readings));
    return entry;
}

} // namespace lakebound
