#include "bath.hpp"

#include <optional>

#include "common/run_app.hpp"
#include "lakebound/report/bath_sheet.hpp"
#include "lakebound/report/record_words.hpp"
#include "lakebound/shelf/bath_jar_file.hpp"
#include "lakebound/shelf/bath_record.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/maker_files.hpp"
#include "lakebound/shelf/typed_bath.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

using Text = std::optional<std::string>;

struct BathOptions {
    Text bath, jar, bench, date, hour, note, undo;
    bool begin = false;
    BathTexts texts;
    CommonOptions common;
};

void describe(CommandLine& line, BathOptions& options) {
    BathTexts& texts = options.texts;
    line.argument(options.bath, "BATH", "A bath of yours: its name in baths/, or its file; else all of it in the options");
    line.group("What is at hand");
    line.flag(options.begin, "--new", "Begins baths/BATH.yaml of what is at hand");
    line.option(texts.plant, "--plant", "LOT", "\"100 g dry root\" or \"300 g fresh herb\"; without, the liquor is there");
    line.option(texts.alum, "--alum", "\"SALT, MASS\"", "\"potash-alum, 50 g\"; only its name with --lake or --plant");
    line.option(texts.lake, "--lake", "MASS", "The lake wanted in the jar, where no mass of alum is given");
    line.option(texts.alkali, "--alkali", "SALT", "soda-ash, soda-crystals, baking-soda, potash-dry, chalk ...");
    line.option(texts.water, "--water", "VOLUME", "On the plant, in all; without a plant the liquor");
    line.option(texts.pulls, "--pulls", "NUMBER", "That share the water; else the shelf's");
    line.option(texts.pot, "--pot", "VOLUME", "In which the plant is warmed");
    line.option(texts.vessel, "--vessel", "VOLUME", "In which the lake is laid");
    line.option(texts.strength, "--strength", "STRENGTH", "Of the solutions, \"10 % w/v\", \"10 % w/w\" or \"10 g per 100 mL water\"");
    line.group("What was read or done (with BATH each becomes an entry of its record)");
    line.option(texts.filter, "--filter", "\"VOLUME, TIME\"", "Run through, and since pouring, \"0.5 L, 4 min\"");
    line.option(texts.to_filter, "--to-filter", "VOLUME", "All there is to filter; else the liquor");
    line.option(texts.foam, "--foam", "TIME", "How long the foam of a spoonful stands, \"40 s\"");
    line.option(texts.poured, "--poured", "VOLUME", "Alkali solution, a portion, \"120 mL\"");
    line.option(texts.alum_added, "--alum-added", "MASS", "Aluminium salt against too much alkali");
    line.option(texts.ph, "--ph", "READING", "\"6.4, pen\" or \"5.3, strip, fizzing\", in order");
    line.option(texts.colour, "--colour", "\"1 in 8\"", "Dye liquor made up to 8 times its volume looks like the clear liquor");
    line.option(texts.blanket, "--blanket", "READINGS", "Heights of the sinking lake, \"100 mm, 62 mm, 48 mm every 2 h\"");
    line.option(texts.wash_water, "--wash-water", "READING", "Of a conductivity pen, \"350 uS/cm\"");
    line.option(texts.decant, "--decant", "READING", "Of each decant, in order, \"1200 uS/cm\"");
    line.option(texts.cake, "--cake", "MASS", "The drying cake today, \"38.6 g\"; \"38.6 g, wet\" while it looks so");
    line.option(texts.drying, "--drying", "READINGS", "Without a record: \"38.6 g, 24.9 g, 17.9 g every 24 h\"");
    line.option(texts.hue, "--hue", "WORDS", "Of the lake, in your own words, \"warm rose, wet; brick red, dry\"");
    line.option(texts.swatch, "--swatch", "NUMBER", "That stands on the swatch which shows it");
    line.option(options.note, "--note", "TEXT", "A remark; alone or with one of the above");
    line.option(options.undo, "--undo", "ENTRY", "Takes an entry back: its name, or 'last'");
    line.option(options.date, "--date", "DAY", "The day it happened, or of the jar; else today");
    line.option(options.hour, "--at", "HOUR", "And the hour, \"08:30\"; of weighings at the same hour it is not needed");
    line.group("Out comes a jar");
    line.option(options.jar, "--jar", "NAME", "Writes jars/NAME.yaml in the studio you stand in");
    line.option(texts.weighed, "--weighed", "MASS", "What came into the jar; else what is expected");
    line.option(texts.moisture, "--moisture", "SHARE", "Of the lake, by drying a sample, \"14 +- 2 % w/w\"");
    line.option(texts.water_ph, "--water-ph", "READING", "Of the lake stirred up in water, \"6.8, pen\"");
    line.option(options.bench, "--bench", "FILE", "Your scales; else the studio's bench.yaml");
    add_common_options(line, options.common);
    line.exclusive({"--new", "--jar"});
    line.exclusive({"--new", "--undo"});
    line.exclusive({"--undo", "--jar"});
    line.question("--new", {"BATH", "--plant", "--alum", "--lake", "--alkali", "--water", "--pulls", "--pot", "--vessel", "--strength",
                            "--foam", "--date", "--bench"},
                  "a bath is begun with what is at hand; enter what is read of it afterwards: lakebound-bath BATH --poured \"120 mL\"");
}

Answer plan_answer(const BathOptions& options, const BathPlan& plan, const Bench& bench, const Text& begun) {
    Answer given;
    if (options.common.json) given.text = bath_json(plan);
    if (options.common.wants_page())
        given.pages.push_back(begun ? new_bath_page(plan, bench, *options.bath + shelves_again(options.common), *begun) : bath_page(plan, bench));
    return given;
}

Answer standing_answer(const BathOptions& options, const BathPlan& plan, const BathStanding& standing, const Bench& bench, const BathTold& told) {
    Answer given;
    if (options.common.json) given.text = bath_standing_json(standing, told);
    if (options.common.wants_page()) given.pages.push_back(bath_standing_page(plan, standing, bench, told));
    return given;
}

/// All that is asked of one bath.
class Asked {
public:
    Asked(const BathOptions& options, Library& library)
        : options_(options), library_(library), laking_(library.laking_habits()), washing_(library.wash_habits()),
          found_(find_bench(options.bench, library)), day_(day_option(options.date)) {}

    Answer typed(const BathTexts& texts) {
        const BathPlan plan = plan_of(texts, "baths/-");
        if (!has_readings(texts) && !options_.jar) return plan_answer(options_, plan, found_.bench, {});
        const BathStanding standing = bath_standing(bath_readings(texts, plan), setting(plan));
        BathTold told;
        if (options_.jar) write_jar(texts, plan, standing, told);
        return standing_answer(options_, plan, standing, found_.bench, told);
    }

    Answer begun() {
        if (!options_.bath) throw typed_fault("option-alone", "'--new' wants the name of the bath", "write it like lakebound-bath madder --new --alum ...");
        const BathPlan plan = plan_of(options_.texts, "baths/" + *options_.bath + ".yaml");
        return plan_answer(options_, plan, found_.bench, begin_bath_file(*options_.bath, options_.texts, day_text(day_)));
    }

    Answer recorded(const std::string& path) {
        BathRecord record = read_bath_record(path, library_);
        const BathPlan plan = plan_of(record.texts, path);
        const BathSetting set = setting(plan);
        BathStory story = told_bath(record, plan, set, today_here());
        const BathEntryContext context{day_text(day_), options_.hour, options_.note, options_.undo};
        const BathRecord before = record;
        auto entries = typed_bath_entries(record, options_.texts, context);
        if (options_.jar) entries.push_back(jarred_entry(record, *options_.jar, options_.texts.weighed, context));
        if (!entries.empty()) { // all that could be wrong shows before anything is written
            record = with_bath_entries(record, context.date, entries);
            story = told_bath(record, plan, set, today_here());
        }
        if (entries.empty() && !has_readings(record.texts) && record.entries.empty()) return plan_answer(options_, plan, found_.bench, {});
        const BathStanding standing = bath_standing_on(day_, story, set);
        BathTold told = bath_told(record, story);
        told.dry = dry_days(story, standing, washing_, day_);
        if (options_.jar) {
            BathTexts texts = options_.texts; // what is typed now, else what its file has
            if (!texts.weighed) texts.weighed = record.texts.weighed;
            if (!texts.moisture) texts.moisture = record.texts.moisture;
            if (!texts.water_ph) texts.water_ph = record.texts.water_ph;
            write_jar(texts, plan, standing, told);
        }
        for (const TypedEntry& entry : entries) told.entered.push_back(entry.what);
        if (!entries.empty()) told.kept = write_bath_entries(before, context.date, entries);
        return standing_answer(options_, plan, standing, found_.bench, told);
    }

private:
    /// path: of its file; other baths beside it teach how much alkali their maker's want.
    BathPlan plan_of(const BathTexts& texts, const std::string& path) const {
        return plan_bath(with_own_end_points(bath_wish(texts, library_), path, library_, laking_, washing_, found_.bench, today_here()),
                         laking_, washing_);
    }
    BathSetting setting(const BathPlan& plan) const { return bath_setting(plan, laking_, washing_, library_.powder_habits(), found_.bench); }

    void write_jar(const BathTexts& texts, const BathPlan& plan, const BathStanding& standing, BathTold& told) {
        told.jar = bath_jar(texts, plan, standing, washing_);
        told.jar_file = write_bath_jar(*options_.jar, *told.jar, plan.chalk ? laking_.chalk_lake : laking_.lake, told.bath, iso_text(day_));
    }

    BathTold bath_told(const BathRecord& record, const BathStory& story) const {
        BathTold told;
        told.bath = record.id;
        told.asked_shelf = shelves_again(options_.common);
        for (const std::size_t i : story.lines) {
            const ReadBathEntry& read = record.entries[i];
            told.lines.push_back({read.entry.id, read.entry.day, std::string(word_of(read.entry.kind())), read.reading, read.note});
        }
        if (options_.undo) told.taken_back = std::get<UndoEntry>(record.entries.back().entry.what).entry;
        return told;
    }

    const BathOptions& options_;
    Library& library_;
    LakingHabits laking_;
    WashHabits washing_;
    FoundBench found_;
    std::chrono::sys_days day_;
};

Answer answer(const BathOptions& options, Streams& streams) {
    auto library = open_library(options.common);
    Asked asked(options, library);
    if (!options.jar && (options.texts.weighed || options.texts.moisture || options.texts.water_ph))
        throw typed_fault("option-alone", "'--weighed', '--moisture' and '--water-ph' are of the lake in its jar, and none is written",
                          "add --jar NAME");
    if (!options.bath || options.begin) refuse_lone_options(options.texts);
    if (options.begin) return asked.begun();
    const bool enters = has_readings(options.texts) || options.texts.foam || options.note || options.undo;
    if (!options.bath) {
        if (options.note || options.undo || options.hour)
            throw typed_fault("option-alone", "'--note', '--undo' and '--at' are of a record, and no bath is named",
                              "begin one: lakebound-bath madder --new --alum \"potash-alum, 50 g\" --alkali soda-ash");
        if (options.date && !options.jar)
            throw typed_fault("option-alone", "'--date' is of a record or of a jar, and neither is named", "add --jar NAME, or leave it out");
        return asked.typed(options.texts);
    }
    if (options.hour && !enters && !options.jar)
        throw typed_fault("option-alone", "'--at' is of what happened, and nothing is entered", "add what happened, as in --poured \"120 mL\"");
    if (says_what_is_at_hand(options.texts))
        throw typed_fault("option-conflict", "a bath's file says what is at hand", "leave those options out, or give the new bath a name: --new");
    if (*options.bath != "-") return asked.recorded(bath_path(*options.bath, library));
    if (enters || options.hour) throw typed_fault("option-conflict", "standard input has no record", "save the bath as baths/NAME.yaml and enter it there");
    return asked.typed(read_bath(load_document(std::string(standard_input_path), read_all(streams)), library));
}

} // namespace

int run_bath(std::span<const std::string> arguments, Streams& streams) {
    CommandLine line("lakebound-bath", "from plant to jar: a bath sheet, and where the bath stands",
                     "lakebound-bath --alum \"potash-alum, 50 g\" --alkali soda-ash",
                     "To keep a record: lakebound-bath madder --new --alum ..., then, as it goes,\n"
                     "lakebound-bath madder --poured \"120 mL\". Every entry is a small file in\n"
                     "baths/BATH/, written once. Exit status: 0 answered; 2 a file or the command line\n"
                     "is wrong, and nothing was written; 3 a fault of ours.\n");
    BathOptions options;
    describe(line, options);
    return run_app(line, options.common, arguments, streams, [&] { return answer(options, streams); });
}

} // namespace lakebound
