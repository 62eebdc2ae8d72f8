#include "lakebound/particle/settle_answer.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "lakebound/particle/extended_curve.hpp"
#include "lakebound/particle/record_error.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {

namespace {

void back_fit(SettleAnswer& answer) {
    if (!answer.question.test || !answer.question.test->grains) return;
    const auto& grains = *answer.question.test->grains;
    const Fluid water = water_at(answer.question.test->temperature.value_or(answer.question.temperature.value));
    try {
        answer.effective =
            effective_density(grains.size, grains.depth, grains.time, water, answer.question.density.value);
    } catch (const DomainError& error) {
        throw RecordError(error, RecordPart::timed_grains);
    }
    answer.slurry.grain = *answer.effective;
    answer.open = open_share(*answer.effective, answer.question.density.value, water);
}

void by_size(SettleAnswer& answer) {
    const auto& plan = answer.plan.how;
    for (const double share : {0.1, 0.25, 0.5, 0.8, 0.9, 1.0}) {
        const Length size = share * answer.question.cut;
        RecoveryRow row;
        row.size = size;
        row.falls =
            settling_time(size, plan.draw_depth, answer.slurry.grain, answer.water, answer.slurry.solids);
        for (unsigned n = 1; n <= plan.pours; ++n) {
            PourOff how = plan;
            how.pours = n;
            row.poured.push_back(pour_off_recovery(size, how, answer.slurry));
        }
        answer.recovery.push_back(std::move(row));
    }
}

/// A grain that floats is a fault of whoever gave its density.
void check_density(const SettleAnswer& answer) {
    try {
        check_sinks(answer.question.density.value, answer.water);
        if (const auto& test = answer.question.test; test && test->temperature)
            check_sinks(answer.question.density.value, water_at(*test->temperature));
    } catch (const DomainError& error) {
        if (answer.question.density.by == GivenBy::sieve_tests) throw RecordError(error, RecordPart::density);
        throw;
    }
}

void levigate_classes(SettleAnswer& answer) {
    const auto& test = answer.question.sieve->test;
    const auto analysis = analyse(test);
    auto curve = passing_curve(analysis);
    answer.charge = analysis.recovered;
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
        answer.carried_on = fits.at(choose_fit(fits, curve).index);
        curve = extended_curve(curve, *answer.carried_on, finest);
    }
    const Length lowest = std::min(finest, 0.5 * curve.points.front().size);
    const auto classes = size_classes(curve, lowest, 2.0 * curve.points.back().size);
    answer.levigated = levigate(classes, answer.plan.how, answer.slurry);
    answer.below_screens_guessed = true;
    // The guessed classes are one for the reader: through the finest screen.
    auto& all = answer.levigated->classes;
    LevigatedClass pan;
    pan.of.lower = lowest, pan.of.upper = screen;
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

void with_sieve_test(SettleAnswer& answer) {
    if (!answer.question.sieve) return;
    try {
        levigate_classes(answer);
    } catch (const DomainError& error) {
        throw RecordError(error, RecordPart::retained);
    }
}

} // namespace

SettleAnswer plan_settling(const SettleQuestion& question) {
    SettleAnswer answer;
    answer.question = question;
    answer.water = water_at(question.temperature.value);
    answer.slurry = {question.density.value, answer.water, question.solids};
    check_density(answer);
    back_fit(answer);
    const Length draw = question.draw.value_or(question.usual_draw.value() * question.depth);
    answer.at_cut = terminal_velocity(question.cut, answer.slurry.grain, answer.water);
    answer.hindered = hindered_velocity(answer.at_cut, question.solids);
    answer.plan =
        plan_levigation(question.cut, question.depth, draw, question.pours, answer.slurry, question.handling);
    answer.powder_per_half_litre = powder_in_volume(millilitres(500.0), question.density.value, answer.slurry);
    by_size(answer);
    with_sieve_test(answer);
    answer.too_fast = answer.plan.how.wait < question.shortest_wait;
    answer.too_slow = answer.plan.how.wait > question.longest_wait;
    answer.brownian = in_micrometres(question.cut) < 2.0;
    answer.crowded = answer.hindered < 0.75 * answer.at_cut.velocity;
    return answer;
}

bool cannot_be_done(const SettleAnswer& answer) noexcept { return answer.too_fast; }

} // namespace lakebound
