#include "batch.hpp"

#include <optional>
#include <vector>

#include "common/run_app.hpp"
#include "lakebound/report/batch_json.hpp"
#include "lakebound/report/explain.hpp"
#include "lakebound/report/shelf_list.hpp"
#include "lakebound/paint/medium_fit.hpp"
#include "lakebound/report/record_words.hpp"
#include "lakebound/report/weigh_sheet.hpp"
#include "lakebound/shelf/entry_remark.hpp"
#include "lakebound/shelf/entry_typed.hpp"
#include "lakebound/shelf/jar_record.hpp"
#include "lakebound/shelf/file_kind.hpp"
#include "lakebound/shelf/maker_files.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "lakebound/shelf/shown_file.hpp"
#include "lakebound/shelf/typed_batch.hpp"
#include "lakebound/shelf/typed_quantity.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

using Text = std::optional<std::string>;

struct BatchOptions {
    Text recipe, jar, bench, pigment, fill, k, reduced_pvc, pvc, medium_ratio, medium, vessel;
    std::vector<std::string> stocks;
    Text show;
    bool whole_jar = false, explain = false, list = false, keep = false;
    Text date, lot;
    CommonOptions common;
};

void describe(CommandLine& line, BatchOptions& options) {
    line.argument(options.recipe, "RECIPE", "A recipe of the shelf by name, a file, or - for standard input");
    line.group("What it is made from");
    line.option(options.jar, "--jar", "JAR", "The jar of pigment: a file, or a name on the shelf");
    line.option(options.bench, "--bench", "FILE",
                "Your scales, syringes and losses; else the shelf's bench.yaml");
    line.option(options.stocks, "--stock", "\"ID: MASS\"",
                "What you have of an ingredient or medium");
    line.group("How much (one of these; the whole jar if you name only a jar)");
    line.option(options.pigment, "--pigment", "MASS", "From that much pigment in all, \"10 g\"");
    line.option(options.fill, "--fill", "\"N VESSEL\"", "To fill so many, \"10 half-pan\"");
    line.flag(options.whole_jar, "--whole-jar", "From all of the jar but the reserve of the bench");
    line.group("What it aims at (one of these; else what the recipe says)");
    line.option(options.k, "--k", "NUMBER", "Binder sufficiency: 1 just fills the pigment");
    line.option(options.reduced_pvc, "--reduced-pvc", "NUMBER", "PVC over CPVC, \"0.8\"");
    line.option(options.pvc, "--pvc", "PERCENT", "Pigment volume concentration, \"30 %\"");
    line.option(options.medium_ratio, "--medium-ratio", "RATIO", "Medium per pigment by weight, \"4 g/g\"");
    line.group("Instead of what the recipe says");
    line.option(options.medium, "--medium", "MEDIUM", "Another medium");
    line.option(options.vessel, "--vessel", "VESSEL", "Another vessel to fill");
    line.group("For the record of the jar");
    line.flag(options.keep, "--keep", "Enter this batch in the jar's record: it was made as the sheet says");
    line.option(options.date, "--date", "DAY", "The day it was made; else today");
    line.option(options.lot, "--bottle", "TEXT", "The bottle of medium, for those who tell them apart");
    line.group("What to show");
    line.flag(options.explain, "--explain", "Every step with symbols and numbers, after the sheet");
    line.flag(options.list, "--list", "The recipes, pigments, media and vessels of the shelf");
    line.option(options.show, "--show", "THING", "What is in a recipe, medium, family or whatever lies on the shelf, and "
                                                 "where each figure is from");
    add_common_options(line, options.common);
    line.exclusive({"--list", "--show"});
    line.question("--list", {});
    line.question("--show", {});
    line.exclusive({"--pigment", "--fill", "--whole-jar"});
    line.exclusive({"--k", "--reduced-pvc", "--pvc", "--medium-ratio"});
}

/// The names on the shelf; a file without a readable name is listed by its id.
std::vector<ListedKind> listed(const Library& library) {
    std::vector<ListedKind> groups;
    for (const auto kind : listed_kinds()) {
        ListedKind group{std::string(kind_folder(kind)), {}};
        for (const auto& id : library.ids(kind)) {
            ListedThing entry{id, "(cannot be read)"};
            try {
                const auto document = load_document(library.find(kind, id).value());
                if (const auto* name = document.root.find("name")) entry.name = name->text;
            } catch (const InputError&) {
                // The list still helps; whoever names this file is told what is wrong with it.
            }
            group.entries.push_back(std::move(entry));
        }
        if (!group.entries.empty()) groups.push_back(std::move(group));
    }
    return groups;
}

/// What is in the files of that name.
Answer shown(const std::string& id, const CommonOptions& common) {
    const auto library = open_library(common);
    std::vector<ListedFile> files;
    for (auto& file : shown_files(library, id)) {
        ListedFile listed_file{std::move(file.kind), std::move(file.name), std::move(file.path), std::move(file.note), {}};
        for (auto& each : file.figures)
            listed_file.figures.push_back({std::move(each.key), std::move(each.value), std::move(each.origin),
                                           std::move(each.source), std::move(each.note)});
        files.push_back(std::move(listed_file));
    }
    Answer given;
    if (common.json) given.text = shelf_files_json(id, files);
    if (common.wants_page()) given.pages.push_back(shelf_files_page(id, files));
    return given;
}

BatchAmount read_amount(const BatchOptions& options, const Bench& bench, Library& library, bool has_jar) {
    if (options.pigment) return positive_option<Mass>("--pigment", *options.pigment, bench.kitchen);
    if (options.fill) return fill_option("--fill", *options.fill, library);
    if (options.whole_jar && !has_jar)
        throw typed_fault("jar-missing", "--whole-jar needs to know which", "add --jar FILE");
    if (has_jar) return WholeJar{};
    throw typed_fault("amount-missing", "how much is not said",
                "add --pigment \"10 g\", --fill \"10 half-pan\", or --jar FILE for all that is in it");
}

std::optional<Aim> read_aim(const BatchOptions& options) {
    if (options.k) return ranged_option<BinderSufficiency>("--k", *options.k, range::aim);
    if (options.reduced_pvc)
        return ranged_option<ReducedPigmentVolumeConcentration>("--reduced-pvc", *options.reduced_pvc,
                                                                range::aim);
    if (options.pvc) return ranged_option<PigmentVolumeConcentration>("--pvc", *options.pvc, range::aim_pvc);
    if (options.medium_ratio)
        return ranged_option<MediumPerPigment>("--medium-ratio", *options.medium_ratio, range::aim);
    return std::nullopt;
}

void refuse_two_standard_inputs(const BatchOptions& options) {
    int dashes = 0;
    for (const auto* path : {&options.recipe, &options.jar, &options.bench})
        dashes += *path == "-" ? 1 : 0;
    if (dashes > 1)
        throw typed_fault("option-conflict", "only one file can come from standard input",
                    "name a file for the other");
}

/// A batch that was sized, with what the record of its jar says.
struct Sized {
    BatchSubject subject;
    std::optional<SheetRecord> record;
};

/// Enters the batch in the record of its jar, and tells the sheet, which has a record from then on.
void keep_in_record(const BatchOptions& options, const BatchSubject& subject, RecordedJar recorded, Library& library,
                    std::optional<SheetRecord>& sheet) {
    EntryContext context;
    context.jar = recorded.jar.id;
    context.date = day_text(day_option(options.date));
    context.lot = options.lot;
    const std::vector<TypedEntry> entries{kept_batch(context, subject.request, subject.answer.batch.value(),
                                                     subject.request.jar.value().pigment, weighing_spread(*subject.chance))};
    Studio with = with_entries(recorded.studio, recorded.jar, context.date, entries, library, today_here());
    const std::string path = write_entries(recorded.studio, recorded.jar, context.date, entries);
    const std::string again = shelves_again(options.common), remark = told_twice_remark(with, again);
    if (!sheet) {
        RecordWish wish;
        wish.today = today_here();
        wish.lot = options.lot;
        recorded.studio = std::move(with);
        auto outlook = outlook_of(recorded, subject.request.recipe, subject.request.bench, library, wish);
        sheet = SheetRecord{std::move(outlook.value()), library.learning_habits(), recorded.jar.id + again}; // it has an entry now
    }
    sheet->kept = path, sheet->remark = remark;
}

Sized size(const BatchOptions& options, Streams& streams) {
    refuse_two_standard_inputs(options);
    if (options.date && !options.keep)
        throw typed_fault("option-alone", "'--date' goes with a batch that is kept", "add --keep");
    if (options.lot && !options.jar)
        throw typed_fault("option-alone", "'--bottle' goes with the record of a jar", "add --jar JAR");
    auto library = open_library(options.common);
    BatchRequest request;
    const auto found = find_bench(options.bench, library);
    request.bench = found.bench;
    std::optional<RecordedJar> recorded;
    if (options.jar) recorded = recorded_jar(library.jar_path(*options.jar), library, today_here());
    const Jar* jar = recorded ? &recorded->jar : nullptr;
    if (options.keep && !jar) throw typed_fault("jar-missing", "--keep needs to know whose record", "add --jar FILE");
    if (!options.recipe)
        throw typed_fault("recipe-missing", "no recipe is named",
                    "'lakebound-batch --list' shows those on the shelf");
    request.recipe = find_recipe(*options.recipe, library, jar, standard_input(streams));
    if (jar) request.jar = JarOnHand{jar_in_recipe(request.recipe, *jar), jar->net_mass.value(), jar->remains};
    if (jar) ask_of_remains(request, library);
    if (options.medium) {
        request.recipe.medium = library.medium(*options.medium);
        request.recipe.carriers = stock_carriers(request.recipe, library);
    }
    if (medium_misfit(request.recipe.medium, request.recipe.family.process)) {
        const auto words = misfit_words(request.recipe.medium, request.recipe.family, library);
        throw typed_fault("medium-unfit", words.message, words.hint);
    }
    if (options.vessel) request.vessel = library.vessel(*options.vessel);
    request.practice = library.practice();
    request.amount = read_amount(options, request.bench, library, jar != nullptr);
    request.aim = read_aim(options);
    for (const auto& text : options.stocks)
        request.stocks.push_back(stock_option("--stock", text, request.recipe, request.bench));
    Sized sized;
    try {
        if (jar) {
            RecordWish wish;
            wish.today = today_here();
            wish.lot = options.lot;
            if (auto outlook = outlook_of(*recorded, request.recipe, request.bench, library, wish)) {
                take_up(request, request.jar->pigment, *outlook, {jar->reference_oil_absorption.value(), jar->reference_test_oil});
                sized.record = SheetRecord{std::move(*outlook), library.learning_habits(), jar->id + shelves_again(options.common)};
            }
        }
        sized.subject = batch_subject(std::move(request), library.bench_tests());
        if (jar) sized.subject.jar_name = jar->name;
        sized.subject.bench_assumed = found.assumed;
        if (options.keep) {
            if (!sized.subject.answer.batch || sized.subject.answer.shortfall)
                throw typed_fault("keep-nothing", "--keep: the batch that was asked for cannot be made", "size one that fits the jar");
            keep_in_record(options, sized.subject, *recorded, library, sized.record);
        }
        return sized;
    } catch (const DomainError& error) {
        const bool by_recipe = !read_aim(options) && !options.medium && !options.pigment;
        throw InputError(domain_fault(by_recipe ? *options.recipe : std::string(command_line_path), error));
    }
}

Answer answer(const BatchOptions& options, Streams& streams) {
    if (options.list) {
        const auto groups = listed(open_library(options.common));
        Answer given;
        if (options.common.json) given.text = shelf_list_json(groups);
        if (options.common.wants_page()) given.pages.push_back(shelf_list_page(groups));
        return given;
    }
    if (options.show) return shown(*options.show, options.common);
    const auto sized = size(options, streams);
    const auto& subject = sized.subject;
    const SheetRecord* record = sized.record ? &*sized.record : nullptr;
    Answer given;
    if (options.common.json) given.text = batch_json(subject, options.explain, record);
    if (options.common.wants_page()) {
        given.pages.push_back(weigh_sheet_page(subject, record));
        if (options.explain && subject.answer.batch) given.pages.push_back(explanation_page(subject));
    }
    given.status = is_good(subject) ? exit_status::answered : exit_status::will_not_hold;
    return given;
}

} // namespace

int run_batch(std::span<const std::string> arguments, Streams& streams) {
    CommandLine line("lakebound-batch", "what to weigh for a paint, and whether it will hold",
                     "lakebound-batch lake-oil-tube --jar weld --shelf reedmere --pigment \"6 g\"",
                     "Exit status: 0 answered; 1 answered: it will not hold, or there is too little;\n"
                     "2 a file or the command line is wrong; 3 a fault of ours.\n");
    BatchOptions options;
    describe(line, options);
    return run_app(line, options.common, arguments, streams, [&] { return answer(options, streams); });
}

} // namespace lakebound
