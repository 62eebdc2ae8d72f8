#include "lakebound/record/paint_sign.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

TEST_CASE("what a maker sees says too lean, too rich, neither, or nothing", "[unit]") {
    // A maker's words: common practice, no source.
    CHECK(outcome_of(PaintSign::chalks) == PaintOutcome::lean);
    CHECK(outcome_of(PaintSign::does_not_chalk) == PaintOutcome::not_lean);
    CHECK(outcome_of(PaintSign::holds) == PaintOutcome::holds);
    for (const PaintSign rich : {PaintSign::shines, PaintSign::cracks, PaintSign::stays_sticky, PaintSign::wrinkles})
        CHECK(outcome_of(rich) == PaintOutcome::rich);
    CHECK_FALSE(outcome_of(PaintSign::grows_mould).has_value());
    CHECK_FALSE(outcome_of(PaintSign::thrown_away).has_value());
    for (const auto& sign : WordTable<PaintSign>::rows)
        CHECK(is_lost(sign.value) == (sign.value == PaintSign::grows_mould || sign.value == PaintSign::thrown_away));
}

TEST_CASE("a sign is named by the maker's words, and found by them", "[unit]") {
    CHECK(word_of(PaintSign::chalks) == "chalks");
    CHECK(word_of(PaintSign::grows_mould) == "grows mould");
    CHECK(word_of(PaintSign::thrown_away) == "thrown away");
    CHECK(value_of_word<PaintSign>("does not chalk") == PaintSign::does_not_chalk);
    CHECK_FALSE(value_of_word<PaintSign>("Chalks"));
}
