#include "lakebound/bath/precipitation.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

#include "lakebound/quantity/error.hpp"
#include "salts.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const auto book = HydroxidesPerAluminium::of(3);

void check_atoms(const BathContents& bath, const Precipitated& out) {
    const Atoms in = bath.atoms();
    Atoms made = out.solid_atoms;
    made += out.gas_atoms;
    made += out.liquor_atoms;
    for (std::size_t i = 0; i < element_count; ++i) {
        INFO("element " << i);
        CHECK(made.count[i] == Approx(in.count[i]).epsilon(1e-12).margin(1e-15));
    }
}

} // namespace

TEST_CASE("alkali for 100 g of each aluminium salt", "[reference]") {
    // Domain brief B.1, own computation there (checked against published-figures 10.2), three figures.
    struct Row {
        Salt salt;
        std::array<double, 7> grams_of; // soda ash, monohydrate, crystals, baking soda, potash, its hydrate, slaked lime
    };
    const std::vector<Salt> alkalis{soda_ash(), soda_monohydrate(), soda_crystals(), baking_soda(),
                                    potash(),   potash_hydrate(),   slaked_lime()};
    const std::vector<Row> rows{
        {potash_alum(), {33.5, 39.2, 90.5, 53.1, 43.7, 52.2, 23.4}},
        {ammonium_alum(), {35.1, 41.0, 94.7, 55.6, 45.7, 54.7, 24.5}},
        {aluminium_sulphate(18), {47.7, 55.8, 128.8, 75.6, 62.2, 74.4, 33.4}},
        {aluminium_sulphate(14), {53.5, 62.6, 144.4, 84.8, 69.8, 83.4, 37.4}},
        {basic_aluminium_acetate(), {65.4, 76.5, 176.5, 103.7, 85.3, 101.9, 45.7}},
        {aluminium_chloride(), {65.9, 77.0, 177.8, 104.4, 85.9, 102.7, 46.0}},
    };
    for (const auto& row : rows)
        for (std::size_t i = 0; i < alkalis.size(); ++i) {
            INFO(row.salt.formula << " " << alkalis[i].formula);
            CHECK(in_grams(alkali_needed(row.salt, grams(100), alkalis[i], book)) == Approx(row.grams_of[i]).margin(.06));
        }
}

TEST_CASE("2.29 parts of alum to 1 of potash is the book's ratio", "[reference]") {
    // Domain brief A.4: 2 x 474.37 / (3 x 138.21) = 2.288 (molar masses from memory).
    CHECK(in_grams(aluminium_needed(potash(), grams(1), potash_alum(), book)) == Approx(2.288).margin(.001));
}

TEST_CASE("40 mL of alum and 20 mL of soda: 49 % too much", "[reference]") {
    // Domain brief B.9, own computation: a common practice without a source; 4 g alum, 2 g soda.
    const auto balance = alkali_balance(potash_alum(), grams(4), soda_ash(), grams(2), book);
    CHECK(in_grams(balance.needed) == Approx(1.341).margin(.001));
    CHECK(balance.excess == Approx(.492).margin(.001));
    CHECK(in_grams(balance.more_aluminium) == Approx(1.97).margin(.006)); // B.4: 6.222 mmol of soda
    CHECK(in_grams(balance.more_alkali) == Approx(0.0).margin(1e-15));
    const auto basic = aluminium_needed(soda_ash(), mass_of(soda_ash(), moles(.006222)), potash_alum(),
                                        HydroxidesPerAluminium::of(2.6));
    CHECK(in_grams(basic) == Approx(2.27).margin(.006)); // B.4
    const auto crystals = alkali_balance(potash_alum(), grams(4), soda_crystals(), grams(2), book);
    CHECK(1.0 + crystals.excess == Approx(.55).margin(.005)); // "55 % of Al precipitates"

    BathContents bath;
    bath.add(potash_alum(), grams(4));
    bath.add(soda_ash(), grams(2));
    const auto out = precipitate(bath, book);
    CHECK(in_grams(out.solid) == Approx(.658).margin(.001));
    CHECK(in_moles(out.carbon_dioxide) * 1e3 == Approx(12.648).margin(.005));
    CHECK(in_moles(out.base_left) * 1e3 == Approx(2 * 6.222).margin(.01));
}

TEST_CASE("the solid of 50 g of alum", "[reference]") {
    // Domain brief B.1: Al(OH)3 8.222 g of 16.757 g of soda; Al4(OH)10SO4 9.857 g of 13.964 g.
    BathContents bath;
    bath.add(potash_alum(), grams(50));
    bath.add(soda_ash(), grams(16.757));
    CHECK(in_grams(precipitate(bath, book).solid) == Approx(8.222).margin(.002));
    const auto n = HydroxidesPerAluminium::of(2.5);
    CHECK(in_grams(alkali_needed(potash_alum(), grams(50), soda_ash(), n)) == Approx(13.964).margin(.002));
    const auto basic = precipitate(bath, n);
    CHECK(in_grams(basic.solid) == Approx(9.857).margin(.003));
    CHECK(basic.solid_sulphate.value() == Approx(.25 * 96.06 * .1054 / 9.857).margin(.001));
    CHECK(in_moles(basic.aluminium_left) == Approx(0.0).margin(1e-12));
}

TEST_CASE("every element balances through any bath", "[identity]") {
    for (const Salt& alum : {potash_alum(), ammonium_alum(), aluminium_sulphate(14), aluminium_chloride()})
        for (const Salt& alkali : {soda_ash(), soda_crystals(), baking_soda(), potash_hydrate()})
            for (const double poured : {0.0, 1.0, 12.0, 80.0})
                for (const double n : {2.5, 2.6, 3.0}) {
                    BathContents bath;
                    bath.water = grams(1500);
                    bath.add(alum, grams(50));
                    bath.add(alkali, grams(poured));
                    const auto out = precipitate(bath, HydroxidesPerAluminium::of(n));
                    check_atoms(bath, out);
                    CHECK(charge_of(out.liquor) ==
                          Approx(out.aluminium_left.value() * 0.0).margin(1e-12)); // what is left carries no charge
                    CHECK(in_moles(out.aluminium_left + out.solid_aluminium) ==
                          Approx(in_moles(aluminium_in(bath))).epsilon(1e-12));
                }
}

TEST_CASE("doubling everything doubles everything, and the order of portions is nothing", "[identity]") {
    BathContents one, two, mixed;
    one.add(potash_alum(), grams(50));
    one.add(soda_crystals(), grams(30));
    two.add(potash_alum(), grams(100));
    two.add(soda_crystals(), grams(60));
    for (int i = 0; i < 100; ++i) {
        mixed.add(soda_crystals(), grams(.3));
        if (i % 2 == 0) mixed.add(potash_alum(), grams(1));
    }
    const auto n = HydroxidesPerAluminium::of(2.6);
    const auto a = precipitate(one, n), b = precipitate(two, n), c = precipitate(mixed, n);
    CHECK(in_grams(b.solid) == Approx(2 * in_grams(a.solid)).epsilon(1e-12));
    CHECK(in_moles(b.carbon_dioxide) == Approx(2 * in_moles(a.carbon_dioxide)).epsilon(1e-12));
    CHECK(in_grams(b.dissolved_salts) == Approx(2 * in_grams(a.dissolved_salts)).epsilon(1e-12));
    CHECK(in_grams(c.solid) == Approx(in_grams(a.solid)).epsilon(1e-12));
    CHECK(in_grams(c.dissolved_salts) == Approx(in_grams(a.dissolved_salts)).epsilon(1e-12));
    CHECK(in_moles(c.carbon_dioxide) == Approx(in_moles(a.carbon_dioxide)).epsilon(1e-12));
    // A millionth of it all is a millionth, and its shares are the same.
    BathContents thimble;
    thimble.add(potash_alum(), grams(50e-6));
    thimble.add(soda_crystals(), grams(30e-6));
    const auto t = precipitate(thimble, n);
    CHECK(1e6 * in_grams(t.solid) == Approx(in_grams(a.solid)).epsilon(1e-9));
    CHECK(1e6 * in_grams(t.dissolved_salts) == Approx(in_grams(a.dissolved_salts)).epsilon(1e-9));
    CHECK(1e6 * in_moles(t.carbon_dioxide) == Approx(in_moles(a.carbon_dioxide)).epsilon(1e-9));
    const auto chalked = [](double times) {
        return chalk_lake(potash_alum(), grams(20 * times), chalk_salt(), grams(10 * times), litres(times), kilograms_per_cubic_metre(2.4));
    };
    CHECK(chalked(1e-6).alumina_share.value() == Approx(chalked(1).alumina_share.value()).epsilon(1e-9));
    CHECK(1e6 * in_grams(chalked(1e-6).solids) == Approx(in_grams(chalked(1).solids)).epsilon(1e-9));
    CHECK(1e6 * in_grams(chalked(1e-6).chalk_left) == Approx(in_grams(chalked(1).chalk_left)).epsilon(1e-9));
}

TEST_CASE("base is counted of every ion that brings it", "[unit]") {
    // By hand: 2 for a carbonate, 1 for a bicarbonate or a hydroxide, nothing for the others.
    BathContents bath;
    bath.ions[Ion::carbonate] = .3;
    bath.ions[Ion::bicarbonate] = .05;
    bath.ions[Ion::hydroxide] = .007;
    bath.ions[Ion::sulphate] = 1.0;
    bath.ions[Ion::chloride] = 1.0;
    CHECK(in_moles(base_in(bath)) == Approx(.657).epsilon(1e-12));
}

TEST_CASE("a lake laid with chalk is another pigment", "[reference]") {
    // Domain brief B.9: 20 g alum, 10 g chalk: 6.33 g used, 3.67 left, gypsum 10.9, Al(OH)3 3.29; 15.4 g solids with
    // 2.4 g of gypsum gone per litre of liquor.
    const auto lake = chalk_lake(potash_alum(), grams(20), chalk_salt(), grams(10), litres(1), kilograms_per_cubic_metre(2.4));
    CHECK(in_grams(lake.chalk_used) == Approx(6.33).margin(.006));
    CHECK(in_grams(lake.chalk_left) == Approx(3.67).margin(.006));
    CHECK(in_grams(lake.gypsum) == Approx(10.9).margin(.06));
    CHECK(in_grams(lake.alumina) == Approx(3.29).margin(.006));
    CHECK(in_grams(lake.solids) == Approx(15.4).margin(.1));
    CHECK(lake.alumina_share.value() == Approx(.21).margin(.006));
    CHECK_THROWS_AS(chalk_lake(potash_alum(), grams(20), soda_ash(), grams(10), litres(1), kilograms_per_cubic_metre(2.4)),
                    DomainError);
    CHECK_THROWS_AS(chalk_lake(soda_ash(), grams(20), chalk_salt(), grams(10), litres(1), kilograms_per_cubic_metre(2.4)), DomainError);
    CHECK_THROWS_AS(chalk_lake(potash_alum(), grams(20), slaked_lime(), grams(10), litres(1), kilograms_per_cubic_metre(2.4)), DomainError);
    CHECK_THROWS_AS(chalk_lake(potash_alum(), grams(20), chalk_salt(), grams(10), litres(-.1), kilograms_per_cubic_metre(2.4)), DomainError);
    // In no liquor no gypsum dissolves.
    CHECK(chalk_lake(potash_alum(), grams(20), chalk_salt(), grams(10), litres(0), kilograms_per_cubic_metre(2.4)).gypsum_dissolved == grams(0));
    CHECK_THROWS_AS(chalk_lake(aluminium_chloride(), grams(20), chalk_salt(), grams(10), litres(1), kilograms_per_cubic_metre(2.4)),
                    DomainError);
}

TEST_CASE("published recipes lie near the basic sulphate", "[reference]") {
    // published-figures 10.3: 0.376 and 0.40 g of potash to a gram of alum; 86.0 % and 91.5 % of the book's need
    // (domain brief 0.4).
    CHECK(hydroxides_poured(potash_alum(), grams(5), potash(), grams(1.88)) / 3.0 == Approx(.860).margin(.001));
    CHECK(hydroxides_poured(potash_alum(), grams(1), potash(), grams(.40)) / 3.0 == Approx(.915).margin(.001));
}

TEST_CASE("end points teach the maker's own hydroxides", "[reference]") {
    // Normal on normal by hand: precisions 1/.15^2 = 44.444 and 1/.1^2 = 100 twice: 2.6 and 2.8, 2.7 -> 2.7273, .0640.
    const std::vector<EndPoint> seen{{2.8, .1}, {2.7, .1}};
    const auto after = learn_hydroxides({2.6, .15}, seen);
    CHECK(after.mean == Approx((44.4444 * 2.6 + 280 + 270) / 244.4444).epsilon(1e-5));
    CHECK(after.standard_uncertainty == Approx(1.0 / std::sqrt(244.4444)).epsilon(1e-5));
    CHECK(learn_hydroxides({2.6, .15}, {}).mean == Approx(2.6));
    CHECK_THROWS_AS(learn_hydroxides({2.6, 0}, seen), DomainError);
}

TEST_CASE("what is no bath is refused", "[errors]") {
    const auto n = HydroxidesPerAluminium::of(2.6);
    CHECK_THROWS_AS(alkali_needed(soda_ash(), grams(1), soda_ash(), n), DomainError);
    CHECK_THROWS_AS(alkali_needed(potash_alum(), grams(1), potash_alum(), n), DomainError);
    CHECK_THROWS_AS(alkali_balance(potash_alum(), grams(0), soda_ash(), grams(1), n), DomainError);
    CHECK_THROWS_AS(alkali_balance(potash_alum(), grams(1), soda_ash(), grams(-1), n), DomainError);
    CHECK_THROWS_AS(HydroxidesPerAluminium::of(3.2), DomainError);
    CHECK_THROWS_AS(hydroxides_poured(potash_alum(), grams(0), soda_ash(), grams(1)), DomainError);
    BathContents bath;
    CHECK_THROWS_AS(precipitate(bath, n), DomainError);
    bath.add(potash_alum(), grams(1));
    bath.add(slaked_lime(), grams(1));
    CHECK_THROWS_AS(precipitate(bath, n), DomainError);
    BathContents acetate;
    acetate.add(basic_aluminium_acetate(), grams(1));
    CHECK_THROWS_AS(precipitate(acetate, n), DomainError);
}
