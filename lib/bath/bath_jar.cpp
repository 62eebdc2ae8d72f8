#include "lakebound/bath/bath_jar.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/rounded_text.hpp"

namespace lakebound {
namespace {

std::string bath_provenance(const std::vector<SaltPoured>& poured) {
    std::string text = "computed from the bath";
    const char* before = ": ";
    for (const auto& each : poured) {
        text += before + mass_text(each.mass) + " " + each.salt;
        before = ", ";
    }
    return text;
}

/// Salts as read: lognormal through the best estimate and the upper bound of nine in ten.
Estimate<MassFraction> salts_read(const WashOutlook& washed, const Provenance& from) {
    const double left = washed.left.value(), high = washed.left_high.value();
    if (left > 1e-6 && high > left) return Estimate<MassFraction>::lognormal(washed.left, std::exp(std::log(high / left) / 1.645), from);
    // Clean within the doubt: half of what may still be there, as wide.
    const double half = std::max(high, 1e-6) / 2.0;
    return Estimate<MassFraction>::rectangular(MassFraction::of(half), MassFraction::Difference::of(half), from);
}

bool likely(const std::optional<Probability>& chance) { return chance && chance->value() > 0.5; }

} // namespace

BathJar jar_from(const BathEnd& end, const WashHabits& habits) {
    if (end.laid_with_chalk && !end.chalk)
        throw DomainError("what chalk laid down", "not given", "chalk, gypsum and alumina by mass");
    BathJar jar{};
    jar.provenance = bath_provenance(end.poured);
    const Provenance computed{Origin::computed, jar.provenance, false};
    LakeEstimate lake = end.lake;
    if (end.moisture) lake.water = *end.moisture;
    if (end.washed) lake.salts = salts_read(*end.washed, computed);
    jar.expected = end.laid_with_chalk ? expected_chalk_lake(*end.chalk, lake) : expected_lake(lake);
    jar.moisture = lake.water;
    jar.colour = end.colour;
    jar.salts = lake.salts;
    jar.net_mass = end.weighed ? *end.weighed
                               : Estimate<Mass>::normal(jar.expected.mass, jar.expected.mass_standard_uncertainty, computed);
    jar.density = Estimate<MassDensity>::normal(jar.expected.density, jar.expected.density_standard_uncertainty, computed);

    auto& remarks = jar.remarks;
    if (end.dried && end.dried->state == DryingState::falling && end.dried->dry_now.value() < 0.5) remarks.push_back(JarRemark::still_wet);
    if (end.dried && end.dried->state == DryingState::stuck) remarks.push_back(JarRemark::stuck);
    if (end.laid_with_chalk) remarks.push_back(JarRemark::chalk_laid);
    if (!end.washed) {
        remarks.push_back(JarRemark::salts_unread);
    } else {
        const MassFraction left = end.washed->left, allowed = habits.salts_allowed.value();
        if (left > allowed) remarks.push_back(JarRemark::salts_for_paint);
        else if (left > habits.salts_for_oil.value()) remarks.push_back(JarRemark::salts_for_oil);
        if (2.0 * end.washed->from_wash_water.value() > allowed.value()) remarks.push_back(JarRemark::hard_wash_water);
    }
    if (end.ph) {
        jar.ph = end.ph;
        const Ph ph = end.ph->value();
        const auto dead = [&](PreservativeAcid acid) { return chance_dead(acid, ph, end.ph->standard_uncertainty(), habits.preservative_active.value()); };
        jar.benzoate_dead = dead(PreservativeAcid::benzoic);
        jar.sorbate_dead = dead(PreservativeAcid::sorbic);
        if (ph > habits.alkaline_above) remarks.push_back(JarRemark::alkaline);
        if (likely(jar.benzoate_dead)) remarks.push_back(JarRemark::benzoate_dead);
        if (likely(jar.sorbate_dead)) remarks.push_back(JarRemark::sorbate_dead);
    } else {
        remarks.push_back(JarRemark::ph_unread);
    }
    if (end.weighed) {
        const double weighed = in_kilograms(end.weighed->value());
        if (weighed < jar.expected.mass_kg.low) remarks.push_back(JarRemark::less_than_expected);
        if (weighed > jar.expected.mass_kg.high) remarks.push_back(JarRemark::more_than_expected);
    }
    if (!end.moisture) remarks.push_back(JarRemark::moisture_unweighed);
    return jar;
}

} // namespace lakebound
