#include "lakebound/paint/judgement.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound {
namespace {

double logarithm(BinderSufficiency k, const char* what) {
    if (!(k.value() > 0.0 && std::isfinite(k.value()))) throw_out_of_range(what, k.value(), "", "above 0");
    return std::log(k.value());
}

struct LogWindow {
    double low, high;
};
LogWindow logarithms(const SufficiencyWindow& w) {
    return {logarithm(w.green_low, "lower limit of the window of k"),
            logarithm(w.green_high, "upper limit of the window of k")};
}

double inside(double ln_k, const NormalMixture& doubt, const LogWindow& w) {
    return std::max(0.0, 1.0 - doubt.below(w.low - ln_k).value() - doubt.above(w.high - ln_k).value());
}

/// The chance that the film does the opposite of what the verdict says.
double chance_of_the_opposite(Verdict verdict, const WindowChances& c) {
    switch (verdict) {
    case Verdict::fails_under:
        return 1.0 - c.below_amber.value();
    case Verdict::fails_over:
        return 1.0 - c.above_amber.value();
    case Verdict::amber_under:
    case Verdict::green:
    case Verdict::amber_over:
        break;
    }
    return c.below_amber.value() + c.above_amber.value();
}

} // namespace

WindowChances window_chances(BinderSufficiency k, const NormalMixture& doubt, const SufficiencyWindow& w) {
    const double ln_k = logarithm(k, "binder sufficiency");
    const auto below = [&](BinderSufficiency limit) {
        return doubt.below(logarithm(limit, "limit of k") - ln_k);
    };
    const auto above = [&](BinderSufficiency limit) {
        return doubt.above(logarithm(limit, "limit of k") - ln_k);
    };
    return {below(BinderSufficiency::of(1.0)),
            below(w.amber_low),
            below(w.green_low),
            Probability::from_proven(inside(ln_k, doubt, logarithms(w))),
            above(w.green_high),
            above(w.amber_high)};
}

BinderSufficiency likeliest_aim(const NormalMixture& doubt, const SufficiencyWindow& window) {
    const LogWindow w = logarithms(window);
    const double middle = 0.5 * (w.low + w.high) - doubt.mean();
    if (doubt.is_normal()) return BinderSufficiency::of(std::exp(middle));
    // A skewed doubt moves the top off the middle, by less than half its spread.
    constexpr double golden = 0.6180339887498949;
    const double reach = std::max(0.5 * doubt.standard_deviation(), 1e-6);
    const auto near = [&](double x) { return doubt.roughly_between(w.low - x, w.high - x).value(); };
    double low = middle - reach, high = middle + reach;
    double x1 = high - golden * (high - low), x2 = low + golden * (high - low);
    double f1 = near(x1), f2 = near(x2);
    while (high - low > 2e-4) {
        if (f1 < f2) {
            low = x1, x1 = x2, f1 = f2;
            f2 = near(x2 = low + golden * (high - low));
        } else {
            high = x2, x2 = x1, f2 = f1;
            f1 = near(x1 = high - golden * (high - low));
        }
    }
    return BinderSufficiency::of(std::exp(0.5 * (low + high)));
}

BinderSufficiency nearest_aim(BinderSufficiency from, const NormalMixture& doubt, const SufficiencyWindow& window,
                              Probability accepted) {
    const LogWindow w = logarithms(window);
    const double wanted = 1.0 - accepted.value();
    const BinderSufficiency likeliest = likeliest_aim(doubt, window);
    double outside = from.value() > 0.0 ? logarithm(from, "binder sufficiency")
                                        : std::log(likeliest.value()) - 20.0,
           there = std::log(likeliest.value());
    if (!(inside(there, doubt, w) > wanted)) return likeliest;
    if (inside(outside, doubt, w) >= wanted) return from;
    // The chance rises all the way to the likeliest aim.
    while (std::abs(there - outside) > 1e-10) {
        const double middle = 0.5 * (there + outside);
        (inside(middle, doubt, w) >= wanted ? there : outside) = middle;
    }
    return BinderSufficiency::of(std::exp(there));
}

Judgement judge(BinderSufficiency k, const NormalMixture& doubt, const SufficiencyWindow& window,
                std::vector<Objection> objections) {
    constexpr double one_in_ten = 0.1;
    const Verdict said = verdict(k, window);
    const WindowChances chances = window_chances(k, doubt, window);
    const BinderSufficiency aim = likeliest_aim(doubt, window);
    return {k,
            said,
            chance_of_the_opposite(said, chances) < one_in_ten ? Certainty::sure : Certainty::doubtful,
            !fails(said) && !forbids(objections),
            std::move(objections),
            chances,
            aim,
            window_chances(aim, doubt, window).in_window};
}

const Objection* said_first(const Judgement& judgement) noexcept {
    if (judgement.objections.empty()) return nullptr;
    const Objection& gravest = judgement.objections.front();
    if (fails(judgement.verdict) && gravest.kind != ObjectionKind::does_not_bind) return nullptr;
    return &gravest;
}

} // namespace lakebound
