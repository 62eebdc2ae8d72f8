#include "demand_check.hpp"

#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void check_priors(const DemandPriors& p) {
    check_spread(p.plant_spread, "spread between plants");
    check_spread(p.jar_spread, "spread between jars", false);
    check_spread(p.jar_spread_doubt, "doubt of the spread between jars");
    check_spread(p.unlike_jar_spread, "spread of a jar unlike its kin");
    check_spread(p.regrind_spread, "spread of grinding again");
    check_spread(p.hand_spread, "spread between hands");
    check_spread(p.repeat_spread, "spread of a repeat", false);
    check_spread(p.repeat_weight, "weight of the spread of a repeat", false);
    check_spread(p.chalk_bias_spread, "spread of the chalk test's bias", false);
    check_spread(p.jar_step_spread, "spread of a jar's step from oil");
    check_spread(p.damp_spread, "spread by damp");
    check_spread(p.lot_spread, "spread between lots of medium");
    check_spread(p.solids_spread, "spread left by a solids test");
    check_spread(p.rich_step_spread, "spread of the rich edge", false);
    check_spread(p.lean_width, "width of chalking", false);
    check_spread(p.rich_width, "width of the rich edge", false);
    check_spread(p.use_width, "width of chalking in use", false);
    if (!(p.odd_share >= 0.0 && p.odd_share < 1.0))
        throw_out_of_range("share of odd makers", p.odd_share, "", "0 to below 1");
    if (!(p.odd_factor >= 1.0 && std::isfinite(p.odd_factor)))
        throw_out_of_range("factor of odd makers", p.odd_factor, "", "1 or more, finite");
}

void check_position(double ratio, const char* what) {
    if (!(ratio > 0.0 && std::isfinite(ratio))) throw_out_of_range(what, ratio, "", "above 0, finite");
}

} // namespace

void check_spread(double spread, const char* what, bool may_be_zero) {
    if (!(std::isfinite(spread) && (may_be_zero ? spread >= 0.0 : spread > 0.0)))
        throw_out_of_range(what, spread, "", may_be_zero ? "0 or more, finite" : "above 0, finite");
}

void check_index(std::size_t index, std::size_t count, const char* what) {
    if (index >= count)
        throw DomainError(what, std::to_string(index), "one of " + std::to_string(count) + ", from 0");
}

void check_record(const DemandWorld& world, const DemandRecord& record) {
    check_priors(world.priors);
    for (const auto& k : world.kinds) {
        check_spread(k.step_spread, "spread of the step from oil");
        check_spread(k.medium_spread, "spread of the medium");
    }
    for (const auto& f : world.families) {
        check_index(f.kind, world.kinds.size(), "kind of binder");
        check_position(f.lean.value(), "lean edge of a family");
        if (!(f.lean < f.rich && std::isfinite(f.rich.value())))
            throw_out_of_range("rich edge of a family", f.rich.value(), "", "above the lean edge, finite");
    }
    for (const auto& jar : record.jars)
        check_position(jar.reference.value(), "oil absorption of the jar's class");
    const auto check_jar = [&](std::size_t jar, std::size_t changes) {
        check_index(jar, record.jars.size(), "jar of a reading");
        if (changes > record.jars[jar].changes)
            throw DomainError("changes before a reading", std::to_string(changes),
                              "at most those of its jar: " + std::to_string(record.jars[jar].changes));
    };
    for (const auto& r : record.rub_outs) {
        check_jar(r.jar, r.changes);
        check_spread(r.reading_spread, "spread of a reading");
        if (r.stated_spread) check_spread(*r.stated_spread, "stated spread of a reading");
        check_position(r.oil_absorption.value(), "oil absorption of a rub-out");
    }
    for (const auto& t : record.trials) {
        check_jar(t.jar, t.changes);
        check_index(t.family, world.families.size(), "family of a trial");
        check_spread(t.weighing_spread, "spread of a trial's weighing");
        check_position(t.library_k.value(), "k of a trial by the library");
    }
}

} // namespace lakebound
