// Limits of the bath by a hair: what is exactly enough, or hardly anything of an ion, a count or a fall.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "kitchen_bath.hpp"
#include "lakebound/bath/bath_progress.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

Salt and_little(Salt salt, Ion ion, double count = 5e-4) {
    salt.gives[ion] += count;
    return salt;
}
bool warns(const Salt& aluminium, const Salt& alkali, BathCaution caution, bool plant = false) {
    const auto all = bath_cautions(aluminium, alkali, plant);
    return std::find(all.begin(), all.end(), caution) != all.end();
}
Salt lye() { return salt_of("NaOH", 0, {{Ion::sodium, 1}, {Ion::hydroxide, 1}}); }

} // namespace

TEST_CASE("a salt is what its formula says, and no thousandth more", "[unit]") {
    for (std::size_t i = 0; i < ion_count; ++i) {
        CAPTURE(i);
        CHECK_FALSE(is_consistent(and_little(potash_alum(), static_cast<Ion>(i))));
        CHECK_FALSE(is_consistent(and_little(potash_alum(), static_cast<Ion>(i), -5e-4)));
    }
    Salt neutral = potash_alum(); // no charge left over, and another formula all the same
    neutral.gives[Ion::sodium] = neutral.gives[Ion::chloride] = 5e-4;
    CHECK_FALSE(is_consistent(neutral));
    Salt damp = potash_alum();
    damp.hydrate_water += 5e-4;
    CHECK_FALSE(is_consistent(damp));
    CHECK(is_consistent(potash_alum()));
}

TEST_CASE("a salt's solutes hold the least of its ions, or it has none", "[unit]") {
    CHECK_FALSE(solutes_of(and_little(soda_ash(), Ion::chloride)));
    CHECK_FALSE(solutes_of(and_little(soda_ash(), Ion::sodium)));
    const auto two = solutes_of(and_little(and_little(soda_ash(), Ion::chloride), Ion::sodium));
    REQUIRE(two);
    REQUIRE(two->size() == 2);
    CHECK((*two)[0].share.value() == Approx(1.0)); // a share of all of it, at most
    CHECK((*two)[1].share.value() == Approx(5e-4 * 58.44 / 105.988).epsilon(1e-4));
    CHECK(solutes_of(potash_alum())->size() == 2);
}

TEST_CASE("formulas count to six figures, in broken waters too", "[unit]") {
    CHECK(atoms_of("Al123456")[Element::aluminium] == Approx(123456).epsilon(1e-12));
    CHECK_THROWS_AS(atoms_of("Al1234567"), DomainError);
    CHECK(atoms_of("K.0.0005H2O")[Element::hydrogen] == Approx(.001).epsilon(1e-12));
    CHECK_THROWS_AS(atoms_of("K.0.0000H2O"), DomainError);
    CHECK(atoms_of("K.1.25H2O")[Element::oxygen] == Approx(1.25).epsilon(1e-12));
    CHECK(atoms_of("K.H2O.Na")[Element::sodium] == Approx(1));
    for (const auto& [symbol, element] : {std::pair{"H", Element::hydrogen}, {"C", Element::carbon}, {"N", Element::nitrogen}, {"O", Element::oxygen}, {"Na", Element::sodium},
                                          {"Al", Element::aluminium}, {"S", Element::sulphur}, {"Cl", Element::chlorine}, {"K", Element::potassium}, {"Ca", Element::calcium}}) {
        const Atoms atoms = atoms_of(std::string(symbol) + "9(" + symbol + "2)3");
        for (std::size_t i = 0; i < element_count; ++i)
            CHECK(atoms.count[i] == Approx(i == static_cast<std::size_t>(element) ? 15 : 0).margin(1e-15));
    }
    try {
        (void)atoms_of("Fe");
        FAIL("taken");
    } catch (const DomainError& error) {
        CHECK(error.value() == "\"Fe\"");
        CHECK(error.valid() == "elements of a bath with their counts, such as KAl(SO4)2.12H2O");
    }
}

TEST_CASE("just enough of the acid that a basic salt keeps is enough", "[unit]") {
    // At 2.5 hydroxides half a charge to each aluminium: a quarter of a sulphate, half a chloride.
    BathContents bath;
    bath.ions[Ion::aluminium] = 1;
    bath.ions[Ion::hydroxide] = 2.5;
    bath.ions[Ion::sulphate] = .25;
    const auto basic = precipitate(bath, HydroxidesPerAluminium::of(2.5));
    CHECK(in_moles(basic.solid_aluminium) == Approx(1).epsilon(1e-14));
    CHECK(basic.liquor[Ion::sulphate] == Approx(0).margin(1e-15));
    bath.ions[Ion::sulphate] = 0;
    bath.ions[Ion::chloride] = .5;
    const auto chloride = precipitate(bath, HydroxidesPerAluminium::of(2.5));
    CHECK(chloride.liquor[Ion::chloride] == Approx(0).margin(1e-15));
    CHECK(in_grams(chloride.solid) == Approx(26.982 + 2.5 * 17.007 + .5 * 35.45).epsilon(1e-12));
    CHECK(chloride.solid_sulphate.value() == Approx(0).margin(1e-15));
    // A little sulphate beside much chloride: it is the sulphate that stays, and there is too little.
    bath.ions[Ion::sulphate] = 5e-4;
    CHECK_THROWS_AS(precipitate(bath, HydroxidesPerAluminium::of(2.5)), DomainError);
    // Nothing poured lays nothing, and nothing is no share of nothing.
    bath.ions[Ion::hydroxide] = 0;
    CHECK(precipitate(bath, HydroxidesPerAluminium::of(2.5)).solid_sulphate.value() == Approx(0).margin(1e-15));
}

TEST_CASE("cautions come with the least of what they are of", "[unit]") {
    CHECK_FALSE(warns(potash_alum(), lye(), BathCaution::foam_over));
    CHECK_FALSE(warns(potash_alum(), lye(), BathCaution::ammonia));
    for (const Ion ion : {Ion::carbonate, Ion::bicarbonate}) {
        CHECK(warns(potash_alum(), and_little(lye(), ion), BathCaution::foam_over));
        CHECK(warns(potash_alum(), and_little(lye(), ion), BathCaution::never_closed));
        CHECK_FALSE(warns(and_little(potash_alum(), ion), lye(), BathCaution::foam_over)); // of the alkali
    }
    CHECK(warns(and_little(potash_alum(), Ion::ammonium), lye(), BathCaution::ammonia));
    CHECK(warns(potash_alum(), and_little(lye(), Ion::ammonium), BathCaution::ammonia));
    Salt sharp = lye();
    sharp.hazards = {Hazard::eye_damage};
    CHECK(warns(potash_alum(), sharp, BathCaution::eye_damage));
    CHECK_FALSE(warns(potash_alum(), lye(), BathCaution::eye_damage));
    sharp = potash_alum();
    sharp.hazards = {Hazard::eye_damage};
    CHECK(warns(sharp, lye(), BathCaution::eye_damage));
    CHECK(warns(potash_alum(), lye(), BathCaution::poisonous_plant, true));
    CHECK_FALSE(warns(potash_alum(), lye(), BathCaution::poisonous_plant));
    for (const BathCaution always : {BathCaution::alkali_splash, BathCaution::scald, BathCaution::kitchen, BathCaution::drain, BathCaution::mould, BathCaution::dust, BathCaution::data_sheet})
        CHECK(warns(potash_alum(), lye(), always));
    // In every stage those of its place, in their order.
    std::vector<BathCaution> all;
    for (const auto& [caution, word] : WordTable<BathCaution>::rows) all.push_back(caution);
    for (const auto& [stage, word] : WordTable<BathStage>::rows) {
        const bool pot = stage <= BathStage::laying, wet = stage <= BathStage::washing;
        std::vector<BathCaution> wanted;
        for (const BathCaution each : all) {
            const bool of_pot = each == BathCaution::never_closed || each == BathCaution::foam_over || each == BathCaution::ammonia || each == BathCaution::scald ||
                                each == BathCaution::poisonous_plant;
            const bool of_wet = each == BathCaution::eye_damage || each == BathCaution::alkali_splash || each == BathCaution::drain;
            const bool of_dry = each == BathCaution::mould || each == BathCaution::dust;
            if ((!of_pot || pot) && (!of_wet || wet) && (!of_dry || !pot)) wanted.push_back(each);
        }
        CHECK(cautions_at(stage, all) == wanted);
    }
}

TEST_CASE("a filter that runs faster by a hair runs faster, by rounding it does not", "[errors]") {
    const auto fit = [](double second) { return fit_filter(std::vector<FilterReading>{{seconds(600), litres(.5)}, {seconds(second), litres(1)}}); };
    CHECK(fit(1200 - 1e-7).cake.value() == Approx(0).margin(1e-12));
    CHECK_THROWS_AS(fit(1200 - .01), DomainError);
    CHECK(fit(1200 + .01).cake.value() == Approx(.02e6).epsilon(1e-6)); // .01 s/L over .5 L
    // The jug's doubt alone decides whether a fall is none: by 3 % of each volume 1.2 % of it is.
    const FilterHabits habits = usual_wash_habits().filter;
    const auto outlook = [&](double second) { return filter_outlook(std::vector<FilterReading>{{seconds(600), litres(.5)}, {seconds(second), litres(1)}}, litres(2), habits); };
    CHECK_NOTHROW(outlook(1185));
    CHECK_THROWS_AS(outlook(1000), DomainError);
}

TEST_CASE("the law's own doubt widens a finish in proportion", "[identity]") {
    // Read without any doubt the rest is one figure, and its logarithm spreads as the law's does.
    const auto band = [](double spread) {
        const FilterHabits habits{sure(Share::of(0)), sure(seconds(0)), sure(Share::of(spread)), sure(minutes(5))};
        return filter_outlook(std::vector<FilterReading>{{seconds(2000), litres(.5)}, {seconds(7200), litres(1)}}, litres(3), habits);
    };
    const double rest = 60000 - 7200; // by hand: 6400 s/L2 and 800 s/L
    const auto narrow = band(.1), wide = band(.3);
    for (const auto& part : {&TimeBand::low, &TimeBand::middle, &TimeBand::high}) {
        const auto logs = [&](const FilterOutlook& o) { return std::log((in_seconds(o.finish.*part) - 7200) / rest); };
        CHECK(logs(wide) == Approx(3 * logs(narrow)).epsilon(1e-9).margin(1e-12));
        const auto shared = [&](const FilterOutlook& o) { return std::log((in_seconds(o.finish_with_second.*part) - 7200) / in_seconds(time_with_second_filter(o.law, litres(1), litres(2)))); };
        CHECK(shared(wide) == Approx(logs(wide)).epsilon(1e-9).margin(1e-12));
    }
    // Nine in ten of a normal law at 1.645; of 2 000 draws to 5 %.
    CHECK(std::log((in_seconds(wide.finish.high) - 7200) / rest) == Approx(.3 * 1.645).epsilon(.06));
    CHECK(std::log((in_seconds(wide.finish.low) - 7200) / rest) == Approx(-.3 * 1.645).epsilon(.06));
    CHECK(std::log((in_seconds(wide.finish.middle) - 7200) / rest) == Approx(0).margin(.02));
}

TEST_CASE("readings rest that agree to the last of their words", "[unit]") {
    BathReadings r{};
    r.alkali = {grams(14.5)};
    const double within = kitchen_bath().habits.ph_rests_within.value();
    const auto rests = [&](double before, double last) {
        r.ph = {{Ph::of(before), PhMeans::pen, false}, {Ph::of(last), PhMeans::pen, false}};
        return bath_standing(r, kitchen_bath()).alkali->at_rest;
    };
    CHECK(rests(6.5 - within, 6.5));
    CHECK(rests(6.7, 6.5)); // as they are typed: their difference is .2 to the last bit but one
    CHECK_FALSE(rests(6.5 - within - 5e-4, 6.5));
    CHECK_FALSE(rests(6.5 + within + 5e-4, 6.5));
    r.ph = {{Ph::of(6.5), PhMeans::pen, true}, {Ph::of(6.5), PhMeans::pen, false}}; // it fizzed before
    CHECK_FALSE(bath_standing(r, kitchen_bath()).alkali->at_rest);
    r.ph = {{Ph::of(2), PhMeans::pen, false}, {Ph::of(6.5), PhMeans::pen, false}, {Ph::of(6.5), PhMeans::pen, false}}; // the last two
    CHECK(bath_standing(r, kitchen_bath()).alkali->at_rest);
    r.ph = {{Ph::of(6.5), PhMeans::pen, false}, {Ph::of(6.5), PhMeans::pen, false}, {Ph::of(6.0), PhMeans::pen, false}};
    CHECK_FALSE(bath_standing(r, kitchen_bath()).alkali->at_rest);
}

TEST_CASE("a bath that need not be cloudy may read low, one that surely is may not", "[reference]") {
    const Titration bath{potash_alum(), grams(50), litres(1.5), soda_ash(), millilitres_per_gram(0)};
    struct Least {
        double laid = 1, ph = 14;
    };
    const auto least = [&](double soda) { // over both solids and every gas
        Least found;
        for (const LakeSolid solid : {LakeSolid::hydroxide, LakeSolid::basic_sulphate})
            for (const auto& gas : {closed_jar(), fizzing(), stirred(), open_to_air()}) {
                const auto rest = after_alkali(bath, grams(soda), solid, gas);
                found.laid = std::min(found.laid, rest.laid.value());
                found.ph = std::min(found.ph, rest.ph.value());
            }
        return found;
    };
    const auto soda_laying = [&](double share) {
        double low = 0, high = 10;
        for (int i = 0; i < 40; ++i) {
            const double middle = .5 * (low + high);
            (least(middle).laid < share ? low : high) = middle;
        }
        return high;
    };
    const double clear = soda_laying(.0199), cloudy = soda_laying(.0201);
    CHECK(possible_ph(bath, grams(clear)).low.value() == Approx(2.8 - .8).margin(1e-9)); // twice the model's .4
    CHECK(possible_ph(bath, grams(cloudy)).low.value() == Approx(least(cloudy).ph - .8).margin(1e-6));
}

TEST_CASE("a pH at either end of what the curve is asked for stands for hydroxides too", "[reference]") {
    const Titration bath{potash_alum(), grams(50), litres(1.5), soda_ash(), millilitres_per_gram(0)};
    for (const double ph : {4.3, 5.0, 6.5, 7.5}) {
        CAPTURE(ph);
        const double u = std::hypot(.3, .4);
        double at[2] = {}, spread = 0;
        for (int i = 0; i < 2; ++i) {
            const LakeSolid solid = i == 0 ? LakeSolid::hydroxide : LakeSolid::basic_sulphate;
            const auto n = [&](double p) {
                const auto soda = alkali_to_ph(bath, Ph::of(std::min(10.0, std::max(4.0, p))), solid, stirred());
                return soda ? std::optional(in_grams(*soda) / 105.988 * 2 / (50 / 474.372)) : std::nullopt;
            };
            at[i] = n(ph).value();
            spread = std::max(spread, (n(ph + u).value_or(at[i]) - n(ph - u).value_or(at[i])) / 2);
        }
        const auto found = hydroxides_at_ph(bath, Ph::of(ph), PhDifference::of(.3));
        REQUIRE(found);
        CHECK(found->mean == Approx((at[0] + at[1]) / 2).epsilon(1e-9));
        CHECK(found->standard_uncertainty == Approx(std::hypot((at[0] - at[1]) / 2, spread)).epsilon(1e-9));
    }
    CHECK_FALSE(hydroxides_at_ph(bath, Ph::of(9.9), PhDifference::of(.3))); // so much soda is not poured
}

TEST_CASE("a lake laid with chalk has its three washes, and none too many", "[reference]") {
    auto s = kitchen_bath();
    s.bath.alkali = chalk_salt();
    s.chalk = chalk_lake(potash_alum(), grams(50), chalk_salt(), grams(15), litres(1.5), kilograms_per_cubic_metre(2.4));
    const auto dry = usual_drying(s.habits.drying);
    for (std::size_t washed = 1; washed < 6; ++washed) {
        BathReadings r{};
        r.decants.assign(washed, {microsiemens_per_centimetre(900), degrees_celsius(25), {}});
        const auto at = bath_standing(r, s);
        CHECK(at.next == (washed < 3 ? BathStep::wash_again : BathStep::drain_and_dry));
        const double left = washed < 3 ? 3.0 - static_cast<double>(washed) : 0.0;
        CHECK(in_hours(at.dry_after->likely) == Approx(12 * left + in_hours(dry.likely)).epsilon(1e-12));
        CHECK(in_hours(at.dry_after->early) == Approx(12 * left + in_hours(dry.early)).epsilon(1e-12));
    }
}
