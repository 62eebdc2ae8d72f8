#include "lakebound/shelf/bath_entry_file.hpp"

#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/typed_bath_reading.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {
namespace {

/// Reads what one entry tells, beside kind, bath, date, hour, what and note.
class BathEntryBody {
public:
    BathEntryBody(const Node& root, ReadBathEntry& read, Faults& faults) : root_(root), read_(read), faults_(faults) {}

    void take(BathEntryKind what) {
        switch (what) {
        case BathEntryKind::filter: {
            FilterEntry entry;
            const MapReader map = keys("the entry of a filter", {"reading", "whole"});
            reading(map, [&](const std::string& text) { entry.reading = typed_filter_reading("reading", text); });
            entry.whole = map.optional_exact<Volume>("whole", range::positive);
            read_.entry.what = entry;
            return;
        }
        case BathEntryKind::poured:
            return one([](const std::string& text) { return PouredEntry{positive_option<Volume>("reading", text)}; });
        case BathEntryKind::alum:
            return one([](const std::string& text) { return AluminiumEntry{positive_option<Mass>("reading", text)}; });
        case BathEntryKind::ph: return one([](const std::string& text) { return PhEntry{typed_ph("reading", text)}; });
        case BathEntryKind::foam:
            return one([](const std::string& text) { return FoamEntry{positive_option<Time>("reading", text)}; });
        case BathEntryKind::blanket:
            return one([](const std::string& text) { return BlanketEntry{blanket_option("reading", text)}; });
        case BathEntryKind::colour:
            return one([](const std::string& text) { return ColourEntry{typed_colour_match("reading", text)}; });
        case BathEntryKind::wash_water:
            return one([](const std::string& text) { return WashWaterEntry{typed_pen_reading("reading", text)}; });
        case BathEntryKind::decant:
            return one([](const std::string& text) { return DecantEntry{typed_pen_reading("reading", text)}; });
        case BathEntryKind::cake: return one([](const std::string& text) { return typed_cake("reading", text); });
        case BathEntryKind::hue: return one([](const std::string& text) { return HueEntry{typed_hue("reading", text)}; });
        case BathEntryKind::swatch:
            return one([](const std::string& text) { return BathSwatchEntry{typed_swatch_number("reading", text)}; });
        case BathEntryKind::jarred: {
            const MapReader map = keys("the entry of a jar", {"jar", "net"});
            JarredEntry entry{map.text("jar"), map.optional_exact<Mass>("net", range::positive)};
            if (const Node* node = map.find("jar"); node != nullptr && faults_.none() && !is_id(entry.jar))
                faults_.add(fault_at(*node, "id-form", "'" + entry.jar + "' cannot be the name of a jar",
                                     "small letters, digits and single hyphens"));
            read_.reading = entry.jar;
            read_.entry.what = entry;
            return;
        }
        case BathEntryKind::note:
            keys("a note", {});
            if (root_.find("note") == nullptr)
                faults_.add(fault_at(root_, "key-missing", "a note needs 'note'", "write what is to be remembered"));
            read_.entry.what = NoteEntry{};
            return;
        case BathEntryKind::undo: read_.entry.what = UndoEntry{keys("an undo", {"entry"}).text("entry")}; return;
        }
    }

private:
    MapReader keys(std::string_view what, std::initializer_list<std::string_view> own) {
        std::vector<std::string_view> all{"kind", "bath", "date", "hour", "what", "note"};
        all.insert(all.end(), own);
        return MapReader(root_, what, all, faults_);
    }
    /// The text of `reading`, with the faults that are found in it at its place.
    template <class Take> void reading(const MapReader& map, Take&& take) {
        read_.reading = map.text("reading");
        const Node* node = map.find("reading");
        if (node == nullptr || !faults_.none()) return;
        try {
            take(read_.reading);
        } catch (const InputError& error) {
            for (const Diagnostic& fault : error.faults())
                faults_.add(placed_fault(fault.id, node->excerpt(), fault.message, fault.hint));
        }
    }
    template <class Take> void one(Take&& take) {
        reading(keys("this entry of a bath", {"reading"}), [&](const std::string& text) { read_.entry.what = take(text); });
    }

    const Node& root_;
    ReadBathEntry& read_;
    Faults& faults_;
};

} // namespace

ReadBathEntry read_bath_entry(Document document, std::string id, std::string_view bath) {
    require_kind(document, "bath entry");
    Faults& faults = document.faults;
    const Node& root = document.root;
    ReadBathEntry read;
    read.entry.id = std::move(id);
    const auto need = [&](const char* key, const char* hint) {
        const Node* node = root.find(key);
        if (node == nullptr)
            faults.add(fault_at(root, "key-missing", std::string("an entry of a bath needs '") + key + "'", hint));
        return node;
    };
    if (const Node* node = need("bath", "the name of its bath")) {
        const auto name = read_text(*node, "bath", faults);
        if (name && !bath.empty() && *name != bath)
            faults.add(fault_at(*node, "entry-bath", "this entry lies in the record of the bath '" + std::string(bath) + "'",
                                "move it to the record of its bath, or mend the name"));
    }
    if (const Node* node = need("date", "the day it happened, as in 'date: 2026-03-02'"))
        if (const auto date = read_date(*node, "date", faults)) read.entry.day = day_of_iso(*date).value();
    if (const Node* node = root.find("hour"))
        if (const auto text = read_text(*node, "hour", faults)) try {
                read.entry.hour = typed_hour("hour", *text);
            } catch (const InputError& error) {
                const Diagnostic& fault = error.faults().front();
                faults.add(placed_fault(fault.id, node->excerpt(), fault.message, "write it like 'hour: \"08:30\"'"));
            }
    if (const Node* note = root.find("note")) read.note = read_text(*note, "note", faults).value_or("");
    if (const Node* what = need("what", "one of filter, poured, alum, ph, foam, blanket, colour, wash-water, decant, cake, "
                                        "hue, swatch, jarred, note, undo")) {
        read.at = what->excerpt();
        if (const auto which = read_word<BathEntryKind>(*what, "what", faults))
            BathEntryBody(root, read, faults).take(*which);
    }
    faults.throw_if_any();
    return read;
}

} // namespace lakebound
