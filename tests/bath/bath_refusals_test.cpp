// What the bath refuses, whole: the quantity, its value, what it must be and how to mend it; and beside each refusal what lies
// just within the limit and is taken.

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "kitchen_bath.hpp"
#include "lakebound/bath/bath_jar.hpp"
#include "lakebound/bath/colour_left.hpp"
#include "lakebound/bath/gas.hpp"
#include "lakebound/bath/liquor.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/expected_text.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

constexpr double tiny = 1e-5; // far below the thousandth that a limit of 0 might slip to

class Refusals {
public:
    void of(const std::string& what, const std::function<void()>& code) {
        text_ += what + ": ";
        try {
            code();
            text_ += "taken\n";
        } catch (const DomainError& error) {
            text_ += error.quantity() + " is " + error.value() + "; " + error.valid() + (error.mend().empty() ? "" : "; " + error.mend()) + "\n";
        }
    }
    const std::string& text() const { return text_; }

private:
    std::string text_;
};

template <class Q> Estimate<Q> known(const Q& value) { return Estimate<Q>::exact(value, {}); }
WeightPerVolume litre_of(double grams_in_it) { return {kilograms_per_cubic_metre(grams_in_it)}; }
HydroxidesPerAluminium usual_n() { return HydroxidesPerAluminium::of(2.6); }
BathPlan planned_of(const std::function<void(BathWish&)>& change) {
    BathWish wish = roots_and_alum();
    change(wish);
    return plan_bath(wish, usual_laking(), usual_wash_habits());
}
/// A salt that gives besides a little of this ion, five to ten thousand.
Salt with_little(Salt salt, Ion ion) {
    salt.gives[ion] = 5e-4;
    return salt;
}
Salt caustic_soda() { return salt_of("NaOH", 0, {{Ion::sodium, 1}, {Ion::hydroxide, 1}}); }
DryingHabits usual_drying_habits() {
    DryingHabits h = usual_wash_habits().drying;
    h.weighing_repeats_to = known(Share::of(0));
    return h;
}
const Instrument<Mass> kitchen_scales{grams(.1), grams(.0287)};

} // namespace

TEST_CASE("every refusal of salts, solutions and what is laid, whole", "[errors]") {
    Refusals r;
    for (const double mass : {-1.0, -tiny, 0.0}) {
        r.of("amount of a salt " + std::to_string(mass), [&] { (void)amount_of(soda_ash(), grams(mass)); });
        r.of("made up " + std::to_string(mass), [&] { (void)made_up(soda_ash(), grams(mass), {.1, StrengthBasis::by_mass}, degrees_celsius(20)); });
        r.of("salt in mL " + std::to_string(mass), [&] { (void)salt_in(soda_ash(), millilitres(mass), {.1, StrengthBasis::by_mass}, degrees_celsius(20)); });
        r.of("gas " + std::to_string(mass), [&] { (void)gas_volume(moles(mass), degrees_celsius(20)); });
        r.of("gas at Pa " + std::to_string(mass), [&] { (void)gas_volume(moles(1), degrees_celsius(20), pascals(mass)); });
        r.of("dissolved gas L " + std::to_string(mass), [&] { (void)dissolved_gas(litres(mass), pascals(1)); });
        r.of("dissolved gas Pa " + std::to_string(mass), [&] { (void)dissolved_gas(litres(1), pascals(mass)); });
        r.of("fresh plant " + std::to_string(mass), [&] { (void)dry_plant(grams(mass), Share::of(.2)); });
        r.of("plant of pulls " + std::to_string(mass), [&] { (void)plan_pulls(grams(mass), litres(1), 1, millilitres_per_gram(3)); });
        r.of("liquor over chalk " + std::to_string(mass),
             [&] { (void)chalk_lake(potash_alum(), grams(20), chalk_salt(), grams(10), litres(mass), kilograms_per_cubic_metre(2.4)); });
        r.of("alum against soda " + std::to_string(mass), [&] { (void)alkali_balance(potash_alum(), grams(mass), soda_ash(), grams(1), usual_n()); });
        r.of("soda against alum " + std::to_string(mass), [&] { (void)alkali_balance(potash_alum(), grams(1), soda_ash(), grams(mass), usual_n()); });
        r.of("alum of an end point " + std::to_string(mass), [&] { (void)hydroxides_poured(potash_alum(), grams(mass), soda_ash(), grams(1)); });
        r.of("soda of an end point " + std::to_string(mass), [&] { (void)hydroxides_poured(potash_alum(), grams(1), soda_ash(), grams(mass)); });
        r.of("uncertainty learned from " + std::to_string(mass), [&] { (void)learn_hydroxides({2.6, mass}, {}); });
        r.of("aluminium of a lake " + std::to_string(mass),
             [&] { (void)lake_parts({moles(mass), usual_n(), grams(1), {}, {}, {kilograms_per_cubic_metre(1500), kilograms_per_cubic_metre(2700)}}); });
        r.of("dye of a lake " + std::to_string(mass),
             [&] { (void)lake_parts({moles(1), usual_n(), grams(mass), {}, {}, {kilograms_per_cubic_metre(1500), kilograms_per_cubic_metre(2700)}}); });
    }
    r.of("headspace 0", [] { (void)plan_foam(moles(1), degrees_celsius(20), litres(0), seconds(1), Share::of(1)); });
    r.of("life of foam 0", [] { (void)plan_foam(moles(1), degrees_celsius(20), litres(1), seconds(0), Share::of(1)); });
    r.of("fill of foam 0", [] { (void)plan_foam(moles(1), degrees_celsius(20), litres(1), seconds(1), Share::of(0)); });
    r.of("foam of hardly anything", [] { (void)plan_foam(moles(tiny), degrees_celsius(20), litres(tiny), seconds(tiny), Share::of(tiny)); });
    r.of("dry share 0", [] { (void)dry_plant(grams(1), Share::of(0)); });
    r.of("pulls 0", [] { (void)plan_pulls(grams(1), litres(1), 0, millilitres_per_gram(3)); });
    r.of("pulls 6", [] { (void)plan_pulls(grams(1), litres(1), 6, millilitres_per_gram(3)); });
    r.of("pulls 7", [] { (void)plan_pulls(grams(1), litres(1), 7, millilitres_per_gram(3)); });
    r.of("water that the plant holds", [] { (void)plan_pulls(grams(100), millilitres(300), 1, millilitres_per_gram(3)); });
    r.of("plant of no density", [] { (void)pot_for(litres(1), grams(1), kilograms_per_cubic_metre(0), Share::of(0)); });
    for (const double strength : {0.0, tiny, .4999, .5})
        r.of("strength " + std::to_string(strength), [&] { (void)made_up(potash_alum(), grams(1), {strength, StrengthBasis::by_mass}, degrees_celsius(20)); });
    r.of("chalk by volume", [] { (void)made_up(chalk_salt(), grams(1), {.1, StrengthBasis::by_volume}, degrees_celsius(20)); });
    for (const double celsius : {14.5, 15.0, 55.0, 55.5})
        r.of("solution at " + std::to_string(celsius), [&] { (void)solution_density(soda_ash(), MassFraction::of(.1), degrees_celsius(celsius)); });
    for (const double share : {.29999, .3})
        r.of("solution of " + std::to_string(share), [&] { (void)solution_density({{Solute::sodium_chloride, MassFraction::of(share)}}, degrees_celsius(20)); });
    r.of("soda for an aluminium salt", [] { (void)alkali_needed(soda_ash(), grams(1), soda_ash(), usual_n()); });
    r.of("alum for an alkali", [] { (void)alkali_needed(potash_alum(), grams(1), potash_alum(), usual_n()); });
    r.of("soda to be mended with soda", [] { (void)aluminium_needed(soda_ash(), grams(1), soda_ash(), usual_n()); });
    r.of("alum to be mended with alum", [] { (void)aluminium_needed(potash_alum(), grams(1), potash_alum(), usual_n()); });
    r.of("soda as chalk", [] { (void)chalk_lake(potash_alum(), grams(20), soda_ash(), grams(10), litres(1), kilograms_per_cubic_metre(2.4)); });
    r.of("lime as chalk", [] { (void)chalk_lake(potash_alum(), grams(20), slaked_lime(), grams(10), litres(1), kilograms_per_cubic_metre(2.4)); });
    r.of("soda with a little calcium as chalk",
         [] { (void)chalk_lake(potash_alum(), grams(20), with_little(soda_ash(), Ion::calcium), grams(10), litres(1), kilograms_per_cubic_metre(2.4)); });
    r.of("lime with a little carbonate as chalk",
         [] { (void)chalk_lake(potash_alum(), grams(20), with_little(slaked_lime(), Ion::carbonate), grams(10), litres(1), kilograms_per_cubic_metre(2.4)); });
    r.of("chloride under chalk", [] { (void)chalk_lake(aluminium_chloride(), grams(20), chalk_salt(), grams(10), litres(1), kilograms_per_cubic_metre(2.4)); });
    r.of("chloride with a little sulphate under chalk",
         [] { (void)chalk_lake(with_little(aluminium_chloride(), Ion::sulphate), grams(20), chalk_salt(), grams(10), litres(1), kilograms_per_cubic_metre(2.4)); });
    r.of("a bath of nothing", [] { (void)precipitate({}, usual_n()); });
    BathContents bath;
    for (const Ion ion : {Ion::aluminium, Ion::sulphate, Ion::carbonate})
        bath.ions[ion] = tiny;
    r.of("a bath of hardly anything", [&] { (void)precipitate(bath, usual_n()); });
    for (const Ion ion : {Ion::calcium, Ion::acetate}) {
        BathContents other = bath;
        other.ions[ion] = tiny;
        r.of(std::string("the same with a little ") + ion_formula(ion).name, [&] { (void)precipitate(other, usual_n()); });
        Ions ions = bath.ions;
        ions[ion] = tiny;
        r.of(std::string("its rest with a little ") + ion_formula(ion).name, [&] { (void)equilibrium(ions, litres(1), LakeSolid::hydroxide, stirred()); });
    }
    bath.ions[Ion::sulphate] = .1 * tiny;
    r.of("one with too little sulphate", [&] { (void)precipitate(bath, usual_n()); });
    r.of("a rest in no water", [&] { (void)equilibrium(bath.ions, litres(0), LakeSolid::hydroxide, stirred()); });
    r.of("a rest in a drop of water", [&] { (void)equilibrium(Ions{}, litres(tiny), LakeSolid::hydroxide, stirred()); });
    r.of("solids of chalk of nothing", [] { (void)chalk_lake_parts({}, grams(1), {}, {}, {kilograms_per_cubic_metre(1500), kilograms_per_cubic_metre(2700)}); });
    for (const double water : {.6999, .7})
        r.of("water and salts " + std::to_string(water + .3), [&] {
            (void)lake_parts({moles(1), usual_n(), grams(1), MassFraction::of(water), MassFraction::of(.3), {kilograms_per_cubic_metre(1500), kilograms_per_cubic_metre(2700)}});
        });
    check_expected("bath", "refused-salts", r.text());
}

TEST_CASE("every refusal of a plan, whole", "[errors]") {
    Refusals r;
    const auto plan = [&](const char* what, const std::function<void(BathWish&)>& change) { r.of(what, [&] { (void)planned_of(change); }); };
    plan("as it is", [](BathWish&) {});
    plan("soda for the alum", [](BathWish& w) { w.aluminium = soda_ash(); });
    plan("alum for the soda", [](BathWish& w) { w.alkali = potash_alum(); });
    plan("acetate", [](BathWish& w) { w.aluminium = basic_aluminium_acetate(); });
    plan("alum with a little acetate", [](BathWish& w) { w.aluminium = with_little(potash_alum(), Ion::acetate); });
    plan("lime", [](BathWish& w) { w.alkali = slaked_lime(); });
    plan("lye with a little calcium", [](BathWish& w) { w.alkali = with_little(caustic_soda(), Ion::calcium); });
    plan("chalk with a little hydroxide", [](BathWish& w) { w.alkali = with_little(chalk_salt(), Ion::hydroxide); });
    plan("lye", [](BathWish& w) { w.alkali = caustic_soda(); });
    plan("no plant", [](BathWish& w) { w.plant->mass = grams(0); });
    plan("hardly a plant", [](BathWish& w) { w.plant->mass = grams(tiny); });
    plan("no alum", [](BathWish& w) { w.aluminium_mass = grams(0); });
    plan("hardly any alum", [](BathWish& w) { w.aluminium_mass = grams(tiny); });
    plan("nothing that says how much", [](BathWish& w) { w.plant.reset(), w.aluminium_mass.reset(); });
    plan("a lake by chalk", [](BathWish& w) { w.alkali = chalk_salt(), w.aluminium_mass.reset(), w.lake = grams(10); });
    plan("a lake by soda with a little calcium",
         [](BathWish& w) { w.alkali = with_little(soda_ash(), Ion::calcium), w.aluminium_mass.reset(), w.lake = grams(10); });
    plan("a small pot", [](BathWish& w) { w.pot = millilitres(300); });
    plan("a pot too small for two pulls", [](BathWish& w) { w.pot = millilitres(900), w.pulls = 2; });
    plan("a small vessel", [](BathWish& w) { w.vessel = litres(2.5); });
    plan("pulls 7", [](BathWish& w) { w.pulls = 7; });
    plan("little water", [](BathWish& w) { w.water = millilitres(600); });
    plan("strength .3", [](BathWish& w) { w.strength = Strength{.3, StrengthBasis::by_mass}; });
    const Titration bath{potash_alum(), grams(50), litres(1.5), soda_ash(), millilitres_per_gram(10)};
    for (const double soda : {-tiny, 0.0})
        r.of("after soda " + std::to_string(soda), [&] { (void)after_alkali(bath, grams(soda), LakeSolid::hydroxide, stirred()); });
    r.of("a pH of what is clear", [&] { (void)stated_ph(after_alkali(bath, grams(0), LakeSolid::hydroxide, stirred())); });
    for (const std::size_t points : {1u, 2u})
        r.of("points " + std::to_string(points), [&] { (void)titration_curve(bath, LakeSolid::hydroxide, stirred(), 3, points); });
    r.of("points 2001", [&] { (void)titration_curve(bath, LakeSolid::hydroxide, stirred(), 3, 2001); });
    for (const double most : {0.0, tiny, 6.0, 6.0001})
        r.of("hydroxides " + std::to_string(most), [&] { (void)titration_curve(bath, LakeSolid::hydroxide, stirred(), most, 2); });
    for (const double ph : {3.999, 4.0, 10.0, 10.001})
        r.of("to pH " + std::to_string(ph), [&] { (void)alkali_to_ph(bath, Ph::of(ph), LakeSolid::hydroxide, stirred()); });
    for (const double u : {0.0, tiny})
        r.of("pH read to " + std::to_string(u), [&] { (void)hydroxides_at_ph(bath, Ph::of(6), Ph::Difference::of(u)); });
    for (const double ph : {1.999, 2.0, 12.0, 12.001})
        r.of("aluminium at pH " + std::to_string(ph), [&] { (void)aluminium_dissolved(Ph::of(ph), .1, .1, LakeSolid::hydroxide); });
    for (const double sulphate : {-tiny, 0.0, tiny}) {
        r.of("sulphate " + std::to_string(sulphate), [&] { (void)aluminium_dissolved(Ph::of(5), sulphate, .1, LakeSolid::basic_sulphate); });
        r.of("strength of ions " + std::to_string(sulphate), [&] { (void)aluminium_dissolved(Ph::of(5), .1, sulphate, LakeSolid::hydroxide); });
    }
    BathEnd end{.lake = usual_lake(usual_wash_habits()), .poured = {}, .laid_with_chalk = true, .chalk = {}, .washed = {},
                .dried = {}, .ph = {}, .colour = {}, .weighed = {}, .moisture = {}};
    r.of("a jar of chalk unknown", [&] { (void)jar_from(end, usual_wash_habits()); });
    const ColourHabits sharp{known(Share::of(0)), known(Share::of(.5)), known(Share::of(.15))};
    for (const double dilution : {.999, 1.0, 1000.0, 1000.1})
        r.of("dilution " + std::to_string(dilution), [&] { (void)second_laying({dilution}, litres(.9), litres(1), sharp); });
    r.of("no clear liquor", [&] { (void)second_laying({2}, litres(0), litres(1), sharp); });
    r.of("no dye liquor", [&] { (void)second_laying({2}, litres(1), litres(0), sharp); });
    r.of("hardly any liquor", [&] { (void)second_laying({2}, millilitres(tiny), millilitres(tiny), sharp); });
    r.of("more colour than went in", [&] { (void)second_laying({1}, litres(1.45), litres(1), sharp); });
    check_expected("bath", "refused-plans", r.text());
}

TEST_CASE("every refusal of filters, washes and pens, whole", "[errors]") {
    Refusals r;
    const FilterHabits habits = usual_wash_habits().filter;
    const auto filter = [&](const char* what, std::vector<FilterReading> readings, double whole = 3) {
        r.of(std::string("fit, ") + what, [&] { (void)fit_filter(readings); });
        r.of(std::string("outlook, ") + what, [&] { (void)filter_outlook(readings, litres(whole), habits); });
    };
    filter("none", {});
    filter("one", {{minutes(4), litres(.5)}});
    filter("no time", {{minutes(0), litres(.5)}, {minutes(4), litres(1)}});
    filter("no volume", {{minutes(4), litres(0)}, {minutes(9), litres(1)}});
    filter("one time twice", {{minutes(4), litres(.5)}, {minutes(4), litres(1)}});
    filter("one volume twice", {{minutes(4), litres(.5)}, {minutes(9), litres(.5)}});
    filter("runs faster", {{minutes(10), litres(.5)}, {minutes(15), litres(1)}});
    filter("less than has run", {{minutes(4), litres(.5)}, {minutes(9), litres(1)}}, .75);
    filter("all has run", {{minutes(4), litres(.5)}, {minutes(9), litres(1)}}, 1);
    const FilterLaw law{TimePerVolumeSquared::from_value(1e9), TimePerVolume::from_value(1e5)};
    for (const double volume : {-tiny, 0.0}) {
        r.of("filtrate " + std::to_string(volume), [&] { (void)filter_time(law, litres(volume)); });
        r.of("passed " + std::to_string(volume), [&] { (void)time_with_second_filter(law, litres(volume), litres(1)); });
        r.of("rest " + std::to_string(volume), [&] { (void)time_with_second_filter(law, litres(1), litres(volume)); });
    }
    const auto setup = [](double a, double b, double c, double d) { return FilterSetup{pascal_seconds(a), Area::from_value(b), pascals(c), kilograms_per_cubic_metre(d)}; };
    r.of("setup of hardly anything", [&] { (void)filter_constants(law, setup(tiny, tiny, tiny, tiny)); });
    for (int i = 0; i < 4; ++i) {
        const FilterSetup bare = setup(i != 0, i != 1, i != 2, i != 3);
        r.of("constants without " + std::to_string(i), [&] { (void)filter_constants(law, bare); });
        r.of("law without " + std::to_string(i), [&] { (void)filter_law({SpecificCakeResistance::from_value(1), PaperResistance::from_value(1)}, bare); });
    }
    const DecantWash wash{litres(.45), litres(1.5)};
    r.of("no bed", [] { (void)kept_by_a_wash({litres(0), litres(1)}); });
    r.of("hardly a bed", [] { (void)kept_by_a_wash({millilitres(tiny), litres(1)}); });
    r.of("a vessel as large as its bed", [] { (void)kept_by_a_wash({litres(1), litres(1)}); });
    r.of("water for a bed too large", [] { (void)water_for({litres(2), litres(1)}, 1); });
    for (const double strength : {-tiny, 0.0}) {
        r.of("bed of g/L " + std::to_string(strength), [&] { (void)strength_after(litre_of(strength), litre_of(0), wash, 1); });
        r.of("wash water of g/L " + std::to_string(strength), [&] { (void)strength_after(litre_of(1), litre_of(strength), wash, 1); });
        r.of("aim of g/L " + std::to_string(strength), [&] { (void)washes_needed(litre_of(1), litre_of(0), wash, litre_of(strength)); });
        r.of("dried in of g/L " + std::to_string(strength), [&] { (void)salts_dried_in(litre_of(strength), litres(1)); });
        r.of("dried in L " + std::to_string(strength), [&] { (void)salts_dried_in(litre_of(1), litres(strength)); });
    }
    for (const double water : {.99999, 1.0}) {
        r.of("drained cake of " + std::to_string(water), [&] { (void)held_by_drained_cake(MassFraction::of(water), MassFraction::of(.1)); });
        r.of("dry lake of " + std::to_string(water), [&] { (void)held_by_drained_cake(MassFraction::of(.8), MassFraction::of(water)); });
    }
    const auto flows = [&](const char* what, double solids, double solute, double water, double recovery, double strong, double kept) {
        r.of(what, [&] { (void)counter_current_flows({kilograms(solids), kilograms(solute), kilograms(water)}, Share::of(recovery), MassFraction::of(strong), kept); });
    };
    flows("flows", 1, 1, 0, .5, .5, 1);
    flows("flows of hardly anything", tiny, tiny, 0, .5, .5, 1);
    flows("without solids", 0, 1, 0, .5, .5, 1);
    flows("without solute", 1, 0, 0, .5, .5, 1);
    flows("with less than no water", 1, 1, -tiny, .5, .5, 1);
    flows("all washed out", 1, 1, 0, 1, .5, 1);
    flows("nothing drawn off", 1, 1, 0, .5, 0, 1);
    flows("hardly anything drawn off", 1, 1, 0, .5, tiny, 1);
    flows("no solution kept", 1, 1, 0, .5, .5, 0);
    flows("hardly a solution kept", 1, tiny, 0, .5, .5, tiny);
    flows("too strong a solution", 1, 1, 2, .5, .5, .5);
    for (const double over : {0.0, tiny, std::nan("")})
        r.of("overflow " + std::to_string(over), [&] { (void)counter_current_recovery(over, 2); });
    WashedLake lake{};
    lake.water.strength = litre_of(1), lake.lake = known(grams(tiny)), lake.stirred_to = known(Share::of(.1));
    lake.bed = known(litres(.4)), lake.filled = known(litres(1.6));
    const auto clean = [&](const std::string& what, const WashedLake& of, double aim) {
        r.of("chance, " + what, [&] { (void)chance_of_clean(of, MassFraction::of(aim), 1); });
        r.of("outlook, " + what, [&] { (void)wash_outlook(of, MassFraction::of(aim), known(kilograms_per_cubic_metre(0))); });
    };
    clean("hardly a lake", lake, tiny);
    clean("no aim", lake, 0);
    WashedLake other = lake;
    other.lake = known(grams(0));
    clean("no lake", other, .01);
    other = lake, other.held = known(millilitres_per_gram(0));
    clean("nothing held", other, .01);
    other.held = known(millilitres_per_gram(tiny));
    clean("hardly anything held", other, .01);
    other = lake, other.water.strength = litre_of(-tiny);
    clean("less than no salts", other, .01);
    other = lake, other.bed = known(litres(2));
    clean("bed too large", other, .01);
    SaltsInWater some{}, none{};
    some.strength = litre_of(tiny), some.standard_uncertainty = none.standard_uncertainty = kilograms_per_cubic_metre(tiny);
    r.of("two decants of hardly anything", [&] { (void)kept_by_reading(some, some, lake.bed, lake.filled); });
    r.of("a first decant of nothing", [&] { (void)kept_by_reading(none, some, lake.bed, lake.filled); });
    const auto salts = salts_of_alum_and_soda();
    for (const double celsius : {-.5, 0.0, 45.0, 45.5})
        r.of("conducting at " + std::to_string(celsius), [&] { (void)salts_conductivity(salts, litre_of(1), degrees_celsius(celsius)); });
    r.of("calcium sulphate", [] { (void)sulphate_equivalent_conductivity(Ion::calcium, Molality::from_value(.1), degrees_celsius(20)); });
    r.of("chloride alone", [] { (void)limiting_conductivity(Ion::chloride); });
    for (const double molality : {-tiny, 0.0, .5, .50001})
        r.of("molality " + std::to_string(molality), [&] { (void)sulphate_equivalent_conductivity(Ion::sodium, Molality::from_value(molality), degrees_celsius(20)); });
    for (const Ion ion : {Ion::calcium, Ion::aluminium, Ion::hydroxide, Ion::carbonate, Ion::chloride, Ion::acetate}) {
        DissolvedSalts mixed = salts;
        mixed.ions[ion] = tiny;
        r.of(std::string("a little ") + ion_formula(ion).name, [&] { check(mixed); });
    }
    DissolvedSalts uneven = salts;
    uneven.ions[Ion::sodium] = 6.25;
    r.of("a quarter of a charge over", [&] { check(uneven); });
    uneven.ions[Ion::sodium] = -6;
    r.of("less than no sodium", [&] { check(uneven); });
    r.of("no salts", [] { check(DissolvedSalts{}); });
    for (const double strength : {-tiny, 0.0, 90.0})
        r.of("g/L " + std::to_string(strength), [&] { (void)salts_conductivity(salts, litre_of(strength), degrees_celsius(20)); });
    for (const double us : {-tiny, 0.0, 9e4})
        r.of("uS/cm " + std::to_string(us), [&] { (void)strength_of(salts, microsiemens_per_centimetre(us), degrees_celsius(20)); });
    for (const double factor : {.2999, .3, 1.0, 1.0001})
        r.of("factor " + std::to_string(factor), [&] { (void)shown_as_solids(litre_of(1), factor); });
    const ConductivityPen pen = usual_pen(usual_wash_habits(), Compensation::to_25_degrees, microsiemens_per_centimetre(1));
    const auto decant = [&](const char* what, double us, double of_water, double celsius = 25) {
        r.of(what, [&] { (void)salts_in_decant({microsiemens_per_centimetre(us), degrees_celsius(celsius), {}}, {microsiemens_per_centimetre(of_water), degrees_celsius(25), {}}, pen, salts); });
    };
    decant("decant", 900, 300);
    decant("decant below its water", 250.4, 300);
    decant("decant of less than nothing", -tiny, 300);
    decant("water of less than nothing", 300, -tiny);
    decant("hot decant", 900, 300, 46);
    r.of("wash water of less than nothing", [] { (void)solids_of_wash_water(microsiemens_per_centimetre(-tiny), usual_wash_habits()); });
    r.of("wash water of nothing", [] { (void)solids_of_wash_water(microsiemens_per_centimetre(0), usual_wash_habits()); });
    check_expected("bath", "refused-washes", r.text());
}

TEST_CASE("every refusal of drying and of readings, whole", "[errors]") {
    Refusals r;
    const auto tray = [](double solids, double area, double rate) { return Tray{kilograms(solids), Area::from_value(area), DryingRate::from_value(rate)}; };
    r.of("a tray of hardly anything", [&] { (void)constant_rate_time(tray(tiny, tiny, tiny), .5, 0); });
    for (int i = 0; i < 3; ++i) {
        r.of("even rate without " + std::to_string(i), [&] { (void)constant_rate_time(tray(i != 0, i != 1, i != 2), .5, .2); });
        r.of("falling rate without " + std::to_string(i), [&] { (void)falling_rate_time(tray(i != 0, i != 1, i != 2), .5, .2, .1); });
    }
    for (const auto& [start, critical] : {std::pair{.5, .5}, {.5, .50001}, {.5, 0.0}, {.5, -tiny}})
        r.of("even from " + std::to_string(start) + " to " + std::to_string(critical), [&, from = start, to = critical] { (void)constant_rate_time(tray(1, 1, 1), from, to); });
    struct Falling { double critical, end, rest; };
    for (const Falling& f : {Falling{.5, .5, .1}, {.5, .50001, .1}, {.5, .1, .1}, {.5, tiny, 0}, {.5, .2, -tiny}})
        r.of("falling from " + std::to_string(f.critical) + " to " + std::to_string(f.end) + " over " + std::to_string(f.rest),
             [&] { (void)falling_rate_time(tray(1, 1, 1), f.critical, f.end, f.rest); });
    r.of("three that lead below nothing", [] { (void)drying_through_three(grams(60), grams(40), grams(25), hours(24)); });
    r.of("three at an even rate", [] { (void)drying_through_three(grams(60), grams(50), grams(40), hours(24)); });
    r.of("three that end at nothing", [] { (void)drying_through_three(grams(60), grams(30), grams(0), hours(24)); });
    r.of("three in no time", [] { (void)drying_through_three(grams(60), grams(30), grams(20), hours(0)); });
    const DryingLaw law{grams(10), hours(36), grams(5), hours(7)};
    r.of("dry within nothing", [&] { (void)dry_within(law, Share::of(0)); });
    r.of("dry within hardly anything", [&] { (void)dry_within(law, Share::of(tiny)); });
    const auto series = [&](const std::string& what, const std::vector<DryingWeighing>& weighings) {
        r.of(what, [&] { (void)drying_outlook(weighings, kitchen_scales, usual_drying_habits()); });
    };
    series("two weighings", weighed_daily({38.6, 24.9}));
    series("no weighings", {});
    series("a mass of nothing", weighed_daily({38.6, 24.9, 0}));
    series("a rise", weighed_daily({38.6, 24.9, 25.1}));
    series("an even rate", weighed_daily({60, 50, 40.2}));
    series("an even rate at the end", weighed_daily({60, 40, 30, 20.1}));
    auto at_once = weighed_daily({38.6, 24.9, 17.9});
    at_once[2].time = hours(24);
    series("two at once", at_once);
    at_once[1].time = hours(30.26), at_once[2].time = hours(25.04);
    series("one before the other", at_once);
    auto wet = weighed_daily({38.6, 24.9, 17.9});
    wet[0].surface_wet = true;
    series("one of them wet", wet);
    r.of("a cake unlike its bath", [] {
        (void)drying_belief(weighed_daily({38.6, 24.9, 17.9}), kitchen_scales, usual_drying_habits(), Estimate<Mass>::normal(grams(50), grams(1), {}));
    });
    const DryingBelief belief = drying_belief(weighed_daily({38.6, 24.9, 17.9}), kitchen_scales, usual_drying_habits());
    for (const double p : {0.0, tiny, 1 - tiny, 1.0}) {
        r.of("end at " + std::to_string(p), [&] { (void)end_mass_quantile(belief, p); });
        r.of("mass at " + std::to_string(p), [&] { (void)drying_mass_quantile(belief, hours(100), p); });
        r.of("dry at " + std::to_string(p), [&] { (void)time_dry_with(belief, Share::of(.1), p); });
    }
    r.of("dry within nothing at a half", [&] { (void)time_dry_with(belief, Share::of(0), .5); });
    r.of("dry within hardly anything at a half", [&] { (void)time_dry_with(belief, Share::of(tiny), .5); });
    for (const auto& [water, within] : {std::pair{0.0, .01}, {1.0, .01}, {.5, 0.0}, {.5, 1.0}, {.5001, 1.0}, {tiny, tiny / 2}})
        r.of("drained cake of " + std::to_string(water) + " to " + std::to_string(within), [w = water, i = within] {
            DryingHabits h = usual_drying_habits();
            h.drained_water = known(MassFraction::of(w)), h.dry_within = known(Share::of(i));
            (void)usual_drying(h);
        });
    const auto stands = [&](const char* what, const std::function<void(BathReadings&)>& change) {
        BathReadings readings{};
        change(readings);
        r.of(what, [&] { (void)bath_standing(readings, kitchen_bath()); });
    };
    stands("less than no alkali", [](BathReadings& b) { b.alkali = {grams(5), grams(-tiny)}; });
    stands("no alkali", [](BathReadings& b) { b.alkali = {grams(0)}; });
    stands("less than no alum", [](BathReadings& b) { b.aluminium = {grams(5), grams(-tiny)}; });
    stands("no alum", [](BathReadings& b) { b.aluminium = {grams(0)}; });
    check_expected("bath", "refused-cakes", r.text());
}
