#include "lakebound/record/demand_belief.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "record/check_cases.hpp"
#include "support/told.hpp"

using namespace lakebound;
using lakebound::test::check_cases;
using lakebound::test::plain_world;

namespace {

struct Normal {
    double weight, mean, sd;
};

double below(const std::vector<Normal>& normals, double x) {
    double sum = 0.0;
    for (const Normal& n : normals)
        sum += n.weight * 0.5 * std::erfc((n.mean - x) / (n.sd * std::sqrt(2.0)));
    return sum;
}

/// A part with nodes at these c, weighed alike.
DemandBelief nodes_at(double spread, const std::vector<double>& critical) {
    DemandBelief b{.reference = OilAbsorption::of(0.65)};
    DemandPart part;
    part.weight = 1.0;
    part.critical_spread = spread;
    for (const double c : critical) {
        DemandNode n;
        n.weight = 1.0 / static_cast<double>(critical.size());
        n.critical = c;
        part.nodes.push_back(n);
    }
    b.parts = {part};
    return b;
}

} // namespace

TEST_CASE("A belief is the mixture of its nodes, with the weighing of a batch", "[reference]") {
    const DemandBelief b = nodes_at(0.1, {-0.3, 0.0, 0.25});
    const double s = std::hypot(0.1, 0.05);
    for (double x = -0.6; x < 0.6; x += 0.1) {
        CHECK(b.critical().below(x).value() == Approx(below({{1 / 3., -0.3, 0.1}, {1 / 3., 0, 0.1}, {1 / 3., 0.25, 0.1}}, x)).margin(1e-9));
        const std::vector<Normal> doubt{{1 / 3., 0.3, s}, {1 / 3., 0, s}, {1 / 3., -0.25, s}};
        CHECK(b.doubt(0.05).below(x).value() == Approx(below(doubt, x)).margin(1e-9));
        CHECK(b.gathered_doubt(0.05).below(x).value() == Approx(below(doubt, x)).margin(1e-9)); // too far apart
    }
    CHECK(told([&] { b.doubt(-0.1); }) == "ln-sd of a batch: -0.1");
    CHECK(told([&] { b.gathered_doubt(-0.1); }) == "ln-sd of a batch: -0.1");
}

TEST_CASE("Nodes within .7 sd of the first of their cell are one normal of the same mean and variance", "[reference]") {
    // Cells of .07 from 0.2 on: the first two, the third, the last
    const DemandBelief b = nodes_at(0.1, {0.28, 0.2, 0.25, 0.36});
    for (double x = -0.7; x < 0.1; x += 0.05)
        CHECK(b.gathered_doubt(0.0).below(x).value() ==
              Approx(below({{0.5, -0.225, std::hypot(0.1, 0.025)}, {0.25, -0.28, 0.1}, {0.25, -0.36, 0.1}}, x)).margin(1e-9));
    // As narrow as they may be, there are no more cells than 120: two nodes .001 apart share one of .0058
    const DemandBelief narrow = nodes_at(1e-4, {0.0, 0.5, 0.501, 1.0});
    for (const double x : {-0.5015, -0.501, -0.5008, -0.5005, -0.5002, -0.4995})
        CHECK(narrow.gathered_doubt(0.0).below(x).value() ==
              Approx(below({{0.25, 0, 1e-4}, {0.5, -0.5005, std::hypot(1e-4, 5e-4)}, {0.25, -1, 1e-4}}, x)).margin(1e-9));
}

TEST_CASE("Gathered or not, a belief keeps its mean and variance", "[identity]") {
    // But for cells of less than 1e-7 of the weight, which are left out; six spreads away, they hold 4e-6 of the variance.
    for (const auto& c : check_cases()) {
        CAPTURE(c.id);
        const DemandBelief b = c.bench.belief(plain_world());
        CHECK(b.gathered_doubt(0.02).mean() == Approx(b.doubt(0.02).mean()).margin(1e-6));
        CHECK(b.gathered_doubt(0.02).standard_deviation() == Approx(b.doubt(0.02).standard_deviation()).epsilon(1e-5));
        CHECK(b.critical().mean() == Approx(-b.doubt(0.02).mean()).margin(1e-12));
    }
}

TEST_CASE("Rub-outs of this jar count as its own since it was last changed", "[unit]") {
    lakebound::test::Bench kin(3);
    kin.rub_out({72, 75, 70}).rub_out_of(1, {81});
    CHECK(kin.belief(plain_world()).own_rub_outs == 3);
    kin.record.jars[3].changes = 1;
    CHECK(kin.belief(plain_world()).own_rub_outs == 0);
    kin.record.rub_outs[2].changes = 1;
    CHECK(kin.belief(plain_world()).own_rub_outs == 1);
    kin.record.jars[1].changes = 1;
    kin.record.rub_outs[3].changes = 1;
    CHECK(kin.belief(plain_world()).own_rub_outs == 1); // of another jar
}
