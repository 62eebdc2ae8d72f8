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
    const auto open = open_swatches(lines, habits, {pans, oil}, may_day + days(10));
    REQUIRE(open.size() == 2);
    CHECK(open[0].line == 0);
    CHECK(open[0].ready == may_day + days(14));
    CHECK_FALSE(open[0].is_ready);
    CHECK(open[1].line == 3);
    CHECK(open[1].ready == may_day + days(10));
    CHECK(open[1].is_ready); // on that very day
    JarStory story;
    CHECK(story.next() == NextStep::as_coached);
    story.open = {open[0]};
    CHECK(story.next() == NextStep::wait);
    story.open = open;
    CHECK(story.next() == NextStep::judge_swatch);
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
