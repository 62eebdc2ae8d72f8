#include "lakebound/record/paint_sign.hpp"

#include <catch2/catch.hpp>

#include <string>

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
    CHECK(std::string(words_of(PaintSign::thrown_away)) == "thrown away");
    for (std::size_t i = 0; i < paint_sign_words.size(); ++i)
        CHECK(is_lost(static_cast<PaintSign>(i)) == (static_cast<PaintSign>(i) == PaintSign::grows_mould || static_cast<PaintSign>(i) == PaintSign::thrown_away));
    CHECK(std::string(words_of(PaintSign::chalks)) == "chalks");
    CHECK(std::string(words_of(PaintSign::grows_mould)) == "grows mould");
}
