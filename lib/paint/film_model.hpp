#pragma once
// The film of a batch as a function of all that is doubtful in it: what chance.hpp sums to first order and draws.

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "lakebound/estimate/budget.hpp"
#include "lakebound/estimate/correlation.hpp"
#include "lakebound/material/density.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/chance.hpp"
#include "lakebound/paint/formulation.hpp"

namespace lakebound::detail {

/// A binder cannot reach more than all voids; what lies beyond counts as all.
inline double effective_index(double e) { return std::min(1.0, std::max(0.1, e)); }

/// The inputs, and the plain numbers that the model puts them to.
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
        return add(kind, subject, {name, {spread > 0.0 ? shape : Shape::exact, 1.0, spread}, {Origin::estimate, "", false}});
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

/// Of what was weighed, spooned or poured for a batch. Throws DomainError where a demand was learned for a paint of
/// more than one pigment.
FilmModel film_model(const BatchRequest& request, const Batch& batch);

} // namespace lakebound::detail
