#include "lakebound/record/bath_story.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "bath/kitchen_bath.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using namespace std::chrono_literals;
using std::chrono::sys_days;

namespace {

const sys_days first_of_june = 2026y / std::chrono::June / 1;
const sys_days last_of_june = 2026y / std::chrono::June / 30;

BathSetting setting_of_story() {
    BathSetting setting = kitchen_bath();
    setting.dye_liquor = litres(1.0);
    return setting;
}

/// Entries by day of June, numbered as they come.
struct JuneEntries {
    std::vector<BathEntry> entries;
    template <class What> JuneEntries& on(int day, What what, std::optional<std::chrono::minutes> hour = {}) {
        char id[32];
        std::snprintf(id, sizeof id, "2026-06-%02d-%02d-x", day, static_cast<int>(entries.size()) + 1);
        entries.push_back({id, first_of_june + std::chrono::days(day - 1), hour, what});
        return *this;
    }
    BathStory story(std::optional<sys_days> since = {}) const {
        return bath_story({}, entries, setting_of_story(), since, last_of_june);
    }
};

CakeEntry cake(double g, bool wet = false) { return {grams(g), wet}; }
PenReading pen_reads(double us) { return {microsiemens_per_centimetre(us), degrees_celsius(25), {}}; }
PhEntry ph_of(double ph) { return {{Ph::of(ph), PhMeans::pen, false}}; }

BathContradiction only_fault(const BathStory& story) {
    REQUIRE(story.faults.size() == 1);
    return story.faults[0].kind;
}

} // namespace

TEST_CASE("hue and swatch are kept as they were written, the last one counts", "[unit]") {
    const auto story = JuneEntries().on(1, HueEntry{"red"}).on(2, HueEntry{"warm rose"}).on(2, BathSwatchEntry{12}).story();
    CHECK(story.readings.hue == "warm rose");
    CHECK(story.readings.swatch == 12u);
    CHECK(story.lines.size() == 3);
    const auto none = JuneEntries().on(1, ph_of(6.5)).story();
    CHECK(none.readings.hue.empty());
    CHECK_FALSE(none.readings.swatch);
}

TEST_CASE("a bath's entries fold into its readings", "[unit]") {
    const auto story = JuneEntries()
                           .on(1, FilterEntry{{minutes(4), litres(.5)}, litres(1.2)})
                           .on(1, FoamEntry{seconds(40)})
                           .on(1, PouredEntry{millilitres(115)})
                           .on(1, PhEntry{{Ph::of(5.4), PhMeans::pen, true}})
                           .on(1, PouredEntry{millilitres(20)})
                           .on(1, ph_of(6.5))
                           .on(1, ph_of(6.6))
                           .on(2, ColourEntry{{8.0}})
                           .on(2, BlanketEntry{{millimetres(100), millimetres(62), millimetres(48), hours(2)}})
                           .story();
    CHECK(story.faults.empty());
    CHECK(story.lines.size() == 9);
    const auto& r = story.readings;
    REQUIRE(r.alkali.size() == 2);
    CHECK(in_grams(r.alkali[0]) == Approx(11.5)); // 10 mL to the gram
    CHECK(in_grams(r.alkali[1]) == Approx(2.0));
    REQUIRE(r.ph.size() == 2); // the one before the second portion is of another bath
    CHECK(r.ph[0].ph == Ph::of(6.5));
    CHECK(in_litres(*r.to_filter) == Approx(1.2));
    CHECK(in_seconds(*r.foam_life) == Approx(40));
    CHECK(r.colour->dilution == Approx(8));
    CHECK(in_hours(r.blanket->interval) == Approx(2));
    CHECK(story.last == first_of_june + 24h);
    CHECK_FALSE(r.jarred);
}

TEST_CASE("every entry is a line of the story, and the last one its day", "[unit]") {
    const decltype(BathEntry::what) all[] = {FilterEntry{{minutes(4), litres(.5)}, litres(1.2)}, PouredEntry{millilitres(115)}, AluminiumEntry{grams(1)},
                                 ph_of(6.5), FoamEntry{seconds(40)}, BlanketEntry{{millimetres(100), millimetres(62), millimetres(48), hours(2)}},
                                 ColourEntry{{8.0}}, WashWaterEntry{pen_reads(300)}, DecantEntry{pen_reads(400)}, cake(38.6),
                                 HueEntry{"yellow"}, BathSwatchEntry{3}, NoteEntry{}};
    for (const auto& what : all) {
        CAPTURE(what.index());
        const auto story = JuneEntries().on(2, what).story();
        CHECK(story.lines == std::vector<std::size_t>{0});
        CHECK(story.last == first_of_june + std::chrono::days(1));
    }
}

TEST_CASE("alum added against too much soda begins the reading anew, and a decant ends the blanket", "[unit]") {
    const auto story = JuneEntries()
                           .on(1, PouredEntry{millilitres(240)})
                           .on(1, ph_of(8.6))
                           .on(1, AluminiumEntry{grams(9)})
                           .on(1, ph_of(6.8))
                           .on(2, BlanketEntry{{millimetres(100), millimetres(62), millimetres(48), hours(2)}})
                           .on(2, WashWaterEntry{pen_reads(300)})
                           .on(2, DecantEntry{pen_reads(4000)})
                           .story();
    CHECK(story.readings.ph.size() == 1);
    REQUIRE(story.readings.aluminium.size() == 1);
    CHECK(in_grams(story.readings.aluminium[0]) == Approx(9));
    CHECK_FALSE(story.readings.blanket);
    CHECK(story.readings.decants.size() == 1);
    CHECK(story.last_washed == first_of_june + 24h);
}

TEST_CASE("the order of the list does not matter, nor does what was taken back", "[identity]") {
    JuneEntries june;
    june.on(1, PouredEntry{millilitres(100)}).on(1, ph_of(6.4)).on(1, ph_of(6.5)).on(3, cake(38.6)).on(4, cake(24.9)).on(5, cake(17.9));
    const auto straight = june.story();
    std::mt19937 engine(7);
    for (int turn = 0; turn < 20; ++turn) {
        JuneEntries mixed = june;
        std::shuffle(mixed.entries.begin(), mixed.entries.end(), engine);
        const auto story = mixed.story();
        REQUIRE(story.faults.empty());
        REQUIRE(story.readings.weighings.size() == 3);
        for (std::size_t i = 0; i < 3; ++i) {
            CHECK(story.readings.weighings[i].mass == straight.readings.weighings[i].mass);
            CHECK(story.readings.weighings[i].time == straight.readings.weighings[i].time);
        }
        CHECK(story.readings.ph.back().ph == Ph::of(6.5));
    }
    JuneEntries slip = june;
    slip.on(6, cake(71.0)).on(6, UndoEntry{slip.entries.back().id});
    CHECK(slip.story().faults.empty());
    CHECK(slip.story().readings.weighings.size() == 3);
}

TEST_CASE("weighings stand at their hour, at that of the others, else at noon", "[unit]") {
    auto story = JuneEntries().on(3, cake(38.6)).on(4, cake(24.9)).on(5, cake(17.9)).story();
    CHECK(story.first_weighed == first_of_june + std::chrono::days(2));
    CHECK(in_hours(story.readings.weighings[0].time) == Approx(12));
    CHECK(in_hours(story.readings.weighings[2].time) == Approx(60));
    story = JuneEntries().on(3, cake(38.6), 8h).on(4, cake(24.9, true)).on(4, cake(23.0), 20h).story();
    CHECK(only_fault(story) == BathContradiction::weighed_at_once); // one of the two has no hour
    CHECK(story.faults[0].other.has_value());
    story = JuneEntries().on(3, cake(38.6), 8h).on(3, cake(37.0), 20h + 30min).on(4, cake(24.9, true)).story();
    CHECK(story.faults.empty());
    CHECK(in_hours(story.readings.weighings[1].time) == Approx(20.5));
    CHECK(in_hours(story.readings.weighings[2].time) == Approx(32)); // at eight, as the first
    CHECK(story.readings.weighings[2].surface_wet);
}

TEST_CASE("entries that cannot be are told with what they contradict", "[unit]") {
    auto story = JuneEntries().on(3, cake(20.0)).on(4, cake(21.0)).story();
    CHECK(only_fault(story) == BathContradiction::cake_rises);
    CHECK(story.faults[0].entry == 1);
    CHECK(story.faults[0].other == 0u);
    CHECK(story.readings.weighings.size() == 1); // left out
    CHECK(story.lines.size() == 1);
    CHECK(JuneEntries().on(3, cake(20.0)).on(4, cake(20.1)).story().faults.empty()); // within two readings of the scale

    story = JuneEntries().on(1, DecantEntry{pen_reads(900)}).on(2, DecantEntry{pen_reads(200)}).on(2, WashWaterEntry{pen_reads(300)}).story();
    CHECK(only_fault(story) == BathContradiction::below_wash_water);
    CHECK(story.faults[0].entry == 1);
    CHECK(story.faults[0].other == 2u);
    CHECK(story.readings.decants.size() == 1);
    CHECK(JuneEntries().on(1, WashWaterEntry{pen_reads(300)}).on(2, DecantEntry{pen_reads(298)}).story().faults.empty());

    CHECK(only_fault(JuneEntries().on(30, cake(20)).on(31, cake(19)).story()) == BathContradiction::in_the_future);
    CHECK(only_fault(JuneEntries().on(3, cake(20)).story(first_of_june + std::chrono::days(4))) == BathContradiction::before_the_bath);
    CHECK(only_fault(JuneEntries().on(3, UndoEntry{"2026-06-01-09-x"}).story()) == BathContradiction::unknown_entry);
    JuneEntries undone;
    undone.on(3, cake(20));
    undone.on(3, UndoEntry{undone.entries[0].id});
    undone.on(3, UndoEntry{undone.entries[1].id});
    CHECK(only_fault(undone.story()) == BathContradiction::unknown_entry); // an undo is not undone

    story = JuneEntries().on(1, FilterEntry{{minutes(4), litres(.5)}, {}}).on(1, FilterEntry{{minutes(9), litres(.4)}, {}}).story();
    CHECK(only_fault(story) == BathContradiction::filter_falls);
    CHECK(story.readings.filter.size() == 1);
    story = JuneEntries().on(1, FilterEntry{{minutes(4), litres(.5)}, litres(.4)}).story();
    CHECK(only_fault(story) == BathContradiction::beyond_the_whole);

    story = JuneEntries().on(3, cake(12.0)).on(4, JarredEntry{"madder", grams(30)}).story();
    CHECK(only_fault(story) == BathContradiction::jar_above_cake);
    CHECK_FALSE(story.readings.jarred);
    story = JuneEntries().on(3, cake(12.0)).on(4, JarredEntry{"madder", grams(11.6)}).story();
    CHECK(story.faults.empty());
    CHECK(story.readings.jarred);
    CHECK(bath_standing(story.readings, setting_of_story()).next == BathStep::in_its_jar);
}

TEST_CASE("dry on those days, nine times in ten", "[unit]") {
    const auto setting = setting_of_story();
    // 38.6, 24.9 and 17.9 g a day apart end at 10.59 g with tau 35.74 h, 1 % above it 8.31 days after the first weighing,
    // which was at noon (drying brief D): on 11 June at 19 h.
    const auto story = JuneEntries().on(3, cake(38.6)).on(4, cake(24.9)).on(5, cake(17.9)).story();
    const auto standing = bath_standing(story.readings, setting);
    REQUIRE(standing.dried);
    const auto days = dry_days(story, standing, setting.habits, first_of_june + std::chrono::days(4));
    REQUIRE(days);
    CHECK(days->first <= first_of_june + std::chrono::days(10));
    CHECK(days->last >= first_of_june + std::chrono::days(10));
    CHECK(days->last - days->first <= std::chrono::days(3));
    // Chance before the first of these days, and after the last, is 1 in 20 at most.
    const auto since = [&](sys_days day) { return hours(std::chrono::duration<double, std::ratio<3600>>(day - *story.first_weighed).count()); };
    const Share within = setting.habits.drying.dry_within.value();
    CHECK(chance_dry(standing.dried->belief, since(days->first), within).value() < 0.05);
    CHECK(chance_dry(standing.dried->belief, since(days->last + std::chrono::days(1)), within).value() > 0.95);
    // A day that has passed is not promised again: it is to be weighed once more.
    CHECK_FALSE(dry_days(story, standing, setting.habits, last_of_june));
    CHECK(bath_standing_on(last_of_june, story, setting).next == BathStep::weigh_once_more);
    CHECK(bath_standing_on(last_of_june, story, setting).dried->dry_now.value() > .99);
    CHECK(bath_standing_on(first_of_june + std::chrono::days(5), story, setting).next == BathStep::keep_drying);
}

TEST_CASE("once the lake is laid the days are told from its last entry", "[unit]") {
    auto setting = setting_of_story();
    setting.planned_washes = 2;
    const auto laid = JuneEntries().on(2, PouredEntry{millilitres(145)}).on(2, ph_of(6.5)).on(3, ph_of(6.6)).story();
    const auto standing = bath_standing(laid.readings, setting);
    REQUIRE(standing.washes_by_plan);
    const auto days = dry_days(laid, standing, setting.habits, first_of_june);
    REQUIRE(days);
    // Noon of the 3rd, two washes of 12 h, and a usual cake.
    const auto day = [&](Time drying) { return first_of_june + std::chrono::days(2 + static_cast<int>(std::floor((12.0 + 24.0 + in_hours(drying)) / 24.0))); };
    CHECK(days->first == day(usual_drying(setting.habits.drying).early));
    CHECK(days->last == day(usual_drying(setting.habits.drying).late));
}

TEST_CASE("before it was weighed the days are those of the washes and of a usual cake", "[unit]") {
    const auto setting = setting_of_story();
    const auto washed = JuneEntries()
                            .on(2, WashWaterEntry{pen_reads(300)})
                            .on(2, DecantEntry{pen_reads(12000)})
                            .on(3, DecantEntry{pen_reads(4430)})
                            .story();
    const auto standing = bath_standing(washed.readings, setting);
    REQUIRE(standing.washed);
    REQUIRE(standing.washed->sure);
    REQUIRE(*standing.washed->sure > 0);
    const auto days = dry_days(washed, standing, setting.habits, first_of_june);
    REQUIRE(days);
    // tau 36 h x/ 2, from 80 % of water to 1 % above the end: 6 tau, so 9 days in the middle, and a factor of 3.3 each way.
    const auto drying = usual_drying(setting.habits.drying);
    CHECK(in_hours(drying.likely) == Approx(36 * std::log(4 / .01)).epsilon(1e-9));
    CHECK(in_hours(drying.late) / in_hours(drying.likely) == Approx(std::exp(1.64485 * std::hypot(std::log(2.0), .06 / .16 / std::log(400.0)))).epsilon(1e-4));
    CHECK(days->last - days->first > std::chrono::days(14)); // wide, and told as such
    CHECK_FALSE(dry_days(JuneEntries().on(1, PouredEntry{millilitres(100)}).story(), {}, setting.habits, first_of_june));
}

TEST_CASE("nine cakes in ten are dry on the days that were told", "[reference]") {
    auto setting = setting_of_story();
    setting.scale = {grams(.1), Mass{}};
    std::mt19937 engine(11);
    std::normal_distribution<double> normal;
    int told = 0, held = 0;
    double width = 0.0;
    while (told < 150) {
        const double tau = 36.0 * std::exp(normal(engine) * std::log(2.0)), end = 11.0 * std::exp(.12 * normal(engine));
        JuneEntries june;
        for (int day = 1; day <= 4; ++day) {
            const double true_mass = end * (1.0 + 2.6 * std::exp(-24.0 * (day - 1) / tau));
            june.on(day, cake(.1 * std::round(10.0 * true_mass * (1.0 + .003 * normal(engine)))));
        }
        const auto story = june.story();
        if (!story.faults.empty() || dries_evenly(story.readings.weighings)) continue; // told as such
        const auto standing = bath_standing(story.readings, setting);
        if (standing.dried->state != DryingState::falling) continue;
        const auto days = dry_days(story, standing, setting.habits, first_of_june + std::chrono::days(3));
        if (!days) continue;
        ++told;
        const double dry_after = 12.0 + tau * std::log(2.6 / .01); // hours since the first midnight
        const sys_days dry = std::max(first_of_june + std::chrono::days(static_cast<int>(dry_after / 24.0)), first_of_june + std::chrono::days(3));
        held += days->first <= dry && dry <= days->last;
        width += static_cast<double>((days->last - days->first).count());
    }
    CHECK(held >= 129); // 86 in 100 at least; 150 draws of 0.9 scatter by 3.7
    CHECK(width / told < 8.0); // and the days are worth something
}

TEST_CASE("an entry whose name has no number comes first on its day", "[unit]") {
    std::vector<BathEntry> entries{{"2026-06-02-01-ph", first_of_june + std::chrono::days(1), {}, ph_of(6.6)},
                                   {"mine", first_of_june + std::chrono::days(1), {}, ph_of(6.4)},
                                   {"2026-06-02-x", first_of_june + std::chrono::days(1), {}, ph_of(6.5)}};
    const auto story = bath_story({}, entries, setting_of_story(), first_of_june + std::chrono::days(1), last_of_june);
    CHECK(story.faults.empty()); // on the day itself that the bath was begun, too
    CHECK(story.lines == std::vector<std::size_t>{2, 1, 0});
}

TEST_CASE("a remark counts as a day on which something was written, and changes nothing", "[unit]") {
    const auto story = JuneEntries().on(1, ph_of(6.5)).on(4, NoteEntry{}).story();
    CHECK(story.lines.size() == 2);
    CHECK(story.last == first_of_june + std::chrono::days(3));
    CHECK(story.readings.ph.size() == 1);
}

TEST_CASE("a filter runs on: neither its time nor its volume goes back", "[errors]") {
    const FilterEntry first{{minutes(4), litres(.5)}, {}};
    const auto then = [&](double min, double l) { return JuneEntries().on(1, first).on(1, FilterEntry{{minutes(min), litres(l)}, {}}).story(); };
    CHECK(then(9, .8).faults.empty());
    CHECK(only_fault(then(3, .8)) == BathContradiction::filter_falls);
    CHECK(only_fault(then(4, .8)) == BathContradiction::filter_falls);
    CHECK(only_fault(then(9, .5)) == BathContradiction::filter_falls);
    CHECK(only_fault(then(9, .4)) == BathContradiction::filter_falls);
    CHECK(then(9, .4).faults[0].other == 0u);
}

TEST_CASE("two weighings of a day need their hours, and two hours", "[errors]") {
    CHECK(only_fault(JuneEntries().on(3, cake(38.6), 8h).on(3, cake(37.0), 8h).story()) == BathContradiction::weighed_at_once);
    CHECK(only_fault(JuneEntries().on(3, cake(38.6), 8h).on(3, cake(37.0)).story()) == BathContradiction::weighed_at_once);
    CHECK(only_fault(JuneEntries().on(3, cake(38.6)).on(3, cake(37.0), 8h).story()) == BathContradiction::weighed_at_once);
    CHECK(JuneEntries().on(3, cake(38.6), 8h).on(3, cake(37.0), 9h).story().faults.empty());
    // Of several at one moment the first that was entered counts, and the others are told with it.
    const auto three = JuneEntries().on(3, cake(38.6), 8h).on(3, cake(37.0), 8h).on(3, cake(36.0), 8h).story();
    REQUIRE(three.readings.weighings.size() == 1);
    CHECK(in_grams(three.readings.weighings[0].mass) == Approx(38.6));
    REQUIRE(three.faults.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(three.faults[i].entry == i + 1);
        CHECK(three.faults[i].other == 0u);
    }
}

TEST_CASE("a jar is held against the cake where both were weighed", "[unit]") {
    const auto unweighed = JuneEntries().on(3, cake(12.0)).on(4, JarredEntry{"madder", {}}).story();
    CHECK(unweighed.faults.empty());
    CHECK(unweighed.readings.jarred);
    const auto no_cake = JuneEntries().on(4, JarredEntry{"madder", grams(30)}).story();
    CHECK(no_cake.faults.empty());
    CHECK(no_cake.jar->jar == "madder");
    const auto setting = setting_of_story();
    CHECK_FALSE(dry_days(no_cake, bath_standing(no_cake.readings, setting), setting.habits, first_of_june)); // it is in its jar
}

TEST_CASE("a pen tells nothing of a lake laid with chalk, so no decant contradicts its water", "[unit]") {
    auto setting = setting_of_story();
    JuneEntries june;
    june.on(1, WashWaterEntry{pen_reads(300)}).on(2, DecantEntry{pen_reads(100)});
    CHECK(bath_story({}, june.entries, setting, {}, last_of_june).faults.size() == 1);
    setting.chalk = ChalkLake{};
    CHECK(bath_story({}, june.entries, setting, {}, last_of_june).faults.empty());
}

TEST_CASE("the day is looked at as far as the cake was weighed", "[unit]") {
    const auto setting = setting_of_story();
    // Before any weighing there is nothing to look at.
    const auto laid = JuneEntries().on(1, PouredEntry{millilitres(100)}).story();
    CHECK_FALSE(bath_standing_on(last_of_june, laid, setting).dried);
    // Weighings of the bath's file have no day: they are judged as they stand.
    BathReadings of_file;
    of_file.weighings = {{hours(0), grams(38.6), false}, {hours(24), grams(24.9), false}, {hours(48), grams(17.9), false}};
    const auto undated = bath_story(of_file, {}, setting, {}, last_of_june);
    const auto standing = bath_standing_on(last_of_june, undated, setting);
    REQUIRE(standing.dried);
    CHECK(standing.next == BathStep::keep_drying);
    CHECK_FALSE(dry_days(undated, standing, setting.habits, first_of_june));
    // On the day of the last weighing and before it that weighing is the latest.
    const auto story = JuneEntries().on(3, cake(38.6), 20h).on(4, cake(24.9), 20h).on(5, cake(17.9), 20h).story();
    const auto now = bath_standing(story.readings, setting), on_the_day = bath_standing_on(first_of_june + std::chrono::days(4), story, setting);
    CHECK(on_the_day.dried->dry_now.value() == Approx(now.dried->dry_now.value()));
    CHECK(bath_standing_on(first_of_june + std::chrono::days(12), story, setting).dried->dry_now.value() > now.dried->dry_now.value() + 0.5);
    // A day is looked at as it stands at noon.
    const auto on_the_tenth = bath_standing_on(first_of_june + std::chrono::days(9), story, setting);
    CHECK(on_the_tenth.dried->dry_now.value() ==
          Approx(chance_dry(now.dried->belief, hours(24 * 7 + 12), setting.habits.drying.dry_within.value()).value()).epsilon(1e-12));
    // At rest it is dry today, and not on a day that has passed.
    const auto stands = [](double end) {
        return JuneEntries().on(3, cake(38.6)).on(4, cake(22)).on(5, cake(end + 0.5)).on(6, cake(end)).on(7, cake(end)).on(8, cake(end)).story();
    };
    const auto damp = stands(21.0); // far above where such a cake comes to rest
    const auto stuck = bath_standing_on(first_of_june + std::chrono::days(8), damp, setting);
    CHECK(stuck.dried->state == DryingState::stuck);
    CHECK_FALSE(dry_days(damp, stuck, setting.habits, first_of_june + std::chrono::days(8)));
    const auto still = stands(6.6);
    const auto rest = bath_standing_on(first_of_june + std::chrono::days(8), still, setting);
    REQUIRE(rest.dried);
    CHECK(rest.dried->state == DryingState::constant);
    const auto today = dry_days(still, rest, setting.habits, first_of_june + std::chrono::days(8));
    REQUIRE(today);
    CHECK(today->first == first_of_june + std::chrono::days(8));
    CHECK(today->last == today->first);
}
