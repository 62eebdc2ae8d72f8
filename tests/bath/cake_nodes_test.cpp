// Drying cakes by the very nodes of the header, as tests/reference/cake_nodes.py lays them with NumPy: to the last figures,
// where bath_tables_test.cpp holds them against a dense grid to what so few nodes are good to.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "lakebound/bath/drying.hpp"
#include "table_rows.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

#include "cake_nodes.inc"

struct WeighedCake {
    std::vector<DryingWeighing> weighings;
    Instrument<Mass> scale;
    DryingHabits habits{};
    std::optional<Estimate<Mass>> expected;
};

WeighedCake cake_of(RowReader& row) {
    WeighedCake cake;
    cake.weighings.resize(static_cast<std::size_t>(row.next()));
    for (auto& w : cake.weighings) {
        w.time = hours(row.next());
        w.mass = grams(row.next());
    }
    cake.scale = {grams(1e-9), grams(row.next())};
    cake.habits.weighing_repeats_to = Estimate<Share>::exact(Share::of(row.next()), {});
    const double tau = row.next();
    cake.habits.usual_tau = Estimate<Time>::lognormal(hours(tau), row.next(), {});
    const double shape = row.next(), place = row.next(), spread = row.next();
    if (shape == 1.0) cake.expected = Estimate<Mass>::lognormal(grams(place), spread, {});
    if (shape == 2.0) cake.expected = Estimate<Mass>::normal(grams(place), grams(spread), {});
    return cake;
}

double hours_or_none(const std::optional<Time>& time) { return time ? in_hours(*time) : -1.0; }

} // namespace

TEST_CASE("a drying cake is believed by the nodes that NumPy lays", "[reference]") {
    for (const auto& figures : cake_nodes) {
        CAPTURE(figures);
        RowReader row(figures);
        const WeighedCake cake = cake_of(row);
        const auto belief = drying_belief(cake.weighings, cake.scale, cake.habits, cake.expected);
        CHECK(static_cast<double>(belief.from) == row.next());
        CHECK(belief.origin == cake.weighings[belief.from].time);
        row.hold(static_cast<double>(belief.nodes.size()), 0.0, 1.0); // one may weigh a billionth to the last digit
        double whole = 0.0;
        for (const auto& n : belief.nodes)
            whole += n.weight;
        row.hold(1e9 * (1.0 - whole), 0.0, 2.0);
        row.hold(mean_of(belief, &DryingNode::tau) / 3600, 1e-8);
        row.hold(sd_of(belief, &DryingNode::tau) / 3600, 1e-7);
        row.hold(mean_of(belief, &DryingNode::end) * 1e3, 1e-8);
        row.hold(sd_of(belief, &DryingNode::end) * 1e3, 1e-7);
        row.hold(mean_of(belief, &DryingNode::over) * 1e3, 1e-8);
        row.hold(sd_of(belief, &DryingNode::over, &DryingNode::over_sd) * 1e3, 1e-7);
        row.hold(mean_of(belief, &DryingNode::over_sd) * 1e3, 1e-8);
        for (const double p : {.05, .5, .95})
            row.hold(in_grams(end_mass_quantile(belief, p)), 1e-8);
        for (const double p : {.05, .95})
            row.hold(in_grams(drying_mass_quantile(belief, belief.origin + hours(120), p)), 1e-8);
        for (const double h : {60.0, 150.0})
            row.hold(chance_dry(belief, belief.origin + hours(h), Share::of(.03)).value(), 1e-7, 1e-10);
        for (const double p : {.1, .5, .9}) {
            const auto dry = time_dry_with(belief, Share::of(.01), p);
            row.hold(dry ? in_hours(*dry - belief.origin) : -1.0, 1e-7, 1e-9);
        }
        CHECK(row.done());
    }
}

TEST_CASE("what is told of a drying cake is what the nodes say", "[reference]") {
    for (const auto& figures : cake_outlooks) {
        CAPTURE(figures);
        RowReader row(figures);
        WeighedCake cake = cake_of(row);
        cake.habits.dry_within = Estimate<Share>::exact(Share::of(row.next()), {});
        cake.habits.constant_within = Estimate<Share>::exact(Share::of(row.next()), {});
        cake.habits.constant_over = Estimate<Time>::exact(hours(row.next()), {});
        const auto out = drying_outlook(cake.weighings, cake.scale, cake.habits, cake.expected);
        CHECK(static_cast<double>(out.state) == row.next());
        CHECK(static_cast<double>(out.unexpected) == row.next());
        row.hold(in_grams(out.end), 1e-8);
        row.hold(in_grams(out.end_low), 1e-8);
        row.hold(in_grams(out.end_high), 1e-8);
        row.hold(in_hours(out.tau), 1e-8);
        row.hold(out.dry_now.value(), 1e-7, 1e-12);
        row.hold(hours_or_none(out.early), 1e-7, 1e-9);
        row.hold(hours_or_none(out.likely), 1e-7, 1e-9);
        row.hold(hours_or_none(out.sure), 1e-7, 1e-9);
        CHECK(row.done());
    }
}
