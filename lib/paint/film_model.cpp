#include "film_model.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound::detail {
namespace {

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
        return p.oil_absorption->provenance().origin == Origin::measured;
    };
    const auto guessed = [](const Pigment& p) {
        return p.oil_absorption->provenance().origin == Origin::estimate;
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
            const double spreads = a.oil_absorption->relative_uncertainty() * b.oil_absorption->relative_uncertainty();
            const double shared = shared_variance(a, b, request.practice);
            if (!(shared > 0.0 && spreads > 0.0)) continue;
            if (correlation.size() == 0) correlation = CorrelationMatrix(m.inputs.size());
            // Figures surer than what they are said to share are taken as one and the same doubt.
            const double smaller = std::min(a.oil_absorption->relative_uncertainty(),
                                            b.oil_absorption->relative_uncertainty());
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

} // namespace

FilmModel film_model(const BatchRequest& request, const Batch& batch) {
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
            const auto oil_absorption = uncertain_input("oil absorption" + of, p.oil_absorption.value());
            const auto test_oil = uncertain_input("density of the test oil" + of, p.test_oil_density);
            t.oil_absorption = m.add(ChanceInput::oil_absorption, p.id, learned ? known(oil_absorption) : oil_absorption);
            t.test_oil = m.add(ChanceInput::test_oil_density, p.id, learned ? known(test_oil) : test_oil);
            t.density = m.add(ChanceInput::pigment_density, p.id, uncertain_input("density" + of, p.density));
            // A rub-out was made on the powder as it is: of its moisture only the drift since then counts.
            const bool rubbed_out = p.oil_absorption->provenance().origin == Origin::measured;
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

} // namespace lakebound::detail
