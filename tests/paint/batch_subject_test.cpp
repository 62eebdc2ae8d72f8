#include "lakebound/paint/batch_subject.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "support/worked_paints.hpp"

using namespace worked;

TEST_CASE("the judgement is of what is weighed", "[unit]") {
    // A coarse scale and a small batch: the rounded masses make another k, and that is what the maker gets.
    BatchRequest r = request(oil_paint(), grams(0.5));
    r.recipe.additives.clear();
    r.recipe.aim = BinderSufficiency::of(1.0);
    const auto subject = batch_subject(r, {});
    const Batch& b = *subject.answer.batch;
    CHECK(std::abs(b.sheet.film.k.value() - b.film.k.value()) > 1e-3);
    CHECK(subject.judgement->k == b.sheet.film.k);
    CHECK(subject.judgement->verdict == verdict(b.sheet.film.k, r.recipe.family.window));
    CHECK(subject.next->now == subject.judgement->chances.in_window);
}

TEST_CASE("an answer is good when it holds and there is enough", "[unit]") {
    BatchRequest r = request(oil_paint(), grams(10));
    CHECK(is_good(batch_subject(r, {})));
    r.aim = BinderSufficiency::of(0.8);
    CHECK_FALSE(is_good(batch_subject(r, {})));
    r.aim = BinderSufficiency::of(1.4);
    r.jar = JarOnHand{0, grams(6)};
    const auto short_of = batch_subject(r, {});
    CHECK(short_of.answer.shortfall.has_value());
    CHECK_FALSE(is_good(short_of));
    r.jar = JarOnHand{0, grams(0.1)};
    r.amount = WholeJar{};
    const auto nothing = batch_subject(r, {});
    CHECK_FALSE(nothing.judgement.has_value());
    CHECK_FALSE(is_good(nothing));
}

TEST_CASE("without an aim the batch aims where the window is likeliest met, and fits the jar still", "[unit]") {
    BatchRequest r = request(watercolour(), WholeJar{});
    r.jar = JarOnHand{0, grams(6)};
    const auto subject = batch_subject(r, {});
    CHECK(subject.answer.batch->film.k.value() == Approx(std::sqrt(1.2 * 1.8)).epsilon(1e-9));
    CHECK(in_grams(subject.answer.batch->pigment) == Approx(5.5));
    CHECK(subject.judgement->in_window_there.value() ==
          Approx(subject.judgement->chances.in_window.value()).margin(0.01));
}

TEST_CASE("where a record teaches, its own coach advises", "[unit]") {
    BatchRequest r = request(oil_paint(), grams(10));
    CHECK(batch_subject(r, {}).next.has_value());
    r.learned_doubt = NormalMixture(0.09);
    const auto learned = batch_subject(r, {});
    CHECK_FALSE(learned.next.has_value());
    REQUIRE(learned.judgement);
    CHECK(learned.chance.has_value());
    CHECK(is_good(learned));
}
