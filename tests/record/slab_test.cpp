#include "lakebound/record/slab.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

namespace {

BinderSufficiency k_of(double k) { return BinderSufficiency::of(k); }
const Slab six_grams_at_one{3, 1, grams(6.0), k_of(1.0), 2};

} // namespace

TEST_CASE("A paint is the one on the slab when nothing was lost and little gained", "[unit]") {
    const auto is = [](std::size_t family, double powder, double k) {
        return is_on_slab(six_grams_at_one, family, grams(powder), k_of(k));
    };
    CHECK(is(1, 6.0, 1.0));
    CHECK(is(1, 6.0, 1.4));
    CHECK_FALSE(is(0, 6.0, 1.4)); // of another family
    CHECK(is(1, 5.41, 0.99)); // without what the strokes took
    CHECK_FALSE(is(1, 5.39, 1.5));
    CHECK(is(1, 6.0, 0.981));
    CHECK_FALSE(is(1, 6.0, 0.979)); // leaner: begun anew
    CHECK(is(1, 7.5, 0.79));        // a quarter more powder, and no medium
    CHECK_FALSE(is(1, 7.5, 0.78));
    CHECK_FALSE(is(1, 7.51, 1.5)); // another batch
}

TEST_CASE("A batch is named by its powder within two in a hundred", "[unit]") {
    CHECK(same_powder(six_grams_at_one, grams(6.11)));
    CHECK(same_powder(six_grams_at_one, grams(5.89)));
    CHECK_FALSE(same_powder(six_grams_at_one, grams(6.13)));
    CHECK_FALSE(same_powder(six_grams_at_one, grams(5.87)));
}

TEST_CASE("Only what was added since comes out of the jar again", "[unit]") {
    CHECK(in_grams(added_since(six_grams_at_one, grams(7.0))) == Approx(1.0));
    CHECK(in_grams(added_since(six_grams_at_one, grams(6.0))) == Approx(0.0).margin(1e-12));
    CHECK(added_since(six_grams_at_one, grams(5.9)).value() == 0.0);
}
