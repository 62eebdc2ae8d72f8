#include "lakebound/paint/jar_shares.hpp"

#include <catch2/catch.hpp>

#include "support/worked_paints.hpp"

using namespace worked;

TEST_CASE("what a jar gives adds up to what is in it", "[identity]") {
    for (const double pigment : {2.0, 6.0, 20.0})
        for (const bool pans : {false, true}) {
            auto asked = request(watercolour(), grams(pigment));
            asked.jar = JarOnHand{0, grams(24)};
            if (pans) asked.vessel = half_pan();
            const auto answer = size_batch(asked);
            const auto shares = jar_shares(asked, answer.batch.value());
            REQUIRE(shares);
            CHECK(in_grams(shares->drawn) == Approx(pigment).epsilon(1e-12));
            CHECK(in_grams(shares->stays) == Approx(24 - pigment).epsilon(1e-12));
            CHECK(in_grams(shares->in_vessels + shares->left_over + shares->to_slab) == Approx(pigment).epsilon(1e-12));
            CHECK(in_grams(shares->to_slab) == Approx(in_grams(answer.batch->loss)).epsilon(1e-12));
            CHECK(shares->left_over.value() >= 0.0);
            if (!pans) CHECK(in_grams(shares->left_over) == Approx(0.0).margin(1e-12));
            CHECK(shares->reserve <= shares->stays);
        }
}

TEST_CASE("without a jar there are no shares of it", "[unit]") {
    const auto asked = request(watercolour(), grams(6));
    CHECK_FALSE(jar_shares(asked, size_batch(asked).batch.value()));
}

TEST_CASE("of a jar of which nothing is known to be left, and of a vessel that is not filled", "[unit]") {
    auto asked = request(watercolour(), grams(1.0));
    asked.jar = JarOnHand{0, grams(24)};
    asked.vessel = half_pan();
    asked.vessel->capacity = Estimate<Volume>::exact(millilitres(40), from());
    auto batch = size_batch(asked).batch.value();
    REQUIRE(batch.filling);
    REQUIRE(batch.filling->vessels == 0);
    const auto shares = jar_shares(asked, batch);
    REQUIRE(shares);
    CHECK(in_grams(shares->left_over) == Approx(0).margin(1e-12)); // all of it goes into one pot
    CHECK(in_grams(shares->in_vessels) == Approx(1.0 - in_grams(batch.loss)).epsilon(1e-9));
    batch.left_in_jar.reset();
    CHECK_FALSE(jar_shares(asked, batch));
}
