#include "settle.hpp"

#include <optional>

#include "common/run_app.hpp"
#include "fineness_options.hpp"
#include "lakebound/report/settle_report.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

using Text = std::optional<std::string>;

struct SettleOptions {
    Text cut, family, depth, draw, refills, density, temperature, solids, test, sieve, zone;
    CommonOptions common;
};

void describe(CommandLine& line, SettleOptions& options) {
    line.group("To part grains by size");
    line.option(options.cut, "--cut", "SIZE", "Nothing coarser is poured off, \"45 um\"");
    line.option(options.family, "--family", "FAMILY", "The grain wanted for a family of paints, in place of --cut");
    line.option(options.depth, "--depth", "LENGTH", "Depth of the water, \"100 mm\"");
    line.option(options.draw, "--draw", "LENGTH", "Poured off from the top, \"80 mm\"; else the shelf's share of the depth");
    line.option(options.refills, "--refills", "NUMBER",
                "Refills after the first fill: 3 make 4 pour-offs; else the shelf's");
    line.option(options.density, "--density", "DENSITY", "Of the solid, \"1.88 g/cm3\"");
    line.option(options.temperature, "--temperature", "T", "Of the water, \"18 degC\"; else the test's, the bench's or the shelf's");
    line.option(options.solids, "--solids", "SHARE", "Powder by volume of the stirred water, \"2 %\"; else the shelf's");
    line.option(options.sieve, "--sieve", "TEST", "A sieve test of the powder: what comes over of each class");
    line.option(options.test, "--test", "FILE",
                "A settling test: timed grains, or the blanket of a fresh lake");
    line.group("To decant a fresh lake");
    line.option(options.zone, "--zone", "READINGS",
                "Three heights of the blanket, \"100 mm, 62 mm, 48 mm every 2 h\"");
    add_common_options(line, options.common);
    line.exclusive({"--cut", "--family"});
    line.exclusive({"--zone", "--test"});
    line.exclusive({"--zone", "--cut"});
    line.exclusive({"--zone", "--family"});
    line.question("--zone", {});
}

unsigned read_pours(const std::string& text) {
    if (text.empty() || text.size() > 3 || text.find_first_not_of("0123456789") != std::string::npos)
        throw typed_fault("refills-form", "--refills \"" + text + "\": must be a whole number from 0 to 999",
                    "write it in digits: three refills, --refills 3, make four pour-offs");
    return static_cast<unsigned>(std::stoul(text)) + 1;
}

Given<Temperature> read_temperature(const SettleOptions& options, const SettlingRecord* test,
                                    Library& library) {
    if (options.temperature)
        return {quantity_option<Temperature>("--temperature", *options.temperature), GivenBy::maker};
    if (test != nullptr && test->temperature) return {*test->temperature, GivenBy::settling_test};
    if (const auto bench = library.find_bench()) return {read_bench_file(*bench).temperature, GivenBy::bench};
    return {library.practice().assumed_bench.temperature, GivenBy::shelf};
}

Given<MassDensity> read_density(const SettleOptions& options, const std::optional<SieveRecord>& sieve,
                                Library& library) {
    if (options.density)
        return {positive_option<MassDensity>("--density", *options.density), GivenBy::maker};
    if (sieve && sieve->density) return {*sieve->density, GivenBy::sieve_tests};
    return {library.pigment(library.powder_habits().usual_powder).density.value(), GivenBy::shelf};
}

SettleQuestion read_question(const SettleOptions& options, Library& library,
                             const std::optional<SettlingRecord>& test, const std::optional<SieveRecord>& sieve) {
    SettleQuestion question;
    question.test = test;
    question.sieve = sieve;
    if (options.cut)
        question.cut = grain_size_option("--cut", *options.cut);
    else if (options.family)
        question.cut = library.fineness_target(*options.family).grain.value();
    else
        throw typed_fault("cut-missing", "at which size to part is not said",
                    "add --cut \"45 um\", or --zone with three heights for a fresh lake");
    if (!options.depth)
        throw typed_fault("depth-missing",
                    "how deep the water stands is not said, and a time without a depth means nothing",
                    "add --depth \"100 mm\"");
    question.depth = ranged_option<Length>("--depth", *options.depth, range::water_depth);
    if (options.draw) question.draw = ranged_option<Length>("--draw", *options.draw, range::water_depth);
    question.density = read_density(options, sieve, library);
    question.temperature = read_temperature(options, test ? &*test : nullptr, library);
    const auto habits = library.powder_habits();
    question.usual_draw = habits.draw.value();
    question.pours = options.refills ? read_pours(*options.refills) : habits.refills + 1;
    question.shortest_wait = habits.shortest_wait.value();
    question.longest_wait = habits.longest_wait.value();
    question.handling = {habits.fill_and_stir.value(), habits.pour.value()};
    question.solids = habits.solids.value();
    if (options.solids) question.solids = positive_option<VolumeFraction>("--solids", *options.solids);
    return question;
}

Answer decant(const SettleOptions& options, const Library& library, const std::string& name,
              const InterfaceHeights& heights) {
    const auto habits = library.powder_habits();
    const auto answer = plan_decanting({name, heights, habits.height_read_to.value(),
                                        habits.water_above_blanket.value(), habits.decant_within.value()});
    Answer given;
    if (options.common.json) given.text = decant_json(answer);
    if (options.common.wants_page()) given.pages.push_back(decant_page(answer));
    return given;
}

Answer answer(const CommandLine& line, const SettleOptions& options, Streams& streams) {
    auto library = open_library(options.common);
    if (options.zone) return decant(options, library, "", blanket_option("--zone", *options.zone));
    std::optional<PlacedSettlingTest> test;
    std::optional<PlacedSieveTest> sieve;
    if (options.test == "-" && options.sieve == "-")
        throw typed_fault("option-conflict", "only one file can come from standard input",
                    "name a file for the other");
    if (options.test) {
        test = *options.test == "-"
                   ? read_settling_test(load_document(std::string(standard_input_path), read_all(streams)), "")
                   : read_settling_test_file(library.own_file(*options.test, "settling-tests"));
        if (test->record.blanket) {
            line.refuse_unread("--test", {}, "a blanket, which --test holds, sinks as one and is not parted by size",
                               "leave it out, or give a test of timed grains");
            return decant(options, library, test->record.name, *test->record.blanket);
        }
    }
    if (options.sieve) sieve = read_sieve_test_or_input(*options.sieve, library, streams);
    RecordPlaces places;
    if (sieve) places = sieve->places;
    if (test) places.timed_grains = test->places.timed_grains;
    const auto plan = [&] {
        try {
            return plan_settling(read_question(options, library, test ? std::optional(test->record) : std::nullopt,
                                               sieve ? std::optional(sieve->record) : std::nullopt));
        } catch (const RecordError& error) {
            throw InputError(record_fault(error, std::span(&places, 1)));
        }
    }();
    Answer given;
    if (options.common.json) given.text = settle_json(plan);
    if (options.common.wants_page()) given.pages.push_back(settle_page(plan));
    given.status = cannot_be_done(plan) ? exit_status::will_not_hold : exit_status::answered;
    return given;
}

} // namespace

int run_settle(std::span<const std::string> arguments, Streams& streams) {
    CommandLine line("lakebound-settle", "parting grains in water by the clock, and when to decant",
                     "lakebound-settle --depth \"100 mm\" --cut \"45 um\" --density \"1.88 g/cm3\"",
                     "Exit status: 0 answered; 1 answered: it cannot be done by hand;\n"
                     "2 a file or the command line is wrong; 3 a fault of ours.\n");
    SettleOptions options;
    describe(line, options);
    return run_app(line, options.common, arguments, streams, [&] { return answer(line, options, streams); });
}

} // namespace lakebound
