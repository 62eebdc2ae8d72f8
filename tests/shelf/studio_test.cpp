// A studio on the disk: its entries read, written once, folded; what contradicts is told with both places.

#include "lakebound/shelf/jar_starter.hpp"
#include "lakebound/shelf/studio.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>
#include <thread>

#include <sys/wait.h>
#include <unistd.h>

#include "lakebound/shelf/entry_typed.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/jar_record.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "shelf/faults_of.hpp"
#include "shelf/own_studio.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace fs = std::filesystem;

namespace {

std::string bytes_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

} // namespace

TEST_CASE("A rub-out and two swatches that were entered are what was painted", "[unit]") {
    OwnStudio own;
    CHECK_FALSE(own.read().has_records());
    own.write(typed_rub_out(own.context("2026-05-02"), "2.00 g, 1.56 g", {}), "2026-05-02");
    own.write(typed_swatch(own.context("2026-05-03"), "0.20 g, 0.80 g: chalks", "watercolour-pan", "gum-water"), "2026-05-03");
    own.write(typed_swatch(own.context("2026-05-04"), "0.20 g, 0.95 g", "watercolour-pan", "gum-water"), "2026-05-04");

    const Studio studio = own.read();
    REQUIRE(studio.card.record.rub_outs.size() == 1);
    CHECK(in_grams_per_100_grams(studio.card.record.rub_outs[0].oil_absorption) == Approx(78.0).epsilon(1e-12));
    REQUIRE(studio.card.record.trials.size() == 1); // one is not judged yet
    // By hand: V_b = 0.80 g of gum water, a third gum with 12 % water, 1.42 g/cm3 dry; q = .65/.93 mL/g.
    const double binder = 0.80 / 3.0 * 0.88 / 1.42, demand = 0.20 * 0.65 / 0.93;
    CHECK(studio.card.record.trials[0].library_k.value() == Approx(binder / demand).epsilon(2e-3));
    CHECK(in_grams(*studio.card.jars[0].left) == Approx(24.0 - 2.0 - 0.2 - 0.2).epsilon(1e-12));

    auto story = own.story();
    REQUIRE(story.open.size() == 1);
    CHECK(story.open[0].is_ready);
    CHECK(story.next() == NextStep::judge_swatch);
    own.write(typed_sign(own.context("2026-05-06"), "does not chalk", story), "2026-05-06");
    story = own.story();
    CHECK(story.open.empty());
    CHECK(story.outlook.own_paints.paints == 2);
    // Taken back, the swatch waits again.
    own.write(typed_undo(own.context("2026-05-07"), "last", story), "2026-05-07");
    CHECK(own.story().open.size() == 1);
}

TEST_CASE("An entry is written once and never rewritten; the jar's file is never touched", "[unit]") {
    OwnStudio own;
    const auto jar_file = bytes_of("jars/weld.yaml");
    std::map<fs::path, std::string> written;
    for (int i = 0; i < 12; ++i) {
        own.write(typed_drawn(own.context("2026-05-02"), "0.5 g"), "2026-05-02");
        std::size_t files = 0;
        for (const auto& entry : fs::directory_iterator("records/weld")) {
            ++files;
            const auto [known, fresh] = written.try_emplace(entry.path(), bytes_of(entry.path()));
            if (!fresh) CHECK(known->second == bytes_of(entry.path()));
        }
        CHECK(files == static_cast<std::size_t>(i + 1));
    }
    CHECK(fs::exists("records/weld/2026-05-02-12-drawn.yaml"));
    CHECK(bytes_of("jars/weld.yaml") == jar_file);
    CHECK(in_grams(*own.read().card.jars[0].left) == Approx(18.0));
}

TEST_CASE("Two that write at once both find their entries there", "[unit]") {
    OwnStudio own;
    const Studio studio = own.read();
    const auto entry = typed_drawn(own.context("2026-05-02"), "0.1 g");
    std::vector<std::thread> writers;
    for (int i = 0; i < 4; ++i)
        writers.emplace_back([&] {
            for (int n = 0; n < 10; ++n)
                write_entry(studio, "weld", "2026-05-02", entry.what, entry.text);
        });
    for (auto& writer : writers)
        writer.join();
    CHECK(own.read().entries.size() == 40);
    CHECK(in_grams(*own.read().card.jars[0].left) == Approx(20.0));
}

TEST_CASE("Killed at any moment, no entry is half written", "[unit]") {
    OwnStudio own;
    const Studio studio = own.read();
    const auto entry = typed_drawn(own.context("2026-05-02"), "0.0001 g");
    fs::create_directories("records/weld"); // the first may be killed before it has made it
    int whole = 0;
    for (int round = 0; round < 60; ++round) {
        const pid_t child = ::fork();
        if (child == 0) {
            for (;;)
                write_entry(studio, "weld", "2026-05-02", entry.what, entry.text);
        }
        ::usleep(static_cast<useconds_t>(300 + 97 * round));
        ::kill(child, SIGKILL);
        int status = 0;
        ::waitpid(child, &status, 0);
        whole = 0;
        for (const auto& file : fs::directory_iterator("records/weld")) {
            if (file.path().filename().string().front() == '.') continue; // of the one that was killed
            CHECK(bytes_of(file.path()) == entry.text);
            ++whole;
        }
    }
    CHECK(whole > 0);
    CHECK(own.read().entries.size() == static_cast<std::size_t>(whole));
}

TEST_CASE("Entries that contradict are refused with both places, and nothing is written", "[errors]") {
    OwnStudio own;
    own.write(typed_weighed(own.context("2026-05-02"), "3.0 g"), "2026-05-02");
    const auto refused = [&](const TypedEntry& entry, const std::string& date) {
        const auto faults = faults_of([&] { own.write(entry, date); });
        CHECK(fs::exists("records/weld/2026-05-02-01-weighed.yaml"));
        CHECK(std::distance(fs::directory_iterator("records/weld"), fs::directory_iterator()) == 1);
        REQUIRE(faults.size() == 1);
        return faults[0];
    };
    const auto beyond = refused(typed_drawn(own.context("2026-05-03"), "5 g"), "2026-05-03");
    CHECK(beyond.id == "entry-contradicts");
    REQUIRE(beyond.second);
    CHECK(beyond.second->at.place.path == "records/weld/2026-05-02-01-weighed.yaml");
    CHECK(beyond.second->at.place.line == 4);
    CHECK(refused(typed_drawn(own.context("2026-04-30"), "1 g"), "2026-04-30").id == "entry-contradicts"); // before the jar
    CHECK(refused(typed_drawn(own.context("2999-01-01"), "1 g"), "2999-01-01").id == "date-form");
    CHECK(refused(typed_drawn(own.context("2026-05-03"), "1 mL"), "2026-05-03").id == "unit-dimension");
    // By hand into the folder: read like any file.
    std::ofstream("records/weld/2026-05-04-01-outcome.yaml")
        << "kind: entry\njar: weld\ndate: 2026-05-04\nwhat: outcome\nof: 2026-05-04-01-batch\nsign: chalks\n";
    const auto faults = faults_of([&] { own.read(); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].at.place.path == "records/weld/2026-05-04-01-outcome.yaml");
    std::ofstream("records/weld/2026-05-04-01-outcome.yaml") << "kind: entry\njar: madder\ndate: 2026-05-04\nwhat: changed\nhow: so\n";
    CHECK(faults_of([&] { own.read(); }).size() == 2); // another jar's, and a key that does not belong here
}

TEST_CASE("A folder that cannot be written to says so, and loses nothing", "[errors]") {
    if (::geteuid() == 0) return; // root may write everywhere; the catalogue has the case as another user
    OwnStudio own;
    fs::create_directories("records/weld");
    fs::permissions("records/weld", fs::perms::owner_read | fs::perms::owner_exec);
    const auto faults = faults_of([&] { own.write(typed_drawn(own.context("2026-05-02"), "1 g"), "2026-05-02"); });
    fs::permissions("records/weld", fs::perms::owner_all);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].id == "write-permission");
}

TEST_CASE("A new jar's file is begun from two words, and reads back", "[unit]") {
    OwnStudio own;
    const auto path = begin_jar_file("madder", "madder-lake, 18.4 g", own.context("2026-05-20"), own.library);
    CHECK(path == "jars/madder.yaml");
    const Jar jar = own.library.jar(path);
    CHECK(in_grams(jar.net_mass.value()) == Approx(18.4));
    CHECK(in_grams(jar.net_mass.standard_uncertainty()) == Approx(0.041).epsilon(0.01)); // .41 of the step of .1 g
    CHECK(jar.since == "2026-05-20");
    // Whatever it was typed in: a kilogram is not written down as a gram.
    for (const auto& [id, typed, grams_of_it] : {std::tuple("heavy", "0.016 kg", 16.0), std::tuple("close", "18.4g", 18.4), std::tuple("ounce", "1 oz", 28.349523125)}) {
        const Jar begun = own.library.jar(begin_jar_file(id, std::string("madder-lake, ") + typed, own.context("2026-05-20"), own.library));
        CHECK(in_grams(begun.net_mass.value()) == Approx(grams_of_it).epsilon(1e-9));
        CHECK(in_grams(begun.net_mass.standard_uncertainty()) < 0.2);
    }
    CHECK(faults_of([&] { begin_jar_file("madder", "madder-lake, 18.4 g", own.context("2026-05-20"), own.library); })[0].id ==
          "write-exists");
    CHECK(faults_of([&] { begin_jar_file("Madder", "madder-lake, 18.4 g", own.context("2026-05-20"), own.library); })[0].id ==
          "id-form");
}

TEST_CASE("Folders of a studio are told from where its jars lie", "[unit]") {
    CHECK(studio_of_jar("jars/weld.yaml") == ".");
    CHECK(studio_of_jar("a/jars/weld.yaml") == "a");
    CHECK(studio_of_jar("a/weld.yaml") == "a");
    CHECK(studio_of_jar("weld.yaml") == ".");
    CHECK(record_folder(".", "weld") == "records/weld");
    CHECK(record_folder("a", "weld") == "a/records/weld");
    OwnStudio own;
    CHECK(studio_name(own.read()) == own.folder.path().filename().string());
}

TEST_CASE("Jars of one plant are kin, however its name is written", "[unit]") {
    OwnStudio own;
    const auto jar = [&](const char* stem, const char* plant) {
        std::ofstream("jars/" + std::string(stem) + ".yaml")
            << "kind: jar\nname: " << stem << "\npigment: alumina-lake\nnet_mass: 24 +- 0.1 g\nplant: " << plant << "\nsince: 2026-05-01\n";
    };
    jar("one", "Weld"), jar("two", "weld"), jar("three", "madder"), jar("four", "WELD");
    RecordWish wish;
    wish.today = studio_today;
    const Studio studio = own.read();
    const auto kin = [&](const char* stem) { return jar_story(studio, studio.find(stem).value(), studio_bench(), false, own.library, wish).kin; };
    CHECK(kin("one") == kin("two"));
    CHECK(kin("one") == kin("four"));
    CHECK(kin("one") >= 2);
    CHECK(kin("three") == 0);
}

TEST_CASE("An entry that was taken back, or whose file was, is told", "[unit]") {
    OwnStudio own;
    own.write(typed_drawn(own.context("2026-05-02"), "4.00 g"), "2026-05-02");
    own.write(typed_drawn(own.context("2026-05-02"), "1.00 g"), "2026-05-02");
    own.write(typed_undo(own.context("2026-05-02"), "2026-05-02-02-drawn", own.story()), "2026-05-02");
    CHECK(own.story().taken_back == std::vector<std::string>{"2026-05-02-02-drawn"});
    CHECK(own.story().missing.empty());
    const auto faults = faults_of([&] { (void)typed_undo(own.context("2026-05-03"), "2026-05-02-02-drawn", own.story()); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].message == "--undo \"2026-05-02-02-drawn\": this entry was taken back already");
    fs::remove("records/weld/2026-05-02-01-drawn.yaml");
    CHECK(own.story().missing == std::vector<std::string>{"2026-05-02-01"});
    CHECK(own.story().lines.empty());
}

TEST_CASE("Every contradiction is told in its own words, with how to mend it", "[errors]") {
    OwnStudio own;
    fs::create_directories("records/weld");
    const auto told = [&](const std::string& day, const std::string& number, const std::string& what, const std::string& keys, const std::string& more = {}) {
        const std::string path = "records/weld/" + day + "-" + number + "-" + what + ".yaml";
        std::ofstream(path) << "kind: entry\njar: weld\ndate: " << day << "\nwhat: " << what << "\n" << keys;
        const auto faults = faults_of([&] { (void)read_studio(".", own.library, more.empty() ? studio_today : day_of_iso(more).value()); });
        fs::remove(path);
        if (faults.empty()) return std::string();
        CHECK(faults[0].at.place.path == path);
        return faults[0].message + " | " + faults[0].hint;
    };
    CHECK(told("2026-05-03", "01", "undo", "entry: 2026-05-02-01-drawn\n") == "there is no entry of that name to undo | mend the name, or take the file away");
    CHECK(told("2026-05-03", "01", "outcome", "of: 2026-05-02-01-batch\nsign: chalks\n") ==
          "this jar has no swatch and no batch of that name | mend the name, or take the file away");
    CHECK(told("2026-05-03", "01", "drawn", "mass: 30 g\n") ==
          "with this more was taken than there was in the jar | weigh the jar and enter that, or undo what was entered twice");
    CHECK(told("2026-04-30", "01", "drawn", "mass: 3 g\n") == "this happened before its jar was there | mend the date, or 'since' in the jar's file");
    CHECK(told("2026-05-03", "01", "drawn", "mass: 3 g\n", "2026-05-02") == "this has not happened yet | check day, month and year");
    CHECK(told("2026-05-03", "01", "drawn", "mass: 3 g\n").empty());
}

TEST_CASE("A record without its jar is not lost in silence; a jar's file with faults is told with all of them", "[errors]") {
    OwnStudio own;
    fs::create_directories("records/madder");
    auto faults = faults_of([&] { (void)own.read(); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].id == "entry-jar");
    CHECK(faults[0].hint == "put its file back as jars/madder.yaml, or move the record away");
    fs::remove("records/madder");
    std::ofstream("jars/madder.yaml") << "kind: jar\nname: Madder\npigment: alumina-lake\nnet_mass: 1 mL\n";
    std::ofstream("jars/Not-a-name.yaml") << "kind: jar\n"; // none of ours
    std::ofstream("jars/remark.txt") << "mine\n";
    CHECK(summary(faults_of([&] { (void)own.read(); })).find("unit-dimension") == 0);
    fs::remove("jars/madder.yaml");
    CHECK(own.read().jars.size() == 1);
    CHECK(studio_name(own.read()) == own.folder.path().filename().string());
    CHECK(studio_of_jar("x/jars/weld.yaml") == "x");
    CHECK(studio_of_jar("x/weld.yaml") == "x");
    CHECK(studio_of_jar("jars/weld.yaml") == ".");
    CHECK(studio_of_jar("weld.yaml") == ".");
    CHECK(record_folder(".", "weld") == "records/weld");
    CHECK(record_folder("x", "weld") == "x/records/weld");
}

TEST_CASE("An oil absorption of a jar's file is a reading of its record; plants are one whatever their capitals", "[unit]") {
    OwnStudio own;
    std::ofstream("jars/weld-next.yaml") << "kind: jar\nname: Next\npigment: alumina-lake\nnet_mass: 10 g\nplant: WELD\noil_absorption: 80 x/ 1.1 g/100g\n";
    own.library = shipped_library();
    const Studio studio = own.read();
    REQUIRE(studio.card.record.rub_outs.size() == 1);
    CHECK(studio.card.record.rub_outs[0].jar == 1);
    // The test oil is that of the library, so that the figure is compared as it stands.
    CHECK(in_grams_per_100_grams(studio.card.record.rub_outs[0].oil_absorption) == Approx(80.0).epsilon(1e-9));
    CHECK(*studio.card.record.rub_outs[0].stated_spread == Approx(std::log(1.1)).epsilon(1e-9));
    CHECK(studio.card.record.jars[0].plant == studio.card.record.jars[1].plant);
    std::ofstream("jars/weld-next.yaml") << "kind: jar\nname: Next\npigment: alumina-lake\nnet_mass: 10 g\nplant: madder\noil_absorption: 80 x/ 1.1 g/100g\ntest_oil_density: 0.90 g/cm3\n";
    own.library = shipped_library();
    const Studio other = own.read();
    CHECK(other.card.record.jars[0].plant != other.card.record.jars[1].plant);
    // Of a lighter oil the same mass fills more.
    const double usual = in_grams_per_cubic_centimetre(own.library.pigment("alumina-lake").test_oil_density.value());
    CHECK(in_grams_per_100_grams(other.card.record.rub_outs[0].oil_absorption) == Approx(80.0 * usual / 0.90).epsilon(1e-9));
}

TEST_CASE("Many entries, opened by two threads, are those that were written, faults in order", "[identity]") {
    OwnStudio own;
    fs::create_directories("records/weld");
    for (int i = 1; i <= 99; ++i)
        std::ofstream("records/weld/2026-05-02-" + std::string(i < 10 ? "0" : "") + std::to_string(i) + "-drawn.yaml")
            << "kind: entry\njar: weld\ndate: 2026-05-02\nwhat: drawn\nmass: " << i << " mg\n";
    const Studio studio = own.read();
    REQUIRE(studio.entries.size() == 99);
    for (int i = 1; i <= 99; ++i)
        CHECK(in_grams(std::get<DrawnEntry>(studio.entries[static_cast<std::size_t>(i - 1)].entry.what).powder) == Approx(0.001 * i));
    for (const char* broken : {"80", "20"})
        std::ofstream("records/weld/2026-05-02-" + std::string(broken) + "-drawn.yaml") << "kind: entry\njar: weld\ndate: 2026-05-02\nwhat: drawn\nmass: 1 mL\n";
    std::ofstream("records/weld/2026-05-02-50-drawn.yaml") << "a: [\n";
    const auto faults = faults_of([&] { (void)own.read(); });
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].at.place.path == "records/weld/2026-05-02-20-drawn.yaml");
    CHECK(faults[1].at.place.path == "records/weld/2026-05-02-50-drawn.yaml");
    CHECK(faults[2].at.place.path == "records/weld/2026-05-02-80-drawn.yaml");
}
