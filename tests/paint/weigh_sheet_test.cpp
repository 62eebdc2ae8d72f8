// A whole weigh sheet reckoned anew from its lines: what each is weighed as, what stocks and drops bring, and the film
// of what is truly weighed.

#include "lakebound/paint/weighing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "support/told.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {

Approx nearly(double x) { return Approx(x).epsilon(1e-9).margin(1e-12); }
double u(const Scale& scale) {
    const double reading = 0.41 * in_grams(scale.step);
    return scale.repeatability ? std::max(reading, in_grams(*scale.repeatability)) : reading;
}
double to_step(double g, const Scale& scale) {
    return std::round(g / in_grams(scale.step)) * in_grams(scale.step);
}
/// Oil first, with a wax in it; a resin by turpentine, clove in the oil: what is taken off the first part of a medium.
Recipe oil_and_wax() {
    Recipe r = oil_paint();
    r.medium = medium("oil-and-wax", PartsBasis::mass, {{linseed_oil(), 100}, {beeswax(), 1.5}});
    r.additives = {{clove_oil(), MassFraction::of(0.012), DoseBasis::medium}, {beeswax(), MassFraction::of(0.02), DoseBasis::pigment}};
    return r;
}
/// Water first; a salt that is a part, and a salt besides.
Recipe salted() {
    Recipe r = watercolour();
    r.medium = medium("salted", PartsBasis::mass, {{water(), 200}, {gum(), 100}, {glycerol(), 25}, {benzoate(), 1.2}});
    Ingredient other = benzoate();
    other.id = other.name = "borate";
    r.additives = {{other, MassFraction::of(0.003), DoseBasis::medium}, {clove_oil(), MassFraction::of(0.003), DoseBasis::paint}};
    return r;
}

void check_sheet(const Recipe& recipe, const Composition& c, const Bench& bench) {
    const SmallAmountPractice small = practice().small_amounts;
    const WeighSheet s = weigh_sheet(recipe, c, bench, small);
    const std::size_t pigments = recipe.pigments.size(), additives = recipe.additives.size();
    const bool water_line = c.working_water.value() > 0.0;
    REQUIRE(s.slab.size() == pigments + 1 + additives + (water_line ? 1 : 0));
    REQUIRE(s.medium.size() == recipe.medium.parts.size());
    for (std::size_t i = 0; i < bench.scales.size(); ++i)
        CHECK(in_grams(s.minimum.at(i)) == nearly(2 * u(bench.scales[i]) / 0.05));

    double medium = 0.0, dropped = 0.0;
    for (const Mass& part : c.medium_parts)
        medium += in_grams(part);
    // What stocks bring besides, by the place that it is taken off: exact, and as the scale shows it.
    std::vector<double> of_parts(s.medium.size()), of_parts_shown(s.medium.size()), of_medium(s.medium.size()), of_medium_shown(s.medium.size());
    double of_water = 0.0, of_water_shown = 0.0;
    const auto take = [&](const Weighing& w) {
        if (!w.stock) return;
        const double exact = in_grams(w.stock->carrier_mass), shown = in_grams(w.stock->rounded) * (1 - w.stock->strength.value());
        CHECK(in_grams(w.stock->stock) * w.stock->strength.value() == nearly(in_grams(w.exact)));
        CHECK(exact == nearly(in_grams(w.stock->stock) - in_grams(w.exact)));
        CHECK(in_grams(w.stock->rounded) == nearly(to_step(in_grams(w.stock->stock), bench.scales[w.scale])));
        CHECK(w.error.value() == nearly(std::min(1.0, 2 * u(bench.scales[w.scale]) / in_grams(w.stock->stock))));
        if (w.stock->deducted_from == SheetPart::medium) {
            of_medium[w.stock->deducted_index] += exact, of_medium_shown[w.stock->deducted_index] += shown;
        } else if (w.stock->deducted_from == SheetPart::medium_part) {
            of_parts[w.stock->deducted_index] += exact, of_parts_shown[w.stock->deducted_index] += shown;
        } else if (w.stock->deducted_from == SheetPart::working_water) {
            of_water += exact, of_water_shown += shown;
        } else {
            const auto here = [&](const CarrierOnSlab& each) { return each.id == w.stock->carrier && in_grams(each.mass) == nearly(exact); };
            CHECK(std::any_of(s.carriers.begin(), s.carriers.end(), here));
        }
    };
    for (const Weighing& w : s.slab) {
        take(w);
        if (w.drops) dropped += in_grams(w.exact);
    }
    for (const Weighing& w : s.medium)
        take(w);
    const auto check_weighed = [&](const Weighing& w, double to_weigh, double shown) {
        CAPTURE(w.id, to_weigh);
        CHECK(in_grams(w.to_weigh) == nearly(to_weigh));
        CHECK(w.scale == best_scale(bench, w.to_weigh));
        const Scale& scale = bench.scales[w.scale];
        CHECK(in_grams(w.rounded) == nearly(to_step(std::max(shown, 0.0), scale)));
        CHECK(w.error.value() == nearly(to_weigh > 1e-12 ? std::min(1.0, 2 * u(scale) / to_weigh) : 0.0));
        const double capacity = scale.capacity ? in_grams(*scale.capacity) : 1e300;
        CHECK(w.portions == (to_weigh > capacity ? static_cast<int>(std::ceil(to_weigh / capacity)) : 1));
    };
    double of_all = 0.0, of_all_shown = 0.0;
    for (std::size_t i = 0; i < s.medium.size(); ++i) {
        of_all += of_medium[i], of_all_shown += of_medium_shown[i];
        if (s.medium[i].stock) continue;
        const double exact = in_grams(c.medium_parts[i]);
        check_weighed(s.medium[i], exact - of_medium[i] - of_parts[i], exact - of_medium_shown[i] - of_parts_shown[i]);
    }
    check_weighed(s.slab[pigments], medium + dropped - of_all, medium + dropped - of_all_shown);
    if (water_line)
        check_weighed(s.slab.back(), in_grams(c.working_water) - of_water, in_grams(c.working_water) - of_water_shown);
    for (std::size_t i = 0; i < pigments; ++i)
        check_weighed(s.slab[i], in_grams(c.pigments[i]), in_grams(c.pigments[i]));
    for (std::size_t i = 0; i < additives; ++i) {
        const Weighing& w = s.slab[pigments + 1 + i];
        if (w.drops) {
            CHECK(in_grams(w.to_weigh) == nearly(0.0));
            CHECK(in_grams(w.rounded) == nearly(0.0));
        } else if (!w.stock)
            check_weighed(w, in_grams(c.additives[i]), in_grams(c.additives[i]));
    }

    // The film of what is on the slab: dry binder over what the pigment wants, in plain arithmetic.
    const auto dry = [](const Ingredient& part, double g) {
        return part.solids_density && counts_as_binder(part.role)
                   ? g * part.non_volatile.value().value() / in_grams_per_cubic_centimetre(part.solids_density->value())
                   : 0.0;
    };
    const auto shown = [](const Weighing& w) {
        return w.stock ? in_grams(w.stock->rounded) * w.stock->strength.value() : in_grams(w.drops ? w.exact : w.rounded);
    };
    double wants = 0.0, exact_wants = 0.0, ready = 0.0, fresh = 0.0, exact = 0.0;
    for (std::size_t i = 0; i < pigments; ++i) {
        const double q = in_millilitres_per_gram(demand_of(recipe.pigments[i]));
        wants += in_grams(s.slab[i].rounded) * q, exact_wants += in_grams(c.pigments[i]) * q;
    }
    for (std::size_t i = 0; i < additives; ++i) {
        const Ingredient& part = recipe.additives[i].ingredient;
        const double here = dry(part, shown(s.slab[pigments + 1 + i]));
        ready += here, fresh += here, exact += dry(part, in_grams(c.additives[i]));
    }
    for (std::size_t i = 0; i < s.medium.size(); ++i) {
        const Ingredient& part = recipe.medium.parts[i].ingredient;
        const double of = in_grams(c.medium_parts[i]);
        exact += dry(part, of);
        ready += dry(part, in_grams(s.slab[pigments].rounded) * of / (medium + dropped) + of_medium_shown[i]);
        fresh += dry(part, shown(s.medium[i]) + of_medium_shown[i] + of_parts_shown[i]);
    }
    if (!(wants > 0.0)) {
        CHECK(s.k_shift == nearly(1.0));
        CHECK(s.k_shift_fresh == nearly(1.0));
        return;
    }
    const double e = recipe.family.binder_index.value().value(), k = exact / exact_wants;
    CHECK(s.film.k.value() == nearly(ready * e / wants));
    CHECK(s.film_fresh.k.value() == nearly(fresh * e / wants));
    CHECK(s.k_shift == Approx(std::abs(ready / wants / k - 1)).epsilon(1e-6).margin(1e-9));
    CHECK(s.k_shift_fresh == Approx(std::abs(fresh / wants / k - 1)).epsilon(1e-6).margin(1e-9));
}

} // namespace

TEST_CASE("a whole weigh sheet is what its lines sum to", "[reference]") {
    Bench dropping = bench(0.1), with_small = two_scales();
    dropping.kitchen.drop = millilitres(0.03);
    with_small.scales[1].capacity = grams(20);
    with_small.scales[0].repeatability = grams(0.07);
    int stocks = 0, drops = 0;
    for (const Recipe& recipe : {watercolour(), oil_paint(), tempera(), blend(), oil_and_wax(), salted()})
        for (const Bench& b : {bench(1.0), bench(0.1), bench(0.01), with_small, dropping})
            for (const double pigment : {0.02, 0.9, 3.4, 8.0, 17.0, 47.7, 1300.0}) {
                CAPTURE(recipe.medium.id, in_grams(b.scales[0].step), b.scales.size(), pigment);
                const Composition c = compose(recipe, formulate(recipe, aim_of(recipe)), grams(pigment));
                check_sheet(recipe, c, b);
                for (const Weighing& w : weigh_sheet(recipe, c, b, practice().small_amounts).slab) {
                    stocks += w.stock ? 1 : 0;
                    drops += w.drops ? 1 : 0;
                }
            }
    CHECK(stocks > 10);
    CHECK(drops > 3);
}

TEST_CASE("what comes off the first part of a medium comes off what is weighed of it", "[reference]") {
    Recipe r = oil_and_wax();
    r.additives.erase(r.additives.begin());
    const WeighSheet s = weigh_sheet(r, compose(r, formulate(r, aim_of(r)), grams(10)), bench(0.1), practice().small_amounts);
    REQUIRE(s.slab.at(2).stock); // the wax besides
    CHECK(s.slab[2].stock->deducted_from == SheetPart::medium);
    CHECK(s.slab[2].stock->deducted_index == 0);
    CHECK(in_grams(s.medium.at(0).to_weigh) < in_grams(s.medium[0].exact) - 1.0);
    CHECK(in_grams(s.medium[0].rounded) == Approx(in_grams(s.medium[0].to_weigh)).margin(0.101));
}

TEST_CASE("drops are counted as far as practice bears it, to the drop and to the gram of medium", "[unit]") {
    // One drop of .03 mL is .03135 g of clove oil. A dose of .001 of 6.27 g a drop.
    Recipe r = watercolour();
    r.additives = {{clove_oil(), MassFraction::of(0.005), DoseBasis::medium}};
    r.additives[0].ingredient.stock.reset();
    Bench b = bench(0.1);
    b.kitchen.drop = millilitres(0.03);
    Composition c = compose(r, formulate(r, aim_of(r)), grams(10));
    const double medium = in_grams(total_medium(c));
    const auto with = [&](double drops, auto change) {
        c.additives[0] = grams(drops * 0.03 * 1.045);
        auto bears = practice().small_amounts;
        change(bears);
        return weigh_sheet(r, c, b, bears);
    };
    const auto none = [](SmallAmountPractice&) {};
    for (const auto& [wanted, counted] : {std::pair{0.3, 1}, {1.0, 1}, {1.0 + 1e-10, 1}, {1.001, 2}, {2.0, 2}, {7.9, 8}, {39.5, 40}, {40.0, 40}}) {
        CAPTURE(wanted);
        const WeighSheet s = with(wanted, none);
        REQUIRE(s.slab.at(2).drops);
        CHECK(s.slab[2].drops->drops == counted);
        CHECK(in_grams(s.slab[2].drops->medium) == nearly(medium * counted / wanted));
        REQUIRE(s.least_medium);
        CHECK(in_grams(*s.least_medium) >= medium * counted / wanted * (1 - 1e-9));
        CHECK(s.slab[2].below_minimum);
    }
    CHECK_FALSE(with(40.01, none).slab.at(2).drops);
    CHECK(with(0.5, [&](auto& p) { p.most_medium_for_drops = grams(2 * medium * 1.0001); }).slab.at(2).drops);
    CHECK_FALSE(with(0.5, [&](auto& p) { p.most_medium_for_drops = grams(2 * medium * 0.9999); }).slab.at(2).drops);
}

TEST_CASE("a stock beside the medium is borne up to its share of it", "[unit]") {
    // 1 in 10 of .004 brings .036 of the medium in spirit.
    Recipe r = watercolour();
    r.additives = {{clove_oil(), MassFraction::of(0.004), DoseBasis::medium}};
    const auto taken = [&](double beside) {
        r.additives[0].ingredient.stock->beside = exactly(MassFraction::of(beside));
        return weigh_sheet(r, compose(r, formulate(r, aim_of(r)), grams(20)), bench(0.1), practice().small_amounts).slab.at(2).stock.has_value();
    };
    CHECK(taken(0.0361));
    CHECK_FALSE(taken(0.0359));
}

TEST_CASE("a million portions are refused, fewer are told", "[errors]") {
    Recipe r = tempera();
    Bench b = bench(0.1);
    b.scales[0].capacity = grams(1);
    const auto of = [&](double g) { return weigh_sheet(r, compose(r, formulate(r, aim_of(r)), grams(g)), b, practice().small_amounts); };
    CHECK(of(4.2e5).slab.at(1).portions > 900'000);
    CHECK(of(4.2e5).slab.at(1).portions < 1'000'000);
    CHECK(told([&] { (void)of(4.8e5); }).rfind("portions to weigh", 0) == 0);
    b.scales[0].capacity = grams(0); // no capacity to speak of
    CHECK(of(10).slab.at(0).portions == 1);
}
