// Every figure that a belief is reckoned from, at its limits.

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <limits>
#include <string>

#include "record/stated_priors.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::test;

namespace {

std::string asked_with(const std::function<void(DemandWorld&, DemandRecord&)>& change) {
    DemandWorld world = stated_world();
    DemandRecord record = lakebound::test::Bench(1).rub_out({70}).chalks({1.1}).record;
    change(world, record);
    return told([&] { (void)learned_demand(world, record, {1, gum, {}}); });
}
/// Taken just above the limit, and at it where it may be 0; refused just below, endless, and where it is no number.
void check_limits(const char* name, bool may_be_zero, const std::function<double&(DemandWorld&, DemandRecord&)>& figure) {
    CAPTURE(name);
    const auto with = [&](double value) {
        return asked_with([&](DemandWorld& w, DemandRecord& r) { figure(w, r) = value; });
    };
    CHECK(with(4e-4) == "taken");
    if (may_be_zero) CHECK(with(0.0) == "taken");
    else CHECK(with(0.0) == std::string(name) + ": 0");
    CHECK(with(-1e-4) == std::string(name) + ": -1e-04");
    CHECK(with(std::numeric_limits<double>::infinity()).rfind(std::string(name) + ": ", 0) == 0);
    CHECK(with(std::numeric_limits<double>::quiet_NaN()).rfind(std::string(name) + ": ", 0) == 0);
}
/// A position: above 0, finite.
void check_position_limits(const char* name, const std::function<void(DemandWorld&, DemandRecord&, double)>& set, double small) {
    CAPTURE(name);
    const auto with = [&](double value) {
        return asked_with([&](DemandWorld& w, DemandRecord& r) { set(w, r, value); });
    };
    CHECK(with(small) == "taken");
    CHECK(with(0.0) == std::string(name) + ": 0");
    CHECK(with(-1e-4).rfind(std::string(name) + ": -", 0) == 0);
    CHECK(with(std::numeric_limits<double>::infinity()).rfind(std::string(name) + ": ", 0) == 0);
}

} // namespace

TEST_CASE("every spread that is believed beforehand has its lower limit and no upper one but the endless", "[errors]") {
    struct Row {
        double DemandPriors::*figure;
        const char* name;
        bool may_be_zero;
    };
    const Row rows[] = {{&DemandPriors::plant_spread, "spread between plants", true},
                        {&DemandPriors::jar_spread, "spread between jars", false},
                        {&DemandPriors::jar_spread_doubt, "doubt of the spread between jars", true},
                        {&DemandPriors::unlike_jar_spread, "spread of a jar unlike its kin", true},
                        {&DemandPriors::regrind_spread, "spread of grinding again", true},
                        {&DemandPriors::hand_spread, "spread between hands", true},
                        {&DemandPriors::repeat_spread, "spread of a repeat", false},
                        {&DemandPriors::repeat_weight, "weight of the spread of a repeat", false},
                        {&DemandPriors::chalk_bias_spread, "spread of the chalk test's bias", false},
                        {&DemandPriors::jar_step_spread, "spread of a jar's step from oil", true},
                        {&DemandPriors::damp_spread, "spread by damp", true},
                        {&DemandPriors::lot_spread, "spread between lots of medium", true},
                        {&DemandPriors::solids_spread, "spread left by a solids test", true},
                        {&DemandPriors::rich_step_spread, "spread of the rich edge", false},
                        {&DemandPriors::lean_width, "width of chalking", false},
                        {&DemandPriors::rich_width, "width of the rich edge", false},
                        {&DemandPriors::use_width, "width of chalking in use", false}};
    for (const Row& row : rows)
        check_limits(row.name, row.may_be_zero, [&row](DemandWorld& w, DemandRecord&) -> double& { return w.priors.*row.figure; });
    check_limits("spread of the step from oil", true, [](DemandWorld& w, DemandRecord&) -> double& { return w.kinds[1].step_spread; });
    check_limits("spread of the medium", true, [](DemandWorld& w, DemandRecord&) -> double& { return w.kinds[1].medium_spread; });
    check_limits("spread of a reading", true, [](DemandWorld&, DemandRecord& r) -> double& { return r.rub_outs[0].reading_spread; });
    check_limits("spread of a trial's weighing", true, [](DemandWorld&, DemandRecord& r) -> double& { return r.trials[0].weighing_spread; });
    check_limits("stated spread of a reading", true, [](DemandWorld&, DemandRecord& r) -> double& {
        r.rub_outs[0].stated_spread = 0.1;
        return *r.rub_outs[0].stated_spread;
    });
}

TEST_CASE("shares, factors and edges have their limits", "[errors]") {
    const auto share = [](double value) { return asked_with([value](DemandWorld& w, DemandRecord&) { w.priors.odd_share = value; }); };
    for (const double taken : {0.0, 4e-4, 0.5, 0.9999}) CHECK(share(taken) == "taken");
    CHECK(share(1.0) == "share of odd makers: 1");
    CHECK(share(-1e-4) == "share of odd makers: -1e-04");
    const auto factor = [](double value) { return asked_with([value](DemandWorld& w, DemandRecord&) { w.priors.odd_factor = value; }); };
    for (const double taken : {1.0, 1.0001, 1.1, 9.0}) CHECK(factor(taken) == "taken");
    CHECK(factor(0.9999) == "factor of odd makers: 0.9999");
    const auto k = [](double value) { return BinderSufficiency::from_proven(value); };
    check_position_limits("lean edge of a family", [&](DemandWorld& w, DemandRecord&, double v) { w.families[1].lean = k(v); }, 5e-4);
    check_position_limits("oil absorption of the jar's class",
                          [](DemandWorld&, DemandRecord& r, double v) { r.jars[0].reference = OilAbsorption::from_proven(v); }, 5e-4);
    check_position_limits("oil absorption of a rub-out",
                          [](DemandWorld&, DemandRecord& r, double v) { r.rub_outs[0].oil_absorption = OilAbsorption::from_proven(v); }, 5e-4);
    check_position_limits("k of a trial by the library", [&](DemandWorld&, DemandRecord& r, double v) { r.trials[0].library_k = k(v); }, 5e-4);
    const auto rich = [&](double value) { return asked_with([&](DemandWorld& w, DemandRecord&) { w.families[1].rich = k(value); }); };
    CHECK(rich(1.0001) == "taken");
    CHECK(rich(1.0) == "rich edge of a family: 1");
    CHECK(rich(std::numeric_limits<double>::infinity()).rfind("rich edge of a family", 0) == 0);
}

TEST_CASE("what names a jar, a family, a kind or a change names one that is there", "[errors]") {
    const auto trial = [](auto change) { return asked_with([&](DemandWorld&, DemandRecord& r) { change(r.trials[0]); }); };
    CHECK(trial([](PaintTrial& t) { t.jar = 0; }) == "taken");
    CHECK(trial([](PaintTrial& t) { t.jar = 2; }) == "jar of a reading: 2");
    CHECK(trial([](PaintTrial& t) { t.family = 1; }) == "taken");
    CHECK(trial([](PaintTrial& t) { t.family = 2; }) == "family of a trial: 2");
    CHECK(trial([](PaintTrial& t) { t.changes = 1; }) == "changes before a reading: 1");
    CHECK(asked_with([](DemandWorld&, DemandRecord& r) { r.jars[1].changes = 1, r.trials[0].changes = 1; }) == "taken");
    CHECK(asked_with([](DemandWorld& w, DemandRecord&) { w.families[1].kind = 1; }) == "taken");
    CHECK(asked_with([](DemandWorld& w, DemandRecord&) { w.families[1].kind = 2; }) == "kind of binder: 2");
    const DemandRecord record = lakebound::test::Bench(1).record;
    CHECK(told([&] { (void)learned_demand(stated_world(), record, {2, 0, {}}); }) == "jar asked about: 2");
    CHECK(told([&] { (void)learned_demand(stated_world(), record, {1, 2, {}}); }) == "family asked about: 2");
    CHECK(told([&] { (void)learned_demand(stated_world(), record, {1, 1, {}}); }) == "taken");
}
