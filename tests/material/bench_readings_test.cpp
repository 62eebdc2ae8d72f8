#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

#include "lakebound/material/displacement.hpp"
#include "lakebound/material/medium_solids.hpp"
#include "lakebound/material/pyknometer.hpp"
#include "lakebound/material/rub_out.hpp"
#include "lakebound/material/tapped_fill.hpp"

using namespace lakebound;

namespace {
const Instrument<Mass> pocket_scale{grams(0.01), {}};
const Instrument<Mass> kitchen_scale{grams(0.1), {}};
const DropCalibration dropper{50, grams(1.81), pocket_scale};
const RubOutPrior home{0.095, 4.0, 0.05}; // formulations/practice/home.yaml
RubOutResult by_drops(const RubOut& rub_out, const DropCalibration& by = dropper) {
    return oil_absorption_by_rub_out({&rub_out, 1}, by, home);
}
RubOutResult by_weight(const RubOut& rub_out) { return oil_absorption_by_rub_out({&rub_out, 1}, home); }
RubOut nineteen_drops() { return {grams(1.00), 19.0, {}, pocket_scale}; }
Pyknometer bottle(Instrument<Mass> scale) {
    return {grams(52.37), grams(3.02), grams(53.79), grams_per_cubic_centimetre(0.99705), scale};
}
} // namespace

TEST_CASE("rounding of a display", "[reference]") {
    // jcgm-100 4.3.7 (value from memory): step/sqrt(12); 0.1 g shows as 0.0289 g, 0.01 g as 0.00289 g.
    CHECK(1e3 * reading_uncertainty(kitchen_scale) == Approx(0.0289).margin(5e-5));
    CHECK(1e3 * reading_uncertainty(pocket_scale) == Approx(0.00289).margin(5e-6));
    // Two roundings of a net mass: 0.041 g on a 0.1 g scale (usp-41 takes 0.41 steps).
    CHECK(1e3 * reading_uncertainty(kitchen_scale, 2) == Approx(0.041).margin(5e-4));
}

TEST_CASE("rub-out in drops", "[reference]") {
    // docs/rub-out-in-ten-minutes.md, by hand: 50 drops of 1.81 g in all, 19 drops on 1.00 g: 68.8
    // g/100g; one drop is 3.6 units; 0.0362 g a drop.
    CHECK(in_grams(drop_mass(dropper).value()) == Approx(0.0362).margin(5e-6));
    const auto oa = by_drops(nineteen_drops()).mean;
    CHECK(in_grams_per_100_grams(oa.value()) == Approx(68.78).margin(5e-3));
    CHECK(100 * one_drop_of_oil_absorption(dropper, grams(1)).value() == Approx(3.62).margin(5e-3));
    CHECK(oa.provenance().origin == Origin::measured);
    // By hand: repeat .095, hand .05, a drop in 19 / sqrt 12 = .0152, scale .00408, calibration .00226.
    CHECK(oa.relative_uncertainty() == Approx(0.1085).margin(1e-4));
}

TEST_CASE("the scatter that was seen counts, with what was expected of it", "[reference]") {
    // docs/theory.md, scatter of rub-outs, checked by hand: s_r^2 = (4 x .095^2 + S)/(4 + n - 1).
    // 78 and 74: s_r .0866; 50, 75 and 100: .2155 (published nowhere; the check vectors K3 and K4).
    const auto weighed = [](std::initializer_list<double> readings) {
        std::vector<RubOut> rub_outs;
        for (const double g : readings) // on a scale so fine that only the hand is left
            rub_outs.push_back({grams(100.0), 0.0, grams(g), {grams(1e-6), {}}});
        return oil_absorption_by_rub_out(rub_outs, home);
    };
    CHECK(weighed({78, 74}).repeat_spread == Approx(0.0866).margin(5e-5));
    CHECK(weighed({50, 75, 100}).repeat_spread == Approx(0.2155).margin(5e-5));
    CHECK(weighed({50, 75, 100}).mean.relative_uncertainty() ==
          Approx(std::sqrt(0.2155 * 0.2155 / 3 + 0.05 * 0.05)).margin(1e-4));
    CHECK(in_grams_per_100_grams(weighed({50, 75, 100}).mean.value()) == Approx(72.11).margin(0.01));
    // One rub-out: repeat and hand, .1074. Nine that agree: the prior still holds four repeats.
    CHECK(weighed({75}).mean.relative_uncertainty() == Approx(0.10735).margin(1e-5));
    const double nine = std::sqrt(4 * 0.095 * 0.095 / 12);
    CHECK(weighed({75, 75, 75, 75, 75, 75, 75, 75, 75}).mean.relative_uncertainty() ==
          Approx(std::sqrt(nine * nine / 9 + 0.05 * 0.05)).margin(1e-5));
    // Hand and oil are a floor.
    std::vector<RubOut> many(400, {grams(100.0), 0.0, grams(75.0), {grams(1e-6), {}}});
    CHECK(oil_absorption_by_rub_out(many, home).mean.relative_uncertainty() == Approx(0.05).margin(5e-4));
}

TEST_CASE("readings that disagree beyond chance are told", "[reference]") {
    const auto two = [](double a, double b) {
        return oil_absorption_by_rub_out(std::vector<RubOut>{{grams(100.0), 0.0, grams(a), {grams(1e-6), {}}},
                                                             {grams(100.0), 0.0, grams(b), {grams(1e-6), {}}}},
                                         home);
    };
    // Two readings: S = d^2/2, and F(1, 4) is the square of Student's t of 4 degrees, whose two-sided 5 %
    // point is 2.776 (any table): d = 2.776 x .095 x sqrt 2 = .3730.
    CHECK(two(75, 75 * std::exp(0.3720)).as_far_apart->value() == Approx(0.05).margin(0.0006));
    CHECK_FALSE(two(75, 75 * std::exp(0.3720)).disagree);
    CHECK(two(75, 75 * std::exp(0.3740)).disagree);
    CHECK(two(75, 75).as_far_apart->value() == Approx(1.0));
    CHECK_FALSE(by_drops(nineteen_drops()).as_far_apart.has_value());
    // F(2, 4) in closed form: (1 + x/2)^-2; 50, 75 and 100 have x = 13.43.
    const auto three = oil_absorption_by_rub_out(
        std::vector<RubOut>{{grams(100), 0.0, grams(50), {grams(1e-6), {}}},
                            {grams(100), 0.0, grams(75), {grams(1e-6), {}}},
                            {grams(100), 0.0, grams(100), {grams(1e-6), {}}}},
        home);
    CHECK(three.as_far_apart->value() == Approx(0.0168).margin(2e-4));
    CHECK(three.disagree);
}

TEST_CASE("the dropper is shared by all rub-outs made with it", "[identity]") {
    // A dropper known to 20 % only keeps its 20 %, however many rub-outs are made with it.
    const DropCalibration poor{5, grams(0.18), {grams(0.088), {}}};
    std::vector<RubOut> many(400, nineteen_drops());
    const double dropper_share = reading_uncertainty(poor.scale, 2) / in_kilograms(poor.weighed);
    CHECK(oil_absorption_by_rub_out(many, poor, home).mean.relative_uncertainty() ==
          Approx(std::hypot(dropper_share, 0.05)).epsilon(2e-3));
}

TEST_CASE("weighed oil and counted drops agree", "[identity]") {
    const std::array<RubOut, 1> weighed{RubOut{grams(1.00), 0.0, grams(19 * 0.0362), pocket_scale}};
    const auto a = oil_absorption_by_rub_out(weighed, home).mean, b = by_drops(nineteen_drops()).mean;
    CHECK(a.value().value() == Approx(b.value().value()).epsilon(1e-12));
    CHECK(a.relative_uncertainty() == Approx(0.1076).margin(1e-4)); // .1074, and .00408 and .0059 of the scale
    // Mean of unlike replicates lies between them, as the geometric mean.
    const std::array<RubOut, 2> two{RubOut{grams(1), 16, {}, pocket_scale},
                                    RubOut{grams(1), 25, {}, pocket_scale}};
    const auto both = oil_absorption_by_rub_out(two, dropper, home);
    CHECK(both.mean.value().value() == Approx(20 * 0.0362).epsilon(1e-12));
    REQUIRE(both.each.size() == 2);
    CHECK(both.each[1].value() == Approx(25 * 0.0362).epsilon(1e-12));
}

TEST_CASE("a reading is believed as far as it deserves", "[reference]") {
    // By hand, precisions add: prior 65 x/ 1.35 (sd .3001), reading 115 of sd .1074: weight .8866 on the
    // reading: ln m = ln 65 + .8866 ln(115/65) = 4.6803, 107.8; sd .1011.
    const auto prior = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), 1.35, {});
    const auto read = [](double oa, double sd) {
        return Estimate<OilAbsorption>::lognormal(grams_per_100_grams(oa), std::exp(sd), {Origin::measured, "", false});
    };
    const auto high = believed_oil_absorption(prior, read(115, 0.10735), home);
    CHECK(in_grams_per_100_grams(high.value()) == Approx(107.79).margin(0.02));
    CHECK(high.relative_uncertainty() == Approx(0.10108).margin(2e-5));
    CHECK(high.provenance().origin == Origin::measured);
    // Low readings are drawn up, high ones down, one at the expectation stays.
    CHECK(believed_oil_absorption(prior, read(40, 0.1), home).value() > grams_per_100_grams(40));
    CHECK(high.value() < grams_per_100_grams(115));
    CHECK(believed_oil_absorption(prior, read(65, 0.1), home).value().value() == Approx(0.65).epsilon(1e-12));
    // However finely it is written down, it is no surer than hand and oil.
    CHECK(believed_oil_absorption(prior, read(65, 0.0), home).relative_uncertainty() ==
          Approx(1.0 / std::sqrt(1 / (0.05 * 0.05) + 1 / (std::log(1.35) * std::log(1.35)))).epsilon(1e-9));
    // No expectation to weigh it with.
    const auto exact = Estimate<OilAbsorption>::exact(grams_per_100_grams(65), {});
    CHECK(believed_oil_absorption(exact, read(115, 0.1), home).value().value() == Approx(1.15).epsilon(1e-12));
}

TEST_CASE("pyknometer", "[reference]") {
    // docs/theory.md, by hand: 52.37, 3.02 and 53.79 g, liquid 0.99705: 1.88193 g/cm3.
    const auto rho = density_by_pyknometer(bottle(pocket_scale));
    CHECK(in_grams_per_cubic_centimetre(rho.value()) == Approx(1.88193).epsilon(1e-5));
    // 0.1 mL of air: 5.9 % too low.
    CHECK(trapped_air_bias(bottle(pocket_scale), millilitres(0.1)) == Approx(-0.0587).margin(5e-4));
    CHECK(air_dominates(bottle(pocket_scale)));
    // Published worked figures 0.018 and 0.175 g/cm3 take one whole step as the standard uncertainty
    // of a reading; a repeatability of one step, rounding apart, says the same to 5 %.
    const Instrument<Mass> shaky{grams(0.01), grams(0.01)}, shaky_kitchen{grams(0.1), grams(0.1)};
    CHECK(density_by_pyknometer(bottle(shaky)).standard_uncertainty().value() == Approx(18).epsilon(0.05));
    CHECK(density_by_pyknometer(bottle(shaky_kitchen)).standard_uncertainty().value() == Approx(175).epsilon(0.05));
    CHECK_FALSE(air_dominates(bottle(shaky_kitchen)));
    // The rounding alone, by hand: 0.00289 g * 1.7529 (g/cm3)/g.
    CHECK(rho.standard_uncertainty().value() == Approx(5.06).margin(0.01));
}

TEST_CASE("pyknometer uncertainty against central differences", "[identity]") {
    const auto t = bottle(pocket_scale);
    const double u = reading_uncertainty(t.scale), h = 1e-7;
    double sum = 0.0;
    for (int i = 0; i < 3; ++i) {
        auto up = t, down = t;
        Mass* const a[] = {&up.full_of_liquid, &up.pigment, &up.pigment_and_liquid};
        Mass* const b[] = {&down.full_of_liquid, &down.pigment, &down.pigment_and_liquid};
        *a[i] += kilograms(h);
        *b[i] -= kilograms(h);
        const double slope =
            (density_by_pyknometer(up).value().value() - density_by_pyknometer(down).value().value()) / (2 * h);
        sum += slope * slope * u * u;
    }
    CHECK(density_by_pyknometer(t).standard_uncertainty().value() == Approx(std::sqrt(sum)).epsilon(1e-6));
}

TEST_CASE("syringe displacement", "[reference]") {
    // docs/theory.md: 3.02 g raise the water from 6.0 to 7.6 mL in a 10 mL syringe with 0.2 mL marks:
    // 1.89 +- 0.10 g/cm3, printed digits.
    const Displacement test{
        grams(3.02), pocket_scale, millilitres(6.0), millilitres(7.6), {millilitres(0.2), {}}};
    const auto rho = density_by_displacement(test);
    CHECK(in_grams_per_cubic_centimetre(rho.value()) == Approx(1.89).margin(0.005));
    CHECK(in_grams_per_cubic_centimetre(rho.standard_uncertainty()) == Approx(0.10).margin(0.005));
}

TEST_CASE("jar fill", "[reference]") {
    // docs/theory.md: inner diameter 4.2 cm, fill 5.0 cm: 69.27 mL; at 0.35 g/mL 24.2 g, x/ 1.35.
    const JarFill jar{millimetres(42), millimetres(50), {millimetres(1), {}}};
    CHECK(in_millilitres(fill_volume(jar).value()) == Approx(69.27).margin(5e-3));
    const auto tapped = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.35), {});
    CHECK(in_grams(mass_from_fill(jar, tapped).value()) == Approx(24.2).margin(0.05));
    CHECK(mass_from_fill(jar, tapped).relative_uncertainty() == Approx(std::log(1.35)).epsilon(1e-12));
    const auto back = tapped_density(jar, grams(24.2445), pocket_scale);
    CHECK(in_grams_per_cubic_centimetre(back.value()) == Approx(0.35).epsilon(1e-4));
    // 2 * 0.289/42 and 0.289/50 in quadrature.
    CHECK(back.relative_uncertainty() == Approx(0.0149).margin(1e-4));
}

TEST_CASE("medium solids by drying", "[reference]") {
    // By hand: 10.00 g of the gum medium of docs/theory.md leave 3.69 g: 36.9 %.
    const DryingTest test{grams(20.00), grams(30.00), grams(23.69), pocket_scale};
    const auto nv = non_volatile_by_drying(test);
    CHECK(nv.value().value() == Approx(0.369).epsilon(1e-9));
    // .00289/10 * sqrt(1 + .369^2 + .631^2) = .00036
    CHECK(nv.standard_uncertainty().value() == Approx(0.000358).margin(1e-6));
    CHECK(moisture_by_drying(test).value().value() == Approx(0.631).epsilon(1e-9));
    CHECK(constant_mass(grams(3.70), grams(3.69), Share::of(0.005)));
    CHECK_FALSE(constant_mass(grams(3.80), grams(3.69), Share::of(0.005)));
}

TEST_CASE("bench readings that have no meaning are refused", "[errors]") {
    CHECK_THROWS_AS(drop_mass({0, grams(1), pocket_scale}), DomainError);
    CHECK_THROWS_AS(drop_mass({50, grams(0), pocket_scale}), DomainError);
    CHECK_THROWS_AS(reading_uncertainty(Instrument<Mass>{}), DomainError);
    CHECK_THROWS_AS(reading_uncertainty(Instrument<Mass>{grams(1), grams(-1)}), DomainError);
    CHECK_THROWS_AS(by_drops({grams(0), 19, {}, pocket_scale}), DomainError);
    CHECK_THROWS_AS(by_drops({grams(1), 0, {}, pocket_scale}), DomainError);
    CHECK_THROWS_AS(by_weight({grams(1), 0, {}, pocket_scale}), DomainError);
    CHECK_THROWS_AS(by_drops({grams(1), 19, grams(0.7), pocket_scale}), DomainError);
    CHECK_THROWS_AS(by_weight({grams(1), 19, grams(0.7), pocket_scale}), DomainError);
    // 300 drops on a gram are 1086 g/100g: not an oil absorption.
    CHECK_THROWS_WITH(by_drops({grams(1), 300, {}, pocket_scale}),
                      Catch::Contains("2 to 400"));
    CHECK_THROWS_AS(by_drops({grams(10), 1, {}, pocket_scale}), DomainError);
    CHECK_THROWS_AS(oil_absorption_by_rub_out(std::span<const RubOut>{}, dropper, home), DomainError);
    // By hand: 1 g and 0.7 g on a scale of 1 g steps: 2 x 1/12 x (1 + 1/0.49) = 0.51; of 2 g steps 2.03, too much.
    CHECK_NOTHROW(by_weight({grams(1), 0, grams(0.7), {grams(1), {}}}));
    CHECK_THROWS_WITH(by_weight({grams(1), 0, grams(0.7), {grams(2), {}}}), Catch::Contains("factor above 2.7"));
    const RubOut one = nineteen_drops();
    for (const RubOutPrior& bad : {RubOutPrior{0.0, 4.0, 0.05}, RubOutPrior{0.095, 0.0, 0.05},
                                   RubOutPrior{0.095, 4.0, -0.05}})
        CHECK_THROWS_AS(oil_absorption_by_rub_out({&one, 1}, dropper, bad), DomainError);
    auto heavy = bottle(pocket_scale);
    heavy.pigment_and_liquid = grams(60);
    CHECK_THROWS_AS(density_by_pyknometer(heavy), DomainError);
    heavy.pigment = grams(0);
    CHECK_THROWS_AS(density_by_pyknometer(heavy), DomainError);
    CHECK_THROWS_AS(trapped_air_bias(bottle(pocket_scale), millilitres(-1)), DomainError);
    CHECK_THROWS_AS(density_by_displacement(
                        {grams(3), pocket_scale, millilitres(7), millilitres(6), {millilitres(.2), {}}}),
                    DomainError);
    CHECK_THROWS_AS(fill_volume({millimetres(0), millimetres(5), {millimetres(1), {}}}), DomainError);
    CHECK_THROWS_AS(non_volatile_by_drying({grams(20), grams(30), grams(31), pocket_scale}), DomainError);
    CHECK_THROWS_AS(non_volatile_by_drying({grams(20), grams(20), grams(20), pocket_scale}), DomainError);
}

TEST_CASE("each reading that cannot be names itself", "[errors]") {
    const Displacement syringe{grams(3), pocket_scale, millilitres(6), millilitres(7.6), {millilitres(.2), {}}};
    Displacement empty = syringe;
    empty.pigment = grams(0);
    CHECK_THROWS_WITH(density_by_displacement(empty), Catch::Contains("pigment in the syringe"));
    empty = syringe;
    empty.after = empty.before;
    CHECK_THROWS_WITH(density_by_displacement(empty), Catch::Contains("rise of the liquid"));
    auto no_liquid = bottle(pocket_scale);
    no_liquid.liquid = grams_per_cubic_centimetre(0);
    CHECK_THROWS_WITH(density_by_pyknometer(no_liquid), Catch::Contains("density of the pyknometer liquid"));
    auto sunk = bottle(pocket_scale); // weighs as much with the pigment as the pigment adds
    sunk.pigment_and_liquid = sunk.full_of_liquid + sunk.pigment;
    CHECK_THROWS_WITH(density_by_pyknometer(sunk), Catch::Contains("liquid displaced"));
    CHECK(trapped_air_bias(bottle(pocket_scale), millilitres(0)) == Approx(0.0).margin(1e-15));
    const JarFill jar{millimetres(42), millimetres(50), {millimetres(1), {}}};
    auto flat = jar;
    flat.height = millimetres(0);
    CHECK_THROWS_WITH(fill_volume(flat), Catch::Contains("height of the fill"));
    CHECK_THROWS_WITH(tapped_density(jar, grams(0), pocket_scale), Catch::Contains("powder weighed"));
    CHECK_THROWS_WITH(one_drop_of_oil_absorption(dropper, grams(0)), Catch::Contains("pigment in the rub-out"));
    // What is small is no fault: a few milligrams on a scale that shows them, a film of a millimetre.
    const Instrument<Mass> fine{grams(1e-5), {}};
    CHECK(in_grams_per_cubic_centimetre(
              density_by_displacement({grams(2e-3), fine, millilitres(0), millilitres(1e-3), {millilitres(1e-5), {}}})
                  .value()) == Approx(2.0));
    CHECK(in_millilitres(fill_volume({millimetres(0.4), millimetres(0.5), {millimetres(0.01), {}}}).value()) ==
          Approx(6.2832e-5).epsilon(1e-4)); // pi/4 x 0.4^2 x 0.5 mm3
    CHECK(in_grams_per_cubic_centimetre(tapped_density(jar, grams(5e-4), fine).value()) == Approx(7.218e-6).epsilon(1e-3));
    CHECK(in_grams(drop_mass({1, grams(5e-4), fine}).value()) == Approx(5e-4));
    CHECK(in_grams_per_100_grams(by_weight({grams(5e-4), 0.0, grams(4e-4), fine}).mean.value()) == Approx(80.0));
    CHECK(non_volatile_by_drying({grams(20), grams(20 + 5e-4), grams(20), fine}).value().value() ==
          Approx(0.0).margin(1e-12)); // all of it left
    CHECK(non_volatile_by_drying({grams(20), grams(30), grams(30), pocket_scale}).value().value() == Approx(1.0));
    CHECK_THROWS_AS(non_volatile_by_drying({grams(20), grams(30), grams(19.99), pocket_scale}), DomainError);
}

TEST_CASE("what a bench reading says of itself", "[unit]") {
    CHECK(bottle(pocket_scale).liquid.value() > 0);
    CHECK(density_by_pyknometer(bottle(pocket_scale)).provenance().origin == Origin::measured);
    CHECK_FALSE(density_by_pyknometer(bottle(pocket_scale)).provenance().library_default);
    const Displacement syringe{grams(3.02), pocket_scale, millilitres(6.0), millilitres(7.6), {millilitres(0.2), {}}};
    // By hand: .2/sqrt 12 x sqrt 2/1.6 = .0510 of the rise; .00408/3.02 of the mass is lost beside it.
    CHECK(density_by_displacement(syringe).relative_uncertainty() == Approx(0.05105).margin(5e-5));
    CHECK(density_by_displacement(syringe).provenance().origin == Origin::measured);
    // A film of the jar known to 1 %, a tapped density to 40 %: the larger of their product and a factor of 1.35.
    const JarFill jar{millimetres(42), millimetres(50), {millimetres(1), {}}};
    const auto poor = Estimate<MassDensity>::lognormal(grams_per_cubic_centimetre(0.35), 1.5, {});
    CHECK(mass_from_fill(jar, poor).relative_uncertainty() ==
          Approx(std::hypot(std::log(1.5), 0.0149)).margin(1e-4));
    // Half a share in a hundred is a dry weight: at 0.1 % by default, said otherwise, and on the edge.
    CHECK(constant_mass(grams(100), grams(99), Share::of(0.0100001)));
    CHECK_FALSE(constant_mass(grams(100), grams(99), Share::of(0.0099)));
    CHECK(constant_mass(grams(99), grams(100), Share::of(0.0100001)));
}

TEST_CASE("a refusal tells the figure in the maker's own unit", "[errors]") {
    const auto figure = [](auto&& question) {
        try {
            question();
        } catch (const DomainError& error) { // a difference of two masses may lack its last digit
            std::size_t end = 0;
            const double x = std::stod(error.value(), &end);
            return std::pair{std::round(1e9 * x) / 1e9, error.value().substr(end)};
        }
        return std::pair{0.0, std::string("taken")};
    };
    using Told = std::pair<double, std::string>;
    const Displacement down{grams(3), pocket_scale, millilitres(7), millilitres(6), {millilitres(.2), {}}};
    CHECK(figure([&] { density_by_displacement(down); }) == Told{-1, " mL"});
    auto negative = down;
    negative.pigment = grams(-2);
    CHECK(figure([&] { density_by_displacement(negative); }) == Told{-2, " g"});
    auto sunk = bottle(pocket_scale);
    sunk.pigment_and_liquid = grams(52.37 + 3.02 + 2.0);
    CHECK(figure([&] { density_by_pyknometer(sunk); }) == Told{-2, " g"});
    CHECK(figure([&] { trapped_air_bias(bottle(pocket_scale), millilitres(-1)); }) == Told{-1, " mL"});
    CHECK(figure([&] { fill_volume({millimetres(-4), millimetres(5), {millimetres(1), {}}}); }) == Told{-4, " mm"});
    CHECK(figure([&] { fill_volume({millimetres(4), millimetres(-5), {millimetres(1), {}}}); }) == Told{-5, " mm"});
    CHECK(figure([&] { non_volatile_by_drying({grams(20), grams(19), grams(18), pocket_scale}); }) == Told{-1, " g"});
    CHECK(figure([&] { non_volatile_by_drying({grams(20), grams(30), grams(32), pocket_scale}); }) == Told{12, " g"});
    CHECK(figure([&] { by_drops({grams(1), -3, {}, pocket_scale}); }) == Told{-3, ""});
    // On the very limit: nothing at all in the bottle, the dish, the jar.
    auto empty = bottle(pocket_scale);
    empty.pigment = grams(0);
    CHECK_THROWS_WITH(density_by_pyknometer(empty), Catch::Contains("pigment in the pyknometer"));
    CHECK_THROWS_WITH(fill_volume({millimetres(0), millimetres(5), {millimetres(1), {}}}), Catch::Contains("inner diameter"));
    CHECK_THROWS_WITH(non_volatile_by_drying({grams(20), grams(20), grams(20), pocket_scale}), Catch::Contains("wet sample"));
    // And a little: half a gram of it displaced by half a gram of powder.
    Pyknometer little{grams(10), grams(0.9), grams(10.4), grams_per_cubic_centimetre(1.0), {grams(1e-4), {}}};
    CHECK(in_grams_per_cubic_centimetre(density_by_pyknometer(little).value()) == Approx(1.8));
    little.pigment = grams(5e-4);
    little.pigment_and_liquid = grams(10 + 2.5e-4);
    CHECK(in_grams_per_cubic_centimetre(density_by_pyknometer(little).value()) == Approx(2.0).epsilon(1e-6));
}

TEST_CASE("scales and droppers enter a rub-out as they should", "[reference]") {
    // By hand. One weighing is two readings of step/sqrt 12; here 0.5 g steps on 4 g: .2041/4 = .0510 of the mass.
    const Instrument<Mass> coarse{grams(0.5), {}};
    const double u = std::sqrt(2.0 / 12.0) * 0.5 / 4.0;
    const DropCalibration exact{1000000, grams(36200), {grams(1e-6), {}}};
    const auto drops = oil_absorption_by_rub_out(std::vector<RubOut>{{grams(4), 80, {}, coarse}}, exact, home);
    CHECK(drops.repeat_spread == Approx(std::sqrt(0.095 * 0.095 + u * u + 1.0 / (12.0 * 6400))).epsilon(1e-6));
    const auto weighed = oil_absorption_by_rub_out(std::vector<RubOut>{{grams(4), 0, grams(2), coarse}}, home);
    CHECK(weighed.repeat_spread == Approx(std::sqrt(0.095 * 0.095 + u * u + 4 * u * u)).epsilon(1e-6));
    // A dropper weighed as 1 g on that scale is known to .2041, whatever its number of drops.
    const DropCalibration poor{27, grams(1), coarse};
    CHECK(in_grams(drop_mass(poor).standard_uncertainty()) == Approx(0.5 * std::sqrt(2.0 / 12.0) / 27).epsilon(1e-9));
    const auto by_poor = oil_absorption_by_rub_out(std::vector<RubOut>{{grams(100), 1620, {}, {grams(1e-6), {}}}}, poor, home);
    CHECK(by_poor.mean.relative_uncertainty() ==
          Approx(std::sqrt(0.095 * 0.095 + 0.05 * 0.05 + 0.25 * 2 / 12 + 1.0 / (12.0 * 1620.0 * 1620.0))).epsilon(1e-6));
    // A syringe of coarse marks and a scale as coarse, each with two readings.
    const Displacement test{grams(4), coarse, millilitres(0), millilitres(2), {millilitres(0.5), {}}};
    CHECK(density_by_displacement(test).relative_uncertainty() == Approx(std::sqrt(u * u + 4 * u * u)).epsilon(1e-9));
    const JarFill jar{millimetres(42), millimetres(50), {millimetres(1e-6), {}}};
    CHECK(tapped_density(jar, grams(4), coarse).relative_uncertainty() == Approx(u).epsilon(1e-6));
    // A hand of no spread of its own is allowed; an expectation known to a twentieth of a percent is one.
    CHECK_NOTHROW(oil_absorption_by_rub_out(std::vector<RubOut>{{grams(4), 0, grams(2), coarse}}, {0.095, 4.0, 0.0}));
    CHECK_THROWS_AS(oil_absorption_by_rub_out(std::vector<RubOut>{{grams(4), 0, grams(2), coarse}}, {0.095, 4.0, HUGE_VAL}),
                    DomainError);
    const auto sure = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), 1.0005, {});
    const auto read = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(115), 1.1, {});
    CHECK(in_grams_per_100_grams(believed_oil_absorption(sure, read, home).value()) == Approx(65).epsilon(1e-3));
    CHECK(one_rub_out_spread(home) == Approx(std::hypot(0.095, 0.05)));
    // By hand: .05 mL of air in the solid's 1.6047 mL is 3.02 %; the reading is as doubtful at .1124 g steps.
    for (const auto& [step, dominates] : {std::pair{0.110, true}, std::pair{0.115, false}}) {
        const Pyknometer t = bottle({grams(step), {}});
        const double bias = -trapped_air_bias(t, millilitres(0.05));
        CHECK((bias > density_by_pyknometer(t).relative_uncertainty()) == dominates);
        CHECK(air_dominates(t) == dominates);
    }
    CHECK(constant_mass(grams(1000), grams(995.001), Share::of(0.005)));
    CHECK_FALSE(constant_mass(grams(1000), grams(994.9), Share::of(0.005)));
}
