#include "lakebound/record/stepwise_mix.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "demand_check.hpp"
#include "demand_trials.hpp"
#include "gathered_nodes.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/paint/judgement.hpp"
#include "lakebound/paint/weighing.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/rounded_text.hpp"

namespace lakebound {
namespace {

constexpr std::size_t most_doses_ever = 12;
/// Where to begin, in sd of z below the even bet, and the way from dose to dose, in sd: what is tried.
constexpr double begins[] = {0.4, 0.7, 1.0, 1.3, 1.6, 2.0};
constexpr double gaps[] = {0.3, 0.4, 0.5, 0.65, 0.8, 1.0};

void check_question(const StepwiseQuestion& q) {
    if (!(q.powder.value() > 0.0 && std::isfinite(q.powder.value())))
        throw_out_of_range("powder of a batch", in_grams(q.powder), "g", "above 0, finite");
    if (q.most_doses < 1 || q.most_doses > most_doses_ever)
        throw DomainError("doses of a batch", std::to_string(q.most_doses), "1 to " + std::to_string(most_doses_ever));
    const Mass strokes = q.stroke_powder * static_cast<double>(q.most_doses);
    if (!(q.stroke_powder.value() >= 0.0 && strokes < q.powder))
        throw DomainError("powder of a batch", mass_text(q.powder), "more than its strokes take along, " + mass_text(strokes),
                          "mix more at once, or paint swatches beside the batch");
    if (!(q.price_per_stroke >= 0.0)) throw_out_of_range("price of a stroke", q.price_per_stroke, "", "0 or more");
    if (q.started && !(q.started->library_k.value() > 0.0 && std::isfinite(q.started->library_k.value())))
        throw_out_of_range("k of a batch that was begun", q.started->library_k.value(), "", "above 0, finite");
    if (q.bench.scales.empty()) throw DomainError("scales of the bench", "none", "one at least");
    if (!(q.paint.binder_per_medium.value() > 0.0))
        throw_out_of_range("dry binder of the medium", in_millilitres_per_gram(q.paint.binder_per_medium), "mL/g", "above 0");
}

std::size_t doses_left(const StepwiseQuestion& q) {
    if (!q.started) return q.most_doses;
    return q.started->chalks && q.started->strokes < q.most_doses ? q.most_doses - q.started->strokes : 0;
}

/// As it stands on the slab.
class Batch {
public:
    explicit Batch(const StepwiseQuestion& q) : q_(&q), powder_(q.powder) {
        if (!q.started) return;
        powder_ = powder_ - q.stroke_powder * static_cast<double>(q.started->strokes);
        ratio_ = ratio_of(q.started->library_k);
    }

    /// Medium that brings it to this k of the library, not rounded; below 0 where it holds more already.
    Mass wanted(BinderSufficiency k) const { return powder_ * (ratio_of(k) - ratio_); }
    std::size_t add(Mass wanted) {
        const std::size_t scale = best_scale(q_->bench, wanted);
        const Mass step = q_->bench.scales[scale].step;
        last_ = wanted > step ? rounded_to_step(wanted, q_->bench.scales[scale]) : step;
        ratio_ += last_ / powder_;
        return scale;
    }
    void stroke() { powder_ = powder_ - q_->stroke_powder; }

    Mass last() const { return last_; }
    Mass in_all() const { return q_->powder * ratio_; }
    BinderSufficiency k() const {
        return library_k(q_->paint, powder_, powder_ * ratio_ * q_->paint.binder_per_medium);
    }

private:
    /// Of medium to powder.
    double ratio_of(BinderSufficiency k) const {
        return k.value() * double(q_->paint.reference_demand / q_->paint.binder_per_medium) / q_->paint.binder_index.value();
    }

    const StepwiseQuestion* q_;
    Mass powder_, last_{};
    double ratio_ = 0.0;
};

/// What is believed along the way: the nodes, weighed anew after each stroke.
class Believed {
public:
    Believed(const DemandBelief& belief, const PaintGoal& goal)
        : belief_(belief), goal_(goal), nodes_(belief, goal.batch_spread) {
        weights_of(belief, chalked_);
    }

    /// Chance that this stroke chalks after all that did; `held` are then the weights had it not.
    double stroke(BinderSufficiency k, std::vector<double>& held) {
        const double before = total(chalked_);
        held.resize(chalked_.size());
        std::size_t i = 0;
        for (const auto& part : belief_.parts) {
            const OutcomeChances chances(belief_, part, std::log(k.value()), goal_.batch_spread, false);
            for (const auto& n : part.nodes) {
                const double lean = chances.lean(n);
                held[i] = chalked_[i] * (1.0 - lean);
                chalked_[i++] *= lean;
            }
        }
        return before > 0.0 ? total(chalked_) / before : 0.0;
    }
    const std::vector<double>& chalked() const { return chalked_; }

    /// Chance of the window at its best place, by a normal of the same variance: good enough to choose among plans.
    double about_in_window(const std::vector<double>& weights) const {
        double sum = 0.0, first = 0.0, second = 0.0;
        std::size_t i = 0;
        for (const auto& part : belief_.parts) {
            const double open = part.critical_spread * part.critical_spread;
            for (const auto& n : part.nodes) {
                const double w = weights[i++];
                sum += w;
                first += w * n.critical;
                second += w * (n.critical * n.critical + open);
            }
        }
        if (!(sum > 0.0)) return 0.0;
        const double mean = first / sum;
        const double sd = std::hypot(std::sqrt(std::max(second / sum - mean * mean, 0.0)), goal_.batch_spread);
        const double half = 0.5 * std::log(goal_.window.green_high.value() / goal_.window.green_low.value());
        return sd > 0.0 ? 2.0 * standard_normal_cdf(half / sd) - 1.0 : 1.0;
    }

    /// Brings a slab to where the window is likeliest met by these weights; nothing is taken out again, and after an
    /// outcome that cannot be nothing is added.
    LastDose last_dose(Batch slab, const std::vector<double>& weights) const {
        LastDose dose;
        if (!(total(weights) > 0.0)) {
            dose.in_all = slab.in_all();
            dose.library_k = slab.k();
            return dose;
        }
        const NormalMixture doubt = nodes_.doubt(weights);
        const Mass wanted = slab.wanted(likeliest_aim(doubt, goal_.window));
        if (wanted.value() > 0.0) {
            slab.add(wanted);
            dose.medium = slab.last();
        }
        dose.in_all = slab.in_all();
        dose.library_k = slab.k();
        dose.in_window = window_chances(dose.library_k, doubt, goal_.window).in_window;
        return dose;
    }

    static double total(const std::vector<double>& weights) {
        return std::accumulate(weights.begin(), weights.end(), 0.0);
    }

private:
    const DemandBelief& belief_;
    const PaintGoal& goal_;
    GatheredNodes nodes_;
    std::vector<double> chalked_;
};

/// Worth of a plan at a glance: masses as computed, every belief taken as normal.
double about_worth(const DemandBelief& belief, const StepwiseQuestion& q, std::size_t doses, double first, double gap) {
    Believed believed(belief, q.goal);
    double reached = 1.0, worth = 0.0;
    std::vector<double> held;
    for (std::size_t i = 0; i < doses; ++i) {
        const double chalks = believed.stroke(BinderSufficiency::of(std::exp(first + gap * static_cast<double>(i))), held);
        worth += reached * ((1.0 - chalks) * believed.about_in_window(held) - q.price_per_stroke);
        reached *= chalks;
    }
    return worth + reached * believed.about_in_window(believed.chalked());
}

StepwiseMix planned(const DemandBelief& belief, const StepwiseQuestion& q, std::size_t doses, double first, double gap) {
    StepwiseMix mix;
    mix.powder_scale = best_scale(q.bench, q.powder);
    Believed believed(belief, q.goal);
    Batch slab(q);
    double reached = 1.0, in_window = 0.0;
    std::vector<double> held;
    for (std::size_t i = 0; i < doses; ++i) {
        StepwiseDose dose;
        dose.scale = slab.add(slab.wanted(BinderSufficiency::of(std::exp(first + gap * static_cast<double>(i)))));
        dose.medium = slab.last();
        dose.in_all = slab.in_all();
        dose.library_k = slab.k();
        slab.stroke();
        const double chalks = believed.stroke(dose.library_k, held);
        dose.reached = Probability::from_proven(reached);
        dose.chalks = Probability::from_proven(chalks);
        dose.if_not = believed.last_dose(slab, held);
        in_window += reached * (1.0 - chalks) * dose.if_not.in_window.value();
        mix.strokes_expected += reached;
        reached *= chalks;
        mix.doses.push_back(dose);
    }
    mix.if_all_chalk = believed.last_dose(slab, believed.chalked());
    in_window += reached * mix.if_all_chalk.in_window.value();
    mix.in_window = Probability::from_proven(std::min(1.0, in_window));
    return mix;
}

} // namespace

bool wants_powder(const StepwiseMix& mix, Probability at_the_best) noexcept {
    return mix.doses.empty() && !(mix.if_all_chalk.medium.value() > 0.0) && at_the_best.value() - mix.if_all_chalk.in_window.value() > 0.1;
}

StepwiseMix stepwise_mix(const DemandBelief& belief, const StepwiseQuestion& question) {
    check_question(question);
    const double middle = std::log(even_bet(belief, question.goal.batch_spread).value()), sd = belief.flip_spread();
    const std::size_t doses = doses_left(question);
    // The first stroke lies a dose beyond what is on the slab, at least.
    const auto first_at = [&](double begin, double gap) {
        const double wanted = middle - begin * sd;
        return question.started ? std::max(wanted, std::log(question.started->library_k.value()) + gap * sd) : wanted;
    };
    double best = -1e9, best_begin = begins[0], best_gap = gaps[0];
    if (doses > 0)
        for (const double begin : begins)
            for (const double gap : gaps) {
                const double worth = about_worth(belief, question, doses, first_at(begin, gap), gap * sd);
                if (worth > best) best = worth, best_begin = begin, best_gap = gap;
            }
    return planned(belief, question, doses, first_at(best_begin, best_gap), best_gap * sd);
}

} // namespace lakebound
