#include "jar.hpp"

#include <array>
#include <optional>
#include <utility>
#include <vector>

#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/bench_starter.hpp"
#include "lakebound/shelf/jar_starter.hpp"
#include "lakebound/shelf/maker_files.hpp"
#include "lakebound/shelf/typed_quantity.hpp"
#include "lakebound/shelf/typed_text.hpp"
#include "common/run_app.hpp"
#include "lakebound/report/jar_card.hpp"
#include "lakebound/report/record_words.hpp"
#include "lakebound/report/stepwise_sheet.hpp"
#include "lakebound/report/swatch_test.hpp"
#include "lakebound/shelf/entry_remark.hpp"
#include "lakebound/shelf/entry_typed.hpp"
#include "lakebound/shelf/jar_record.hpp"

namespace lakebound {

namespace {

using Text = std::optional<std::string>;

struct JarOptions {
    Text jar, weighed, drew, rub_out, dropper, swatch, saw, went, measured, note, undo, starter, date, lot;
    Text family, medium, bench, sure, lack, poured, stroke, mixed, by_strokes, sieved, settled, new_bench;
    bool as_planned = false, changed = false, studio = false, swatch_test = false;
    CommonOptions common;
};

void describe(CommandLine& line, JarOptions& options) {
    line.argument(options.jar, "JAR", "The jar: its name on the shelf, or its file");
    line.group("What happened (one of these; each becomes an entry of the record)");
    line.option(options.weighed, "--weighed", "MASS", "The powder in the jar now, without the jar");
    line.option(options.drew, "--drew", "MASS", "Powder taken out for something else");
    line.option(options.rub_out, "--rub-out", "\"POWDER, OIL\"", "\"2.00 g, 1.56 g\", or drops: \"2.00 g, 43 drops\"");
    line.option(options.dropper, "--dropper", "\"DROPS, MASS\"", "With drops: what they weigh, \"50 drops, 1.81 g\"");
    line.flag(options.as_planned, "--as-planned", "The swatches were painted as the card says");
    line.option(options.swatch, "--swatch", "\"POWDER, MEDIUM\"",
                "A swatch of these masses; its sign may follow: \"0.20 g, 0.83 g: chalks\"");
    line.option(options.stroke, "--stroke", "\"POWDER, MEDIUM: SIGN\"",
                "A stroke of the paint on the slab, that holds so much so far: \"6.0 g, 4.6 g: chalks\"");
    line.option(options.mixed, "--mixed", "\"POWDER, MEDIUM\"", "A batch as it was really mixed, without a sheet: \"6.0 g, 9.8 g\"");
    line.option(options.saw, "--saw", "SIGN", "What the dry swatch showed: chalks, does not chalk, holds, shines ...");
    line.option(options.went, "--went", "SIGN", "How the last batch that was kept holds in use");
    line.option(options.measured, "--measured", "\"FIGURE: VALUE\"", "Such as \"density: 1.86 +- 0.05 g/cm3\"");
    line.option(options.sieved, "--sieved", "FILE", "A sieve test of the powder, as lakebound-sieve takes it");
    line.option(options.settled, "--settled", "FILE", "Grains of the powder timed in water, as lakebound-settle --test takes it");
    line.flag(options.changed, "--changed", "The powder was ground again, or lay in damp for weeks");
    line.option(options.note, "--note", "TEXT", "A remark, alone or with one of the above");
    line.option(options.undo, "--undo", "ENTRY", "Takes an entry back: its name, or 'last'");
    line.option(options.starter, "--new", "\"PIGMENT, MASS\"", "Begins a jar's file, \"alumina-lake, 24.0 g\"");
    line.option(options.new_bench, "--new-bench", "\"STEP, ...\"", "Begins bench.yaml by the steps of your scales, \"0.1 g, 0.01 g\"");
    line.option(options.date, "--date", "DAY", "The day it happened, or of the card; else today");
    line.group("What is asked");
    line.option(options.family, "--as", "FAMILY", "The paint it is wanted for; else that of its last paint");
    line.option(options.medium, "--with", "MEDIUM", "The medium; else that of its last paint");
    line.option(options.lot, "--bottle", "TEXT", "The bottle of medium, for those who tell them apart");
    line.option(options.sure, "--sure", "\"95 %\"", "The chance of the window that you want before you paint");
    line.option(options.lack, "--lack", "WHAT", "What you are short of: time, powder or days");
    line.option(options.poured, "--poured", "MASS",
                "More or less medium got onto the slab than the last batch's sheet said: what now; of an older batch \"1: 7.9 g\"");
    line.option(options.by_strokes, "--by-strokes", "MASS",
                "A batch of so much powder, begun lean and brought up in doses, a stroke rubbed after each: its sheet");
    line.option(options.bench, "--bench", "FILE", "Your scales; else the studio's bench.yaml");
    line.flag(options.swatch_test, "--swatch-test", "How to paint, dry and rub a swatch, and what counts: a page to pin up");
    line.flag(options.studio, "--studio", "All jars of the studio you stand in");
    add_common_options(line, options.common);
    line.exclusive({"--weighed", "--drew", "--rub-out", "--as-planned", "--swatch", "--stroke", "--mixed", "--saw",
                    "--went", "--measured", "--sieved", "--settled", "--changed", "--undo", "--new", "--studio", "--swatch-test", "--poured",
                    "--by-strokes", "--new-bench"});
    line.exclusive({"--new", "--note"}); // its file has a note of its own
    for (const char* asks : {"--studio", "--swatch-test", "--new-bench", "--poured", "--by-strokes"}) // nothing is entered
        line.exclusive({asks, "--note"});
    line.exclusive({"--swatch-test", "--new-bench", "--json"}); // pages for people
    line.question("--swatch-test", {"--as"});
    line.question("--new-bench", {});
    line.question("--studio", {"--as", "--with", "--bottle", "--sure", "--lack", "--date", "--bench"});
    line.question("--new", {"JAR", "--date", "--bench"});
}

std::optional<Shortage> shortage_of(const JarOptions& options) {
    if (!options.lack) return std::nullopt;
    if (const auto shortage = value_of_word<Shortage>(*options.lack)) return shortage;
    throw typed_fault("lack-unknown", "--lack \"" + *options.lack + "\": nothing is saved by that name",
                "write --lack time, --lack powder or --lack days");
}

RecordWish wish_of(const JarOptions& options) {
    RecordWish wish;
    wish.family = options.family;
    wish.medium = options.medium;
    wish.lot = options.lot;
    if (options.sure) wish.wanted = chance_option("--sure", *options.sure);
    wish.shortage = shortage_of(options);
    if (options.sure) wish.asked_wish += " --sure \"" + *options.sure + "\"";
    if (options.lack) wish.asked_wish += " --lack " + *options.lack;
    wish.asked_shelf = shelves_again(options.common);
    wish.today = today_here();
    return wish;
}

/// The entries that were typed, none when only the card is wanted.
std::vector<TypedEntry> typed_entries(const JarOptions& options, const EntryContext& context, const Studio& studio,
                                      const JarStory& story, Library& library) {
    if (options.weighed) return {typed_weighed(context, *options.weighed)};
    if (options.drew) return {typed_drawn(context, *options.drew)};
    if (options.rub_out) return {typed_rub_out(context, *options.rub_out, options.dropper, last_dropper(studio))};
    if (options.measured) return {typed_measured(context, *options.measured)};
    if (options.sieved) return {typed_sieving(context, *options.sieved)};
    if (options.settled) return {typed_settling(context, *options.settled)};
    if (options.swatch) return {typed_swatch(context, *options.swatch, story.family.id, story.medium_id)};
    if (options.stroke) return {typed_stroke(context, *options.stroke, story.family.id, story.medium_id)};
    if (options.mixed) return {typed_mixed(context, *options.mixed, story.family.id, library.medium(story.medium_id))};
    if (options.as_planned) return planned_swatches(context, story);
    if (options.saw) return {typed_sign(context, *options.saw, story)};
    if (options.went) return {typed_outcome(context, *options.went, story)};
    if (options.changed) return {typed_change(context)};
    if (options.undo) return {typed_undo(context, *options.undo, story)};
    if (options.note) return {typed_note(context)};
    return {};
}

Answer begin_jar(const JarOptions& options, const EntryContext& context, Library& library) {
    const std::string path = begin_jar_file(context.jar, *options.starter, context, library);
    const Jar jar = library.jar(path);
    Answer given;
    given.pages.push_back(new_jar_page(jar, path));
    if (options.common.json) given.text = new_jar_json(jar, path);
    return given;
}

Answer studio_answer(const JarOptions& options, const FoundBench& found, Library& library, const RecordWish& wish,
                     std::chrono::sys_days today) {
    Studio studio = read_studio(".", library, today);
    if (options.date) studio = as_of(std::move(studio), wish.today, library);
    std::vector<StudioLine> lines;
    for (std::size_t i = 0; i < studio.jars.size(); ++i)
        lines.push_back(studio_line(jar_story(studio, i, found.bench, found.assumed, library, wish)));
    Answer given;
    if (options.common.json) given.text = studio_json(studio_name(studio), lines);
    if (options.common.wants_page()) given.pages.push_back(studio_page(studio_name(studio), lines));
    return given;
}

Answer poured_now(const JarOptions& options, const Studio& studio, const JarStory& story, Library& library) {
    const auto question = poured_question(studio, story, *options.poured, library);
    const auto now = poured_answer(question);
    Answer given;
    if (options.common.json) given.text = poured_json(story, question, now);
    if (options.common.wants_page()) given.pages.push_back(poured_page(story, question, now));
    return given;
}

Answer answer(const JarOptions& options) {
    if (options.dropper && !options.rub_out)
        throw typed_fault("option-alone", "'--dropper' goes with a rub-out", "add --rub-out \"2.00 g, 43 drops\"");
    auto library = open_library(options.common);
    RecordWish wish = wish_of(options);
    EntryContext context;
    context.date = day_text(day_option(options.date));
    const auto found = find_bench(options.bench, library);
    if (options.swatch_test) {
        const LearningHabits habits = library.learning_habits();
        const Family family = library.family(options.family.value_or(habits.usual_family));
        const std::array<Medium, 1> usual{library.medium(habits.binders.at(static_cast<std::size_t>(family.process)).usual_medium)};
        Answer given;
        given.pages.push_back(swatch_test_page(
            family, habits, materials_of_test(library.pigment(library.powder_habits().usual_powder), usual)));
        return given;
    }
    if (options.new_bench) {
        const std::string path = begin_bench_file(*options.new_bench, library.practice().assumed_bench);
        Answer given;
        given.pages.push_back(new_bench_page(read_bench_file(path), path));
        return given;
    }
    if (options.studio) {
        RecordWish then = wish;
        then.today = day_option(options.date);
        return studio_answer(options, found, library, then, wish.today);
    }
    if (!options.jar)
        throw typed_fault("jar-missing", "no jar is named", "lakebound-jar weld; all jars of a studio: lakebound-jar --studio");
    context.jar = *options.jar;
    context.note = options.note;
    context.lot = options.lot;
    context.bench = found.bench;
    if (options.starter) return begin_jar(options, context, library);

    const auto recorded = recorded_jar(library.jar_path(*options.jar), library, wish.today);
    const Studio& studio = recorded.studio;
    const Jar& jar = studio.jars[recorded.index];
    context.jar = jar.id;
    // The card is as of the day that is named; whether an entry is still to come goes by the calendar.
    RecordWish then = wish;
    then.today = day_option(options.date);
    const auto told = [&](const Studio& of, const RecordWish& asked) {
        return jar_story(of, of.find(jar.id).value(), found.bench, found.assumed, library, asked);
    };
    JarStory story = told(studio, then);
    if (options.poured) return poured_now(options, studio, told(studio, as_batch(studio, story, *options.poured, then)), library);
    if (options.by_strokes) {
        const auto plan = stepwise_plan(studio, story, *options.by_strokes, library, then);
        Answer given;
        if (options.common.json) given.text = stepwise_json(story, plan);
        if (options.common.wants_page()) given.pages.push_back(stepwise_page(story, plan));
        return given;
    }
    JarAnswerWords words;
    const auto entries = typed_entries(options, context, studio, story, library);
    if (!entries.empty()) { // all that could be wrong shows before anything is written
        if (options.undo) words.taken_back = undone_text(story, entry_to_undo(*options.undo, story));
        const Studio with = with_entries(studio, jar, context.date, entries, library, wish.today);
        words.remarks = {entries.front().remark, options.lot ? new_bottle_remark(studio, *options.lot) : "", told_twice_remark(with, wish.asked_shelf)};
        std::erase(words.remarks, "");
        story = told(with, then);
        words.kept = write_entries(studio, jar, context.date, entries);
    } else if (options.date) {
        story = told(as_of(recorded, then.today, library).studio, then);
    }
    Answer given;
    if (options.common.json) given.text = jar_json(story, words);
    if (options.common.wants_page()) given.pages.push_back(jar_page(story, words));
    return given;
}

} // namespace

int run_jar(std::span<const std::string> arguments, Streams& streams) {
    CommandLine line("lakebound-jar", "the record of a jar: what is left, what is known, what to do next",
                     "lakebound-jar weld --shelf reedmere",
                     "To enter a rub-out: lakebound-jar JAR --rub-out \"2.00 g, 1.56 g\".\n"
                     "Every entry is a small file in records/ of the jar's studio, written once.\n"
                     "Exit status: 0 answered; 2 a file or the command line is wrong, and nothing was\n"
                     "written; 3 a fault of ours.\n");
    JarOptions options;
    describe(line, options);
    return run_app(line, options.common, arguments, streams, [&] { return answer(options); });
}

} // namespace lakebound
