#include "lakebound/shelf/bench_test_file.hpp"

#include <utility>

#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

/// Standard deviation of a logarithm, a number of its own kind while it is read.
struct SpreadAfterTag {
    static constexpr const char* name = "standard deviation of ln k";
    static constexpr const char* range = "0 to 2";
    static constexpr double lowest = 0.0, highest = 2.0;
};
using SpreadAfter = Ratio<SpreadAfterTag>;

/// Steps that a jar's own coach advises too: what they cost stands in the learning habits, once.
enum class LearningStep { rub_out, solids_test, one_swatch, two_swatches, four_swatches };

void take_cost(CandidateTest& test, LearningStep step, const LearningHabits& habits) {
    const auto cost = [&test](Time duration, Mass pigment) { test.duration = duration, test.pigment = pigment; };
    switch (step) {
    case LearningStep::rub_out:
        return cost(habits.rub_out, habits.rub_out_powder);
    case LearningStep::solids_test:
        return cost(habits.solids_test, Mass{});
    case LearningStep::one_swatch:
        return cost(habits.one_swatch, habits.swatch_powder);
    case LearningStep::two_swatches:
        return cost(habits.two_swatches, habits.swatch_powder * 2.0);
    case LearningStep::four_swatches:
        return cost(habits.four_swatches, habits.swatch_powder * 4.0);
    }
}

} // namespace

template <> struct WordTable<LearningStep> {
    static constexpr WordRow<LearningStep> rows[] = {{LearningStep::rub_out, "rub-out"},
                                                     {LearningStep::solids_test, "solids test"},
                                                     {LearningStep::one_swatch, "one swatch"},
                                                     {LearningStep::two_swatches, "two swatches"},
                                                     {LearningStep::four_swatches, "four swatches"}};
};

template <> struct DimensionOf<SpreadAfter> { static constexpr Dimension value = Dimension::pure_number; };

CandidateTest read_bench_test(Document document, std::string id, Library& library) {
    require_kind(document, "bench test");
    const MapReader map(document.root, "a bench test file",
                        {"kind", "name", "step", "duration", "improves", "spread_after", "pigment", "note"},
                        document.faults);
    CandidateTest test;
    test.id = std::move(id);
    test.name = map.text("name");
    const Node* step = map.find("step");
    if (step == nullptr && map.find("duration") != nullptr) test.duration = map.exact<Time>("duration", range::positive);
    else if (step == nullptr && map.is_map())
        document.faults.add(fault_at(document.root, "key-missing", "neither 'duration' nor 'step' is here",
                                     "add 'duration: ' and its value, or 'step: ' where the test is a step of learning"));
    test.replaces = map.word<SpreadTerm>("improves");
    test.spread_after = canonical(
        map.figure<SpreadAfter>("spread_after", range::not_negative, FigureStyle::with_origin).value());
    if (step == nullptr && map.find("pigment") != nullptr)
        test.pigment = map.figure<Mass>("pigment", range::not_negative, FigureStyle::with_origin).value();
    if (step != nullptr) {
        for (const char* cost : {"duration", "pigment"})
            if (map.find(cost) != nullptr)
                document.faults.add(fault_at(*document.root.find_key(cost), "step-cost",
                                             std::string("what a step of learning costs stands in the learning habits, and '") + cost + "' says it again",
                                             "delete it here, or 'step'"));
    }
    const auto learning = step != nullptr ? map.word<LearningStep>("step") : LearningStep{};
    map.text_or_empty("note");
    document.faults.throw_if_any();
    if (step != nullptr) take_cost(test, learning, library.learning_habits());
    return test;
}

CandidateTest read_bench_test_file(const std::string& path, Library& library) {
    return read_bench_test(load_document(path), id_of_path(path), library);
}

} // namespace lakebound
