#include "lakebound/bath/conductivity.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {
WeightPerVolume grams_per_litre(double x) { return {kilograms_per_cubic_metre(x)}; }
double litre_grams(const WeightPerVolume& w) { return in_kilograms_per_cubic_metre(w.value); }
double lambda(Ion cation, double molality, double celsius) {
    return in_siemens_square_centimetres_per_equivalent(
        sulphate_equivalent_conductivity(cation, Molality::from_value(molality), degrees_celsius(celsius)));
}
DissolvedSalts ammonium_sulphate() {
    DissolvedSalts s{};
    s.ions[Ion::ammonium] = 2;
    s.ions[Ion::sulphate] = 1;
    return s;
}
double kappa(const DissolvedSalts& salts, double grams, double celsius) {
    return in_microsiemens_per_centimetre(salts_conductivity(salts, grams_per_litre(grams), degrees_celsius(celsius)));
}
ConductivityPen pen(Compensation compensation = Compensation::to_25_degrees) {
    ConductivityPen p{};
    p.compensation = compensation;
    p.per_kelvin = .02;
    p.calibrated_to = Estimate<Share>::exact(Share::of(.03), {});
    p.repeats_to = Estimate<Share>::exact(Share::of(.01), {});
    p.step = microsiemens_per_centimetre(1);
    p.thermometer = TemperatureDifference::from_value(1.0);
    return p;
}
PenReading reads(double us, double celsius = 25) { return {microsiemens_per_centimetre(us), degrees_celsius(celsius), {}}; }
} // namespace

TEST_CASE("conductivity of sodium and potassium sulphate", "[reference]") {
    // Handbook rows of sodium sulphate at 25 degC, S cm2/eq at eq/L (crc-conductivity, values from memory); the rows
    // run by equivalents, so m is half of them. Tolerance 2.1 %, the correlation's own distance from the table.
    const struct {
        double molality, sodium;
    } rows[] = {{0, 129.9}, {.0005, 124.1}, {.0025, 117.1}, {.005, 112.4}, {.01, 106.7}, {.025, 97.7}, {.05, 89.9}};
    for (const auto& row : rows) {
        INFO(row.molality);
        CHECK(lambda(Ion::sodium, row.molality, 25) == Approx(row.sodium).epsilon(.021));
    }
    // mccleskey-2012 reckoned apart from this code with the same coefficients, all digits printed.
    const struct {
        double molality, sodium, potassium;
    } again[] = {{0, 130.44, 161.03},      {.0005, 124.83, 150.73}, {.0025, 118.59, 140.66}, {.005, 114.34, 134.52},
                 {.01, 108.87, 127.34},    {.025, 99.57, 116.69},   {.05, 91.00, 108.29}};
    for (const auto& row : again) {
        CHECK(lambda(Ion::sodium, row.molality, 25) == Approx(row.sodium).margin(.006));
        CHECK(lambda(Ion::potassium, row.molality, 25) == Approx(row.potassium).margin(.006));
    }
}

TEST_CASE("sulphates at no strength are their ions", "[reference]") {
    // marcus-ions: Na 50.1, K 73.5, 1/2 SO4 80.0. The correlation was fitted to other data: 5 % for potassium.
    const auto ion = [](Ion i) { return in_siemens_square_centimetres_per_equivalent(limiting_conductivity(i)); };
    CHECK(lambda(Ion::sodium, 0, 25) == Approx(ion(Ion::sodium) + ion(Ion::sulphate)).epsilon(.005));
    CHECK(lambda(Ion::potassium, 0, 25) == Approx(ion(Ion::potassium) + ion(Ion::sulphate)).epsilon(.055));
    // Diffusion coefficients 1.33, 1.96 and 1.07e-9 m2/s (phreeqc-dat) by Nernst and Einstein,
    // lambda = |z| F^2 D / (R T): an independent way to the same.
    const auto nernst_einstein = [](double d, double z) { return z * 96485.33 * 96485.33 * d / (8.314463 * 298.15) * 1e4; };
    CHECK(ion(Ion::sodium) == Approx(nernst_einstein(1.33e-9, 1)).epsilon(.01));
    CHECK(ion(Ion::potassium) == Approx(nernst_einstein(1.96e-9, 1)).epsilon(.01));
    CHECK(ion(Ion::sulphate) == Approx(nernst_einstein(1.07e-9, 2) ).epsilon(.01));
    CHECK(ion(Ion::ammonium) == Approx(73.5));
    CHECK(ion(Ion::calcium) == Approx(59.5));
    CHECK(ion(Ion::aluminium) == Approx(61.0));
    CHECK(ion(Ion::bicarbonate) == Approx(44.5));
    CHECK(ion(Ion::carbonate) == Approx(69.3));
}

TEST_CASE("conductivity of ammonium sulphate", "[reference]") {
    // conductivity-of-solutions-table (read): mS/cm at 20 degC by mass per cent. We take it for the potassium salt;
    // 3.5 % for that to 2 % by mass, 7 % for the strongest. Densities 1.001, 1.004, 1.010, 1.028 g/mL (from memory).
    const struct {
        double percent, density, ms;
    } rows[] = {{.5, 1.001, 7.4}, {1, 1.004, 14.2}, {2, 1.010, 25.7}, {5, 1.028, 57.4}};
    for (const auto& row : rows) {
        INFO(row.percent);
        CHECK(kappa(ammonium_sulphate(), row.percent * row.density * 10, 20) / 1e3 == Approx(row.ms).epsilon(row.percent > 2 ? .07 : .035));
    }
}

TEST_CASE("mixed sulphates of alum and soda", "[reference]") {
    // Worked apart from this code by the same correlation, uS/cm at 25, 20 and 15 degC; four figures.
    const struct {
        double grams, at_25, at_20, at_15;
    } rows[] = {{.05, 88, 79, 70},     {.10, 174, 156, 138},    {.171, 292, 262, 232},   {.238, 402, 360, 320},
                {.57, 922, 827, 734},  {1.0, 1560, 1399, 1243}, {2.0, 2950, 2646, 2351}, {6.3, 8190, 7350, 6534},
                {21, 22786, 20470, 18215}};
    const auto salts = salts_of_alum_and_soda();
    CHECK(in_grams(mass_per_equivalent(salts)) == Approx(150.09 / 2).epsilon(1e-4));
    for (const auto& row : rows) {
        CHECK(kappa(salts, row.grams, 25) == Approx(row.at_25).epsilon(3e-4).margin(.5));
        CHECK(kappa(salts, row.grams, 20) == Approx(row.at_20).epsilon(3e-4).margin(.5));
        CHECK(kappa(salts, row.grams, 15) == Approx(row.at_15).epsilon(3e-4).margin(.5));
    }
}

TEST_CASE("conductivity of sodium bicarbonate", "[reference]") {
    // onsager-limiting-law for a 1:1 salt at 25 degC (constants from memory): L = L0 - (60.2 + .229 L0) sqrt c;
    // at .01 mol/L 86.4 S cm2/eq. 3 % for our stand-in.
    DissolvedSalts soda{};
    soda.ions[Ion::sodium] = 1;
    soda.ions[Ion::bicarbonate] = 1;
    CHECK(kappa(soda, .84007, 25) / 10 == Approx(86.4).epsilon(.03));
}

TEST_CASE("strength and conductivity are inverses and rise together", "[identity]") {
    DissolvedSalts with_soda = salts_of_alum_and_soda();
    with_soda.ions[Ion::sodium] += 2;
    with_soda.ions[Ion::bicarbonate] += 2;
    for (const auto& salts : {salts_of_alum_and_soda(), ammonium_sulphate(), with_soda})
        for (const double t : {5.0, 20.0, 40.0}) {
            double before = 0;
            for (const double g : {.02, .2, 2.0, 20.0, 30.0}) {
                const auto k = salts_conductivity(salts, grams_per_litre(g), degrees_celsius(t));
                CHECK(litre_grams(strength_of(salts, k, degrees_celsius(t))) == Approx(g).epsilon(1e-9));
                CHECK(k.value() > before);
                before = k.value();
            }
        }
    CHECK(kappa(salts_of_alum_and_soda(), 0, 25) == Approx(0).margin(1e-12));
    // Doubling all amounts of ions is the same salts.
    auto twice = salts_of_alum_and_soda();
    twice.ions += twice.ions;
    CHECK(kappa(twice, 1, 25) == Approx(kappa(salts_of_alum_and_soda(), 1, 25)).epsilon(1e-13));
}

TEST_CASE("the salts of a liquor are those a pen can tell", "[unit]") {
    Ions liquor{};
    liquor[Ion::sodium] = 3;
    liquor[Ion::potassium] = 1;
    liquor[Ion::sulphate] = .8;
    liquor[Ion::carbonate] = 1.0;
    liquor[Ion::hydroxide] = .3;
    liquor[Ion::bicarbonate] = .1;
    const auto salts = salts_of_liquor(liquor);
    CHECK(salts.ions[Ion::bicarbonate] == Approx(2.4));
    CHECK(salts.ions[Ion::carbonate] == Approx(0).margin(1e-15));
    CHECK(charge_of(salts.ions) == Approx(0).margin(1e-12));
    // Bicarbonate conducts less for its weight: 1 000 uS/cm are six tenths more of it.
    DissolvedSalts soda{};
    soda.ions[Ion::sodium] = soda.ions[Ion::bicarbonate] = 1;
    const auto at = [](const DissolvedSalts& s) {
        return litre_grams(strength_of(s, microsiemens_per_centimetre(1000), degrees_celsius(25)));
    };
    CHECK(at(soda) / at(salts_of_alum_and_soda()) == Approx(1.60).margin(.01));
    liquor[Ion::chloride] = .1;
    CHECK_THROWS_AS(salts_of_liquor(liquor), DomainError);
}

TEST_CASE("a pen's reading becomes salts over those of the wash water", "[unit]") {
    const auto salts = salts_of_alum_and_soda();
    // Compensated, at 25 degC: .238 g/L is 402 uS/cm over the tap's 300.
    const auto found = salts_in_decant(reads(702), reads(300), pen(), salts);
    CHECK(litre_grams(found.strength) == Approx(.238).epsilon(.003));
    CHECK(in_microsiemens_per_centimetre(found.over_wash_water) == Approx(402).epsilon(1e-6));
    // u: 1 % of 702 and of 300 and the steps: 7.6 uS/cm of 402.
    CHECK(in_kilograms_per_cubic_metre(found.standard_uncertainty) == Approx(.238 * 7.64 / 402).epsilon(.05));
    CHECK(found.scale.value() == Approx(.03));
    // Without compensation at 15 degC: the tap shows 240, the decant 240 + 320.
    const auto cold = salts_in_decant(reads(240 + 320, 15), reads(240, 15), pen(Compensation::none), salts);
    CHECK(litre_grams(cold.strength) == Approx(.238).epsilon(.003));
    CHECK(in_microsiemens_per_centimetre(cold.over_wash_water) == Approx(402).epsilon(.003));
    // A reading may say by itself that nothing was corrected.
    auto decant = reads(240 + 320, 15), tap = reads(240, 15);
    decant.compensation = tap.compensation = Compensation::none;
    const auto said = salts_in_decant(decant, tap, pen(), salts);
    CHECK(litre_grams(said.strength) == Approx(litre_grams(cold.strength)).epsilon(1e-12));
    CHECK(said.standard_uncertainty == cold.standard_uncertainty);
    CHECK(in_microsiemens_per_centimetre(at_25_degrees(tap, pen())) == Approx(300));
    // Taken for corrected, though noted at 15 degC, it would pass for a fifth less.
    CHECK(litre_grams(salts_in_decant(reads(560, 15), reads(240, 15), pen(), salts).strength) < .82 * .238);
    // Taken for a reading at 25 degC it would pass for a fifth less salt.
    const auto naive = salts_in_decant(reads(560), reads(240), pen(), salts);
    CHECK(litre_grams(naive.strength) == Approx(.8 * .238).epsilon(.02));
    // A compensated pen at 15 degC takes 2 % for the sulphates' 2.3 %: within a per cent of the truth.
    const auto compensated = salts_in_decant(reads(240 / .8 + 320 / .8, 15), reads(240 / .8, 15), pen(), salts);
    CHECK(litre_grams(compensated.strength) == Approx(.238).epsilon(.003));
    CHECK(compensated.standard_uncertainty < cold.standard_uncertainty);
    // A pen of factor .5 that shows 351 mg/L read 702 uS/cm.
    CHECK(in_microsiemens_per_centimetre(shown_as_solids(grams_per_litre(.351), .5)) == Approx(702));
    CHECK(in_microsiemens_per_centimetre(at_25_degrees(reads(240, 15), pen(Compensation::none))) == Approx(300));
    CHECK(in_microsiemens_per_centimetre(at_25_degrees(reads(240, 15), pen())) == Approx(240));
}

TEST_CASE("a decant that conducts less than its wash water is told", "[errors]") {
    const auto salts = salts_of_alum_and_soda();
    CHECK_THROWS_WITH(salts_in_decant(reads(250), reads(300), pen(), salts),
                      Catch::Contains("conductivity of the decant is 250 uS/cm at 25 degC") &&
                          Catch::Contains("300 uS/cm"));
    // Within the doubt of two readings it is clean, and the doubt says how clean.
    const auto clean = salts_in_decant(reads(297), reads(300), pen(), salts);
    CHECK(litre_grams(clean.strength) == Approx(0).margin(1e-9));
    CHECK(in_kilograms_per_cubic_metre(clean.standard_uncertainty) > .001);
}

TEST_CASE("what a pen cannot read is refused", "[errors]") {
    const auto salts = salts_of_alum_and_soda();
    CHECK_THROWS_AS(salts_conductivity(salts, grams_per_litre(-1), degrees_celsius(20)), DomainError);
    CHECK_THROWS_AS(salts_conductivity(salts, grams_per_litre(1), degrees_celsius(60)), DomainError);
    CHECK_THROWS_AS(salts_conductivity(salts, grams_per_litre(90), degrees_celsius(20)), DomainError);
    CHECK_THROWS_AS(strength_of(salts, microsiemens_per_centimetre(90000), degrees_celsius(20)), DomainError);
    CHECK_THROWS_AS(strength_of(salts, microsiemens_per_centimetre(-1), degrees_celsius(20)), DomainError);
    CHECK_THROWS_AS(salts_in_decant(reads(500, 80), reads(300), pen(), salts), DomainError);
    CHECK_THROWS_AS(salts_in_decant(reads(-5), reads(300), pen(), salts), DomainError);
    CHECK_THROWS_AS(shown_as_solids(grams_per_litre(.3), 2.0), DomainError);
    CHECK_THROWS_AS(shown_as_solids(grams_per_litre(.3), 1.001), DomainError);
    CHECK_THROWS_AS(shown_as_solids(grams_per_litre(.3), .299), DomainError);
    CHECK(in_microsiemens_per_centimetre(shown_as_solids(grams_per_litre(.3), 1.0)) == Approx(300));
    CHECK(in_microsiemens_per_centimetre(shown_as_solids(grams_per_litre(.3), .3)) == Approx(1000));
    CHECK_THROWS_AS(salts_conductivity(salts, grams_per_litre(1), degrees_celsius(-.1)), DomainError);
    CHECK_THROWS_AS(salts_conductivity(salts, grams_per_litre(1), degrees_celsius(45.1)), DomainError);
    CHECK_NOTHROW(salts_conductivity(salts, grams_per_litre(1), degrees_celsius(0)));
    CHECK_NOTHROW(salts_conductivity(salts, grams_per_litre(1), degrees_celsius(45)));
    CHECK_THROWS_AS(sulphate_equivalent_conductivity(Ion::sodium, Molality::from_value(-1e-6), degrees_celsius(25)), DomainError);
    CHECK_NOTHROW(sulphate_equivalent_conductivity(Ion::sodium, Molality::from_value(.5), degrees_celsius(25)));
    DissolvedSalts below = salts;
    below.ions[Ion::ammonium] = -1;
    CHECK_THROWS_AS(check(below), DomainError);
    CHECK_THROWS_AS(limiting_conductivity(Ion::acetate), DomainError);
    CHECK_THROWS_AS(sulphate_equivalent_conductivity(Ion::calcium, Molality::from_value(.01), degrees_celsius(25)), DomainError);
    CHECK_THROWS_AS(sulphate_equivalent_conductivity(Ion::sodium, Molality::from_value(1.0), degrees_celsius(25)), DomainError);
    DissolvedSalts bad = salts;
    bad.ions[Ion::sodium] = 5;
    CHECK_THROWS_AS(check(bad), DomainError);
    bad = salts;
    bad.ions[Ion::calcium] = 1;
    bad.ions[Ion::sulphate] += 1;
    CHECK_THROWS_AS(check(bad), DomainError);
    CHECK_THROWS_AS(check(DissolvedSalts{}), DomainError);
}

TEST_CASE("the stated doubt of a pen holds the truth two times in three", "[identity]") {
    RandomEngine engine(3);
    const auto salts = salts_of_alum_and_soda();
    int held = 0;
    for (int i = 0; i < 2000; ++i) {
        const double grams = .02 * std::exp(3 * uniform(engine)), tap = 100 + 500 * uniform(engine);
        const double tap_read = tap * (1 + .01 * standard_normal(engine));
        const double decant_read = (tap + kappa(salts, grams, 25)) * (1 + .01 * standard_normal(engine));
        try {
            const auto found = salts_in_decant(reads(decant_read), reads(tap_read), pen(), salts);
            held += std::abs(litre_grams(found.strength) - grams) < in_kilograms_per_cubic_metre(found.standard_uncertainty);
        } catch (const DomainError&) {} // a clean decant read low: 1 in 40
    }
    INFO(held);
    CHECK(held / 2000. == Approx(.68).margin(.04));
}
