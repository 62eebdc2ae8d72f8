#include "lakebound/shelf/bath_record.hpp"

#include <algorithm>
#include <filesystem>

#include "folder_names.hpp"
#include "lakebound/quantity/nearest.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/typed_bath_reading.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {
namespace {

const char* said_of_bath(BathContradiction kind) {
    switch (kind) {
    case BathContradiction::in_the_future: return "this has not happened yet";
    case BathContradiction::before_the_bath: return "this happened before the bath was begun";
    case BathContradiction::unknown_entry: return "there is no entry of that name to undo";
    case BathContradiction::filter_falls: return "less had run through, or less time had passed, than was read before";
    case BathContradiction::beyond_the_whole: return "more ran through than there was to filter";
    case BathContradiction::below_wash_water: return "this decant conducts less than the water it was washed with";
    case BathContradiction::weighed_at_once: return "this cake was weighed twice on one day, and the hours do not tell which came first";
    case BathContradiction::cake_rises: return "this cake weighs more than it did before";
    case BathContradiction::jar_above_cake: return "more came into the jar than the cake weighed";
    }
    return "";
}

const char* mended_in_bath(BathContradiction kind) {
    switch (kind) {
    case BathContradiction::in_the_future: return "check day, month and year";
    case BathContradiction::before_the_bath: return "mend the date, or 'since' in the bath's file";
    case BathContradiction::unknown_entry: return "mend the name, or take the file away";
    case BathContradiction::filter_falls: return "volume and time count from pouring on; take back the one that is wrong";
    case BathContradiction::beyond_the_whole: return "read the jug again, or say --to-filter anew";
    case BathContradiction::below_wash_water: return "read both again with one pen, rinsed; each water has its own reading";
    case BathContradiction::weighed_at_once: return "say the hour of each, --at 08:30";
    case BathContradiction::cake_rises: return "it took up damp, or the paper was weighed with it once: weigh it again";
    case BathContradiction::jar_above_cake: return "look at the tare of the jar";
    }
    return "";
}

EntryText begun_bath_entry(const BathRecord& record, const BathEntryContext& context, std::string_view what) {
    EntryText text("bath entry", "bath", record.id, context.date, what);
    if (context.hour) text.add_quoted("hour", *context.hour);
    return text;
}

std::string undone_stem(const BathRecord& record, const std::string& text) {
    std::vector<std::string> undone, names;
    for (const ReadBathEntry& read : record.entries)
        if (const auto* undo = std::get_if<UndoEntry>(&read.entry.what)) undone.push_back(undo->entry);
    for (const ReadBathEntry& read : record.entries)
        if (!std::holds_alternative<UndoEntry>(read.entry.what) && std::find(undone.begin(), undone.end(), read.entry.id) == undone.end())
            names.push_back(read.entry.id);
    std::sort(names.begin(), names.end());
    if (names.empty()) throw typed_fault("entry-typed", "--undo \"" + text + "\": this bath has no entries", "see where it stands: lakebound-bath " + record.id);
    const std::string name = text == "last" ? names.back() : text;
    if (std::find(names.begin(), names.end(), name) != names.end()) return name;
    const auto near = nearest_names(name, names, 1);
    throw typed_fault("entry-typed", "--undo \"" + text + "\": this bath has no such entry",
                      (near.empty() ? std::string() : "did you mean '" + near.front() + "'? ") + "its last one is '" + names.back() + "'");
}

} // namespace

std::string bath_path(const std::string& id_or_path, const Library& library) {
    if (id_or_path == "-" || id_or_path.find('/') != std::string::npos || id_or_path.ends_with(".yaml"))
        return library.own_file(id_or_path, "baths");
    if (!is_id(id_or_path))
        throw typed_fault("id-form", "'" + id_or_path + "' cannot be the name of a bath", "small letters, digits and single hyphens");
    const std::string name = id_or_path + ".yaml", here = "baths/" + name;
    std::error_code error;
    if (std::filesystem::exists(here, error)) return here;
    if (const std::string path = library.own_file(name, "baths"); path != name) return path;
    std::vector<std::string> known;
    for (const std::string& each : names_in(std::string("baths"), is_entry_file))
        known.push_back(each.substr(0, each.size() - 5));
    const auto near = nearest_names(id_or_path, known, 1);
    throw typed_fault("id-unknown", "no bath '" + id_or_path + "' in baths/ of the folder you stand in, nor on the shelves",
                      near.empty() ? "begin it: lakebound-bath " + id_or_path + " --new --alum \"potash-alum, 50 g\" --alkali soda-ash"
                                   : "did you mean '" + near.front() + "'?");
}

BathRecord read_bath_record(const std::string& path, Library& library) {
    BathRecord record;
    record.path = path;
    record.id = id_of_path(path);
    record.folder = path.ends_with(".yaml") ? path.substr(0, path.size() - 5) : path + ".entries";
    record.texts = read_bath(load_document(path), library);
    Faults faults;
    for (const std::string& name : entry_files(record.folder))
        try {
            const std::string stem = name.substr(0, name.size() - 5), file = record.folder + "/" + name;
            auto read = read_bath_entry(load_document(file), stem, record.id);
            check_entry_name(read.entry.day, word_of(read.entry.kind()), stem, file);
            record.entries.push_back(std::move(read));
        } catch (const InputError& error) {
            faults.add_all(error);
        }
    faults.throw_if_any();
    return record;
}

BathStory told_bath(const BathRecord& record, const BathPlan& plan, const BathSetting& setting, std::chrono::sys_days today) {
    std::vector<BathEntry> entries;
    for (const ReadBathEntry& read : record.entries)
        entries.push_back(read.entry);
    const auto since = record.texts.since ? day_of_iso(*record.texts.since) : std::nullopt;
    BathStory story = bath_story(bath_readings(record.texts, plan), entries, setting, since, today);
    Faults faults;
    for (const BathEntryFault& each : story.faults) {
        Diagnostic fault;
        fault.id = "entry-contradicts";
        fault.message = said_of_bath(each.kind);
        fault.at = record.entries[each.entry].at;
        fault.hint = mended_in_bath(each.kind);
        if (each.other) fault.second = SecondPlace{record.entries[*each.other].at, "against this entry"};
        faults.add(std::move(fault));
    }
    try {
        faults.throw_if_any();
    } catch (const InputError& error) {
        throw as_typed(error);
    }
    return story;
}

BathWish with_own_end_points(BathWish wish, const std::string& path, Library& library, const LakingHabits& laking,
                             const WashHabits& washing, const Bench& bench, std::chrono::sys_days today) {
    const std::string folder = std::filesystem::path(path).parent_path().string();
    std::vector<EndPoint> seen;
    for (const std::string& name : names_in(folder.empty() ? "." : folder, is_entry_file)) {
        const std::string other = (folder.empty() ? "" : folder + "/") + name;
        std::error_code none;
        if (other == path || !std::filesystem::is_directory(other.substr(0, other.size() - 5), none)) continue;
        const BathRecord record = read_bath_record(other, library);
        const BathWish of = bath_wish(record.texts, library);
        if (of.aluminium.id != wish.aluminium.id) continue;
        const BathPlan plan = plan_bath(of, laking, washing);
        const BathSetting setting = bath_setting(plan, laking, washing, library.powder_habits(), bench);
        const BathStanding at = bath_standing(told_bath(record, plan, setting, today).readings, setting);
        if (at.alkali && at.alkali->learned) seen.push_back({at.alkali->hydroxides_poured, washing.end_point_doubt});
    }
    if (seen.empty()) return wish;
    const HydroxideBelief usual = usual_hydroxides(wish.aluminium, laking);
    wish.hydroxides = learn_hydroxides(usual, seen);
    wish.end_points = seen.size();
    return wish;
}

std::vector<TypedEntry> typed_bath_entries(const BathRecord& record, const BathTexts& texts, const BathEntryContext& context) {
    std::vector<std::pair<std::string, EntryText>> entries;
    refuse_lone_options(texts);
    if (texts.drying)
        throw typed_fault("bath-typed", "--drying \"" + *texts.drying + "\": the weighings of a record are entered one by one, each on its day",
                          "write it like --cake \"38.6 g\" --date " + context.date);
    const auto reading = [&](std::string_view what, const std::string& text) -> EntryText {
        EntryText entry = begun_bath_entry(record, context, what);
        entry.add_quoted("reading", text);
        return entry;
    };
    // Told here by its option, where it would be told as a reading later.
    const auto all = [&](std::string_view what, const char* option, auto&& check, const std::vector<std::string>& each) {
        for (const std::string& text : each) {
            (void)check(option, text);
            entries.emplace_back(what, reading(what, text));
        }
    };
    const auto one = [&](std::string_view what, const char* option, auto&& check, const BathTexts::Text& text) {
        if (text) all(what, option, check, {*text});
    };
    const auto volume = [](const std::string& option, const std::string& text) { return positive_option<Volume>(option, text); };
    const auto mass = [](const std::string& option, const std::string& text) { return positive_option<Mass>(option, text); };
    const auto time = [](const std::string& option, const std::string& text) { return positive_option<Time>(option, text); };
    if (context.hour) (void)typed_hour("--at", *context.hour);
    for (const std::string& text : texts.filter) {
        (void)typed_filter_reading("--filter", text);
        if (texts.to_filter) (void)volume("--to-filter", *texts.to_filter);
        EntryText entry = reading("filter", text);
        if (texts.to_filter) entry.add("whole", *texts.to_filter);
        entries.emplace_back("filter", std::move(entry));
    }
    one("foam", "--foam", time, texts.foam);
    all("poured", "--poured", volume, texts.poured);
    one("alum", "--alum-added", mass, texts.alum_added);
    all("ph", "--ph", typed_ph, texts.ph);
    one("colour", "--colour", typed_colour_match, texts.colour);
    one("blanket", "--blanket", blanket_option, texts.blanket);
    one("wash-water", "--wash-water", typed_pen_reading, texts.wash_water);
    all("decant", "--decant", typed_pen_reading, texts.decant);
    one("cake", "--cake", typed_cake, texts.cake);
    one("hue", "--hue", typed_hue, texts.hue);
    one("swatch", "--swatch", typed_swatch_number, texts.swatch);
    if (context.undo)
        entries.emplace_back("undo", begun_bath_entry(record, context, "undo").add("entry", undone_stem(record, *context.undo)));
    if (entries.empty() && context.note) entries.emplace_back("note", begun_bath_entry(record, context, "note"));
    if (context.note && !entries.empty()) entries.back().second.add_quoted("note", *context.note); // once, with the last
    std::vector<TypedEntry> typed;
    for (const auto& [what, text] : entries)
        typed.push_back({what, text.text()});
    return typed;
}

TypedEntry jarred_entry(const BathRecord& record, const std::string& jar, const std::optional<std::string>& net,
                        const BathEntryContext& context) {
    EntryText text = begun_bath_entry(record, context, "jarred");
    if (!is_id(jar)) throw typed_fault("id-form", "--jar \"" + jar + "\" cannot be the name of a jar", "small letters, digits and single hyphens");
    if (net) (void)positive_option<Mass>("--weighed", *net);
    text.add("jar", jar);
    if (net) text.add("net", *net);
    return {"jarred", text.text()};
}

BathRecord with_bath_entries(BathRecord record, const std::string& date, const std::vector<TypedEntry>& entries) {
    std::vector<std::string> stems;
    for (const ReadBathEntry& read : record.entries)
        stems.push_back(read.entry.id);
    for (const TypedEntry& entry : entries) {
        stems.push_back(free_entry_stem(stems, date, entry.what));
        try {
            record.entries.push_back(read_bath_entry(load_document(std::string(command_line_path), entry.text), stems.back(), record.id));
        } catch (const InputError& error) {
            throw as_typed(error);
        }
    }
    return record;
}

std::string write_bath_entries(const BathRecord& record, const std::string& date, const std::vector<TypedEntry>& entries) {
    std::string path;
    for (const TypedEntry& entry : entries)
        path = write_entry_file(record.folder, date, entry.what, entry.text);
    return path;
}

std::string begin_bath_file(const std::string& id, const BathTexts& texts, const std::string& date) {
    if (!is_id(id)) throw typed_fault("id-form", "'" + id + "' cannot be the name of a bath", "small letters, digits and single hyphens");
    EntryText text("bath", "name", id, {}, {});
    const auto add = [&](std::string_view key, const BathTexts::Text& value) {
        if (value) text.add_quoted(key, *value);
    };
    add("since", date);
    add("plant", texts.plant), add("alum", texts.alum), add("lake", texts.lake), add("alkali", texts.alkali);
    add("water", texts.water), add("pulls", texts.pulls), add("pot", texts.pot), add("vessel", texts.vessel);
    add("strength", texts.strength), add("foam", texts.foam);
    std::error_code error;
    std::filesystem::create_directories("baths", error); // a fault shows when the file is written
    const std::string path = "baths/" + id + ".yaml";
    if (std::filesystem::exists(path, error))
        throw typed_fault("write-exists", path + ": this bath is there already, and was left alone", "give the new one another name");
    safe_write(path, text.text());
    return path;
}

} // namespace lakebound
