// What one rub-out and two swatches teach of a jar, as watercolour. Argument: the shelf, for what is believed
// before anything was measured (see batch_from_the_shelf.cpp).
// Case K6 of tests/record/learned_demand_test.cpp, by two other programs: 1.237 (1.055 to 1.443) times, 96.4 %.
// Prints:
//   nothing measured:      wants 1.00 times the binder of its class (9 in 10: 0.57 to 1.74); best mix 46 % in
//   rub-out, 78 g/100g:    wants 1.18 times the binder of its class (9 in 10: 0.90 to 1.54); best mix 79 % in
//   1.20 chalks, 1.35 not: wants 1.24 times the binder of its class (9 in 10: 1.05 to 1.45); best mix 96 % in
#include <cstdio>
#include <lakebound/record/jar_outlook.hpp>
#include <lakebound/shelf/library.hpp>
using namespace lakebound;

int main(int, char** arguments) {
    Library library({{arguments[1], "shipped"}});
    JarQuestion question;
    question.habits = library.learning_habits();
    const Family family = library.family("watercolour-pan");
    question.world = demand_world(question.habits, {family});
    question.window = family.window;
    question.process = family.process;
    question.batch_spread = question.habits.batch_spread;
    question.bench.scales = {{.name = "pocket scale", .step = grams(0.01)}};

    DemandRecord& record = question.record;
    record.jars = {{.plant = 0, .reference = grams_per_100_grams(65)}}; // of alumina lakes
    const auto tell = [&](const char* what) {
        const JarOutlook known = jar_outlook(question);
        std::printf("%-22s wants %.2f times the binder of its class (9 in 10: %.2f to %.2f); best mix %2.0f %% in\n", what,
                    known.demand_over_library, known.demand_low, known.demand_high,
                    100 * known.coaching.now.chance.value());
    };
    tell("nothing measured:");
    record.rub_outs.push_back({.jar = 0, .oil_absorption = grams_per_100_grams(78)});
    tell("rub-out, 78 g/100g:");
    // By the masses, never by the k of a belief: its k is that of the library's figure for the class.
    const auto swatch = [](double k, PaintOutcome outcome) {
        PaintTrial trial;
        trial.library_k = BinderSufficiency::of(k);
        trial.weighing_spread = 0.02;
        trial.outcome = outcome;
        return trial;
    };
    record.trials = {swatch(1.20, PaintOutcome::lean), swatch(1.35, PaintOutcome::not_lean)};
    tell("1.20 chalks, 1.35 not:");
}
