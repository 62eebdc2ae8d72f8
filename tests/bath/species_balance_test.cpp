// What comes to rest, held against a table of its species written out from phreeqc-dat (and minteq-v4 for the basic
// sulphate): each by the law of mass action with the activities of Davies. The two ways of solving know nothing of it.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "bath/rest_newton.hpp"

using namespace lakebound;
using rest::Liquor;
using rest::Totals;

namespace {

/// log10 K of its formation from H+, the free cation or Al+++, SO4-- and dissolved CO2.
struct Species {
    const char* name;
    double log_k, charge;
    int hydrogen, sodium, potassium, ammonium, aluminium, sulphate, carbon;
};
constexpr Species table[] = {
    {"H+", 0, 1, 1, 0, 0, 0, 0, 0, 0},           {"OH-", -14.0, -1, -1, 0, 0, 0, 0, 0, 0},
    {"Na+", 0, 1, 0, 1, 0, 0, 0, 0, 0},          {"NaSO4-", .94, -1, 0, 1, 0, 0, 0, 1, 0},
    {"K+", 0, 1, 0, 0, 1, 0, 0, 0, 0},           {"KSO4-", 1.18, -1, 0, 0, 1, 0, 0, 1, 0},
    {"NH4+", 0, 1, 0, 0, 0, 1, 0, 0, 0},         {"NH3", -9.252, 0, -1, 0, 0, 1, 0, 0, 0},
    {"Al+++", 0, 3, 0, 0, 0, 0, 1, 0, 0},        {"AlOH++", -5.0, 2, -1, 0, 0, 0, 1, 0, 0},
    {"Al(OH)2+", -10.1, 1, -2, 0, 0, 0, 1, 0, 0}, {"Al(OH)3", -16.9, 0, -3, 0, 0, 0, 1, 0, 0},
    {"Al(OH)4-", -22.7, -1, -4, 0, 0, 0, 1, 0, 0}, {"AlSO4+", 3.5, 1, 0, 0, 0, 0, 1, 1, 0},
    {"Al(SO4)2-", 5.0, -1, 0, 0, 0, 0, 1, 2, 0}, {"SO4--", 0, -2, 0, 0, 0, 0, 0, 1, 0},
    {"HSO4-", 1.988, -1, 1, 0, 0, 0, 0, 1, 0},   {"CO2", 0, 0, 0, 0, 0, 0, 0, 0, 1},
    {"HCO3-", 10.329 - 16.681, -1, -1, 0, 0, 0, 0, 0, 1}, {"CO3--", -16.681, -2, -2, 0, 0, 0, 0, 0, 1},
};

double gamma(double charge, double ionic) {
    const double root = std::sqrt(ionic);
    return std::pow(10.0, -.509 * charge * charge * (root / (1 + root) - .3 * ionic));
}

struct Balance {
    double charge = 0, gross = 0, ionic = 0, aluminium = 0, carbon = 0, co2 = 0, laid = 0, sulphate_laid = 0;
};

/// All species at a pH and an ionic strength; the activities of the free ions by bisection, where nothing but the totals is known.
Balance balance_of(const Totals& total, LakeSolid solid, const CarbonDioxide& gas, double ph, double ionic) {
    const double h = std::pow(10.0, -ph);
    const auto per = [&](const Species& s, double sulphate) { // per activity of its metal or gas
        return std::pow(10.0, s.log_k) * std::pow(h, s.hydrogen) * std::pow(sulphate, s.sulphate) / gamma(s.charge, ionic);
    };
    const auto free_of = [&](auto count, double all, double sulphate) {
        double sum = 0;
        for (const Species& s : table)
            if (count(s) > 0) sum += per(s, sulphate);
        return all / sum;
    };
    struct Free {
        double sodium, potassium, ammonium, aluminium, carbon;
    };
    const auto free_at = [&](double sulphate) {
        Free f{free_of([](const Species& s) { return s.sodium; }, total.sodium, sulphate),
               free_of([](const Species& s) { return s.potassium; }, total.potassium, sulphate),
               free_of([](const Species& s) { return s.ammonium; }, total.ammonium, sulphate),
               free_of([](const Species& s) { return s.aluminium; }, total.aluminium, sulphate),
               free_of([](const Species& s) { return s.carbon; }, total.carbon, sulphate)};
        if (solid == LakeSolid::hydroxide) f.aluminium = std::min(f.aluminium, std::pow(10.0, 10.8) * h * h * h);
        else if (sulphate > 0) f.aluminium = std::min(f.aluminium, std::pow(std::pow(10.0, 22.7) * std::pow(h, 10) / sulphate, .25));
        const double held = std::pow(10.0, -1.468) * in_standard_atmospheres(gas.pressure);
        if (gas.way == CarbonDioxide::Way::balanced) f.carbon = held;
        if (gas.way == CarbonDioxide::Way::vents) f.carbon = std::min(f.carbon, held);
        return f;
    };
    const auto amount = [&](const Species& s, const Free& f, double sulphate) {
        double c = per(s, sulphate);
        for (const auto& [count, free] : {std::pair(s.sodium, f.sodium), std::pair(s.potassium, f.potassium), std::pair(s.ammonium, f.ammonium),
                                          std::pair(s.aluminium, f.aluminium), std::pair(s.carbon, f.carbon)})
            if (count > 0) c *= free;
        return c;
    };
    const auto laid_at = [&](const Free& f, double sulphate) {
        double dissolved = 0;
        for (const Species& s : table) dissolved += s.aluminium * amount(s, f, sulphate);
        return std::max(0.0, total.aluminium - dissolved);
    };
    const auto quarter = [&](double laid) { return solid == LakeSolid::basic_sulphate ? laid / 4 : 0.0; };
    double low = 0, high = total.sulphate;
    for (int i = 0; i < 200; ++i) {
        const double middle = (low + high) / 2;
        const Free f = free_at(middle);
        double sum = quarter(laid_at(f, middle));
        for (const Species& s : table) sum += s.sulphate * amount(s, f, middle);
        (sum < total.sulphate ? low : high) = middle;
    }
    const double sulphate = (low + high) / 2;
    const Free f = free_at(sulphate);
    Balance b;
    b.charge = -total.chloride, b.gross = total.chloride, b.ionic = total.chloride / 2;
    for (const Species& s : table) {
        const double c = amount(s, f, sulphate);
        b.charge += s.charge * c;
        b.gross += std::abs(s.charge) * c;
        b.ionic += s.charge * s.charge * c / 2;
        b.aluminium += s.aluminium * c;
        b.carbon += s.carbon * c;
    }
    b.co2 = f.carbon;
    b.laid = laid_at(f, sulphate);
    b.sulphate_laid = quarter(b.laid);
    return b;
}

void check_balance(const Totals& total, LakeSolid solid, const CarbonDioxide& gas, const Liquor& found) {
    CAPTURE(found.ph, found.ionic_strength);
    const Balance b = balance_of(total, solid, gas, found.ph, found.ionic_strength);
    CHECK(std::abs(b.charge) < 3e-9 * b.gross);
    CHECK(found.ionic_strength == Approx(b.ionic).epsilon(1e-7));
    CHECK(found.al_dissolved == Approx(b.aluminium).epsilon(1e-8).margin(1e-15));
    CHECK(found.solid_al == Approx(b.laid).epsilon(1e-8).margin(1e-12));
    CHECK(found.solid_sulphate == Approx(b.sulphate_laid).epsilon(1e-8).margin(1e-12));
    CHECK(found.carbon == Approx(b.carbon).epsilon(1e-8).margin(1e-15));
    CHECK(found.co2_activity == Approx(b.co2).epsilon(1e-8).margin(1e-15));
    CHECK(std::abs(found.charge) < 1e-10);
}

struct Mix {
    const char* what;
    Totals total;
};
// Sodium, potassium, ammonium, aluminium, sulphate, chloride, carbon; mol/L. Each of the species is there to a hundredth in
// one of them.
const std::vector<Mix> mixes{
    {"alum alone", {0, .07, 0, .07, .14, 0, 0}},
    {"alum and little soda", {.05, .07, 0, .07, .14, 0, .025}},
    {"alum and soda, laid", {.21, .07, 0, .07, .14, 0, .105}},
    {"alum and too much soda", {.4, .07, 0, .07, .14, 0, .2}},
    {"ammonium alum and soda", {.25, 0, .07, .07, .14, 0, .125}},
    {"aluminium chloride and soda", {.2, 0, 0, .07, 0, .21, .1}},
    {"aluminium chloride alone", {0, 0, 0, .01, 0, .03, 0}},
    {"sour with sulphuric acid", {0, 0, 0, .001, .2, 0, 0}},
    {"aluminate", {.3, 0, 0, .05, .01, 0, .01}},
    {"all of it", {.2, .1, .05, .08, .15, .1, .12}},
    {"very thin", {3e-4, 1e-4, 1e-4, 1e-4, 2e-4, 1e-5, 2e-4}},
    {"soda alone", {.2, 0, 0, 0, 0, 0, .1}},
    {"water", {0, 0, 0, 0, 0, 0, 0}},
};

} // namespace

TEST_CASE("both ways of coming to rest hold every law of mass action", "[reference]") {
    for (const auto& [what, total] : mixes)
        for (const LakeSolid solid : {LakeSolid::hydroxide, LakeSolid::basic_sulphate})
            for (const auto& gas : {open_to_air(), stirred(), fizzing(), closed_jar()}) {
                CAPTURE(what, int(solid), int(gas.way), in_standard_atmospheres(gas.pressure));
                const Liquor slow = rest::by_brackets(total, solid, gas);
                check_balance(total, solid, gas, slow);
                rest::Start start{-2.302585092994046 * slow.ph + .3, std::log(std::max(1e-12, .2 * total.sulphate)), 1.2 * slow.ionic_strength};
                const auto fast = rest::newton(total, solid, gas, start);
                REQUIRE(fast);
                check_balance(total, solid, gas, *fast);
                CHECK(fast->ph == Approx(slow.ph).margin(1e-7));
                // From the answer itself nothing moves any more.
                const rest::Start there = start;
                REQUIRE(rest::newton(total, solid, gas, start));
                CHECK(start.u == Approx(there.u).margin(1e-10));
                CHECK(start.ionic_strength == Approx(there.ionic_strength).epsilon(1e-10));
            }
}
