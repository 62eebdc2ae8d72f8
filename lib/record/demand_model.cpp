#include "demand_model.hpp"

#include <algorithm>
#include <cmath>

#include "demand_trials.hpp"
#include "lakebound/estimate/gauss_hermite.hpp"

namespace lakebound {
namespace {

constexpr int jar_spread_nodes = 5;

double square(double a) { return a * a; }

NormalSum sorted(NormalSum sum) {
    std::sort(sum.sources.begin(), sum.sources.end());
    return sum;
}

} // namespace

double log_reading(const DemandRecord& record, const RubOutReading& reading) {
    return std::log(reading.oil_absorption.value() / record.jars[reading.jar].reference.value());
}

void DemandModel::add(NormalSum& sum, DemandSource what, std::size_t a, std::size_t b) {
    sum.sources.push_back(sources_.try_emplace({what, a, b}, sources_.size()).first->second);
}

NormalSum DemandModel::demand(std::size_t jar, std::size_t changes) {
    NormalSum sum;
    add(sum, DemandSource::plant, record_.jars[jar].plant);
    add(sum, DemandSource::jar, jar);
    for (std::size_t i = 0; i < changes; ++i)
        add(sum, DemandSource::change, jar, i);
    return sum;
}

NormalSum DemandModel::rub_out(std::size_t jar, std::size_t changes, std::size_t number) {
    NormalSum sum = demand(jar, changes);
    add(sum, DemandSource::hand);
    add(sum, DemandSource::repeat, number);
    return sorted(sum);
}

NormalSum DemandModel::powder(std::size_t jar, std::size_t changes) { return sorted(demand(jar, changes)); }

NormalSum DemandModel::edge(PaintEdge which, const PaintPlace& place) {
    NormalSum sum = demand(place.jar, place.changes);
    const FamilyEdges& family = world_.families[place.family];
    add(sum, DemandSource::step, family.kind);
    add(sum, DemandSource::medium, family.kind);
    add(sum, DemandSource::jar_step, place.jar, family.kind);
    if (place.lot) add(sum, DemandSource::lot, family.kind, *place.lot);
    else add(sum, DemandSource::own_lot, place.jar, family.kind);
    if (which == PaintEdge::flip || which == PaintEdge::flip_rich) add(sum, DemandSource::chalk_bias);
    if (which == PaintEdge::flip_rich || which == PaintEdge::critical_rich) {
        add(sum, DemandSource::rich_step, place.family);
        sum.offset = std::log(family.rich.value() / family.lean.value());
    }
    return sorted(sum);
}

NormalSum DemandModel::medium_reading(std::size_t kind) {
    NormalSum sum;
    add(sum, DemandSource::medium, kind);
    add(sum, DemandSource::medium_reading);
    return sorted(sum);
}

double DemandModel::variance(DemandSource what, std::size_t a, double jar_spread, double step_factor,
                             double repeat_spread) const {
    const DemandPriors& p = world_.priors;
    switch (what) {
    case DemandSource::plant:
        return square(p.plant_spread);
    case DemandSource::jar:
        return square(record_.jars[a].unlike_its_kin ? p.unlike_jar_spread : jar_spread);
    case DemandSource::change:
        return square(p.regrind_spread);
    case DemandSource::hand:
        return square(p.hand_spread);
    case DemandSource::repeat: {
        if (a >= record_.rub_outs.size()) return square(repeat_spread);
        const RubOutReading& r = record_.rub_outs[a];
        // A figure brought in is not surer than the hand that made it, of which it holds a share already.
        if (r.stated_spread) return std::max(square(*r.stated_spread) - square(p.hand_spread), square(0.25 * p.hand_spread));
        return square(repeat_spread) + square(r.reading_spread);
    }
    case DemandSource::step:
        return square(step_factor * world_.kinds[a].step_spread);
    case DemandSource::medium:
        return square(step_factor * world_.kinds[a].medium_spread);
    case DemandSource::jar_step:
        return square(p.jar_step_spread) + square(p.damp_spread);
    case DemandSource::lot:
    case DemandSource::own_lot:
        return square(p.lot_spread);
    case DemandSource::chalk_bias:
        return square(p.chalk_bias_spread);
    case DemandSource::rich_step:
        return square(p.rich_step_spread);
    case DemandSource::medium_reading:
        return square(p.solids_spread);
    }
    return 0.0;
}

std::vector<double> DemandModel::variances(double jar_spread, double step_factor, double repeat_spread) const {
    std::vector<double> v(sources_.size());
    for (const auto& [key, number] : sources_)
        v[number] = variance(std::get<0>(key), std::get<1>(key), jar_spread, step_factor, repeat_spread);
    return v;
}

DemandEdges demand_edges(DemandModel& model, const DemandWorld& world, const DemandRecord& record,
                         const DemandQuestion& question) {
    DemandEdges edges;
    const std::size_t kind = world.families[question.family].kind;
    // Two lean edges of one kind are the same quantity, so families of a kind share one site; rich edges are not.
    using Key = std::tuple<PaintEdge, std::size_t, std::size_t, std::size_t, std::size_t>;
    std::map<Key, std::size_t> known;
    const auto edge = [&](PaintEdge which, const PaintPlace& place) {
        const bool rich = which == PaintEdge::flip_rich || which == PaintEdge::critical_rich;
        const std::size_t of = world.families[place.family].kind;
        const Key key{which, place.jar, place.changes, rich ? world.kinds.size() + place.family : of,
                      place.lot.value_or(no_quantity)};
        const auto [it, fresh] = known.try_emplace(key, edges.sums.size());
        if (fresh) {
            edges.sums.push_back(model.edge(which, place));
            edges.trials.emplace_back();
            edges.own.push_back(place.jar == question.jar && of == kind);
        }
        return it->second;
    };
    for (const auto& t : record.trials) {
        const PaintPlace place{t.jar, t.changes, t.family, t.lot};
        const TrialFactors factors = factors_of(t, world);
        edges.trials[edge(t.in_use ? PaintEdge::critical : PaintEdge::flip, place)].push_back(factors.lean);
        if (factors.rich)
            edges.trials[edge(t.in_use ? PaintEdge::critical_rich : PaintEdge::flip_rich, place)].push_back(
                *factors.rich);
    }
    const PaintPlace asked{question.jar, record.jars[question.jar].changes, question.family, question.lot};
    edges.flip = edge(PaintEdge::flip, asked);
    edges.rich = edge(PaintEdge::flip_rich, asked);
    edges.critical = edge(PaintEdge::critical, asked);
    return edges;
}

std::vector<JarSpread> jar_spreads(const DemandPriors& p) {
    if (!(p.jar_spread_doubt > 0.0)) return {{p.jar_spread, 0.0}};
    std::vector<JarSpread> values;
    for (const auto& n : gauss_hermite_nodes(jar_spread_nodes))
        values.push_back({p.jar_spread * std::exp(p.jar_spread_doubt * n.z), std::log(n.weight)});
    return values;
}

std::vector<MakerKind> maker_kinds(const DemandPriors& p) {
    if (!(p.odd_share > 0.0)) return {{}};
    return {{false, 1.0, std::log1p(-p.odd_share)}, {true, p.odd_factor, std::log(p.odd_share)}};
}

std::vector<double> shares_of(const std::vector<double>& logarithms) {
    const double top = *std::max_element(logarithms.begin(), logarithms.end());
    std::vector<double> shares;
    double sum = 0.0;
    for (const double l : logarithms)
        sum += shares.emplace_back(std::exp(l - top));
    for (double& s : shares)
        s /= sum;
    return shares;
}

} // namespace lakebound
