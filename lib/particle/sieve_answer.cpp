#include "lakebound/particle/sieve_answer.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

namespace {

bool is_screen_of(const SieveAnalysis& analysis, Length size) {
    return std::any_of(analysis.fractions.begin(), analysis.fractions.end(), [&](const SieveFraction& row) {
        return row.aperture && std::abs(*row.aperture / size - 1.0) < 1e-6;
    });
}

void fit_curves(SieveAnswer& answer) {
    if (answer.record.test.screens.size() < 2) {
        answer.no_fit.emplace_back("one screen gives one point, and a curve needs two at least");
        return;
    }
    std::vector<SizeFit> fits;
    for (const auto model :
         {SizeModel::rosin_rammler, SizeModel::lognormal, SizeModel::gates_gaudin_schuhmann}) {
        FittedCurve curve;
        try {
            curve.fit = fit_size(answer.curve, model, FitMethod::non_linear);
        } catch (const DomainError& error) {
            answer.no_fit.push_back(std::string(word_of(model)) + ": " + error.what());
            continue;
        }
        try {
            curve.straight_line = fit_size(answer.curve, model, FitMethod::linearised);
        } catch (const DomainError&) {
            // The other method answered; its result stands alone.
        }
        if (answer.target) {
            curve.at_target = predicted_passing(curve.fit, answer.target->residue_screen);
            curve.at_grain = predicted_passing(curve.fit, answer.target->grain.value());
            if (is_screen_of(answer.analysis, answer.target->residue_screen))
                curve.residual_at_target =
                    residual_at(curve.fit, answer.curve, answer.target->residue_screen);
        }
        fits.push_back(curve.fit);
        answer.fits.push_back(std::move(curve));
    }
    if (fits.empty()) return;
    std::optional<Length> target;
    if (answer.target && is_screen_of(answer.analysis, answer.target->residue_screen))
        target = answer.target->residue_screen;
    answer.best = choose_fit(fits, answer.curve, target);
}

void estimate_surface(SieveAnswer& answer) {
    const auto& record = answer.record;
    if (!record.density) return;
    // Half the finest screen for what passed it: the guess that decides most of the answer.
    const SurfaceAssumption assumed{0.5 * record.test.screens.back().aperture, std::nullopt};
    answer.surface = surface_estimate(answer.curve, *record.density, assumed);
    answer.surface_assumed = assumed;
}

void judge(SieveAnswer& answer) {
    const auto& target = *answer.target;
    const auto& test = answer.record.test;
    SieveVerdict verdict;
    verdict.residue = residue_over(answer.analysis, target.residue_screen);
    if (answer.repeats_to)
        verdict.residue.repeatability =
            sieving_deviation(answer.repeats_to->value(), verdict.residue.share.value());
    verdict.with_loss = residue_with_loss(verdict.residue, answer.analysis);
    const auto allowed = target.allowed_residue.value();
    verdict.verdict = judge_fineness(verdict.residue, verdict.with_loss, allowed);
    verdict.as_weighed = verdict.residue.share > allowed ? FinenessVerdict::too_coarse : FinenessVerdict::fine_enough;
    if (verdict.verdict == FinenessVerdict::cannot_tell) {
        Residue sure = verdict.residue;
        sure.standard_uncertainty = sure.repeatability = 0.0;
        const bool by_loss = judge_fineness(sure, verdict.with_loss, allowed) == FinenessVerdict::cannot_tell;
        const bool by_repeat =
            judge_fineness(verdict.residue, std::nullopt, allowed) == FinenessVerdict::cannot_tell;
        const bool by_reach = judge_fineness(sure, std::nullopt, allowed) == FinenessVerdict::cannot_tell;
        verdict.turned_by = by_reach               ? VerdictTurnedBy::reach
                            : by_loss == by_repeat ? VerdictTurnedBy::both
                            : by_loss              ? VerdictTurnedBy::loss
                                                   : VerdictTurnedBy::repeatability;
    }
    verdict.next = screening_advice(target.residue_screen, target);
    verdict.last = screening_advice(target.grain.value(), target);
    verdict.clogs = answer.record.method == SieveMethod::dry && dry_sieving_clogs(answer.analysis, target);
    if (test.scale_step) {
        const Mass charge = test.charge ? *test.charge : answer.analysis.recovered;
        verdict.smallest_seen = smallest_residue_seen(charge, *test.scale_step);
        if (*verdict.smallest_seen > target.allowed_residue.value())
            verdict.charge_to_see = charge_to_see(target.allowed_residue.value(), *test.scale_step);
    }
    answer.verdict = verdict;
}

} // namespace

SieveAnswer read_sieving(const SieveQuestion& question) {
    SieveAnswer answer;
    answer.record = question.record;
    answer.target = question.target;
    answer.repeats_to = question.repeats_to;
    answer.water_depth = question.water_depth;
    const auto& test = answer.record.test;
    answer.analysis = analyse(test);
    answer.curve = passing_curve(answer.analysis);
    if (test.screens.size() >= 2) answer.percentiles = percentiles(answer.curve);
    fit_curves(answer);
    try {
        answer.fineness_modulus = fineness_modulus(answer.analysis);
        constexpr double as_marked = 0.999; // an aperture is typed in three digits
        answer.of_sand = test.screens.front().aperture > as_marked * sand_screen;
    } catch (const DomainError&) {
        // It is defined on a ladder of screens that this test did not use.
    }
    if (answer.record.method == SieveMethod::wet && test.screens.size() == 1 && test.scale_step)
        // analyse() has found what is above the charge to be the scale's doing.
        answer.wet = wet_residue(*test.charge, std::min(test.screens.front().retained, *test.charge), *test.scale_step);
    estimate_surface(answer);
    for (const auto& row : answer.analysis.fractions)
        if (row.aperture && row.cumulative_retained.value() > 0.0 && row.passing.value() > 0.0)
            answer.regrind.push_back({*row.aperture, residue_over(answer.analysis, *row.aperture),
                                       row.cumulative_retained.value() * answer.analysis.recovered});
    if (answer.target) judge(answer);
    return answer;
}

bool falls_short(const SieveAnswer& answer) noexcept {
    return answer.analysis.closure == Closure::loss_high ||
           (answer.verdict && answer.verdict->verdict == FinenessVerdict::too_coarse);
}

} // namespace lakebound
