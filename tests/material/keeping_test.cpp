#include "lakebound/material/keeping.hpp"

#include <catch2/catch.hpp>

#include <utility>

#include "lakebound/material/lake_remains.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/told.hpp"

using namespace lakebound;

TEST_CASE("active shares of benzoic and sorbic acid", "[reference]") {
    // Reckoned apart from this code with pKa 4.202 (phreeqc-dat) and 4.76 (value from memory); figures as printed.
    const struct {
        double ph, benzoic, sorbic, margin;
    } rows[] = {{4, .614, .852, 6e-4},   {4.8, .2015, .477, 6e-4},   {5.5, .0479, .154, 6e-4},
                {6, .0157, .054, 6e-4},  {7, .0016, .0057, 6e-5},    {8, .00016, .00058, 6e-6}};
    for (const auto& row : rows) {
        CHECK(active_share(PreservativeAcid::benzoic, Ph::of(row.ph)).value() == Approx(row.benzoic).margin(row.margin));
        CHECK(active_share(PreservativeAcid::sorbic, Ph::of(row.ph)).value() == Approx(row.sorbic).margin(row.margin));
    }
    // .1 % of sorbate at pH 6 does what .35 % of benzoate does.
    CHECK(active_share(PreservativeAcid::sorbic, Ph::of(6)).value() / active_share(PreservativeAcid::benzoic, Ph::of(6)).value() ==
          Approx(3.5).margin(.06));
}

TEST_CASE("the pH above which a preservative is dead", "[unit]") {
    for (const auto& [acid, word] : WordTable<PreservativeAcid>::rows)
        for (const double least : {.01, .05, .5}) {
            const double limit = highest_ph_for(acid, Share::of(least)).value();
            CHECK(active_share(acid, Ph::of(limit)).value() == Approx(least).epsilon(1e-9));
            CHECK(chance_dead(acid, Ph::of(limit), PhDifference::of(.4), Share::of(least)).value() == Approx(.5));
            CHECK(chance_dead(acid, Ph::of(limit + .4), PhDifference::of(.4), Share::of(least)).value() == Approx(.8413).margin(1e-4));
            CHECK(chance_dead(acid, Ph::of(limit + .1), PhDifference::of(0), Share::of(least)).value() == Approx(1));
            CHECK(chance_dead(acid, Ph::of(limit - .1), PhDifference::of(0), Share::of(least)).value() == Approx(0));
        }
    // Benzoate in a lake left at pH 8 is dead, sorbate too; at pH 4.5 neither.
    CHECK(chance_dead(PreservativeAcid::benzoic, Ph::of(8), PhDifference::of(.5), Share::of(.05)).value() > .99);
    CHECK(chance_dead(PreservativeAcid::sorbic, Ph::of(4.5), PhDifference::of(.5), Share::of(.05)).value() < .01);
}

TEST_CASE("a share, or an uncertainty, that is none is refused", "[errors]") {
    CHECK_THROWS_AS(highest_ph_for(PreservativeAcid::benzoic, Share::of(0)), DomainError);
    CHECK_THROWS_AS(highest_ph_for(PreservativeAcid::benzoic, Share::of(1)), DomainError);
    CHECK_THROWS_AS(highest_ph_for(PreservativeAcid::benzoic, Share::of(1e-10)), DomainError); // at 4.202 + 10: no pH
    CHECK_NOTHROW(highest_ph_for(PreservativeAcid::benzoic, Share::of(1e-9)));
    CHECK(chance_dead(PreservativeAcid::benzoic, Ph::of(7), PhDifference::of(.5), Share::of(1e-10)).value() < 1e-6);
    CHECK_THROWS_AS(chance_dead(PreservativeAcid::sorbic, Ph::of(7), PhDifference::of(-1), Share::of(.05)), DomainError);
}

TEST_CASE("pH 0 and 14 are the ends, and lie within", "[unit]") {
    CHECK_NOTHROW(active_share(PreservativeAcid::benzoic, Ph::of(0.0)));
    CHECK_NOTHROW(active_share(PreservativeAcid::benzoic, Ph::of(14.0)));
}

TEST_CASE("what a bath left is known where one of its two figures is", "[unit]") {
    const Provenance from{Origin::measured, "", false};
    LakeRemains remains;
    CHECK_FALSE(remains.known());
    remains.salts = Estimate<MassFraction>::exact(MassFraction::of(0.01), from);
    CHECK(remains.known());
    remains.ph = Estimate<Ph>::exact(Ph::of(7.2), from);
    CHECK(remains.known());
    remains.salts.reset();
    CHECK(remains.known());
}

TEST_CASE("half of an acid is dissociated at its exponent", "[reference]") {
    // benzoic 4.202 (phreeqc-dat), sorbic 4.76 (value from memory), as the header has them.
    CHECK(acid_exponent(PreservativeAcid::benzoic).value() == 4.202);
    CHECK(acid_exponent(PreservativeAcid::sorbic).value() == 4.76);
}

TEST_CASE("a share that no pH brings about is told, and a small doubt is a doubt", "[errors][reference]") {
    for (const auto& [share, words] : {std::pair{0.0, "active share: 0"}, std::pair{1.0, "active share: 1"}})
        CHECK(told([share = share] { (void)highest_ph_for(PreservativeAcid::sorbic, Share::of(share)); }) == words);
    // By hand: the limit for half is the exponent itself; 0.0003 above it with u 0.0005 is Phi(0.6) = 0.7257 (printed tables).
    CHECK(chance_dead(PreservativeAcid::benzoic, Ph::of(4.2023), PhDifference::of(5e-4), Share::of(0.5)).value() == Approx(0.7257).margin(1e-4));
}

TEST_CASE("a colour is written down where any of its three figures is", "[unit]") {
    const Provenance from{Origin::measured, "", false};
    CHECK_FALSE(ColourRecord{}.any());
    CHECK(ColourRecord{"warm yellow", {}, {}}.any());
    CHECK(ColourRecord{"", 12u, {}}.any());
    CHECK(ColourRecord{"", {}, Estimate<Ph>::exact(Ph::of(6.5), from)}.any());
}
