#include "lakebound/shelf/entry_file.hpp"

#include <catch2/catch.hpp>

#include <chrono>
#include <cmath>

#include "faults_of.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// A shelf with the jar whose record is read.
struct Studio {
    SmallShelf shelf;
    Library library;
    Jar jar;
    EntryWords words{{"other", "test-family"}, {}};

    Studio() : library((shelf.dir().write("jars/jar.yaml", plain_jar), shelf.library())), jar(library.jar("jar")) {}
    /// Of the lines below `what`.
    ReadEntry entry(const std::string& what, const std::string& lines) {
        return read_entry(load_document("e.yaml", "kind: entry\njar: jar\ndate: 2026-03-02\nwhat: " + what + "\n" + lines),
                          "jar/one", jar, library, words);
    }
    template <class Kind> Kind kept(const std::string& what, const std::string& lines) {
        const Entry read = entry(what, lines).entry;
        CHECK(word_of(read.kind()) == what);
        REQUIRE(std::holds_alternative<Kind>(read.what));
        return std::get<Kind>(read.what);
    }
    std::string faults(const std::string& what, const std::string& lines) {
        return summary(faults_of([&] { entry(what, lines); }));
    }
    /// k of so much binder for so much powder: the oil that 65 g/100 g stands for, as a volume.
    double k(double binder_ml, double powder_g) const {
        return binder_ml / (powder_g * 0.65 / in_grams_per_cubic_centimetre(jar.reference_test_oil));
    }
};

const std::string swatch = "family: test-family\npigment: 1.5 g\nmedium: gum-water\nmedium_mass: 2.0 g\nscale: 0.1 g\n";
const std::string batch = "family: test-family\npigment: 12 g\ndry_binder: 7 mL\nk_spread: 0.02\n";

} // namespace

TEST_CASE("What every entry has: its jar, its day, its remark", "[unit][errors]") {
    Studio studio;
    const ReadEntry read = studio.entry("note", "note: rained all day\n");
    CHECK(read.entry.id == "jar/one");
    CHECK(read.entry.jar == "jar");
    CHECK(read.entry.day == day_of_iso("2026-03-02").value());
    CHECK(read.note == "rained all day");
    CHECK(read.at.place.line == 4);
    CHECK(read.entry.kind() == EntryKind::note);
    CHECK(studio.faults("note", "") == "key-missing 1:1");
    CHECK(studio.faults("note", "note: x\nnet: 1 g\n") == "key-unknown 6:1");
    CHECK(studio.faults("forgot", "") == "word-unknown 4:7");
    studio.jar.id = "weld";
    CHECK(studio.faults("changed", "") == "entry-jar 2:6");
    const auto bare = faults_of([&] { read_entry(load_document("e.yaml", "kind: entry\n"), "x", studio.jar, studio.library, studio.words); });
    CHECK(summary(bare) == "key-missing 1:1, key-missing 1:1, key-missing 1:1"); // jar, date, what
}

TEST_CASE("Powder that was weighed, drawn, ground again; what did not happen", "[unit][errors]") {
    Studio studio;
    const auto weighed = studio.kept<WeighedEntry>("weighed", "net: 21.5 +- 0.2 g\n");
    CHECK(in_grams(weighed.net) == Approx(21.5));
    CHECK(in_grams(weighed.uncertainty) == Approx(0.2));
    CHECK(in_grams(studio.kept<WeighedEntry>("weighed", "net: 0 g\n").net) == 0.0);
    CHECK(studio.faults("weighed", "net: -1 g\n") == "quantity-negative 5:6");
    const auto drawn = studio.kept<DrawnEntry>("drawn", "mass: 3 +- 0.1 g\nfor: a friend\n");
    CHECK(in_grams(drawn.powder) == Approx(3.0));
    CHECK(in_grams(drawn.uncertainty) == Approx(0.1));
    CHECK(studio.entry("drawn", "mass: 3 g\nfor: a friend\n").note == "a friend");
    CHECK(studio.faults("drawn", "mass: 0 g\n") == "quantity-negative 5:7");
    studio.kept<ChangedEntry>("changed", "");
    CHECK(studio.faults("changed", "net: 1 g\n") == "key-unknown 5:1");
    CHECK(studio.kept<UndoEntry>("undo", "entry: 2026-03-01-01-drawn\n").entry == "jar/2026-03-01-01-drawn");
    CHECK(studio.faults("undo", "") == "key-missing 1:1");
}

TEST_CASE("A measurement keeps each figure that it has, and wants one", "[unit][errors]") {
    Studio studio;
    const auto all = studio.kept<MeasuredEntry>(
        "measured", "density: 1.91 g/cm3\ntapped_density: 0.41 g/cm3\nmoisture: 6.1 % w/w\nmedian_size: 21 um\n");
    CHECK(in_grams_per_cubic_centimetre(all.density.value().value()) == Approx(1.91));
    CHECK(in_grams_per_cubic_centimetre(all.tapped_density.value().value()) == Approx(0.41));
    CHECK(all.moisture.value().value().value() == Approx(0.061));
    CHECK(in_micrometres(all.median_size.value().value()) == Approx(21.0));
    for (const char* one : {"density: 1.91 g/cm3\n", "tapped_density: 0.41 g/cm3\n", "moisture: 6.1 % w/w\n", "median_size: 21 um\n"}) {
        CAPTURE(one);
        const auto m = studio.kept<MeasuredEntry>("measured", one);
        CHECK(m.density.has_value() + m.tapped_density.has_value() + m.moisture.has_value() + m.median_size.has_value() == 1);
    }
    CHECK(studio.faults("measured", "") == "key-missing 1:1");
    CHECK(studio.faults("measured", "density: 0.001 g/cm3\n") == "out-of-range 5:10");
    CHECK(studio.faults("measured", "median_size: 6 mm\n") == "out-of-range 5:14");
}

TEST_CASE("A rub-out is kept as the oil absorption that it shows", "[unit][errors]") {
    Studio studio;
    const auto weighed = studio.kept<RubOutEntry>("rub-out", "pigment: 2.00 g\noil: 1.30 g\nscale: 0.01 g\n");
    CHECK(weighed.oil_absorption.value() == Approx(0.65));
    CHECK(in_grams(weighed.powder) == Approx(2.0));
    CHECK(weighed.reading_spread > 0.0);
    CHECK(weighed.reading_spread < 0.01); // 0.01 g in 1.30 g
    const auto coarse = studio.kept<RubOutEntry>("rub-out", "pigment: 2.0 g\noil: 1.3 g\nscale: 0.1 g\n");
    CHECK(coarse.reading_spread > 5.0 * weighed.reading_spread);
    const auto dropped = studio.kept<RubOutEntry>(
        "rub-out", "pigment: 2.00 g\noil: 40 drops\nscale: 0.01 g\ndropper: {drops: 50, weighed: 1.60 g}\n");
    CHECK(dropped.oil_absorption.value() == Approx(40 * 1.6 / 50 / 2.0));
    // The record is kept in the oil of the library's figure: another oil takes up the same room.
    studio.jar.pigment.test_oil_density = Estimate<MassDensity>::exact(studio.jar.reference_test_oil * 1.25, Provenance{});
    CHECK(studio.kept<RubOutEntry>("rub-out", "pigment: 2.00 g\noil: 1.30 g\nscale: 0.01 g\n").oil_absorption.value() ==
          Approx(0.65 / 1.25));
    CHECK(studio.faults("rub-out", "pigment: 2.00 g\noil: 40 drops\nscale: 0.01 g\n") == "rub-out-oil 6:6");
    CHECK(studio.faults("rub-out", "pigment: 0 g\noil: 1.30 g\nscale: 0.01 g\n") == "quantity-negative 5:10");
    CHECK(studio.faults("rub-out", "pigment: 0.01 g\noil: 1000 g\nscale: 0.01 g\n") == "out-of-range 6:6");
}

TEST_CASE("A swatch is kept by the k of its masses", "[unit][errors]") {
    Studio studio;
    const auto entry = studio.kept<SwatchEntry>("swatch", swatch);
    CHECK(entry.paint.family == 1);
    CHECK(entry.paint.library_k.value() == Approx(studio.k(2.0 * 0.87 / 3.0 / 1.5, 1.5))); // gum 1, water 2
    CHECK(in_grams(entry.paint.powder) == Approx(1.5));
    // A step of .1 g, each mass between two of them: .1 / sqrt(12), of either mass or more
    CHECK(in_grams(entry.paint.uncertainty) >= 0.1 / std::sqrt(12.0) * 0.999);
    CHECK(entry.paint.weighing_spread == Approx(in_grams(entry.paint.uncertainty) * std::hypot(1 / 1.5, 1 / 2.0)));
    CHECK(entry.paint.of_this_jar_alone);
    CHECK(entry.paint.lot == 0u);
    CHECK(!entry.sign);
    const ReadEntry read = studio.entry("swatch", swatch);
    CHECK(read.medium == "gum-water");
    CHECK(in_grams(read.medium_mass) == Approx(2.0));

    CHECK(studio.kept<SwatchEntry>("swatch", swatch + "lot: new bottle\n").paint.lot == 1u);
    CHECK(studio.kept<SwatchEntry>("swatch", swatch).paint.lot == 0u); // one medium is one bottle until told apart
    for (const auto& sign : WordTable<PaintSign>::rows)
        CHECK(studio.kept<SwatchEntry>("swatch", swatch + "sign: " + std::string(sign.word) + "\n").sign == sign.value);

    const auto of_batch = studio.kept<SwatchEntry>("swatch", swatch + "stroke: yes\n");
    const auto& stroke = of_batch.paint;
    CHECK(in_grams(stroke.powder) == 0.0); // the batch's is on the slab
    REQUIRE(of_batch.on_slab);
    CHECK(in_grams(of_batch.on_slab->powder) == Approx(1.5));
    CHECK(in_grams(of_batch.on_slab->uncertainty) == Approx(in_grams(entry.paint.uncertainty)));
    CHECK_FALSE(entry.on_slab);
    CHECK(in_grams(stroke.uncertainty) == 0.0);
    CHECK(stroke.library_k.value() == Approx(entry.paint.library_k.value()));
    CHECK(stroke.weighing_spread == Approx(entry.paint.weighing_spread));
    CHECK(in_grams(studio.kept<SwatchEntry>("swatch", swatch + "stroke: no\n").paint.powder) == Approx(1.5));

    CHECK(studio.faults("swatch", changed(swatch, "test-family", "no-family")) == "id-unknown 5:9");
    CHECK(studio.faults("swatch", changed(swatch, "gum-water", "no-medium")) == "id-unknown 7:9");
    CHECK(studio.faults("swatch", changed(swatch, "1.5 g", "0 g")) == "quantity-negative 6:10");
    CHECK(studio.faults("swatch", changed(swatch, "2.0 g", "0 g")) == "quantity-negative 8:14");
    CHECK(studio.faults("swatch", changed(swatch, "scale: 0.1", "scale: 0")) == "quantity-negative 9:8");
    CHECK(studio.faults("swatch", swatch + "sign: sings\n") == "word-unknown 10:7");
    studio.shelf.dir().write("media/plain-water.yaml", "kind: medium\nname: Water\nbasis: mass\nparts:\n  - {ingredient: water, parts: 1}\n");
    CHECK(studio.faults("swatch", changed(swatch, "gum-water", "plain-water")).find(" 7:9") != std::string::npos);
}

TEST_CASE("A batch is kept by its binder, and as this jar's alone unless it is a blend", "[unit][errors]") {
    Studio studio;
    const auto entry = studio.kept<BatchEntry>("batch", batch).paint;
    CHECK(entry.library_k.value() == Approx(studio.k(7.0, 12.0)));
    CHECK(entry.weighing_spread == Approx(0.02));
    CHECK(in_grams(entry.powder) == Approx(12.0));
    CHECK(in_grams(entry.uncertainty) == Approx(0.24));
    CHECK(entry.of_this_jar_alone);
    CHECK(!entry.lot);
    CHECK(studio.kept<BatchEntry>("batch", batch + "blend: no\n").paint.of_this_jar_alone);
    CHECK_FALSE(studio.kept<BatchEntry>("batch", batch + "blend: yes\n").paint.of_this_jar_alone);
    const ReadEntry read = studio.entry("batch", batch + "recipe: test-paint\nmedium: gum-water\nmedium_mass: 34 g\n");
    CHECK(read.recipe == "test-paint");
    CHECK(read.medium == "gum-water");
    CHECK(in_grams(read.medium_mass) == Approx(34.0));
    CHECK(in_grams(studio.entry("batch", batch).medium_mass) == 0.0);
    CHECK(studio.faults("batch", changed(batch, "7 mL", "0 mL")) == "quantity-negative 7:13");
    CHECK(studio.faults("batch", changed(batch, "0.02", "2.01")) == "out-of-range 8:11");
    CHECK(studio.faults("batch", batch + "medium_mass: -1 g\n") == "quantity-negative 9:14");
    CHECK(studio.faults("batch", changed(batch, "test-family", "no-family")) == "id-unknown 5:9");
}

TEST_CASE("An outcome names its paint within the jar, and what it showed", "[unit][errors]") {
    Studio studio;
    const auto entry = studio.kept<OutcomeEntry>("outcome", "of: 2026-03-01-02-swatch\nsign: stays sticky\n");
    CHECK(entry.of == "jar/2026-03-01-02-swatch");
    CHECK(entry.sign == PaintSign::stays_sticky);
    CHECK(studio.faults("outcome", "of: x\n") == "key-missing 1:1");
    CHECK(studio.faults("outcome", "sign: holds\n") == "key-missing 1:1");
}

TEST_CASE("A sieve test in an entry leaves what it saw of the powder and used of it", "[unit][errors]") {
    Studio studio;
    const std::string test = "test:\n  kind: sieve test\n  name: Fine\n  charge: 10.00 g\n  retained:\n"
                             "    - {screen: 125 um, mass: 2.5 g}\n    - {screen: 63 um, mass: 4.25 g}\n"
                             "  pan: 3.2 g\n  scale_step: 0.01 g\n";
    const SieveEntry seen = studio.kept<SieveTestEntry>("sieved", test).seen;
    CHECK(in_micrometres(seen.finest) == Approx(63.0));
    CHECK(seen.kept.value() == Approx(6.75 / 9.95));
    CHECK(in_grams(seen.used) == Approx(0.05));
    CHECK(studio.faults("sieved", "") == "key-missing 1:1");
    CHECK(studio.faults("sieved", changed(test, "2.5 g", "-2.5 g")) == "quantity-negative 10:30");
}

TEST_CASE("What an entry's text is written as is what is read of it", "[identity]") {
    Studio studio;
    EntryText text("jar", "2026-03-02", "note");
    text.add_quoted("note", "a \"word\", a \\ and\na line\tmore\r: {");
    CHECK(text.text() == "kind: entry\njar: jar\ndate: 2026-03-02\nwhat: note\n"
                         "note: \"a \\\"word\\\", a \\\\ and a line more : {\"\n");
    CHECK(read_entry(load_document("e.yaml", text.text()), "x", studio.jar, studio.library, studio.words).note ==
          "a \"word\", a \\ and a line more : {");
}

TEST_CASE("Timed grains in an entry leave how they sink; a blanket is of no jar", "[unit][errors]") {
    Studio studio;
    const std::string test = "test:\n  kind: settling test\n  name: Grains\n  temperature: 20 degC\n"
                             "  grains: {size: 49 um, depth: 100 mm, time: 150 s}\n";
    const SettlingEntry seen = studio.kept<SettlingTestEntry>("settled", test).seen;
    CHECK(in_micrometres(seen.size) == Approx(49.0));
    CHECK(in_grams_per_cubic_centimetre(seen.effective) == Approx(1.512).margin(0.002).epsilon(0)); // tests/record
    CHECK(studio.faults("settled", "") == "key-missing 1:1");
    CHECK(studio.faults("settled", changed(test, "150 s", "20 s")).find("out-of-range") == 0);
    CHECK(studio.faults("settled", "test:\n  kind: settling test\n  name: Fresh\n  blanket:\n    - {time: 0 h, height: 100 mm}\n"
                                   "    - {time: 2 h, height: 62 mm}\n    - {time: 4 h, height: 48 mm}\n").find("settling-form") == 0);
}

TEST_CASE("A day is four figures, two and two, with hyphens between", "[unit]") {
    CHECK(day_of_iso("2026-06-02"));
    for (const char* none : {"", "2026-6-02", "2026-06-2", "2026/06-02", "2026-06/02", "20x6-06-02", "20/6-06-02", "20:6-06-02", "2026-06-0x", "2026-06-31", "2026-13-01",
                             "2026-06-02 ", "026-06-021"})
        CHECK_FALSE(day_of_iso(none));
}
