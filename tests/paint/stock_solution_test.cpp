#include "lakebound/paint/stock_solution.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/paint/instruments.hpp"
#include "lakebound/paint/weighing.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }
} // namespace

TEST_CASE("a stock is made in round figures, of masses that the scale weighs", "[identity]") {
    // "1.6 g in all" stood on the sheet where 1.64 g is the least.
    int made_at_all = 0;
    for (const double step : {1.0, 0.1, 0.01})
        for (const double dose : {0.0002, 0.001, 0.004, 0.013}) {
            StockPractice salt = *benzoate().stock;
            salt.most = kilograms(10);
            for (const double medium : {13.0, 35.0, 88.0, 313.0}) {
                const Bench b = bench(step);
                const auto stock =
                    stock_solution(salt, b, grams(dose * medium), water(), std::nullopt, practice().small_amounts);
                if (!stock) continue;
                ++made_at_all;
                const Mass least = minimum_mass(b.scales[0], b.weighing_tolerance);
                const auto round = [](Mass mass) {
                    const double g = in_grams(mass), half = g / (0.5 * std::pow(10.0, std::floor(std::log10(g * 1.0000001))));
                    return std::abs(half - std::round(half)) < 1e-6;
                };
                const Mass made = stock->mixing.taken + stock->mixing.carrier;
                CHECK(round(made));
                CHECK(made >= stock->stock * (1 - 1e-9));
                CHECK(made >= grams(2.0) * (1 - 1e-9)); // less is not worth mixing
                CHECK(stock->mixing.taken >= least * (1 - 1e-9));
                double strength = stock->mixing.taken / made;
                Mass carriers = stock->mixing.carrier;
                if (stock->strong) {
                    const Mass first = stock->strong->taken + stock->strong->carrier;
                    CHECK(round(first));
                    CHECK(first >= stock->mixing.taken * (1 - 1e-9));
                    CHECK(stock->strong->taken >= least * (1 - 1e-9));
                    strength *= stock->strong->taken / first;
                    carriers += stock->strong->carrier;
                }
                CHECK(strength == near(stock->strength.value(), 1e-9));
                CHECK(in_grams(stock->carrier_needed) == near(in_grams(carriers), 1e-9));
            }
        }
    CHECK(made_at_all > 20);
}

TEST_CASE("a stock is the strongest that the scale weighs, of the strengths that are mixed", "[unit]") {
    StockPractice salt = *benzoate().stock; // 10 % at most
    salt.most = kilograms(1);
    auto small = practice().small_amounts;
    const auto strength = [&](double mass) -> std::optional<double> {
        const auto stock = stock_solution(salt, bench(0.1), grams(mass), water(), std::nullopt, small);
        return stock ? std::optional(stock->strength.value()) : std::nullopt;
    };
    // By hand: 1.64 g of the stock can be weighed: 0.164 g at 10 %, 0.082 g at 5 %, 0.0082 g at 0.5 %.
    CHECK(*strength(0.17) == near(0.10, 1e-12));
    CHECK(*strength(0.15) == near(0.05, 1e-12));
    CHECK(*strength(0.0083) == near(0.005, 1e-12));
    CHECK_FALSE(strength(0.008));
    small.stock_strengths = {MassFraction::of(0.02)}; // a maker who mixes one strength only
    CHECK(*strength(0.17) == near(0.02, 1e-12));
    CHECK_FALSE(strength(0.03));
    small.stock_strengths = practice().small_amounts.stock_strengths;
    salt.strongest = exactly(MassFraction::of(0.03));
    CHECK(*strength(0.17) == near(0.03, 1e-12)); // what dissolves limits it
    // No more of the carrier than may be taken off: 0.17 g at 10 % brings 1.53 g.
    salt.strongest = exactly(MassFraction::of(0.10));
    CHECK(stock_solution(salt, bench(0.1), grams(0.17), water(), grams(1.6), small));
    CHECK_FALSE(stock_solution(salt, bench(0.1), grams(0.17), water(), grams(1.5), small));
    small.stock_strengths.clear();
    CHECK_FALSE(strength(0.17)); // none is mixed
}

TEST_CASE("what a stock is made with comes from the medium first, then from the shelf of carriers", "[unit]") {
    Recipe r = watercolour();
    r.carriers = {ethanol(), water()};
    StockSolution stock;
    stock.carrier = "water";
    CHECK(carrier_of(stock, r) == &r.medium.parts[1].ingredient); // gum, water, glycerol, honey
    stock.carrier = "ethanol";
    CHECK(carrier_of(stock, r) == &r.carriers[0]);
    stock.carrier = "turpentine";
    CHECK(carrier_of(stock, r) == nullptr);
}

TEST_CASE("only an additive or a part of a medium is ever left out, and only where nothing of it can be weighed", "[unit]") {
    Weighing line{};
    line.part = SheetPart::additive;
    line.exact = grams(0.02), line.rounded = grams(0);
    CHECK(is_left_out(line));
    line.part = SheetPart::medium_part;
    CHECK(is_left_out(line));
    for (const auto part : {SheetPart::pigment, SheetPart::medium, SheetPart::working_water}) {
        line.part = part;
        CHECK_FALSE(is_left_out(line));
    }
    line.part = SheetPart::additive;
    line.rounded = grams(0.1);
    CHECK_FALSE(is_left_out(line));
    line.rounded = grams(0);
    line.exact = grams(0); // nothing is wanted of it
    CHECK_FALSE(is_left_out(line));
    line.exact = grams(0.02);
    line.stock.emplace();
    CHECK_FALSE(is_left_out(line));
    line.stock.reset();
    line.drops.emplace();
    CHECK_FALSE(is_left_out(line));
}

TEST_CASE("a stock is made up to half of the leading place of its grams, and a round mass stays", "[reference]") {
    // By the header: 1.64 is 2, 32.8 is 35. 1 in 10 on a scale of a milligram, so that what is needed decides.
    auto small = practice().small_amounts;
    small.least_stock = grams(0.0);
    StockPractice salt = *benzoate().stock;
    salt.most = kilograms(1000);
    const auto made = [&](double needed) {
        const auto stock = stock_solution(salt, bench(1e-3), grams(0.1 * needed), water(), std::nullopt, small);
        REQUIRE(stock);
        CHECK_FALSE(stock->strong);
        CHECK(stock->carrier == "water");
        CHECK(stock->carrier_name == "water");
        CHECK(in_grams(stock->stock) == near(needed, 1e-12));
        CHECK(in_grams(stock->carrier_mass) == near(0.9 * needed, 1e-12));
        CHECK(in_grams(stock->carrier_needed) == near(in_grams(stock->mixing.carrier), 1e-12));
        CHECK(in_grams(stock->mixing.taken) == near(0.1 * in_grams(stock->mixing.taken + stock->mixing.carrier), 1e-12));
        return in_grams(stock->mixing.taken + stock->mixing.carrier);
    };
    for (const auto& [needed, total] : {std::pair{1.64, 2.0}, {32.8, 35.0}, {1.001, 1.5}, {1.5005, 2.0}, {2.003, 2.5}, {9.4, 9.5},
                                        {9.6, 10.0}, {10.01, 15.0}, {95.2, 100.0}, {99.99, 100.0}, {100.1, 150.0}, {640.0, 650.0}})
        CHECK(made(needed) == near(total, 1e-9));
    for (double place = 1.0; place < 1e4; place *= 10)
        for (int halves = 2; halves < 20; ++halves)
            CHECK(made(0.5 * halves * place) == near(0.5 * halves * place, 1e-9));
}
