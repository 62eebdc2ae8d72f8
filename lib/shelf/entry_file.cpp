#include "lakebound/shelf/entry_file.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

#include "lakebound/material/medium_properties.hpp"
#include "lakebound/material/moisture.hpp"
#include "lakebound/material/rub_out.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/paint/weighing.hpp"
#include "lakebound/record/swatch_plan.hpp"
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "reference.hpp"
#include "rub_out_text.hpp"

namespace lakebound {
namespace {

/// Dry binder over that of the medium alone, at most: additives that bind, and another strength than the shelf's.
constexpr double most_beside_medium = 1.5;

/// Reads the body of one entry: the keys beside kind, jar, date, what and note.
class Body {
public:
    Body(const Document& document, ReadEntry& read, const Jar& jar, Library& library, EntryWords& words, Faults& faults)
        : sources_(document.sources), root_(document.root), read_(read), jar_(jar), library_(library), words_(words), faults_(faults) {}

    void take(EntryKind what) {
        switch (what) {
        case EntryKind::weighed:
            return weighed();
        case EntryKind::drawn:
            return drawn();
        case EntryKind::rub_out:
            return rub_out();
        case EntryKind::measured:
            return measured();
        case EntryKind::swatch:
            return swatch();
        case EntryKind::batch:
            return batch();
        case EntryKind::outcome:
            return outcome();
        case EntryKind::changed:
            keys("the entry of a change", {});
            read_.entry.what = ChangedEntry{};
            return;
        case EntryKind::note:
            keys("a note", {});
            if (root_.find("note") == nullptr)
                faults_.add(fault_at(root_, "key-missing", "a note needs 'note'", "write what is to be remembered"));
            read_.entry.what = NoteEntry{};
            return;
        case EntryKind::undo: {
            const MapReader map = keys("an undo", {"entry"});
            read_.entry.what = UndoEntry{of_this_jar(map.text("entry"))};
            return;
        }
        case EntryKind::sieved:
            return sieve_test();
        case EntryKind::settled:
            return settling_test();
        }
    }

private:
    MapReader keys(std::string_view what, std::initializer_list<std::string_view> own) {
        std::vector<std::string_view> all{"kind", "jar", "date", "what", "note"};
        all.insert(all.end(), own);
        return MapReader(root_, what, all, faults_);
    }

    std::string of_this_jar(const std::string& name) const { return jar_.id + "/" + name; }

    void weighed() {
        const MapReader map = keys("the entry of a weighing", {"net"});
        const auto net = map.figure<Mass>("net", range::not_negative, FigureStyle::by_maker);
        read_.entry.what = WeighedEntry{net.value(), net.standard_uncertainty()};
    }

    void drawn() {
        const MapReader map = keys("the entry of what was drawn", {"mass", "for"});
        const auto mass = map.figure<Mass>("mass", range::positive, FigureStyle::by_maker);
        read_.note = map.text_or_empty("for");
        read_.entry.what = DrawnEntry{mass.value(), mass.standard_uncertainty()};
    }

    void rub_out() {
        const MapReader map = keys("the entry of a rub-out", {"pigment", "oil", "scale", "dropper"});
        const Instrument<Mass> scale{map.exact<Mass>("scale", range::positive), Mass()};
        const auto dropper = read_dropper(map, scale, faults_);
        const RubOut one = read_rub_out(map, scale, dropper.has_value(), faults_);
        read_.dropper = dropper;
        if (!faults_.none()) return;
        constexpr RubOutPrior only_instruments{1e-6, 1.0, 0.0};
        try {
            const std::array<RubOut, 1> list{one};
            const auto result = dropper ? oil_absorption_by_rub_out(list, *dropper, only_instruments)
                                        : oil_absorption_by_rub_out(list, only_instruments);
            // In the oil of the library's figure, for the record is kept by that.
            const double oil = jar_.reference_test_oil / jar_.pigment.test_oil_density.value();
            read_.entry.what = RubOutEntry{OilAbsorption::of(result.each.front().value() * oil),
                                           result.mean.distribution().scale, one.pigment};
        } catch (const DomainError& error) {
            faults_.add(fault_at(*map.find("oil"), "out-of-range", domain_sentence(error), error.mend()));
        }
    }

    void measured() {
        const MapReader map = keys("the entry of a measurement", {"density", "tapped_density", "moisture", "median_size"});
        constexpr auto style = FigureStyle::by_maker;
        MeasuredEntry m;
        m.density = map.optional_figure<MassDensity>("density", range::density, style);
        m.tapped_density = map.optional_figure<MassDensity>("tapped_density", range::density, style);
        m.moisture = map.optional_figure<MassFraction>("moisture", powder_moisture_range(), style);
        m.median_size = map.optional_figure<Length>("median_size", range::grain_size, style);
        if (!m.density && !m.tapped_density && !m.moisture && !m.median_size && faults_.none())
            faults_.add(fault_at(root_, "key-missing", "a measurement needs a figure",
                                 "one of density, tapped_density, moisture, median_size"));
        read_.entry.what = std::move(m);
    }

    /// A test stands in the entry as it would in a file of its own, so that the record is whole by itself.
    template <class Take> void whole_test(const char* what, Take take) {
        const MapReader map = keys(what, {"test"});
        const Node* node = map.need("test");
        if (node == nullptr) return;
        try {
            take(Document{sources_, *node, Faults{}}, *node);
        } catch (const InputError& error) {
            faults_.add_all(error);
        } catch (const DomainError& error) {
            faults_.add(fault_at(*node, "out-of-range", domain_sentence(error), error.mend()));
        }
    }

    void sieve_test() {
        whole_test("the entry of a sieve test", [this](Document test, const Node&) {
            read_.entry.what = SieveTestEntry{sieve_entry(read_sieve_test(std::move(test), read_.entry.id).record)};
        });
    }

    void settling_test() {
        whole_test("the entry of a settling test", [this](Document within, const Node& node) {
            const SettlingRecord test = read_settling_test(std::move(within), read_.entry.id).record;
            if (test.grains)
                read_.entry.what = SettlingTestEntry{settling_entry(test, jar_.pigment.density.value(),
                                                                    library_.practice().assumed_bench.temperature)};
            else
                faults_.add(fault_at(node, "settling-form", "a blanket is of a lake that was just precipitated, before its jar",
                                      "a jar's test is of timed grains; ask lakebound-settle --test about a blanket"));
        });
    }

    PaintMade paint(const MapReader& map) {
        PaintMade made;
        if (const Node* family = map.need("family")) {
            const auto id = read_text(*family, "family", faults_).value_or("");
            const auto at = std::find(words_.families.begin(), words_.families.end(), id);
            made.family = static_cast<std::size_t>(at - words_.families.begin());
            if (at == words_.families.end() && is_id(id) && library_.find(ShelfKind::family, id)) {
                words_.families.push_back(id);
            } else if (at == words_.families.end() && faults_.none()) {
                Diagnostic fault = library_.unknown(ShelfKind::family, id);
                fault.at = family->excerpt();
                faults_.add(std::move(fault));
            }
        }
        auto lot = map.text_or_empty("lot");
        read_.bottle = lot;
        if (lot.empty()) lot = map.text_or_empty("medium"); // one medium counts as one bottle until told apart
        if (!lot.empty()) made.lot = words_.lots.try_emplace(lot, words_.lots.size()).first->second;
        made.powder = map.exact<Mass>("pigment", range::positive);
        return made;
    }

    BinderIndex index_of(std::size_t family) { return library_.family(words_.families.at(family)).binder_index.value(); }

    /// k of the library of `made` with so much dry binder.
    void set_k(PaintMade& made, Volume binder) {
        const SwatchPaint by{binder_demand(jar_.reference_oil_absorption.value(), jar_.reference_test_oil), SpecificVolume{},
                             index_of(made.family)};
        made.library_k = library_k(by, made.powder, binder);
    }

    void swatch() {
        const MapReader map =
            keys("the entry of a swatch", {"family", "pigment", "medium", "medium_mass", "scale", "lot", "sign", "stroke"});
        SwatchEntry entry;
        entry.paint = paint(map);
        const Scale scale{"", map.exact<Mass>("scale", range::positive), {}, {}};
        read_.medium_mass = map.exact<Mass>("medium_mass", range::positive);
        if (const Node* node = map.need("medium"))
            read_.medium = known_id(*node, "medium", ShelfKind::medium, library_, faults_);
        if (map.find("sign") != nullptr) entry.sign = map.word<PaintSign>("sign");
        const bool stroke = map.word("stroke", {"no", "yes"}, 0) == 1;
        if (!faults_.none()) return;
        const auto medium = medium_properties(library_.medium(read_.medium));
        if (!(medium.dry_binder.value() > 0.0)) {
            faults_.add(fault_at(*map.find("medium"), "medium-unfit", "this medium leaves no binder", "name the one that was used"));
            return;
        }
        set_k(entry.paint, read_.medium_mass * medium.dry_binder);
        entry.paint.weighing_spread = weighing_spread(scale, entry.paint.powder, read_.medium_mass);
        entry.paint.uncertainty = standard_uncertainty(scale);
        if (stroke) {
            entry.on_slab = OnSlab{entry.paint.powder, entry.paint.uncertainty};
            entry.paint.powder = entry.paint.uncertainty = Mass{};
        }
        read_.entry.what = std::move(entry);
    }

    void batch() {
        const MapReader map = keys("the entry of a batch", {"family", "pigment", "recipe", "medium", "medium_mass",
                                                            "dry_binder", "k_spread", "lot", "blend"});
        BatchEntry entry;
        entry.paint = paint(map);
        const auto binder = map.exact<Volume>("dry_binder", range::positive);
        constexpr Range spread{0.0, 2.0, false, "0 to 2", "it is the standard deviation of a logarithm"};
        entry.paint.weighing_spread = map.number("k_spread", spread);
        read_.recipe = map.text_or_empty("recipe");
        read_.medium = map.text_or_empty("medium");
        if (const auto mass = map.optional_exact<Mass>("medium_mass", range::not_negative)) read_.medium_mass = *mass;
        entry.paint.uncertainty = entry.paint.powder * entry.paint.weighing_spread; // at most
        entry.paint.of_this_jar_alone = map.word("blend", {"no", "yes"}, 0) == 0;
        if (!faults_.none()) return;
        check_binder(map, binder, entry.paint.of_this_jar_alone);
        set_k(entry.paint, binder);
        read_.entry.what = std::move(entry);
    }

    /// The dry binder is what counts; a mass of medium that was mended beside it would be believed in vain.
    void check_binder(const MapReader& map, Volume binder, bool of_this_jar_alone) {
        if (!of_this_jar_alone || read_.medium.empty() || !(read_.medium_mass.value() > 0.0)) return;
        if (!library_.find(ShelfKind::medium, read_.medium)) return; // of then
        const Volume held = read_.medium_mass * medium_properties(library_.medium(read_.medium)).dry_binder;
        if (binder < held * most_beside_medium && held < binder * most_beside_medium) return;
        Diagnostic fault = fault_at(*map.find("dry_binder"), "entry-contradicts",
                                    "this is not the dry binder of that mass of medium: " + fixed_text(in_millilitres(held), 2) +
                                        " mL", "mend both, or take the entry back and enter the batch with --mixed");
        fault.second = SecondPlace{map.find("medium_mass")->excerpt(), "the medium"};
        faults_.add(std::move(fault));
    }

    void outcome() {
        const MapReader map = keys("the entry of an outcome", {"of", "sign"});
        read_.entry.what = OutcomeEntry{of_this_jar(map.text("of")), map.word<PaintSign>("sign")};
    }

    const std::vector<std::shared_ptr<const Source>>& sources_;
    const Node& root_;
    ReadEntry& read_;
    const Jar& jar_;
    Library& library_;
    EntryWords& words_;
    Faults& faults_;
};

} // namespace

ReadEntry read_entry(Document document, std::string id, const Jar& jar, Library& library, EntryWords& words) {
    require_kind(document, "entry");
    Faults& faults = document.faults;
    const Node& root = document.root;
    ReadEntry read;
    read.entry.id = std::move(id);
    const auto need = [&](const char* key, const char* hint) {
        const Node* node = root.find(key);
        if (node == nullptr)
            faults.add(fault_at(root, "key-missing", std::string("an entry needs '") + key + "'", hint));
        return node;
    };
    if (const Node* node = need("jar", "the name of its jar")) {
        read.entry.jar = read_text(*node, "jar", faults).value_or("");
        if (faults.none() && read.entry.jar != jar.id)
            faults.add(fault_at(*node, "entry-jar", "this entry lies in the record of '" + jar.id + "'",
                                "move it to the record of its jar, or mend the name"));
    }
    if (const Node* node = need("date", "the day it happened, as in 'date: 2026-03-02'"))
        if (const auto date = read_date(*node, "date", faults)) read.entry.day = day_of_iso(*date).value();
    if (const Node* note = root.find("note")) read.note = read_text(*note, "note", faults).value_or("");
    if (const Node* what = need("what", "one of weighed, drawn, rub-out, measured, sieved, settled, swatch, batch, outcome, "
                                        "changed, note, undo")) {
        read.at = what->excerpt();
        if (const auto which = read_word<EntryKind>(*what, "what", faults))
            Body(document, read, jar, library, words, faults).take(*which);
    }
    faults.throw_if_any();
    return read;
}

EntryText::EntryText(std::string_view jar, std::string_view date, std::string_view what) : EntryText("entry", "jar", jar, date, what) {}

EntryText::EntryText(std::string_view kind, std::string_view key, std::string_view whose, std::string_view date, std::string_view what) {
    add("kind", kind).add(key, whose);
    if (!date.empty()) add("date", date);
    if (!what.empty()) add("what", what);
}

EntryText& EntryText::add(std::string_view key, std::string_view value) {
    text_.append(key).append(value.empty() ? ":" : ": ").append(value).append("\n");
    return *this;
}

EntryText& EntryText::add_quoted(std::string_view key, std::string_view text) {
    text_.append(key).append(": \"");
    for (const char c : text) {
        if (c == '"' || c == '\\') text_ += '\\';
        if (c == '\n' || c == '\t' || c == '\r') text_ += ' ';
        else text_ += c;
    }
    text_ += "\"\n";
    return *this;
}

} // namespace lakebound
