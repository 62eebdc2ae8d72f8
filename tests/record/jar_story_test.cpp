#include "lakebound/record/jar_story.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;
using std::chrono::days;
using std::chrono::sys_days;
using namespace std::chrono_literals;

namespace {

const sys_days may_day = 2026y / std::chrono::May / 1;

StoryLine swatch_line(int day, std::size_t family) {
    StoryLine line;
    SwatchEntry swatch;
    swatch.paint.family = family;
    line.entry.day = may_day + days(day);
    line.entry.what = swatch;
    return line;
}

} // namespace

TEST_CASE("a waiting time is whole days, rounded up", "[unit]") {
    CHECK(whole_days(lakebound::hours(0)) == days(0));
    CHECK(whole_days(lakebound::hours(1)) == days(1));
    CHECK(whole_days(lakebound::hours(24)) == days(1));
    CHECK(whole_days(lakebound::hours(24.1)) == days(2));
    CHECK(whole_days(lakebound::hours(72)) == days(3));
    CHECK(whole_days(lakebound::hours(24.001)) == days(2));
    CHECK(whole_days(lakebound::hours(24 * (1 + 1e-11))) == days(1)); // the last digit is no day
    CHECK(ready_day(may_day, lakebound::hours(25)) == may_day + days(2));
}

TEST_CASE("swatches wait until their binder is dry", "[unit]") {
    LearningHabits habits;
    habits.binders[static_cast<std::size_t>(Process::watercolour)].drying = lakebound::hours(24);
    habits.binders[static_cast<std::size_t>(Process::oil)].drying = lakebound::hours(24 * 14);
    Family pans, oil;
    pans.process = Process::watercolour;
    oil.process = Process::oil;
    auto seen = swatch_line(2, 0);
    seen.sign = PaintSign::chalks;
    StoryLine remark;
    remark.entry.what = NoteEntry{};
    const std::vector lines{swatch_line(0, 1), remark, seen, swatch_line(9, 0)};
    const auto open = open_swatches(lines, habits, {pans, oil}, Process::watercolour, may_day + days(10));
    REQUIRE(open.size() == 2);
    CHECK(open[0].line == 0);
    CHECK(open[0].ready == may_day + days(14));
    CHECK_FALSE(open[0].is_ready);
    CHECK(open[1].line == 3);
    CHECK(open[1].ready == may_day + days(10));
    CHECK(open[1].is_ready); // on that very day
    CHECK_FALSE(open[0].as_asked);
    CHECK(open[1].as_asked);
    JarStory story;
    CHECK(story.next() == NextStep::as_coached);
    story.open = {open[0]}; // an oil holds up no watercolour
    CHECK(story.next() == NextStep::as_coached);
    story.open = open_swatches(lines, habits, {pans, oil}, Process::oil, may_day + days(8));
    CHECK(story.next() == NextStep::wait);
    story.slab = StoryOfSlab{};
    CHECK(story.next() == NextStep::go_on);
    // Too little for a swatch of 0.2 g, beyond the doubt of what is left; one that waits is judged all the same.
    story.habits.swatch_powder = grams(0.2);
    story.slab.reset(), story.open.clear();
    story.card.left = grams(0.1), story.card.uncertainty = grams(0.05);
    CHECK(story.next() == NextStep::too_little);
    story.card.uncertainty = grams(0.1);
    CHECK(story.next() == NextStep::as_coached);
    story.card.uncertainty = grams(0.05);
    story.slab = StoryOfSlab{};
    CHECK(story.next() == NextStep::go_on);
    story.open = open;
    CHECK(story.next() == NextStep::judge_swatch);
    story.slab.reset(), story.open.clear(), story.card.left.reset();
    CHECK(story.next() == NextStep::as_coached);
}

TEST_CASE("what lies on the slab keeps a month", "[unit]") {
    std::vector lines{swatch_line(0, 1), swatch_line(3, 1)};
    lines[0].entry.id = "a", lines[1].entry.id = "b";
    CHECK(line_on_slab(lines, "b", may_day + days(3 + 31)) == 1u);
    CHECK_FALSE(line_on_slab(lines, "b", may_day + days(3 + 32)));
    CHECK(line_on_slab(lines, "a", may_day) == 0u);
    CHECK_FALSE(line_on_slab(lines, "c", may_day));
    for (const auto lost : {PaintSign::grows_mould, PaintSign::thrown_away}) {
        lines[0].sign = lost;
        CHECK_FALSE(line_on_slab(lines, "a", may_day));
    }
}

TEST_CASE("swatches of one paint that showed different things are found", "[unit]") {
    const auto judged = [](int day, double k, PaintSign sign, std::size_t family = 0, std::size_t lot = 0) {
        StoryLine line = swatch_line(day, family);
        auto& paint = std::get<SwatchEntry>(line.entry.what).paint;
        paint.library_k = BinderSufficiency::of(k);
        paint.lot = lot;
        line.sign = sign;
        return line;
    };
    using Pairs = std::vector<std::pair<std::size_t, std::size_t>>;
    const auto first = judged(0, 1.00, PaintSign::chalks);
    CHECK(disagreeing_swatches({first, judged(1, 1.02, PaintSign::does_not_chalk)}) == Pairs{{0, 1}});
    CHECK(disagreeing_swatches({judged(0, 1.02, PaintSign::holds), judged(1, 1.00, PaintSign::chalks)}) == Pairs{{0, 1}});
    CHECK(disagreeing_swatches({first, judged(1, 1.04, PaintSign::does_not_chalk)}).empty());
    CHECK(disagreeing_swatches({judged(0, 2.00, PaintSign::chalks), judged(1, 2.02, PaintSign::holds)}) == Pairs{{0, 1}});
    CHECK(disagreeing_swatches({judged(0, 2.00, PaintSign::chalks), judged(1, 0.50, PaintSign::holds)}).empty());
    CHECK(disagreeing_swatches({first, judged(1, 1.02, PaintSign::chalks)}).empty());
    CHECK(disagreeing_swatches({first, judged(1, 1.02, PaintSign::holds, 1)}).empty());
    CHECK(disagreeing_swatches({first, judged(1, 1.02, PaintSign::holds, 0, 1)}).empty());
    CHECK(disagreeing_swatches({first, judged(1, 1.02, PaintSign::grows_mould)}).empty());
    CHECK(disagreeing_swatches({first, swatch_line(1, 0)}).empty()); // not judged
    // One k is as near as .03 in ln k: e^.03 is 1.03045.
    CHECK(disagreeing_swatches({first, judged(1, 1.0304, PaintSign::holds)}) == Pairs{{0, 1}});
    CHECK(disagreeing_swatches({first, judged(1, 1.0306, PaintSign::holds)}).empty());
    CHECK(disagreeing_swatches({first, judged(1, 1.02, PaintSign::holds), judged(2, 1.01, PaintSign::chalks)}) == Pairs{{0, 1}, {1, 2}});
    StoryLine ground;
    ground.entry.what = ChangedEntry{};
    CHECK(disagreeing_swatches({first, ground, judged(1, 1.02, PaintSign::holds)}).empty());
}

TEST_CASE("a batch can be mended when it was just told to fail and what is in it is known", "[unit]") {
    JarStory story;
    CHECK_FALSE(batch_to_mend(story));
    StoryLine batch;
    batch.entry.id = "weld/b";
    batch.entry.what = BatchEntry{};
    batch.medium_mass = grams(9.8);
    const auto told = [&](PaintSign sign, const char* of = "weld/b") {
        StoryLine line;
        line.entry.what = OutcomeEntry{of, sign};
        story.lines = {batch, line};
        story.batches = {0};
        return batch_to_mend(story);
    };
    CHECK(told(PaintSign::chalks) == 0u);
    CHECK(told(PaintSign::shines) == 0u);
    CHECK_FALSE(told(PaintSign::holds));
    CHECK_FALSE(told(PaintSign::grows_mould));
    CHECK_FALSE(told(PaintSign::chalks, "weld/a"));
    story.lines.push_back(swatch_line(3, 0)); // something else was entered since
    CHECK_FALSE(batch_to_mend(story));
    batch.medium_mass = {};
    CHECK_FALSE(told(PaintSign::chalks));
    batch.medium_mass = grams(0.01); // however little, it is known
    CHECK(told(PaintSign::chalks) == 0u);
    batch.medium_mass = grams(9.8);
    std::get<BatchEntry>(batch.entry.what).paint.of_this_jar_alone = false;
    CHECK_FALSE(told(PaintSign::chalks));
}

TEST_CASE("a swatch judged while wet is told", "[unit]") {
    JarStory story;
    for (int i = 0; i < 4; ++i)
        story.lines.push_back(swatch_line(i, 0));
    for (std::size_t i : {0u, 1u, 2u})
        story.lines[i].dry = may_day + days(5);
    story.lines[0].judged = may_day + days(4);
    story.lines[1].judged = may_day + days(5); // on the day it is dry
    story.lines[3].judged = may_day;           // of which nothing is known when it dries
    CHECK(judged_early(story) == std::vector<std::size_t>{0});
}

TEST_CASE("what a weighing found is news for a month", "[unit]") {
    JarStory story;
    story.today = may_day + days(40);
    for (const int day : {8, 9, 40})
        story.card.losses.push_back({.mass = grams(day), .day = may_day + days(day)});
    const auto fresh = fresh_losses(story);
    REQUIRE(fresh.size() == 2);
    CHECK(in_grams(fresh[0].mass) == Approx(9));
    CHECK(in_grams(fresh[1].mass) == Approx(40));
}

TEST_CASE("Where no batch was mixed there is none to mend", "[unit]") {
    JarStory story;
    CHECK_FALSE(batch_to_mend(story));
    story.lines.emplace_back();
    CHECK_FALSE(batch_to_mend(story));
}
