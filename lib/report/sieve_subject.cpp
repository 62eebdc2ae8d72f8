#include <algorithm>
#include <array>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/report/sieve_report.hpp"

namespace lakebound {

namespace {

bool is_screen_of(const SieveAnalysis& analysis, Length size) {
    return std::any_of(analysis.fractions.begin(), analysis.fractions.end(), [&](const SieveFraction& row) {
        return row.aperture && std::abs(*row.aperture / size - 1.0) < 1e-6;
    });
}

void fit_curves(SieveSubject& subject) {
    if (subject.record.test.screens.size() < 2) {
        subject.no_fit.emplace_back("one screen gives one point, and a curve needs two at least");
        return;
    }
    std::vector<SizeFit> fits;
    for (const auto model :
         {SizeModel::rosin_rammler, SizeModel::lognormal, SizeModel::gates_gaudin_schuhmann}) {
        FittedCurve curve;
        try {
            curve.fit = fit_size(subject.curve, model, FitMethod::non_linear);
        } catch (const DomainError& error) {
            subject.no_fit.push_back(std::string(size_model_words(model)) + ": " + error.what());
            continue;
        }
        try {
            curve.straight_line = fit_size(subject.curve, model, FitMethod::linearised);
        } catch (const DomainError&) {
            // The other method answered; its result stands alone.
        }
        if (subject.target) {
            curve.at_target = predicted_passing(curve.fit, subject.target->residue_screen);
            curve.at_grain = predicted_passing(curve.fit, subject.target->grain.value());
            if (is_screen_of(subject.analysis, subject.target->residue_screen))
                curve.residual_at_target =
                    residual_at(curve.fit, subject.curve, subject.target->residue_screen);
        }
        fits.push_back(curve.fit);
        subject.fits.push_back(std::move(curve));
    }
    if (fits.empty()) return;
    std::optional<Length> target;
    if (subject.target && is_screen_of(subject.analysis, subject.target->residue_screen))
        target = subject.target->residue_screen;
    subject.best = choose_fit(fits, subject.curve, target);
}

void estimate_surface(SieveSubject& subject) {
    const auto& record = subject.record;
    if (!record.density) return;
    // Half the finest screen for what passed it: the guess that decides most of the answer.
    const SurfaceAssumption assumed{0.5 * record.test.screens.back().aperture, std::nullopt};
    subject.surface = surface_estimate(subject.curve, *record.density, assumed);
    subject.surface_assumed = assumed;
}

void judge(SieveSubject& subject) {
    const auto& target = *subject.target;
    const auto& test = subject.record.test;
    SieveVerdict verdict;
    verdict.residue = residue_over(subject.analysis, target.residue_screen);
    verdict.verdict = judge_fineness(verdict.residue, target.allowed_residue.value());
    verdict.with_loss = residue_with_loss(verdict.residue, subject.analysis);
    verdict.loss_decides = verdict.verdict == FinenessVerdict::fine_enough && verdict.with_loss &&
                           verdict.with_loss->high > target.allowed_residue.value().value();
    verdict.next = screening_advice(target.residue_screen, target);
    verdict.last = screening_advice(target.grain.value(), target);
    verdict.clogs = subject.record.method == SieveMethod::dry && dry_sieving_clogs(subject.analysis, target);
    if (test.scale_step) {
        const Mass charge = test.charge ? *test.charge : subject.analysis.recovered;
        verdict.smallest_seen = smallest_residue_seen(charge, *test.scale_step);
        if (*verdict.smallest_seen > target.allowed_residue.value())
            verdict.charge_to_see = charge_to_see(target.allowed_residue.value(), *test.scale_step);
    }
    subject.verdict = verdict;
}

} // namespace

SieveSubject sieve_subject(const SieveQuestion& question) {
    SieveSubject subject;
    subject.record = question.record;
    subject.target = question.target;
    const auto& test = subject.record.test;
    subject.analysis = analyse(test);
    subject.curve = passing_curve(subject.analysis);
    if (test.screens.size() >= 2) subject.percentiles = percentiles(subject.curve);
    fit_curves(subject);
    try {
        subject.fineness_modulus = fineness_modulus(subject.analysis);
    } catch (const DomainError&) {
        // It is defined on a ladder of screens that this test did not use.
    }
    if (subject.record.method == SieveMethod::wet && test.screens.size() == 1 && test.scale_step)
        subject.wet = wet_residue(*test.charge, test.screens.front().retained, *test.scale_step);
    estimate_surface(subject);
    for (const auto& row : subject.analysis.fractions)
        if (row.aperture && row.cumulative_retained.value() > 0.0 && row.passing.value() > 0.0)
            subject.regrind.push_back({*row.aperture, residue_over(subject.analysis, *row.aperture),
                                       row.cumulative_retained.value() * subject.analysis.recovered});
    if (subject.target) judge(subject);
    return subject;
}

bool falls_short(const SieveSubject& subject) noexcept {
    return subject.analysis.closure == Closure::loss_high ||
           (subject.verdict && subject.verdict->verdict == FinenessVerdict::too_coarse);
}

} // namespace lakebound
