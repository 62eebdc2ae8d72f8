#include "lakebound/shelf/maker_files.hpp"

#include <catch2/catch.hpp>

#include <ctime>

#include "faults_of.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const StandardInput not_asked = []() -> std::string { throw std::logic_error("standard input was read"); };

/// Its only pigment is named, and stands for no jar.
const std::string without_jar = changed(changed(plain_recipe, "  - {pigment: jar, share: 70 % w/w}\n", ""), "30 % w/w}", "100 % w/w}");

} // namespace

TEST_CASE("A bench is the one that was named, else the shelf's, else a scale that is assumed", "[unit]") {
    const SmallShelf shelf;
    {
        Library library = shelf.library();
        const FoundBench found = find_bench({}, library);
        CHECK(found.assumed);
        CHECK(found.bench.name == "assumed");
        REQUIRE(found.bench.scales.size() == 1);
        CHECK(found.bench.scales[0].name == "0.1 g scale");
        CHECK(in_grams(found.bench.scales[0].step) == Approx(0.1));
        CHECK(in_grams(found.bench.slab_loss.fixed) == Approx(0.6));
        CHECK(found.bench.slab_loss.share.value() == Approx(0.03));
    }
    shelf.dir().write("bench.yaml", plain_bench);
    const auto other = shelf.dir().write("other.yaml", changed(plain_bench, "name: Bench", "name: Other"));
    Library library = shelf.library();
    CHECK_FALSE(find_bench({}, library).assumed);
    CHECK(find_bench({}, library).bench.name == "Bench");
    CHECK_FALSE(find_bench(other, library).assumed);
    CHECK(find_bench(other, library).bench.name == "Other");
    CHECK(summary(faults_of([&] { find_bench(shelf.dir().file("none.yaml"), library); })) == "file-missing");
}

TEST_CASE("The day is the one that was typed, else that of the place", "[unit][errors]") {
    CHECK(day_option("2024-02-29") == day_of_iso("2024-02-29").value());
    for (const char* no_day : {"2023-02-29", "29.2.2024", "", "today"})
        CHECK(summary(faults_of([&] { day_option(no_day); })) == "date-form");
    const auto written = [] {
        const std::time_t now = std::time(nullptr);
        std::tm local{};
        ::localtime_r(&now, &local);
        char text[16];
        std::strftime(text, sizeof text, "%Y-%m-%d", &local);
        return day_of_iso(text).value();
    };
    const auto before = written();
    const auto today = today_here();
    const auto after = written(); // midnight may pass
    CHECK((today == before || today == after));
    CHECK(day_option({}) >= today);
}

TEST_CASE("A recipe is found by its id, by its path and on standard input; the jar that it wants must be named", "[unit][errors]") {
    const SmallShelf shelf;
    shelf.dir().write("jars/jar.yaml", plain_jar);
    const auto path = shelf.dir().write("mine.yaml", without_jar);
    Library library = shelf.library();
    const Jar jar = library.jar("jar");
    CHECK(find_recipe("test-paint", library, &jar, not_asked).pigments.size() == 2);
    CHECK(find_recipe(path, library, nullptr, not_asked).id == "mine");
    const Recipe piped = find_recipe("-", library, nullptr, [] { return without_jar; });
    CHECK(piped.id == "standard-input");
    CHECK(piped.pigments.size() == 1);
    const auto unnamed = faults_of([&] { find_recipe("test-paint", library, nullptr, not_asked); });
    REQUIRE(unnamed.size() == 1);
    CHECK(unnamed[0].id == "jar-missing");
    CHECK(unnamed[0].message == "this recipe takes its pigment from a jar, and none is named");
    CHECK(unnamed[0].at.place.line == 0); // the command line's, and not the file's
    CHECK(summary(faults_of([&] { find_recipe("no-paint", library, nullptr, not_asked); })) == "id-unknown");
    const auto two = faults_of([&] { find_recipe("-", library, nullptr, [] { return changed(plain_recipe, "test-family", "none"); }); });
    CHECK(two.size() > 1); // as the file tells them
}

TEST_CASE("A jar lends its figures to the pigment that it stands for", "[unit][errors]") {
    const SmallShelf shelf;
    shelf.dir().write("jars/jar.yaml", std::string(plain_jar) + "density: 2.2 g/cm3\n");
    const auto path = shelf.dir().write("mine.yaml", without_jar);
    Library library = shelf.library();
    const Jar jar = library.jar("jar");
    Recipe recipe = find_recipe("test-paint", library, &jar, not_asked); // the jar first, its stand-in second
    CHECK(jar_in_recipe(recipe, jar) == 0);
    std::swap(recipe.pigments[0], recipe.pigments[1]);
    CHECK(jar_in_recipe(recipe, jar) == 1); // the one that is the jar goes before the one of the same kind
    Recipe named = find_recipe(path, library, nullptr, not_asked);
    CHECK(in_grams_per_cubic_centimetre(named.pigments[0].pigment.density.value()) == Approx(1.9));
    CHECK(jar_in_recipe(named, jar) == 0);
    CHECK(in_grams_per_cubic_centimetre(named.pigments[0].pigment.density.value()) == Approx(2.2));
    named.pigments[0].pigment.id = "ochre";
    CHECK(summary(faults_of([&] { jar_in_recipe(named, jar); })) == "jar-not-used");
}
