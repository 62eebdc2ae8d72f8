#include "lakebound/report/verdict_words.hpp"

#include <catch2/catch.hpp>

#include <set>

using namespace lakebound;
using Catch::Contains;

namespace {
constexpr Verdict verdicts[] = {Verdict::fails_under, Verdict::amber_under, Verdict::green, Verdict::amber_over,
                                Verdict::fails_over};
constexpr Process processes[] = {Process::watercolour, Process::oil, Process::egg_tempera};
} // namespace

TEST_CASE("Each paint fails in its own way", "[unit]") {
    // Common practice, no source: gum cracks, oil wrinkles, yolk powders off.
    const auto head = [](Verdict verdict, Process process) { return verdict_words(verdict, process).head; };
    CHECK(head(Verdict::fails_under, Process::watercolour) == "will chalk");
    CHECK(head(Verdict::fails_under, Process::oil) == "will chalk");
    CHECK(head(Verdict::fails_under, Process::egg_tempera) == "will powder off");
    CHECK(head(Verdict::fails_over, Process::watercolour) == "too rich: will crack");
    CHECK(head(Verdict::fails_over, Process::oil) == "too rich: will wrinkle");
    CHECK(head(Verdict::fails_over, Process::egg_tempera) == "too rich: will not last");
    CHECK_THAT(verdict_words(Verdict::green, Process::watercolour).detail, Contains("gum"));
    CHECK_THAT(verdict_words(Verdict::green, Process::oil).detail, Contains("oil"));
    CHECK_THAT(verdict_words(Verdict::green, Process::egg_tempera).detail, Contains("yolk"));
    CHECK_THAT(verdict_words(Verdict::amber_over, Process::oil).detail, Contains("wrinkle"));
    CHECK_THAT(verdict_words(Verdict::amber_under, Process::egg_tempera).detail, Contains("powder off"));
}

TEST_CASE("What is not sure is said so, except on the sides, which promise nothing", "[unit]") {
    for (const auto process : processes)
        for (const auto verdict : verdicts) {
            const auto words = verdict_words(verdict, process);
            const bool side = verdict == Verdict::amber_under || verdict == Verdict::amber_over;
            INFO(words.head);
            CHECK((words.head == words.doubtful_head) == side);
            if (words.head.find("will ") != std::string::npos) CHECK_THAT(words.doubtful_head, Contains("will probably "));
            CHECK(words.detail.back() == '.');
        }
    CHECK(verdict_words(Verdict::green, Process::oil).doubtful_head == "should hold, not surely");
    CHECK(verdict_words(Verdict::amber_under, Process::oil).head == "on the lean side");
    CHECK(verdict_words(Verdict::amber_over, Process::oil).head == "on the rich side");
}

TEST_CASE("Verdict and certainty have keys of their own", "[unit]") {
    std::set<std::string> keys;
    for (const auto verdict : verdicts)
        keys.insert(key_of(verdict));
    CHECK(keys == std::set<std::string>{"fails_under", "amber_under", "green", "amber_over", "fails_over"});
    CHECK(key_of(Verdict::green) == "green");
    CHECK(key_of(Verdict::fails_over) == "fails_over");
    CHECK(key_of(Verdict::amber_under) == "amber_under");
    CHECK(key_of(Certainty::sure) == "sure");
    CHECK(key_of(Certainty::doubtful) == "doubtful");
}
