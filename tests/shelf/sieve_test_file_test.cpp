#include <catch2/catch.hpp>

#include <string>

#include "lakebound/shelf/fineness_target_file.hpp"
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "shelf/faults_of.hpp"
#include "shelf/small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const std::string plain =
    "kind: sieve test\nname: Trial\ncharge: 20.0 g\ngrinding_time: 15 min\nretained:\n"
    "  - {screen: 150 um, mass: 5.0 g}\n  - {screen: No. 200, gross: 206.0 g, tare: 200.0 g}\n"
    "pan: 8.9 g\nscale_step: 0.1 g\ndensity: 1.88 g/cm3\n";
const std::string table = "# a remark\nscreen,mass\n150 um,5.0 g\nNo. 200,6.0 g\npan,8.9 g\ncharge,20.0 g\n"
                          "grinding time,15 min\nscale step,0.1 g\ndensity,1.88 g/cm3\n";

SieveRecord yaml(const std::string& text) {
    return read_sieve_test(load_document("trial.yaml", text), "trial").record;
}
SieveRecord csv(const std::string& text) {
    return read_sieve_test(parse_sieve_csv(check_text("trial.csv", text)), "trial").record;
}
std::string yaml_faults(const std::string& text) {
    return summary(faults_of([&] { yaml(text); }));
}
std::string csv_faults(const std::string& text) {
    return summary(faults_of([&] { csv(text); }));
}
std::string settling_faults(const std::string& text) {
    return summary(faults_of([&] { read_settling_test(load_document("s.yaml", text), "s"); }));
}

void check_trial(const SieveRecord& record) {
    CHECK(record.method == SieveMethod::dry);
    REQUIRE(record.test.screens.size() == 2);
    CHECK(in_micrometres(record.test.screens[1].aperture) == Approx(75.0));
    CHECK(in_grams(record.test.screens[0].retained) == Approx(5.0));
    CHECK(in_grams(record.test.screens[1].retained) == Approx(6.0));
    CHECK(in_grams(record.test.pan) == Approx(8.9));
    CHECK(in_grams(record.test.charge.value()) == Approx(20.0));
    CHECK(in_minutes(record.grinding_time.value()) == Approx(15.0));
    CHECK(in_grams(record.test.scale_step.value()) == Approx(0.1));
    CHECK(in_grams_per_cubic_centimetre(record.density.value()) == Approx(1.88));
    CHECK(record.sieves.at(1).designation == "No. 200");
}

} // namespace

TEST_CASE("a sieve test reads the same from YAML and from a table", "[unit]") {
    check_trial(yaml(plain));
    check_trial(csv(table));
    CHECK(yaml(plain).name == "Trial");
    CHECK(csv(table).name == "trial");
    CHECK(csv(table + "name,\"Trial, second\"\n").name == "Trial, second");
}

TEST_CASE("a table with tares is netted", "[unit]") {
    const auto record = csv("screen,gross,tare\n150 um,205.0 g,200.0 g\nNo. 200,206.0 g,200.0 g\n"
                            "pan,108.9 g,100.0 g\ncharge,20.0 g\ngrinding time,15 min\nscale step,0.1 g,\n"
                            "density,1.88 g/cm3\n");
    check_trial(record);
}

TEST_CASE("a wet test has its passing by difference", "[unit]") {
    const auto record = yaml("kind: sieve test\nname: W\nmethod: wet\ncharge: 10 g\nretained:\n"
                             "  - {screen: 45 um, mass: 20 mg}\n");
    CHECK(record.method == SieveMethod::wet);
    CHECK(in_grams(record.test.pan) == Approx(9.98));
}

TEST_CASE("a table is told from YAML", "[unit]") {
    CHECK(is_sieve_csv(*check_text("x", "# hello: you\nscreen,mass\n75 um,1 g\n")));
    CHECK(is_sieve_csv(*check_text("x.CSV", "kind: sieve test\n")));
    CHECK_FALSE(is_sieve_csv(*check_text("x", "kind: sieve test\nname: a, b\n")));
}

TEST_CASE("masses that cannot be are refused where they stand", "[errors]") {
    CHECK(yaml_faults(changed(plain, "pan: 8.9 g", "pan: 12.0 g")) == "retained-over-charge 3:9");
    CHECK(yaml_faults(changed(plain, "tare: 200.0 g", "tare: 210.0 g")) == "tare-over-gross 7:30");
    CHECK(yaml_faults(changed(plain, "mass: 5.0 g", "mass: -5.0 g")) == "quantity-negative 6:28");
    CHECK(yaml_faults(changed(plain, "mass: 5.0 g", "mass: 5.0 g, tare: 3 g")) == "mass-form 6:28");
    CHECK(yaml_faults(changed(plain, ", mass: 5.0 g", "")) == "mass-form 6:5");
    CHECK(yaml_faults("kind: sieve test\nname: N\nretained:\n  - {screen: 75 um, mass: 0 g}\npan: 0 g\n") ==
          "sieve-empty 4:3");
    CHECK(yaml_faults(changed(plain, "pan: 8.9 g\n", "")) == "key-missing 1:1");
    CHECK(yaml_faults(changed(plain, "kind: sieve test\n", "kind: sieve test\nmethod: wet\n")) ==
          "wet-pan 9:6");
    CHECK(yaml_faults("kind: sieve test\nname: N\nmethod: wet\nretained:\n  - {screen: 75 um, mass: 1 g}\n") ==
          "key-missing 1:1");
}

TEST_CASE("screens out of order, repeated or unnamed are refused", "[errors]") {
    CHECK(yaml_faults(changed(plain, "screen: No. 200", "screen: No. 60")) == "screen-order 7:14");
    CHECK(yaml_faults(changed(plain, "screen: No. 200", "screen: 0.15 mm")) == "screen-twice 7:14");
    CHECK(yaml_faults(changed(plain, "screen: No. 200", "screen: 200 mesh")) == "sieve-mesh 7:14");
    CHECK(yaml_faults(changed(plain, "screen: No. 200", "screen: No. 201")) == "sieve-number 7:14");
    CHECK(yaml_faults(changed(plain, "screen: No. 200", "screen: 75 m")) == "sieve-aperture 7:14");
    const auto faults = faults_of([] { yaml(changed(plain, "screen: No. 200", "screen: No. 60")); });
    REQUIRE(faults.at(0).second);
    CHECK(faults[0].second->at.place.line == 6);
}

TEST_CASE("a faulty table is refused at the cell", "[errors]") {
    CHECK(csv_faults(changed(table, "150 um,5.0 g", "150 um,5,0 g")) == "number-comma 3:8");
    CHECK(csv_faults(changed(table, "150 um,5.0 g", "150 um,\"5,0 g\"")) == "number-comma 3:8");
    CHECK(csv_faults(changed(table, "150 um,5.0 g", "150 um")) == "csv-columns 3:1");
    CHECK(csv_faults(changed(table, "150 um,5.0 g", "150 um,5.0 g,x")) == "csv-columns 3:14");
    CHECK(csv_faults(changed(table, "150 um,5.0 g", "150 um,5.0")) == "unit-missing 3:8");
    CHECK(csv_faults(changed(table, "screen,mass", "screen")) == "csv-header 2:6");
    CHECK(csv_faults(changed(table, "screen,mass", "screen,weight")) == "csv-header 2:8");
    CHECK(csv_faults(changed(table, "screen,mass", "screen,gross")) == "csv-header 2:12");
    CHECK(csv_faults(changed(table, "screen,mass", "screen,mass,mass")) == "csv-header 2:13");
    CHECK(csv_faults("screen;mass\n75 um;1,0 g\n") == "csv-separator 1:1");
    CHECK(csv_faults(changed(table, "pan,8.9 g", "pann,8.9 g")) == "csv-row 5:1");
    CHECK(csv_faults(changed(table, "pan,8.9 g", "pan,8.9 g\npan,1 g")) == "csv-row 6:1");
    CHECK(csv_faults(changed(table, "150 um,5.0 g", "\"150 um,5.0 g")) == "csv-quote 3:1");
    CHECK(csv_faults(changed(table, "No. 200,", "200,")) == "sieve-mesh 4:1");
    CHECK(csv_faults("screen,mass\n") == "key-missing 1:1, key-missing 1:1");
}

TEST_CASE("a tab that strayed into a table is told to be a comma", "[errors]") {
    // The hint said to put spaces, which part no columns.
    for (const char* name : {"trial.csv", "TRIAL.CSV"}) {
        const auto faults = faults_of([&] { check_text(name, "screen,mass\n150 um\t5.0 g\npan,8.9 g\n"); });
        CHECK(summary(faults) == "text-tab 2:7");
        CHECK(faults.at(0).hint == "write a comma where a column ends, and delete the tab where none does");
    }
    const auto faults = faults_of([] { check_text("trial.yaml", "name:\tTrial\n"); });
    CHECK(faults.at(0).hint == "replace the tab by spaces");
}

TEST_CASE("a settling test is grains or a blanket", "[unit]") {
    const auto grains =
        read_settling_test(load_document("s.yaml", "kind: settling test\nname: S\ntemperature: 19 degC\n"
                                                   "grains: {size: 49 um, depth: 100 mm, time: 150 s}\n"),
                           "s")
            .record;
    REQUIRE(grains.grains);
    CHECK(in_seconds(grains.grains->time) == Approx(150.0));
    CHECK(in_degrees_celsius(grains.temperature.value()) == Approx(19.0));
    const auto blanket = read_settling_test(
        load_document("s.yaml", "kind: settling test\nname: S\nblanket:\n  - {time: 0 h, height: 100 mm}\n"
                                "  - {time: 2 h, height: 62 mm}\n  - {time: 4 h, height: 48 mm}\n"),
        "s").record;
    REQUIRE(blanket.blanket);
    CHECK(in_hours(blanket.blanket->interval) == Approx(2.0));
}

TEST_CASE("the parts of a sieve test and a settling test keep their places", "[unit]") {
    const auto placed = read_sieve_test(load_document("trial.yaml", plain), "trial").places;
    const auto line = [&](RecordPart part) { return placed.at(part).place.line; };
    CHECK(line(RecordPart::whole) == 1);
    CHECK(line(RecordPart::grinding_time) == 4);
    CHECK(line(RecordPart::retained) == 6);
    CHECK(line(RecordPart::density) == 10);
    CHECK(line(RecordPart::timed_grains) == 1); // a sieve test has none: the whole of it
    const auto cells = read_sieve_test(parse_sieve_csv(check_text("trial.csv", table)), "trial").places;
    CHECK(cells.at(RecordPart::grinding_time).place.line == 7);
    CHECK(cells.at(RecordPart::grinding_time).place.column == 15);
    CHECK(cells.at(RecordPart::density).place.line == 9);
    const auto timed = read_settling_test(load_document("s.yaml", "kind: settling test\nname: S\n"
                                                                  "grains: {size: 49 um, depth: 1 mm, time: 1 s}\n"),
                                          "s")
                           .places;
    CHECK(timed.at(RecordPart::timed_grains).place.line == 3);
    CHECK(timed.at(RecordPart::timed_grains).place.column == 9);

    const RecordPlaces both[] = {placed, cells};
    const DomainError error("residue", "0 %", "above 0", "grind less");
    const auto fault = record_fault(RecordError(error, RecordPart::density, 1, 0), both);
    CHECK(fault.id == "out-of-range");
    CHECK(fault.message == "residue is 0 %; it must be above 0");
    CHECK(fault.hint == "grind less");
    CHECK(fault.at.place.path == "trial.csv");
    CHECK(fault.at.place.line == 9);
    REQUIRE(fault.second);
    CHECK(fault.second->at.place.path == "trial.yaml");
    CHECK(fault.second->at.place.line == 10);
    CHECK(!record_fault(RecordError(error, RecordPart::density), both).second);
}

TEST_CASE("faulty settling tests are refused", "[errors]") {
    const std::string head = "kind: settling test\nname: S\n";
    const std::string three = "blanket:\n  - {time: 0 h, height: 100 mm}\n  - {time: 2 h, height: 62 mm}\n"
                              "  - {time: 4 h, height: 48 mm}\n";
    CHECK(settling_faults(head) == "settling-form 1:1");
    CHECK(settling_faults(head + three + "grains: {size: 49 um, depth: 1 mm, time: 1 s}\n") ==
          "settling-form 4:3");
    CHECK(settling_faults(head + changed(three, "4 h", "5 h")) == "blanket-readings 6:5");
    CHECK(settling_faults(head + changed(three, "  - {time: 4 h, height: 48 mm}\n", "")) ==
          "blanket-readings 4:3");
    CHECK(settling_faults(head + changed(three, "62 mm", "65 mm")) == "");
    CHECK(settling_faults(head + changed(three, "62 mm", "74 mm")) == "blanket-heights 4:3");
    CHECK(settling_faults(head + "temperature: 120 degC\n" + three) == "out-of-range 3:14");
}

TEST_CASE("a fineness target whose limits are exchanged is refused", "[errors]") {
    const std::string text =
        "kind: fineness target\nname: T\ngrain: {value: 25 um, origin: estimate}\nresidue_screen: No. 325\n"
        "allowed_residue: {value: 0.5 % w/w, origin: estimate}\n"
        "dry_sieving_ends: {value: 40 um, origin: estimate}\nwet_screening_ends: {value: 75 um, origin: "
        "estimate}\n";
    CHECK(summary(faults_of([&] { read_fineness_target(load_document("t.yaml", text), "t"); })) ==
          "target-order 7:21");
}

TEST_CASE("a quoted cell holds commas and quotes, and nothing may follow it", "[unit][errors]") {
    const auto read = [](const std::string& cell) { return read_sieve_test(parse_sieve_csv(check_text("trial.csv", table + "name," + cell + "\n")), "trial").record.name; };
    CHECK(read("\"Trial, the first\"") == "Trial, the first");
    CHECK(read("\"the \"\"fine\"\" one\"") == "the \"fine\" one");
    CHECK(read("\"\"\"a\"\"\"") == "\"a\"");
    CHECK(csv_faults(table + "name,\"Trial\" x\n") == "csv-quote 10:14");
    CHECK(csv_faults(table + "name,\"Trial\"  \n").empty());
    CHECK(csv_faults(table + "name,\"Trial\n") == "csv-quote 10:6");
    CHECK(csv_faults(changed(table, "150 um,5.0 g", "150 um,")) == "csv-columns 3:8");
}

TEST_CASE("an aperture a hair above the last is another order, one within rounding is the same screen", "[errors]") {
    CHECK(yaml_faults(changed(plain, "screen: No. 200", "screen: 150.000001 um")) == "screen-order 7:14");
    CHECK(yaml_faults(changed(plain, "screen: No. 200", "screen: 149.9 um")).empty());
}

namespace {

/// "id line:column message; hint" of each fault of a table.
std::string table_told(const std::string& text) {
    std::string told;
    for (const auto& fault : faults_of([&] { csv(text); }))
        told += fault.id + " " + std::to_string(fault.at.place.line) + ":" + std::to_string(fault.at.place.column) + " " + fault.message + "; " + fault.hint + "\n";
    return told;
}

} // namespace

TEST_CASE("spaces round the cells of a table are nothing, and blank rows too", "[unit]") {
    check_trial(csv("  screen , mass  \n\n 150 um ,  5.0 g\nNo. 200  , 6.0 g \n   \n  # mine\npan , 8.9 g\ncharge, 20.0 g \n"
                    "grinding time ,15 min\nscale step, 0.1 g\ndensity , 1.88 g/cm3\n"));
    check_trial(csv("mass,screen\n5.0 g,150 um\n6.0 g,\"No. 200\" \n8.9 g,pan\n20.0 g,charge\n15 min,grinding time\n0.1 g,scale step\n1.88 g/cm3,density\n"));
    CHECK(csv("SCREEN,Mass\n150 um,5.0 g\nPAN,8.9 g\n").test.screens.size() == 1);
    CHECK(csv("screen,mass\n150 um,5.0 g\npan,8.9 g\n").name == "trial");
    // Without an ending there is none to take off.
    const auto name = [](const char* path) { return read_sieve_test(parse_sieve_csv(check_text(path, "screen,mass\n150 um,5.0 g\npan,8.9 g\n")), "x").record.name; };
    CHECK(name("csv") == "csv");
    CHECK(name(".csv") == ".csv");
    CHECK(name("of weld") == "of weld");
    CHECK(name("a/weld.yaml") == "weld");
    CHECK(name("a/weld.CSV") == "weld");
}

TEST_CASE("what is wrong with a table is told at its cell, with how to mend it", "[errors]") {
    const std::string form = "; the first line must be 'screen,mass' or 'screen,gross,tare'\n";
    CHECK(table_told("mass\n") == "csv-header 1:4 the column 'screen' is missing" + form);
    CHECK(table_told("screen,tare\n") == "csv-header 1:11 the column 'gross' is missing" + form);
    CHECK(table_told("screen,gross\n") == "csv-header 1:12 the column 'tare' is missing" + form);
    CHECK(table_told("screen\n") == "csv-header 1:6 the column 'mass' is missing" + form);
    CHECK(table_told("screen,mass,gross,tare\n") == "csv-header 1:19 masses are given both net and with tares" + form);
    CHECK(table_told("screen,mass,tare\n") == "csv-header 1:16 the column 'gross' is missing" + form);
    CHECK(table_told("screen,\n") == "csv-header 1:8 there is no column ''" + form);
    CHECK(table_told("screen,mass\n,5 g\npan,3 g\n75 um,1 g\n") ==
          "csv-columns 2:1 this row does not say which screen it is; write the screen in the column 'screen'\n");
    CHECK(table_told("mass,screen\n5 g\n1 g,75 um\n3 g,pan\n") ==
          "csv-columns 2:1 this row does not say which screen it is; write the screen in the column 'screen'\n");
    CHECK(table_told("screen,mass\n75 um,1 g\npan,3 g\nwhatever else,3 g\n") ==
          "csv-row 4:1 'whatever else' is no screen and no row known here; rows are screens, pan, charge, scale step, grinding time, density, "
          "method, name, note\n");
    CHECK(table_told("screen,gross,tare\n75 um,3 g\npan,3 g,1 g\n") == "csv-columns 2:7 the column 'tare' is missing in this row; fill it in\n");
    CHECK(table_told("screen,gross,tare\n75 um,,1 g\npan,3 g,1 g\n") == "csv-columns 2:8 the column 'gross' is missing in this row; fill it in\n");
    const auto underlined = [](const std::string& text) { return faults_of([&] { csv(text); }).at(0).at.span_length; };
    CHECK(underlined("screen,gross,tare\n75 um,,1 g\npan,3 g,1 g\n") == 3); // the row's last cell, however long
    CHECK(underlined("screen,gross,tare\n75 um,3 g,\npan,3 g,1 g\n") == 1);
    CHECK(underlined("screen,mass\n75 um,1 g,xyz\npan,3 g\n") == 3);
    CHECK(table_told("screen,mass\n75 um,1 g,x,y\npan,3 g\n") == "csv-columns 2:11 this cell belongs to no column; the header has 2 columns\n");
    CHECK(table_told("screen,mass\n75 um,1,2 g\npan,3 g\n") ==
          "number-comma 2:7 commas part the columns here, so a comma cannot be the decimal sign; write '1.2 g'\n");
    CHECK(table_told("screen,mass\n75 um,1,x\npan,3 g\n") == "csv-columns 2:9 this cell belongs to no column; the header has 2 columns\n");
    CHECK(table_told("screen,mass\n75 um,,2 g\npan,3 g\n") == "csv-columns 2:8 this cell belongs to no column; the header has 2 columns\n");
    CHECK(table_told("screen,mass\n75 um,\"1 g\"x\n") == "csv-quote 2:12 something stands between the closing quote and the comma; delete it\n");
    CHECK(table_told("screen,mass\n75 um,\"1 g\n") ==
          "csv-quote 2:7 this quote is never closed; close it, or leave quotes out: they are needed only round commas\n");
}

TEST_CASE("a file of remarks alone is no table", "[unit]") {
    CHECK_FALSE(is_sieve_csv(*check_text("x", "# screen,mass\n  \n#\n")));
    CHECK(is_sieve_csv(*check_text("x", "\n# mine\nscreen;mass\n")));
    CHECK_FALSE(is_sieve_csv(*check_text("x", "screen\n75 um,1 g\n")));
}
