#include "lakebound/shelf/bench_test_file.hpp"

#include <tuple>

#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "own_studio.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const std::string plain = "kind: bench test\nname: a rub-out\nduration: 20 min\nimproves: oil absorption\n"
                          "spread_after: {value: 0.08, origin: estimate}\n";

CandidateTest test_of(const std::string& text) {
    Library library = shipped_library();
    return read_bench_test(load_document("t.yaml", text), "rub-out", library);
}

std::string fault_of(const std::string& text) {
    return summary(faults_of([&] { test_of(text); }));
}

} // namespace

TEST_CASE("A bench test is read with what it improves, costs and uses up", "[unit]") {
    const CandidateTest test = test_of(plain);
    CHECK(test.id == "rub-out");
    CHECK(test.name == "a rub-out");
    CHECK(in_minutes(test.duration) == Approx(20.0));
    CHECK(test.spread_after == Approx(0.08));
    CHECK(in_grams(test.pigment) == 0.0);
    CHECK(in_grams(test_of(plain + "pigment: {value: 2 g, origin: estimate}\n").pigment) == Approx(2.0));
    const std::pair<const char*, SpreadTerm> terms[] = {
        {"oil absorption", SpreadTerm::oil_absorption}, {"method transfer", SpreadTerm::method_transfer},
        {"binder solids", SpreadTerm::binder_solids},   {"binder density", SpreadTerm::binder_density},
        {"moisture", SpreadTerm::moisture},             {"weighing", SpreadTerm::weighing},
        {"pigment density", SpreadTerm::pigment_density}};
    for (const auto& [word, term] : terms)
        CHECK(test_of(changed(plain, "oil absorption", word)).replaces == term);
    const TempDir dir;
    Library library = shipped_library();
    CHECK(read_bench_test_file(dir.write("weigh.yaml", plain), library).id == "weigh");
}

TEST_CASE("What is wrong with a bench test's file is found", "[errors]") {
    CHECK(fault_of(changed(plain, "20 min", "0 min")) == "quantity-negative 3:11");
    CHECK(fault_of(changed(plain, "0.08", "-0.01")) == "quantity-negative 5:23");
    CHECK(fault_of(changed(plain, "0.08", "0")).empty());
    CHECK(fault_of(changed(plain, "0.08", "2")).empty());
    CHECK(fault_of(changed(plain, "0.08", "2.01")).find(" 5:23") != std::string::npos);
    CHECK(fault_of(changed(plain, "oil absorption", "mood")) == "word-unknown 4:11");
    CHECK(fault_of(plain + "pigment: {value: -1 g, origin: estimate}\n") == "quantity-negative 6:18");
    CHECK(fault_of(changed(plain, "duration: 20 min\n", "")) == "key-missing 1:1");
    CHECK(fault_of(plain + "mood: good\n") == "key-unknown 6:1");
    CHECK(fault_of(changed(plain, "bench test", "bench")).find(" 1:") != std::string::npos);
}

TEST_CASE("A bench test that is a step of learning costs what the habits say, and says it nowhere else", "[unit][errors]") {
    const auto step = [](const std::string& word) { return changed(plain, "duration: 20 min", "step: " + word); };
    Library library = shipped_library();
    const LearningHabits& habits = library.learning_habits();
    const std::tuple<const char*, Time, Mass> steps[] = {
        {"rub-out", habits.rub_out, habits.rub_out_powder},
        {"solids test", habits.solids_test, Mass{}},
        {"one swatch", habits.one_swatch, habits.swatch_powder},
        {"two swatches", habits.two_swatches, habits.swatch_powder * 2.0},
        {"four swatches", habits.four_swatches, habits.swatch_powder * 4.0}};
    for (const auto& [word, taken, powder] : steps) {
        const CandidateTest test = test_of(step(word));
        CAPTURE(word);
        CHECK(in_minutes(test.duration) == Approx(in_minutes(taken)));
        CHECK(in_grams(test.pigment) == Approx(in_grams(powder)).margin(1e-12));
    }
    CHECK(fault_of(step("three swatches")) == "word-unknown 3:7");
    // Neither: which of the two was meant cannot be known, so both are told.
    const auto neither = faults_of([] { test_of(changed(plain, "duration: 20 min\n", "")); });
    REQUIRE(neither.size() == 1);
    CHECK(neither[0].message == "neither 'duration' nor 'step' is here");
    CHECK(fault_of(plain + "step: rub-out\n") == "step-cost 3:1");
    CHECK(fault_of(step("rub-out") + "pigment: {value: 2 g, origin: estimate}\n") == "step-cost 6:1");
}
