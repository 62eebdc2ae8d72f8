#include "lakebound/report/record_words.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/report/warning_words.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/powder_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {


template <class... Of> struct Each : Of... {
    using Of::operator()...;
};
template <class... Of> Each(Of...) -> Each<Of...>;

std::string of_finest_scale(Mass mass, const Bench& bench) {
    return mass_text(mass, bench.scales.at(finest_scale(bench)).step);
}

std::string own_k_text(const JarStory& story, BinderSufficiency library_k) {
    return "k " + sufficiency_text(story.outlook.own_k(library_k));
}

std::string paint_text(const JarStory& story, const StoryLine& line, const PaintMade& paint) {
    if (!(paint.powder.value() > 0.0)) return own_k_text(story, paint.library_k);
    // k of a blend by what one of its powders wants would say nothing.
    std::string text = paint.of_this_jar_alone ? own_k_text(story, paint.library_k) + ", " : std::string();
    text += of_finest_scale(paint.powder, story.bench);
    if (!paint.of_this_jar_alone) text += " in a blend";
    if (line.medium_mass.value() > 0.0)
        text += fmt::format(" with {} of {}", of_finest_scale(line.medium_mass, story.bench), line.medium);
    if (!line.bottle.empty()) text += " (bottle " + line.bottle + ")";
    return text;
}

std::string sign_text(const StoryLine& line) { return std::string(line.sign ? word_of(*line.sign) : "not judged yet"); }

} // namespace

std::string swatch_words(const JarStory& story, const StoryLine& line) {
    return paint_text(story, line, std::get<SwatchEntry>(line.entry.what).paint);
}

std::string day_text(std::chrono::sys_days day) {
    const std::chrono::year_month_day date(day);
    return fmt::format("{:04}-{:02}-{:02}", int(date.year()), unsigned(date.month()), unsigned(date.day()));
}

namespace {
std::string day_of_the_week(std::chrono::sys_days day) {
    static constexpr const char* names[] = {"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
    return fmt::format("{} {}", names[std::chrono::weekday(day).c_encoding()], unsigned(std::chrono::year_month_day(day).day()));
}
std::string month_name(std::chrono::sys_days day) {
    static constexpr const char* names[] = {"January", "February", "March",     "April",   "May",      "June",
                                            "July",    "August",   "September", "October", "November", "December"};
    return names[unsigned(std::chrono::year_month_day(day).month()) - 1];
}
} // namespace

std::string weekday_text(std::chrono::sys_days day) { return day_of_the_week(day) + " " + month_name(day); }

std::string weekday_range_text(std::chrono::sys_days first, std::chrono::sys_days last) {
    if (first == last) return weekday_text(first);
    const bool one_month = month_name(first) == month_name(last);
    return (one_month ? day_of_the_week(first) : weekday_text(first)) + " to " + weekday_text(last);
}

std::string clumps_text(const SettlingEntry& seen) {
    return fmt::format("grains of {} sink as if of {}, {} of them water", size_text(seen.size), density_text(seen.effective),
                       percent_text(seen.open.value()));
}

std::string happened_text(const JarStory& story, const StoryLine& line) {
    std::string text = std::visit(
        Each{[&](const WeighedEntry& e) { return "weighed: " + of_finest_scale(e.net, story.bench); },
             [&](const DrawnEntry& e) { return of_finest_scale(e.powder, story.bench) + " drawn"; },
             [&](const RubOutEntry& e) {
                 return fmt::format("rub-out: {}, {} used", oil_absorption_text(e.oil_absorption),
                                    of_finest_scale(e.powder, story.bench));
             },
             [&](const MeasuredEntry& e) {
                 std::vector<std::string> figures;
                 if (e.density) figures.push_back("density " + density_text(e.density->value()));
                 if (e.tapped_density) figures.push_back("tapped density " + density_text(e.tapped_density->value()));
                 if (e.moisture) figures.push_back("moisture " + percent_text(e.moisture->value().value()));
                 if (e.median_size) figures.push_back("median size " + size_text(e.median_size->value()));
                 return "measured: " + name_list(figures);
             },
             [&](const SwatchEntry& e) {
                 return fmt::format("{} {}: {}", e.paint.powder.value() > 0.0 ? "swatch of" : "stroke at", paint_text(story, line, e.paint), sign_text(line));
             },
             [&](const BatchEntry& e) {
                 return fmt::format("batch of {}: {}", paint_text(story, line, e.paint), sign_text(line));
             },
             [&](const OutcomeEntry& e) { return std::string(word_of(e.sign)); },
             [](const ChangedEntry&) {
                 return std::string("ground again, or lay in damp: what was read before counts for less");
             },
             [](const NoteEntry&) { return std::string("note"); },
             [](const UndoEntry&) { return std::string("undone"); },
             [&](const SieveTestEntry& e) {
                 std::string words = e.seen.median_size
                                         ? "sieved: half is finer than " + size_text(e.seen.median_size->value())
                                         : fmt::format("sieved: {} stays on {}", percent_text(e.seen.kept.value()),
                                                       size_text(e.seen.finest));
                 if (e.seen.used.value() > 0.0) words += ", " + of_finest_scale(e.seen.used, story.bench) + " lost";
                 return words;
             },
             [&](const SettlingTestEntry& e) { return "settled: " + clumps_text(e.seen); }},
        line.entry.what);
    if (!line.note.empty()) text += "; " + line.note;
    return text;
}

std::string undone_text(const JarStory& story, const std::string& entry) {
    for (auto line = story.lines.rbegin(); line != story.lines.rend(); ++line)
        if (line->name == entry) return happened_text(story, *line) + ", of " + day_text(line->entry.day);
    return {};
}

std::string step_words(const StepCost& cost) {
    switch (cost.kind) {
    case StepKind::rub_out:
        return "a rub-out";
    case StepKind::solids_test:
        return "a test of the medium's solids";
    case StepKind::swatches:
        return cost.swatches == 1   ? "a swatch"
               : cost.swatches == 2 ? "two swatches at once"
                                    : fmt::format("{} swatches at once", cost.swatches == 4 ? "four" : std::to_string(cost.swatches));
    }
    return {};
}

std::string cost_text(const StepCost& cost) {
    std::string text = plain_text(in_minutes(cost.attention)) + " min";
    if (cost.pigment.value() > 0.0) text += fmt::format(", {} of powder", mass_text(cost.pigment));
    if (whole_days(cost.waiting).count() > 0) text += ", " + waiting_text(cost.waiting) + " of waiting";
    return text;
}

std::string waiting_text(Time waiting) {
    const auto days = whole_days(waiting).count();
    return days == 1 ? "a day" : std::to_string(days) + " days";
}

std::string next_head(const JarStory& story) {
    switch (story.next()) {
    case NextStep::judge_swatch:
        return story.open.size() == 1 ? "Rub the swatch" : "Rub the swatches";
    case NextStep::go_on:
        return "Go on with the paint on the slab";
    case NextStep::wait:
        return story.open.size() == 1 ? "Let the swatch dry" : "Let the swatches dry";
    case NextStep::too_little:
        return "Too little is left";
    case NextStep::as_coached:
        break;
    }
    return coach_head(story.outlook.coaching);
}

std::string next_key(const JarStory& story) {
    const NextStep next = story.next();
    return next == NextStep::as_coached ? key_of(story.outlook.coaching.advice) : key_of(next);
}

std::string coach_head(const Coaching& coaching) {
    switch (coaching.advice) {
    case CoachAdvice::target_met:
        return "Enough is known: paint";
    case CoachAdvice::nothing_pays:
        return "Paint: nothing more pays";
    case CoachAdvice::steps_used_up:
        return "Paint with what is known";
    case CoachAdvice::measure:
        break;
    }
    const StepCost& cost = coaching.steps.at(coaching.recommended.value()).cost;
    switch (cost.kind) {
    case StepKind::rub_out:
        return "First a rub-out";
    case StepKind::solids_test:
        return "First the solids of the medium";
    case StepKind::swatches:
        return cost.swatches == 1 ? "First paint a swatch" : "First paint " + step_words(cost).substr(0, step_words(cost).find(" at"));
    }
    return {};
}

std::string coach_text(const JarOutlook& outlook, const LearningHabits& habits, Process process) {
    const Coaching& c = outlook.coaching;
    if (c.advice == CoachAdvice::target_met) return "More tests would tell little. Paint, and enter how it went.";
    if (c.advice != CoachAdvice::measure) {
        if (c.steps.empty()) return "Paint, and enter how it went: that teaches too.";
        const CoachStep& most = c.steps.at(*most_telling(c));
        return fmt::format("No test is worth its price: the most that one brings is {}, by {} ({}). Paint, and enter how it "
                           "went: that teaches too.",
                           percent_text(most.value.value()), step_words(most.cost), cost_text(most.cost));
    }
    const CoachStep& step = c.steps.at(*c.recommended);
    std::string text = fmt::format("{}: {}. ", layout::capitalised(step_words(step.cost)), cost_text(step.cost));
    text += fmt::format("The chance is then expected to rise from {} to {}, once you mix by what it tells.",
                        percent_text(c.now.chance.value()), percent_text(step.value.value()));
    if (step.cost.kind == StepKind::rub_out && outlook.own_readings.readings == 0)
        text += " Without it the powder is known only by its kind.";
    if (step.cost.kind == StepKind::swatches) {
        text += step.cost.swatches == 1 ? " It is an even bet whether it chalks, which is why it teaches."
                                        : " They lie about the even bet, which is why they teach.";
        if (wants_patience(habits.binders.at(static_cast<std::size_t>(process)).drying)) text += " Oil wants patience: judged too early it tells nothing.";
    }
    return text;
}

std::vector<WorthLine> worth_lines(const JarOutlook& outlook) {
    const auto counted = [](std::size_t n, const char* one, const char* many) {
        return fmt::format("{} {}", n, n == 1 ? one : many);
    };
    const auto parts = [&](const WorthOfRecord& w) {
        std::vector<std::string> words;
        if (w.readings > 0) words.push_back(counted(w.readings, "rub-out", "rub-outs"));
        if (w.paints > 0) words.push_back(counted(w.paints, "paint judged", "paints judged"));
        return name_list(words);
    };
    std::vector<WorthLine> lines{{"the library alone", outlook.library.chance}};
    if (outlook.kin.readings + outlook.kin.paints > 0)
        lines.push_back({"your other jars: " + parts(outlook.kin), outlook.kin.chance});
    if (outlook.own_readings.readings > 0)
        lines.push_back({"this jar: " + counted(outlook.own_readings.readings, "rub-out", "rub-outs"), outlook.own_readings.chance});
    if (outlook.own_paints.paints > 0)
        lines.push_back({"this jar: " + counted(outlook.own_paints.paints, "paint judged", "paints judged"), outlook.own_paints.chance});
    return lines;
}

std::vector<std::string> outlook_warnings(const JarOutlook& outlook) {
    std::vector<std::string> lines;
    if (outlook.worth_saying) {
        lines.push_back(fmt::format(
            "This jar drinks {} times what its kin makes expect. Either it is different (finer, another alum) or a "
            "reading slipped. {}",
            significant_text(outlook.kin_distance.times_expected(), 2),
            outlook.unlike_its_kin ? "It is reckoned by itself now; a swatch tells more than another rub-out."
                                   : "A swatch tells more than another rub-out."));
    }
    for (const Surprise& surprise : outlook.surprises)
        lines.push_back(fmt::format(
            "The last {} was unlikely by all the rest: {}. Read that entry again; it is used as it stands.",
            surprise.rub_out ? "rub-out" : "paint that was judged", chance_text(surprise.chance)));
    return lines;
}

/// The name of the entry that judged this swatch last.
static std::string judgement_of(const JarStory& story, const StoryLine& swatch) {
    for (auto line = story.lines.rbegin(); line != story.lines.rend(); ++line)
        if (const auto* outcome = std::get_if<OutcomeEntry>(&line->entry.what); outcome && outcome->of == swatch.entry.id)
            return line->name;
    return swatch.name;
}

std::vector<std::string> record_warnings(const JarStory& story) {
    std::vector<std::string> lines = outlook_warnings(story.outlook);
    for (const BatchWarning& warning : story.remains_warnings) {
        std::string name;
        for (const PreservativeInPaint& each : story.remains.preservatives)
            if (each.part.ingredient == warning.subject) name = each.part.name;
        lines.push_back(remains_warning_text(warning, name));
    }
    for (const std::string& name : story.missing)
        lines.push_back(fmt::format("Entry {} is not there any more, though a later one of its day is. Was its file taken away? What it "
                                    "told does not count; --undo takes an entry back and keeps it to be read.", name));
    for (const std::size_t i : judged_early(story))
        lines.push_back(fmt::format("The swatch of {} was judged before its usual drying time. If it was still damp it told nothing: "
                                    "take that back, lakebound-jar {} --undo {}, and rub it again.",
                                    day_text(story.lines[i].entry.day), story.called(), judgement_of(story, story.lines[i])));
    for (const OddFigure& odd : story.odd_figures)
        lines.push_back(fmt::format("The {} that was measured, {}, is {} times what its kind has, {}. Did a decimal point slip? It is "
                                    "used as it stands; taken back with --undo, it counts no more.",
                                    odd.which == MeasuredDensity::density ? "density" : "tapped density", density_text(odd.measured),
                                    significant_text(odd.times, 2), density_text(odd.expected)));
    for (const auto& [entry, before] : story.begun_anew)
        lines.push_back(fmt::format("{} does not go on with the paint on the slab ({}), so it counts as another batch, and its powder "
                                    "came out of the jar. Did a point slip? Take it back: lakebound-jar {} --undo {}.",
                                    layout::capitalised(happened_text(story, story.lines[entry])), story.lines[before].name, story.called(),
                                    story.lines[entry].name));
    for (const auto& [older, newer] : disagreeing_swatches(story.lines))
        lines.push_back(fmt::format("Swatches {} and {} are one paint, {}, and showed different things: {} and {}. Near the edge that "
                                    "happens, and both count; rub both again side by side, and take back what was a slip.",
                                    story.lines[older].number, story.lines[newer].number,
                                    own_k_text(story, std::get<SwatchEntry>(story.lines[newer].entry.what).paint.library_k),
                                    sign_text(story.lines[older]), sign_text(story.lines[newer])));
    for (const UnexplainedLoss& loss : fresh_losses(story)) {
        const bool more = loss.mass.value() < 0.0;
        lines.push_back(fmt::format("A weighing found {} {} than there should be: {}",
                                    mass_text(more ? loss.mass * -1.0 : loss.mass), more ? "more" : "less",
                                    more ? "did the powder take up water, or was a draw entered twice?"
                                         : "dust, damp that left, or a draw that was not entered?"));
    }
    return lines;
}

} // namespace lakebound
