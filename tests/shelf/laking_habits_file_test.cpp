#include "lakebound/shelf/laking_habits_file.hpp"

#include <catch2/catch.hpp>

#include <string>

#include "faults_of.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const std::string& shipped_laking() {
    static const std::string text = read_bytes(std::string(LAKEBOUND_FORMULATIONS_DIR) + "/laking/home.yaml");
    return text;
}

/// "id message; hint" of each fault.
std::string laking_told(const std::string& from, const std::string& to) {
    std::string text;
    for (const auto& fault : faults_of([&] { (void)read_laking_habits(load_document("home.yaml", changed(shipped_laking(), from, to))); }))
        text += fault.id + " " + fault.message + "; " + fault.hint + "\n";
    return text;
}

} // namespace

TEST_CASE("laking habits keep their figures", "[unit]") {
    const LakingHabits habits = read_laking_habits(load_document("home.yaml", changed(shipped_laking(), "value: 2.6 +- 0.15", "value: 2.7 +- 0.1")));
    CHECK(habits.hydroxides.value().value() == Approx(2.7));
    CHECK(habits.hydroxides.standard_uncertainty().value() == Approx(0.1));
    CHECK(habits.pulls == 2);
    CHECK(habits.stop.low.value() == Approx(6.0));
    CHECK(habits.stop.high.value() == Approx(7.0));
}

TEST_CASE("laking habits that contradict themselves are refused", "[errors]") {
    const std::string pulls = "pulls:\n  value: 2\n", stop = "stop_to:\n  value: 7.0\n", n = "hydroxides_per_aluminium:\n  value: 2.6 +- 0.15\n";
    CHECK(laking_told(pulls, "pulls:\n  value: 2.5\n") == "out-of-range pulls must be a whole number; it counts\n");
    CHECK(laking_told(pulls, "pulls:\n  value: 7\n").find("out-of-range pulls must be 1 to 6, got '7'") == 0);
    CHECK(laking_told(stop, "stop_to:\n  value: 6.0\n") == "out-of-range stop_to must lie above stop_from; turn the two round\n");
    CHECK(laking_told(stop, "stop_to:\n  value: 5.9\n") == "out-of-range stop_to must lie above stop_from; turn the two round\n");
    CHECK(laking_told(n, "hydroxides_per_aluminium:\n  value: 3.1\n").find("out-of-range hydroxides_per_aluminium must be 2 to 3, got '3.1'") == 0);
    CHECK(laking_told(n, "other:\n  value: 2.6\n").find("'hydroxides_per_aluminium' is missing here") != std::string::npos);
    CHECK(laking_told("kind: laking habits", "kind: wash habits").find("kind-wrong") == 0);
}
