#include "lakebound/shelf/entry_typed.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "lakebound/material/medium_properties.hpp"
#include "lakebound/paint/weighing.hpp"
#include "lakebound/quantity/nearest.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/typed_quantity.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"
#include "typed_masses.hpp"

namespace lakebound {
namespace {

InputError fault(std::string message, std::string hint) {
    return InputError(command_line_fault("entry-typed", std::move(message), std::move(hint)));
}

const Scale& finest(const Bench& bench) { return bench.scales.at(finest_scale(bench)); }

/// Five digits that mean something.
std::string significant(double x) {
    const int digits = x > 0.0 ? std::max(0, 4 - static_cast<int>(std::floor(std::log10(x)))) : 0;
    return fixed_text(x, std::min(digits, 12));
}

EntryText begun(const EntryContext& context, std::string_view what) { return {context.jar, context.date, what}; }

TypedEntry done(const EntryContext& context, std::string_view what, EntryText text) {
    if (context.note) text.add_quoted("note", *context.note);
    return {std::string(what), text.text(), {}};
}

/// In small letters and single spaces, "doesn't" as "does not".
std::string plain_words(std::string_view typed) {
    std::string words;
    for (const char c : typed) {
        const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        if (small != ' ' || (!words.empty() && words.back() != ' ')) words += small;
    }
    for (const std::string_view short_form : {"doesn't", "doesn\xE2\x80\x99t"})
        if (const auto at = words.find(short_form); at != std::string::npos) words.replace(at, short_form.size(), "does not");
    return words;
}

/// The sign of those words.
PaintSign sign_of(const char* option, const std::string& typed) {
    const std::string words = plain_words(typed);
    if (const auto sign = value_of_word<PaintSign>(words)) return *sign;
    std::vector<std::string> known;
    for (const auto& row : WordTable<PaintSign>::rows)
        known.emplace_back(row.word);
    const auto near = nearest_names(words, known, 1);
    std::string all;
    for (const auto& each : known)
        all += (all.empty() ? "" : ", ") + each;
    throw fault(std::string(option) + " \"" + words + "\": no such sign",
                (near.empty() ? "" : "did you mean '" + near.front() + "'? ") + ("it is one of: " + all));
}

/// "2 chalks" or "2: chalks": the number, when one stands first, and the rest.
std::pair<std::optional<std::size_t>, std::string> numbered(const std::string& text) {
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || (end != text.data() + text.size() && *end != ' ' && *end != ':'))
        return {std::nullopt, trimmed(text)};
    std::string_view rest(end, static_cast<std::size_t>(text.data() + text.size() - end));
    if (rest.starts_with(':')) rest.remove_prefix(1);
    return {number, trimmed(rest)};
}

void add_lot(EntryText& text, const EntryContext& context) {
    if (context.lot) text.add_quoted("lot", *context.lot);
}

EntryText swatch_text(const EntryContext& context, std::string_view family, std::string_view medium,
                      const std::string& powder, const std::string& mass, const Scale& scale) {
    EntryText text = begun(context, "swatch");
    text.add("family", family).add("pigment", powder).add("medium", medium).add("medium_mass", mass);
    text.add("scale", grams_text(scale.step));
    add_lot(text, context);
    return text;
}

} // namespace

TypedEntry typed_weighed(const EntryContext& context, const std::string& text) {
    std::string net = text;
    try { // a mass alone is as sure as the scale
        const auto reading = read_quantity(text, Dimension::mass, context.bench.kitchen);
        if (reading.spread_kind == Spread::none)
            net = fixed_text(in_grams(Mass::from_value(reading.value)), 3) + " +- " +
                  grams_text(standard_uncertainty(scale_of(text, Mass::from_value(reading.value), context.bench)));
    } catch (const QuantityTextError&) {
        // told where the entry is read
    }
    return done(context, "weighed", begun(context, "weighed").add("net", net));
}

TypedEntry typed_drawn(const EntryContext& context, const std::string& text) {
    return done(context, "drawn", begun(context, "drawn").add("mass", text));
}

std::optional<KnownDropper> last_dropper(const Studio& studio) {
    const ReadEntry* last = nullptr;
    for (const ReadEntry& read : studio.entries)
        if (read.dropper && (last == nullptr || !(read.entry.day < last->entry.day))) last = &read;
    if (last == nullptr) return std::nullopt;
    return KnownDropper{*last->dropper, last->entry.id.substr(last->entry.id.find('/') + 1, std::string_view("2026-03-02").size())};
}

TypedEntry typed_rub_out(const EntryContext& context, const std::string& text, const std::optional<std::string>& dropper,
                         const std::optional<KnownDropper>& known) {
    const auto [powder, oil] = parted(text, ',');
    if (oil.empty())
        throw fault("--rub-out \"" + text + "\": expected the powder and the oil",
                    "write them in that order: --rub-out \"2.00 g, 1.56 g\", or in drops: \"2.00 g, 43 drops\"");
    EntryText entry = begun(context, "rub-out");
    entry.add("pigment", powder).add("oil", oil).add("scale", grams_text(finest(context.bench).step));
    const bool in_drops = oil.find("drop") != std::string::npos;
    if (!dropper && in_drops && !known)
        throw InputError(command_line_fault("rub-out-oil", "--rub-out \"" + text + "\": what a drop weighs is not said, now or in an earlier rub-out",
                                            "count some onto the scale, and add --dropper \"50 drops, 1.81 g\""));
    if (!dropper && in_drops && known) {
        entry.add("dropper", "{drops: " + std::to_string(known->calibration.drops) + ", weighed: " + grams_text(known->calibration.weighed) + "}");
        TypedEntry typed = done(context, "rub-out", std::move(entry));
        typed.remark = "The drops are taken as they were weighed for the rub-out of " + known->date + ": " +
                       std::to_string(known->calibration.drops) + " drops, " + grams_text(known->calibration.weighed) +
                       ". Another bottle or another oil: say --dropper again.";
        return typed;
    }
    if (dropper) {
        const auto [drops, weighed] = parted(*dropper, ',');
        const auto [count, rest] = numbered(drops);
        if (!count || rest != "drops" || weighed.empty())
            throw fault("--dropper \"" + *dropper + "\": expected how many drops weigh how much",
                        "write it like --dropper \"50 drops, 1.81 g\"");
        entry.add("dropper", "{drops: " + std::to_string(*count) + ", weighed: " + weighed + "}");
    }
    return done(context, "rub-out", std::move(entry));
}

TypedEntry typed_measured(const EntryContext& context, const std::string& text) {
    const auto [key, value] = parted(text, ':');
    if (value.empty())
        throw fault("--measured \"" + text + "\": expected which figure and its value",
                    "write it like --measured \"density: 1.86 +- 0.05 g/cm3\"; also tapped_density, moisture, median_size");
    if (key == "median_size") try { // a bare number is of micrometres; the usual hint would say millimetres
            (void)read_quantity(value, Dimension::length, context.bench.kitchen);
        } catch (const QuantityTextError& error) {
            if (error.id == "unit-missing")
                throw InputError(command_line_fault(error.id, "--measured \"" + text + "\": " + error.what(),
                                                    "write the unit as well: --measured \"median_size: " + value + " um\""));
        }
    return done(context, "measured", begun(context, "measured").add(key, value));
}

TypedEntry typed_swatch(const EntryContext& context, const std::string& text, std::string_view family,
                        std::string_view medium) {
    const auto [masses, sign] = parted(text, ':');
    const auto [powder, mass] = parted(masses, ',');
    if (mass.empty())
        throw fault("--swatch \"" + text + "\": expected the powder and the medium",
                    "write them in that order: --swatch \"0.20 g, 0.83 g\", and its sign if it is dry: \"0.20 g, 0.83 g: chalks\"");
    EntryText entry = swatch_text(context, family, medium, powder, mass, finest(context.bench));
    if (!sign.empty()) entry.add("sign", word_of(sign_of("--swatch", sign)));
    return done(context, "swatch", std::move(entry));
}

TypedEntry typed_stroke(const EntryContext& context, const std::string& text, std::string_view family,
                        std::string_view medium) {
    const auto [masses, sign] = parted(text, ':');
    const auto [powder, mass] = parted(masses, ',');
    if (mass.empty() || sign.empty())
        throw fault("--stroke \"" + text + "\": expected powder and medium of the paint it is of, and what it showed",
                    "write it like --stroke \"6.0 g, 4.6 g: chalks\"");
    EntryText entry = swatch_text(context, family, medium, powder, mass, finest(context.bench));
    entry.add("sign", word_of(sign_of("--stroke", sign))).add("stroke", "yes");
    return done(context, "swatch", std::move(entry));
}

TypedEntry typed_mixed(const EntryContext& context, const std::string& text, std::string_view family,
                       const Medium& medium) {
    const auto [powder, mass] = parted(text, ',');
    if (mass.empty())
        throw fault("--mixed \"" + text + "\": expected the powder and the medium of the batch",
                    "write them in that order: --mixed \"6.0 g, 9.8 g\"");
    const auto typed = [&](const std::string& each) { return positive_option<Mass>("--mixed", each, context.bench.kitchen); };
    const Mass of_powder = typed(powder), of_medium = typed(mass);
    const double spread = std::hypot(double(standard_uncertainty(scale_of(powder, of_powder, context.bench)) / of_powder),
                                     double(standard_uncertainty(scale_of(mass, of_medium, context.bench)) / of_medium));
    EntryText entry = begun(context, "batch");
    entry.add("family", family).add("pigment", powder).add("medium", medium.id).add("medium_mass", mass);
    entry.add("dry_binder", significant(in_millilitres(of_medium * medium_properties(medium).dry_binder)) + " mL");
    entry.add("k_spread", significant(spread));
    add_lot(entry, context);
    return done(context, "batch", std::move(entry));
}

std::vector<TypedEntry> planned_swatches(const EntryContext& context, const JarStory& story) {
    const auto& coaching = story.outlook.coaching;
    if (story.next() != NextStep::as_coached)
        throw fault("--as-planned: swatches of this jar wait to be judged first", "enter what they show: --saw chalks; or a new "
                    "swatch by its masses: --swatch \"0.20 g, 0.83 g\"");
    if (!coaching.recommended || coaching.steps[*coaching.recommended].cost.kind != StepKind::swatches)
        throw fault("--as-planned: the card asks for no swatch now",
                    "enter its masses: --swatch \"0.20 g, 0.83 g\"");
    std::vector<TypedEntry> entries;
    for (const SwatchWeighing& swatch : story.outlook.swatches)
        entries.push_back(done(context, "swatch",
                               swatch_text(context, story.family.id, story.medium_id, grams_text(swatch.powder),
                                           grams_text(swatch.medium), context.bench.scales.at(swatch.scale))));
    return entries;
}

TypedEntry typed_sign(const EntryContext& context, const std::string& text, const JarStory& story) {
    const auto [told, words] = numbered(text);
    const std::optional<std::size_t> number = told;
    const PaintSign sign = sign_of("--saw", words);
    if (story.open.empty())
        throw fault("--saw \"" + text + "\": no swatch of this jar waits to be judged",
                    "enter one with its sign: --swatch \"0.20 g, 0.83 g: chalks\"");
    const auto numbers = [&] {
        std::string all;
        for (const OpenSwatch& open : story.open)
            all += (all.empty() ? "" : ", ") + std::to_string(story.lines[open.line].number);
        return all;
    };
    if (!number && story.open.size() > 1)
        throw fault("--saw \"" + text + "\": " + std::to_string(story.open.size()) + " swatches wait to be judged",
                    "say which, by its number on the card: --saw \"" + std::to_string(story.lines[story.open.front().line].number) +
                        " " + words + "\"");
    const auto at = std::find_if(story.open.begin(), story.open.end(), [&](const OpenSwatch& open) {
        return !number || story.lines[open.line].number == *number;
    });
    if (at == story.open.end())
        throw fault("--saw \"" + text + "\": no swatch of that number waits", "those that wait: " + numbers());
    return done(context, "outcome",
                begun(context, "outcome").add("of", story.lines[at->line].name).add("sign", word_of(sign)));
}

TypedEntry typed_outcome(const EntryContext& context, const std::string& text, const JarStory& story) {
    const auto [number, words] = numbered(text);
    const PaintSign sign = sign_of("--went", words);
    if (story.batches.empty())
        throw fault("--went \"" + text + "\": no batch of this jar was kept",
                    "keep one when it is made: lakebound-batch RECIPE --jar " + context.jar + " --keep");
    const std::size_t which = number.value_or(story.batches.size());
    if (which < 1 || which > story.batches.size())
        throw fault("--went \"" + text + "\": there is no such batch",
                    "they are numbered from 1, the oldest, to " + std::to_string(story.batches.size()));
    return done(context, "outcome",
                begun(context, "outcome").add("of", story.lines[story.batches[which - 1]].name).add("sign", word_of(sign)));
}

TypedEntry typed_sieving(const EntryContext& context, const std::string& path) {
    const SieveRecord record = read_sieve_test_file(path).record;
    EntryText text = begun(context, "sieved");
    text.add("test", "");
    const auto line = [&text](const std::string& key, const std::string& value) { text.add("  " + key, value); };
    line("kind", "sieve test");
    text.add_quoted("  name", record.name);
    if (record.method == SieveMethod::wet) line("method", "wet");
    if (record.test.charge) line("charge", grams_text(*record.test.charge));
    if (record.grinding_time) line("grinding_time", significant(in_minutes(*record.grinding_time)) + " min");
    line("retained", "");
    for (const auto& screen : record.test.screens)
        line("  - {screen", significant(in_micrometres(screen.aperture)) + " um, mass: " + grams_text(screen.retained) + "}");
    if (record.method == SieveMethod::dry) line("pan", grams_text(record.test.pan));
    if (record.test.scale_step) line("scale_step", grams_text(*record.test.scale_step));
    if (record.density) line("density", significant(in_grams_per_cubic_centimetre(*record.density)) + " g/cm3");
    return done(context, "sieved", std::move(text));
}

TypedEntry typed_settling(const EntryContext& context, const std::string& path) {
    const SettlingRecord record = read_settling_test_file(path).record;
    if (!record.grains)
        throw fault("--settled " + path + ": a blanket is of a lake that was just precipitated, before its jar",
                    "a jar's test is of timed grains; ask lakebound-settle --test about a blanket");
    EntryText text = begun(context, "settled");
    text.add("test", "").add("  kind", "settling test").add_quoted("  name", record.name);
    if (record.temperature) text.add("  temperature", significant(in_degrees_celsius(*record.temperature)) + " degC");
    const TimedGrains& grains = *record.grains;
    text.add("  grains", "{size: " + significant(in_micrometres(grains.size)) + " um, depth: " +
                             significant(in_millimetres(grains.depth)) + " mm, time: " + significant(in_seconds(grains.time)) + " s}");
    return done(context, "settled", std::move(text));
}

TypedEntry typed_change(const EntryContext& context) { return done(context, "changed", begun(context, "changed")); }
TypedEntry typed_note(const EntryContext& context) { return done(context, "note", begun(context, "note")); }

std::string entry_to_undo(const std::string& text, const JarStory& story) {
    std::vector<std::string> names;
    for (const StoryLine& line : story.lines)
        names.push_back(line.name);
    if (names.empty()) throw fault("--undo \"" + text + "\": this jar has no entries", "see its card: lakebound-jar " + story.called());
    if (text == "last") return names.back();
    std::string name = text; // as the card, or a listing of the folder, has it
    if (const auto folder = name.rfind('/'); folder != std::string::npos) name.erase(0, folder + 1);
    if (name.ends_with(".yaml")) name.erase(name.size() - 5);
    if (std::find(story.taken_back.begin(), story.taken_back.end(), name) != story.taken_back.end())
        throw fault("--undo \"" + text + "\": this entry was taken back already", "the card lists those that count: lakebound-jar " + story.called());
    if (std::find(names.begin(), names.end(), name) == names.end()) {
        const auto near = nearest_names(name, names, 1);
        throw fault("--undo \"" + text + "\": this jar has no such entry",
                    (near.empty() ? std::string() : "did you mean '" + near.front() + "'? ") + "its last one is '" + names.back() + "'");
    }
    return name;
}

TypedEntry typed_undo(const EntryContext& context, const std::string& text, const JarStory& story) {
    return done(context, "undo", begun(context, "undo").add("entry", entry_to_undo(text, story)));
}

TypedEntry kept_batch(const EntryContext& context, const BatchRequest& request, const Batch& batch, std::size_t part,
                      double weighing_spread) {
    Mass pigment, medium;
    for (const Weighing& line : batch.sheet.slab) {
        if (line.part == SheetPart::pigment && line.index == part) pigment = rounded_mass_on_slab(line);
        if (line.part == SheetPart::medium) medium = rounded_mass_on_slab(line);
    }
    // By the k of what is weighed, so that additives count: V_b = k m q/e.
    const Recipe& recipe = request.recipe;
    const Volume binder = batch.sheet.film.k.value() * (pigment * batch.formulation.effective_demand);
    EntryText text = begun(context, "batch");
    text.add("recipe", recipe.id).add("family", recipe.family.id).add("pigment", grams_text(pigment));
    if (medium.value() > 0.0) text.add("medium", recipe.medium.id).add("medium_mass", grams_text(medium));
    text.add("dry_binder", significant(in_millilitres(binder)) + " mL");
    text.add("k_spread", significant(weighing_spread));
    add_lot(text, context);
    if (recipe.pigments.size() > 1) text.add("blend", "yes");
    return done(context, "batch", std::move(text));
}

Studio with_entries(Studio studio, const Jar& jar, const std::string& date, const std::vector<TypedEntry>& entries,
                    Library& library, std::chrono::sys_days today) {
    for (const TypedEntry& entry : entries)
        studio = with_entry(studio, library, today, jar, entry.text, free_stem(studio, jar.id, date, entry.what));
    return studio;
}

std::string write_entries(const Studio& studio, const Jar& jar, const std::string& date,
                          const std::vector<TypedEntry>& entries) {
    std::string path;
    for (const TypedEntry& entry : entries)
        path = write_entry(studio, jar.id, date, entry.what, entry.text);
    return path;
}

} // namespace lakebound
