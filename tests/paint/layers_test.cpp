#include "lakebound/paint/layers.hpp"

#include <catch2/catch.hpp>

#include <array>

#include "lakebound/paint/cured_film.hpp"

using namespace lakebound;

namespace {
struct OilRow {
    const char* name;
    double oil_per_100;
    double density;
    double by_mass;
    double by_volume;
};
// Oil in 100 of pigment: church-1901 (maker B for the whites, both for madder, the highest for raw
// sienna), alizarin massey-1967; densities gettens-stout-1942, madder 1.88 and alizarin 1.60
// (estimates); oil 0.93. Shares computed independently, three digits.
const std::array<OilRow, 8> table{{
    {"lead white", 15, 6.70, 13.0, 51.9},
    {"zinc white", 23, 5.65, 18.7, 58.3},
    {"ultramarine", 43, 2.34, 30.1, 52.0},
    {"madder lake, lean", 55, 1.88, 35.5, 52.6},
    {"madder lake, fat", 103, 1.88, 50.7, 67.6},
    {"lake at k 1.35", 92.85, 1.88, 48.1, 65.2},
    {"alizarin", 151.5, 1.60, 60.2, 72.3},
    {"raw sienna", 240, 3.14, 70.6, 89.0},
}};
OilShare share(const OilRow& r) {
    return oil_share({.pigment = grams(100),
                      .pigment_density = grams_per_cubic_centimetre(r.density),
                      .oil = grams(r.oil_per_100),
                      .oil_density = grams_per_cubic_centimetre(0.93)});
}
} // namespace

TEST_CASE("oil of finished paints by mass and by volume", "[reference]") {
    for (const auto& r : table) {
        CAPTURE(r.name);
        CHECK(100 * share(r).by_mass.value() == Approx(r.by_mass).margin(0.06));
        CHECK(100 * share(r).by_volume.value() == Approx(r.by_volume).margin(0.06));
    }
    // Lead white and ultramarine: 2.3 times apart by mass, alike by volume.
    CHECK(share(table[2]).by_mass.value() / share(table[0]).by_mass.value() == Approx(2.3).margin(0.05));
    CHECK(share(table[2]).by_volume.value() == Approx(share(table[0]).by_volume.value()).margin(0.002));
}

TEST_CASE("order of layers", "[unit]") {
    std::vector<VolumeFraction> f;
    for (const auto& r : table)
        f.push_back(share(r).by_volume);
    CHECK(lean_to_fat(f) == std::vector<std::size_t>{0, 2, 3, 1, 5, 4, 6, 7});
    CHECK(lean_to_fat(std::vector<VolumeFraction>{}).empty());
    const auto v = [](double x) { return VolumeFraction::of(x); };
    const std::vector<VolumeFraction> fair{v(.50), v(.49), v(.60), v(.70)};
    CHECK(lean_over_fat(fair, 0.02).empty());
    CHECK(lean_over_fat(fair, 0.005).size() == 1); // known better, they are not alike
    const std::vector<VolumeFraction> faulty{v(.50), v(.70), v(.55), v(.75), v(.60)};
    const auto faults = lean_over_fat(faulty, 0.02);
    REQUIRE(faults.size() == 2);
    CHECK((faults[0].upper == 2 && faults[0].lower == 1));
    CHECK(faults[0].difference == Approx(0.15));
    CHECK((faults[1].upper == 4 && faults[1].lower == 3));
}

TEST_CASE("laid lean to fat, no sequence is at fault", "[identity]") {
    std::vector<VolumeFraction> f, laid;
    for (int i = 0; i < 50; ++i)
        f.push_back(VolumeFraction::of((i * 37 % 50) / 50.0));
    for (const auto i : lean_to_fat(f))
        laid.push_back(f[i]);
    CHECK(lean_over_fat(laid, 0.0).empty());
    CHECK(oil_volume_fraction(PigmentVolumeConcentration::of(0.343)).value() == Approx(0.657).epsilon(1e-12));
}

TEST_CASE("cured film of the worked lake", "[reference]") {
    // docs/theory.md: k 1.35 at c .4183, binder shrinking by 2, 5, 10, 15 %: PVC .352/.359/.372/.385,
    // reduced .842/.859/.889/.921; three digits.
    const auto c = CriticalPigmentVolumeConcentration::of(0.41834);
    struct Row {
        double s, pvc, reduced;
    };
    for (const Row& r :
         {Row{.02, .352, .842}, Row{.05, .359, .859}, Row{.10, .372, .889}, Row{.15, .385, .921}}) {
        const auto k = cured_sufficiency(BinderSufficiency::of(1.35), Share::of(r.s));
        CHECK(pigment_volume_concentration(k, c).value() == Approx(r.pvc).margin(6e-4));
        CHECK(reduced_pigment_volume_concentration(k, c).value() == Approx(r.reduced).margin(6e-4));
        CHECK(sufficiency_before_cure(k, Share::of(r.s)).value() == Approx(1.35).epsilon(1e-12));
        CHECK(in_millilitres(cured_binder_volume(millilitres(10), Share::of(r.s))) ==
              Approx(10 * (1 - r.s)).epsilon(1e-12));
    }
    // Nine tenths oil and one tenth wax shrink by nine tenths of the oil's shrinkage.
    CHECK(binder_shrinkage(VolumeFraction::of(0.9), Share::of(0.1)).value() == Approx(0.09).epsilon(1e-12));
}

TEST_CASE("layers and cured films refuse what has no meaning", "[errors]") {
    const auto rho = grams_per_cubic_centimetre(1);
    CHECK_THROWS_AS(oil_share({grams(-1), rho, grams(1), rho}), DomainError);
    CHECK_THROWS_AS(oil_share({grams(1), rho, grams(-1), rho}), DomainError);
    CHECK_THROWS_AS(oil_share({grams(1), rho, grams(1), grams_per_cubic_centimetre(0)}), DomainError);
    CHECK_THROWS_AS(oil_share({grams(0), rho, grams(0), rho}), DomainError);
    CHECK_THROWS_AS(lean_over_fat(std::vector<VolumeFraction>{}, -1), DomainError);
    CHECK_THROWS_AS(lean_over_fat(std::vector<VolumeFraction>{}, 1), DomainError);
    CHECK_NOTHROW(lean_over_fat(std::vector<VolumeFraction>{}, 0));
    CHECK_THROWS_AS(cured_sufficiency(BinderSufficiency::of(1), Share::of(0.5)), DomainError);
}
