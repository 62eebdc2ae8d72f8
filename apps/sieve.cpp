#include "sieve.hpp"

#include <optional>

#include "common/run_app.hpp"
#include "fineness_options.hpp"
#include "lakebound/report/sieve_report.hpp"

namespace lakebound {

namespace {

struct SieveOptions {
    std::optional<std::string> test, density;
    FinenessTexts fineness;
    CommonOptions common;
};

void describe(CommandLine& line, SieveOptions& options) {
    line.argument(options.test, "TEST",
                  "A sieve test as YAML or CSV (page file-formats.md), or - for standard input");
    add_fineness_options(line, options.fineness);
    line.group("About the grains");
    line.option(options.density, "--density", "DENSITY",
                "For the surface, \"1.88 g/cm3\"; else what the test says");
    add_common_options(line, options.common);
}

Answer answer(const SieveOptions& options, Streams& streams) {
    if (!options.test)
        throw InputError(
            command_line_fault("test-missing", "no sieve test is named",
                               "name a file; the page sieve-a-small-sample.md shows how to write one"));
    auto library = open_library(options.common);
    SieveQuestion question;
    auto test = read_sieve_test_or_input(*options.test, library, streams);
    question.record = std::move(test.record);
    question.target = find_target(options.fineness, library);
    const auto habits = library.powder_habits();
    question.repeats_to = habits.sieving_repeats_to;
    question.water_depth = habits.water_depth.value();
    if (options.density) question.record.density = positive_option<MassDensity>("--density", *options.density);
    try {
        const auto answer = read_sieving(question);
        Answer given;
        if (options.common.json) given.text = sieve_json(answer);
        if (options.common.wants_page()) given.pages.push_back(sieve_page(answer));
        given.status = falls_short(answer) ? exit_status::will_not_hold : exit_status::answered;
        return given;
    } catch (const DomainError& error) {
        throw InputError(domain_fault(test.places.whole, error));
    }
}

} // namespace

int run_sieve(std::span<const std::string> arguments, Streams& streams) {
    CommandLine line("lakebound-sieve", "what a sieve test says, and whether the powder is fine enough",
                     "lakebound-sieve weld-15-min.yaml --family watercolour-pan --shelf reedmere",
                     "Exit status: 0 answered; 1 answered: too coarse, or too much was lost;\n"
                     "2 a file or the command line is wrong; 3 a fault of ours.\n");
    SieveOptions options;
    describe(line, options);
    return run_app(line, options.common, arguments, streams, [&] { return answer(options, streams); });
}

} // namespace lakebound
