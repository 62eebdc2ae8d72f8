// What contradicts in a bath's record, what one bath teaches another, and which file is meant: each told whole.

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>

#include "faults_of.hpp"
#include "own_bath.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// An entry written by hand, "2026-06-02-01-poured", with its lines below `what`.
void write_by_hand(const std::string& stem, const std::string& lines, const std::string& bath = "madder") {
    std::filesystem::create_directories("baths/" + bath);
    std::ofstream("baths/" + bath + "/" + stem + ".yaml")
        << "kind: bath entry\nbath: " << bath << "\ndate: " << stem.substr(0, 10) << "\nwhat: " << stem.substr(14) << "\n" << lines;
}

/// "place: message; hint (against place)" of each.
std::string told_whole(const std::vector<Diagnostic>& faults) {
    std::string text;
    for (const auto& fault : faults) {
        text += (text.empty() ? "" : " | ") + fault.at.place.path + ": " + fault.message + "; " + fault.hint;
        if (fault.second) text += " (" + fault.second->at.place.path + ")";
    }
    return text;
}

std::string bath_contradiction(const std::vector<std::pair<std::string, std::string>>& entries) {
    OwnBath own;
    for (const auto& [stem, lines] : entries)
        write_by_hand(stem, lines);
    return told_whole(faults_of([&] { own.told(own.read()); }));
}

} // namespace

TEST_CASE("each contradiction of a bath's record says what is wrong, how to mend it, and against which entry", "[errors]") {
    CHECK(bath_contradiction({{"2026-07-01-01-poured", "reading: 1 mL\n"}}) ==
          "baths/madder/2026-07-01-01-poured.yaml: this has not happened yet; check day, month and year");
    CHECK(bath_contradiction({{"2026-05-31-01-poured", "reading: 1 mL\n"}}) ==
          "baths/madder/2026-05-31-01-poured.yaml: this happened before the bath was begun; mend the date, or 'since' in the bath's file");
    CHECK(bath_contradiction({{"2026-06-02-01-undo", "entry: 2026-06-01-01-poured\n"}}) ==
          "baths/madder/2026-06-02-01-undo.yaml: there is no entry of that name to undo; mend the name, or take the file away");
    CHECK(bath_contradiction({{"2026-06-02-01-filter", "reading: \"0.5 L, 4 min\"\n"}, {"2026-06-02-02-filter", "reading: \"0.4 L, 8 min\"\n"}}) ==
          "baths/madder/2026-06-02-02-filter.yaml: less had run through, or less time had passed, than was read before; volume and time "
          "count from pouring on; take back the one that is wrong (baths/madder/2026-06-02-01-filter.yaml)");
    CHECK(bath_contradiction({{"2026-06-02-01-filter", "reading: \"1.2 L, 4 min\"\nwhole: 1 L\n"}}) ==
          "baths/madder/2026-06-02-01-filter.yaml: more ran through than there was to filter; read the jug again, or say --to-filter anew "
          "(baths/madder/2026-06-02-01-filter.yaml)");
    CHECK(bath_contradiction({{"2026-06-02-01-wash-water", "reading: 300 uS/cm\n"}, {"2026-06-02-02-decant", "reading: 150 uS/cm\n"}}) ==
          "baths/madder/2026-06-02-02-decant.yaml: this decant conducts less than the water it was washed with; read both again with one "
          "pen, rinsed; each water has its own reading (baths/madder/2026-06-02-01-wash-water.yaml)");
    CHECK(bath_contradiction({{"2026-06-02-01-cake", "reading: 30 g\n"}, {"2026-06-02-02-cake", "reading: 28 g\n"}}) ==
          "baths/madder/2026-06-02-02-cake.yaml: this cake was weighed twice on one day, and the hours do not tell which came first; say the "
          "hour of each, --at 08:30 (baths/madder/2026-06-02-01-cake.yaml)");
    CHECK(bath_contradiction({{"2026-06-02-01-cake", "reading: 30 g\n"}, {"2026-06-03-01-cake", "reading: 34 g\n"}}) ==
          "baths/madder/2026-06-03-01-cake.yaml: this cake weighs more than it did before; it took up damp, or the paper was weighed with "
          "it once: weigh it again (baths/madder/2026-06-02-01-cake.yaml)");
    CHECK(bath_contradiction({{"2026-06-02-01-cake", "reading: 20 g\n"}, {"2026-06-04-01-jarred", "jar: madder-one\nnet: 30 g\n"}}) ==
          "baths/madder/2026-06-04-01-jarred.yaml: more came into the jar than the cake weighed; look at the tare of the jar "
          "(baths/madder/2026-06-02-01-cake.yaml)");
    CHECK(bath_contradiction({{"2026-06-02-01-cake", "reading: 20 g\n"}, {"2026-06-04-01-jarred", "jar: madder-one\nnet: 19 g\n"}}).empty());
}

TEST_CASE("an undo names an entry that is there, or the nearest is told", "[errors]") {
    OwnBath own;
    own.enter(that_says([](BathTexts& t) { t.poured = {"115 mL"}; }), {"2026-06-01", {}, {}, {}});
    const auto undo = [&](const std::string& name) { return told_whole(faults_of([&] { own.enter({}, {"2026-06-01", {}, {}, name}); })); };
    CHECK(undo("2026-06-01-01-poure") == "command line: --undo \"2026-06-01-01-poure\": this bath has no such entry; did you mean "
                                         "'2026-06-01-01-poured'? its last one is '2026-06-01-01-poured'");
    CHECK(undo("yesterday") == "command line: --undo \"yesterday\": this bath has no such entry; its last one is '2026-06-01-01-poured'");
    CHECK(entries_on_disk() == 1);
    own.enter({}, {"2026-06-01", {}, "spilt; and \"mine\"", "2026-06-01-01-poured"});
    CHECK(own.read().entries.back().note == "spilt; and \"mine\"");
    CHECK(own.told(own.read()).readings.alkali.empty());
    CHECK(undo("last") == "command line: --undo \"last\": this bath has no entries; see where it stands: lakebound-bath madder");
}

TEST_CASE("what goes into no entry of a bath is refused before anything is written", "[errors]") {
    OwnBath own;
    const auto refused = [&](const std::function<void(BathTexts&)>& say, const BathEntryContext& context = {"2026-06-02", {}, {}, {}}) {
        return told_whole(faults_of([&] { own.enter(that_says(say), context); }));
    };
    CHECK(refused([](BathTexts& t) { t.drying = "38.6 g, 24.9 g every 24 h"; }) ==
          "command line: --drying \"38.6 g, 24.9 g every 24 h\": the weighings of a record are entered one by one, each on its day; write it "
          "like --cake \"38.6 g\" --date 2026-06-02");
    CHECK(refused([](BathTexts& t) { t.to_filter = "1 L"; }) ==
          "command line: '--to-filter' goes with a reading at the filter; add --filter \"0.5 L, 4 min\"");
    CHECK(refused([](BathTexts& t) { t.filter = {"0.5 L, 4 min"}, t.to_filter = "some"; }) ==
          "command line: --to-filter \"some\": a number must come first, got 'some'; write the number first, then its unit");
    CHECK(refused([](BathTexts& t) { t.hue = "warm\nrose"; }) ==
          "command line: --hue \"warm\nrose\": the hue in a few words, on one line, is wanted; write it like --hue \"warm rose, wet; brick red, dry\"");
    CHECK(refused([](BathTexts& t) { t.poured = {"1 mL"}; }, {"2026-06-02", "8:30", {}, {}}) ==
          "command line: --at \"8:30\": an hour of the day from 00:00 to 23:59 is wanted; write it like --at \"08:30\"");
    CHECK(refused([](BathTexts& t) { t.poured = {"1 mL"}; }, {"2026-06-31", {}, {}, {}}) ==
          "command line: '2026-06-31' is no day of the calendar; write year-month-day, like 2026-03-02");
    own.enter(that_says([](BathTexts& t) { t.filter = {"0.5 L, 4 min"}; }), {"2026-06-02", {}, {}, {}}); // how much there is need not be said
    CHECK_FALSE(std::get<FilterEntry>(own.read().entries.front().entry.what).whole);
    CHECK(entries_on_disk() == 1);
    const auto jarred = [&](const std::string& jar, const std::optional<std::string>& net) {
        return told_whole(faults_of([&] { (void)jarred_entry(own.read(), jar, net, {"2026-06-04", {}, {}, {}}); }));
    };
    CHECK(jarred("Madder Two", {}) == "command line: --jar \"Madder Two\" cannot be the name of a jar; small letters, digits and single hyphens");
    CHECK(jarred("madder-two", "0 g") == "command line: --weighed \"0 g\": must be above 0; check the number and its sign");
    CHECK(jarred_entry(own.read(), "madder-two", {}, {"2026-06-04", {}, {}, {}}).text ==
          "kind: bath entry\nbath: madder\ndate: 2026-06-04\nwhat: jarred\njar: madder-two\n");
}

TEST_CASE("a bath is found by its name, by its path, on a shelf; else the nearest is told", "[unit][errors]") {
    OwnBath own;
    const auto unknown = [&](const std::string& name) { return told_whole(faults_of([&] { (void)bath_path(name, own.library); })); };
    CHECK(bath_path("madder", own.library) == "baths/madder.yaml");
    CHECK(bath_path("-", own.library) == "-");
    CHECK(bath_path("other.yaml", own.library) == "other.yaml");
    CHECK(unknown("weld") == "command line: no bath 'weld' in baths/ of the folder you stand in, nor on the shelves; begin it: lakebound-bath "
                             "weld --new --alum \"potash-alum, 50 g\" --alkali soda-ash");
    CHECK(unknown("mader") == "command line: no bath 'mader' in baths/ of the folder you stand in, nor on the shelves; did you mean 'madder'?");
    CHECK(unknown("-x") == "command line: '-x' cannot be the name of a bath; small letters, digits and single hyphens");
    const std::string there = own.folder.write("studio/baths/weld.yaml", "kind: bath\nname: Weld\nalum: potash-alum, 50 g\nalkali: soda-ash\n");
    Library studio({{own.folder.file("studio"), "test", true}, {LAKEBOUND_FORMULATIONS_DIR, "test", true}});
    CHECK(bath_path("weld", studio) == there);
    CHECK(read_bath_record(there, studio).entries.empty());
    CHECK_FALSE(own.told(read_bath_record(there, studio)).last);
    // A file of another ending has its entries beside it too.
    std::filesystem::copy_file(there, "weld.txt");
    own.folder.write("weld.txt.entries/2026-05-01-01-poured.yaml", "kind: bath entry\nbath: weld.txt\ndate: 2026-05-01\nwhat: poured\nreading: 10 mL\n");
    const BathRecord record = read_bath_record("weld.txt", studio);
    CHECK(record.folder == "weld.txt.entries");
    CHECK(own.told(record).readings.alkali.size() == 1); // no day to begin with: none is too early
}

TEST_CASE("a bath's file is begun with all that is at hand", "[unit]") {
    OwnBath own;
    const BathTexts all = that_says([](BathTexts& t) {
        t.plant = "100 g dry root", t.alum = "potash-alum, 50 g", t.lake = "20 g", t.alkali = "soda-ash", t.water = "3 L", t.pulls = "2";
        t.pot = "5 L", t.vessel = "6 L", t.strength = "10 % w/v", t.foam = "60 s";
    });
    CHECK(begin_bath_file("weld", all, "2026-06-02") == "baths/weld.yaml");
    CHECK(read_bytes("baths/weld.yaml") ==
          "kind: bath\nname: weld\nsince: \"2026-06-02\"\nplant: \"100 g dry root\"\nalum: \"potash-alum, 50 g\"\nlake: \"20 g\"\nalkali: \"soda-ash\"\n"
          "water: \"3 L\"\npulls: \"2\"\npot: \"5 L\"\nvessel: \"6 L\"\nstrength: \"10 % w/v\"\nfoam: \"60 s\"\n");
    CHECK(read_bath_record("baths/weld.yaml", own.library).texts.vessel == "6 L");
}

TEST_CASE("the end points of one's other baths of that alum are learned from", "[unit]") {
    OwnBath own;
    const WashHabits washing = own.library.wash_habits();
    const LakingHabits laking = own.library.laking_habits();
    Bench bench;
    bench.scales = {{"scale", grams(0.1), {}, {}}};
    const BathWish wish = bath_wish(own.read().texts, own.library);
    const auto learned = [&](const std::string& path) {
        return with_own_end_points(wish, path, own.library, laking, washing, bench, end_of_june);
    };
    const std::string mine = "baths/madder.yaml";
    CHECK(learned(mine).end_points == 0);
    CHECK_FALSE(learned(mine).hydroxides);
    // One that came to its stop, one that did not, one of another alum, one without a record.
    const auto begin = [&](const std::string& id, const std::string& alum, const std::string& poured, const std::string& ph) {
        (void)begin_bath_file(id, that_says([&](BathTexts& t) { t.alum = alum, t.alkali = "soda-ash", t.water = "1.0 L"; }), "2026-06-01");
        if (poured.empty()) return;
        write_by_hand("2026-06-02-01-poured", "reading: " + poured + "\n", id);
        for (const char* each : {"2026-06-02-02-ph", "2026-06-02-03-ph"}) // twice, so that it is at rest
            write_by_hand(each, "reading: \"" + ph + ", pen\"\n", id);
    };
    begin("weld", "potash-alum, 50 g", "150 mL", "6.5");
    const BathWish one = learned(mine);
    REQUIRE(one.hydroxides);
    CHECK(one.end_points == 1);
    // 15 g of soda ash to 50 g of potash alum: 2 * 15 / 105.99 mol of alkali on 50 / 474.39 mol of aluminium. The belief
    // lies between the shelf's 2.6 +- 0.15 and that, near the reading, which is told to 0.1.
    const double seen = 2.0 * 15.0 / 105.99 / (50.0 / 474.39);
    const double weight = 0.15 * 0.15 / (0.15 * 0.15 + 0.1 * 0.1);
    CHECK(one.hydroxides->mean == Approx(2.6 + weight * (seen - 2.6)).margin(0.02));
    CHECK(one.hydroxides->standard_uncertainty == Approx(0.15 * 0.1 / std::hypot(0.15, 0.1)).epsilon(0.01));
    begin("short", "potash-alum, 50 g", "20 mL", "3.9");
    begin("other", "aluminium-sulphate-18, 50 g", "150 mL", "6.5");
    begin("planned", "potash-alum, 50 g", "", "");
    CHECK(learned(mine).end_points == 1);
    CHECK(learned("baths/weld.yaml").end_points == 0); // one's own end point is in one's own readings
    begin("two", "potash-alum, 50 g", "152 mL", "6.5");
    CHECK(learned(mine).end_points == 2);
    const InFolder beside("baths");
    CHECK(learned("madder.yaml").end_points == 2); // of a file without a folder in its path
}
