#include "lakebound/shelf/bench_starter.hpp"

#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;

namespace {

AssumedBench assumed() {
    AssumedBench bench;
    bench.scale_step = grams(0.1);
    bench.slab_loss = grams(0.6);
    bench.slab_loss_share = Share::of(0.03);
    bench.weighing_tolerance = Share::of(0.07);
    bench.humidity = RelativeHumidity::of(0.41);
    bench.temperature = degrees_celsius(17.5);
    return bench;
}

} // namespace

TEST_CASE("A first bench file is read as it was meant", "[unit]") {
    const auto bench = read_bench(load_document("bench.yaml", bench_starter("0.1 g, 0.01 g,5 mg", assumed())));
    REQUIRE(bench.scales.size() == 3);
    CHECK(in_grams(bench.scales[0].step) == Approx(0.1));
    CHECK(in_grams(bench.scales[2].step) == Approx(0.005));
    CHECK(bench.scales[1].name == "scale of 0.01 g");
    CHECK(in_grams(bench.slab_loss.fixed) == Approx(0.6));
    CHECK(bench.slab_loss.share.value() == Approx(0.03));
    CHECK(bench.reserve.value() == 0.0);
    CHECK(bench.weighing_tolerance.value() == Approx(0.07));
    CHECK(bench.humidity.value() == Approx(0.41));
    CHECK(in_degrees_celsius(bench.temperature) == Approx(17.5));
}

TEST_CASE("A first bench file takes no scale without a step", "[errors]") {
    for (const char* steps : {"", "0.1", "0.1 g,", "0 g", "0.1 mL", "-0.1 g"})
        CHECK_THROWS_AS(bench_starter(steps, assumed()), InputError);
}

TEST_CASE("A first bench is begun where one stands, and never over another", "[unit][errors]") {
    const lakebound::testing::TempDir folder;
    const lakebound::testing::InFolder here(folder.path());
    CHECK(begin_bench_file("0.1 g, 0.01 g", assumed()) == "bench.yaml");
    CHECK(read_bench_file("bench.yaml").scales.size() == 2);
    const auto faults = lakebound::testing::faults_of([] { (void)begin_bench_file("0.01 g", assumed()); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].id == "write-exists");
    CHECK(faults[0].message == "bench.yaml: there is a bench here already, and it was left alone");
    CHECK(read_bench_file("bench.yaml").scales.size() == 2);
}
