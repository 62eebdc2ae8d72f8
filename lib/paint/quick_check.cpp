#include "lakebound/paint/quick_check.hpp"

#include <cmath>

namespace lakebound {
namespace {

MassDensity needed(const std::optional<MassDensity>& density, const std::string& of, const char* what) {
    if (!density)
        throw DomainError(std::string(what) + " of " + of, "not given", "needed to know the volume that stays",
                          "give it, or measure the binder by volume if all of it stays");
    if (!(density->value() > 0.0))
        throw_out_of_range(what, in_grams_per_cubic_centimetre(*density), "g/cm3", "above 0");
    return *density;
}

} // namespace

Volume dry_binder_volume(const QuickBinder& b) {
    const bool by_mass = std::holds_alternative<Mass>(b.amount);
    const double amount =
        by_mass ? in_grams(std::get<Mass>(b.amount)) : in_millilitres(std::get<Volume>(b.amount));
    if (!(amount > 0.0)) throw_out_of_range("amount of binder", amount, by_mass ? "g" : "mL", "above 0");
    const double stays = b.non_volatile.value();
    if (!(stays > 0.0)) throw_out_of_range("non-volatile share of the binder", stays, "w/w", "above 0");
    const bool all_stays = !(stays < 1.0);
    if (all_stays && !by_mass) return std::get<Volume>(b.amount);
    const Mass mass =
        by_mass ? std::get<Mass>(b.amount) : std::get<Volume>(b.amount) * needed(b.density, b.name, "density");
    const auto& solids = all_stays && !b.solids_density ? b.density : b.solids_density;
    return stays * mass / needed(solids, b.name, all_stays ? "density" : "density of the solids");
}

QuickCheck quick_check(const QuickQuestion& question) {
    if (!(question.pigment.value() > 0.0))
        throw_out_of_range("pigment mass", in_grams(question.pigment), "g", "above 0");
    if (question.binders.empty())
        throw DomainError("binder", "none", "one at least", "a paint without binder is a pile of dust");
    QuickCheck a;
    for (const QuickBinder& b : question.binders)
        a.dry_binder += dry_binder_volume(b);

    const bool oa = question.oil_absorption.has_value(), rho = question.pigment_density.has_value();
    const auto wait = [&](QuickAnswer answer, bool for_oa, bool for_rho) {
        if (for_oa && !oa) a.unanswered.push_back({answer, QuickNeed::oil_absorption});
        if (for_rho && !rho) a.unanswered.push_back({answer, QuickNeed::pigment_density});
    };
    SpecificVolume demand;
    if (oa) {
        demand =
            effective_demand(binder_demand(*question.oil_absorption, question.test_oil), question.binder_index);
        a.k = binder_sufficiency(a.dry_binder, question.pigment, demand);
        const Volume fills = question.pigment * demand, spare = a.dry_binder - fills;
        // At its aim a paint has neither: what is left then is the rounding of the sums.
        a.spare_binder = std::abs(spare / fills) < 1e-9 ? Volume() : spare;
        if (question.window) a.verdict = verdict(*a.k, *question.window);
    }
    wait(QuickAnswer::k, true, false);
    wait(QuickAnswer::verdict, true, false);
    if (!question.window) a.unanswered.push_back({QuickAnswer::verdict, QuickNeed::family});
    wait(QuickAnswer::binder_balance, true, false);

    if (rho)
        a.pvc = pigment_volume_concentration({.pigment = pigment_volume(question.pigment, *question.pigment_density),
                                              .dry_binder = a.dry_binder});
    wait(QuickAnswer::pvc, false, true);
    if (oa && rho) {
        a.cpvc = critical_pigment_volume_concentration(demand, *question.pigment_density);
        a.reduced_pvc = reduced_pigment_volume_concentration(*a.pvc, *a.cpvc);
        a.porosity = film_porosity(
            *a.k,
            critical_pigment_volume_concentration(binder_demand(*question.oil_absorption, question.test_oil),
                                                  *question.pigment_density),
            question.binder_index);
    }
    wait(QuickAnswer::cpvc, true, true);
    wait(QuickAnswer::reduced_pvc, true, true);
    wait(QuickAnswer::porosity, true, true);
    return a;
}

} // namespace lakebound
