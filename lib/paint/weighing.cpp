#include "lakebound/paint/weighing.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "lakebound/material/density.hpp"

namespace lakebound {
namespace {

double stepped(double x, double step) { return std::round(x / step) * step; }

bool carries(const Scale& scale, Mass mass) { return !scale.capacity || mass <= *scale.capacity; }

// One reading to the nearest step has the standard uncertainty step / sqrt(12) (jcgm-100, 4.3.7).
bool measures(const Syringe& syringe, Volume volume, Share tolerance) {
    return volume.value() * tolerance.value() >= 2.0 * syringe.step.value() / std::sqrt(12.0) * (1.0 - 1e-9);
}

// Filling a syringe more often than this is worse than weighing (a judgement).
constexpr int most_fills = 6;

// The smallest syringe that takes the volume at once, or else the largest, of those that measure it to
// the tolerance.
std::optional<SyringeReading> syringe_reading(const Bench& bench, Volume volume) {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < bench.syringes.size(); ++i) {
        const Syringe& s = bench.syringes[i];
        if (!(s.capacity.value() > 0.0))
            throw_out_of_range("capacity of a syringe", s.capacity.value(), "m3", "above 0");
        if (!(s.step.value() > 0.0)) throw_out_of_range("step of a syringe", s.step.value(), "m3", "above 0");
        if (!measures(s, volume, bench.weighing_tolerance)) continue;
        if (!best) {
            best = i;
            continue;
        }
        const Volume now = bench.syringes[*best].capacity;
        if (now < volume ? s.capacity > now : s.capacity >= volume && s.capacity < now) best = i;
    }
    if (!best) return std::nullopt;
    const Syringe& syringe = bench.syringes[*best];
    const double fills = std::ceil(volume.value() / syringe.capacity.value() * (1.0 - 1e-9));
    if (fills > most_fills) return std::nullopt;
    return SyringeReading{*best, volume, rounded_to_step(volume, syringe),
                          std::max(1, static_cast<int>(fills))};
}

Weighing weighing(const Bench& bench, SheetPart part, std::size_t index, const std::string& id,
                  const std::string& name, Mass mass) {
    Weighing w;
    w.part = part;
    w.index = index;
    w.id = id;
    w.name = name;
    w.exact = w.to_weigh = mass;
    w.scale = best_scale(bench, mass);
    const Scale& scale = bench.scales[w.scale];
    w.rounded = rounded_to_step(mass, scale);
    if (!carries(scale, mass) && scale.capacity->value() > 0.0) {
        const double portions = std::ceil(mass.value() / scale.capacity->value());
        if (!(portions < 1e6)) throw_out_of_range("portions to weigh", portions, "", "below a million");
        w.portions = static_cast<int>(portions);
    }
    // A mass of nothing is weighed by leaving the scale alone.
    if (mass.value() > 0.0) {
        w.error = Share::of(std::min(1.0, 2.0 * standard_uncertainty(scale).value() / mass.value()));
        w.below_minimum = mass < minimum_mass(scale, bench.weighing_tolerance) * (1.0 - 1e-9);
    }
    return w;
}

// ---- stock solutions -------------------------------------------------------------------------

struct Carrier {
    enum class Kind { none, oil, water, ethanol, turpentine } kind = Kind::none;
    std::size_t part = 0; // of the medium, for oil and, where it has some, water
    bool in_medium = false;
    double strongest = 0.10; // stock that still pours or spreads
};

Carrier carrier_for(const Recipe& recipe, const Ingredient& ingredient, std::size_t itself) {
    const auto find = [&](Role role) {
        Carrier c;
        for (std::size_t i = 0; i < recipe.medium.parts.size(); ++i)
            if (i != itself && recipe.medium.parts[i].ingredient.role == role) {
                c.part = i;
                c.in_medium = true;
                break;
            }
        return c;
    };
    Carrier oil = find(Role::drying_oil), water = find(Role::water), ethanol, turpentine;
    oil.kind = oil.in_medium ? Carrier::Kind::oil : Carrier::Kind::none;
    water.kind = Carrier::Kind::water;
    ethanol.kind = Carrier::Kind::ethanol;
    turpentine.kind = Carrier::Kind::turpentine;
    oil.strongest = 0.05; // wax and soaps set to a stiff paste in oil above that
    if (ingredient.strongest_solution)
        water.strongest = std::min(water.strongest, ingredient.strongest_solution->value().value());
    const bool volatile_itself = ingredient.non_volatile.value().value() <= 0.5;
    switch (ingredient.role) {
    case Role::wax:
    case Role::drying_oil:
        return oil;
    case Role::resin:
        // Oil takes up resin only when hot, which is no work for a kitchen; turpentine does it cold.
        return turpentine;
    case Role::preservative:
        return volatile_itself ? (oil.in_medium ? oil : ethanol) : water;
    case Role::gum:
    case Role::plasticiser:
    case Role::protein:
    case Role::wetting_agent:
    case Role::salt:
        return water;
    case Role::emulsion:
    case Role::water:
    case Role::solvent:
        return {};
    }
    return {};
}

Mass least_weighable(const Bench& bench) {
    Mass least = minimum_mass(bench.scales.front(), bench.weighing_tolerance);
    for (const Scale& scale : bench.scales)
        least = std::min(least, minimum_mass(scale, bench.weighing_tolerance));
    return least;
}

// The strongest stock that the scale weighs; nothing when there is none, or when it would bring more of the
// carrier than may be taken off. Water and solvents that the paint does not hold leave again and may be any
// amount.
std::optional<StockSolution> stock_solution(const Recipe& recipe, const Bench& bench, Mass mass,
                                            const Carrier& carrier, std::optional<Mass> most_carrier) {
    if (carrier.kind == Carrier::Kind::none || !(mass.value() > 0.0)) return std::nullopt;
    constexpr std::array strengths{0.10, 0.05, 0.02, 0.01, 0.005};
    constexpr double weakest_in_one_step = 0.02;
    StockSolution s;
    bool weighable = false;
    for (const double usual : strengths) {
        const double strength = std::min(usual, carrier.strongest);
        s.strength = MassFraction::of(strength);
        s.stock = mass / strength;
        const Scale& scale = bench.scales[best_scale(bench, s.stock)];
        s.rounded = rounded_to_step(s.stock, scale);
        s.carrier_mass = s.rounded * (1.0 - strength);
        weighable = s.stock >= minimum_mass(scale, bench.weighing_tolerance) * (1.0 - 1e-9);
        if (weighable) break;
    }
    if (!weighable || (most_carrier && s.carrier_mass > *most_carrier)) return std::nullopt;
    const double strength = s.strength.value(), first = carrier.strongest;
    if (strength < weakest_in_one_step && strength < first) s.first_strength = MassFraction::of(first);
    // In two steps, as much of the first must be weighed into the second as of the ingredient into the first.
    s.least = std::max(s.stock, least_weighable(bench) / (s.first_strength ? strength / first : strength));
    switch (carrier.kind) {
    case Carrier::Kind::oil:
        s.carrier = recipe.medium.parts[carrier.part].ingredient.id;
        s.carrier_name = recipe.medium.parts[carrier.part].ingredient.name;
        break;
    case Carrier::Kind::water:
        s.carrier = s.carrier_name = "water";
        break;
    case Carrier::Kind::ethanol:
        s.carrier = s.carrier_name = "ethanol";
        break;
    case Carrier::Kind::turpentine:
        s.carrier = s.carrier_name = "turpentine";
        break;
    case Carrier::Kind::none:
        break;
    }
    return s;
}

void take_off(Weighing& from, const Bench& bench, Mass carrier) {
    from.to_weigh -= carrier;
    from.rounded = rounded_to_step(from.to_weigh, bench.scales[from.scale]);
}

// What the ingredient of a line truly contributes once weighed, and the carrier that comes with it.
struct Weighed {
    Mass ingredient, carrier;
};
Weighed weighed(const Weighing& w) {
    if (w.stock)
        return {w.stock->rounded * w.stock->strength.value(),
                w.stock->rounded * (1.0 - w.stock->strength.value())};
    return {w.rounded, Mass()};
}

} // namespace

Mass standard_uncertainty(const Scale& scale) {
    if (!(scale.step.value() > 0.0))
        throw_out_of_range("step of the scale", scale.step.value(), "kg", "above 0");
    const Mass reading = 0.41 * scale.step;
    return scale.repeatability && *scale.repeatability > reading ? *scale.repeatability : reading;
}

Mass minimum_mass(const Scale& scale, Share tolerance) {
    if (!(tolerance.value() > 0.0)) throw_out_of_range("weighing tolerance", tolerance.value(), "", "above 0");
    return 2.0 * standard_uncertainty(scale) / tolerance.value();
}

Mass rounded_to_step(Mass mass, const Scale& scale) {
    if (!(scale.step.value() > 0.0))
        throw_out_of_range("step of the scale", scale.step.value(), "kg", "above 0");
    return Mass::from_value(stepped(mass.value(), scale.step.value()));
}

Volume rounded_to_step(Volume volume, const Syringe& syringe) {
    if (!(syringe.step.value() > 0.0))
        throw_out_of_range("step of the syringe", syringe.step.value(), "m3", "above 0");
    return Volume::from_value(stepped(volume.value(), syringe.step.value()));
}

std::size_t best_scale(const Bench& bench, Mass mass) {
    if (bench.scales.empty()) throw_out_of_range("number of scales on the bench", 0.0, "", "1 or more");
    const auto& scales = bench.scales;
    std::optional<std::size_t> good, finest;
    std::size_t strongest = 0;
    for (std::size_t i = 0; i < scales.size(); ++i) {
        if (scales[strongest].capacity &&
            (!scales[i].capacity || *scales[i].capacity > *scales[strongest].capacity))
            strongest = i;
        if (!carries(scales[i], mass)) continue;
        if (!finest || scales[i].step < scales[*finest].step) finest = i;
        if (mass >= minimum_mass(scales[i], bench.weighing_tolerance) &&
            (!good || scales[i].step > scales[*good].step))
            good = i;
    }
    if (good) return *good;
    return finest ? *finest : strongest;
}

WeighSheet weigh_sheet(const Recipe& recipe, const Composition& composition, const Bench& bench) {
    WeighSheet sheet;
    const auto& parts = recipe.medium.parts;
    const std::size_t nothing = parts.size();

    for (std::size_t i = 0; i < recipe.pigments.size(); ++i) {
        const Pigment& p = recipe.pigments[i].pigment;
        sheet.slab.push_back(weighing(bench, SheetPart::pigment, i, p.id, p.name, composition.pigments.at(i)));
    }
    const std::size_t medium_line = sheet.slab.size();
    const Mass medium = total_medium(composition);
    // A medium of one part is that part: oil is oil.
    sheet.slab.push_back(
        parts.size() == 1
            ? weighing(bench, SheetPart::medium, 0, parts[0].ingredient.id, parts[0].ingredient.name, medium)
            : weighing(bench, SheetPart::medium, 0, recipe.medium.id, recipe.medium.name, medium));
    const std::size_t first_additive = sheet.slab.size();
    for (std::size_t i = 0; i < recipe.additives.size(); ++i) {
        const Ingredient& a = recipe.additives[i].ingredient;
        sheet.slab.push_back(
            weighing(bench, SheetPart::additive, i, a.id, a.name, composition.additives.at(i)));
    }
    const bool has_water = composition.working_water.value() > 0.0;
    if (has_water)
        sheet.slab.push_back(
            weighing(bench, SheetPart::working_water, 0, "water", "water", composition.working_water));
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Ingredient& part = parts[i].ingredient;
        sheet.medium.push_back(
            weighing(bench, SheetPart::medium_part, i, part.id, part.name, composition.medium_parts.at(i)));
    }

    // Additives too little to weigh become stock solutions; the carrier comes off what already holds it, of
    // which stocks take half at most: the rest is needed to work with.
    Weighing* water_line = has_water ? &sheet.slab.back() : nullptr;
    std::vector<Mass> extra_oil(parts.size());
    for (std::size_t i = 0; i < recipe.additives.size(); ++i) {
        Weighing& line = sheet.slab[first_additive + i];
        if (!line.below_minimum) continue;
        const Carrier carrier = carrier_for(recipe, recipe.additives[i].ingredient, nothing);
        const bool is_oil = carrier.kind == Carrier::Kind::oil;
        std::optional<Mass> most;
        if (is_oil) most = 0.5 * composition.medium_parts[carrier.part] - extra_oil[carrier.part];
        line.stock = stock_solution(recipe, bench, line.exact, carrier, most);
        if (!line.stock) continue;
        if (is_oil) {
            extra_oil[carrier.part] += line.stock->carrier_mass;
            line.stock->deducted_from = SheetPart::medium;
            line.stock->deducted_index = carrier.part;
            take_off(sheet.slab[medium_line], bench, line.stock->carrier_mass);
            take_off(sheet.medium[carrier.part], bench, line.stock->carrier_mass);
        } else if (carrier.kind == Carrier::Kind::water && water_line != nullptr &&
                   water_line->to_weigh >= line.stock->carrier_mass) {
            line.stock->deducted_from = SheetPart::working_water;
            take_off(*water_line, bench, line.stock->carrier_mass);
        }
    }
    // The same for the parts of a medium mixed fresh. It goes in by weight, so it must hold no more of the
    // carrier than its recipe says, be it one that leaves again.
    std::vector<Mass> extra_part(parts.size());
    for (std::size_t i = 0; i < parts.size(); ++i) {
        Weighing& line = sheet.medium[i];
        if (!line.below_minimum) continue;
        const Mass least = least_weighable(bench) * (medium / line.exact);
        if (!sheet.least_medium || least > *sheet.least_medium) sheet.least_medium = least;
        const Carrier carrier = carrier_for(recipe, parts[i].ingredient, i);
        if (!carrier.in_medium) continue;
        const Mass most =
            0.5 * composition.medium_parts[carrier.part] - extra_oil[carrier.part] - extra_part[carrier.part];
        line.stock = stock_solution(recipe, bench, line.exact, carrier, most);
        if (!line.stock) continue;
        line.stock->deducted_from = SheetPart::medium_part;
        line.stock->deducted_index = carrier.part;
        extra_part[carrier.part] += line.stock->carrier_mass;
        take_off(sheet.medium[carrier.part], bench, line.stock->carrier_mass);
    }

    if (!bench.syringes.empty()) {
        const auto read = [&](Weighing& w, const Ingredient& ingredient) {
            if (is_liquid(ingredient) && !w.stock)
                w.syringe = syringe_reading(bench, mixed_volume(ingredient, w.to_weigh));
        };
        for (std::size_t i = 0; i < parts.size(); ++i)
            read(sheet.medium[i], parts[i].ingredient);
        for (std::size_t i = 0; i < recipe.additives.size(); ++i)
            read(sheet.slab[first_additive + i], recipe.additives[i].ingredient);
        Weighing& whole = sheet.slab[medium_line];
        whole.syringe = syringe_reading(bench, whole.to_weigh / medium_properties(recipe.medium).density);
        if (water_line != nullptr)
            water_line->syringe = syringe_reading(bench, water_line->to_weigh / water_density());
    }

    // The film of what is truly weighed.
    Composition slab = composition, fresh;
    for (std::size_t i = 0; i < slab.pigments.size(); ++i)
        slab.pigments[i] = sheet.slab[i].rounded;
    for (std::size_t i = 0; i < slab.additives.size(); ++i)
        slab.additives[i] = weighed(sheet.slab[first_additive + i]).ingredient;
    fresh = slab;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double share = medium.value() > 0.0 ? composition.medium_parts[i].value() / medium.value() : 0.0;
        slab.medium_parts[i] = sheet.slab[medium_line].rounded * share + extra_oil[i];
        fresh.medium_parts[i] = weighed(sheet.medium[i]).ingredient + extra_oil[i] + extra_part[i];
    }
    const double k = film_state(recipe, composition).k.value();
    const auto shift = [k](const FilmState& film) {
        return k > 0.0 ? std::abs(film.k.value() / k - 1.0) : 0.0;
    };
    // A pigment rounded to nothing leaves no film to speak of.
    if (total_pigment(slab).value() > 0.0) {
        sheet.film = film_state(recipe, slab);
        sheet.film_fresh = film_state(recipe, fresh);
        sheet.k_shift = shift(sheet.film);
        sheet.k_shift_fresh = shift(sheet.film_fresh);
    } else {
        sheet.k_shift = sheet.k_shift_fresh = 1.0;
    }
    for (const Scale& scale : bench.scales)
        sheet.minimum.push_back(minimum_mass(scale, bench.weighing_tolerance));
    return sheet;
}

} // namespace lakebound
