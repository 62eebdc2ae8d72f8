#include "lakebound/bath/drying.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "lakebound/estimate/exponential_approach.hpp"
#include "lakebound/estimate/input.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

constexpr double not_slowed = 0.95; // a loss per hour above this share of the one before is no fall
constexpr std::size_t tau_nodes = 100, end_nodes = 25;
constexpr double longest_wait = 366.0 * 86400.0;

std::string hour_text(Time t) { return number_text(std::round(in_hours(t) * 10.0) / 10.0) + " h"; }

void check_tray(const Tray& tray) {
    if (!(tray.dry_solids.value() > 0.0 && tray.area.value() > 0.0 && tray.constant.value() > 0.0))
        throw DomainError("tray that dries", "solids, area or rate of 0", "all above 0");
}

double weighing_sd(Mass mass, const Instrument<Mass>& scale, const DryingHabits& habits) {
    const double repeat = habits.weighing_repeats_to.value().value() * mass.value();
    return std::sqrt(reading_variance(scale) + repeat * repeat);
}

/// Those whose surface no longer looked wet, in order, and not rising.
std::vector<DryingWeighing> checked_weighings(std::span<const DryingWeighing> all, const Instrument<Mass>& scale,
                                              const DryingHabits& habits) {
    std::vector<DryingWeighing> kept;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto& w = all[i];
        if (!(w.mass.value() > 0.0)) throw_out_of_range("mass of the cake", in_grams(w.mass), "g", "above 0");
        if (i > 0) {
            const auto& before = all[i - 1];
            if (!(w.time > before.time))
                throw DomainError("time of a weighing", hour_text(w.time), "after " + hour_text(before.time) + ", the one before it",
                                  "list the weighings in the order in which they were made");
            const double u = std::hypot(weighing_sd(w.mass, scale, habits), weighing_sd(before.mass, scale, habits));
            if ((w.mass - before.mass).value() > 2.5 * u)
                throw DomainError("mass of the drying cake", mass_text(w.mass),
                                  "at most that of the weighing before it, " + mass_text(before.mass),
                                  "a cake that gains has taken up damp, or the paper was weighed with it once: weigh it again");
        }
        if (!w.surface_wet) kept.push_back(w);
    }
    if (kept.size() < 3)
        throw DomainError("weighings since the surface stopped looking wet", number_text(static_cast<double>(kept.size())),
                          "3 or more", "two weighings fit any end: weigh again tomorrow at the same hour");
    return kept;
}

double loss_rate(const DryingWeighing& a, const DryingWeighing& b) { return ((a.mass - b.mass) / (b.time - a.time)).value(); }

/// First weighing of the falling period; that of the last interval but one or later: it has not begun.
std::size_t falling_from(std::span<const DryingWeighing> w) noexcept {
    std::size_t from = 0;
    while (from + 2 < w.size() && loss_rate(w[from], w[from + 1]) > 0.0 &&
           loss_rate(w[from + 1], w[from + 2]) > not_slowed * loss_rate(w[from], w[from + 1]))
        ++from;
    return from;
}

[[noreturn]] void throw_dries_evenly(std::span<const DryingWeighing> w) {
    const auto an_hour = [&w](std::size_t back) {
        return fixed_text(loss_rate(w[w.size() - 1 - back], w[w.size() - back]) * 3.6e6, 2) + " g an hour";
    };
    throw DomainError("loss of the cake between the last two weighings", an_hour(1),
                      "clearly below " + an_hour(2) + ", the loss before it",
                      "it still dries at an even rate, which tells no end: weigh again tomorrow");
}

/// m_end and A given tau: least squares of m on 1 and e = exp(-t/tau), weighted.
struct TauFit {
    double end, over, end_sd, over_given_end_sd;
    double mean_e; // A falls by this for each unit that the end lies above `end`
    double log_evidence;
};

struct TauData {
    std::vector<double> t, m, w; // s since origin, kg, 1/kg2
};

TauFit fit_at(const TauData& d, double tau) {
    double s0 = 0, s1 = 0, s2 = 0, y0 = 0, y1 = 0;
    for (std::size_t i = 0; i < d.t.size(); ++i) {
        const double e = std::exp(-d.t[i] / tau);
        s0 += d.w[i];
        s1 += d.w[i] * e;
        s2 += d.w[i] * e * e;
        y0 += d.w[i] * d.m[i];
        y1 += d.w[i] * e * d.m[i];
    }
    const double centred = s0 - s1 * s1 / s2; // information on the end when A is free
    TauFit f{};
    f.end = (y0 - s1 / s2 * y1) / centred;
    f.over = (y1 - s1 * f.end) / s2;
    f.end_sd = 1.0 / std::sqrt(centred);
    f.over_given_end_sd = 1.0 / std::sqrt(s2);
    f.mean_e = s1 / s2;
    double misfit = 0;
    for (std::size_t i = 0; i < d.t.size(); ++i) {
        const double r = d.m[i] - f.end - f.over * std::exp(-d.t[i] / tau);
        misfit += d.w[i] * r * r;
    }
    f.log_evidence = -0.5 * misfit - 0.5 * std::log(s2); // the nodes of the end bring its own
    return f;
}

/// Density of `expected` at x, up to a factor; 1 where nothing is expected.
double expected_density(const std::optional<Estimate<Mass>>& expected, double x) {
    if (!expected || expected->distribution().shape == Shape::exact) return 1.0;
    const Distribution& d = expected->distribution();
    if (!(x > 0.0)) return 0.0;
    const double z = d.shape == Shape::lognormal ? std::log(x / d.location) / d.scale
                                                 : (x - d.location) / d.standard_uncertainty();
    return std::exp(-0.5 * z * z) / (d.shape == Shape::lognormal ? x : 1.0);
}

/// Nodes of the end for one tau between 0 and the highest, with weights that hold all of the evidence.
void add_end_nodes(std::vector<DryingNode>& nodes, const TauFit& f, double tau, double log_weight, double highest,
                   const std::optional<Estimate<Mass>>& expected) {
    // Where the readings at this tau, or what is expected, put it: the narrower of the two decides the step.
    double low = std::max(0.0, f.end - 5.0 * f.end_sd), high = std::min(highest, f.end + 5.0 * f.end_sd);
    if (expected && expected->distribution().shape != Shape::exact) {
        low = std::max(low, at_standard_deviations(expected->distribution(), -5.0));
        high = std::min(high, at_standard_deviations(expected->distribution(), 5.0));
    }
    if (!(high > low)) return;
    const double step = (high - low) / end_nodes;
    for (std::size_t i = 0; i < end_nodes; ++i) {
        const double end = low + (static_cast<double>(i) + 0.5) * step, z = (end - f.end) / f.end_sd;
        const double weight = std::exp(log_weight - 0.5 * z * z) * step * expected_density(expected, end);
        if (weight > 0.0) nodes.push_back({tau, end, f.over - (end - f.end) * f.mean_e, f.over_given_end_sd, weight});
    }
}

double normal_below(double x, double mean, double sd) {
    return sd > 0.0 ? standard_normal_cdf((x - mean) / sd) : (mean <= x ? 1.0 : 0.0);
}

double since_origin(const DryingBelief& belief, Time time) { return (time - belief.origin).value(); }

double mass_below(const DryingBelief& belief, double t, double mass) {
    double sum = 0.0;
    for (const auto& n : belief.nodes) {
        const double e = std::exp(-t / n.tau);
        sum += n.weight * normal_below(mass, n.end + n.over * e, n.over_sd * e);
    }
    return sum;
}

double dry_chance_at(const DryingBelief& belief, double t, double within) {
    double sum = 0.0;
    for (const auto& n : belief.nodes) {
        const double e = std::exp(-t / n.tau);
        sum += n.weight * normal_below(within * n.end, n.over * e, n.over_sd * e);
    }
    return std::min(sum, 1.0);
}

void check_chance(double p) {
    if (!(p > 0.0 && p < 1.0)) throw_out_of_range("chance", p, "", "above 0 and below 1");
}

/// The weighing that agrees with the last and lies long enough before it, or none.
std::optional<std::size_t> stands_since(std::span<const DryingWeighing> w, const DryingHabits& habits) {
    const auto& last = w.back();
    std::optional<std::size_t> since;
    for (auto each = w.rbegin() + 1; each != w.rend(); ++each) {
        if (std::abs((each->mass - last.mass).value()) > habits.constant_within.value().value() * last.mass.value()) break;
        if (last.time - each->time >= habits.constant_over.value()) since = static_cast<std::size_t>(w.rend() - each) - 1;
    }
    return since;
}

} // namespace

Time constant_rate_time(const Tray& tray, double x_start, double x_critical) {
    check_tray(tray);
    if (!(x_critical >= 0.0 && x_start >= x_critical))
        throw_out_of_range("water per dry mass where the surface dries", x_critical, "", "0 up to that at the start");
    return tray.dry_solids * (x_start - x_critical) / (tray.area * tray.constant);
}

Time falling_rate_time(const Tray& tray, double x_critical, double x_end, double x_rest) {
    check_tray(tray);
    if (!(x_rest >= 0.0 && x_end > x_rest && x_critical >= x_end))
        throw_out_of_range("water per dry mass at the end", x_end, "", "above that at rest, up to that where the surface dries");
    return tray.dry_solids * (x_critical - x_rest) / (tray.area * tray.constant) *
           std::log((x_critical - x_rest) / (x_end - x_rest));
}

DryingLaw drying_through_three(Mass first, Mass second, Mass third, Time interval) {
    const auto fit = exponential_approach("mass of the drying cake", in_grams(first), in_grams(second), in_grams(third),
                                          in_seconds(interval), "g");
    if (!(third.value() > 0.0 && fit.end > 0.0))
        throw DomainError("end of drying by these weighings", number_text(fit.end) + " g", "above 0",
                          "it still dries at an even rate, which tells no end: weigh again tomorrow");
    return {grams(fit.end), seconds(fit.tau), first - grams(fit.end), seconds(0)};
}

Mass drying_mass(const DryingLaw& law, Time time) {
    return law.end + law.over * std::exp(-((time - law.from) / law.tau).value());
}

Time dry_within(const DryingLaw& law, Share share) {
    if (!(share.value() > 0.0)) throw_out_of_range("share above the end", share.value(), "", "above 0");
    const double ratio = (law.over / law.end).value() / share.value();
    return ratio > 1.0 ? law.from + law.tau * std::log(ratio) : law.from;
}

Mass weighing_doubt(Mass mass, const Instrument<Mass>& scale, const DryingHabits& habits) {
    return kilograms(weighing_sd(mass, scale, habits));
}

DryingForecast usual_drying(const DryingHabits& habits) {
    const double w = habits.drained_water.value().value(), within = habits.dry_within.value().value();
    const double falls = std::log(w / (1.0 - w) / within); // in time constants
    if (!(w > 0.0 && w < 1.0 && within > 0.0 && falls > 0.0))
        throw_out_of_range("water of a drained cake", w, "", "above 0, below 1, and more than is left when it is dry");
    const double of_water = habits.drained_water.standard_uncertainty().value() / (w * (1.0 - w)) / falls;
    const double spread = std::hypot(habits.usual_tau.relative_uncertainty(), of_water);
    const auto at = [&](double z) { return habits.usual_tau.value() * (falls * std::exp(z * spread)); };
    return {at(-1.6448536269514722), at(0.0), at(1.6448536269514722)};
}

DryingBelief drying_belief(std::span<const DryingWeighing> weighings, const Instrument<Mass>& scale,
                           const DryingHabits& habits, const std::optional<Estimate<Mass>>& expected) {
    const auto kept = checked_weighings(weighings, scale, habits);
    DryingBelief belief;
    belief.from = falling_from(kept);
    if (belief.from + 2 >= kept.size()) throw_dries_evenly(kept);
    belief.origin = kept[belief.from].time;
    TauData data;
    for (std::size_t i = belief.from; i < kept.size(); ++i) {
        const double sd = weighing_sd(kept[i].mass, scale, habits);
        data.t.push_back((kept[i].time - belief.origin).value());
        data.m.push_back(kept[i].mass.value());
        data.w.push_back(1.0 / (sd * sd));
    }
    const double highest = data.m.back() + 2.0 / std::sqrt(data.w.back());
    const Distribution& prior = habits.usual_tau.distribution();
    const auto evidence = [&](double z) {
        const double tau = at_standard_deviations(prior, z);
        std::vector<DryingNode> nodes;
        const TauFit f = fit_at(data, tau);
        add_end_nodes(nodes, f, tau, 0.0, highest, expected);
        double mass = 0.0;
        for (const auto& n : nodes)
            mass += n.weight;
        return mass > 0.0 ? f.log_evidence - 0.5 * z * z + std::log(mass) : -1e300;
    };
    // Where tau may lie, in standard deviations of what is usual: the best place first, then as far as exp(-14).
    double best = 0.0, best_at = 0.0;
    for (int i = 0; i <= 200; ++i) {
        const double z = -5.0 + 0.05 * i, e = evidence(z);
        if (i == 0 || e > best) best = e, best_at = z;
    }
    for (double step = 0.05; step > 1e-5; step *= 0.5)
        for (const double z : {best_at - step, best_at + step})
            if (const double e = evidence(z); e > best) best = e, best_at = z;
    const auto edge = [&](double direction) {
        double step = 1e-4;
        while (step < 6.0 && evidence(best_at + direction * step) > best - 14.0)
            step *= 1.25;
        return best_at + direction * std::min(step, 6.0);
    };
    const double low = edge(-1.0), high = edge(1.0);
    for (std::size_t i = 0; i < tau_nodes; ++i) {
        const double z = low + (static_cast<double>(i) + 0.5) * (high - low) / tau_nodes, tau = at_standard_deviations(prior, z);
        const TauFit f = fit_at(data, tau);
        add_end_nodes(belief.nodes, f, tau, f.log_evidence - 0.5 * z * z - best, highest, expected);
    }
    double total = 0.0;
    for (const auto& n : belief.nodes)
        total += n.weight;
    if (!(total > 0.0))
        throw DomainError("end of drying", "nothing that agrees with the mass expected of this bath", "within its doubt",
                          "check the weighings and the tare, or leave the expectation out");
    for (auto& n : belief.nodes)
        n.weight /= total;
    std::erase_if(belief.nodes, [](const DryingNode& n) { return n.weight < 1e-9; });
    return belief;
}

bool dries_evenly(std::span<const DryingWeighing> weighings) noexcept {
    std::vector<DryingWeighing> kept;
    for (const auto& w : weighings)
        if (!w.surface_wet) kept.push_back(w);
    return falling_from(kept) + 2 >= kept.size();
}

Probability chance_dry(const DryingBelief& belief, Time time, Share within) {
    return Probability::of(dry_chance_at(belief, since_origin(belief, time), within.value()));
}

Mass drying_mass_quantile(const DryingBelief& belief, Time time, double p) {
    check_chance(p);
    double low = 0.0, high = 0.0;
    const double t = since_origin(belief, time);
    for (const auto& n : belief.nodes)
        high = std::max(high, n.end + (std::abs(n.over) + 8.0 * n.over_sd) * std::exp(-t / n.tau));
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (mass_below(belief, t, middle) < p ? low : high) = middle;
    }
    return kilograms(high);
}

Mass end_mass_quantile(const DryingBelief& belief, double p) {
    check_chance(p);
    std::vector<std::array<double, 2>> ends;
    for (const auto& n : belief.nodes)
        ends.push_back({n.end, n.weight});
    std::sort(ends.begin(), ends.end());
    double sum = 0.0;
    for (const auto& [end, weight] : ends)
        if ((sum += weight) >= p) return kilograms(end);
    return kilograms(ends.back()[0]);
}

std::optional<Time> time_dry_with(const DryingBelief& belief, Share within, double p) {
    check_chance(p);
    if (!(within.value() > 0.0)) throw_out_of_range("share above the end", within.value(), "", "above 0");
    if (dry_chance_at(belief, longest_wait, within.value()) < p) return std::nullopt;
    double low = 0.0, high = longest_wait;
    if (dry_chance_at(belief, 0.0, within.value()) >= p) return belief.origin;
    for (int i = 0; i < 36; ++i) {
        const double middle = 0.5 * (low + high);
        (dry_chance_at(belief, middle, within.value()) < p ? low : high) = middle;
    }
    return belief.origin + seconds(high);
}

DryingOutlook drying_outlook(std::span<const DryingWeighing> weighings, const Instrument<Mass>& scale,
                             const DryingHabits& habits, const std::optional<Estimate<Mass>>& expected) {
    const auto kept = checked_weighings(weighings, scale, habits);
    DryingOutlook out;
    const Share within = habits.dry_within.value();
    const DryingWeighing& last = kept.back();
    const auto since = stands_since(kept, habits);
    out.belief = drying_belief(weighings, scale, habits);
    if (expected && expected->distribution().shape != Shape::exact) {
        constexpr double far = 0.001;
        out.unexpected = end_mass_quantile(out.belief, 1.0 - far).value() < quantile(expected->distribution(), far) ||
                         end_mass_quantile(out.belief, far).value() > quantile(expected->distribution(), 1.0 - far);
        // A cake that stands still may disagree with what is expected: then the weighings alone are asked.
        if (!since && !out.unexpected) out.belief = drying_belief(weighings, scale, habits, expected);
    }
    if (since) {
        bool above = expected && expected->distribution().shape != Shape::exact &&
                     last.mass.value() > quantile(expected->distribution(), 0.975);
        if (*since >= 2 && !above) {
            const std::span before(kept.data(), *since + 1);
            try {
                const auto belief = drying_belief(before, scale, habits, expected);
                const double u = weighing_sd(last.mass, scale, habits);
                above = last.mass.value() - 2.0 * u > drying_mass_quantile(belief, last.time, 0.975).value();
            } catch (const DomainError&) {} // it stood before the rate began to fall: nothing to compare with
        }
        out.state = above ? DryingState::stuck : DryingState::constant;
    }
    if (out.state == DryingState::constant) {
        const Mass u = kilograms(weighing_sd(last.mass, scale, habits));
        out.end = last.mass;
        out.end_low = last.mass - 1.645 * u;
        out.end_high = last.mass + 1.645 * u;
    } else {
        out.end = end_mass_quantile(out.belief, 0.5);
        out.end_low = end_mass_quantile(out.belief, 0.05);
        out.end_high = end_mass_quantile(out.belief, 0.95);
    }
    double below = 0.0;
    for (const auto& n : out.belief.nodes) { // tau rises from node to node
        below += n.weight;
        out.tau = seconds(n.tau);
        if (below >= 0.5) break;
    }
    out.dry_now = chance_dry(out.belief, last.time, within);
    if (out.state != DryingState::stuck) {
        out.early = time_dry_with(out.belief, within, 0.1);
        out.likely = time_dry_with(out.belief, within, 0.5);
        out.sure = time_dry_with(out.belief, within, 0.9);
    }
    return out;
}

} // namespace lakebound
