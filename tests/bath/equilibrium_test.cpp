#include "lakebound/bath/equilibrium.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

#include "lakebound/quantity/error.hpp"
#include "salts.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

Ions bath_of(double alum, double soda) {
    Ions ions = ions_of(potash_alum(), grams(alum));
    ions += ions_of(soda_ash(), grams(soda));
    return ions;
}
constexpr double book_soda = 16.757; // for 50 g of alum
const std::vector<CarbonDioxide> ways{open_to_air(), stirred(), fizzing(), closed_jar()};

} // namespace

TEST_CASE("waters whose pH is known", "[reference]") {
    const auto ph = [](const Ions& ions, const CarbonDioxide& gas) {
        return equilibrium(ions, litres(1), LakeSolid::hydroxide, gas).ph.value();
    };
    // Pure water in air: textbooks 5.6 (from memory); 0.1 mol/L bicarbonate 8.3, carbonate 11.6 (both from memory, for
    // no activities; ours has them).
    CHECK(ph(Ions{}, open_to_air()) == Approx(5.6).margin(.05));
    CHECK(ph(Ions{}, closed_jar()) == Approx(7.0).margin(.001));
    Ions bicarbonate, carbonate;
    bicarbonate[Ion::sodium] = bicarbonate[Ion::bicarbonate] = .1;
    carbonate[Ion::sodium] = .2;
    carbonate[Ion::carbonate] = .1;
    CHECK(ph(bicarbonate, closed_jar()) == Approx(8.3).margin(.25));
    CHECK(ph(carbonate, closed_jar()) == Approx(11.6).margin(.25));
    // Between the two dissociations of carbonic acid, 6.35 and 10.33 (phreeqc-dat), bicarbonate at no strength lies
    // half way: 8.34.
    Ions thin;
    thin[Ion::sodium] = thin[Ion::bicarbonate] = .001;
    CHECK(ph(thin, closed_jar()) == Approx(8.34 - .05).margin(.05));
}

TEST_CASE("the table of a bath of 50 g of alum", "[reference]") {
    // Domain brief B.3, computed there by script with the same constants; to 0.03 of its two decimals (another
    // sum of small species).
    struct Row {
        double f, air, air_laid, stirred, fizz, closed;
    };
    const std::vector<Row> rows{{.2, 4.72, .195, 4.72, 4.71, 4.71}, {.4, 4.78, .396, 4.78, 4.77, 4.77},
                                {.6, 4.85, .597, 4.85, 4.85, 4.85}, {.8, 4.97, .798, 4.97, 4.96, 4.96},
                                {.9, 5.08, .899, 5.08, 5.06, 5.04}, {1.00, 6.21, .9998, 5.71, 5.32, 5.20},
                                {1.05, 8.93, .979, 7.21, 5.71, 5.37}, {1.10, 9.18, .963, 7.51, 5.99, 5.57},
                                {1.20, 9.42, .936, 7.81, 6.29, 5.90}, {1.49, 9.69, .880, 8.18, 6.68, 6.48}};
    for (const auto& row : rows) {
        INFO("f " << row.f);
        const Ions ions = bath_of(50, book_soda * row.f);
        const auto at = [&](const CarbonDioxide& gas) { return equilibrium(ions, litres(1.5), LakeSolid::hydroxide, gas); };
        CHECK(at(open_to_air()).ph.value() == Approx(row.air).margin(.03));
        CHECK(at(open_to_air()).laid.value() == Approx(row.air_laid).margin(.003));
        CHECK(at(stirred()).ph.value() == Approx(row.stirred).margin(.03));
        CHECK(at(fizzing()).ph.value() == Approx(row.fizz).margin(.03));
        CHECK(at(closed_jar()).ph.value() == Approx(row.closed).margin(.04));
    }
    // With the basic sulphate as the solid: f .83 pH 4.8, 99.6 % down; f .86 pH 6.95 stirred, 8.7 in air.
    const auto basic = [&](double f, const CarbonDioxide& gas) {
        return equilibrium(bath_of(50, book_soda * f), litres(1.5), LakeSolid::basic_sulphate, gas);
    };
    CHECK(basic(.83, stirred()).ph.value() == Approx(4.8).margin(.1));
    CHECK(basic(.83, stirred()).laid.value() == Approx(.996).margin(.002));
    CHECK(basic(.86, stirred()).ph.value() == Approx(6.95).margin(.1));
    CHECK(basic(.86, open_to_air()).ph.value() == Approx(8.7).margin(.15));
}

TEST_CASE("solubility of amorphous hydroxide", "[reference]") {
    // Domain brief B.3, mg of aluminium per litre, dilute: 98, 5.7, .75, .22, .18, .39, 1.1, 3.5, 35, 352; how dilute is
    // not said, here 0.001 mol/L, which moves the first row by 30 %.
    const std::vector<std::pair<double, double>> rows{{4.5, 98}, {5.0, 5.7}, {5.5, .75}, {6.0, .22}, {6.5, .18},
                                                      {7.0, .39}, {7.5, 1.1}, {8.0, 3.5}, {9.0, 35}, {10.0, 352}};
    double least = 1e9, at = 0;
    for (const auto& [ph, mg] : rows) {
        const double found = in_moles_per_litre(aluminium_dissolved(Ph::of(ph), 0, .001, LakeSolid::hydroxide)) * 26982;
        INFO(ph);
        CHECK(found == Approx(mg).epsilon(.07));
        if (found < least) { least = found; at = ph; }
    }
    // Published: least soluble at pH 6.0 for alum at 20 degC (pernitsky-edzwald-2003); the model's 6.5 is half a unit off.
    CHECK(at == Approx(6.0).margin(.55));
    CHECK_THROWS_AS(aluminium_dissolved(Ph::of(1), 0, 0, LakeSolid::hydroxide), DomainError);
    CHECK_THROWS_AS(aluminium_dissolved(Ph::of(7), -1, 0, LakeSolid::hydroxide), DomainError);
    CHECK_THROWS_AS(aluminium_dissolved(Ph::of(12.1), 0, 0, LakeSolid::hydroxide), DomainError);
    CHECK_THROWS_AS(aluminium_dissolved(Ph::of(7), 0, -.001, LakeSolid::hydroxide), DomainError);
    CHECK_NOTHROW(aluminium_dissolved(Ph::of(12), 0, 0, LakeSolid::hydroxide));
    CHECK_NOTHROW(aluminium_dissolved(Ph::of(2), 0, 0, LakeSolid::hydroxide));
    CHECK(in_moles_per_litre(aluminium_dissolved(Ph::of(5), .1, .1, LakeSolid::basic_sulphate)) > 0.0);
    CHECK_THROWS_AS(aluminium_dissolved(Ph::of(7), 0, 0, LakeSolid::basic_sulphate), DomainError);
}

TEST_CASE("baths of every ion as a general solver finds them", "[reference]") {
    // SciPy's root on all balances at once (tests/reference/bath_check.py, which holds the file against it anew).
    struct Case {
        std::array<double, 7> given; // mol
        LakeSolid solid;
        CarbonDioxide gas;
        std::array<double, 4> found; // pH, share laid down, ionic strength, mol of carbon held
    };
    const std::vector<Case> cases{
#include "whole_baths.inc"
    };
    constexpr std::array order{Ion::aluminium, Ion::sulphate, Ion::sodium, Ion::potassium, Ion::ammonium, Ion::chloride, Ion::carbonate};
    REQUIRE(cases.size() > 100);
    for (const Case& each : cases) {
        Ions ions;
        for (std::size_t i = 0; i < order.size(); ++i)
            ions[order[i]] = each.given[i];
        const auto rest = equilibrium(ions, litres(1), each.solid, each.gas);
        CAPTURE(each.given[0], each.given[1], each.given[2], each.given[3], each.given[4], each.given[5], each.given[6]);
        CHECK(rest.ph.value() == Approx(each.found[0]).margin(2e-9));
        CHECK(rest.laid.value() == Approx(each.found[1]).margin(2e-9));
        CHECK(rest.ionic_strength == Approx(each.found[2]).epsilon(2e-9));
        CHECK(in_moles(rest.carbon_held) == Approx(each.found[3]).epsilon(2e-9).margin(1e-15));
    }
}

TEST_CASE("where the model fails: strong alum before it clouds", "[reference]") {
    // Published for 0.2 mol/L alum: pH 3.3; the model says 4.0 and is not believed (titration_test.cpp).
    const auto alum = equilibrium(bath_of(.2 * 474.372, 0), litres(1), LakeSolid::hydroxide, closed_jar());
    CHECK_FALSE(alum.cloudy());
    CHECK(alum.ph.value() == Approx(4.04).margin(.03));
}

TEST_CASE("charge, aluminium and carbon balance in every bath", "[identity]") {
    for (const LakeSolid solid : {LakeSolid::hydroxide, LakeSolid::basic_sulphate})
        for (const auto& gas : ways)
            for (const double alum : {0.0, .5, 50.0, 200.0})
                for (const double soda : {0.0, .01, 14.0, 17.0, 40.0}) {
                    INFO(alum << " " << soda);
                    const Ions ions = bath_of(alum, soda);
                    const auto rest = equilibrium(ions, litres(1.5), solid, gas);
                    CHECK(std::abs(rest.charge_left) < 1e-10);
                    CHECK(in_moles(rest.aluminium_laid + rest.aluminium_left) ==
                          Approx(ions[Ion::aluminium]).epsilon(1e-12).margin(1e-15));
                    CHECK(in_moles(rest.carbon_held + rest.carbon_gone) ==
                          Approx(ions[Ion::carbonate]).epsilon(1e-12).margin(1e-15));
                    if (gas.way != CarbonDioxide::Way::balanced) CHECK(in_moles(rest.carbon_gone) > -1e-12);
                    CHECK(rest.ph.value() > 2.0);
                    CHECK(rest.ph.value() < 12.5);
                }
}

TEST_CASE("a closed and an open bath agree when no gas can leave", "[identity]") {
    // Soda enough that the pressure stays below what a stirred bath holds.
    Ions ions;
    ions[Ion::sodium] = .2;
    ions[Ion::carbonate] = .1;
    for (const double alum : {0.0, 3.0}) {
        Ions bath = ions;
        bath += ions_of(potash_alum(), grams(alum));
        const auto closed = equilibrium(bath, litres(1), LakeSolid::hydroxide, closed_jar());
        REQUIRE(in_standard_atmospheres(closed.carbon_dioxide) < .03);
        const auto open = equilibrium(bath, litres(1), LakeSolid::hydroxide, stirred());
        CHECK(open.ph.value() == Approx(closed.ph.value()).epsilon(1e-9));
        CHECK(in_moles(open.carbon_gone) == Approx(0.0).margin(1e-12));
    }
}

TEST_CASE("doubling bath and water leaves the pH", "[identity]") {
    for (const auto& gas : ways) {
        const auto one = equilibrium(bath_of(50, 15), litres(1.5), LakeSolid::hydroxide, gas);
        const auto two = equilibrium(bath_of(100, 30), litres(3), LakeSolid::hydroxide, gas);
        CHECK(two.ph.value() == Approx(one.ph.value()).epsilon(1e-9));
        CHECK(in_moles(two.aluminium_laid) == Approx(2 * in_moles(one.aluminium_laid)).epsilon(1e-9));
    }
}

TEST_CASE("more soda never lowers the pH, more gas never raises it", "[identity]") {
    for (const LakeSolid solid : {LakeSolid::hydroxide, LakeSolid::basic_sulphate}) {
        double last = 0.0;
        for (double soda = 1; soda < 40; soda += 1.3) {
            const auto rest = equilibrium(bath_of(50, soda), litres(1.5), solid, stirred());
            CHECK(rest.ph.value() > last);
            last = rest.ph.value();
            CHECK(equilibrium(bath_of(50, soda), litres(1.5), solid, fizzing()).ph.value() <= rest.ph.value() + 1e-9);
        }
    }
}

TEST_CASE("ammonia takes up base above pH 8", "[unit]") {
    Ions with = ions_of(ammonium_alum(), grams(50)), without = ions_of(potash_alum(), grams(50 * 474.372 / 453.313));
    with += ions_of(soda_ash(), grams(25));
    without += ions_of(soda_ash(), grams(25));
    CHECK(equilibrium(with, litres(1.5), LakeSolid::hydroxide, open_to_air()).ph.value() <
          equilibrium(without, litres(1.5), LakeSolid::hydroxide, open_to_air()).ph.value() - .1);
}

TEST_CASE("baths the model does not know are refused", "[errors]") {
    Ions lime = ions_of(slaked_lime(), grams(1)), acetate = ions_of(basic_aluminium_acetate(), grams(1));
    CHECK_THROWS_AS(equilibrium(lime, litres(1), LakeSolid::hydroxide, stirred()), DomainError);
    CHECK_THROWS_AS(equilibrium(acetate, litres(1), LakeSolid::hydroxide, stirred()), DomainError);
    CHECK_THROWS_AS(equilibrium(Ions{}, litres(0), LakeSolid::hydroxide, stirred()), DomainError);
    CHECK_THROWS_AS(equilibrium(bath_of(700, 250), litres(1), LakeSolid::hydroxide, stirred()), DomainError);
}

TEST_CASE("where the rest is looked for first does not change it", "[identity]") {
    for (const LakeSolid solid : {LakeSolid::hydroxide, LakeSolid::basic_sulphate})
        for (const auto& gas : ways) {
            std::optional<RestStart> last;
            for (const double f : {0.0, .05, .3, .8, .83, .9, .99, 1.0, 1.002, 1.01, 1.2, 1.9, .4, 1.5, 0.0}) { // forth and back
                const Ions ions = bath_of(50, book_soda * f);
                const auto warm = equilibrium(ions, litres(1.5), solid, gas, last), cold = equilibrium(ions, litres(1.5), solid, gas);
                std::optional<RestStart> far = RestStart{-2.3, -20.0, 1.3};
                const auto lost = equilibrium(ions, litres(1.5), solid, gas, far);
                INFO(f);
                CHECK(warm.ph.value() == Approx(cold.ph.value()).margin(1e-7));
                CHECK(lost.ph.value() == Approx(cold.ph.value()).margin(1e-7));
                CHECK(warm.laid.value() == Approx(cold.laid.value()).margin(1e-7));
                CHECK(warm.ionic_strength == Approx(cold.ionic_strength).epsilon(1e-7));
                CHECK(std::abs(warm.charge_left) < 1e-11);
            }
        }
}

TEST_CASE("how much gas stirring leaves matters past the stop, and hardly before it", "[unit]") {
    const auto ph = [](double soda, double times) {
        const CarbonDioxide left{CarbonDioxide::Way::vents, times * carbon_dioxide_when_stirred};
        return equilibrium(bath_of(50, soda), litres(1.5), LakeSolid::hydroxide, left).ph.value();
    };
    const double before = 15, past = 20; // g to 50 g of alum, of which the books' hydroxide takes 16.76
    REQUIRE(ph(before, 1) < 6);
    REQUIRE(ph(past, 1) > 7);
    for (const double times : {.5, 2.0}) {
        CHECK(std::abs(ph(past, times) - ph(past, 1)) == Approx(.3).margin(.03));
        CHECK(std::abs(ph(before, times) - ph(before, 1)) < .1);
    }
    CHECK(fizzing().pressure > stirred().pressure);
    CHECK(stirred().pressure > open_to_air().pressure);
}

TEST_CASE("a bath beyond the model is told what to look at", "[errors]") {
    const auto refusal = [](double lye) {
        Ions ions;
        ions[Ion::sodium] = ions[Ion::hydroxide] = lye;
        try {
            (void)equilibrium(ions, litres(1), LakeSolid::hydroxide, closed_jar());
        } catch (const DomainError& error) {
            return error.quantity() + ": " + error.value() + ", " + error.valid() + "; " + error.mend();
        }
        return std::string("taken");
    };
    const std::string look = "; is the amount of salt or alkali right, and its unit?";
    CHECK(refusal(1.0) == "taken");
    CHECK(refusal(1.45) == "pH that the bath comes to: 14.10, 0 to 14" + look);
    CHECK(refusal(1.6) == "ionic strength of the bath: 1.60 mol/L, below 1.5 mol/L" + look);
}
