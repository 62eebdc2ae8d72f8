#include "pvc.hpp"

#include <optional>
#include <vector>

#include "common/run_app.hpp"
#include "lakebound/report/layer_report.hpp"
#include "lakebound/report/pvc_json.hpp"
#include "lakebound/report/pvc_report.hpp"
#include "lakebound/report/reading_report.hpp"
#include "lakebound/report/sweep_json.hpp"
#include "lakebound/report/sweep_page.hpp"
#include "lakebound/report/sweep_table.hpp"
#include "lakebound/shelf/bench_reading_file.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "lakebound/shelf/typed_quantity.hpp"
#include "lakebound/shelf/typed_sweep.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

using Text = std::optional<std::string>;

struct PvcOptions {
    PaintTexts paint;
    Text aim, jar_left, soft_aim, accept, reading;
    SweepTexts sweep;
    std::vector<std::string> layers;
    bool packing = false, rescue = false, csv = false;
    CommonOptions common;
};

void describe(CommandLine& line, PvcOptions& options) {
    auto& paint = options.paint;
    line.argument(paint.recipe, "RECIPE",
                  "A recipe by name or file, a weigh sheet's .json, or - for standard input");
    line.group("The paint, typed (instead of a recipe)");
    line.option(
        paint.pigments, "--pigment", "\"ID: AMOUNT\"",
        "A powder by mass, by tapped volume or as a share (% w/w, % v/v); \"10 g\" alone is of the jar, where "
        "one is named, and else needs no name; \"jar: 6 g\" beside others in a blend");
    line.option(paint.binders, "--binder", "\"ID: AMOUNT\"",
                "A medium or ingredient of the shelf by mass or volume");
    line.option(paint.parts, "--parts", "\"1 binder : 2 pigment by volume\"",
                "In parts, by weight or by volume; which is which must be said");
    line.option(paint.paste, "--paste", "\"30 % v/v\"",
                "With --parts by volume: the pigment is a paste in water");
    line.option(paint.family, "--family", "FAMILY", "The kind of paint; else told by the binder");
    line.group("How much");
    line.option(paint.total, "--total", "MASS", "Pigment in all, for a recipe or for shares");
    line.option(paint.used, "--used", "AMOUNT",
                "Medium that went in, of a recipe or of binders mixed beforehand");
    line.group("What is known (\"ID: VALUE\" where there are several pigments)");
    line.option(paint.oil_absorptions, "--oil-absorption", "\"68 g/100g\"",
                "By rub-out, \"68 +- 7 g/100g\" if known");
    line.option(paint.densities, "--density", "\"1.88 g/cm3\"", "Of the powder as weighed; k can do without");
    line.flag(paint.bone_dry, "--bone-dry", "The densities are of dry powder; then give --moisture too");
    line.option(paint.moistures, "--moisture", "\"15 % w/w\"", "Water in the powder as weighed");
    line.option(paint.tapped_densities, "--tapped-density", "\"0.35 g/cm3\"", "Of the powder in a tapped jar");
    line.option(paint.median_sizes, "--median-size", "\"15 um\"", "Grain size, for --packing");
    line.option(paint.test_oil, "--test-oil", "DENSITY", "Of the oil of the rub-out; else that of the shelf's rub-outs");
    line.option(paint.blend_oil_absorption, "--blend-oil-absorption", "\"45 g/100g\"",
                "A rub-out of the blend itself: it decides");
    line.option(paint.jar, "--jar", "JAR", "The jar of pigment: a file, or a name on the shelf");
    line.option(paint.bench, "--bench", "FILE", "Your scales and room; else the shelf's bench.yaml");
    line.option(paint.humidity, "--humidity", "\"50 %\"", "Of the room, 0 to 92.5 %");
    line.group("What to do about it");
    line.flag(options.rescue, "--rescue", "What and how much to add to come back to the aim");
    line.option(options.aim, "--aim", "K",
                "The k that --rescue aims at; else what --accept asks for, or where the window is likeliest met");
    line.option(options.jar_left, "--jar-left", "MASS",
                "Pigment left for the rescue; else what the jar holds less this batch");
    line.option(options.soft_aim, "--soft-aim", "\"48 %\"", "Soft share that a sticky pan is to come down to");
    line.flag(options.packing, "--packing", "What close packing of unlike grains might save");
    line.option(options.accept, "--accept", "\"5 %\"", "Chance of missing the family's window that you accept");
    line.group("Curves");
    line.option(options.sweep.over, "--sweep", "OVER",
                "A table over medium, extender or size-ratio instead of the report");
    line.option(options.sweep.from, "--from", "VALUE", "\"1 g/g\" of medium, \"0 % w/w\" of extender, size ratio 1");
    line.option(options.sweep.to, "--to", "VALUE", "Where the sweep ends");
    line.option(options.sweep.points, "--points", "N", "Rows of the table, at most 1000000");
    line.flag(options.csv, "--csv", "The table with commas, unrounded");
    line.group("Other questions (without a paint)");
    line.option(options.reading, "--reading", "FILE",
                "A bench reading (rub-out, density, moisture ...) to a figure for the jar's file");
    line.option(options.layers, "--layer", "RECIPE",
                "An oil paint of several, from the ground up, to tell whether they lie fat over lean");
    add_common_options(line, options.common);
    line.exclusive({"--reading", "--layer", "--sweep"});
    line.exclusive({"--csv", "--json"});
    line.exclusive({"--sweep", "--rescue"});
    line.question("--reading", {});
    line.question("--layer", {"--family", "--total", "--used", "--oil-absorption", "--density", "--bone-dry", "--moisture",
                              "--test-oil", "--blend-oil-absorption", "--jar", "--bench", "--humidity"},
                  "leave it out, or ask in two commands; a layer is a recipe or a weigh sheet");
}

std::optional<RescueWish> read_rescue(const PvcOptions& options) {
    if (!options.rescue) {
        for (const auto& [given, name] : {std::pair{options.aim.has_value(), "--aim"},
                                          std::pair{options.jar_left.has_value(), "--jar-left"},
                                          std::pair{options.soft_aim.has_value(), "--soft-aim"}})
            if (given)
                throw InputError(command_line_fault(
                    "option-alone", "'" + std::string(name) + "' goes with a rescue", "add --rescue"));
        return std::nullopt;
    }
    RescueWish wish;
    if (options.aim) wish.aim = ranged_option<BinderSufficiency>("--aim", *options.aim, range::aim);
    if (options.jar_left) wish.jar = quantity_option<Mass>("--jar-left", *options.jar_left);
    if (options.accept) wish.accepted = chance_option("--accept", *options.accept);
    if (options.soft_aim) wish.soft_aim = positive_option<VolumeFraction>("--soft-aim", *options.soft_aim);
    return wish;
}

Answer sweep_answer(const PvcOptions& options, const PvcSubject& subject, std::size_t width) {
    const auto table = sweep_table(sweep_paint(subject, sweep_wish(options.sweep, subject)));
    Answer given{options.common.json ? sweep_json(table) : options.csv ? sweep_csv(table) : sweep_text(table, width)};
    if (options.common.page) given.pages.push_back(sweep_page(table));
    return given;
}

Answer layer_answer(const PvcOptions& options, Library& library, Streams& streams) {
    if (options.layers.size() < 2)
        throw typed_fault("layer-single", "one layer lies over nothing", "name two or more, from the ground up");
    std::vector<LayerPaint> layers;
    auto paint = options.paint;
    paint.jar_may_rest = true;
    for (const auto& each : options.layers) {
        const auto subject = pvc_subject(paint_question(each, paint, library, standard_input(streams)));
        auto layer = layer_paint(subject.base.request.recipe.name, subject.batch());
        if (!layer)
            throw typed_fault("layer-not-oil", "'" + each + "' is no oil paint: fat over lean is a rule of oil",
                        "name oil paints only");
        layers.push_back(std::move(*layer));
    }
    const auto judged = judge_layers(std::move(layers), library.practice().notice.layers_alike);
    Answer given;
    if (options.common.json) given.text = layer_json(judged);
    if (options.common.wants_page()) given.pages.push_back(layer_page(judged));
    given.status = judged.in_order() ? exit_status::answered : exit_status::will_not_hold;
    return given;
}

Answer reading_answer(const PvcOptions& options, Library& library, Streams& streams) {
    auto document = *options.reading == "-" ? load_document(std::string(standard_input_path), read_all(streams))
                                            : load_document(library.own_file(*options.reading, "readings"));
    const Excerpt whole = document.root.excerpt();
    const auto reading = read_bench_reading(std::move(document));
    const ReadingHabits habits{library.practice().rub_out, library.wash_habits().drying.constant_within.value()};
    try {
        const auto read = answer_reading(reading, habits);
        Answer given{options.common.json ? reading_json(read) : reading_text(read)};
        if (options.common.page) given.pages.push_back(reading_page(read));
        return given;
    } catch (const DomainError& error) {
        throw InputError(domain_fault(whole, error));
    }
}

/// Options that need a companion, or that a question leaves unread, are slips: nothing is passed over.
void refuse_strays(const PvcOptions& options) {
    const std::pair<bool, const char*> of_sweep[] = {{options.sweep.from.has_value(), "--from"},
                                                     {options.sweep.to.has_value(), "--to"},
                                                     {options.sweep.points.has_value(), "--points"},
                                                     {options.csv, "--csv"}};
    for (const auto& [given, name] : of_sweep)
        if (given && !options.sweep.over)
            throw typed_fault("option-alone", "'" + std::string(name) + "' goes with a sweep", "add --sweep medium");
    if (options.sweep.over)
        for (const auto& [given, name] : {std::pair{options.packing, "--packing"}, std::pair{options.accept.has_value(), "--accept"}})
            if (given)
                throw typed_fault("option-unread", "'" + std::string(name) + "' would not be read: a sweep is a table, without a verdict",
                            "leave it out, or ask in two commands");
    if (options.paint.bone_dry && options.paint.densities.empty())
        throw typed_fault("option-alone", "'--bone-dry' is of a density, and none is given", "add --density \"1.88 g/cm3\"");
    if (options.paint.paste && !options.paint.parts)
        throw typed_fault("option-alone", "'--paste' goes with parts by volume", "add --parts \"1 binder : 2 pigment by volume\"");
    if (!options.paint.median_sizes.empty() && !options.packing && options.sweep.over != "size-ratio")
        throw typed_fault("option-alone", "'--median-size' goes with close packing", "add --packing");
}

Answer answer(const PvcOptions& options, Streams& streams) {
    refuse_strays(options);
    auto library = open_library(options.common);
    if (options.reading) return reading_answer(options, library, streams);
    if (!options.layers.empty()) return layer_answer(options, library, streams);
    auto texts = options.paint;
    texts.without_record = options.sweep.over.has_value();
    std::optional<JarOutlook> outlook;
    auto question = paint_question(texts, library, standard_input(streams), &outlook);
    const JarOutlook* record = outlook ? &*outlook : nullptr;
    question.with_packing = options.packing;
    question.rescue = read_rescue(options);
    question.tests = library.bench_tests();
    if (options.accept)
        question.tests.rule.accepted = chance_option("--accept", *options.accept);
    const auto subject = pvc_subject(std::move(question));
    if (options.sweep.over) return sweep_answer(options, subject, streams.width);
    Answer given;
    if (options.common.json) given.text = pvc_json(subject, record);
    if (options.common.wants_page()) given.pages.push_back(pvc_page(subject, record));
    given.status = will_not_hold(subject) ? exit_status::will_not_hold : exit_status::answered;
    return given;
}

} // namespace

int run_pvc(std::span<const std::string> arguments, Streams& streams) {
    CommandLine line("lakebound-pvc", "will this paint hold, how sure is that, and what would mend it",
                     "lakebound-pvc --pigment \"alumina-lake: 10 g\" --binder \"gum-water: 40 g\"",
                     "Exit status: 0 answered; 1 answered: it will not hold; 2 a file or the command\n"
                     "line is wrong, or one thing is missing; 3 a fault of ours.\n");
    PvcOptions options;
    describe(line, options);
    return run_app(line, options.common, arguments, streams, [&] { return answer(options, streams); });
}

} // namespace lakebound
