#include "lakebound/record/learned_demand.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "demand_check.hpp"
#include "demand_model.hpp"
#include "lakebound/estimate/expectation_propagation.hpp"
#include "lakebound/estimate/tilted_grid.hpp"

namespace lakebound {
namespace {

constexpr double least_weight = 0.02; ///< of a hypothesis that is worked out
/// ln of how many times less likely the rub-outs make a spread that is not looked at: no trials make up for 1e9.
constexpr double beyond_all_trials = 20.7;

/// One spread between jars and one kind of maker, with all that the rub-outs say under it.
struct Hypothesis {
    double jar_spread = 0.0;
    std::size_t maker = 0;
    double log_share = 0.0;  ///< beforehand and by the rub-outs
    double log_weight = 0.0; ///< by the trials as well; guessed until they are worked out
    JointNormal known;       ///< of the edges, a next rub-out and a reading of the medium
    std::optional<Propagation> learned;
};

/// Places of what is asked beside the edges.
struct Readings {
    std::size_t rub_out = 0, medium = 0, powder = 0;
};

std::vector<Hypothesis> hypotheses(const DemandModel& model, const std::vector<NormalSum>& sums,
                                   const std::vector<double>& readings, const DemandPriors& priors,
                                   const std::vector<MakerKind>& makers, double repeat_spread) {
    // What the rub-outs say of a spread is far cheaper than what is known under it, and the same for both makers.
    const std::vector<NormalSum> read(sums.begin(), sums.begin() + static_cast<std::ptrdiff_t>(readings.size()));
    const auto spreads = jar_spreads(priors);
    std::vector<double> evidence;
    for (const JarSpread& b : spreads)
        evidence.push_back(
            conditioned_on_first(joint_of_sums(read, model.variances(b.spread, 1.0, repeat_spread)), readings)
                .log_evidence + b.log_share);
    const double greatest = *std::max_element(evidence.begin(), evidence.end());

    // No rub-out sees the step from oil: that of another kind of maker only widens what is left over.
    const std::vector<NormalSum> unread(sums.begin() + static_cast<std::ptrdiff_t>(readings.size()), sums.end());
    const auto narrow = model.variances(spreads.front().spread, makers.front().step_factor, repeat_spread);
    std::vector<JointNormal> widened(makers.size());
    for (std::size_t m = 1; m < makers.size(); ++m) {
        auto more = model.variances(spreads.front().spread, makers[m].step_factor, repeat_spread);
        for (std::size_t s = 0; s < more.size(); ++s)
            more[s] -= narrow[s];
        widened[m] = joint_of_sums(unread, more);
    }

    std::vector<Hypothesis> all;
    for (std::size_t i = 0; i < spreads.size(); ++i) {
        if (evidence[i] < greatest - beyond_all_trials) continue;
        const auto variances = model.variances(spreads[i].spread, makers.front().step_factor, repeat_spread);
        const auto known = conditioned_on_first(joint_of_sums(sums, variances), readings).rest;
        for (std::size_t m = 0; m < makers.size(); ++m) {
            const double log_share = evidence[i] + makers[m].log_share;
            Hypothesis& h = all.emplace_back(Hypothesis{spreads[i].spread, m, log_share, log_share, known, {}});
            for (std::size_t c = 0; m > 0 && c < h.known.covariance.size(); ++c)
                h.known.covariance[c] += widened[m].covariance[c];
        }
    }
    return all;
}

void learn(Hypothesis& h, const std::vector<LogisticTrials>& trials, const SiteMessages* start) {
    h.learned = propagate(h.known, trials, start);
    h.log_weight = h.log_share + h.learned->log_evidence;
}

/// Each kind of maker is worked out first at the spread that the rub-outs favour; its messages then tell what the
/// trials would say under the other spreads, and those worth it are worked out too. Drops the rest.
std::vector<Hypothesis> worked_out(std::vector<Hypothesis> all, const std::vector<LogisticTrials>& trials,
                                   std::size_t makers) {
    SiteMessages last; // of the kind of maker before: the trials say much the same to both
    for (std::size_t m = 0; m < makers; ++m) {
        Hypothesis* lead = nullptr;
        for (Hypothesis& h : all)
            if (h.maker == m && (!lead || h.log_share > lead->log_share)) lead = &h;
        learn(*lead, trials, m > 0 ? &last : nullptr);
        const SiteMessages& messages = last = lead->learned->sites;
        const double beyond = lead->learned->log_evidence - log_mass_of_messages(lead->known, messages);
        for (Hypothesis& h : all)
            if (h.maker == m && !h.learned)
                h.log_weight = h.log_share + beyond + log_mass_of_messages(h.known, messages);
    }
    std::vector<double> logarithms;
    for (const Hypothesis& h : all)
        logarithms.push_back(h.log_weight);
    const auto guessed = shares_of(logarithms);
    std::vector<Hypothesis> kept;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (guessed[i] < least_weight) continue;
        if (!all[i].learned) {
            const auto like = std::find_if(all.begin(), all.end(), [&](const Hypothesis& h) {
                return h.learned && h.maker == all[i].maker;
            });
            learn(all[i], trials, &like->learned->sites);
        }
        kept.push_back(all[i]);
    }
    return kept;
}

/// z, and the other own edge whose trials say most.
std::vector<std::size_t> edges_of_grid(const DemandEdges& edges, const SiteMessages& sites) {
    std::size_t second = no_quantity;
    for (std::size_t i = 0; i < edges.own.size(); ++i)
        if (edges.own[i] && i != edges.flip && sites.precision[i] > 0.0 &&
            (second == no_quantity || sites.precision[i] > sites.precision[second]))
            second = i;
    if (second == no_quantity) return {edges.flip};
    return {edges.flip, second};
}

JointNormal first_of(const JointNormal& joint, std::size_t count) {
    JointNormal first{std::vector<double>(count), std::vector<double>(count * count)};
    for (std::size_t i = 0; i < count; ++i) {
        first.mean[i] = joint.mean[i];
        for (std::size_t j = 0; j < count; ++j)
            first.covariance[i * count + j] = joint.covariance_of(i, j);
    }
    return first;
}

/// The exact last step: the true factors of the grid's edges over their cavity, all else normal given them.
DemandPart last_step(const Hypothesis& h, const DemandEdges& edges, const Readings& readings) {
    const SiteMessages& sites = h.learned->sites;
    const auto on_grid = edges_of_grid(edges, sites);
    std::vector<LogisticTrials> trials;
    for (const std::size_t i : on_grid)
        trials.push_back(edges.trials[i]);
    const std::array asked{edges.rich, edges.critical, readings.rub_out, readings.medium, readings.powder};
    std::vector<std::size_t> wanted = on_grid;
    wanted.insert(wanted.end(), asked.begin(), asked.end());

    const JointNormal cavity = with_messages(h.known, sites, on_grid, wanted);
    const std::size_t g = on_grid.size();
    const auto nodes = tilted_grid(first_of(cavity, g), trials, with_messages(h.known, sites, {}, on_grid));
    const NormalRegression line = regression_on_first(cavity, g);
    const auto mean_at = [&](std::size_t r, const GridNode& n) {
        return line.intercept[r] + line.slope[r * g] * n.first + (g > 1 ? line.slope[r * g + 1] * n.second : 0.0);
    };
    const auto covariance = [&](std::size_t a, std::size_t b) { return line.covariance[a * asked.size() + b]; };
    const auto spread = [&](std::size_t a) { return std::sqrt(std::max(covariance(a, a), 0.0)); };

    DemandPart part;
    part.jar_spread = h.jar_spread;
    part.rich_spread = spread(0);
    part.critical_spread = spread(1);
    part.rub_out = {covariance(2, 2), covariance(1, 2)};
    part.medium = {covariance(3, 3), covariance(1, 3)};
    part.powder_spread = spread(4);
    part.nodes.reserve(nodes.size());
    for (const GridNode& n : nodes)
        part.nodes.push_back({n.weight, n.first, mean_at(0, n), mean_at(1, n), mean_at(2, n), mean_at(3, n), mean_at(4, n)});
    return part;
}

} // namespace

double learned_repeat_spread(const DemandPriors& priors, const DemandRecord& record) {
    struct Group {
        double count = 0.0, mean = 0.0, squares = 0.0;
    };
    std::map<std::pair<std::size_t, std::size_t>, Group> groups;
    for (const RubOutReading& r : record.rub_outs) {
        if (r.stated_spread) continue;
        Group& g = groups[{r.jar, r.changes}];
        const double d = log_reading(record, r) - g.mean;
        g.count += 1.0;
        g.mean += d / g.count;
        g.squares += d * d * (g.count - 1.0) / g.count; // Welford's step; 0 for the first
    }
    double squares = priors.repeat_weight * priors.repeat_spread * priors.repeat_spread;
    double weight = priors.repeat_weight;
    for (const auto& [key, g] : groups) {
        squares += g.squares;
        weight += g.count - 1.0;
    }
    return std::sqrt(squares / weight);
}

DemandBelief learned_demand(const DemandWorld& world, const DemandRecord& record, const DemandQuestion& question) {
    check_record(world, record);
    check_index(question.jar, record.jars.size(), "jar asked about");
    check_index(question.family, world.families.size(), "family asked about");
    const DemandPriors& p = world.priors;
    const StudioJar& jar = record.jars[question.jar];
    const FamilyEdges& family = world.families[question.family];

    DemandBelief belief{.reference = jar.reference};
    belief.repeat_spread = learned_repeat_spread(p, record);
    belief.lean_width = p.lean_width;
    belief.rich_width = p.rich_width;
    belief.use_width = p.use_width;
    belief.lean_edge = std::log(family.lean.value());

    DemandModel model(world, record);
    std::vector<NormalSum> sums;
    std::vector<double> readings;
    for (std::size_t i = 0; i < record.rub_outs.size(); ++i) {
        const RubOutReading& r = record.rub_outs[i];
        sums.push_back(model.rub_out(r.jar, r.changes, i));
        readings.push_back(log_reading(record, r));
        if (r.jar == question.jar && r.changes == jar.changes) ++belief.own_rub_outs;
    }
    const DemandEdges edges = demand_edges(model, world, record, question);
    sums.insert(sums.end(), edges.sums.begin(), edges.sums.end());
    sums.push_back(model.rub_out(question.jar, jar.changes, record.rub_outs.size()));
    sums.push_back(model.medium_reading(family.kind));
    sums.push_back(model.powder(question.jar, jar.changes));

    const auto makers = maker_kinds(p);
    const auto kept = worked_out(hypotheses(model, sums, readings, p, makers, belief.repeat_spread), edges.trials,
                                 makers.size());
    std::vector<double> logarithms;
    for (const Hypothesis& h : kept)
        logarithms.push_back(h.log_weight);
    const auto weights = shares_of(logarithms);
    for (std::size_t i = 0; i < kept.size(); ++i) {
        DemandPart part = last_step(kept[i], edges, {edges.sums.size(), edges.sums.size() + 1, edges.sums.size() + 2});
        part.odd_maker = makers[kept[i].maker].odd;
        part.weight = weights[i];
        for (DemandNode& n : part.nodes)
            n.weight *= part.weight;
        belief.sweeps += kept[i].learned->sweeps;
        belief.parts.push_back(std::move(part));
    }
    return belief;
}

} // namespace lakebound
