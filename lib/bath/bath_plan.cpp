#include "lakebound/bath/bath_plan.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/rounded_text.hpp"

namespace lakebound {
namespace {

constexpr std::size_t curve_points = 41;
constexpr double curve_ends = 3.6; // hydroxides per aluminium
constexpr double nine_in_ten = 1.6448536269514722; // standard deviations

std::string litre_text(Volume volume) { return significant_text(in_litres(volume), 2) + " L"; }

void check_salts(const BathWish& wish) {
    if (!is_aluminium_salt(wish.aluminium))
        throw DomainError("salt to be laid", wish.aluminium.name, "an alum or another salt of aluminium");
    if (!is_alkali(wish.alkali))
        throw DomainError("alkali", wish.alkali.name, "a soda, a potash, a bicarbonate or chalk");
    if (wish.aluminium.gives[Ion::acetate] > 0.0)
        throw DomainError("salt to be laid", wish.aluminium.name, "an alum, a sulphate or a chloride of aluminium",
                          "acetate holds aluminium in solution; how much comes down is not known");
    if (wish.alkali.gives[Ion::calcium] > 0.0 && wish.alkali.gives[Ion::hydroxide] > 0.0)
        throw DomainError("alkali", wish.alkali.name, "a soda, a potash, a bicarbonate or chalk",
                          "a lake laid with lime holds gypsum, and how it falls is not known");
}

HydroxideBelief belief_of(const BathWish& wish, const LakingHabits& laking) {
    return wish.hydroxides.value_or(usual_hydroxides(wish.aluminium, laking));
}

HydroxidesPerAluminium clamped(double n) {
    return HydroxidesPerAluminium::of(std::clamp(n, HydroxideTag::lowest, HydroxideTag::highest));
}

LakeEstimate estimate_of(const BathWish& wish, Mass aluminium, const LakingHabits& laking, const WashHabits& washing) {
    const AmountOfSubstance al = moles(ions_of(wish.aluminium, aluminium)[Ion::aluminium]);
    const HydroxideBelief n = belief_of(wish, laking);
    // What is poured may be more than falls: without sulphate the lake is the books' hydroxide, however much that took.
    const bool keeps_sulphate = wish.aluminium.gives[Ion::sulphate] > 0.0;
    LakeEstimate lake{measured(al),
                      keeps_sulphate ? Estimate<HydroxidesPerAluminium>::normal(clamped(n.mean), HydroxidesPerAluminium::Difference::of(n.standard_uncertainty),
                                                                                laking.hydroxides.provenance())
                                     : Estimate<HydroxidesPerAluminium>::exact(HydroxidesPerAluminium::of(book_hydroxides), laking.hydroxides.provenance()),
                      Estimate<Mass>::lognormal(laking.dye_per_hydroxide.value().value() * (al * molar_mass(atoms_of("Al(OH)3"))),
                                                std::exp(laking.dye_per_hydroxide.relative_uncertainty()),
                                                laking.dye_per_hydroxide.provenance()),
                      washing.air_dry_water,
                      laking.cake_salts,
                      washing.dye_density,
                      washing.salts_density,
                      washing.recovered};
    return lake;
}

/// Water at rest of a lake laid with chalk: alumina and dye hold theirs, gypsum and chalk hold next to none (estimate).
Estimate<MassFraction> chalk_lake_water(const ChalkLake& chalk, const LakeEstimate& lake) {
    const double w = lake.water.value().value(), s = lake.salts.value().value(), dye = in_grams(lake.dye.value());
    const double water = w / (1.0 - w - s) * (in_grams(chalk.alumina) + dye);
    const double whole = (in_grams(chalk.solids) + dye + water) / (1.0 - s), share = water / whole;
    return Estimate<MassFraction>::normal(MassFraction::of(share),
                                          MassFraction::Difference::of(lake.water.standard_uncertainty().value() * share / w),
                                          lake.water.provenance());
}

/// What says how much, and how much aluminium salt that is.
Mass aluminium_of(BathPlan& plan, const LakingHabits& laking, const WashHabits& washing) {
    const BathWish& wish = plan.wish;
    if (wish.aluminium_mass) return *wish.aluminium_mass;
    if (wish.lake) {
        plan.by = AmountBy::lake;
        if (wish.alkali.gives[Ion::calcium] > 0.0)
            throw DomainError("lake wanted of a bath with chalk", "a mass", "the mass of the aluminium salt",
                              "what chalk leaves in the lake depends on how much of it goes in");
        const Mass trial = grams(100);
        return trial * (in_grams(*wish.lake) / in_grams(expected_lake(estimate_of(wish, trial, laking, washing)).mass));
    }
    if (!plan.plant_dry)
        throw DomainError("size of the bath", "not said", "the aluminium salt, the lake wanted, or the plant",
                          "say one of them with its mass, such as 50 g of the aluminium salt");
    plan.by = AmountBy::plant;
    return *plan.plant_dry * laking.alum_per_plant.value().value();
}

void draw_liquor(BathPlan& plan, const LakingHabits& laking) {
    const BathWish& wish = plan.wish;
    plan.heat_limit = laking.heat_limit.value();
    if (!plan.plant_dry) {
        plan.liquor = wish.water.value_or((plan.aluminium / laking.alum_per_plant.value().value()) * laking.water_per_plant.value());
        return;
    }
    const Mass dry = *plan.plant_dry;
    const Volume water = wish.water.value_or(dry * laking.water_per_plant.value());
    unsigned pulls = wish.pulls.value_or(laking.pulls);
    if (wish.pot) {
        const Volume fits = water_that_fits(*wish.pot, dry, laking.plant_density.value(), laking.pot_headspace.value());
        while (pulls < 6 && water / static_cast<double>(pulls) > fits) {
            ++pulls;
            plan.more_pulls_for_pot = true;
        }
        if (water / static_cast<double>(pulls) > fits || (wish.pulls && pulls > *wish.pulls))
            throw DomainError("pot", litre_text(*wish.pot),
                              litre_text(pot_for(water / static_cast<double>(wish.pulls.value_or(6)), dry, laking.plant_density.value(),
                                                 laking.pot_headspace.value())) + " or more",
                              "take a larger pot, more pulls or less water");
    }
    plan.pulls = plan_pulls(dry, water, pulls, laking.water_held.value());
    plan.pot_needed = pot_for(plan.pulls.front().water, dry, laking.plant_density.value(), laking.pot_headspace.value());
    for (const Pull& pull : plan.pulls) plan.liquor += pull.liquor;
}

void make_up_solutions(BathPlan& plan, const LakingHabits& laking, const WashHabits& washing) {
    const BathWish& wish = plan.wish;
    const Strength strength = wish.strength.value_or(Strength{laking.strength.value().value(), StrengthBasis::by_volume});
    const Temperature cold = degrees_celsius(20);
    const HydroxideBelief n = belief_of(wish, laking);
    const auto alkali = [&](double hydroxides) {
        const Mass of_book = alkali_needed(wish.aluminium, plan.aluminium, wish.alkali, HydroxidesPerAluminium::of(book_hydroxides));
        return of_book * (std::max(hydroxides, HydroxideTag::lowest) / book_hydroxides); // a little over all of it raises the pH
    };
    plan.alkali = {alkali(n.mean - nine_in_ten * n.standard_uncertainty), alkali(n.mean),
                   alkali(n.mean + nine_in_ten * n.standard_uncertainty)};
    plan.book_alkali = alkali(book_hydroxides);
    plan.aluminium_solution = made_up(wish.aluminium, plan.aluminium, strength, cold);
    plan.aluminium_dissolves = dissolves(wish.aluminium, plan.aluminium_solution.by_mass, cold);
    if (solutes_of(wish.alkali)) {
        plan.alkali_solution = made_up(wish.alkali, plan.alkali.high, strength, cold);
        plan.alkali_dissolves = dissolves(wish.alkali, plan.alkali_solution.by_mass, cold);
    } else if (wish.alkali.gives[Ion::ammonium] > 0.0) { // a solution already, thinned: filled up to g in mL
        constexpr MassDensity thin_ammonia = grams_per_cubic_centimetre(0.994); // 1 % of ammonia at 20 degC; value from memory
        plan.alkali_solution.salt = plan.alkali.high;
        plan.alkali_solution.volume = plan.alkali.high / (strength.value * grams_per_cubic_centimetre(1.0));
        plan.alkali_solution.water = plan.alkali_solution.volume * thin_ammonia - plan.alkali.high;
        plan.alkali_solution.density = thin_ammonia;
        plan.alkali_solution.by_mass = MassFraction::of((plan.alkali.high / (plan.alkali_solution.volume * thin_ammonia)).value());
    } else { // stirred up in water, g to mL
        plan.alkali_solution.salt = plan.alkali.high;
        plan.alkali_solution.water = plan.alkali.high / strength.value;
        plan.alkali_solution.volume = plan.alkali_solution.water / kilograms_per_cubic_metre(1000);
        plan.alkali_solution.by_mass = MassFraction::of(strength.value / (1.0 + strength.value));
        plan.alkali_solution.density = (plan.alkali.high + plan.alkali_solution.water) / plan.alkali_solution.volume;
    }
    const SpecificVolume per_mass = plan.alkali_solution.volume_per_salt();
    plan.middle_volume = plan.alkali.middle * per_mass;
    plan.high_volume = plan.alkali_solution.volume;
    plan.first_portion = washing.first_portion.value().value() * plan.middle_volume;
    plan.aluminium_for_ten_millilitres =
        aluminium_needed(wish.alkali, millilitres(10) / per_mass, wish.aluminium, clamped(n.mean));
    const Mass in_half = (0.5 * plan.aluminium_solution.volume) / per_mass;
    plan.half_measure_excess = in_grams(in_half) / in_grams(plan.book_alkali) - 1.0;
}

void find_room(BathPlan& plan, const LakingHabits& laking) {
    const BathWish& wish = plan.wish;
    plan.liquid = plan.liquor + plan.aluminium_solution.volume + plan.high_volume;
    plan.vessel_good = laking.vessel_times * plan.liquid;
    plan.vessel_least = plan.liquid * (1.0 + laking.least_headspace.value().value());
    const double carbon = wish.alkali.gives[Ion::carbonate] + wish.alkali.gives[Ion::bicarbonate];
    if (!(carbon > 0.0)) return;
    const AmountOfSubstance gas = carbon * amount_of(wish.alkali, plan.alkali.high);
    const Time life = wish.foam_life.value_or(laking.foam_life.value());
    const Temperature warm = laking.laying_warmth.value();
    // Pouring may take so long at most: that asks for headspace too.
    const Volume slow = gas_volume(gas, warm) * (in_seconds(life) / in_seconds(laking.longest_pouring.value())) /
                        laking.foam_fill.value().value();
    plan.vessel_least = std::max(plan.vessel_least, plan.liquid + slow);
    plan.vessel_good = std::max(plan.vessel_good, plan.vessel_least);
    const Volume vessel = wish.vessel.value_or(plan.vessel_good);
    if (vessel < plan.vessel_least)
        throw DomainError("vessel in which the lake is laid", litre_text(vessel), litre_text(plan.vessel_least * 1.05) + " or more",
                          "liquor and foam need that much; or lay it in two baths");
    plan.headspace = vessel - plan.liquid;
    plan.foam = plan_foam(gas, warm, *plan.headspace, life, laking.foam_fill.value());
}

void titrate(BathPlan& plan, const LakingHabits& laking, const WashHabits& washing) {
    plan.stop = laking.stop;
    plan.rests_within = washing.ph_rests_within;
    if (plan.wish.alkali.gives[Ion::calcium] > 0.0) return;
    const Titration bath = titration_of(plan);
    plan.hydroxide_curve = titration_curve(bath, LakeSolid::hydroxide, stirred(), curve_ends, curve_points);
    if (plan.wish.aluminium.gives[Ion::sulphate] > 0.0)
        plan.basic_curve = titration_curve(bath, LakeSolid::basic_sulphate, stirred(), curve_ends, curve_points);
    // What a reading in the fizzing bath says of one that is over by a tenth.
    const Mass over = 1.1 * plan.book_alkali;
    plan.over_by_tenth = OverByTenth{after_alkali(bath, over, LakeSolid::hydroxide, fizzing()).ph,
                                     after_alkali(bath, over, LakeSolid::hydroxide, stirred()).ph};
}

void wash_and_expect(BathPlan& plan, const LakingHabits& laking, const WashHabits& washing) {
    const BathWish& wish = plan.wish;
    if (wish.alkali.gives[Ion::calcium] > 0.0) {
        plan.chalk = chalk_lake(wish.aluminium, plan.aluminium, wish.alkali, plan.alkali.middle, plan.liquid,
                                laking.gypsum_dissolves.value());
        plan.lake_inputs = estimate_of(wish, plan.aluminium, laking, washing);
        plan.lake_inputs->water = chalk_lake_water(*plan.chalk, *plan.lake_inputs);
        plan.lake = expected_chalk_lake(*plan.chalk, *plan.lake_inputs);
        plan.wash = {laking.bed_share.value().value() * plan.liquid, plan.liquid};
        plan.washes = static_cast<unsigned>(washing.chalk_washes);
        plan.wash_water = water_for(plan.wash, plan.washes);
        return;
    }
    BathContents bath;
    bath.add(wish.aluminium, plan.aluminium);
    bath.add(wish.alkali, plan.alkali.middle);
    const Precipitated laid = precipitate(bath, clamped(belief_of(wish, laking).mean));
    plan.salts = laid.dissolved_salts;
    plan.salts_strength = {plan.salts / plan.liquid};
    plan.lake_inputs = estimate_of(wish, plan.aluminium, laking, washing);
    plan.lake = expected_lake(*plan.lake_inputs);
    plan.wash = {laking.bed_share.value().value() * plan.liquid, plan.liquid};
    // Enough for nine in ten of what drained cakes hold.
    const auto held = usual_held(washing);
    const SpecificVolume much = held.value() * std::exp(standard_normal_quantile(0.9) * held.relative_uncertainty());
    const WeightPerVolume target{washing.salts_allowed.value().value() / much};
    plan.washes = washes_needed(plan.salts_strength, {}, plan.wash, target).value_or(0);
    plan.wash_water = water_for(plan.wash, plan.washes);
}

} // namespace

HydroxideBelief usual_hydroxides(const Salt& aluminium, const LakingHabits& laking) {
    const double doubt = laking.hydroxides.standard_uncertainty().value();
    return {aluminium.gives[Ion::sulphate] > 0.0 ? laking.hydroxides.value().value() : book_hydroxides, doubt};
}

Titration titration_of(const BathPlan& plan) {
    return {plan.wish.aluminium, plan.aluminium, plan.liquor + plan.aluminium_solution.volume, plan.wish.alkali,
            plan.alkali_solution.volume / plan.alkali_solution.salt};
}

BathPlan plan_bath(const BathWish& wish, const LakingHabits& laking, const WashHabits& washing) {
    check_salts(wish);
    BathPlan plan;
    plan.wish = wish;
    if (wish.plant) {
        const auto& lot = *wish.plant;
        plan.plant_dry = lot.fresh ? dry_plant(lot.mass, laking.dry_share[static_cast<std::size_t>(lot.part)].value()) : lot.mass;
        if (!(in_grams(*plan.plant_dry) > 0.0)) throw_out_of_range("mass of the plant", in_grams(lot.mass), "g", "above 0");
    }
    plan.aluminium = aluminium_of(plan, laking, washing);
    if (!(in_grams(plan.aluminium) > 0.0)) throw_out_of_range("mass of the aluminium salt", in_grams(plan.aluminium), "g", "above 0");
    draw_liquor(plan, laking);
    make_up_solutions(plan, laking, washing);
    find_room(plan, laking);
    titrate(plan, laking, washing);
    wash_and_expect(plan, laking, washing);
    plan.cautions = bath_cautions(wish.aluminium, wish.alkali, wish.plant.has_value());
    return plan;
}

} // namespace lakebound
