#include "lakebound/shelf/jar_record.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <span>
#include <utility>

#include "lakebound/material/medium_properties.hpp"
#include "lakebound/paint/medium_fit.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "lakebound/shelf/typed_quantity.hpp"
#include "typed_masses.hpp"

namespace lakebound {
namespace {

/// Of an id "weld/2026-05-03-01-swatch" what stands behind the jar.
std::string name_of(std::string_view id, const std::string& jar) { return std::string(id.substr(jar.size() + 1)); }

/// Those ids that are of this jar, by their names.
template <class Ids> std::vector<std::string> names_of(const Ids& ids, const std::string& jar) {
    std::vector<std::string> names;
    for (const auto& id : ids)
        if (std::string_view(id).starts_with(jar + "/")) names.push_back(name_of(id, jar));
    return names;
}

std::vector<StoryLine> lines_of(const Studio& studio, const JarCard& card, const std::set<std::string_view>& undone) {
    std::vector<StoryLine> lines;
    for (const ReadEntry& read : studio.entries) {
        if (read.entry.jar != card.id || std::holds_alternative<UndoEntry>(read.entry.what) || undone.contains(read.entry.id)) continue;
        StoryLine line{name_of(read.entry.id, card.id), read.entry, read.note, read.medium, read.recipe,
                       read.medium_mass, {}, {}, {}};
        line.bottle = read.bottle;
        if (const auto* swatch = std::get_if<SwatchEntry>(&read.entry.what)) line.sign = swatch->sign;
        lines.push_back(std::move(line));
    }
    std::sort(lines.begin(), lines.end(), [](const StoryLine& a, const StoryLine& b) {
        return std::tie(a.entry.day, a.name) < std::tie(b.entry.day, b.name);
    });
    std::size_t swatches = 0, batches = 0;
    for (StoryLine& line : lines)
        if (std::holds_alternative<SwatchEntry>(line.entry.what)) line.number = ++swatches;
        else if (std::holds_alternative<BatchEntry>(line.entry.what)) line.number = ++batches;
    // The last outcome of each counts.
    for (const StoryLine& line : lines)
        if (const auto* outcome = std::get_if<OutcomeEntry>(&line.entry.what))
            for (StoryLine& of : lines)
                if (of.entry.id == outcome->of) of.sign = outcome->sign, of.judged = line.entry.day;
    return lines;
}

/// Of the last swatch or batch.
const StoryLine* last_paint(const std::vector<StoryLine>& lines) {
    for (auto line = lines.rbegin(); line != lines.rend(); ++line)
        if (std::holds_alternative<SwatchEntry>(line->entry.what) || std::holds_alternative<BatchEntry>(line->entry.what))
            return &*line;
    return nullptr;
}

std::size_t family_of(const StoryLine& line) {
    const auto* swatch = std::get_if<SwatchEntry>(&line.entry.what);
    return swatch != nullptr ? swatch->paint.family : std::get<BatchEntry>(line.entry.what).paint.family;
}

/// Of the last paint of that family, else of its process: it tells the medium that is meant.
const StoryLine* last_like(const std::vector<StoryLine>& lines, const Studio& studio, const Family& family) {
    const StoryLine* like = nullptr;
    for (auto line = lines.rbegin(); line != lines.rend(); ++line) {
        if (!std::holds_alternative<SwatchEntry>(line->entry.what) && !std::holds_alternative<BatchEntry>(line->entry.what)) continue;
        const Family& of = studio.families.at(family_of(*line));
        if (of.id == family.id) return &*line;
        if (like == nullptr && of.process == family.process) like = &*line;
    }
    return like;
}

InputError poured_fault(const std::string& text, std::string message, std::string hint) {
    return InputError(command_line_fault("entry-typed", "--poured \"" + text + "\": " + message, std::move(hint)));
}

struct PouredText {
    std::size_t batch = 0; ///< of the story's
    std::string mass;
};
/// "7.9 g" of the last batch, "1: 7.9 g" of the first.
PouredText poured_text(const JarStory& story, const std::string& text) {
    if (story.batches.empty())
        throw poured_fault(text, "no batch of this jar was kept", "keep one: lakebound-batch RECIPE --jar " + story.called() + " --keep");
    auto [number, mass] = parted(text, ':');
    if (mass.empty()) return {story.batches.size() - 1, text};
    for (std::size_t i = 0; i < story.batches.size(); ++i)
        if (number == std::to_string(i + 1)) return {i, std::move(mass)};
    throw poured_fault(text, "this jar has no batch of that number",
                       "they are numbered from 1, the oldest, to " + std::to_string(story.batches.size()));
}

/// The recipe to weigh a paint of this family out by: that of the last batch, else the first of the usual ones.
void offer_recipe(JarStory& story, const Jar& jar, Library& library) {
    if (story.outlook.coaching.advice == CoachAdvice::measure) return;
    std::vector<std::string> ids = story.habits.usual_recipes;
    if (!story.batches.empty())
        if (const std::string& last = story.lines[story.batches.back()].recipe; !last.empty()) ids.insert(ids.begin(), last);
    for (const std::string& id : ids) {
        if (!library.find(ShelfKind::recipe, id)) continue;
        const Recipe recipe = library.recipe(id, &jar);
        if (recipe.family.id != story.family.id || recipe.pigments.size() != 1) continue;
        story.recipe_id = id;
        story.recipe_has_medium = recipe.medium.id == story.medium_id;
        return;
    }
}

} // namespace

JarQuestion jar_question(const Studio& studio, std::size_t jar, const Family& family, const Medium* medium,
                         const Bench& bench, const LearningHabits& habits, const RecordWish& wish) {
    JarQuestion q;
    q.world = demand_world(habits, studio.families);
    q.record = studio.card.record;
    q.last_judged = studio.card.jars.at(jar).last_judged;
    q.left = studio.card.jars.at(jar).left;
    const auto at = std::find(studio.words.families.begin(), studio.words.families.end(), family.id);
    if (at == studio.words.families.end()) { // of a recipe's own: its window, the habits of its kind
        q.asked.family = q.world.families.size();
        q.world.families.push_back(demand_world(habits, {family}).families.front());
    } else {
        q.asked.family = static_cast<std::size_t>(at - studio.words.families.begin());
    }
    q.asked.jar = jar;
    // Another medium is another lot at least; one that was never swatched is a lot of its own.
    const std::string lot = wish.lot ? *wish.lot : medium ? medium->id : std::string();
    if (const auto known = studio.words.lots.find(lot); known != studio.words.lots.end()) q.asked.lot = known->second;
    q.window = family.window;
    q.batch_spread = habits.batch_spread;
    q.habits = habits;
    q.bench = bench;
    q.process = family.process;
    q.rule.target = wish.wanted ? *wish.wanted : Probability::of(habits.usual_target);
    if (wish.shortage) save(*wish.shortage, habits, q.rule);
    if (medium != nullptr) {
        const auto properties = medium_properties(*medium);
        if (properties.dry_binder.value() > 0.0)
            q.swatch = SwatchPaint{binder_demand(studio.jars[jar].reference_oil_absorption.value(),
                                                 studio.jars[jar].reference_test_oil),
                                   properties.dry_binder, family.binder_index.value()};
    }
    return q;
}

JarStory jar_story(const Studio& studio, std::size_t jar, const Bench& bench, bool bench_assumed, Library& library,
                   const RecordWish& wish) {
    JarStory story;
    const Jar& of = studio.jars.at(jar);
    story.id = of.id;
    story.name = of.name;
    story.plant = of.plant;
    story.studio = studio.folder;
    const auto& jars = studio.card.record.jars;
    story.kin = static_cast<std::size_t>(std::count_if(jars.begin(), jars.end(), [&](const StudioJar& each) {
        return each.plant == jars.at(jar).plant;
    })) - 1;
    story.card = studio.card.jars.at(jar);
    const auto undone = undone_entries(studio);
    story.lines = lines_of(studio, story.card, undone);
    story.taken_back = names_of(undone, of.id);
    story.missing = names_of(studio.missing, of.id);
    story.odd_figures = odd_figures(story.card.measured, of.pigment);
    story.bench = bench;
    story.bench_assumed = bench_assumed;
    story.today = wish.today;
    story.wanted = wish.wanted;
    story.habits = library.learning_habits();
    for (StoryLine& line : story.lines)
        if (const auto* swatch = std::get_if<SwatchEntry>(&line.entry.what)) {
            const auto process = static_cast<std::size_t>(studio.families.at(swatch->paint.family).process);
            line.dry = ready_day(line.entry.day, story.habits.binders.at(process).drying);
        }
    for (std::size_t i = 0; i < story.lines.size(); ++i)
        if (std::holds_alternative<BatchEntry>(story.lines[i].entry.what)) story.batches.push_back(i);

    const StoryLine* last = last_paint(story.lines);
    story.family = library.family(wish.family ? *wish.family
                                  : last      ? studio.words.families.at(family_of(*last))
                                              : story.habits.usual_family);
    story.open = open_swatches(story.lines, story.habits, studio.families, story.family.process, wish.today);
    for (const Slab& slab : story.card.slabs)
        if (studio.words.families.at(slab.family) == story.family.id)
            if (const auto line = line_on_slab(story.lines, studio.entries.at(slab.entry).entry.id, wish.today)) story.slab = StoryOfSlab{*line, slab};
    for (const BegunAnew& anew : story.card.begun_anew) {
        const auto entry = line_on_slab(story.lines, studio.entries.at(anew.entry).entry.id, wish.today);
        const auto before = line_on_slab(story.lines, studio.entries.at(anew.before).entry.id, wish.today);
        if (entry && before) story.begun_anew.emplace_back(*entry, *before);
    }
    const auto usual = [&] { return story.habits.binders.at(static_cast<std::size_t>(story.family.process)).usual_medium; };
    const StoryLine* like = last_like(story.lines, studio, story.family);
    const bool as_last = like != nullptr && !like->medium.empty() && library.find(ShelfKind::medium, like->medium).has_value();
    story.medium_id = wish.medium ? *wish.medium : as_last ? like->medium : usual();
    const Medium& medium = library.medium(story.medium_id);
    if (medium_misfit(medium, story.family.process)) {
        const auto words = misfit_words(medium, story.family, library);
        throw InputError(command_line_fault("medium-unfit", words.message, words.hint));
    }
    story.medium_name = medium.name;
    const Medium& oil = library.medium(story.habits.binders.at(static_cast<std::size_t>(Process::oil)).usual_medium);
    const std::array<Medium, 2> on_the_slab{oil, medium};
    story.rub_out_materials = materials_of_test(of.pigment, on_the_slab);
    story.swatch_materials = materials_of_test(of.pigment, std::span(on_the_slab).last<1>());
    story.lake = of.remains;
    story.colour = of.colour;
    if (of.remains.known()) {
        const LakeLimits limits = lake_limits(library.wash_habits());
        const PaintOfLake paint = paint_of_lake(medium, story.family.process, of.remains.ph ? library.preservatives() : std::vector<PreservativePart>{});
        story.remains = jar_remains(paint, of.remains, limits);
        story.remains_warnings = remains_warnings(story.remains, paint, of.remains, limits);
    }
    if (wish.family) story.asked_paint += " --as " + *wish.family;
    if (wish.medium) story.asked_paint += " --with " + *wish.medium;
    if (wish.lot) story.asked_paint += " --bottle \"" + *wish.lot + "\"";
    story.asked_wish = wish.asked_wish;
    story.asked_shelf = wish.asked_shelf;
    if (wish.lot) story.bottle = *wish.lot;
    story.outlook = jar_outlook(jar_question(studio, jar, story.family, &medium, bench, story.habits, wish));
    offer_recipe(story, of, library);
    return story;
}

StepwisePlan stepwise_plan(const Studio& studio, const JarStory& story, const std::string& text, Library& library,
                           const RecordWish& wish) {
    const std::size_t jar = studio.find(story.id).value();
    const auto asked = jar_question(studio, jar, story.family, &library.medium(story.medium_id), story.bench, story.habits, wish);
    StepwisePlan plan;
    StepwiseQuestion& q = plan.question;
    q.powder = positive_option<Mass>("--by-strokes", text, story.bench.kitchen);
    q.stroke_powder = story.habits.swatch_powder;
    q.paint = asked.swatch.value(); // a medium without binder does not fit any family
    q.goal = {asked.window, asked.batch_spread};
    q.most_doses = static_cast<std::size_t>(story.habits.most_doses);
    if (story.slab && same_powder(story.slab->paint, q.powder)) {
        const auto sign = story.lines.at(story.slab->line).sign;
        q.started = StartedBatch{story.slab->paint.library_k, story.slab->paint.strokes, sign && outcome_of(*sign) == PaintOutcome::lean};
    }
    q.price_per_stroke = story.habits.least_gain_per_minute * in_minutes(story.habits.one_swatch);
    q.bench = story.bench;
    try {
        plan.mix = stepwise_mix(believed_demand(asked), q);
    } catch (const DomainError& error) {
        throw InputError(command_line_fault("out-of-range", "--by-strokes \"" + text + "\": " + domain_sentence(error),
                                            error.mend()));
    }
    return plan;
}

RecordWish as_batch(const Studio& studio, const JarStory& story, const std::string& text, RecordWish wish) {
    const StoryLine& batch = story.lines[story.batches[poured_text(story, text).batch]];
    wish.family = studio.words.families.at(family_of(batch));
    if (!batch.medium.empty()) wish.medium = batch.medium;
    if (!wish.lot && !batch.bottle.empty()) wish.lot = batch.bottle;
    return wish;
}

PouredQuestion poured_question(const Studio& studio, const JarStory& story, const std::string& text, Library& library) {
    const PouredText typed = poured_text(story, text);
    const StoryLine& line = story.lines[story.batches[typed.batch]];
    const auto& paint = std::get<BatchEntry>(line.entry.what).paint;
    if (line.medium.empty() || !(line.medium_mass.value() > 0.0) || !paint.of_this_jar_alone)
        throw poured_fault(text, "the entry of that batch does not say how much of which medium, or is of a blend",
                           "ask lakebound-pvc --rescue with the masses");
    PouredQuestion q;
    q.batch = typed.batch;
    q.poured = positive_option<Mass>("--poured", typed.mass, story.bench.kitchen);
    q.powder = paint.powder;
    q.planned = line.medium_mass;
    q.planned_library_k = paint.library_k;
    const Family& family = studio.families.at(paint.family);
    const auto medium = medium_properties(library.medium(line.medium));
    const Jar& jar = studio.jars[studio.find(story.id).value()];
    q.paint = SwatchPaint{binder_demand(jar.reference_oil_absorption.value(), jar.reference_test_oil), medium.dry_binder,
                          family.binder_index.value()};
    q.medium = medium.density;
    q.swatch_powder = story.habits.swatch_powder;
    q.demand_over_library = story.outlook.demand_over_library;
    q.doubt = story.outlook.doubt;
    q.window = family.window;
    if (story.card.left) q.jar = JarLeft{*story.card.left, story.bench.reserve};
    return q;
}

RecordedJar recorded_jar(const std::string& path, Library& library, std::chrono::sys_days today) {
    RecordedJar recorded;
    recorded.jar = library.jar(path);
    recorded.studio = read_studio(studio_of_jar(path), library, today, &recorded.jar);
    recorded.index = recorded.studio.find(recorded.jar.id).value();
    if (!recorded.has_record()) return recorded;
    const JarCard& card = recorded.studio.card.jars[recorded.index];
    if (card.left)
        recorded.jar.net_mass = Estimate<Mass>::normal(*card.left, card.uncertainty, {Origin::measured, "record", false});
    recorded.jar.pigment = with_measured(std::move(recorded.jar.pigment), card.measured);
    return recorded;
}

RecordedJar as_of(RecordedJar recorded, std::chrono::sys_days day, Library& library) {
    recorded.studio = as_of(std::move(recorded.studio), day, library);
    const auto index = recorded.studio.find(recorded.jar.id);
    if (!index)
        throw InputError(command_line_fault("out-of-range", "--date " + iso_text(day) + ": this jar was not there yet, its file begins on " + recorded.jar.since.value(),
                                            "ask about a later day, or leave --date out"));
    recorded.index = *index;
    return recorded;
}

std::optional<JarOutlook> outlook_of(const RecordedJar& jar, const Recipe& recipe, const Bench& bench, Library& library,
                                     const RecordWish& wish) {
    if (!jar.has_record()) return std::nullopt;
    return jar_outlook(jar_question(jar.studio, jar.index, recipe.family, &recipe.medium, bench,
                                    library.learning_habits(), wish));
}

} // namespace lakebound
