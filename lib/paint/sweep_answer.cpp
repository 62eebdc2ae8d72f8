#include "lakebound/paint/sweep_answer.hpp"

#include <array>
#include <utility>

#include "lakebound/paint/sweep.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {

namespace {

void check(const SweepWish& wish) {
    const auto most = wish.over == SweepOver::size_ratio ? greatest_size_ratio_sweep : greatest_sweep;
    if (wish.points < 2 || wish.points > most)
        throw DomainError("number of points of the sweep", std::to_string(wish.points),
                          "2 to " + std::to_string(most), "a curve is smooth with 100 points");
    if (!(wish.from <= wish.to))
        throw DomainError("range of the sweep", number_text(wish.from) + " to " + number_text(wish.to),
                          "from the smaller to the larger", "exchange its two ends");
}

/// The two pigments of a blend: the second is the extender.
std::array<BlendPigment, 2> pair_of(const PvcSubject& subject) {
    const auto& question = subject.question;
    const auto& parts = question.blend_measured ? question.blend_of : question.request.recipe.pigments;
    if (parts.size() != 2)
        throw DomainError("number of pigments in the paint", std::to_string(parts.size()), "two, the second the extender",
                          "name both with their amounts: 7 g of alumina-lake, then 3 g of chalk");
    if (!question.density_known || !question.oil_absorption_known)
        throw DomainError("density and oil absorption of the two pigments", "not all known", "known",
                          "give both of each pigment");
    return {blend_pigment(parts[0].pigment), blend_pigment(parts[1].pigment)};
}

struct Columns {
    explicit Columns(std::size_t n) : at(n), k(n), pvc(n), cpvc(n), reduced(n), chance(n) {}
    std::vector<double> at, k, pvc, cpvc, reduced, chance;
    SweepColumns spans() { return {at, k, pvc, cpvc, reduced, chance}; }
};

SweepAnswer answer_of(SweepFigure swept, Columns columns, const PvcSubject& subject) {
    SweepAnswer answer{.curves = {{swept, std::move(columns.at)}, {SweepFigure::k, std::move(columns.k)}},
                       .window = subject.family().window};
    if (subject.question.density_known) {
        answer.curves.push_back({SweepFigure::pvc, std::move(columns.pvc)});
        answer.curves.push_back({SweepFigure::cpvc, std::move(columns.cpvc)});
        answer.curves.push_back({SweepFigure::reduced_pvc, std::move(columns.reduced)});
    }
    answer.curves.push_back({SweepFigure::chance_underbound, std::move(columns.chance)});
    return answer;
}

double sigma_of(const PvcSubject& subject) {
    if (!subject.base.chance)
        throw DomainError("oil absorption of the pigment", "not known", "known", "give it: a rub-out of ten minutes tells it");
    return subject.base.chance->sigma;
}

SweepAnswer over_medium(const PvcSubject& subject, const SweepWish& wish) {
    const auto& formulation = subject.batch().formulation;
    MediumSweep sweep{MediumPerPigment::of(wish.from),
                      MediumPerPigment::of(wish.to),
                      formulation.medium.dry_binder,
                      formulation.binder_from_additives,
                      formulation.effective_demand,
                      formulation.pigment.density,
                      sigma_of(subject)};
    Columns columns(wish.points);
    sweep_medium(sweep, columns.spans());
    auto answer = answer_of(SweepFigure::medium_per_pigment, std::move(columns), subject);
    const auto now = formulation.medium_per_pigment;
    if (covers(sweep, now)) answer.here = now.value(), answer.k_here = subject.batch().film.k;
    return answer;
}

SweepAnswer over_extender(const PvcSubject& subject, const SweepWish& wish) {
    const auto pair = pair_of(subject);
    const auto& family = subject.family();
    const auto& batch = subject.batch();
    ExtenderSweep sweep{MassFraction::of(wish.from),
                        MassFraction::of(wish.to),
                        effective_demand(pair[0].demand, family.binder_index.value()),
                        effective_demand(pair[1].demand, family.binder_index.value()),
                        pair[0].density,
                        pair[1].density,
                        batch.volumes.dry_binder / batch.pigment,
                        sigma_of(subject)};
    Columns columns(wish.points);
    sweep_extender(sweep, columns.spans());
    // Binder that just fills: of the fixed binder, what k says is too much of it.
    SweepCurve fills{SweepFigure::binder_demand, std::vector<double>(wish.points)};
    for (std::size_t i = 0; i < wish.points; ++i)
        fills.values[i] = in_millilitres_per_gram(sweep.binder) / columns.k[i];
    auto answer = answer_of(SweepFigure::extender_mass_fraction, std::move(columns), subject);
    answer.curves.insert(answer.curves.begin() + 1, std::move(fills));
    return answer;
}

SweepAnswer over_size_ratio(const PvcSubject& subject, const SweepWish& wish) {
    const auto pair = pair_of(subject);
    std::vector<double> ratios(wish.points);
    const double step = (wish.to - wish.from) / static_cast<double>(wish.points - 1);
    for (std::size_t i = 0; i < ratios.size(); ++i)
        ratios[i] = i + 1 == ratios.size() ? wish.to : wish.from + step * static_cast<double>(i);
    const auto points = size_ratio_curve(pair[0], pair[1], subject.blend.value().volume_shares.at(1), ratios);
    const auto curve = [&points](SweepFigure figure, auto of) {
        SweepCurve made{figure, {}};
        for (const auto& point : points)
            made.values.push_back(of(point));
        return made;
    };
    SweepAnswer answer;
    answer.curves = {
        curve(SweepFigure::size_ratio, [](const SizeRatioPoint& point) { return point.ratio; }),
        curve(SweepFigure::additive_cpvc, [](const SizeRatioPoint& point) { return point.blend.additive_cpvc.value(); }),
        curve(SweepFigure::possible_cpvc,
              [](const SizeRatioPoint& point) { return point.blend.possible_cpvc.value().value(); }),
        curve(SweepFigure::possible_saving, [](const SizeRatioPoint& point) { return point.blend.possible_saving; })};
    return answer;
}

SweepAnswer swept(const PvcSubject& subject, const SweepWish& wish) {
    switch (wish.over) {
    case SweepOver::medium:
        return over_medium(subject, wish);
    case SweepOver::extender:
        return over_extender(subject, wish);
    case SweepOver::size_ratio:
        return over_size_ratio(subject, wish);
    }
    return {};
}

} // namespace

SweepWish usual_range(SweepOver over, const PvcSubject& subject) {
    const double now = subject.batch().formulation.medium_per_pigment.value();
    switch (over) {
    case SweepOver::medium:
        return {over, 0.25 * now, 2.0 * now, 8};
    case SweepOver::extender:
        return {over, 0.0, 1.0, 11};
    case SweepOver::size_ratio:
        return {over, 1.0, 30.0, 11};
    }
    return {};
}

SweepAnswer sweep_paint(const PvcSubject& subject, const SweepWish& wish) {
    check(wish);
    auto answer = swept(subject, wish);
    answer.over = wish.over;
    answer.paint = subject.question.title;
    return answer;
}

} // namespace lakebound
