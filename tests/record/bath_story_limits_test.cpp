// What the entries of a bath contradict, from both sides of each limit, and the days that follow from its forecast.

#include "lakebound/record/bath_story.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <vector>

#include "bath/kitchen_bath.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using namespace std::chrono_literals;
using std::chrono::sys_days;

namespace {

const sys_days first_of_july = 2026y / std::chrono::July / 1;
const sys_days last_of_august = 2026y / std::chrono::August / 31;

template <class What> BathEntry july(int day, int number, What what, std::optional<std::chrono::minutes> hour = {}) {
    char id[32];
    std::snprintf(id, sizeof id, "2026-07-%02d-%02d-x", day, number);
    return {id, first_of_july + std::chrono::days(day - 1), hour, what};
}
BathStory story_of(const std::vector<BathEntry>& entries, const BathSetting& setting = kitchen_bath()) {
    return bath_story({}, entries, setting, {}, last_of_august);
}
CakeEntry weighed(double g) { return {grams(g), false}; }

} // namespace

TEST_CASE("a cake rises, and a jar is above its cake, beyond two and a half of what is left open", "[unit]") {
    const BathSetting setting = kitchen_bath();
    const auto doubt = [&](double g) { return in_grams(weighing_doubt(grams(g), setting.scale, setting.habits.drying)); };
    for (const double before : {12.0, 150.0}) {
        // The doubt of the second weighing goes with its mass: met by a few rounds.
        const auto after = [&](double spreads, bool jarred) {
            double mass = before;
            const double damp = jarred ? setting.habits.air_dry_water.standard_uncertainty().value() * before : 0.0;
            for (int i = 0; i < 50; ++i)
                mass = before + spreads * std::sqrt(doubt(before) * doubt(before) + doubt(mass) * doubt(mass) + damp * damp);
            return mass;
        };
        for (const auto& [spreads, rises] : {std::pair{2.49, false}, {2.51, true}}) {
            CAPTURE(before, spreads);
            const auto cakes = story_of({july(3, 1, weighed(before)), july(4, 1, weighed(after(spreads, false)))});
            CHECK(cakes.faults.size() == (rises ? 1u : 0u));
            CHECK(cakes.readings.weighings.size() == (rises ? 1u : 2u));
            const auto jar = story_of({july(3, 1, weighed(before)), july(4, 1, JarredEntry{"madder", grams(after(spreads, true))})});
            CHECK(jar.faults.size() == (rises ? 1u : 0u));
            CHECK(jar.jar.has_value() == !rises);
            CHECK(jar.readings.jarred == !rises);
            CHECK(jar.lines.size() == (rises ? 1u : 2u));
        }
    }
}

TEST_CASE("no more runs through than there was, but for what the eye leaves open", "[unit]") {
    const BathSetting setting = kitchen_bath();
    const double room = 1.0 + 2.0 * setting.habits.filter.volume_read_to.value().value();
    REQUIRE(room > 1.0);
    const auto faults = [&](double litres_through) {
        return story_of({july(1, 1, FilterEntry{{minutes(4), litres(0.5)}, litres(1.2)}), july(1, 2, FilterEntry{{minutes(9), litres(litres_through)}, {}})}).faults;
    };
    CHECK(faults(1.2 * room * 0.9999).empty());
    const auto beyond = faults(1.2 * room * 1.0001);
    REQUIRE(beyond.size() == 1);
    CHECK(beyond[0].kind == BathContradiction::beyond_the_whole);
    CHECK(beyond[0].entry == 1);
    CHECK(beyond[0].other == 0u);
}

TEST_CASE("weighings count from the midnight of the first day, at their hour, that of the others, or noon", "[unit]") {
    const auto hours_of = [](const BathStory& story) {
        std::vector<double> hours;
        for (const auto& w : story.readings.weighings)
            hours.push_back(in_hours(w.time));
        return hours;
    };
    using Hours = std::vector<double>;
    CHECK(hours_of(story_of({july(3, 1, weighed(30)), july(5, 1, weighed(20))})) == Hours{12, 60});
    CHECK(hours_of(story_of({july(3, 1, weighed(30)), july(5, 1, weighed(20), 7h)})) == Hours{7, 55});
    CHECK(hours_of(story_of({july(3, 1, weighed(30), 20h + 15min), july(5, 1, weighed(20), 7h), july(6, 1, weighed(18))})) == Hours{20.25, 55, 92.25});
    const auto two = story_of({july(3, 2, weighed(30), 20h), july(3, 1, weighed(28), 21h)}); // by the clock, not by number
    CHECK(hours_of(two) == Hours{20, 21});
    CHECK(in_grams(two.readings.weighings[0].mass) == Approx(30));
}

TEST_CASE("the days that are told are those of one in twenty and of nineteen in twenty", "[reference]") {
    const BathSetting setting = kitchen_bath();
    int told = 0;
    for (const double start : {30.0, 35.0, 41.0, 47.0, 52.0})
        for (const double kept : {0.5, 0.55, 0.6, 0.66}) {
            CAPTURE(start, kept);
            const double end = start / 4;
            std::vector<BathEntry> entries;
            double over = start - end;
            for (int day = 3; day < 7; ++day, over *= kept)
                entries.push_back(july(day, 1, weighed(std::round(10 * (end + over)) / 10), 15h));
            const BathStory story = story_of(entries, setting);
            if (!story.faults.empty()) continue;
            const auto standing = bath_standing(story.readings, setting);
            if (!standing.dried || standing.dried->state != DryingState::falling) continue;
            const sys_days midnight = first_of_july + std::chrono::days(2);
            const auto days = dry_days(story, standing, setting.habits, midnight);
            const Share within = setting.habits.drying.dry_within.value();
            // The first day by whose end the chance is .05, and that by whose end it is .95, sought day by day.
            std::optional<int> first, last;
            for (int day = 0; day < 60 && !last; ++day) {
                const double chance = chance_dry(standing.dried->belief, hours(24.0 * (day + 1)), within).value();
                if (!first && chance >= 0.05) first = day;
                if (chance >= 0.95) last = day;
            }
            if (!last) continue;
            REQUIRE(days);
            ++told;
            CHECK(days->first == midnight + std::chrono::days(*first));
            CHECK(days->last == midnight + std::chrono::days(*last));
            // From within the days on, today is the first; after the last there is none.
            const auto inside = dry_days(story, standing, setting.habits, days->last);
            REQUIRE(inside);
            CHECK(inside->first == days->last);
            CHECK(inside->last == days->last);
            CHECK_FALSE(dry_days(story, standing, setting.habits, days->last + std::chrono::days(1)));
            // On each day the chance at noon, and to be weighed once more from nine in ten on.
            for (int day = 5; day < 40; day += 7) {
                const sys_days on = first_of_july + std::chrono::days(day);
                const auto at = bath_standing_on(on, story, setting);
                const Time noon = hours(24.0 * (day - 2) + 12);
                if (!(noon > story.readings.weighings.back().time)) continue;
                const double chance = chance_dry(standing.dried->belief, noon, within).value();
                CHECK(at.dried->dry_now.value() == Approx(chance).epsilon(1e-12));
                if (standing.next == BathStep::keep_drying)
                    CHECK((at.next == BathStep::weigh_once_more) == (chance >= 0.9));
            }
        }
    CHECK(told > 2);
}

TEST_CASE("entries of one day are taken by their number, names without one first, and the last of a kind counts", "[unit]") {
    const auto story = story_of({july(2, 10, HueEntry{"ten"}), july(2, 9, HueEntry{"nine"}), july(1, 99, HueEntry{"before"})});
    CHECK(story.lines == std::vector<std::size_t>{2, 1, 0});
    CHECK(story.readings.hue == "ten");
    std::vector<BathEntry> bare{july(2, 1, HueEntry{"one"}), july(2, 1, HueEntry{"none"})};
    bare[1].id = "2026-07-02"; // no more than its date
    CHECK(story_of(bare).readings.hue == "one");
    CHECK(story_of(bare).lines == std::vector<std::size_t>{1, 0});
}
