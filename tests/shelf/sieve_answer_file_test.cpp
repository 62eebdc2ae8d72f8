#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/sieve_answer_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "small_shelf.hpp"
#include "spoiled.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

// As lakebound-sieve writes it, shortened to what is read back.
const std::string plain = R"({
  "schema_version": 2,
  "kind": "sieve_test",
  "name": "Trial",
  "method": "dry",
  "grinding_time_min": 15.0,
  "charge_g": 20.0,
  "density_g_per_cm3": 1.88,
  "scale_step_g": 0.1,
  "closure": "closed",
  "fractions": [
    {"screen_um": 150.0, "designation": "No. 100", "retained_g": 5.0, "passing": {"value": 0.74}},
    {"screen_um": 75.0, "designation": "75 um", "retained_g": 6.0},
    {"pan": true, "retained_g": 8.9}
  ]
}
)";

PlacedSieveTest read_back(const std::string& text) { return read_sieve_test_file("trial.json", text); }

std::string faults(const std::string& text) {
    return summary(faults_of([&] { (void)read_back(text); }));
}

} // namespace

TEST_CASE("A sieve test's answer is read back as the test", "[unit]") {
    const auto test = read_back(plain).record;
    CHECK(test.name == "Trial");
    CHECK(test.method == SieveMethod::dry);
    CHECK(in_minutes(test.grinding_time.value()) == Approx(15.0));
    CHECK(in_grams(test.test.charge.value()) == Approx(20.0));
    CHECK(in_grams(test.test.scale_step.value()) == Approx(0.1));
    CHECK(in_grams_per_cubic_centimetre(test.density.value()) == Approx(1.88));
    REQUIRE(test.test.screens.size() == 2);
    CHECK(test.sieves[0].designation == "No. 100");
    CHECK(in_micrometres(test.test.screens[0].aperture) == Approx(150.0));
    CHECK(in_grams(test.test.screens[1].retained) == Approx(6.0));
    CHECK(in_grams(test.test.pan) == Approx(8.9));
}

TEST_CASE("What passed a wet screen is reckoned anew, not read back", "[unit]") {
    const auto wet = changed(changed(plain, "\"dry\"", "\"wet\""), "\"retained_g\": 8.9", "\"retained_g\": 1.0");
    CHECK(in_grams(read_back(wet).record.test.pan) == Approx(9.0));
}

TEST_CASE("A file of a maker that is written as JSON is still a file of a maker", "[unit]") {
    const auto test = read_back(R"({"kind": "sieve test", "name": "N", "pan": "5 g",
                                    "retained": [{"screen": "75 um", "mass": "5 g"}]})");
    CHECK(test.record.name == "N");
}

TEST_CASE("An answer that is no sieve test is refused where it says so", "[errors]") {
    CHECK(faults(changed(plain, "sieve_test", "batch")) == "kind-wrong 3:11");
    CHECK(faults(changed(plain, "  \"kind\": \"sieve_test\",\n", "")) == "kind-wrong 1:1");
    CHECK(faults(changed(plain, "version\": 2", "version\": 1")) == "schema-version 2:21");
    CHECK(faults(changed(plain, "\"fractions\": [", "\"rows\": [")) == "value-shape 1:1");
}

TEST_CASE("What is wrong inside an answer is told at its own place", "[errors]") {
    CHECK(faults(changed(plain, "\"retained_g\": 5.0", "\"retained_g\": -5.0")) == "quantity-negative 12:66");
    CHECK(faults(changed(plain, "\"charge_g\": 20.0", "\"charge_g\": null")) == "value-missing 7:3");
    CHECK(faults(changed(plain, "\"charge_g\": 20.0", "\"charge_g\": 12.0")) == "retained-over-charge 7:15");
    CHECK(faults(changed(plain, "No. 100", "No. 60")) == "value-shape 12:41");
    CHECK(faults(changed(plain, "\"screen_um\": 75.0, ", "")) == "value-shape 13:5");
    CHECK(faults(changed(plain, "75.0, \"designation\": \"75 um\"", "300.0")) == "screen-order 13:19");
    CHECK(faults(changed(plain, ",\n    {\"pan\": true, \"retained_g\": 8.9}", "")) == "key-missing 1:1");
}

TEST_CASE("A sieve test's answer spoiled line by line and value by value, whole", "[errors]") {
    Spoiled spoiled([](const std::string& file, Library&, const Jar&) { (void)read_sieve_test_file(file, read_bytes(file)); });
    spoiled.file("trial.json", plain);
    const auto with = [&](const std::string& from, const std::string& to) { spoiled.changed_to("trial.json", plain, from, to); };
    with("\"kind\": \"sieve_test\"", "\"kind\": [3]");
    with("\"fractions\": [\n", "\"fractions\": [3,\n");
    with("\"designation\": \"No. 100\"", "\"designation\": \"0 um\"");
    with("\"designation\": \"No. 100\"", "\"designation\": \"a cloth\"");
    with("\"designation\": \"No. 100\"", "\"designation\": [3]");
    with("\"screen_um\": 150.0, \"designation\"", "\"screen_um\": [3], \"designation\"");
    with(", \"retained_g\": 6.0", "");
    with("\"name\": \"Trial\",", "");
    with("\"method\": \"dry\",", "");
    check_expected("shelf", "spoiled-sieve-answer", spoiled.text());
}
