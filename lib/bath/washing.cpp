#include "lakebound/bath/washing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/material/density.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

constexpr unsigned most_washes = 20, shown_washes = 6;

void check_strength(const char* name, WeightPerVolume w) {
    if (!(w.value.value() >= 0.0)) throw_out_of_range(name, in_kilograms_per_cubic_metre(w.value), "g/L", "0 or more");
}

/// What the washes more leave, as medians and spreads.
struct WashSpread {
    double ratio, kept, log_sd; // lake's salts per strength (m3/kg), f, ln-sd of everything but the two readings
};

WashSpread wash_spread(const WashedLake& lake, unsigned washes) {
    const double n = washes, bed = lake.bed.value().value(), filled = lake.filled.value().value();
    const double u_bed = lake.bed.relative_uncertainty(), u_filled = lake.filled.relative_uncertainty();
    const double u_lake = lake.lake.relative_uncertainty(), stirred = lake.stirred_to.value().value();
    // ln(C f^n V_held / m): where the whole bed dries in, its doubt counts n + 1 times.
    // Of a drained cake the lake's mass goes out: it holds so much to a gram.
    const double held = lake.held ? lake.held->value().value() : bed / lake.lake.value().value();
    const double of_bed = lake.held ? n : n + 1.0, u_held = lake.held ? lake.held->relative_uncertainty() : u_lake;
    const double squares = of_bed * of_bed * u_bed * u_bed + n * n * (u_filled * u_filled + stirred * stirred) +
                           u_held * u_held + lake.water.scale.value() * lake.water.scale.value();
    return {held, bed / filled, std::sqrt(squares)};
}

void check_washed(const WashedLake& lake) {
    (void)kept_by_a_wash({lake.bed.value(), lake.filled.value()});
    if (!(lake.lake.value().value() > 0.0))
        throw_out_of_range("mass of the lake", in_grams(lake.lake.value()), "g", "above 0");
    if (lake.held && !(lake.held->value().value() > 0.0))
        throw_out_of_range("liquid held by the drained cake", in_millilitres_per_gram(lake.held->value()), "mL/g", "above 0");
    check_strength("salts in the water", lake.water.strength);
}

/// Strength at z of the two readings' normal doubt, not below 0.
double strength_at(const SaltsInWater& water, double z) {
    return std::max(0.0, water.strength.value.value() + z * water.standard_uncertainty.value());
}

/// Mean over the readings' normal doubt, by the middles of 200 equal shares of it.
template <class F> double mean_over_readings(F&& f) {
    static const auto middles = [] {
        std::array<double, 200> z{};
        for (std::size_t i = 0; i < z.size(); ++i)
            z[i] = standard_normal_quantile((static_cast<double>(i) + 0.5) / static_cast<double>(z.size()));
        return z;
    }();
    double sum = 0.0;
    for (const double z : middles)
        sum += f(z);
    return sum / static_cast<double>(middles.size());
}

double chance_at_most(const WashedLake& lake, double salts_per_lake, unsigned washes) {
    const WashSpread s = wash_spread(lake, washes);
    return mean_over_readings([&](double z) {
        const double median = strength_at(lake.water, z) * std::pow(s.kept, washes) * s.ratio;
        if (!(median > 0.0)) return 1.0;
        if (!(s.log_sd > 0.0)) return median <= salts_per_lake ? 1.0 : 0.0;
        return standard_normal_cdf(std::log(salts_per_lake / median) / s.log_sd);
    });
}

/// The salts per lake that the chance p lies below, so many washes on; to 1e-6 of itself.
double salts_quantile(const WashedLake& lake, double p, unsigned washes) {
    double low = 1e-9, high = 1e-6;
    if (chance_at_most(lake, low, washes) >= p) return 0.0;
    while (chance_at_most(lake, high, washes) < p && high < 1e3)
        high *= 4.0;
    while (high > low * (1.0 + 1e-6)) {
        const double middle = std::sqrt(low * high);
        (chance_at_most(lake, middle, washes) >= p ? high : low) = middle;
    }
    return high;
}

WashCourse course_after(const WashedLake& lake, MassFraction target, unsigned washes) {
    const WashSpread s = wash_spread(lake, washes);
    const auto fraction = [](double x) { return MassFraction::of(std::clamp(x, 0.0, 1.0)); };
    return {washes, fraction(lake.water.strength.value.value() * std::pow(s.kept, washes) * s.ratio),
            fraction(salts_quantile(lake, 0.05, washes)), fraction(salts_quantile(lake, 0.95, washes)),
            chance_of_clean(lake, target, washes)};
}

} // namespace

Share kept_by_a_wash(const DecantWash& w) {
    if (!(w.bed.value() > 0.0)) throw_out_of_range("liquid kept in the bed", in_millilitres(w.bed), "mL", "above 0");
    if (!(w.filled > w.bed))
        throw DomainError("vessel filled up with wash water", number_text(in_millilitres(w.filled)) + " mL",
                          "above the bed, " + number_text(in_millilitres(w.bed)) + " mL", "count the bed and the water together");
    return Share::of((w.bed / w.filled).value());
}

WeightPerVolume strength_after(WeightPerVolume before, WeightPerVolume wash_water, const DecantWash& wash, unsigned washes) {
    check_strength("salts in the bed", before);
    check_strength("salts in the wash water", wash_water);
    const double f = std::pow(kept_by_a_wash(wash).value(), washes);
    return {wash_water.value + (before.value - wash_water.value) * f};
}

std::optional<unsigned> washes_needed(WeightPerVolume before, WeightPerVolume wash_water, const DecantWash& wash,
                                      WeightPerVolume target) {
    check_strength("salts aimed at", target);
    const double f = kept_by_a_wash(wash).value();
    const double over = (before.value - wash_water.value).value(), aim = (target.value - wash_water.value).value();
    (void)strength_after(before, wash_water, wash, 0);
    if (before.value <= target.value) return 0u;
    if (!(aim > 0.0)) return std::nullopt;
    // A target met exactly by n washes wants n, whatever the last bit of the logarithms.
    return static_cast<unsigned>(std::ceil(std::log(over / aim) / -std::log(f) - 1e-9));
}

Volume water_for(const DecantWash& wash, unsigned washes) {
    (void)kept_by_a_wash(wash);
    return static_cast<double>(washes) * (wash.filled - wash.bed);
}

SpecificVolume held_by_drained_cake(MassFraction drained, MassFraction air_dry) {
    const double w = drained.value(), rest = air_dry.value();
    if (!(w < 1.0)) throw_out_of_range("water of a drained cake", w, "", "below 1");
    if (!(rest < 1.0)) throw_out_of_range("water of an air-dry lake", rest, "", "below 1");
    return w * (1.0 - rest) / (1.0 - w) / water_density();
}

Mass salts_dried_in(WeightPerVolume strength, Volume held) {
    check_strength("salts in the water", strength);
    if (!(held.value() >= 0.0)) throw_out_of_range("liquid held", in_millilitres(held), "mL", "0 or more");
    return strength.value * held;
}

CounterCurrentFlows counter_current_flows(const WashFeed& feed, Share recovery, MassFraction strong,
                                          double solution_per_solids) {
    if (!(feed.solids.value() > 0.0 && feed.solute.value() > 0.0 && feed.water.value() >= 0.0))
        throw DomainError("feed to be washed", "no solids or no solute", "both above 0, water 0 or more");
    if (!(recovery.value() < 1.0)) throw_out_of_range("share washed out", recovery.value(), "", "below 1");
    if (!(strong.value() > 0.0)) throw_out_of_range("strength of the solution drawn off", strong.value(), "", "above 0");
    if (!(solution_per_solids > 0.0))
        throw_out_of_range("solution kept by the solids", solution_per_solids, "", "above 0");
    CounterCurrentFlows out{};
    out.strong_solution = feed.solute * recovery.value() / strong.value();
    out.kept_solution = feed.solids * solution_per_solids;
    out.kept_strength = MassFraction::of(((1.0 - recovery.value()) * feed.solute / out.kept_solution).value());
    out.fresh_water = out.strong_solution + out.kept_solution - feed.solute - feed.water;
    if (!(out.fresh_water.value() >= 0.0))
        throw DomainError("fresh water of the counter-current", number_text(in_kilograms(out.fresh_water)) + " kg", "0 or more",
                          "so strong a solution cannot be drawn off this feed");
    return out;
}

Share counter_current_recovery(double r, unsigned stages) {
    if (!(r > 0.0 && std::isfinite(r))) throw_out_of_range("overflow per underflow", r, "", "above 0");
    const double n = stages;
    // (r - 1)/(r^(n+1) - 1) with expm1, so that r near 1 keeps its digits.
    const double l = std::log(r);
    const double lost = std::abs(l) < 1e-12 ? 1.0 / (n + 1.0) : std::expm1(l) / std::expm1((n + 1.0) * l);
    return Share::of(std::clamp(1.0 - lost, 0.0, 1.0));
}

Probability chance_of_clean(const WashedLake& lake, MassFraction target, unsigned washes) {
    check_washed(lake);
    if (!(target.value() > 0.0)) throw_out_of_range("salts aimed at", target.value(), "", "above 0");
    // Its spread grows with n faster than its median falls only where a bed as large as the vessel is likely: more
    // washes never leave more salt, so the best of fewer counts.
    double best = 0.0;
    for (unsigned n = 0; n <= washes; ++n)
        best = std::max(best, chance_at_most(lake, target.value(), n));
    return Probability::of(std::min(best, 1.0));
}

WashOutlook wash_outlook(const WashedLake& lake, MassFraction target, const Estimate<MassDensity>& wash_water) {
    check_washed(lake);
    WashOutlook out{};
    double best = 0.0;
    for (unsigned n = 0; n <= most_washes && !out.sure; ++n) {
        best = std::max(best, chance_at_most(lake, target.value(), n));
        if (best >= 0.5 && !out.likely) out.likely = n;
        if (best >= 0.9) out.sure = n;
    }
    for (unsigned n = 0; n <= (out.sure ? *out.sure + 1 : shown_washes); ++n)
        out.course.push_back(course_after(lake, target, n));
    const WashCourse& now = out.course.front();
    out.left = now.left;
    out.left_low = now.low;
    out.left_high = now.high;
    out.clean = now.clean;
    if (out.clean.value() < 0.9) out.clean_after_one = out.course[1].clean;
    if (out.sure) out.water_for_sure = water_for({lake.bed.value(), lake.filled.value()}, *out.sure);
    const double dried_in = wash_water.value().value() * wash_spread(lake, 0).ratio;
    out.from_wash_water = MassFraction::of(std::clamp(dried_in, 0.0, 1.0));
    return out;
}

KeptByReading kept_by_reading(const SaltsInWater& first, const SaltsInWater& second, const Estimate<Volume>& bed,
                              const Estimate<Volume>& filled) {
    const double c1 = first.strength.value.value(), c2 = second.strength.value.value();
    if (!(c1 > 0.0)) throw_out_of_range("salts in the first decant", c1, "g/L", "above 0");
    KeptByReading out;
    out.observed = c2 / c1;
    out.expected = kept_by_a_wash({bed.value(), filled.value()}).value();
    const double u1 = first.standard_uncertainty.value() / c1;
    const double u2 = second.standard_uncertainty.value() / std::max(c2, 1e-9);
    out.log_standard_uncertainty = std::sqrt(u1 * u1 + u2 * u2 + bed.relative_uncertainty() * bed.relative_uncertainty() +
                                             filled.relative_uncertainty() * filled.relative_uncertainty());
    return out;
}

} // namespace lakebound
