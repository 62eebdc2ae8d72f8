// Where a bath stands: which parts are told at which stage and after which entry, and each sentence with its figures on
// either side of where its words change. The texts under expected/ were read.
#include "lakebound/report/bath_sheet.hpp"

#include <catch2/catch.hpp>

#include "bath/kitchen_bath.hpp"
#include "lakebound/page/text_writer.hpp"
#include "support/bench_practice.hpp"
#include "support/expected_text.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using namespace std::chrono_literals;

namespace {

const std::chrono::sys_days thursday = 2026y / std::chrono::May / 14;

Bench one_scale() {
    auto bench = lakebound::testing::bare_bench();
    bench.name = "Kitchen";
    bench.scales = {{"kitchen scale", grams(0.1), grams(2000.0), {}}};
    return bench;
}
BathPlan kitchen_plan() { return plan_bath(roots_and_alum(), usual_laking(), usual_wash_habits()); }
BathStanding standing_of(const BathReadings& readings) {
    auto setting = kitchen_bath();
    setting.dye_liquor = litres(1.3);
    return bath_standing(readings, setting);
}

/// All that can be told at once, though no bath has it all at one time.
BathStanding full_standing() {
    BathReadings r{};
    r.filter = {{minutes(30), litres(.3)}, {hours(2), litres(.6)}};
    r.to_filter = litres(1.7);
    BathStanding all = standing_of(r);
    BathReadings laid{};
    laid.alkali = {grams(14.5)};
    laid.ph = {{Ph::of(6.6), PhMeans::pen, false}, {Ph::of(6.5), PhMeans::pen, false}};
    laid.colour = ColourMatch{4.0};
    laid.blanket = InterfaceHeights{millimetres(100.0), millimetres(62.0), millimetres(48.0), hours(2.0)};
    const auto then = standing_of(laid);
    all.alkali = then.alkali, all.sinking = then.sinking, all.second = then.second;
    BathReadings washed{};
    const auto pen = [](double us) { return PenReading{microsiemens_per_centimetre(us), degrees_celsius(25), {}}; };
    washed.wash_water = pen(200);
    washed.decants = {pen(12000), pen(4330)};
    washed.weighings = weighed_daily({38.6, 24.9, 17.9});
    const auto last = standing_of(washed);
    all.washed = last.washed, all.water = last.water, all.salts_allowed = last.salts_allowed, all.dried = last.dried;
    all.dried->state = DryingState::stuck; // its picture then has no way to draw, which would take long
    all.readings.weighings = washed.weighings, all.readings.ph = laid.ph;
    all.readings.hue = "warm rose", all.readings.swatch = 12;
    all.doubts = {BathDoubt::end_open};
    all.to_expect_kg = {0.0096, 0.0114};
    all.washes_by_plan.reset();
    return all;
}

std::string headings(const page::Page& page) {
    std::string text;
    for (const auto& section : page.sections) text += (text.empty() ? "" : " | ") + section.heading;
    return text;
}

} // namespace

TEST_CASE("Which parts of a standing are told at each stage, after each entry, whole", "[unit]") {
    const auto plan = kitchen_plan();
    const auto bench = one_scale();
    auto at = full_standing();
    std::string text;
    for (const auto& row : WordTable<BathStage>::rows) {
        at.stage = row.value;
        const auto told = [&](const char* when, const BathTold& words) {
            text += std::string(row.word) + ", " + when + ": " + headings(bath_standing_page(plan, at, bench, words)) + "\n";
        };
        BathTold words;
        words.bath = "madder";
        words.lines = {{"2026-05-14-01-began", thursday, "note", "", ""}};
        told("asked for", words);
        words.kept = "baths/madder/2026-05-14-01.yaml";
        for (const char* entered : {"ph", "colour", "hue", "swatch"}) {
            words.entered = {"poured", entered};
            told(entered, words);
        }
        words.entered = {"jarred"};
        words.jar_file = "jars/madder.yaml";
        words.jar = BathJar{};
        told("into its jar", words);
    }
    // Nothing was read but what is reckoned of every bath.
    const auto none = standing_of({});
    for (const auto& [stage, word] : WordTable<BathStage>::rows) {
        auto bare = none;
        bare.stage = stage;
        text += std::string(word) + ", nothing read: " + headings(bath_standing_page(plan, bare, bench)) + "\n";
    }
    // A hue alone, a swatch alone, neither.
    at.stage = BathStage::laying;
    at.readings.swatch.reset();
    text += "a hue alone: " + headings(bath_standing_page(plan, at, bench)) + "\n";
    at.readings.hue.clear();
    text += "no colour: " + headings(bath_standing_page(plan, at, bench)) + "\n";
    at.readings.swatch = 0u;
    text += "a swatch alone: " + headings(bath_standing_page(plan, at, bench)) + "\n";
    check_expected("report", "bath-standing-parts", text);
}

TEST_CASE("A bath in short, by what is left to do", "[unit]") {
    const auto plan = kitchen_plan();
    auto at = full_standing();
    BathTold told;
    const auto in_short = [&] {
        const auto text = page::write_text(bath_standing_page(plan, at, one_scale(), told));
        std::string said;
        for (const char c : text.substr(text.find("WHAT TO DO NOW"))) // the box as one line
            if (c != '\n') said += c;
            else if (!said.empty() && said.back() != ' ') said += ' ';
        for (std::size_t i = 0; (i = said.find("  ", i)) != std::string::npos;) said.erase(i, 1);
        const auto end = said.find(" of lake, nine times in ten.");
        if (end == std::string::npos) return std::string("(not told)");
        const auto from = said.rfind(". ", end - 8);
        return said.substr(from + 2, end - from - 2);
    };
    at.stage = BathStage::washing, at.next = BathStep::wash_again;
    const auto dried = at.dried;
    at.dried.reset();
    const std::string lake = "xpect 9.6 to 11.4 g";
    at.washed->sure = 0u;
    CHECK(in_short() == "E" + lake);
    at.washed->sure.reset();
    CHECK(in_short() == "E" + lake);
    at.washed->sure = 1u;
    CHECK(in_short() == "1 wash more, e" + lake);
    at.washed->sure = 2u;
    CHECK(in_short() == "2 washes more, e" + lake);
    at.dried = dried; // weighed: the washes are done
    CHECK(in_short() == "E" + lake);
    told.dry = DayRange{thursday, thursday + std::chrono::days(2)};
    CHECK(in_short() == "Dry on Thursday 14 to Saturday 16 May, e" + lake);
    at.dried.reset();
    CHECK(in_short() == "2 washes more, dry on Thursday 14 to Saturday 16 May by what is usual, e" + lake);
    at.washed.reset();
    at.washes_by_plan = 1u;
    CHECK(in_short() == "About 1 wash by the plan, dry on Thursday 14 to Saturday 16 May by what is usual, e" + lake);
    at.washes_by_plan = 3u;
    CHECK(in_short() == "About 3 washes by the plan, dry on Thursday 14 to Saturday 16 May by what is usual, e" + lake);
    at.stage = BathStage::jarred; // what is in its jar is no longer foretold
    CHECK(in_short() == "(not told)");
}

TEST_CASE("The facts of a standing on either side of where their words change", "[unit]") {
    const auto plan = kitchen_plan();
    auto at = full_standing();
    at.stage = BathStage::washing;
    BathTold told;
    const auto fact = [&](const std::string& label) { // the words beside a label, as one line
        const auto page = bath_standing_page(plan, at, one_scale(), told);
        for (const auto& section : page.sections)
            for (const auto& block : section.blocks)
                if (const auto* facts = std::get_if<page::Facts>(&block.is))
                    for (const auto& each : facts->facts)
                        if (each.label == label) return each.words.plain();
        return std::string("(not told)");
    };
    at.washed->sure = 0u;
    CHECK(fact("Washes more") == "none, nine times in ten");
    at.washed->sure = 3u, at.washed->water_for_sure = litres(3.14);
    CHECK(fact("Washes more") == "3 to be sure nine times in ten, 3.1 L of water");
    at.washed->sure.reset();
    CHECK(fact("Washes more") == "twenty with this water do not do it");
    at.washed->left = MassFraction::of(0.012), at.washed->left_low = MassFraction::of(0.0101), at.washed->left_high = MassFraction::of(0.0143);
    CHECK(fact("In the lake") == "1.2 % were it dried now, 1.0 % to 1.4 % nine times in ten");
    at.washed->left_high = MassFraction::of(0.0103);
    CHECK(fact("In the lake") == "1.2 % were it dried now, 1.0 % nine times in ten");
    // When the blanket lets draw off.
    at.sinking = SinkingStanding{hours(3), hours(2), hours(5), millimetres(42)};
    CHECK(fact("Draw off") == "3 h after the first reading, 2 h to 5 h nine times in ten; the blanket then stands at 42 mm");
    at.sinking->high.reset();
    CHECK(fact("Draw off") == "3 h after the first reading, 2 h or later nine times in ten; the blanket then stands at 42 mm");
    at.sinking->low = seconds(0);
    CHECK(fact("Draw off") == "3 h after the first reading, and nobody can say yet how much later; the blanket then stands at 42 mm");
    // When the cake is dry: on days where the record knows them, else after the first weighing, else nothing.
    at.dried->likely = hours(60), at.dried->sure = hours(84);
    CHECK(fact("Dry") == "2.5 to 3.5 days after the first weighing; nine in ten by then");
    told.dry = DayRange{thursday, thursday};
    CHECK(fact("Dry") == "(not told)");
    CHECK(fact("Dry on") == "Thursday 14 May, nine times in ten");
    told.dry.reset();
    at.dried->likely.reset();
    CHECK(fact("Dry") == "(not told)");
    at.dried->likely = hours(60), at.dried->sure.reset();
    CHECK(fact("Dry") == "(not told)");
    // The pH while it is not at rest is said to be so.
    at.alkali->ph = PhRange{Ph::of(6.23), Ph::of(6.93)};
    at.alkali->at_rest = false;
    CHECK(fact("pH at rest") == "6.2 to 6.9, not yet at rest");
    at.alkali->at_rest = true;
    CHECK(fact("pH at rest") == "6.2 to 6.9");
}
