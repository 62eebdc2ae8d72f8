#include <algorithm>
#include <cmath>
#include <utility>

#include "lakebound/particle/extended_curve.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/report/settle_report.hpp"

namespace lakebound {

namespace {

void back_fit(SettleSubject& subject) {
    if (!subject.question.test || !subject.question.test->grains) return;
    const auto& grains = *subject.question.test->grains;
    const Fluid water = water_at(subject.question.test->temperature.value_or(subject.question.temperature));
    subject.effective =
        effective_density(grains.size, grains.depth, grains.time, water, subject.question.density);
    subject.slurry.grain = *subject.effective;
}

void by_size(SettleSubject& subject) {
    const auto& plan = subject.plan.how;
    for (const double share : {0.1, 0.25, 0.5, 0.8, 0.9, 1.0}) {
        const Length size = share * subject.question.cut;
        RecoveryRow row;
        row.size = size;
        row.falls =
            settling_time(size, plan.draw_depth, subject.slurry.grain, subject.water, subject.slurry.solids);
        for (unsigned n = 1; n <= plan.pours; ++n) {
            PourOff how = plan;
            how.pours = n;
            row.poured.push_back(pour_off_recovery(size, how, subject.slurry));
        }
        subject.recovery.push_back(std::move(row));
    }
}

void with_sieve_test(SettleSubject& subject) {
    if (!subject.question.sieve) return;
    const auto& test = subject.question.sieve->test;
    const auto analysis = analyse(test);
    auto curve = passing_curve(analysis);
    subject.charge = analysis.recovered;
    if (curve.points.size() < 2)
        throw DomainError("number of screens of the sieve test", "1", "2 or more, to make a curve",
                          "sieve with more screens, or leave the sieve test out");
    const Length screen = curve.points.front().size;
    const Length finest = std::min(micrometres(1.0), 0.05 * screen);
    std::vector<SizeFit> fits;
    for (const auto model :
         {SizeModel::rosin_rammler, SizeModel::lognormal, SizeModel::gates_gaudin_schuhmann}) {
        try {
            fits.push_back(fit_size(curve, model));
        } catch (const DomainError&) {
            // The others, or a straight line to the finest size, serve as well.
        }
    }
    if (!fits.empty()) {
        subject.carried_on = fits.at(choose_fit(fits, curve).index);
        curve = extended_curve(curve, *subject.carried_on, finest);
    }
    const Length lowest = std::min(finest, 0.5 * curve.points.front().size);
    const auto classes = size_classes(curve, lowest, 2.0 * curve.points.back().size);
    subject.levigated = levigate(classes, subject.plan.how, subject.slurry);
    subject.below_screens_guessed = true;
    // The guessed classes are one for the reader: through the finest screen.
    auto& all = subject.levigated->classes;
    LevigatedClass pan{{lowest, screen, MassFraction::of(0.0)}, 0.0, 0.0};
    double share = 0.0;
    std::size_t merged = 0;
    while (merged < all.size() && all[merged].of.upper < screen * (1.0 + 1e-9)) {
        share += all[merged].of.share.value();
        pan.poured += all[merged].poured;
        pan.left += all[merged].left;
        ++merged;
    }
    pan.of.share = MassFraction::of(std::min(1.0, share));
    all.erase(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(merged));
    all.insert(all.begin(), pan);
}

} // namespace

SettleSubject settle_subject(const SettleQuestion& question) {
    SettleSubject subject;
    subject.question = question;
    subject.water = water_at(question.temperature);
    subject.slurry = {question.density, subject.water, question.solids};
    back_fit(subject);
    const Length draw = question.draw.value_or(0.8 * question.depth);
    subject.at_cut = terminal_velocity(question.cut, subject.slurry.grain, subject.water);
    subject.hindered = hindered_velocity(subject.at_cut, question.solids);
    subject.plan =
        plan_levigation(question.cut, question.depth, draw, question.pours, subject.slurry, question.handling);
    subject.powder_per_half_litre = powder_in_volume(millilitres(500.0), question.density, subject.slurry);
    by_size(subject);
    with_sieve_test(subject);
    const double wait = in_seconds(subject.plan.how.wait);
    subject.too_fast = wait < shortest_wait_s;
    subject.too_slow = wait > 24.0 * 3600.0;
    subject.brownian = in_micrometres(question.cut) < 2.0;
    subject.crowded = subject.hindered < 0.75 * subject.at_cut.velocity;
    return subject;
}

bool cannot_be_done(const SettleSubject& subject) noexcept { return subject.too_fast; }

DecantSubject decant_subject(std::string name, const InterfaceHeights& heights) {
    DecantSubject subject;
    subject.name = std::move(name);
    subject.heights = heights;
    subject.zone = fit_zone_settling(heights);
    subject.decant = decant_time(subject.zone, subject.within);
    subject.at = std::max(subject.decant, 2.0 * heights.interval);
    subject.blanket = interface_height(subject.zone, subject.at);
    subject.draw_to = clear_water_ends(subject.zone, subject.at, water_left_above());
    subject.drawn = heights.first - subject.draw_to;
    return subject;
}

} // namespace lakebound
