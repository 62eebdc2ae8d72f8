#include <catch2/catch.hpp>

#include "lakebound/record/bath_entry.hpp"
#include "lakebound/record/entry.hpp"

using namespace lakebound;

namespace {

/// The word of an entry that tells this.
template <class Told> std::string_view told_as(Told what = {}) {
    Entry entry;
    entry.what = std::move(what);
    return word_of(entry.kind());
}
template <class Told> std::string_view told_of_bath(Told what = {}) {
    BathEntry entry;
    entry.what = std::move(what);
    return word_of(entry.kind());
}

} // namespace

TEST_CASE("an entry is named by what it tells", "[unit]") {
    CHECK(told_as<WeighedEntry>() == "weighed");
    CHECK(told_as<DrawnEntry>() == "drawn");
    CHECK(told_as(RubOutEntry{grams_per_100_grams(68), 0.0, {}}) == "rub-out");
    CHECK(told_as<MeasuredEntry>() == "measured");
    CHECK(told_as<SwatchEntry>() == "swatch");
    CHECK(told_as<BatchEntry>() == "batch");
    CHECK(told_as<OutcomeEntry>() == "outcome");
    CHECK(told_as<ChangedEntry>() == "changed");
    CHECK(told_as<NoteEntry>() == "note");
    CHECK(told_as<UndoEntry>() == "undo");
    CHECK(told_as<SieveTestEntry>() == "sieved");
    CHECK(told_as<SettlingTestEntry>() == "settled");
}

TEST_CASE("an entry of a bath is named by what it tells", "[unit]") {
    CHECK(told_of_bath<FilterEntry>() == "filter");
    CHECK(told_of_bath<PouredEntry>() == "poured");
    CHECK(told_of_bath<AluminiumEntry>() == "alum");
    CHECK(told_of_bath<PhEntry>() == "ph");
    CHECK(told_of_bath<FoamEntry>() == "foam");
    CHECK(told_of_bath<BlanketEntry>() == "blanket");
    CHECK(told_of_bath<ColourEntry>() == "colour");
    CHECK(told_of_bath<WashWaterEntry>() == "wash-water");
    CHECK(told_of_bath<DecantEntry>() == "decant");
    CHECK(told_of_bath<CakeEntry>() == "cake");
    CHECK(told_of_bath<HueEntry>() == "hue");
    CHECK(told_of_bath<BathSwatchEntry>() == "swatch");
    CHECK(told_of_bath<JarredEntry>() == "jarred");
    CHECK(told_of_bath<NoteEntry>() == "note");
    CHECK(told_of_bath<UndoEntry>() == "undo");
}
