#include "lakebound/paint/chance.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/estimate/lognormal_sum.hpp"
#include "lakebound/material/density.hpp"

namespace lakebound {
namespace {

Provenance judged() { return {Origin::estimate, "", false}; }

/// A binder cannot reach more than all voids; what lies beyond counts as all.
double effective_index(double e) { return std::min(1.0, std::max(0.1, e)); }

// The inputs, and the plain numbers that the model puts them to.
struct FilmModel {
    struct PigmentTerms {
        Mass mass;
        std::size_t oil_absorption, test_oil, density, moisture; // indices of inputs
        std::vector<std::size_t> amount; // factors of its mass: weighing, or tapped density and spooning
        bool bone_dry = false;
        MassFraction water;
        std::size_t part = 0; // index in the recipe's pigments
        double step = 1.0;    // from oil to this binder, as learned
    };
    struct BinderTerm {
        Volume volume;
        std::size_t weighing;
        bool is_medium = false;
    };
    std::vector<UncertainInput> inputs;
    std::vector<ChanceInput> kinds;
    std::vector<std::string> subjects;
    std::vector<PigmentTerms> pigments;
    std::vector<BinderTerm> binder;
    std::size_t index = 0, solids = 0, density = 0, transfer = 0, spooned = 0;
    CorrelationMatrix correlation; // size 0 where nothing is correlated

    std::size_t add(ChanceInput kind, const std::string& subject, UncertainInput input) {
        kinds.push_back(kind);
        subjects.push_back(subject);
        inputs.push_back(std::move(input));
        return inputs.size() - 1;
    }
    /// A factor around 1.
    std::size_t add_factor(ChanceInput kind, const std::string& subject, const std::string& name, Shape shape,
                           double spread) {
        return add(kind, subject, {name, {spread > 0.0 ? shape : Shape::exact, 1.0, spread}, judged()});
    }

    FilmState operator()(std::span<const double> x, std::vector<PigmentInFilm>& film) const {
        film.clear();
        for (const PigmentTerms& p : pigments) {
            const auto as_given = MassDensity::from_value(x[p.density]);
            const auto demand = binder_demand(OilAbsorption::from_proven(x[p.oil_absorption]),
                                              MassDensity::from_value(x[p.test_oil])) *
                                (x[transfer] * p.step);
            double amount = x[p.moisture];
            for (const std::size_t i : p.amount)
                amount *= x[i];
            film.push_back({p.mass * amount,
                            p.bone_dry ? moist_density(as_given, p.water) : as_given, demand});
        }
        Volume volume;
        for (const BinderTerm& b : binder)
            volume += b.volume * (x[b.weighing] * (b.is_medium ? x[spooned] : 1.0));
        return film_state(film, volume * (x[solids] * x[density]),
                          BinderIndex::from_proven(effective_index(x[index])));
    }
};

double relative(Mass uncertainty, Mass mass) {
    return mass.value() > 0.0 ? uncertainty.value() / mass.value() : 0.0;
}

// Standard uncertainty of what a line brings, through its stock solution when it has one.
double weighing_spread(const Weighing& line, const Bench& bench, const SmallAmountPractice& practice) {
    if (line.stock)
        return relative(standard_uncertainty(bench.scales.at(line.scale)),
                        line.stock->stock);
    if (line.drops) return practice.drop_spread / std::sqrt(double(line.drops->drops));
    return relative(standard_uncertainty(bench.scales.at(line.scale)) * std::sqrt(double(line.portions)),
                    line.exact);
}

/// Covariance of the logarithms of two oil absorptions: rub-outs share a hand, guesses of a class a guess.
double shared_variance(const Pigment& a, const Pigment& b, const BenchPractice& practice) {
    const auto measured = [](const Pigment& p) {
        return p.oil_absorption.provenance().origin == Origin::measured;
    };
    const auto guessed = [](const Pigment& p) {
        return p.oil_absorption.provenance().origin == Origin::estimate;
    };
    const double shared = measured(a) && measured(b) ? practice.rub_out.hand_and_oil
                          : guessed(a) && guessed(b) && a.pigment_class == b.pigment_class
                              ? practice.shared_guess
                              : 0.0;
    return shared * shared;
}

CorrelationMatrix correlation_of(const BatchRequest& request, const FilmModel& m) {
    CorrelationMatrix correlation;
    for (std::size_t i = 0; i < m.pigments.size(); ++i)
        for (std::size_t j = i + 1; j < m.pigments.size(); ++j) {
            const Pigment& a = request.recipe.pigments[m.pigments[i].part].pigment;
            const Pigment& b = request.recipe.pigments[m.pigments[j].part].pigment;
            const double spreads = a.oil_absorption.relative_uncertainty() * b.oil_absorption.relative_uncertainty();
            const double shared = shared_variance(a, b, request.practice);
            if (!(shared > 0.0 && spreads > 0.0)) continue;
            if (correlation.size() == 0) correlation = CorrelationMatrix(m.inputs.size());
            // Figures surer than what they are said to share are taken as one and the same doubt.
            const double smaller = std::min(a.oil_absorption.relative_uncertainty(),
                                            b.oil_absorption.relative_uncertainty());
            correlation.set(m.pigments[i].oil_absorption, m.pigments[j].oil_absorption,
                            std::min(shared, smaller * smaller) / spreads);
        }
    return correlation;
}

/// Spread of what the record leaves open beside solids and density of the binder, which have lines of their own.
double learned_spread(const BatchRequest& request) {
    const Family& family = request.recipe.family;
    const double all = request.learned_doubt->standard_deviation();
    return std::sqrt(std::max(0.0, all * all - family.binder_solids_spread * family.binder_solids_spread -
                                       family.binder_density_spread * family.binder_density_spread));
}

UncertainInput known(UncertainInput input) {
    input.distribution = {Shape::exact, input.distribution.location, 0.0};
    return input;
}

FilmModel model_of(const BatchRequest& request, const Batch& batch) {
    const bool learned = request.learned_doubt.has_value();
    if (learned && request.recipe.pigments.size() != 1)
        throw DomainError("pigments of a paint whose demand was learned", std::to_string(request.recipe.pigments.size()),
                          "1");
    const Recipe& recipe = request.recipe;
    FilmModel m;
    for (const Weighing& line : batch.sheet.slab) {
        const double spread = weighing_spread(line, request.bench, request.practice.small_amounts);
        if (line.part == SheetPart::pigment) {
            const Pigment& p = recipe.pigments[line.index].pigment;
            const std::string of = " of " + (p.name.empty() ? p.id : p.name);
            FilmModel::PigmentTerms t{};
            t.part = line.index;
            t.step = recipe.pigments[line.index].step_from_oil;
            t.mass = batch.composition.pigments[line.index];
            if (!(t.mass.value() > 0.0)) continue;
            t.bone_dry = p.density_state == MoistureState::bone_dry;
            if (p.moisture) t.water = p.moisture->value();
            const auto oil_absorption = uncertain_input("oil absorption" + of, p.oil_absorption);
            const auto test_oil = uncertain_input("density of the test oil" + of, p.test_oil_density);
            t.oil_absorption = m.add(ChanceInput::oil_absorption, p.id, learned ? known(oil_absorption) : oil_absorption);
            t.test_oil = m.add(ChanceInput::test_oil_density, p.id, learned ? known(test_oil) : test_oil);
            t.density = m.add(ChanceInput::pigment_density, p.id, uncertain_input("density" + of, p.density));
            // A rub-out was made on the powder as it is: of its moisture only the drift since then counts.
            const bool rubbed_out = p.oil_absorption.provenance().origin == Origin::measured;
            const double damp = learned ? 0.0
                                : p.moisture && !rubbed_out
                                    ? p.moisture->standard_uncertainty().value() / (1.0 - p.moisture->value().value())
                                    : request.practice.moisture_drift;
            t.moisture = m.add_factor(ChanceInput::moisture, p.id, "moisture" + of, Shape::lognormal, damp);
            const auto bulk = std::find_if(request.by_volume.begin(), request.by_volume.end(),
                                           [&line](const BulkPigment& b) { return b.pigment == line.index; });
            if (bulk == request.by_volume.end()) {
                t.amount = {
                    m.add_factor(ChanceInput::pigment_weighing, p.id, "weighing" + of, Shape::normal, spread)};
            } else {
                t.amount = {m.add(ChanceInput::tapped_density, p.id,
                                  {"tapped density" + of,
                                   {bulk->tapped_density.relative_uncertainty() > 0.0 ? Shape::lognormal
                                                                                      : Shape::exact,
                                    1.0, bulk->tapped_density.relative_uncertainty()},
                                   bulk->tapped_density.provenance()}),
                            m.add_factor(ChanceInput::spooning, p.id, "filling of the spoon" + of,
                                         Shape::lognormal, request.practice.spoon_filling)};
            }
            m.pigments.push_back(t);
        } else if (line.part == SheetPart::medium || line.part == SheetPart::additive) {
            Volume volume;
            if (line.part == SheetPart::medium)
                for (std::size_t i = 0; i < recipe.medium.parts.size(); ++i)
                    volume +=
                        dry_binder_volume(recipe.medium.parts[i].ingredient, batch.composition.medium_parts[i]);
            else
                volume = dry_binder_volume(recipe.additives[line.index].ingredient,
                                           batch.composition.additives[line.index]);
            if (!(volume.value() > 0.0)) continue;
            const std::string& name = line.name.empty() ? line.id : line.name;
            const bool is_medium = line.part == SheetPart::medium;
            const double by_scale = is_medium && request.medium_spooned > 0.0 ? 0.0 : spread;
            m.binder.push_back({volume,
                                m.add_factor(ChanceInput::binder_weighing, line.id, "weighing of " + name,
                                             Shape::normal, by_scale),
                                is_medium});
        }
    }
    const Family& family = recipe.family;
    const auto index = uncertain_input("binder index", family.binder_index);
    m.index = m.add(ChanceInput::binder_index, "", learned ? known(index) : index);
    m.solids = m.add_factor(ChanceInput::binder_solids, "", "binder solids", Shape::lognormal,
                            family.binder_solids_spread);
    m.density = m.add_factor(ChanceInput::binder_density, "", "binder density", Shape::lognormal,
                             family.binder_density_spread);
    m.transfer = learned ? m.add_factor(ChanceInput::learned_demand, recipe.pigments.front().pigment.id,
                                        "what your record leaves open", Shape::lognormal, learned_spread(request))
                         : m.add_factor(ChanceInput::method_transfer, "", "from the oil rub-out to this binder",
                                        Shape::lognormal, family.method_transfer);
    m.spooned = m.add_factor(ChanceInput::spooning, recipe.medium.id, "amount of the medium by the spoon",
                             Shape::lognormal, request.medium_spooned);
    m.correlation = correlation_of(request, m);
    return m;
}

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
    const FilmModel model = model_of(request, batch);
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
