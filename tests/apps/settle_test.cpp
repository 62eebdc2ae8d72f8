#include <catch2/catch.hpp>

#include <sstream>

#include <nlohmann/json.hpp>

#include "run.hpp"
#include "settle.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;
using Catch::StartsWith;
using Json = nlohmann::json;

namespace {

Run settle(const std::vector<std::string>& arguments, const std::string& input = {}) {
    return run_on_shelf(run_settle, arguments, input);
}
const std::vector<std::string> plain{"--depth", "100 mm", "--cut", "45 um", "--density", "1.88 g/cm3"};
Json json(const std::vector<std::string>& arguments) {
    const auto run = settle(and_also(arguments, {"--json"}));
    INFO(run.err);
    REQUIRE(run.status != 2);
    return Json::parse(run.out);
}

} // namespace

TEST_CASE("The clock of four pour-offs", "[cli]") {
    const auto run = settle(plain);
    CHECK(run.status == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, StartsWith("LEVIGATION: cut at 45 um\n") &&
                            Contains("pour off the top 80 mm of 100 mm") && Contains("4 pour-offs") &&
                            Contains("0:03:00") && Contains("Stokes' law holds"));
    std::istringstream lines(run.out);
    for (std::string line; std::getline(lines, line);)
        CHECK(line.size() <= 82); // bytes; a few characters take two
}

TEST_CASE("The velocity of a 45 um grain and its time over 100 mm", "[reference]") {
    // By hand, Stokes with water of 20 degC: 0.9714 mm/s, 102.9 s over 100 mm; less 0.8 % for drag at Re 0.044
    // (1 + 3/16 Re). Tolerance of the viscosity, 0.5 %.
    const auto answer = json(and_also(plain, {"--draw", "100 mm", "--solids", "0.0001 %"}));
    CHECK(answer.at("velocity_m_per_s").get<double>() == Approx(0.9714e-3 / 1.008).epsilon(5e-3));
    CHECK(answer.at("wait_s").get<double>() == Approx(102.9 * 1.008).epsilon(5e-3));
}

TEST_CASE("Four pour-offs carry over what was worked by hand", "[reference]") {
    // h/H = 0.8: half-cut grains 60/84/93.6/97.4 %, 0.8 of the cut 29/49/64/74 %, 0.9: 15/28/39/48 % (worked by
    // hand, whole percents), the cut itself none.
    const auto rows = json(plain).at("recovery");
    REQUIRE(rows.size() == 6);
    const double half[] = {0.60, 0.84, 0.936, 0.974}, near_cut[] = {0.29, 0.49, 0.64, 0.74};
    for (std::size_t n = 0; n < 4; ++n) {
        CHECK(rows[2].at("poured")[n].get<double>() == Approx(half[n]).margin(0.006));
        CHECK(rows[3].at("poured")[n].get<double>() == Approx(near_cut[n]).margin(0.006));
        CHECK(rows[5].at("poured")[n].get<double>() == Approx(0.0).margin(1e-9));
    }
}

TEST_CASE("Warm water, deeper draw and lighter grains change the wait as they must", "[identity]") {
    const double wait = json(plain).at("wait_s").get<double>();
    CHECK(json(and_also(plain, {"--temperature", "40 degC"})).at("wait_s").get<double>() < wait);
    CHECK(json(and_also(plain, {"--draw", "40 mm"})).at("wait_s").get<double>() ==
          Approx(wait / 2.0).epsilon(1e-9));
    CHECK(json({"--depth", "100 mm", "--cut", "45 um", "--density", "1.45 g/cm3"}).at("wait_s").get<double>() >
          wait);
    CHECK(json(and_also(plain, {"--refills", "0"})).at("steps").size() == 1);
}

TEST_CASE("A sieve test is parted without losing any of it", "[identity]") {
    const auto part =
        json(and_also(plain, {"--sieve", studio("sieve-tests/weld-15-min.yaml")})).at("sieve_test");
    CHECK(part.at("poured").get<double>() + part.at("left").get<double>() == Approx(1.0).epsilon(1e-9));
    double sum = 0.0;
    for (const auto& row : part.at("classes")) {
        sum += row.at("share").get<double>();
        CHECK(row.at("poured").get<double>() + row.at("left").get<double>() ==
              Approx(row.at("share").get<double>()).margin(1e-9));
        if (row.at("lower_um").get<double>() >= 44.9)
            CHECK(row.at("poured").get<double>() == Approx(0.0).margin(1e-12));
    }
    CHECK(sum == Approx(1.0).epsilon(1e-9));
    CHECK_THAT(settle(and_also(plain, {"--sieve", studio("sieve-tests/weld-15-min.yaml")})).out,
               Contains("With your sieve test") || Contains("WITH YOUR SIEVE TEST"));
}

TEST_CASE("Timed grains give the density of open clumps", "[cli]") {
    const auto answer = json(and_also(plain, {"--test", studio("settling-tests/weld-grains.yaml")}));
    CHECK(answer.at("grain_density_origin") == "timed_grains");
    CHECK(answer.at("grain_density_g_per_cm3").get<double>() < 1.88);
    CHECK(answer.at("grain_density_g_per_cm3").get<double>() > 1.2);
    CHECK(answer.at("wait_s").get<double>() > json(plain).at("wait_s").get<double>());
}

TEST_CASE("A blanket is decanted by three heights", "[reference]") {
    // By hand: 100, 62, 48 mm two hours apart end at 39.8 mm, tau 2.0 h, within 5 % after 6.8 h.
    for (const auto& arguments :
         {std::vector<std::string>{"--zone", "100 mm, 62 mm, 48 mm every 2 h"},
          std::vector<std::string>{"--test", studio("settling-tests/weld-fresh.yaml")}}) {
        const auto answer = json(arguments);
        CHECK(answer.at("end_height_mm").get<double>() == Approx(39.8).margin(0.05));
        CHECK(answer.at("tau_h").get<double>() == Approx(2.0).margin(0.05));
        CHECK(answer.at("decant_h").get<double>() == Approx(6.8).margin(0.05));
    }
    CHECK_THAT(settle({"--zone", "100 mm, 62 mm, 48 mm every 2 h"}).out, Contains("Decant 6 h 50 min after"));
}

TEST_CASE("A wait that hands cannot keep is answered with no", "[cli]") {
    const auto run = settle({"--depth", "20 mm", "--cut", "150 um", "--density", "2.7 g/cm3"});
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("CANNOT BE DONE BY HAND") && !Contains("CLOCK"));
}

TEST_CASE("What strains the model is flagged", "[cli]") {
    CHECK_THAT(settle(and_also(plain, {"--solids", "10 %"})).out, Contains("CROWDED"));
    CHECK_THAT(settle({"--depth", "100 mm", "--cut", "1 um", "--density", "1.88 g/cm3"}).out,
               Contains("LONG WAIT") && Contains("VERY FINE"));
    CHECK_THAT(settle({"--depth", "300 mm", "--cut", "200 um", "--density", "1.88 g/cm3"}).out,
               Contains("corrected for drag"));
}

TEST_CASE("A cut down to 0.1 um is answered, with a flag, and a finer one is not", "[cli]") {
    const auto finest = settle({"--depth", "100 mm", "--cut", "0.1 um", "--density", "1.88 g/cm3"});
    CHECK(finest.status == 0);
    CHECK_THAT(finest.out, Contains("VERY FINE"));
    check_refused(settle({"--depth", "100 mm", "--cut", "0.09 um", "--density", "1.88 g/cm3"}), "out-of-range");
}

TEST_CASE("Every family has a cut, and the shelf a density to fall back on", "[cli]") {
    const auto run = settle({"--depth", "100 mm", "--family", "watercolour-pan"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, StartsWith("LEVIGATION: cut at 25 um") && Contains("1.88 g/cm3 (an estimate)"));
}

TEST_CASE("A grain without a unit is offered micrometres, and gravel is refused in round numbers", "[cli]") {
    const auto bare = settle({"--depth", "100 mm", "--cut", "25"});
    check_refused(bare, "unit-missing");
    CHECK_THAT(bare.err, Contains("'25 um'") && !Contains("mm'"));
    const auto gravel = settle({"--depth", "100 mm", "--cut", "25 mm", "--density", "1.88 g/cm3"});
    check_refused(gravel, "out-of-range");
    CHECK_THAT(gravel.err, Contains("too coarse to levigate") && !Contains("."));
    // Typed in inches, mils and degrees Fahrenheit.
    CHECK_THAT(settle({"--depth", "3.937 in", "--draw", "4.1 in", "--cut", "45 um"}).err,
               Contains("is 104.14 mm;") && Contains(", 100 mm"));
    CHECK_THAT(settle({"--depth", "100 mm", "--cut", "0.001 mil"}).err, Contains("is 0.0254 um;"));
    CHECK_THAT(settle(and_also(plain, {"--temperature", "300 degF"})).err, Contains("is 148.89 degC;"));
}

TEST_CASE("Wrong questions to lakebound-settle are refused", "[cli]") {
    check_refused(settle({}), "cut-missing");
    check_refused(settle({"--cut", "45 um"}), "depth-missing");
    check_refused(settle({"--depth", "100 mm", "--cut", "45 um", "--density", "0.9 g/cm3"}), "out-of-range");
    check_refused(settle(and_also(plain, {"--temperature", "-5 degC"})), "out-of-range");
    check_refused(settle(and_also(plain, {"--temperature", "120 degC"})), "out-of-range");
    check_refused(settle(and_also(plain, {"--draw", "120 mm"})), "out-of-range");
    check_refused(settle(and_also(plain, {"--solids", "60 %"})), "out-of-range");
    check_refused(settle(and_also(plain, {"--refills", "two"})), "refills-form");
    check_refused(settle(and_also(plain, {"--sieve", studio("sieve-tests/weld-washed.yaml")})), "out-of-range");
    check_refused(settle({"--zone", "100 mm, 62 mm every 2 h"}), "series-form");
    check_refused(settle({"--zone", "100 mm, 62 mm, 48 mm"}), "series-form");
    check_refused(settle({"--zone", "100 mm, 74 mm, 48 mm every 2 h"}), "out-of-range");
    check_refused(settle({"--zone", "100 mm, 62 mm, 48 mm, 44 mm every 2 h"}), "series-form");
    check_refused(settle({"--zone", "1 mm, 2 mm, 3 mm every 2 h", "--cut", "45 um"}), "option-conflict");
    check_refused(settle(and_also(plain, {"--test", studio("settling-tests/weld-fresh.yaml")})),
                  "option-unread");
    check_refused(settle(and_also({"--depth", "100 mm", "--cut", "45 um", "--density", "1.2 g/cm3"},
                                  {"--test", studio("settling-tests/weld-grains.yaml")})),
                  "out-of-range");
}

TEST_CASE("The help of the powder commands opens with an example and fits the page", "[cli]") {
    const auto run = run_command(run_settle, {"--help"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("Example:\n  lakebound-settle "));
    std::istringstream lines(run.out);
    for (std::string line; std::getline(lines, line);)
        CHECK(line.size() <= 80);
}
