// Where figures come from, as readers and typed entries note it; which keys an origin takes; what moisture does to a powder that the
// shelf knows; and which folders that are locked are told or passed over.

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

#include "faults_of.hpp"
#include "lakebound/material/moisture.hpp"
#include "lakebound/shelf/bench_starter.hpp"
#include "lakebound/shelf/check_file.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/search_path.hpp"
#include "lakebound/shelf/typed_bath.hpp"
#include "lakebound/shelf/typed_fineness.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "lakebound/shelf/typed_text.hpp"
#include "own_studio.hpp"
#include "small_shelf.hpp"
#include "support/as_nobody.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

bool is_of(const Provenance& from, Origin origin, const std::string& source) {
    return from.origin == origin && from.source == source && !from.library_default && !from.stand_in;
}

} // namespace

TEST_CASE("a figure that the maker gave is the maker's own", "[unit]") {
    bool filled = false;
    CHECK(is_of(figure_option<Mass>("--weighed", "10 +- 1 g", .1, filled).provenance(), Origin::measured, "typed"));
    CHECK(is_of(figure_option<Mass>("--weighed", "10 x/ 1.1 g", .1, filled).provenance(), Origin::measured, "typed"));
    CHECK(is_of(figure_option<Mass>("--weighed", "10 g", .1, filled).provenance(), Origin::measured, "typed"));
    Document document = load_document("f.yaml", "a: 10 g\n");
    const MapReader map(document.root, "the file", {"a"}, document.faults);
    CHECK(is_of(map.figure<Mass>("a", range::positive, FigureStyle::by_maker).provenance(), Origin::measured, ""));

    OwnStudio own;
    own.write(typed_drawn(own.context("2026-05-02"), "4.00 g"), "2026-05-02");
    CHECK(is_of(recorded_jar("jars/weld.yaml", own.library, studio_today).jar.net_mass.provenance(), Origin::measured, "record"));

    FinenessTexts texts;
    texts.family = "oil", texts.residue = "1 %";
    const auto target = find_target(texts, own.library);
    REQUIRE(target);
    CHECK(is_of(target->allowed_residue.provenance(), Origin::estimate, "as asked"));
    CHECK(target->allowed_residue.value().value() == Approx(.01));

    BathTexts bath;
    bath.alum = "potash-alum, 50 g", bath.alkali = "soda-ash", bath.water_ph = "6.8, pen", bath.drying = "38.6 g, 24.9 g, 17.9 g every 24 h";
    const WashHabits washing = own.library.wash_habits();
    const BathPlan plan = plan_bath(bath_wish(bath, own.library), own.library.laking_habits(), washing);
    const BathReadings readings = bath_readings(bath, plan);
    REQUIRE(readings.weighings.size() == 3);
    for (const auto& weighing : readings.weighings)
        CHECK_FALSE(weighing.surface_wet);
    BathTexts read = bath;
    read.drying.reset();
    const BathSetting setting = bath_setting(plan, own.library.laking_habits(), washing, own.library.powder_habits(), studio_bench());
    const BathJar jar = bath_jar(read, plan, bath_standing(bath_readings(read, plan), setting), washing);
    REQUIRE(jar.ph);
    CHECK(is_of(jar.ph->provenance(), Origin::measured, ""));
}

TEST_CASE("an origin that stands by itself takes no value", "[errors]") {
    Library library({{LAKEBOUND_FORMULATIONS_DIR, "test", true}});
    const Jar jar = library.jar(std::string(LAKEBOUND_FORMULATIONS_DIR) + "/studios/reedmere/jars/weld.yaml");
    int tried = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(LAKEBOUND_FORMULATIONS_DIR)) {
        if (entry.path().extension() != ".yaml") continue;
        const std::string text = read_bytes(entry.path());
        for (const char* key : {"evidence: {", "source: {", "evidence:\n", "source:\n"})
            for (auto at = text.find(key); at != std::string::npos; at = text.find(key, at + 1)) {
                if (at > 0 && text[at - 1] != ' ' && text[at - 1] != '\n') continue;
                const auto behind = at + std::string(key).size();
                const std::string blanks = text.substr(behind, text.find_first_not_of(' ', behind) - behind);
                const std::string more = text[behind - 1] == '{' ? "value: 1, " : blanks + "value: 1\n";
                CAPTURE(entry.path().string(), at);
                const auto faults = faults_of([&] { check_document(load_document(entry.path().string(), text.substr(0, behind) + more + text.substr(behind)), entry.path().stem().string(), library, &jar); });
                REQUIRE(faults.size() == 1);
                CHECK(faults[0].id == "key-unknown");
                CHECK(faults[0].message.starts_with("the source of "));
                CHECK(faults[0].message.ends_with(" has no key 'value'"));
                ++tried;
            }
    }
    CHECK(tried > 30);
}

TEST_CASE("a powder of the shelf is as damp as it is said to be, whoever says it", "[identity]") {
    const SmallShelf shelf;
    shelf.dir().write("pigments/test-lake.yaml", std::string(plain_pigment) + "moisture: {value: 8 +- 1 % w/w, origin: estimate}\n");
    shelf.dir().write("recipes/alone.yaml", changed(plain_recipe, "  - {pigment: jar, share: 70 % w/w}\n  - {pigment: test-lake, share: 30 % w/w}", "  - {pigment: test-lake, share: 100 % w/w}"));
    Library library = shelf.library();
    bool filled = false;
    const auto now = figure_option<MassFraction>("--moisture", "15 +- 2 % w/w", .1, filled);
    const Pigment wanted = at_moisture(library.pigment("test-lake"), now);
    REQUIRE(wanted.oil_absorption.value().value().value() != Approx(library.pigment("test-lake").oil_absorption.value().value().value()));
    const auto check = [&](const Pigment& found) {
        CHECK(found.density.value().value() == Approx(wanted.density.value().value()).epsilon(1e-12));
        CHECK(found.oil_absorption.value().value().value() == Approx(wanted.oil_absorption.value().value().value()).epsilon(1e-12));
        CHECK(found.moisture->value().value() == Approx(.15));
        CHECK(found.excess_water.value() == Approx(wanted.excess_water.value()).margin(1e-12));
    };
    PaintTexts texts;
    texts.moistures = {"15 +- 2 % w/w"};
    const auto asked = [&] { return paint_question(texts, library, []() -> std::string { return {}; }).request.recipe.pigments.at(0).pigment; };
    texts.recipe = "alone";
    check(asked());
    texts.recipe.reset();
    texts.pigments = {"test-lake: 10 g"}, texts.binders = {"gum-water: 40 g"}, texts.family = "test-family";
    check(asked());
    check(read_jar(load_document("jar.yaml", std::string(plain_jar) + "moisture: 15 +- 2 % w/w\n"), "jar", library).pigment);
}

TEST_CASE("a folder that is locked is told where it was named, and passed over where it is another's", "[errors]") {
    namespace fs = std::filesystem;
    const TempDir dir;
    fs::permissions(dir.path(), fs::perms(0755));
    for (const char* name : {"locked/own", "locked/lakebound/formulations", "locked/shipped", "shelf/studios/mallow", "data/lakebound/formulations"})
        fs::create_directories(dir.path() / name);
    const auto told = [&](const SearchInputs& inputs) {
        std::string text;
        const auto faults = faults_of([&] {
            for (const ShelfFolder& folder : search_path(inputs))
                text += folder.path.substr(dir.path().string().size()) + (folder.present ? " " : "! ");
        });
        return faults.empty() ? text : faults[0].id + ": " + faults[0].message;
    };
    SearchInputs plain;
    plain.xdg_data_dirs = "relative";
    SearchInputs option = plain, standing = plain, data = plain, shipped = plain, studio = plain, inner = plain, environment = plain;
    option.options = {dir.file("locked/own")};
    environment.lakebound_shelf = dir.file("locked/own");
    standing.standing = dir.file("locked/own");
    data.xdg_data_home = dir.file("locked");
    inner.xdg_data_home = dir.file("data");
    shipped.shipped = {dir.file("locked/shipped"), dir.file("shelf")};
    studio.options = {"mallow"};
    studio.shipped = {dir.file("locked/shipped"), dir.file("shelf")};
    fs::permissions(dir.path() / "locked", fs::perms(0700));
    fs::permissions(dir.path() / "data/lakebound", fs::perms(0700));
    if (::geteuid() != 0) fs::permissions(dir.path() / "locked", fs::perms(0000)), fs::permissions(dir.path() / "data/lakebound", fs::perms(0000));
    std::vector<std::string> all;
    {
        const AsNobody nobody;
        if (nobody)
            for (const auto& inputs : {option, environment, standing, data, inner, shipped, studio})
                all.push_back(told(inputs));
    }
    fs::permissions(dir.path() / "locked", fs::perms(0700));
    fs::permissions(dir.path() / "data/lakebound", fs::perms(0700));
    if (all.empty()) return;
    const std::string locked = "shelf-unusable: no permission to look into this folder of the shelf";
    CHECK(all == std::vector<std::string>{locked, locked, locked, "/locked/lakebound! ", locked, "/shelf ", "/shelf/studios/mallow /shelf "});
}

TEST_CASE("of a folder of entries only those are read whose names are ones", "[unit]") {
    const TempDir dir;
    for (const char* name : {"2026-05-03-01-note.yaml", ".hidden.yaml", "readme.txt", ".lakebound-a1b2c3", "a.yaml", "yaml"})
        dir.write(std::string("weld/") + name, "x");
    CHECK(entry_files(dir.file("weld")) == std::vector<std::string>{"2026-05-03-01-note.yaml", "a.yaml"});
    CHECK(entry_files(dir.file("none")).empty());
    Studio studio;
    studio.folder = "/";
    CHECK(studio_name(studio) == "/");
    studio.folder = dir.path().string();
    CHECK(studio_name(studio) == dir.path().filename().string());
}

TEST_CASE("a room is assumed where a paint of its air has neither bench nor humidity", "[unit]") {
    const SmallShelf shelf;
    auto library = shelf.library();
    const auto assumed = [&](const std::optional<std::string>& humidity) {
        PaintTexts texts;
        texts.pigments = {"test-lake: 10 g"}, texts.binders = {"gum-water: 40 g"}, texts.family = "test-family", texts.humidity = humidity;
        return paint_question(texts, library, []() -> std::string { return {}; }).assumed;
    };
    REQUIRE(assumed({}).size() == 1);
    CHECK(assumed({})[0].starts_with("No bench file was found: a room of "));
    CHECK(assumed("40 %").empty());
    // A recipe that lacks more than its jar is told whole, not as lacking the jar alone.
    const auto told = [&](const std::string& text) { return summary(faults_of([&] { (void)find_recipe("-", library, nullptr, [&] { return text; }); })); };
    CHECK(told(plain_recipe) == "jar-missing");
    CHECK(told(changed(plain_recipe, "vessel: test-pan", "vessel: no-such-pan")).find("jar-missing 5:15, ") == 0);
}

TEST_CASE("a residue is less than all, and scales are named one by one", "[errors]") {
    Library library = shipped_library();
    const auto residue = [&](const char* share) {
        FinenessTexts texts;
        texts.target = "45 um", texts.residue = share;
        return summary(faults_of([&] { (void)find_target(texts, library); }));
    };
    CHECK(residue("99.9 %").empty());
    CHECK(residue("0.01 %").empty());
    for (const char* none : {"100 %", "101 %", "0 %"})
        CHECK(residue(none) == "out-of-range");
    const AssumedBench& assumed = library.practice().assumed_bench;
    CHECK(bench_starter("0.1 g, 0.01 g", assumed).find("  - {name: scale of 0.1 g, step: 0.1 g}\n  - {name: scale of 0.01 g, step: 0.01 g}\n") != std::string::npos);
    for (const char* none : {"", "0.1 g,", ",0.1 g", "0.1 g,,0.01 g"})
        CHECK_FALSE(faults_of([&] { (void)bench_starter(none, assumed); }).empty());
}
