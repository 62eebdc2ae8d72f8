#include "lakebound/paint/chance.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/material/density.hpp"

namespace lakebound {
namespace {

Provenance judged() { return {Origin::estimate, "", false}; }

// The inputs, and the plain numbers that the model puts them to.
struct FilmModel {
    struct PigmentTerms {
        Mass mass;
        std::size_t oil_absorption, test_oil, density, moisture, weighing; // indices of inputs
        bool bone_dry = false;
        MassFraction water;
    };
    struct BinderTerm {
        Volume volume;
        std::size_t weighing;
    };
    std::vector<UncertainInput> inputs;
    std::vector<ChanceInput> kinds;
    std::vector<std::string> subjects;
    std::vector<PigmentTerms> pigments;
    std::vector<BinderTerm> binder;
    std::size_t index = 0, solids = 0, density = 0, transfer = 0;

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
                                x[transfer];
            film.push_back({p.mass * (x[p.moisture] * x[p.weighing]),
                            p.bone_dry ? moist_density(as_given, p.water) : as_given, demand});
        }
        Volume volume;
        for (const BinderTerm& b : binder)
            volume += b.volume * x[b.weighing];
        // A binder cannot reach more than all voids; draws beyond count as all.
        const double e = std::min(1.0, std::max(0.1, x[index]));
        return film_state(film, volume * (x[solids] * x[density]), BinderIndex::from_proven(e));
    }
};

double relative(Mass uncertainty, Mass mass) {
    return mass.value() > 0.0 ? uncertainty.value() / mass.value() : 0.0;
}

// Standard uncertainty of what a line brings, through its stock solution when it has one.
double weighing_spread(const Weighing& line, const Bench& bench) {
    if (line.stock)
        return relative(standard_uncertainty(bench.scales.at(best_scale(bench, line.stock->stock))),
                        line.stock->stock);
    return relative(standard_uncertainty(bench.scales.at(line.scale)) * std::sqrt(double(line.portions)),
                    line.exact);
}

FilmModel model_of(const BatchRequest& request, const Batch& batch) {
    const Recipe& recipe = request.recipe;
    FilmModel m;
    for (const Weighing& line : batch.sheet.slab) {
        const double spread = weighing_spread(line, request.bench);
        if (line.part == SheetPart::pigment) {
            const Pigment& p = recipe.pigments[line.index].pigment;
            const std::string of = " of " + (p.name.empty() ? p.id : p.name);
            FilmModel::PigmentTerms t{};
            t.mass = batch.composition.pigments[line.index];
            if (!(t.mass.value() > 0.0)) continue;
            t.bone_dry = p.density_state == MoistureState::bone_dry;
            if (p.moisture) t.water = p.moisture->value();
            t.oil_absorption = m.add(ChanceInput::oil_absorption, p.id,
                                     uncertain_input("oil absorption" + of, p.oil_absorption));
            t.test_oil = m.add(ChanceInput::test_oil_density, p.id,
                               uncertain_input("density of the test oil" + of, p.test_oil_density));
            t.density = m.add(ChanceInput::pigment_density, p.id, uncertain_input("density" + of, p.density));
            // Where a moisture is stated, by the maker or the shelf, its own uncertainty decides.
            const double damp = p.moisture
                                    ? p.moisture->standard_uncertainty() / (1.0 - p.moisture->value().value())
                                    : unmeasured_moisture_spread;
            t.moisture = m.add_factor(ChanceInput::moisture, p.id, "moisture" + of, Shape::lognormal, damp);
            t.weighing =
                m.add_factor(ChanceInput::pigment_weighing, p.id, "weighing" + of, Shape::normal, spread);
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
            m.binder.push_back({volume, m.add_factor(ChanceInput::binder_weighing, line.id,
                                                     "weighing of " + name, Shape::normal, spread)});
        }
    }
    const Family& family = recipe.family;
    m.index = m.add(ChanceInput::binder_index, "", uncertain_input("binder index", family.binder_index));
    m.solids = m.add_factor(ChanceInput::binder_solids, "", "binder solids", Shape::lognormal,
                            family.binder_solids_spread);
    m.density = m.add_factor(ChanceInput::binder_density, "", "binder density", Shape::lognormal,
                             family.binder_density_spread);
    m.transfer = m.add_factor(ChanceInput::method_transfer, "", "from the oil rub-out to this binder",
                              Shape::lognormal, family.method_transfer);
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
        return spread.weighing;
    case ChanceInput::binder_index:
    case ChanceInput::method_transfer:
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
    LogSpread s{0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    const double rest = 1.0 - std::exp(chance.ln_pvc.value);
    for (std::size_t i = 0; i < chance.kinds.size(); ++i) {
        const bool density = chance.kinds[i] == ChanceInput::pigment_density;
        const double part = density ? (rest > 0.0 ? chance.ln_pvc.lines[i].contribution / rest : 0.0)
                                    : chance.ln_k.lines[i].contribution;
        double& term = term_of(s, chance.kinds[i]);
        term = std::hypot(term, part);
    }
    return s;
}

DrawnFilm draw_film(const FilmModel& model, const SufficiencyWindow& w, const ChanceOptions& options) {
    MonteCarloOptions how;
    how.draws = options.draws;
    how.seed = options.seed;
    how.drawing = options.drawing;
    how.threads = options.threads;
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
    JointBudget joint = joint_budget(logarithms, 4, model.inputs);

    BatchChance c;
    c.kinds = model.kinds;
    c.subjects = model.subjects;
    c.ln_k = joint.outputs[0];
    c.ln_pvc = joint.outputs[1];
    c.ln_cpvc = joint.outputs[2];
    c.ln_reduced_pvc = joint.outputs[3];
    c.sigma = c.ln_k.standard_uncertainty;
    c.k_uncertainty = batch.film.k.value() * c.sigma;
    c.pvc_uncertainty = batch.film.pvc.value() * c.ln_pvc.standard_uncertainty;
    c.cpvc_uncertainty = batch.film.cpvc.value() * c.ln_cpvc.standard_uncertainty;
    c.reduced_pvc_uncertainty = batch.film.reduced_pvc.value() * c.ln_reduced_pvc.standard_uncertainty;
    c.pvc_cpvc_correlation = joint.correlation(1, 2);
    const SufficiencyWindow& w = request.recipe.family.window;
    const BinderSufficiency k = batch.film.k;
    c.chances.underbound = chance_below(k, c.sigma);
    c.chances.below_amber = chance_below(k, c.sigma, w.amber_low);
    c.chances.below_green = chance_below(k, c.sigma, w.green_low);
    c.chances.above_green = chance_above(k, c.sigma, w.green_high);
    c.chances.above_amber = chance_above(k, c.sigma, w.amber_high);
    c.k_for_5_percent = sufficiency_for_risk(Probability::of(0.05), c.sigma);
    c.k_for_10_percent = sufficiency_for_risk(Probability::of(0.10), c.sigma);
    c.spread = gather(c);
    if (options.draws > 0) c.drawn = draw_film(model, w, options);
    return c;
}

} // namespace lakebound
