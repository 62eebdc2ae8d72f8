#include "lakebound/record/odd_figure.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

namespace {

Estimate<MassDensity> density(double value, double uncertainty) {
    return Estimate<MassDensity>::normal(grams_per_cubic_centimetre(value), grams_per_cubic_centimetre(uncertainty),
                                         {Origin::measured, "", false});
}
std::size_t count(double measured, double its, double expected, double spread) {
    MeasuredEntry entry;
    entry.density = density(measured, its);
    Pigment kind;
    kind.density = density(expected, spread);
    return odd_figures(entry, kind).size();
}

} // namespace

TEST_CASE("A density far from its kind is told, and how many times it is", "[unit]") {
    MeasuredEntry entry;
    entry.density = density(19.0, 0.5);
    Pigment kind;
    kind.density = density(1.9, 0.2);
    const auto odd = odd_figures(entry, kind);
    REQUIRE(odd.size() == 1);
    CHECK(odd[0].which == MeasuredDensity::density);
    CHECK(odd[0].times == Approx(10.0));
    CHECK(in_grams_per_cubic_centimetre(odd[0].measured) == Approx(19.0));
    CHECK(in_grams_per_cubic_centimetre(odd[0].expected) == Approx(1.9));

    entry = {};
    entry.tapped_density = density(0.05, 0.005);
    CHECK(odd_figures(entry, kind).empty()); // nothing is expected of it
    kind.tapped_density = density(0.5, 0.05);
    REQUIRE(odd_figures(entry, kind).size() == 1);
    CHECK(odd_figures(entry, kind)[0].which == MeasuredDensity::tapped_density);
}

TEST_CASE("A density is odd beyond three spreads and a quarter", "[unit]") {
    // hypot(.06, .08) = .10: the edge lies at exp(.3) = 1.350.
    CHECK(count(1.34, 0.06 * 1.34, 1.0, 0.08) == 0);
    CHECK(count(1.36, 0.06 * 1.36, 1.0, 0.08) == 1);
    CHECK(count(1.0 / 1.36, 0.06 / 1.36, 1.0, 0.08) == 1);
    CHECK(count(1.0 / 1.34, 0.06 / 1.34, 1.0, 0.08) == 0);
    CHECK(count(1.24, 0.001, 1.0, 0.001) == 0); // well known, and no slip
    CHECK(count(1.26, 0.001, 1.0, 0.001) == 1);
}
