#include "bath.hpp"

#include <optional>

#include "common/run_app.hpp"
#include "lakebound/report/bath_sheet.hpp"
#include "lakebound/report/record_words.hpp"
#include "lakebound/shelf/maker_files.hpp"
#include "lakebound/shelf/typed_bath.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

using Text = std::optional<std::string>;

struct BathOptions {
    Text file, jar, bench, date;
    BathTexts texts;
    CommonOptions common;
};

void describe(CommandLine& line, BathOptions& options) {
    BathTexts& texts = options.texts;
    line.argument(options.file, "BATH", "A bath's file (kind: bath), in place of the options below");
    line.group("What is at hand");
    line.option(texts.plant, "--plant", "LOT", "\"100 g dry root\" or \"300 g fresh herb\"; without, the liquor is there");
    line.option(texts.alum, "--alum", "\"SALT, MASS\"", "\"potash-alum, 50 g\"; only its name with --lake or --plant");
    line.option(texts.lake, "--lake", "MASS", "The lake wanted in the jar, where no mass of alum is given");
    line.option(texts.alkali, "--alkali", "SALT", "soda-ash, soda-crystals, baking-soda, potash-dry, chalk ...");
    line.option(texts.water, "--water", "VOLUME", "On the plant, in all; without a plant the liquor");
    line.option(texts.pulls, "--pulls", "NUMBER", "That share the water; else 2");
    line.option(texts.pot, "--pot", "VOLUME", "In which the plant is warmed");
    line.option(texts.vessel, "--vessel", "VOLUME", "In which the lake is laid");
    line.option(texts.strength, "--strength", "STRENGTH", "Of the solutions, \"10 % w/v\", \"10 % w/w\" or \"10 g per 100 mL water\"");
    line.option(texts.foam, "--foam", "TIME", "How long the foam of a spoonful stands, \"40 s\"");
    line.group("What was read (each may be given; those in the plural, several times)");
    line.option(texts.filter, "--filter", "\"VOLUME, TIME\"", "Run through, and since pouring, \"0.5 L, 4 min\"");
    line.option(texts.to_filter, "--to-filter", "VOLUME", "All there is to filter");
    line.option(texts.poured, "--poured", "VOLUME", "Alkali solution, a portion, \"120 mL\"");
    line.option(texts.ph, "--ph", "READING", "\"6.4, pen\" or \"5.3, strip, fizzing\", in order");
    line.option(texts.wash_water, "--wash-water", "READING", "Of a conductivity pen, \"350 uS/cm\"");
    line.option(texts.decant, "--decant", "READING", "Of each decant, in order, \"1200 uS/cm\"");
    line.option(texts.drying, "--drying", "READINGS", "\"38.6 g, 24.9 g, 17.9 g every 24 h\"");
    line.group("Out comes a jar");
    line.option(options.jar, "--jar", "NAME", "Writes jars/NAME.yaml in the studio you stand in");
    line.option(texts.weighed, "--weighed", "MASS", "What came into the jar; else what is expected");
    line.option(texts.moisture, "--moisture", "SHARE", "Of the lake, by drying a sample, \"14 +- 2 % w/w\"");
    line.option(texts.water_ph, "--water-ph", "READING", "Of the lake stirred up in water, \"6.8, pen\"");
    line.option(options.date, "--date", "DAY", "Of the jar; else today");
    line.option(options.bench, "--bench", "FILE", "Your scales; else the studio's bench.yaml");
    add_common_options(line, options.common);
    for (const char* each : {"--plant", "--alum", "--alkali", "--lake", "--water"}) line.exclusive({"BATH", each});
}

Answer answer(BathOptions& options, Streams& streams) {
    auto library = open_library(options.common);
    const auto found = find_bench(options.bench, library);
    if (options.file) {
        if (options.texts.alum || options.texts.alkali || options.texts.plant || has_readings(options.texts))
            throw typed_fault("option-conflict", "a bath's file says all of the bath", "leave the other options out, or the file");
        options.texts = read_bath(*options.file == "-" ? load_document(std::string(standard_input_path), read_all(streams))
                                                       : load_document(*options.file),
                                  library);
    }
    const LakingHabits laking = library.laking_habits();
    const WashHabits washing = library.wash_habits();
    const BathPlan plan = plan_bath(bath_wish(options.texts, library), laking, washing);
    Answer given;
    if (!has_readings(options.texts) && !options.jar) {
        if (options.common.json) given.text = bath_json(plan);
        if (options.common.wants_page()) given.pages.push_back(bath_page(plan, found.bench));
        return given;
    }
    if (!plan.lake_inputs)
        throw typed_fault("bath-typed", "readings of a bath with chalk are not followed", "its pH, its salts and its yield do not tell it apart");
    const BathStanding standing = bath_standing(bath_readings(options.texts, plan), bath_setting(plan, laking, washing, found.bench));
    if (options.jar)
        write_bath_jar(*options.jar, options.texts, plan, standing, washing, day_text(day_option(options.date)));
    if (options.common.json) given.text = bath_standing_json(standing);
    if (options.common.wants_page()) given.pages.push_back(bath_standing_page(plan, standing, found.bench));
    return given;
}

} // namespace

int run_bath(std::span<const std::string> arguments, Streams& streams) {
    CommandLine line("lakebound-bath", "from plant to jar: a bath sheet, and where the bath stands",
                     "lakebound-bath --plant \"100 g dry root\" --alum \"potash-alum, 50 g\" --alkali soda-ash",
                     "Exit status: 0 answered; 2 a file or the command line is wrong; 3 a fault of ours.\n");
    BathOptions options;
    describe(line, options);
    return run_app(line, options.common, arguments, streams, [&] { return answer(options, streams); });
}

} // namespace lakebound
