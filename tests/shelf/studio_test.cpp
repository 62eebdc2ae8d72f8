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
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace fs = std::filesystem;

namespace {

const std::chrono::sys_days today = day_of_iso("2026-06-30").value();

Library shipped_library() { return Library({{LAKEBOUND_FORMULATIONS_DIR, "test", true}}); }

Bench bench() {
    Bench b;
    b.name = "test";
    b.scales = {{"kitchen scale", grams(0.1), {}, {}}, {"pocket scale", grams(0.01), {}, {}}};
    return b;
}

/// An empty studio with one jar, which one stands in.
struct OwnStudio {
    TempDir folder;
    InFolder here{folder.path()};
    Library library = shipped_library();
    Jar jar;

    OwnStudio() {
        fs::create_directory("jars");
        std::ofstream("jars/weld.yaml") << "kind: jar\nname: Weld\npigment: alumina-lake\nnet_mass: 24 +- 0.1 g\n"
                                           "since: 2026-05-01\n";
        jar = library.jar("jars/weld.yaml");
    }
    Studio read() { return read_studio(".", library, today); }
    void write(const TypedEntry& entry, const std::string& date) {
        const Studio studio = read();
        with_entries(studio, jar, date, {entry}, library, today);
        write_entries(studio, jar, date, {entry});
    }
    EntryContext context(const std::string& date) const { return {"weld", date, {}, {}, bench()}; }
    JarStory story() {
        RecordWish wish;
        wish.today = today;
        const Studio studio = read();
        return jar_story(studio, 0, bench(), false, library, wish);
    }
};

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

TEST_CASE("A medium that was never swatched is another lot", "[unit]") {
    OwnStudio own;
    own.write(typed_rub_out(own.context("2026-05-02"), "2.00 g, 1.56 g", {}), "2026-05-02");
    own.write(typed_swatch(own.context("2026-05-03"), "0.20 g, 0.80 g: chalks", "watercolour-pan", "gum-water"), "2026-05-03");
    own.write(typed_swatch(own.context("2026-05-04"), "0.20 g, 0.92 g: does not chalk", "watercolour-pan", "gum-water"), "2026-05-04");
    RecordWish wish;
    wish.today = today;
    const Studio studio = own.read();
    const auto same = jar_story(studio, 0, bench(), false, own.library, wish).outlook;
    wish.medium = "gum-glycerol-honey";
    const auto other = jar_story(studio, 0, bench(), false, own.library, wish).outlook;
    CHECK(other.coaching.now.chance.value() < same.coaching.now.chance.value() - 0.005);
    CHECK(other.coaching.now.chance.value() > same.coaching.now.chance.value() - 0.05);
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

TEST_CASE("A chance is written in per cent", "[errors]") {
    const auto hint = [](const char* text) {
        const auto faults = faults_of([&] { (void)wanted_chance(text); });
        return faults.empty() ? std::string() : faults[0].id + ": " + faults[0].hint;
    };
    CHECK(hint("0.95") == "unit-missing: write --sure \"95 %\"");
    CHECK(hint("1") == "unit-missing: write --sure \"100 %\"");
    CHECK(hint("0.95 x").find("95 %") == std::string::npos);
    CHECK(hint("1.5").find("150 %") == std::string::npos);
    CHECK(hint("0").find("write --sure") == std::string::npos);
    CHECK(wanted_chance("95 %").value() == Approx(0.95));
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
    wish.today = today;
    const Studio studio = own.read();
    const auto kin = [&](const char* stem) { return jar_story(studio, studio.find(stem).value(), bench(), false, own.library, wish).kin; };
    CHECK(kin("one") == kin("two"));
    CHECK(kin("one") == kin("four"));
    CHECK(kin("one") >= 2);
    CHECK(kin("three") == 0);
}

TEST_CASE("What was poured besides is asked of the last batch, where it says of what", "[unit][errors]") {
    OwnStudio own;
    const auto asked = [&](const std::string& text) {
        const Studio studio = own.read();
        return poured_question(studio, own.story(), text, own.library);
    };
    CHECK(summary(faults_of([&] { asked("9 g"); })) == "entry-typed");
    const Medium& gum_water = own.library.medium("gum-water");
    own.write(typed_mixed(own.context("2026-05-02"), "2.00 g, 7.00 g", "watercolour-pan", gum_water), "2026-05-02");
    const auto question = asked("7.9 g");
    CHECK(in_grams(question.powder) == Approx(2.0));
    CHECK(in_grams(question.planned) == Approx(7.0));
    CHECK(in_grams(question.poured) == Approx(7.9));
    CHECK(summary(faults_of([&] { asked("0 g"); })) == "out-of-range");
    // The strokes of a batch are priced at what a swatch costs: a thousandth a minute, ten minutes.
    RecordWish wish;
    wish.today = today;
    const Studio studio = own.read();
    CHECK(stepwise_plan(studio, own.story(), "6.0 g", own.library, wish).question.price_per_stroke == Approx(0.01));
}

TEST_CASE("A jar with a record has what is left and what was measured since its file was typed", "[unit]") {
    OwnStudio own;
    const auto at = [&] { return recorded_jar("jars/weld.yaml", own.library, today); };
    CHECK_FALSE(at().has_record());
    CHECK(in_grams(at().jar.net_mass.value()) == Approx(24.0));
    const Recipe recipe = own.library.recipe("lake-watercolour-half-pans", &own.jar);
    RecordWish wish;
    wish.today = today;
    CHECK_FALSE(outlook_of(at(), recipe, bench(), own.library, wish));
    own.write(typed_drawn(own.context("2026-05-02"), "4.00 g"), "2026-05-02");
    own.write(typed_measured(own.context("2026-05-03"), "density: 1.86 +- 0.05 g/cm3"), "2026-05-03");
    const auto recorded = at();
    CHECK(recorded.has_record());
    CHECK(in_grams(recorded.jar.net_mass.value()) == Approx(20.0));
    CHECK(recorded.jar.net_mass.provenance().source == "record");
    CHECK(in_grams_per_cubic_centimetre(recorded.jar.pigment.density.value()) == Approx(1.86));
    const auto outlook = outlook_of(recorded, recipe, bench(), own.library, wish);
    REQUIRE(outlook);
    CHECK(outlook->own_readings.readings == 0);
    CHECK(outlook->coaching.now.chance.value() > 0.3);
}

TEST_CASE("What is asked of a batch is asked as that batch was made", "[unit]") {
    OwnStudio own;
    RecordWish wish;
    wish.today = today;
    const auto told = [&](const char* text) {
        const auto faults = faults_of([&] { (void)as_batch(own.read(), own.story(), text, wish); });
        return faults.empty() ? std::string() : faults.front().message;
    };
    CHECK(told("7.9 g") == "--poured \"7.9 g\": no batch of this jar was kept");
    auto pans = own.context("2026-05-01");
    pans.lot = "May";
    own.write(typed_mixed(pans, "2.00 g, 7.00 g", "watercolour-pan", own.library.medium("gum-water")), "2026-05-01");
    own.write(typed_mixed(own.context("2026-05-02"), "2.50 g, 1.60 g", "oil", own.library.medium("linseed")), "2026-05-02");
    own.write(typed_swatch(own.context("2026-05-03"), "0.20 g, 0.80 g: chalks", "watercolour-pan", "gum-water"), "2026-05-03");
    const auto as_last = as_batch(own.read(), own.story(), "1.7 g", wish);
    CHECK(as_last.family == "oil");
    CHECK(as_last.medium == "linseed");
    CHECK_FALSE(as_last.lot);
    const auto as_first = as_batch(own.read(), own.story(), "1: 7.9 g", wish);
    CHECK(as_first.family == "watercolour-pan");
    CHECK(as_first.medium == "gum-water");
    CHECK(as_first.lot == "May");
    const auto poured = [&](const char* text) { return poured_question(own.read(), own.story(), text, own.library); };
    CHECK(poured("1.7 g").batch == 1);
    CHECK(in_grams(poured("1.7 g").powder) == Approx(2.5));
    CHECK(poured("1: 7.9 g").batch == 0);
    CHECK(in_grams(poured("1: 7.9 g").planned) == Approx(7.0));
    CHECK(in_grams(poured("1: 7.9 g").poured) == Approx(7.9));
    for (const char* number : {"0: 7.9 g", "3: 7.9 g", "last: 7.9 g"})
        CHECK(told(number) == "--poured \"" + std::string(number) + "\": this jar has no batch of that number");
    wish.family = "oil", wish.medium = "gum-water";
    CHECK(summary(faults_of([&] { (void)jar_story(own.read(), 0, bench(), false, own.library, wish); })) == "medium-unfit");
    wish.medium.reset();
    CHECK(summary(faults_of([&] { (void)stepwise_plan(own.read(), own.story(), "0.1 g", own.library, wish); })) == "out-of-range");
}

TEST_CASE("A studio as of a day is without what came later", "[unit]") {
    OwnStudio own;
    own.write(typed_drawn(own.context("2026-05-02"), "4.00 g"), "2026-05-02");
    own.write(typed_mixed(own.context("2026-05-10"), "2.50 g, 1.60 g", "oil", own.library.medium("linseed")), "2026-05-10");
    std::ofstream("jars/madder.yaml") << "kind: jar\nname: Madder\npigment: alumina-lake\nnet_mass: 10 g\nsince: 2026-05-06\n";
    own.library = shipped_library();
    const auto left_on = [&](const char* day) {
        const auto recorded = as_of(recorded_jar("jars/weld.yaml", own.library, today), day_of_iso(day).value(), own.library);
        return in_grams(recorded.studio.card.jars.at(recorded.index).left.value());
    };
    CHECK(left_on("2026-05-01") == Approx(24.0));
    CHECK(left_on("2026-05-02") == Approx(20.0)); // of that very day
    CHECK(left_on("2026-05-09") == Approx(20.0));
    CHECK(left_on("2026-05-10") == Approx(17.5));
    const auto jars_on = [&](const char* day) { return as_of(own.read(), day_of_iso(day).value(), own.library).jars.size(); };
    CHECK(jars_on("2026-05-05") == 1);
    CHECK(jars_on("2026-05-06") == 2);
    const auto faults = faults_of([&] { (void)left_on("2026-04-30"); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].message == "--date 2026-04-30: this jar was not there yet, its file begins on 2026-05-01");
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
