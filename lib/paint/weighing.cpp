#include "lakebound/paint/weighing.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/material/density.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"

namespace lakebound {
namespace {

// What is to be weighed, on the scale for it.
void weigh(Weighing& w, const Bench& bench) {
    const Mass mass = w.to_weigh;
    w.scale = best_scale(bench, mass);
    const Scale& scale = bench.scales[w.scale];
    w.rounded = rounded_to_step(mass, scale);
    w.portions = 1;
    if (!carries(scale, mass) && scale.capacity->value() > 0.0) {
        const double portions = std::ceil(mass.value() / scale.capacity->value());
        if (!(portions < 1e6)) throw_out_of_range("portions to weigh", portions, "", "below a million");
        w.portions = static_cast<int>(portions);
    }
    // A mass of nothing is weighed by leaving the scale alone.
    w.error = Share();
    w.below_minimum = false;
    if (mass.value() > 0.0) {
        w.error = weighing_error(scale, mass);
        w.below_minimum = mass < minimum_mass(scale, bench.weighing_tolerance) * (1.0 - 1e-9);
    }
}

Weighing weighing(const Bench& bench, SheetPart part, std::size_t index, const std::string& id,
                  const std::string& name, Mass mass) {
    Weighing w;
    w.part = part;
    w.index = index;
    w.id = id;
    w.name = name;
    w.exact = w.to_weigh = mass;
    weigh(w, bench);
    return w;
}

// ---- too little to weigh -----------------------------------------------------------------------

std::optional<DropCount> drop_count(const Ingredient& ingredient, Mass mass, Mass medium, const Bench& bench,
                                    const SmallAmountPractice& practice) {
    if (!bench.kitchen.drop || !is_liquid(ingredient) || !(medium.value() > 0.0)) return std::nullopt;
    const Mass drop = *bench.kitchen.drop * ingredient.density.value();
    const double drops = std::ceil(mass / drop * (1.0 - 1e-9));
    const Mass into = medium * (drops * drop.value() / mass.value());
    if (!(drops <= practice.most_drops) || into > practice.most_medium_for_drops) return std::nullopt;
    return DropCount{static_cast<int>(drops), into};
}

struct Carrier {
    const Ingredient* ingredient = nullptr;
    std::optional<std::size_t> part; // of the medium, where it is one
};

// Water and solvents leave again; anything else must be in the medium already.
bool leaves(const Ingredient& ingredient) {
    return ingredient.role == Role::water || ingredient.role == Role::solvent;
}

std::optional<Carrier> find_carrier(const Recipe& recipe, const std::string& name, const Ingredient& ingredient) {
    const auto& parts = recipe.medium.parts;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Ingredient& part = parts[i].ingredient;
        if (part.id != ingredient.id && (part.id == name || (name == oil_of_the_medium && part.role == Role::drying_oil)))
            return Carrier{&part, i};
    }
    for (const Ingredient& each : recipe.carriers)
        if (each.id == name && each.id != ingredient.id && leaves(each)) return Carrier{&each, std::nullopt};
    return std::nullopt;
}

void weigh_as_stock(Weighing& line, StockSolution stock, const Bench& bench) {
    line.scale = best_scale(bench, stock.stock);
    line.error = weighing_error(bench.scales[line.scale], stock.stock);
    line.stock = std::move(stock);
}

// What the ingredient of a line truly contributes once weighed, and the carrier that comes with it.
struct Weighed {
    Mass ingredient, carrier;
};
Weighed weighed(const Weighing& w) {
    if (w.stock)
        return {w.stock->rounded * w.stock->strength,
                w.stock->rounded * (1.0 - w.stock->strength.value())};
    return {w.drops ? w.exact : w.rounded, Mass()};
}

/// The sheet as it grows: what too little of an ingredient is wanted for is put in its place.
class SheetMaker {
public:
    SheetMaker(const Recipe& recipe, const Composition& composition, const Bench& bench,
               const SmallAmountPractice& practice)
        : recipe_(recipe), composition_(composition), bench_(bench), practice_(practice),
          medium_(total_medium(composition)),
          from_additives_(recipe.medium.parts.size()), from_parts_(recipe.medium.parts.size()) {}

    WeighSheet make() {
        weigh_slab();
        weigh_parts();
        for (std::size_t i = 0; i < recipe_.additives.size(); ++i)
            if (additive(i).below_minimum) put_in_place_of_additive(i);
        for (std::size_t i = 0; i < sheet_.medium.size(); ++i)
            if (sheet_.medium[i].below_minimum) put_in_place_of_part(i);
        round_anew();
        if (!bench_.syringes.empty()) measure_liquids();
        judge_film();
        for (const Scale& scale : bench_.scales)
            sheet_.minimum.push_back(minimum_mass(scale, bench_.weighing_tolerance));
        return std::move(sheet_);
    }

private:
    Weighing& medium_line() { return sheet_.slab[recipe_.pigments.size()]; }
    Weighing& additive(std::size_t i) { return sheet_.slab[recipe_.pigments.size() + 1 + i]; }
    Weighing* water_line() {
        return composition_.working_water.value() > 0.0 ? &sheet_.slab.back() : nullptr;
    }

    void weigh_slab() {
        const auto& parts = recipe_.medium.parts;
        for (std::size_t i = 0; i < recipe_.pigments.size(); ++i) {
            const Pigment& p = recipe_.pigments[i].pigment;
            sheet_.slab.push_back(
                weighing(bench_, SheetPart::pigment, i, p.id, p.name, composition_.pigments.at(i)));
        }
        // A medium of one part is that part: oil is oil.
        sheet_.slab.push_back(
            parts.size() == 1
                ? weighing(bench_, SheetPart::medium, 0, parts[0].ingredient.id, parts[0].ingredient.name,
                           medium_)
                : weighing(bench_, SheetPart::medium, 0, recipe_.medium.id, recipe_.medium.name, medium_));
        for (std::size_t i = 0; i < recipe_.additives.size(); ++i) {
            const Ingredient& a = recipe_.additives[i].ingredient;
            sheet_.slab.push_back(
                weighing(bench_, SheetPart::additive, i, a.id, a.name, composition_.additives.at(i)));
            sheet_.slab.back().liquid = is_liquid(a);
        }
        if (composition_.working_water.value() > 0.0)
            sheet_.slab.push_back(weighing(bench_, SheetPart::working_water, 0, "water", "water",
                                           composition_.working_water));
    }

    void weigh_parts() {
        const auto& parts = recipe_.medium.parts;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const Ingredient& part = parts[i].ingredient;
            sheet_.medium.push_back(weighing(bench_, SheetPart::medium_part, i, part.id, part.name,
                                             composition_.medium_parts.at(i)));
        }
    }

    // The rest is needed to work with.
    Mass may_be_taken_off(std::size_t part) const {
        return practice_.stock_share * composition_.medium_parts[part] - from_additives_[part] - from_parts_[part];
    }

    void put_in_place_of_additive(std::size_t i) {
        Weighing& line = additive(i);
        const Ingredient& ingredient = recipe_.additives[i].ingredient;
        if (auto drops = drop_count(ingredient, line.exact, medium_, bench_, practice_)) {
            mix_at_least(drops->medium);
            medium_line().to_weigh += line.exact;
            dropped_ += line.exact;
            line.drops = drops;
            line.to_weigh = line.rounded = Mass();
            return;
        }
        if (!ingredient.stock) return;
        for (const std::string& name : ingredient.stock->carriers) {
            const auto carrier = find_carrier(recipe_, name, ingredient);
            if (!carrier) continue;
            // Water of the medium stays in it: that goes in by weight.
            const bool from_medium = carrier->part && !leaves(*carrier->ingredient);
            std::optional<Mass> most;
            if (from_medium) most = may_be_taken_off(*carrier->part);
            auto stock = stock_solution(*ingredient.stock, bench_, line.exact, *carrier->ingredient, most,
                                        practice_);
            if (!stock || too_much_beside(*stock, *ingredient.stock, *carrier, from_medium)) continue;
            weigh_as_stock(line, std::move(*stock), bench_);
            settle_carrier(line, *carrier, from_medium);
            return;
        }
    }

    bool comes_off_working_water(const StockSolution& stock, const Carrier& carrier) {
        const Weighing* water = water_line();
        return carrier.ingredient->role == Role::water && water != nullptr && water->to_weigh >= stock.carrier_mass;
    }

    bool too_much_beside(const StockSolution& stock, const StockPractice& practice, const Carrier& carrier,
                         bool from_medium) {
        return practice.beside && !from_medium && !comes_off_working_water(stock, carrier) &&
               stock.carrier_mass > medium_ * practice.beside->value().value();
    }

    void settle_carrier(Weighing& line, const Carrier& carrier, bool from_medium) {
        StockSolution& stock = *line.stock;
        if (from_medium) {
            from_additives_[*carrier.part] += weighed(line).carrier;
            stock.deducted_from = SheetPart::medium;
            stock.deducted_index = *carrier.part;
            medium_line().to_weigh -= stock.carrier_mass;
            sheet_.medium[*carrier.part].to_weigh -= stock.carrier_mass;
        } else if (comes_off_working_water(stock, carrier)) {
            stock.deducted_from = SheetPart::working_water;
            water_line()->to_weigh -= stock.carrier_mass;
            water_from_additives_ += weighed(line).carrier;
        } else {
            sheet_.carriers.push_back(
                {stock.carrier, stock.carrier_mass, mixed_volume(*carrier.ingredient, stock.carrier_mass)});
        }
    }

    // A medium mixed fresh goes in by weight, so it must hold no more of the carrier than its recipe says, be
    // it one that leaves again.
    void put_in_place_of_part(std::size_t i) {
        Weighing& line = sheet_.medium[i];
        mix_at_least(least_weighable(bench_) * (medium_ / line.exact));
        const Ingredient& ingredient = recipe_.medium.parts[i].ingredient;
        if (!ingredient.stock) return;
        for (const std::string& name : ingredient.stock->carriers) {
            const auto carrier = find_carrier(recipe_, name, ingredient);
            if (!carrier || !carrier->part) continue;
            auto stock = stock_solution(*ingredient.stock, bench_, line.exact, *carrier->ingredient,
                                        may_be_taken_off(*carrier->part), practice_);
            if (!stock) continue;
            weigh_as_stock(line, std::move(*stock), bench_);
            line.stock->deducted_from = SheetPart::medium_part;
            line.stock->deducted_index = *carrier->part;
            from_parts_[*carrier->part] += weighed(line).carrier;
            sheet_.medium[*carrier->part].to_weigh -= line.stock->carrier_mass;
            return;
        }
    }

    // What a stock brings as the scale shows it comes off what is weighed beside it, so that their roundings do
    // not add up.
    void round_anew() {
        const auto round = [this](Weighing& line, Mass wanted) {
            weigh(line, bench_);
            line.rounded = rounded_to_step(std::max(wanted, Mass()), bench_.scales[line.scale]);
        };
        Mass brought;
        for (const Mass& mass : from_additives_)
            brought += mass;
        round(medium_line(), medium_ + dropped_ - brought);
        if (Weighing* water = water_line()) round(*water, water->exact - water_from_additives_);
        for (std::size_t i = 0; i < sheet_.medium.size(); ++i)
            if (!sheet_.medium[i].stock) round(sheet_.medium[i], sheet_.medium[i].exact - from_additives_[i] - from_parts_[i]);
    }

    void mix_at_least(Mass medium) {
        if (!sheet_.least_medium || medium > *sheet_.least_medium) sheet_.least_medium = medium;
    }

    void measure_liquids() {
        const auto reading = [this](Volume volume) {
            return syringe_reading(bench_, volume, practice_.most_syringe_fills);
        };
        const auto read = [&](Weighing& w, const Ingredient& ingredient) {
            if (is_liquid(ingredient) && !w.stock && !w.drops)
                w.syringe = reading(mixed_volume(ingredient, w.to_weigh));
        };
        for (std::size_t i = 0; i < sheet_.medium.size(); ++i)
            read(sheet_.medium[i], recipe_.medium.parts[i].ingredient);
        for (std::size_t i = 0; i < recipe_.additives.size(); ++i)
            read(additive(i), recipe_.additives[i].ingredient);
        Weighing& whole = medium_line();
        whole.syringe = reading(whole.to_weigh / medium_properties(recipe_.medium).density);
        if (Weighing* water = water_line())
            water->syringe = reading(water->to_weigh / water_density());
    }

    // The film of what is truly weighed.
    void judge_film() {
        Composition slab = composition_, fresh;
        for (std::size_t i = 0; i < slab.pigments.size(); ++i)
            slab.pigments[i] = sheet_.slab[i].rounded;
        for (std::size_t i = 0; i < slab.additives.size(); ++i)
            slab.additives[i] = weighed(additive(i)).ingredient;
        fresh = slab;
        // The drops are in the medium that is weighed.
        const Mass with_drops = medium_ + dropped_;
        for (std::size_t i = 0; i < slab.medium_parts.size(); ++i) {
            const double share =
                with_drops.value() > 0.0 ? composition_.medium_parts[i].value() / with_drops.value() : 0.0;
            slab.medium_parts[i] = medium_line().rounded * share + from_additives_[i];
            fresh.medium_parts[i] =
                weighed(sheet_.medium[i]).ingredient + from_additives_[i] + from_parts_[i];
        }
        const double k = film_state(recipe_, composition_).k.value();
        const auto shift = [k](const FilmState& film) {
            return k > 0.0 ? std::abs(film.k.value() / k - 1.0) : 0.0;
        };
        // A pigment rounded to nothing leaves no film to speak of.
        if (total_pigment(slab).value() > 0.0) {
            sheet_.film = film_state(recipe_, slab);
            sheet_.film_fresh = film_state(recipe_, fresh);
            sheet_.k_shift = shift(sheet_.film);
            sheet_.k_shift_fresh = shift(sheet_.film_fresh);
        } else {
            sheet_.k_shift = sheet_.k_shift_fresh = 1.0;
        }
    }

    const Recipe& recipe_;
    const Composition& composition_;
    const Bench& bench_;
    const SmallAmountPractice& practice_;
    const Mass medium_;
    Mass dropped_;              // into the medium
    Mass water_from_additives_; // that stocks bring, of the working water
    std::vector<Mass> from_additives_, from_parts_; // carriers that stocks bring, of each part of the medium
    WeighSheet sheet_;
};

} // namespace

Mass mass_on_slab(const Weighing& line) { return line.stock ? line.stock->stock : line.to_weigh; }
Mass rounded_mass_on_slab(const Weighing& line) { return line.stock ? line.stock->rounded : line.rounded; }

bool is_left_out(const Weighing& line) {
    return (line.part == SheetPart::additive || line.part == SheetPart::medium_part) && !line.stock && !line.drops &&
           line.exact.value() > 0.0 && !(line.rounded.value() > 0.0);
}

const Ingredient* carrier_of(const StockSolution& stock, const Recipe& recipe) {
    for (const MediumPart& part : recipe.medium.parts)
        if (part.ingredient.id == stock.carrier) return &part.ingredient;
    for (const Ingredient& each : recipe.carriers)
        if (each.id == stock.carrier) return &each;
    return nullptr;
}

WeighSheet weigh_sheet(const Recipe& recipe, const Composition& composition, const Bench& bench,
                       const SmallAmountPractice& practice) {
    return SheetMaker(recipe, composition, bench, practice).make();
}

} // namespace lakebound
