// A bath's record on the disk: entries read, written once, folded; what contradicts is told with both places.

#include "lakebound/shelf/bath_record.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <thread>

#include "faults_of.hpp"
#include "lakebound/shelf/bath_entry_file.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "own_bath.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

std::string bath_entry_faults(const std::string& rest) {
    return summary(faults_of([&] {
        (void)read_bath_entry(load_document("e.yaml", "kind: bath entry\nbath: madder\ndate: 2026-06-02\n" + rest), "x", "madder");
    }));
}

} // namespace

TEST_CASE("what is read at a bath becomes entries in the order of the work", "[unit]") {
    OwnBath own;
    CHECK(own.read().texts.since == "2026-06-01");
    const auto path = own.enter(that_says([](BathTexts& t) {
                                    t.ph = {"5.4, pen, fizzing"};
                                    t.poured = {"115 mL"};
                                }),
                                {"2026-06-01", "14:30", "deep red", {}});
    CHECK(path == "baths/madder/2026-06-01-02-ph.yaml");
    const BathRecord record = own.read();
    REQUIRE(record.entries.size() == 2);
    CHECK(record.entries[0].entry.kind() == BathEntryKind::poured);
    CHECK(record.entries[0].reading == "115 mL");
    CHECK(record.entries[0].entry.hour == std::chrono::hours(14) + std::chrono::minutes(30));
    CHECK(record.entries[1].note == "deep red");
    const BathStory story = own.told(record);
    REQUIRE(story.readings.alkali.size() == 1);
    CHECK(in_grams(story.readings.alkali[0]) == Approx(11.5).epsilon(1e-3)); // 10 g in 100 mL
    CHECK(story.readings.ph.back().fizzing);
}

TEST_CASE("every kind of entry comes back as it was typed", "[unit]") {
    OwnBath own;
    own.enter(that_says([](BathTexts& t) {
                  t.filter = {"0.5 L, 4 min"};
                  t.to_filter = "1.0 L";
                  t.foam = "40 s";
                  t.poured = {"115 mL"};
                  t.alum_added = "2 g";
                  t.ph = {"6.5, pen"};
                  t.colour = "1 in 8";
                  t.wash_water = "310 uS/cm, 16 degC";
                  t.decant = {"4900 uS/cm"};
                  t.blanket = "100 mm, 62 mm, 48 mm every 2 h";
                  t.cake = "38.6 g, wet";
                  t.hue = "warm rose, wet; \"brick\", dry";
                  t.swatch = "12";
              }),
              {"2026-06-02", {}, {}, {}});
    own.enter({}, {"2026-06-03", {}, "swatch 12", {}});
    const BathRecord before = own.read();
    const TypedEntry jarred = jarred_entry(before, "madder-two", "10.4 g", {"2026-06-04", {}, {}, {}});
    CHECK(write_bath_entries(before, "2026-06-04", {jarred}) == "baths/madder/2026-06-04-01-jarred.yaml");
    std::vector<std::string> whats;
    const BathRecord record = own.read();
    for (const auto& each : record.entries)
        whats.emplace_back(word_of(each.entry.kind()));
    CHECK(whats == std::vector<std::string>{"filter", "foam", "poured", "alum", "ph", "colour", "blanket", "wash-water", "decant", "cake", "hue", "swatch", "note", "jarred"});
    CHECK(in_litres(*std::get<FilterEntry>(record.entries[0].entry.what).whole) == Approx(1.0));
    CHECK(std::get<ColourEntry>(record.entries[5].entry.what).match.dilution == Approx(8.0));
    CHECK(std::get<WashWaterEntry>(record.entries[7].entry.what).reading.compensation == Compensation::none);
    CHECK(std::get<CakeEntry>(record.entries[9].entry.what).surface_wet);
    CHECK(std::get<HueEntry>(record.entries[10].entry.what).words == "warm rose, wet; \"brick\", dry");
    CHECK(std::get<BathSwatchEntry>(record.entries[11].entry.what).number == 12);
    CHECK(std::get<JarredEntry>(record.entries[13].entry.what).jar == "madder-two");
}

TEST_CASE("an entry is taken back by another, by its name or as the last", "[unit]") {
    OwnBath own;
    own.enter(that_says([](BathTexts& t) { t.poured = {"115 mL"}; }), {"2026-06-01", {}, {}, {}});
    own.enter(that_says([](BathTexts& t) { t.poured = {"900 mL"}; }), {"2026-06-01", {}, {}, {}});
    own.enter({}, {"2026-06-01", {}, {}, "last"});
    CHECK(own.told(own.read()).readings.alkali.size() == 1);
    own.enter({}, {"2026-06-01", {}, {}, "last"}); // the last that still counts
    CHECK(own.told(own.read()).readings.alkali.empty());
    CHECK(faults_of([&] { own.enter({}, {"2026-06-01", {}, {}, "last"}); }).at(0).id == "entry-typed");
    CHECK(entries_on_disk() == 4);
}

TEST_CASE("two commands at once: both entries are there, whole", "[unit]") {
    OwnBath own;
    const BathRecord before = own.read();
    const auto entries = typed_bath_entries(before, that_says([](BathTexts& t) { t.poured = {"1 mL"}; }), {"2026-06-01", {}, {}, {}});
    std::vector<std::thread> commands;
    for (int i = 0; i < 8; ++i)
        commands.emplace_back([&] { (void)write_bath_entries(before, "2026-06-01", entries); });
    for (auto& each : commands)
        each.join();
    CHECK(entries_on_disk() == 8);
    CHECK(own.told(own.read()).readings.alkali.size() == 8);
}

TEST_CASE("entries of a bath that contradict are told with both places, and nothing is written", "[errors]") {
    OwnBath own;
    const auto cake = [&](const std::string& mass, const std::string& date) {
        return own.enter(that_says([&](BathTexts& t) { t.cake = mass; }), {date, {}, {}, {}});
    };
    cake("20.0 g", "2026-06-03");
    auto faults = faults_of([&] { cake("24.0 g", "2026-06-04"); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].id == "entry-contradicts");
    CHECK(faults[0].at.place.path == command_line_path);
    REQUIRE(faults[0].second);
    CHECK(faults[0].second->at.place.path == "baths/madder/2026-06-03-01-cake.yaml");
    CHECK(faults[0].second->at.place.line == 4);
    CHECK(faults_of([&] { cake("19.0 g", "2026-07-04"); }).at(0).message.find("not happened yet") != std::string::npos);
    CHECK(faults_of([&] { cake("19.0 g", "2026-05-04"); }).at(0).message.find("before the bath") != std::string::npos);
    own.enter(that_says([](BathTexts& t) { t.wash_water = "300 uS/cm"; }), {"2026-06-02", {}, {}, {}});
    faults = faults_of([&] { own.enter(that_says([](BathTexts& t) { t.decant = {"150 uS/cm"}; }), {"2026-06-02", {}, {}, {}}); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].second->at.place.path == "baths/madder/2026-06-02-01-wash-water.yaml");
    CHECK(entries_on_disk() == 2);
    // A file that was mended by hand: both places are files.
    std::ofstream("baths/madder/2026-06-05-01-cake.yaml") << "kind: bath entry\nbath: madder\ndate: 2026-06-05\nwhat: cake\nreading: 31 g\n";
    faults = faults_of([&] { own.told(own.read()); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].at.place.path == "baths/madder/2026-06-05-01-cake.yaml");
}

TEST_CASE("what an entry's file says wrongly stands at its place", "[errors]") {
    CHECK(bath_entry_faults("what: poured\nreading: 120 mL\n").empty());
    CHECK(bath_entry_faults("what: poured\nreading: 120\n") == "unit-missing 5:10");
    CHECK(bath_entry_faults("what: poured\n") == "key-missing 1:1");
    CHECK(bath_entry_faults("what: ph\nreading: 14.2, pen\n") == "ph-impossible 5:10");
    CHECK(bath_entry_faults("what: ph\nreading: \"6.4\"\n") == "bath-typed 5:10");
    CHECK(bath_entry_faults("what: colour\nreading: pale\n") == "bath-typed 5:10");
    CHECK(bath_entry_faults("what: colour\nreading: 1 in 0.5\n") == "bath-typed 5:10");
    CHECK(bath_entry_faults("what: cake\nreading: 38.6 g, damp\n") == "bath-typed 5:10");
    CHECK(bath_entry_faults("what: blanket\nreading: 100 mm, 62 mm every 2 h\n") == "series-form 5:10");
    CHECK(bath_entry_faults("what: cooked\n") == "word-unknown 4:7");
    CHECK(bath_entry_faults("hour: 25:10\nwhat: note\nnote: x\n") == "bath-typed 4:7");
    CHECK(bath_entry_faults("what: note\n") == "key-missing 1:1");
    CHECK(bath_entry_faults("what: jarred\njar: Madder Two\n") == "id-form 5:6");
    CHECK(bath_entry_faults("what: undo\nentry: x\nreading: y\n") == "key-unknown 6:1");
    CHECK(summary(faults_of([] {
              (void)read_bath_entry(load_document("e.yaml", "kind: bath entry\nbath: weld\ndate: 2026-06-02\nwhat: note\nnote: x\n"), "x", "madder");
          })) == "entry-bath 2:7");
}

TEST_CASE("a bath that is there already is not begun again, and one that is not is asked for by name", "[errors]") {
    OwnBath own;
    BathTexts texts;
    texts.alum = "potash-alum, 50 g";
    texts.alkali = "soda-ash";
    CHECK(faults_of([&] { (void)begin_bath_file("madder", texts, "2026-06-01"); }).at(0).id == "write-exists");
    CHECK(faults_of([&] { (void)begin_bath_file("My bath", texts, "2026-06-01"); }).at(0).id == "id-form");
    const auto unknown = faults_of([&] { (void)bath_path("mader", own.library); });
    CHECK(unknown.at(0).id == "id-unknown");
    CHECK(unknown.at(0).hint.find("madder") != std::string::npos);
    CHECK(faults_of([&] { (void)bath_path("Madder One", own.library); }).at(0).id == "id-form");
    CHECK(bath_path("baths/madder.yaml", own.library) == "baths/madder.yaml");
}

TEST_CASE("the name of an entry is its day, a number and what it tells", "[unit]") {
    const auto day = day_of_iso("2026-06-02").value();
    CHECK(iso_text(day) == "2026-06-02");
    const std::vector<std::string> stems{"2026-06-01-07-cake", "2026-06-02-01-cake", "2026-06-02-09-ph"};
    CHECK(free_entry_stem(stems, "2026-06-02", "poured") == "2026-06-02-10-poured");
    CHECK(free_entry_stem(stems, "2026-06-03", "poured") == "2026-06-03-01-poured");
    check_entry_name(day, "cake", "2026-06-02-01-cake", "p");
    for (const char* wrong : {"2026-06-03-01-cake", "2026-06-02-cake", "2026-06-02-01-ph", "copy of 2026-06-02-01-cake"})
        CHECK(faults_of([&] { check_entry_name(day, "cake", wrong, "p"); }).at(0).id == "entry-name");
}
