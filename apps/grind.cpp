#include "grind.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <optional>

#include "common/progress.hpp"
#include "common/run_app.hpp"
#include "fineness_options.hpp"
#include "lakebound/report/grind_report.hpp"
#include "lakebound/shelf/maker_files.hpp"
#include "lakebound/shelf/typed_grinding.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

using Text = std::optional<std::string>;

struct GrindOptions {
    std::vector<std::string> tests;
    FinenessTexts fineness;
    GrindTexts say;
    Text mull;
    CommonOptions common;
};

void describe(CommandLine& line, GrindOptions& options) {
    line.arguments(options.tests, "TEST...",
                   "Two or more sieve tests of one powder, each with its grinding time; one may be -");
    add_fineness_options(line, options.fineness);
    line.group("About your work");
    line.option(options.say.cycle, "--cycle", "TIME", "Show rounds of this length too, \"5 min\"");
    line.option(options.say.handling, "--handling", "TIME",
                "Hands to sieve or wash once, \"5 min\"; else the shelf's, which the plan shows");
    line.option(options.say.drying, "--drying", "TIME", "Until wet powder can be ground again, \"12 h\"; else the shelf's");
    line.option(options.say.loss, "--loss", "SHARE", "Lost at each separation, \"1 %\"; else as your tests lost");
    line.option(options.say.emptier, "--emptier", "NUMBER",
                "How much faster an emptier mortar grinds: 0 not at all, 1 in proportion; else the shelf's");
    line.option(options.say.stays, "--stays", "READING",
                "Dry mass back in the mortar, \"6.3 g after 2 rounds of 5 min\": how many rounds are left");
    line.option(options.say.density, "--density", "DENSITY", "Of the grains, for levigation, \"1.88 g/cm3\"");
    line.option(options.say.largest, "--largest", "SIZE", "The largest grain; else twice the coarsest screen");
    line.group("At the slab");
    line.option(options.mull, "--mull", "READINGS",
                "Readings of the gauge, \"60 um, 38 um, 27 um every 10 min\": when mulling stops to pay");
    add_common_options(line, options.common);
    line.question("--mull", {"--family", "--target"});
}

MullQuestion mull_question(const GrindOptions& options, Library& library) {
    const auto habits = library.powder_habits();
    MullQuestion question;
    question.worth_gaining = habits.mulling_gain.value();
    question.spell = habits.mulling_spell.value();
    question.readings = gauge_option("--mull", *options.mull);
    if (options.fineness.target)
        question.target = size_option("--target", *options.fineness.target);
    else if (options.fineness.family)
        question.target = library.fineness_target(*options.fineness.family).grain.value();
    return question;
}

std::vector<PlacedSieveTest> read_tests(const GrindOptions& options, const Library& library, Streams& streams) {
    if (options.tests.empty())
        throw typed_fault("test-missing", "no sieve test is named",
                    "name two or more: lakebound-grind after-5-min.yaml after-15-min.yaml");
    if (std::count(options.tests.begin(), options.tests.end(), "-") > 1)
        throw typed_fault("option-conflict", "only one file can come from standard input",
                    "name files for the others");
    std::vector<PlacedSieveTest> tests;
    for (const auto& path : options.tests)
        tests.push_back(read_sieve_test_or_input(path, library, streams));
    if (tests.size() < 2)
        throw typed_fault("tests-few", "one sieve test does not tell how fast it grinds",
                    "grind on, say ten minutes, sieve again and name both");
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const auto& time = tests[i].record.grinding_time;
        if (!time)
            throw InputError(placed_fault("time-missing", tests[i].places.whole,
                                          "this test does not say how long was ground before it",
                                          "add 'grinding_time: 15 min', counted from the beginning"));
        for (std::size_t j = 0; j < i; ++j) {
            std::error_code none; // standard input is no file, and is named once
            if (std::filesystem::equivalent(tests[i].record.path, tests[j].record.path, none))
                throw typed_fault("test-twice", "'" + options.tests[i] + "' is named twice, and tells the same twice",
                                  "name each test once, and two or more of them");
            if (std::abs(in_seconds(*time - *tests[j].record.grinding_time)) >= 0.5) continue;
            auto twice = placed_fault(
                "time-twice", tests[i].places.at(RecordPart::grinding_time),
                "its grinding time is that of '" + tests[j].record.path + "', and each test must have its own",
                "correct one of them, or make one test of the two by adding their masses up");
            twice.second = SecondPlace{tests[j].places.at(RecordPart::grinding_time), "the other"};
            throw InputError(std::move(twice));
        }
    }
    return tests;
}

Answer answer(const GrindOptions& options, Streams& streams) {
    auto library = open_library(options.common);
    Answer given;
    if (options.mull) {
        const auto mulling = plan_mulling(mull_question(options, library));
        if (options.common.json) given.text = mull_json(mulling);
        if (options.common.wants_page()) given.pages.push_back(mull_page(mulling));
        given.status = mulling.out_of_reach ? exit_status::will_not_hold : exit_status::answered;
        return given;
    }
    GrindQuestion question;
    std::vector<RecordPlaces> places;
    for (auto& test : read_tests(options, library, streams)) {
        question.tests.push_back(std::move(test.record));
        places.push_back(std::move(test.places));
    }
    const auto target = find_target(options.fineness, library);
    if (!target)
        throw typed_fault("target-missing", "how fine is not said",
                    "add --family watercolour-pan, or --target \"75 um\" --residue \"1 %\"");
    question.target = *target;
    question.habits = library.powder_habits();
    question.say = grind_say(options.say);
    question.usual_density = library.pigment(question.habits.usual_powder).density.value();
    question.water = find_bench({}, library).bench.temperature;
    ProgressLine progress(streams, "fitting and planning");
    const auto plan = [&] {
        try {
            return plan_grinding(std::move(question), progress);
        } catch (const RecordError& error) {
            throw InputError(record_fault(error, places));
        }
    }();
    if (options.common.json) given.text = grind_json(plan);
    if (options.common.wants_page()) given.pages.push_back(grind_page(plan));
    given.status = will_not_get_there(plan) ? exit_status::will_not_hold : exit_status::answered;
    return given;
}

} // namespace

int run_grind(std::span<const std::string> arguments, Streams& streams) {
    CommandLine line("lakebound-grind", "how long to grind, in how many rounds, and when to stop",
                     "lakebound-grind weld-5-min.yaml weld-15-min.yaml --family oil --shelf reedmere",
                     "Exit status: 0 answered; 1 answered: grinding or mulling will not get there;\n"
                     "2 a file or the command line is wrong; 3 a fault of ours.\n");
    GrindOptions options;
    describe(line, options);
    return run_app(line, options.common, arguments, streams, [&] { return answer(options, streams); });
}

} // namespace lakebound
