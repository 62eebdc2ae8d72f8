#include <catch2/catch.hpp>

#include "lakebound/shelf/family_file.hpp"
#include "lakebound/shelf/ingredient_file.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/vessel_file.hpp"
#include "shelf/faults_of.hpp"
#include "shelf/small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

Estimate<MassDensity> linseed() {
    return Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.925), {Origin::memory, "a book", false});
}
std::string pigment_faults(const std::string& text) {
    return summary(faults_of([&] { read_pigment(load_document("p.yaml", text), "p", linseed); }));
}
std::string with(const char* plain, const std::string& more) { return std::string(plain).append(more); }

} // namespace

TEST_CASE("a pigment file becomes a pigment", "[unit]") {
    const Pigment pigment = read_pigment(
        load_document("p.yaml",
                      with(plain_pigment,
                           "density_state: bone dry\nmoisture: {value: 8 % w/w, origin: measured}\n"
                           "median_size: {value: 4 um, origin: estimate}\nhazards: [dust, light sensitive]\n"
                           "note: |\n  one\n  two\n")),
        "p", linseed);
    CHECK(pigment.id == "p");
    CHECK(pigment.name == "Test lake");
    CHECK(pigment.pigment_class == PigmentClass::lake);
    CHECK(in_grams_per_cubic_centimetre(pigment.density.value()) == Approx(1.9));
    CHECK(pigment.density_state == MoistureState::bone_dry);
    CHECK(pigment.oil_absorption.value().value().value() == Approx(0.65));
    CHECK(in_grams_per_cubic_centimetre(pigment.test_oil_density.value()) == Approx(0.925));
    CHECK(pigment.test_oil_density.provenance().origin == Origin::memory);
    REQUIRE(pigment.moisture);
    CHECK(pigment.moisture->value().value() == Approx(0.08));
    CHECK(in_micrometres(pigment.median_size.value().value()) == Approx(4.0));
    CHECK(!pigment.tapped_density);
    CHECK(pigment.hazards == std::vector<Hazard>{Hazard::dust, Hazard::light_sensitive});
    CHECK(pigment.note == "one two"); // in one line, so that no note can forge one of ours
}

TEST_CASE("what is wrong with a pigment file is found, all of it", "[errors]") {
    CHECK(pigment_faults(plain_pigment).empty());
    CHECK(pigment_faults(with(plain_pigment, "density_state: bone dry\n")) == "moisture-missing 6:16");
    CHECK(pigment_faults(with(plain_pigment, "hazards: [dust, doom]\n")) == "word-unknown 6:17");
    CHECK(pigment_faults(changed(plain_pigment, "65 x/", "650 x/")) == "out-of-range 5:25");
    CHECK(
        pigment_faults("kind: pigment\nname: x\nclass: lak\ndensity: {value: 2 g, origin: x}\ncolour: red\n") ==
        "key-missing 1:1, word-unknown 3:8, unit-dimension 4:18, word-unknown 4:31, key-unknown 5:1");
    CHECK(pigment_faults("kind: pigment\nname: x\nname: y\nclass: lake\ndensity: 2 g/cm3\n") ==
          "key-missing 1:1, key-duplicate 3:1, figure-bare 5:10");
    std::string many = plain_pigment;
    for (int i = 0; i < 40; ++i)
        many.append("k").append(std::to_string(i)).append(": 1\n");
    CHECK(faults_of([&] { read_pigment(load_document("p.yaml", many), "p", linseed); }).size() == most_faults);
}

TEST_CASE("an ingredient that leaves something must say how dense that is", "[errors]") {
    const Ingredient gum = read_ingredient(load_document("i.yaml", plain_gum), "test-gum");
    CHECK(gum.role == Role::gum);
    CHECK(gum.non_volatile.value().value() == Approx(0.87));
    CHECK_NOTHROW(read_ingredient(load_document("i.yaml", plain_water), "water"));
    const std::string without =
        changed(plain_gum, "solids_density: {value: 1.5 g/cm3, origin: estimate}\n", "");
    CHECK(summary(faults_of([&] { read_ingredient(load_document("i.yaml", without), "i"); })) ==
          "solids-density-missing 5:15");
}

TEST_CASE("a family's window rises and holds its start", "[errors]") {
    const Family family = read_family(load_document("f.yaml", plain_family), "f");
    CHECK(family.process == Process::watercolour);
    CHECK(family.window.green_high.value() == Approx(1.8));
    CHECK(family.method_transfer == Approx(0.1));
    CHECK(family.plasticiser.most == Approx(0.5));
    CHECK(family.soft_share.good_to.value() == Approx(0.48));
    CHECK(family.binder_index.value().value() == Approx(1.0));
    const auto faults = [](const std::string& text) {
        return summary(faults_of([&] { read_family(load_document("f.yaml", text), "f"); }));
    };
    CHECK(faults(changed(plain_family, "green_high: 1.8", "green_high: 1.1")) == "window-order 5:54");
    CHECK(faults(changed(plain_family, "start: 1.4", "start: 3")) == "window-order 4:8");
    CHECK(faults(changed(plain_family, "start: 1.4", "start: -1")) == "quantity-negative 4:8");
    CHECK(faults(changed(plain_family, "{value: 1, ", "{value: 1.2, ")) == "fraction-above-one 7:23");
    CHECK(faults(changed(plain_family, "{value: 0.1, ", "{value: 9, ")) == "out-of-range 8:26");
    CHECK(faults(changed(plain_family, "most: 0.5", "most: 0.1")) == "window-order 11:34");
    CHECK(faults(changed(plain_family, "soft_to: 55 %", "soft_to: 45 %")) == "window-order 12:76");
    CHECK(faults(changed(plain_family, "soft_to: 55 %, ", "")) == "key-missing 12:13");
    CHECK(faults(changed(plain_family, "evidence: {origin: estimate, note",
                         "medium_keeps: {value: 48 h, origin: estimate}\nevidence: {origin: estimate, note")) ==
          "key-unknown 13:15");
    // Each limit may be the one before it, and no less.
    const std::pair<const char*, const char*> rising[] = {{"amber_low: 1.0", "green_low: 1.2"}, {"green_low: 1.2", "green_high: 1.8"}, {"green_high: 1.8", "amber_high: 2.4"},
                                                          {"none_below: 30 %", "weak_below: 50 %"}, {"least: 0.15", "most: 0.5"}, {"brittle_below: 20 %", "good_from: 25 %"},
                                                          {"good_from: 25 %", "good_to: 48 %"}, {"good_to: 48 %", "soft_to: 55 %"}, {"soft_to: 55 %", "sets_to: 70 %"}};
    for (const auto& [lower, upper] : rising) {
        CAPTURE(upper);
        const std::string low = lower, high = upper, key = high.substr(0, high.find(": ") + 2), figure = low.substr(low.find(": ") + 2);
        const std::string text = changed(plain_family, "start: 1.4", "start: 1.8");
        CHECK(faults(changed(text, high, key + figure)).empty());
        const std::string less = std::to_string(0.999 * std::stod(figure)) + (figure.ends_with("%") ? " %" : "");
        CHECK(faults(changed(text, high, key + less)).find("window-order") == 0);
    }
    // What each way of making up asks for.
    const std::string others = std::string(plain_family).substr(0, std::string(plain_family).find("plasticiser:"));
    const std::string evidence = "evidence: {origin: estimate, note: invented}\n";
    CHECK(faults(changed(others, "process: watercolour", "process: oil") + evidence) == "key-missing 1:1, key-missing 1:1");
    CHECK(faults(changed(others, "process: watercolour", "process: egg tempera") + evidence) == "key-missing 1:1");
    const auto oil = read_family(
        load_document("f.yaml", changed(others, "process: watercolour", "process: oil") + evidence +
                                    "most_excess_water: {value: 12 % w/w, origin: estimate}\n"
                                    "cured_oil_loses: {least: 2 %, most: 15 %, evidence: {origin: estimate}}\n"),
        "f");
    CHECK(oil.most_excess_water.value() == Approx(0.12));
    CHECK(oil.cured_oil_loses.most.value() == Approx(0.15));
}

TEST_CASE("a vessel of no volume is refused", "[errors]") {
    const Vessel vessel = read_vessel(load_document("v.yaml", plain_vessel), "v");
    CHECK(in_millilitres(vessel.capacity.value()) == Approx(2.0));
    CHECK(vessel.fill.value() == Approx(0.9));
    CHECK(vessel.filled_by == FilledBy::dry_volume);
    const auto faults = [](const std::string& text) {
        return summary(faults_of([&] { read_vessel(load_document("v.yaml", text), "v"); }));
    };
    CHECK(faults(changed(plain_vessel, "2 mL", "0 mL")) == "quantity-negative 3:19");
    CHECK(faults(changed(plain_vessel, "90 %", "110 %")) == "fraction-above-one 4:7");
}

TEST_CASE("a medium takes its ingredients from the shelf", "[unit]") {
    const SmallShelf shelf;
    Library library = shelf.library();
    const Medium medium = library.medium("gum-water");
    REQUIRE(medium.parts.size() == 2);
    CHECK(medium.parts[0].ingredient.id == "test-gum");
    CHECK(medium.parts[1].parts == Approx(2.0));
}

TEST_CASE("an unknown ingredient is answered with the nearest names", "[errors]") {
    const SmallShelf shelf;
    Library library = shelf.library();
    const auto faults = [&](const std::string& text) {
        return faults_of([&] { read_medium(load_document("m.yaml", text), "m", library); });
    };
    const auto unknown = faults(changed(plain_medium, "test-gum", "test-gmu"));
    REQUIRE(summary(unknown) == "id-unknown 5:18");
    CHECK(unknown[0].hint == "did you mean 'test-gum'?");
    const auto other = faults(changed(plain_medium, "test-gum", "test-lake"));
    REQUIRE(summary(other) == "id-unknown 5:18");
    CHECK(summary(faults(changed(plain_medium, "test-gum", "../x"))) == "id-form 5:18");
    CHECK(summary(faults(changed(plain_medium, "parts: 2", "parts: 0"))) == "quantity-negative 6:32");
    // A faulty file is told once, however often it is referred to.
    shelf.dir().write("ingredients/water.yaml", changed(plain_water, "role: water", "role: wine"));
    library = shelf.library();
    const auto twice = faults(with(plain_medium, "  - {ingredient: water, parts: 1}\n"));
    REQUIRE(summary(twice) == "word-unknown 3:7");
    REQUIRE(twice[0].second);
    CHECK(twice[0].second->at.place.path == "m.yaml");
}
