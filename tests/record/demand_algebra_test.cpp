// The model of learning written out a second time as plain sums of named sources (docs/theory.md, "What a studio learns"):
// joint normals by Gaussian elimination, the place of the chalk test by a fine integral.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "lakebound/record/kin_distance.hpp"
#include "lakebound/record/learned_demand.hpp"
#include "record/stated_priors.hpp"

using namespace lakebound;
using namespace lakebound::test;

namespace {

using PlainSum = std::map<std::string, double>; // variance of each source
std::string of(const char* what, std::size_t a, std::size_t b = 0) {
    return std::string(what) + " " + std::to_string(a) + " " + std::to_string(b);
}
double shared(const PlainSum& a, const PlainSum& b) {
    double sum = 0.0;
    for (const auto& [name, variance] : a)
        if (b.count(name) > 0) sum += variance;
    return sum;
}
/// ln density of `values`, and mean and covariance of `asked` given them.
struct Given {
    double log_density = 0.0;
    std::vector<double> mean, covariance;
    double cov(std::size_t a, std::size_t b) const { return covariance[a * mean.size() + b]; }
};
Given given(const std::vector<PlainSum>& seen, const std::vector<double>& values, const std::vector<PlainSum>& asked) {
    // Rows of the seen with everything else beside them; eliminating the seen leaves what is asked given them.
    const std::size_t n = seen.size(), m = asked.size();
    std::vector<PlainSum> all = seen;
    all.insert(all.end(), asked.begin(), asked.end());
    std::vector<std::vector<double>> a(n + m, std::vector<double>(n + m + 1, 0.0));
    for (std::size_t i = 0; i < n + m; ++i)
        for (std::size_t j = 0; j < n + m; ++j)
            a[i][j] = shared(all[i], all[j]);
    for (std::size_t i = 0; i < n; ++i)
        a[i][n + m] = values[i];
    Given g;
    for (std::size_t p = 0; p < n; ++p) {
        g.log_density -= 0.5 * (std::log(2 * M_PI * a[p][p]) + a[p][n + m] * a[p][n + m] / a[p][p]);
        for (std::size_t i = p + 1; i < n + m; ++i) {
            const double factor = a[i][p] / a[p][p];
            for (std::size_t j = p; j <= n + m; ++j)
                a[i][j] -= factor * a[p][j];
        }
    }
    for (std::size_t i = 0; i < m; ++i) {
        g.mean.push_back(-a[n + i][n + m]);
        for (std::size_t j = 0; j < m; ++j)
            g.covariance.push_back(a[n + i][n + j]);
    }
    return g;
}

/// The sources of one studio, at one spread between jars and one width of the step from oil.
struct PlainModel {
    const DemandWorld& world;
    const DemandRecord& record;
    double jar_spread, step_factor, repeat;

    PlainSum demand(std::size_t jar, std::size_t changes) const {
        const auto& p = world.priors;
        PlainSum s;
        const double own = record.jars[jar].unlike_its_kin ? p.unlike_jar_spread : jar_spread;
        s[of("plant", record.jars[jar].plant)] = p.plant_spread * p.plant_spread;
        s[of("jar", jar)] = own * own;
        for (std::size_t i = 0; i < changes; ++i)
            s[of("change", jar, i)] = p.regrind_spread * p.regrind_spread;
        return s;
    }
    PlainSum reading(std::size_t jar, std::size_t changes, std::size_t number) const {
        const double hand = world.priors.hand_spread;
        PlainSum s = demand(jar, changes);
        s["hand"] = hand * hand;
        double own = repeat * repeat;
        if (number < record.rub_outs.size()) {
            const auto& r = record.rub_outs[number];
            own += r.reading_spread * r.reading_spread;
            if (r.stated_spread) own = std::max(*r.stated_spread * *r.stated_spread - hand * hand, 0.0625 * hand * hand);
        }
        s[of("repeat", number)] = own;
        return s;
    }
    PlainSum critical(std::size_t jar, std::size_t changes, std::size_t family, std::optional<std::size_t> lot) const {
        const auto& p = world.priors;
        const std::size_t kind = world.families[family].kind;
        PlainSum s = demand(jar, changes);
        s[of("step", kind)] = std::pow(step_factor * world.kinds[kind].step_spread, 2);
        s[of("medium", kind)] = std::pow(step_factor * world.kinds[kind].medium_spread, 2);
        s[of("jar step", jar, kind)] = p.jar_step_spread * p.jar_step_spread + p.damp_spread * p.damp_spread;
        s[lot ? of("lot", kind, *lot) : of("own lot", jar, kind)] = p.lot_spread * p.lot_spread;
        return s;
    }
    /// z, z + g, c, a next rub-out, a reading of the medium's strength, d.
    std::vector<PlainSum> asked(const DemandQuestion& q) const {
        const auto& p = world.priors;
        const std::size_t changes = record.jars[q.jar].changes, kind = world.families[q.family].kind;
        const PlainSum c = critical(q.jar, changes, q.family, q.lot);
        PlainSum z = c, rich = c, medium;
        z["bias"] = rich["bias"] = p.chalk_bias_spread * p.chalk_bias_spread;
        rich[of("rich", q.family)] = p.rich_step_spread * p.rich_step_spread;
        medium[of("medium", kind)] = c.at(of("medium", kind));
        medium["solids"] = p.solids_spread * p.solids_spread;
        return {z, rich, c, reading(q.jar, changes, record.rub_outs.size()), medium, demand(q.jar, changes)};
    }
    std::vector<PlainSum> seen() const {
        std::vector<PlainSum> sums;
        for (std::size_t i = 0; i < record.rub_outs.size(); ++i)
            sums.push_back(reading(record.rub_outs[i].jar, record.rub_outs[i].changes, i));
        return sums;
    }
};
std::vector<double> values_of(const DemandRecord& record) {
    std::vector<double> values;
    for (const auto& r : record.rub_outs)
        values.push_back(std::log(r.oil_absorption.value() / record.jars[r.jar].reference.value()));
    return values;
}
/// Five places of a normal variable and their weights: z = 0, sqrt(5 -+ sqrt 10), in closed form.
struct Place {
    double z, weight;
};
std::vector<Place> five_places() {
    const double root = std::sqrt(10.0), near = std::sqrt(5 - root), far = std::sqrt(5 + root);
    return {{-far, (7 - 2 * root) / 60}, {-near, (7 + 2 * root) / 60}, {0, 8.0 / 15}, {near, (7 + 2 * root) / 60}, {far, (7 - 2 * root) / 60}};
}

DemandWorld uneven_world() {
    DemandWorld w = stated_world();
    w.kinds = {{0.08, 0.04}, {0.11, 0.07}};
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    w.families = {{gum, k(1.0), k(2.4)}, {oil, k(1.1), k(2.0)}, {gum, k(0.9), k(2.9)}};
    w.priors.plant_spread = 0.23;
    w.priors.unlike_jar_spread = 0.33;
    w.priors.solids_spread = 0.02;
    return w;
}
/// Two plants, a jar ground twice again, one taken out of its kin; readings coarse, stated and repeated.
DemandRecord uneven_record() {
    DemandRecord r;
    r.jars = {{0, grams_per_100_grams(65), 0, false}, {0, grams_per_100_grams(65), 2, false}, {1, grams_per_100_grams(52), 0, false},
              {0, grams_per_100_grams(65), 1, true}};
    r.rub_outs = {{0, grams_per_100_grams(72), 0, 0.0},        {1, grams_per_100_grams(81), 0, 0.04}, {1, grams_per_100_grams(88), 1, 0.0},
                  {1, grams_per_100_grams(84), 1, 0.0},        {2, grams_per_100_grams(47), 0, 0.0},  {3, grams_per_100_grams(95), 1, 0.0},
                  {0, grams_per_100_grams(69), 0, 0.0, 0.12}, {2, grams_per_100_grams(50), 0, 0.0, 0.02}};
    return r;
}
double log_prior(const Place& at) { return std::log(at.weight); }

/// All of a belief whose trials, if any, are swatches of the very paint asked about that chalked or did not.
void check_belief(const DemandWorld& world, const DemandRecord& record, const DemandQuestion& q, bool trials_move_parts) {
    const auto& p = world.priors;
    const DemandBelief belief = learned_demand(world, record, q);
    const double repeat = learned_repeat_spread(p, record);
    const auto values = values_of(record);
    const auto& family = world.families[q.family];
    struct Part {
        double spread;
        bool odd;
        double log_weight;
        Given known;
    };
    std::vector<Part> parts;
    for (const Place& at : p.jar_spread_doubt > 0 ? five_places() : std::vector<Place>{{0.0, 1.0}})
        for (const bool odd : {false, true}) {
            if (odd && !(p.odd_share > 0)) continue;
            const double spread = p.jar_spread * std::exp(p.jar_spread_doubt * at.z);
            const PlainModel model{world, record, spread, odd ? p.odd_factor : 1.0, repeat};
            Given known = given(model.seen(), values, model.asked(q));
            const double share = log_prior(at) + (p.odd_share > 0 ? std::log(odd ? p.odd_share : 1 - p.odd_share) : 0.0);
            parts.push_back({spread, odd, share + known.log_density, std::move(known)});
        }
    double most = -1e300, sum = 0.0, kept = 0.0;
    for (const Part& each : parts)
        most = std::max(most, each.log_weight);
    for (const Part& each : parts)
        sum += std::exp(each.log_weight - most);
    for (const Part& each : parts)
        if (std::exp(each.log_weight - most) >= 0.02 * sum) kept += std::exp(each.log_weight - most);
    std::size_t found = 0;
    double whole = 0.0;
    for (const DemandPart& part : belief.parts) {
        whole += part.weight;
        const auto here = std::find_if(parts.begin(), parts.end(), [&](const Part& each) {
            return each.odd == part.odd_maker && std::abs(each.spread / part.jar_spread - 1) < 1e-9;
        });
        REQUIRE(here != parts.end());
        const Given& g = here->known;
        CAPTURE(part.jar_spread, part.odd_maker);
        if (!trials_move_parts) CHECK(part.weight == Approx(std::exp(here->log_weight - most) / kept).epsilon(1e-8));
        ++found;
        // Given z all the rest is a straight line and a normal about it.
        const auto about = [&](std::size_t a, std::size_t b) { return g.cov(a, b) - g.cov(a, 0) * g.cov(0, b) / g.cov(0, 0); };
        CHECK(part.rich_spread == Approx(std::sqrt(about(1, 1))).epsilon(1e-8));
        CHECK(part.critical_spread == Approx(std::sqrt(about(2, 2))).epsilon(1e-8));
        CHECK(part.rub_out.variance == Approx(about(3, 3)).epsilon(1e-8));
        CHECK(part.rub_out.covariance_with_critical == Approx(about(2, 3)).epsilon(1e-7).margin(1e-12));
        CHECK(part.medium.variance == Approx(about(4, 4)).epsilon(1e-8));
        CHECK(part.medium.covariance_with_critical == Approx(about(2, 4)).epsilon(1e-7).margin(1e-12));
        CHECK(part.powder_spread == Approx(std::sqrt(about(5, 5))).epsilon(1e-8));
        const double g_edge = std::log(family.rich.value() / family.lean.value());
        double weight = 0.0, first = 0.0, second = 0.0;
        for (const DemandNode& n : part.nodes) {
            const auto line = [&](std::size_t a) { return g.mean[a] + g.cov(a, 0) / g.cov(0, 0) * (n.flip - g.mean[0]); };
            CHECK(n.rich == Approx(line(1) + g_edge).margin(1e-8));
            CHECK(n.critical == Approx(line(2)).margin(1e-8));
            CHECK(n.rub_out == Approx(line(3)).margin(1e-8));
            CHECK(n.medium == Approx(line(4)).margin(1e-8));
            CHECK(n.powder == Approx(line(5)).margin(1e-8));
            weight += n.weight, first += n.weight * n.flip, second += n.weight * n.flip * n.flip;
        }
        CHECK(weight == Approx(part.weight).epsilon(1e-9));
        // z by a fine integral of its normal times what each swatch says.
        const double sd = std::sqrt(g.cov(0, 0));
        double s0 = 0.0, s1 = 0.0, s2 = 0.0;
        for (int i = -1600; i <= 1600; ++i) {
            const double z = g.mean[0] + 0.005 * i * sd;
            double density = std::exp(-0.5 * std::pow(0.005 * i, 2));
            for (const PaintTrial& t : record.trials) {
                const double x = std::log(t.library_k.value() / family.lean.value()), w = std::hypot(p.lean_width, t.weighing_spread / 1.7);
                density /= 1 + std::exp((t.outcome == PaintOutcome::lean ? x - z : z - x) / w);
            }
            s0 += density, s1 += density * z, s2 += density * z * z;
        }
        CHECK(first / weight == Approx(s1 / s0).margin(1e-6));
        CHECK(second / weight - std::pow(first / weight, 2) == Approx(s2 / s0 - s1 / s0 * (s1 / s0)).epsilon(1e-5));
    }
    CHECK(whole == Approx(1.0).epsilon(1e-12));
    if (!trials_move_parts)
        for (const Part& each : parts) {
            const double weight = std::exp(each.log_weight - most) / sum;
            if (std::abs(weight / 0.02 - 1) < 1e-6) continue;
            const bool there = std::any_of(belief.parts.begin(), belief.parts.end(), [&](const DemandPart& part) {
                return each.odd == part.odd_maker && std::abs(each.spread / part.jar_spread - 1) < 1e-9;
            });
            CHECK(there == (weight > 0.02));
        }
    CHECK(found == belief.parts.size());
    CHECK(belief.repeat_spread == Approx(repeat).epsilon(1e-12));
    CHECK(belief.lean_width == Approx(p.lean_width));
    CHECK(belief.rich_width == Approx(p.rich_width));
    CHECK(belief.use_width == Approx(p.use_width));
    CHECK(belief.lean_edge == Approx(std::log(family.lean.value())).margin(1e-12));
    CHECK(belief.reference == record.jars[q.jar].reference);
}
PaintTrial swatch_at(const DemandQuestion& q, const DemandRecord& record, double k, PaintOutcome outcome, double spread) {
    PaintTrial t;
    t.jar = q.jar, t.family = q.family, t.changes = record.jars[q.jar].changes, t.lot = q.lot;
    t.library_k = BinderSufficiency::of(k), t.outcome = outcome, t.weighing_spread = spread;
    return t;
}

} // namespace

TEST_CASE("what rub-outs say of a jar is what plain algebra says, of every quantity", "[reference]") {
    const DemandWorld world = uneven_world();
    for (std::size_t jar = 0; jar < 4; ++jar)
        for (std::size_t family = 0; family < 3; ++family)
            for (const std::optional<std::size_t> lot : {std::optional<std::size_t>(), std::optional<std::size_t>(4)}) {
                CAPTURE(jar, family, lot.has_value());
                check_belief(world, uneven_record(), {jar, family, lot}, false);
            }
    DemandRecord bare;
    bare.jars = {{0, grams_per_100_grams(65), 1, false}};
    check_belief(world, bare, {0, 1, {}}, false);
    DemandWorld known = world;
    known.priors.jar_spread_doubt = 0.0;
    check_belief(known, uneven_record(), {1, 0, {}}, false);
    known.priors.odd_share = 0.0;
    check_belief(known, uneven_record(), {1, 0, {}}, false);
    CHECK(learned_demand(known, uneven_record(), {1, 0, {}}).parts.size() == 1);
    known.priors.odd_share = 5e-4; // hardly any: not worked out
    CHECK(learned_demand(known, uneven_record(), {1, 0, {}}).parts.size() == 1);
    // But a maker of whose hands that alone explains what she sees is believed to be one.
    DemandRecord far = uneven_record();
    for (const double k : {1.9, 2.2, 2.6, 3.0})
        far.trials.push_back(swatch_at({0, 0, {}}, far, k, PaintOutcome::lean, 0.02));
    CHECK(learned_demand(known, far, {0, 0, {}}).odd_weight() > 0.5);
    known.priors.odd_share = 0.5;
    CHECK(learned_demand(known, uneven_record(), {1, 0, {}}).odd_weight() == Approx(0.5).margin(1e-12)); // no rub-out sees the step
    known.priors.odd_share = 0.0;
    known.priors.jar_spread_doubt = 5e-4; // however little, it is a doubt
    const auto hardly = learned_demand(known, bare, {0, 1, {}});
    CHECK(hardly.parts.size() == 3);
    check_belief(known, bare, {0, 1, {}}, false);
}

TEST_CASE("what a jar's own swatches say besides is an integral over where her test flips", "[reference]") {
    const DemandWorld world = uneven_world();
    for (const DemandQuestion& q : {DemandQuestion{1, 0, {}}, DemandQuestion{2, 1, std::size_t{3}}, DemandQuestion{3, 2, {}}}) {
        CAPTURE(q.jar, q.family);
        DemandRecord record = uneven_record();
        record.trials = {swatch_at(q, record, 1.1, PaintOutcome::lean, 0.02)};
        check_belief(world, record, q, true);
        record.trials.push_back(swatch_at(q, record, 1.6, PaintOutcome::not_lean, 0.0));
        record.trials.push_back(swatch_at(q, record, 1.25, PaintOutcome::not_lean, 0.15));
        check_belief(world, record, q, true);
    }
}

TEST_CASE("only what this jar showed as this kind of paint makes a grid of two quantities", "[unit]") {
    // Swatches of another jar, and of this one in another binder, say something of this paint, by the normals alone: each
    // node has a z of its own.
    DemandRecord record = uneven_record();
    const DemandQuestion q{1, 0, {}};
    const auto rows = [](const DemandBelief& belief) {
        std::size_t shared_rows = 0;
        for (const DemandPart& part : belief.parts)
            for (std::size_t i = 1; i < part.nodes.size(); ++i)
                shared_rows += part.nodes[i].flip == part.nodes[i - 1].flip ? 1 : 0;
        return shared_rows;
    };
    for (const DemandQuestion& other : {DemandQuestion{0, 0, {}}, DemandQuestion{2, 0, {}}, DemandQuestion{1, 1, {}}}) {
        CAPTURE(other.jar, other.family);
        record.trials = {swatch_at(other, record, 1.1, PaintOutcome::lean, 0.02), swatch_at(other, record, 1.3, PaintOutcome::not_lean, 0.02)};
        CHECK(rows(learned_demand(uneven_world(), record, q)) == 0);
    }
    // A second quantity of its own does: the rich edge, a batch in use, another lot.
    PaintTrial in_use = swatch_at(q, record, 1.3, PaintOutcome::not_lean, 0.0), shines = in_use, lot = in_use;
    in_use.in_use = true;
    shines.outcome = PaintOutcome::rich;
    lot.lot = 2;
    for (const PaintTrial& own : {in_use, shines, lot}) {
        record.trials = {own};
        CHECK(rows(learned_demand(uneven_world(), record, q)) > 100);
    }
}

TEST_CASE("the distance of a jar from its kin is that of plain algebra", "[reference]") {
    for (const double doubt : {0.4, 0.7, 0.0}) {
        DemandWorld world = uneven_world();
        world.priors.jar_spread_doubt = doubt;
        for (std::size_t jar = 0; jar < 4; ++jar) {
            CAPTURE(doubt, jar);
            const DemandRecord record = uneven_record();
            const auto values = values_of(record);
            const double repeat = learned_repeat_spread(world.priors, record);
            double reading = 0.0, count = 0.0, total = 0.0, first = 0.0, second = 0.0;
            for (std::size_t i = 0; i < values.size(); ++i)
                if (record.rub_outs[i].jar == jar) reading += values[i], count += 1;
            reading /= count;
            for (const Place& at : doubt > 0 ? five_places() : std::vector<Place>{{0.0, 1.0}}) {
                const PlainModel model{world, record, world.priors.jar_spread * std::exp(doubt * at.z), 1.0, repeat};
                const auto all = model.seen();
                std::vector<PlainSum> others, own;
                std::vector<double> read;
                for (std::size_t i = 0; i < all.size(); ++i)
                    if (record.rub_outs[i].jar == jar) own.push_back(all[i]);
                    else others.push_back(all[i]), read.push_back(values[i]);
                const Given g = given(others, read, own);
                double mean = 0.0, variance = 0.0;
                for (const double m : g.mean)
                    mean += m / count;
                for (const double c : g.covariance)
                    variance += c / (count * count);
                const double weight = at.weight * std::exp(g.log_density);
                total += weight, first += weight * mean, second += weight * (variance + mean * mean);
            }
            const double expected = first / total, spread = std::sqrt(second / total - expected * expected);
            const KinDistance d = kin_distance(world, record, jar);
            CHECK(d.readings == static_cast<std::size_t>(count));
            CHECK(d.reading == Approx(reading).epsilon(1e-12));
            CHECK(d.expected == Approx(expected).epsilon(1e-8));
            CHECK(d.expected_spread == Approx(spread).epsilon(1e-8));
            CHECK(d.in_spreads == Approx((reading - expected) / spread).epsilon(1e-8));
        }
    }
}
