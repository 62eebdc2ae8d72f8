// Whatever is wrong with what a file says is told with its line and column, also where only a target, another
// test or the water shows it.

#include <catch2/catch.hpp>

#include "grind.hpp"
#include "run.hpp"
#include "settle.hpp"
#include "sieve.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;
using Catch::StartsWith;

namespace {

std::string sieve_test(const std::string& time, const std::string& rows, const std::string& more = {}) {
    return "kind: sieve test\nname: a test\ncharge: 10 g\n" + time + "retained:\n" + rows + "pan: 5 g\n" +
           "scale_step: 0.01 g\n" + more;
}

const std::string five = "grinding_time: 5 min\n", ten = "grinding_time: 10 min\n";
const std::string half = "  - {screen: 75 um, mass: 5 g}\n";
const std::string clean = "  - {screen: 75 um, mass: 0 g}\n";
const std::string four_screens = "  - {screen: 250 um, mass: 1 g}\n  - {screen: 150 um, mass: 1 g}\n"
                                 "  - {screen: 75 um, mass: 2 g}\n  - {screen: 45 um, mass: 1 g}\n";

/// The folder of a maker with files of every kind of fault that one file alone does not show.
struct Bench {
    TempDir folder;
    Bench() {
        folder.write("after-5.yaml", sieve_test(five, half));
        folder.write("again-5.yaml", sieve_test(five, half));
        folder.write("no-time.yaml", sieve_test("", half));
        folder.write("no-finer.yaml", sieve_test(ten, half));
        folder.write("clean.yaml", sieve_test(ten, clean));
        folder.write("light.yaml", sieve_test(ten, "  - {screen: 75 um, mass: 2 g}\n", "density: 0.9 g/cm3\n"));
        folder.write("light-curve.yaml", sieve_test(ten, four_screens, "density: 0.9 g/cm3\n"));
        folder.write("curve-5.yaml", sieve_test(five, four_screens));
        folder.write("curve-10.yaml", sieve_test(ten, four_screens));
        folder.write("no-time.csv", "screen,mass\n75 um,5 g\npan,5 g\ncharge,10 g\n");
        folder.write("one-screen.csv", "screen,mass\n75 um,5 g\npan,5 g\ncharge,10 g\n");
        folder.write("fast.yaml", "kind: settling test\nname: fast\n"
                                  "grains: {size: 45 um, depth: 100 mm, time: 2 s}\n");
        folder.write("heavy-scale.yaml", "kind: bench reading\nname: a rub-out\ntest: rub-out\nscale: 99 g\n"
                                         "rub_outs:\n  - {pigment: 2.00 g, oil: 1.40 g}\n");
    }
};

struct Case {
    std::string place; ///< with which the refusal begins
    int (*run)(std::span<const std::string>, Streams&);
    std::vector<std::string> arguments;
    std::string second; ///< the other place, where two files contradict each other
};

const std::vector<std::string> by_cut{"--cut", "45 um", "--depth", "100 mm"};

const std::vector<Case>& cases() {
    static const std::vector<Case> all{
        {"no-time.yaml:1:1: ", run_grind, {"after-5.yaml", "no-time.yaml", "--target", "75 um"}, ""},
        {"no-time.csv:1:1: ", run_grind, {"after-5.yaml", "no-time.csv", "--target", "75 um"}, ""},
        {"again-5.yaml:4:16: ", run_grind, {"after-5.yaml", "again-5.yaml", "--target", "75 um"}, "after-5.yaml:4:16: "},
        {"after-5.yaml:6:5: ", run_grind, {"after-5.yaml", "no-finer.yaml", "--target", "45 um"}, ""},
        // Handed in the other way round: the later one is still the one after 10 minutes.
        {"no-finer.yaml:6:5: ", run_grind, {"no-finer.yaml", "after-5.yaml", "--target", "75 um"}, "after-5.yaml:6:5: "},
        {"no-finer.yaml:6:5: ", run_grind, {"after-5.yaml", "no-finer.yaml", "--target", "75 um"}, "after-5.yaml:6:5: "},
        {"curve-10.yaml:6:5: ", run_grind, {"curve-5.yaml", "curve-10.yaml", "--target", "75 um"}, "curve-5.yaml:6:5: "},
        {"clean.yaml:6:5: ", run_grind, {"clean.yaml", "after-5.yaml", "--target", "75 um"}, ""},
        {"light.yaml:9:10: ", run_grind, {"light.yaml", "after-5.yaml", "--target", "75 um"}, ""},
        {"light-curve.yaml:12:10: ", run_settle, and_also({"--sieve", "light-curve.yaml"}, by_cut), ""},
        {"light-curve.yaml:12:10: ", run_settle, and_also({"--sieve", "light-curve.yaml", "--test", "fast.yaml"}, by_cut), ""},
        {"after-5.yaml:6:5: ", run_settle, and_also({"--sieve", "after-5.yaml"}, by_cut), ""},
        {"one-screen.csv:2:1: ", run_settle, and_also({"--sieve", "one-screen.csv"}, by_cut), ""},
        {"fast.yaml:3:9: ", run_settle, and_also({"--test", "fast.yaml"}, by_cut), ""},
        {"fast.yaml:3:9: ", run_settle, and_also({"--sieve", "curve-5.yaml", "--test", "fast.yaml"}, by_cut), ""},
        {"heavy-scale.yaml:6:3: ", run_pvc, {"--reading", "heavy-scale.yaml"}, ""},
    };
    return all;
}

} // namespace

TEST_CASE("A fault of what a file says names its line and column, whatever shows it", "[errors]") {
    const Bench bench;
    const InFolder here(bench.folder.path());
    for (const auto& one : cases()) {
        CAPTURE(one.arguments);
        const auto run = run_on_shelf(one.run, one.arguments);
        CHECK(run.status == 2);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, StartsWith(one.place + "error: ") && Contains("\nhint: "));
        if (!one.second.empty()) CHECK_THAT(run.err, Contains("\n" + one.second + "note: "));
    }
}

TEST_CASE("The same fault as JSON has the path, the line and the column", "[errors]") {
    const Bench bench;
    const InFolder here(bench.folder.path());
    for (const auto& one : cases()) {
        CAPTURE(one.arguments);
        const auto run = run_on_shelf(one.run, and_also(one.arguments, {"--json"}));
        CHECK(run.status == 2);
        const auto path = one.place.substr(0, one.place.find(':'));
        const auto line = one.place.substr(path.size() + 1, one.place.find(':', path.size() + 1) - path.size() - 1);
        CHECK_THAT(run.err, Contains("\"path\": \"" + path + "\"") && Contains("\"line\": " + line + ",") &&
                                Contains("\"column\": "));
    }
}

TEST_CASE("What the command line gives is refused there, not in the file beside it", "[errors]") {
    const Bench bench;
    const InFolder here(bench.folder.path());
    const auto light = run_on_shelf(run_settle, and_also({"--sieve", "curve-5.yaml", "--density", "0.9 g/cm3"}, by_cut));
    CHECK(light.status == 2);
    CHECK_THAT(light.err, StartsWith("command line: error: grain density is 0.9 g/cm3"));
    const auto timed = run_on_shelf(run_settle, and_also({"--test", "fast.yaml", "--density", "0.9 g/cm3"}, by_cut));
    CHECK(timed.status == 2);
    CHECK_THAT(timed.err, StartsWith("command line: error: grain density is 0.9 g/cm3"));
    const auto ground =
        run_on_shelf(run_grind, {"after-5.yaml", "light.yaml", "--target", "75 um", "--density", "0.8 g/cm3"});
    CHECK(ground.status == 2);
    CHECK_THAT(ground.err, StartsWith("command line: error: grain density is 0.8 g/cm3"));
}

TEST_CASE("All that a wet screen kept is no fault when the scale alone makes it more than the charge", "[errors]") {
    const TempDir folder;
    const InFolder here(folder.path());
    folder.write("all.yaml", "kind: sieve test\nname: all\nmethod: wet\ncharge: 10 g\nretained:\n"
                             "  - {screen: 75 um, mass: 10.02 g}\nscale_step: 0.01 g\n");
    const auto run = run_on_shelf(run_sieve, {"all.yaml", "--target", "75 um"});
    CHECK(run.err.empty());
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("100.00 % lies over 75 um"));
}
