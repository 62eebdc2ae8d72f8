#include "lakebound/record/demand_belief.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
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

/// The nodes of all parts put together by the statement of gathered_nodes.hpp: parts whose spread is within a tenth of the
/// first of their row share its cells, of .7 of that spread (of a 120th of the row at least) from the lowest node on.
std::vector<Normal> gathered_plainly(const DemandBelief& b, double batch) {
    struct Row {
        double spread, low, high;
        std::vector<std::size_t> parts;
    };
    std::vector<Row> rows;
    for (std::size_t p = 0; p < b.parts.size(); ++p) {
        const double spread = std::hypot(b.parts[p].critical_spread, batch);
        auto row = rows.begin();
        while (row != rows.end() && std::abs(spread / row->spread - 1) > 0.1) ++row;
        if (row == rows.end()) row = rows.insert(row, {spread, 1e9, -1e9, {}});
        for (const auto& n : b.parts[p].nodes)
            row->low = std::min(row->low, n.critical), row->high = std::max(row->high, n.critical);
        row->parts.push_back(p);
    }
    std::vector<Normal> normals;
    double total = 0;
    for (const auto& part : b.parts)
        for (const auto& n : part.nodes)
            total += n.weight;
    for (const Row& row : rows) {
        const double width = 0.7 * std::max(row.spread, (row.high - row.low) / 120);
        std::map<int, std::vector<Normal>> cells;
        for (const std::size_t p : row.parts)
            for (const auto& n : b.parts[p].nodes)
                cells[static_cast<int>((n.critical - row.low) / width)].push_back({n.weight, n.critical, std::hypot(b.parts[p].critical_spread, batch)});
        for (const auto& [number, nodes] : cells) {
            double weight = 0, mean = 0, variance = 0;
            for (const Normal& n : nodes)
                weight += n.weight, mean += n.weight * n.mean;
            mean /= weight;
            for (const Normal& n : nodes)
                variance += n.weight / weight * (n.sd * n.sd + (n.mean - mean) * (n.mean - mean));
            if (weight > 1e-7 * total) normals.push_back({weight, -mean, std::sqrt(variance)});
        }
    }
    double kept = 0;
    for (const Normal& n : normals)
        kept += n.weight;
    for (Normal& n : normals)
        n.weight /= kept;
    return normals;
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

TEST_CASE("Parts about as wide share their cells, wider ones have their own", "[reference]") {
    // Nodes drawn by a plain rule of remainders; spreads on both sides of a tenth, ranges that reach beyond each other.
    unsigned state = 12345;
    const auto next = [&state] {
        state = state * 1664525u + 1013904223u;
        return static_cast<double>(state >> 8) / 16777216.0;
    };
    for (const double second : {0.1, 0.1095, 0.1105, 0.0905, 0.0895, 0.123, 0.127, 0.3})
        for (const double batch : {0.0, 0.02})
            for (const double reach : {0.2, 3.0}) {
                CAPTURE(second, batch, reach);
                DemandBelief b{.reference = OilAbsorption::of(0.65)};
                for (const auto& [spread, from] : {std::pair{0.1, 0.0}, {second, -0.31}, {0.1, 0.17}}) {
                    DemandPart part;
                    part.critical_spread = spread;
                    for (int i = 0; i < 12; ++i) {
                        DemandNode n;
                        n.weight = 0.05 * next();
                        n.critical = from + reach * next();
                        part.nodes.push_back(n);
                    }
                    part.nodes[0].weight = 0.9e-7; // a cell of its own weighs too little, or just enough
                    part.nodes[0].critical = from - 0.5;
                    part.nodes[1].weight = 3e-7;
                    part.nodes[1].critical = from + reach + 0.4;
                    b.parts.push_back(part);
                }
                const auto wanted = gathered_plainly(b, batch);
                const NormalMixture found = b.gathered_doubt(batch);
                for (double x = -4.2; x < 1.2; x += 0.083)
                    CHECK(found.below(x).value() == Approx(below(wanted, x)).margin(1e-11).epsilon(0));
            }
}
