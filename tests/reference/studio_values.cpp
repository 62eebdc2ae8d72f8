// Studios with all their readings, what the library makes of their first jar, and how long it takes: JSON for
// studio_sampled.py, which asks an independent sampler the same.
//
//   studio_values JARS SWATCHES

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <iostream>
#include <vector>

#include <nlohmann/json.hpp>

#include "record/drawn_studio.hpp"

using namespace lakebound;
using Json = nlohmann::json;

namespace {

Json readings(const DemandRecord& record) {
    Json json{{"plant", Json::array()}, {"rub_outs", Json::array()}, {"trials", Json::array()}};
    for (const auto& jar : record.jars)
        json["plant"].push_back(jar.plant);
    for (const auto& r : record.rub_outs)
        json["rub_outs"].push_back({{"jar", r.jar}, {"y", std::log(r.oil_absorption.value() / record.jars[r.jar].reference.value())}});
    for (const auto& t : record.trials)
        json["trials"].push_back({{"jar", t.jar},
                                  {"kind", t.family},
                                  {"x", std::log(t.library_k.value())},
                                  {"spread", t.weighing_spread},
                                  {"lean", t.outcome == PaintOutcome::lean},
                                  {"watched", t.outcome == PaintOutcome::holds}});
    return json;
}

} // namespace

int main(int count, char** words) {
    const auto jars = static_cast<std::size_t>(count > 1 ? std::atoi(words[1]) : 3);
    const auto swatches = static_cast<std::size_t>(count > 2 ? std::atoi(words[2]) : 12);
    const auto record = test::drawn_studio(jars, swatches);
    const DemandWorld world = test::stated_world();
    DemandBelief belief{.reference = record.jars.front().reference};
    std::vector<double> seconds;
    for (int i = 0; i < 5; ++i) {
        const auto begun = std::chrono::steady_clock::now();
        belief = learned_demand(world, record, {0, test::gum, {}});
        seconds.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count());
    }
    std::sort(seconds.begin(), seconds.end());
    Json json = readings(record);
    const auto critical = belief.critical();
    const auto aim = test::best_aim(belief);
    json["repeat_spread"] = belief.repeat_spread;
    json["mean"] = critical.mean();
    json["sd"] = critical.standard_deviation();
    json["best_k"] = aim.library_k;
    json["best_chance"] = aim.chance;
    json["chance_at_147"] = test::window_percent(belief, 1.47);
    json["odd"] = belief.odd_weight();
    json["seconds"] = seconds[seconds.size() / 2];
    std::cout << json.dump() << '\n';
}
