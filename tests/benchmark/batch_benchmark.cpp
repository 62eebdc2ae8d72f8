// From the shelf to a batch: loading the whole shipped shelf, sizing the demo batch, its chances in
// closed form and by Monte Carlo over the same function.

#include <benchmark/benchmark.h>

#include <string>

#include "lakebound/paint/chance.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/library.hpp"

namespace {

using namespace lakebound;

const std::string shelf_folder = LAKEBOUND_FORMULATIONS_DIR;
const std::string studio = shelf_folder + "/studios/reedmere";

Library shipped() { return Library({{shelf_folder, "shipped", true}}); }

void load_the_whole_shelf(benchmark::State& state) {
    std::size_t files = 0;
    for (auto _ : state) {
        Library library = shipped();
        files = 0;
        const auto each = [&](ShelfKind kind, auto load) {
            for (const auto& id : library.ids(kind)) {
                load(id);
                ++files;
            }
        };
        const Jar jar = library.jar(studio + "/jars/weld.yaml");
        each(ShelfKind::pigment, [&](const auto& id) { benchmark::DoNotOptimize(&library.pigment(id)); });
        each(ShelfKind::ingredient, [&](const auto& id) { benchmark::DoNotOptimize(&library.ingredient(id)); });
        each(ShelfKind::medium, [&](const auto& id) { benchmark::DoNotOptimize(&library.medium(id)); });
        each(ShelfKind::family, [&](const auto& id) { benchmark::DoNotOptimize(&library.family(id)); });
        each(ShelfKind::vessel, [&](const auto& id) { benchmark::DoNotOptimize(&library.vessel(id)); });
        each(ShelfKind::recipe, [&](const auto& id) {
            const Recipe recipe = library.recipe(id, &jar);
            benchmark::DoNotOptimize(&recipe);
        });
    }
    state.counters["files"] = static_cast<double>(files);
}
BENCHMARK(load_the_whole_shelf)->Unit(benchmark::kMillisecond);

BatchRequest demo_request() {
    Library library = shipped();
    const Jar jar = library.jar(studio + "/jars/weld.yaml");
    BatchRequest request;
    request.recipe = library.recipe("lake-watercolour-half-pans", &jar);
    request.bench = read_bench_file(studio + "/bench.yaml");
    request.amount = grams(10.0);
    return request;
}

void size_the_demo_batch(benchmark::State& state) {
    const BatchRequest request = demo_request();
    for (auto _ : state) benchmark::DoNotOptimize(size_batch(request));
}
BENCHMARK(size_the_demo_batch)->Unit(benchmark::kMicrosecond);

/// Range 0: draws, 0 for the closed form alone; 1: threads.
void chances_of_the_demo_batch(benchmark::State& state) {
    const BatchRequest request = demo_request();
    const Batch batch = *size_batch(request).batch;
    ChanceOptions options;
    options.draws = static_cast<std::size_t>(state.range(0));
    options.threads = static_cast<unsigned>(state.range(1));
    for (auto _ : state) benchmark::DoNotOptimize(batch_chance(request, batch, options));
}
BENCHMARK(chances_of_the_demo_batch)->Args({0, 1})->Args({100000, 1})->Args({100000, 2})
    ->Unit(benchmark::kMillisecond)->UseRealTime();

} // namespace
