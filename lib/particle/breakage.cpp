#include "lakebound/particle/breakage.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

// In units of 1/L. A step of Lambda takes about Lambda + 9 sqrt(Lambda) jumps, so one long step is cheaper
// than many short ones; exp(-128) is far from underflow.
constexpr double longest_substep = 128.0;
constexpr double squaring_from = 1000.0; // beyond this many, squaring the propagator is cheaper
constexpr double squaring_base = 16.0;   // a halving costs less than more jumps of every column

double total(std::span<const double> masses) {
    double sum = 0.0;
    for (const double m : masses)
        sum += m;
    return sum;
}

/// Takes back what rounding added or lost over many steps.
void restore_total(std::span<double> masses, double wanted) {
    const double sum = total(masses);
    if (!(sum > 0.0)) return;
    for (double& m : masses)
        m *= wanted / sum;
}

/// masses := P masses, P lower triangular and packed row by row; from the last row up, so in place.
void jump(const std::vector<double>& packed, std::span<double> masses) {
    const std::size_t n = masses.size();
    for (std::size_t i = n; i-- > 0;) {
        const double* row = packed.data() + i * (i + 1) / 2;
        double sum = 0.0;
        for (std::size_t j = 0; j <= i; ++j)
            sum += row[j] * masses[j];
        masses[i] = sum;
    }
}

} // namespace

double cumulative_breakage(const BreakageFunction& b, double ratio) {
    if (ratio <= 0.0) return 0.0;
    if (ratio >= 1.0) return 1.0;
    const double log_ratio = std::log(ratio);
    double share = 0.0;
    if (b.phi > 0.0) share += b.phi * std::exp(b.gamma * log_ratio);
    if (b.phi < 1.0) share += (1.0 - b.phi) * std::exp(b.beta * log_ratio);
    return share;
}

PopulationBalance::PopulationBalance(const BreakageModel& model) {
    const std::size_t n = model.class_sizes.size();
    if (n < 2) throw DomainError("size classes", std::to_string(n), "two at least: above and below one screen");
    for (std::size_t i = 0; i < n; ++i) {
        if (!(in_metres(model.class_sizes[i]) > 0.0))
            throw_out_of_range("class size", in_micrometres(model.class_sizes[i]), "um", "above 0");
        if (i > 0 && !(model.class_sizes[i] < model.class_sizes[i - 1]))
            throw DomainError("class size " + std::to_string(i + 1), micrometre_text(model.class_sizes[i]),
                              "finer than the class before it, " + micrometre_text(model.class_sizes[i - 1]));
    }
    const double a = model.selection.top.value(), alpha = model.selection.exponent;
    const auto& b = model.breakage;
    if (!(a >= 0.0 && std::isfinite(a)))
        throw_out_of_range("selection rate", a * 60.0, "per minute", "0 or more");
    if (!(alpha >= 0.0 && alpha <= 5.0)) throw_out_of_range("selection exponent alpha", alpha, "", "0 to 5");
    if (!(b.phi >= 0.0 && b.phi <= 1.0)) throw_out_of_range("breakage share phi", b.phi, "", "0 to 1");
    if (!(b.gamma > 0.0 && std::isfinite(b.gamma)))
        throw_out_of_range("breakage exponent gamma", b.gamma, "", "above 0");
    if (!(b.beta > 0.0 && std::isfinite(b.beta)))
        throw_out_of_range("breakage exponent beta", b.beta, "", "above 0");

    if (!(model.cushioning >= least_cushioning && std::isfinite(model.cushioning)))
        throw_out_of_range("cushioning", model.cushioning, "", "-0.4 or more");
    cushioning_ = model.cushioning;
    const auto size = [&](std::size_t i) { return in_metres(model.class_sizes[i]); };
    rates_.assign(n, 0.0);
    for (std::size_t i = 0; i + 1 < n; ++i)
        rates_[i] = a * std::pow(size(i) / size(0), alpha);
    fragments_.assign(n * n, 0.0);
    for (std::size_t j = 0; j + 1 < n; ++j) {
        double finer = 1.0;
        for (std::size_t i = j + 1; i < n; ++i) {
            const double next = i + 1 < n ? cumulative_breakage(b, size(i + 1) / size(j + 1)) : 0.0;
            fragments_[i * n + j] = std::max(0.0, finer - next);
            finer = next;
        }
    }
    uniform_rate_ = *std::max_element(rates_.begin(), rates_.end());
    jump_.assign(n * (n + 1) / 2, 0.0);
    if (!(uniform_rate_ > 0.0)) return;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j <= i; ++j) {
            const double leaves = rates_[j] / uniform_rate_;
            jump_[i * (i + 1) / 2 + j] = i == j ? 1.0 - leaves : fragments_[i * n + j] * leaves;
        }
}

double PopulationBalance::fragments(std::size_t i, std::size_t j) const {
    return fragments_.at(i * classes() + j);
}

void PopulationBalance::grind_unhindered(std::span<double> masses, Time first_order) const {
    if (masses.size() != classes())
        throw DomainError("class masses", std::to_string(masses.size()),
                          std::to_string(classes()) + ", one per class");
    for (const double m : masses)
        if (!(m >= 0.0 && std::isfinite(m))) throw_out_of_range("mass of a class", m, "", "0 or more");
    const double t = in_seconds(first_order);
    if (!(t >= 0.0 && std::isfinite(t))) throw_out_of_range("grinding time", t / 60.0, "min", "0 or more");
    const double span = uniform_rate_ * t, before = total(masses);
    if (!(span > 0.0 && before > 0.0)) return;
    if (!std::isfinite(span)) throw_out_of_range("breakages of the coarsest grain", span, "", "finite");
    if (span <= squaring_from)
        substeps(masses, span);
    else
        squared(masses, span);
    restore_total(masses, before);
}

void PopulationBalance::grind(std::span<double> masses, Time time) const {
    if (!cushioned()) return grind_unhindered(masses, time);
    const double t = in_seconds(time), all = total(masses);
    if (!(t > 0.0 && all > 0.0)) return grind_unhindered(masses, time);
    // Fines only grow, so t(s) bends one way and this start lies on the side from which Newton comes down.
    const std::vector<double> before(masses.begin(), masses.end());
    double s = t / (1.0 + cushioning_ * before.back() / all);
    for (int i = 0; i < 60; ++i) {
        std::copy(before.begin(), before.end(), masses.begin());
        grind_unhindered(masses, seconds(s));
        const double over = in_seconds(clock_time(before, masses, seconds(s))) - t;
        const double step = over / (1.0 + cushioning_ * masses.back() / all);
        s = std::max(0.0, s - step);
        if (std::abs(step) <= 1e-13 * t) return;
    }
}

double PopulationBalance::fines_over_time(std::span<const double> before, std::span<const double> after,
                                          Time first_order) const {
    const std::size_t n = classes();
    const double s = in_seconds(first_order);
    constexpr std::size_t few = 32;
    double near_broken[few];
    std::vector<double> far;
    if (n > few) far.resize(n);
    const std::span<double> broken(n > few ? far.data() : near_broken, n); // S_j W_j
    double all = 0.0, coarser = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        all += before[i];
        double came = before[i] - after[i];
        for (std::size_t j = 0; j < i; ++j)
            came += fragments_[i * n + j] * broken[j];
        broken[i] = came;
        if (i + 1 < n) coarser += rates_[i] > 0.0 ? came / rates_[i] : before[i] * s;
    }
    return all * s - coarser;
}

Time PopulationBalance::clock_time(std::span<const double> before, std::span<const double> after,
                                   Time first_order) const {
    const double all = total(before);
    if (!(cushioned() && all > 0.0)) return first_order;
    return first_order + seconds(cushioning_ * fines_over_time(before, after, first_order) / all);
}

void PopulationBalance::flow(std::span<const double> masses, std::span<double> out) const {
    const std::size_t n = classes();
    for (std::size_t i = 0; i < n; ++i) {
        out[i] = -rates_[i] * masses[i];
        for (std::size_t j = 0; j < i; ++j)
            out[i] += fragments_[i * n + j] * rates_[j] * masses[j];
    }
}

void PopulationBalance::substeps(std::span<double> masses, double span) const {
    const std::size_t n = masses.size();
    const double count = std::ceil(span / longest_substep), step = span / count;
    constexpr std::size_t few = 32;
    double near_power[few], near_sum[few];
    std::vector<double> far;
    if (n > few) far.resize(2 * n);
    const std::span<double> power(n > few ? far.data() : near_power, n),
        sum(n > few ? far.data() + n : near_sum, n);
    for (double done = 0.0; done < count; done += 1.0) {
        double weight = std::exp(-step), given = weight;
        for (std::size_t i = 0; i < n; ++i)
            power[i] = masses[i], sum[i] = weight * masses[i];
        // What the terms left out could still add is below 1 - given.
        for (double k = 1.0; given < 1.0 - 1e-16 && k < 400.0; k += 1.0) {
            jump(jump_, power);
            weight *= step / k;
            if (weight < 1e-19 && k > step) break;
            given += weight;
            for (std::size_t i = 0; i < n; ++i)
                sum[i] += weight * power[i];
        }
        for (std::size_t i = 0; i < n; ++i)
            masses[i] = sum[i];
    }
}

void PopulationBalance::squared(std::span<double> masses, double span) const {
    const std::size_t n = masses.size();
    int halvings = 0;
    double base = span;
    while (base > squaring_base)
        base *= 0.5, ++halvings;
    std::vector<double> columns(n * n, 0.0), next(n * n);
    for (std::size_t j = 0; j < n; ++j) {
        const std::span<double> column(columns.data() + j * n, n);
        column[j] = 1.0;
        substeps(column, base);
        restore_total(column, 1.0);
    }
    for (int s = 0; s < halvings; ++s) {
        for (std::size_t j = 0; j < n; ++j) {
            const std::span<double> column(next.data() + j * n, n);
            std::fill(column.begin(), column.end(), 0.0);
            for (std::size_t k = j; k < n; ++k)
                for (std::size_t i = k; i < n; ++i)
                    column[i] += columns[k * n + i] * columns[j * n + k];
            restore_total(column, 1.0);
        }
        columns.swap(next);
    }
    std::vector<double> out(n, 0.0);
    for (std::size_t j = 0; j < n; ++j)
        for (std::size_t i = j; i < n; ++i)
            out[i] += columns[j * n + i] * masses[j];
    std::copy(out.begin(), out.end(), masses.begin());
}

double residue_above(std::span<const double> fractions, std::size_t limit) {
    if (limit < 1 || limit >= fractions.size())
        throw_out_of_range("class limit", static_cast<double>(limit), "",
                           "1 to the number of classes less one");
    return total(fractions.first(limit));
}

std::size_t class_limit(const BreakageModel& model, Length screen) {
    const double wanted = in_metres(screen);
    for (std::size_t i = 1; i < model.class_sizes.size(); ++i)
        if (std::abs(in_metres(model.class_sizes[i]) - wanted) <= 1e-6 * wanted) return i;
    std::string seen;
    for (std::size_t i = 1; i < model.class_sizes.size(); ++i)
        seen += (i > 1 ? ", " : "") + micrometre_text(model.class_sizes[i]);
    throw DomainError("target screen", micrometre_text(screen), "a screen of the sieve tests: " + seen,
                      "sieve both tests over the target screen too");
}

Time time_to_residue(const PopulationBalance& balance, std::span<const double> feed, std::size_t limit,
                     double target, Time longest) {
    if (!(target > 0.0 && target < 1.0))
        throw_out_of_range("target residue", target * 100.0, "%", "above 0 and below 100 %");
    const double all = total(feed), wanted = target * all;
    std::vector<double> masses(feed.begin(), feed.end());
    if (residue_above(masses, limit) <= wanted) return seconds(0);
    // In first-order time, which the clock follows at the end.
    const auto too_long = [&] {
        return DomainError("time to the target residue", "over " + fixed_text(in_hours(longest), 0) + " h",
                           "a target that this grinding reaches", "use a finer mortar, or levigate");
    };
    const auto on_the_clock = [&](double first_order) {
        if (!balance.cushioned()) return seconds(first_order);
        std::vector<double> after(feed.begin(), feed.end());
        balance.grind_unhindered(after, seconds(first_order));
        const Time time = balance.clock_time(feed, after, seconds(first_order));
        if (time > longest) throw too_long();
        return time;
    };
    // March in doubling steps to bracket the moment, then halve; each step starts from the last below it. Where fines
    // hasten the grains the clock lags behind first-order time, by 1 + c at the most.
    const double most = in_seconds(longest) / (1.0 + std::min(0.0, balance.cushioning()));
    double low = 0.0, step = std::min(60.0, most);
    std::vector<double> at_low = masses;
    while (true) {
        masses = at_low;
        balance.grind_unhindered(masses, seconds(step));
        if (residue_above(masses, limit) <= wanted) break;
        low += step;
        at_low = masses;
        if (low >= most) throw too_long();
        step = std::min(2.0 * step, most - low);
    }
    // The residue falls nearly exponentially: false position on its logarithm, halving whenever an end
    // sticks (the Illinois rule), so that a handful of grinds is enough.
    const auto excess = [&](double t) {
        masses = at_low;
        balance.grind_unhindered(masses, seconds(t));
        return std::log(std::max(residue_above(masses, limit), 1e-300) / wanted);
    };
    double begin = 0.0, end = step, at_begin = excess(0.0), at_end = excess(step);
    int stuck = 0;
    for (int i = 0; i < 200 && end - begin > 1e-12 * (low + end); ++i) {
        double t = begin + (end - begin) * at_begin / (at_begin - at_end);
        if (!(t > begin && t < end)) t = 0.5 * (begin + end);
        const double f = excess(t);
        if (std::abs(f) < 1e-14) return on_the_clock(low + t);
        if (f > 0.0) {
            begin = t, at_begin = f;
            if (stuck == 1) at_end *= 0.5;
            stuck = 1;
        } else {
            end = t, at_end = f;
            if (stuck == -1) at_begin *= 0.5;
            stuck = -1;
        }
    }
    return on_the_clock(low + end);
}

} // namespace lakebound
