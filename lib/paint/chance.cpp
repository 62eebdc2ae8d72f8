#include "lakebound/paint/chance.hpp"

#include <algorithm>
#include <cmath>

#include "film_model.hpp"
#include "lakebound/estimate/lognormal_sum.hpp"
#include "lakebound/material/density.hpp"

namespace lakebound {
namespace {

using detail::effective_index;
using detail::FilmModel;

double& term_of(LogSpread& spread, ChanceInput kind) {
    switch (kind) {
    case ChanceInput::oil_absorption:
    case ChanceInput::test_oil_density:
        return spread.oil_absorption;
    case ChanceInput::pigment_density:
        return spread.pigment_density;
    case ChanceInput::moisture:
        return spread.moisture;
    case ChanceInput::pigment_weighing:
    case ChanceInput::binder_weighing:
    case ChanceInput::tapped_density:
    case ChanceInput::spooning:
        return spread.weighing;
    case ChanceInput::binder_index:
    case ChanceInput::method_transfer:
    case ChanceInput::learned_demand:
        return spread.method_transfer;
    case ChanceInput::binder_solids:
        return spread.binder_solids;
    case ChanceInput::binder_density:
        return spread.binder_density;
    }
    return spread.method_transfer;
}

// Root sum of squares of the contributions to ln k; the pigment density, which k does not know, by
// its contribution to the pigment volume.
LogSpread gather(const BatchChance& chance) {
    LogSpread s;
    const double rest = 1.0 - std::exp(chance.ln_pvc.value);
    const double variance = chance.ln_k.standard_uncertainty * chance.ln_k.standard_uncertainty;
    for (std::size_t i = 0; i < chance.kinds.size(); ++i) {
        double& term = term_of(s, chance.kinds[i]);
        if (chance.kinds[i] == ChanceInput::pigment_density)
            term = std::hypot(term, rest > 0.0 ? chance.ln_pvc.lines[i].contribution / rest : 0.0);
        else // the share holds what an input has in common with others
            term = std::sqrt(std::max(0.0, term * term + chance.ln_k.lines[i].share * variance));
    }
    return s;
}

NormalMixture doubt_of(const FilmModel& model, const Budget& ln_k) {
    const auto relative = [&](std::size_t i) {
        const Distribution& d = model.inputs[i].distribution;
        return d.location > 0.0 ? linear_uncertainty(d) / d.location : 0.0;
    };
    std::vector<bool> curved(model.inputs.size(), false);
    // The demand of a blend is a sum; ln k knows of one pigment's oil absorption by its share of that sum.
    std::vector<LognormalTerm> terms;
    std::vector<std::size_t> at;
    if (model.pigments.size() > 1)
        for (const auto& p : model.pigments)
            if (const std::size_t i = p.oil_absorption; relative(i) > 0.0) {
                terms.push_back({std::abs(ln_k.lines[i].contribution) / relative(i), relative(i)});
                at.push_back(i);
                curved[i] = true;
            }
    curved[model.index] = relative(model.index) > 0.0;
    double variance = 0.0;
    for (std::size_t i = 0; i < ln_k.lines.size(); ++i)
        if (!curved[i]) variance += ln_k.lines[i].contribution * ln_k.lines[i].contribution;
    const double rest = std::sqrt(variance);
    if (terms.empty() && !curved[model.index]) return NormalMixture(rest);

    double whole = 0.0;
    for (const LognormalTerm& term : terms)
        whole += term.share;
    for (LognormalTerm& term : terms) // the shares come from differences: their sum may pass 1 by a rounding
        term.share /= std::max(1.0, whole);
    CorrelationMatrix among(terms.size());
    if (model.correlation.size() > 0)
        for (std::size_t i = 0; i < at.size(); ++i)
            for (std::size_t j = i + 1; j < at.size(); ++j)
                if (const double r = model.correlation(at[i], at[j]); r != 0.0) among.set(i, j, r);
    const ShiftedLognormal demand = matched_sum(terms, among);
    const Distribution& index = model.inputs[model.index].distribution;
    const NormalGrid grid = normal_grid(0.3);
    const NormalGrid none{{0.0}, {1.0}};
    const NormalGrid &of_demand = terms.empty() ? none : grid, &of_index = curved[model.index] ? grid : none;
    std::vector<double> centres, weights;
    for (std::size_t a = 0; a < of_demand.z.size(); ++a)
        for (std::size_t b = 0; b < of_index.z.size(); ++b) {
            const double e = effective_index(at_standard_deviations(index, of_index.z[b])) / index.location;
            // The floor only guards the far tail, where the matched law might leave what a sum can be.
            const double sum = terms.empty() ? 1.0 : std::max(demand.at(of_demand.z[a]), 0.05);
            centres.push_back(std::log(e / sum));
            weights.push_back(of_demand.weights[a] * of_index.weights[b]);
        }
    return NormalMixture(rest, centres, weights);
}

DrawnFilm draw_film(const FilmModel& model, const SufficiencyWindow& w, const ChanceOptions& options) {
    MonteCarloOptions how;
    how.draws = options.draws;
    how.seed = options.seed;
    how.drawing = options.drawing;
    how.threads = options.threads;
    how.correlation = model.correlation;
    const auto outputs = [&model](std::span<const double> x, std::span<double> y) {
        thread_local std::vector<PigmentInFilm> film;
        const FilmState state = model(x, film);
        y[0] = state.k.value();
        y[1] = state.pvc.value();
        y[2] = state.cpvc.value();
        y[3] = state.reduced_pvc.value();
    };
    const MonteCarloDraws d = joint_monte_carlo(outputs, 4, model.inputs, how);
    DrawnFilm f;
    f.k = summarise(d, options.coverage, 0);
    f.pvc = summarise(d, options.coverage, 1);
    f.cpvc = summarise(d, options.coverage, 2);
    f.reduced_pvc = summarise(d, options.coverage, 3);
    f.underbound = probability_below(d, 1.0, 0);
    f.below_amber = probability_below(d, w.amber_low.value(), 0);
    f.below_green = probability_below(d, w.green_low.value(), 0);
    f.above_green = probability_above(d, w.green_high.value(), 0);
    f.above_amber = probability_above(d, w.amber_high.value(), 0);
    f.draws = d.count();
    f.refused = d.refused;
    double covariance = 0.0;
    for (std::size_t i = 0; i < d.count(); ++i)
        covariance += (d.outputs[1][i] - f.pvc.mean) * (d.outputs[2][i] - f.cpvc.mean);
    covariance /= static_cast<double>(d.count() - 1);
    const double spreads = f.pvc.standard_deviation * f.cpvc.standard_deviation;
    f.pvc_cpvc_correlation = spreads > 0.0 ? covariance / spreads : 0.0;
    return f;
}

} // namespace

double weighing_spread(const BatchChance& chance) {
    double variance = 0.0;
    for (std::size_t i = 0; i < chance.kinds.size(); ++i)
        switch (chance.kinds[i]) {
        case ChanceInput::pigment_weighing:
        case ChanceInput::binder_weighing:
        case ChanceInput::tapped_density:
        case ChanceInput::spooning:
            variance += chance.ln_k.lines[i].contribution * chance.ln_k.lines[i].contribution;
            break;
        default:
            break;
        }
    return std::sqrt(variance);
}

BatchChance batch_chance(const BatchRequest& request, const Batch& batch, const ChanceOptions& options) {
    const FilmModel model = detail::film_model(request, batch);
    std::vector<PigmentInFilm> film;
    const auto logarithms = [&](std::span<const double> x, std::span<double> y) {
        const FilmState state = model(x, film);
        y[0] = std::log(state.k.value());
        y[1] = std::log(state.pvc.value());
        y[2] = std::log(state.cpvc.value());
        y[3] = std::log(state.reduced_pvc.value());
    };
    BudgetOptions how;
    how.correlation = model.correlation;
    JointBudget joint = joint_budget(logarithms, 4, model.inputs, how);

    BatchChance c;
    c.kinds = model.kinds;
    c.subjects = model.subjects;
    c.ln_k = joint.outputs[0];
    c.ln_pvc = joint.outputs[1];
    c.ln_cpvc = joint.outputs[2];
    c.ln_reduced_pvc = joint.outputs[3];
    c.doubt = request.learned_doubt ? request.learned_doubt->widened(weighing_spread(c)) : doubt_of(model, c.ln_k);
    c.sigma = c.doubt.standard_deviation();
    c.k_uncertainty = batch.film.k.value() * c.sigma;
    c.pvc_uncertainty = batch.film.pvc.value() * c.ln_pvc.standard_uncertainty;
    c.cpvc_uncertainty = batch.film.cpvc.value() * c.ln_cpvc.standard_uncertainty;
    c.reduced_pvc_uncertainty = batch.film.reduced_pvc.value() * c.ln_reduced_pvc.standard_uncertainty;
    c.pvc_cpvc_correlation = joint.correlation(1, 2);
    c.k_for_5_percent = BinderSufficiency::of(std::exp(-c.doubt.quantile(0.05)));
    c.k_for_10_percent = BinderSufficiency::of(std::exp(-c.doubt.quantile(0.10)));
    c.spread = gather(c);
    if (options.draws > 0) c.drawn = draw_film(model, request.recipe.family.window, options);
    return c;
}

Aim chosen_aim(const BatchRequest& request, Mass pigment) {
    if (request.aim) return *request.aim;
    if (request.recipe.aim) return *request.recipe.aim;
    const Batch at_the_start = batch_of(request, pigment);
    return likeliest_aim(batch_chance(request, at_the_start).doubt, request.recipe.family.window);
}

} // namespace lakebound
