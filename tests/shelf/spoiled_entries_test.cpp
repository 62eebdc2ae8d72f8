// Entries of a jar's and of a bath's record, spoiled one line or value at a time: what is told of each, whole.

#include <catch2/catch.hpp>

#include "spoiled.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

struct SpoiltEntry {
    const char* what;
    const char* lines;
};

constexpr SpoiltEntry jar_entries[] = {
    {"weighed", "net: 21.5 +- 0.2 g\n"},
    {"drawn", "mass: 3 +- 0.1 g\nfor: a friend\n"},
    {"rub-out", "pigment: 2.00 g\noil: 40 drops\nscale: 0.01 g\ndropper: {drops: 50, weighed: 1.60 g}\n"},
    {"measured", "density: 1.91 g/cm3\ntapped_density: 0.41 g/cm3\nmoisture: 6.1 % w/w\nmedian_size: 21 um\n"},
    {"swatch", "family: test-family\npigment: 1.5 g\nmedium: gum-water\nmedium_mass: 2.0 g\nscale: 0.1 g\nlot: March\nsign: holds\nstroke: yes\n"},
    {"batch", "family: test-family\npigment: 12 g\nrecipe: test-paint\nmedium: gum-water\nmedium_mass: 15 g\ndry_binder: 3 mL\nk_spread: 0.02\nblend: no\n"},
    {"outcome", "of: 2026-03-01-01-batch\nsign: holds\n"},
    {"changed", ""},
    {"undo", "entry: 2026-03-01-01-drawn\n"},
    {"sieved", "test:\n  kind: sieve test\n  name: Weld\n  method: dry\n  charge: 20 g\n  grinding_time: 15 min\n  scale_step: 0.1 g\n"
               "  retained:\n    - {screen: 75 um, mass: 4 g}\n    - {screen: 45 um, mass: 6 g}\n  pan: 9.8 g\n"},
    {"settled", "test:\n  kind: settling test\n  name: Weld\n  temperature: 18 degC\n  grains: {size: 49 um, depth: 100 mm, time: 3 min}\n"},
};

constexpr SpoiltEntry bath_entries[] = {
    {"filter", "hour: \"08:30\"\nreading: \"0.5 L, 4 min\"\nwhole: 1.0 L\n"},
    {"poured", "reading: 115 mL\n"},
    {"alum", "reading: 2 g\n"},
    {"ph", "reading: \"5.4, pen, fizzing\"\n"},
    {"foam", "reading: 40 s\n"},
    {"blanket", "reading: \"100 mm, 62 mm, 48 mm every 2 h\"\n"},
    {"colour", "reading: 1 in 8\n"},
    {"wash-water", "reading: \"310 uS/cm, 16 degC\"\n"},
    {"decant", "reading: \"175 mg/L, factor 0.5, 16 degC\"\n"},
    {"cake", "reading: \"38.6 g, wet\"\n"},
    {"hue", "reading: warm rose\n"},
    {"swatch", "reading: 12\n"},
    {"jarred", "jar: madder-two\nnet: 10.4 g\n"},
    {"undo", "entry: 2026-06-01-01-poured\n"},
};

} // namespace

TEST_CASE("spoiled entries of a jar, whole", "[errors]") {
    Spoiled spoiled;
    const auto text = [](const SpoiltEntry& each) {
        return std::string("kind: entry\njar: jar\ndate: 2026-03-02\nwhat: ") + each.what + "\n" + each.lines + "note: mine\n";
    };
    for (const auto& each : jar_entries)
        spoiled.file(std::string(each.what) + ".yaml", text(each));
    const std::string batch = text(jar_entries[5]), swatch = text(jar_entries[4]), settled = text(jar_entries[10]);
    for (const char* binder : {"0.5 mL", "30 mL"})
        spoiled.changed_to("batch.yaml", batch, "dry_binder: 3 mL", std::string("dry_binder: ") + binder);
    spoiled.changed_to("batch.yaml", batch, "dry_binder: 3 mL\nk_spread: 0.02\nblend: no", "dry_binder: 30 mL\nk_spread: 0.02\nblend: yes");
    spoiled.changed_to("batch.yaml", batch, "medium: gum-water", "medium: of-old");
    spoiled.changed_to("batch.yaml", batch, "family: test-family", "family: test-famly");
    spoiled.changed_to("batch.yaml", batch, "family: test-family", "family: Test Family");
    spoiled.changed_to("swatch.yaml", swatch, "medium: gum-water", "medium: gum-watr");
    spoiled.changed_to("settled.yaml", settled, "grains: {size: 49 um, depth: 100 mm, time: 3 min}", "blanket: {heights: [100 mm, 62 mm, 48 mm], interval: 2 h}");
    check_expected("shelf", "spoiled-jar-entries", spoiled.text());
}

TEST_CASE("spoiled entries of a bath, whole", "[errors]") {
    Spoiled spoiled;
    const auto text = [](const SpoiltEntry& each) {
        return std::string("kind: bath entry\nbath: madder\ndate: 2026-06-02\nwhat: ") + each.what + "\n" + each.lines + "note: mine\n";
    };
    for (const auto& each : bath_entries)
        spoiled.file(std::string(each.what) + ".yaml", text(each));
    const std::string filter = text(bath_entries[0]);
    for (const char* hour : {"24:00", "08:60", "0830", "8:300", "08-30", "a8:30", "0b:30", "08:c0", "08:3d", "/0:30"})
        spoiled.changed_to("filter.yaml", filter, "08:30", hour);
    for (const char* date : {"2026-06-31", "2026/06/02", "2026-06/02", "20x6-06-02", "2026-06-0:", "2026-6-2"})
        spoiled.changed_to("filter.yaml", filter, "2026-06-02", date);
    const std::string ph = text(bath_entries[3]);
    for (const char* seen : {"5.4", "5.4, nose", "5.4, pen, bubbling", "5.4, pen, fizzing, now", "acid, pen", "-0.1, strip", "14.1, strip", "5,4, pen"})
        spoiled.changed_to("ph.yaml", ph, "5.4, pen, fizzing", seen);
    const std::string decant = text(bath_entries[8]);
    for (const char* pen : {"", " ", "175", "175 mg/L", "175 mg/L, times 0.5", "175 mg/L, factor half", "175 mg/L, factor 0", "some mg/L, factor 0.5",
                            "310 uS/cm, 16 degC, now", "310 uS/cm, 16 degC, a, b", "310 uS/cm, 16 g", "some uS/cm", "310 mS/cm"})
        spoiled.changed_to("decant.yaml", decant, "175 mg/L, factor 0.5, 16 degC", pen);
    const std::string swatch = text(bath_entries[11]);
    for (const char* number : {"0", "012", "1234567", "12a", "1.5", "\"\""})
        spoiled.changed_to("swatch.yaml", swatch, "12", number);
    const std::string hue = text(bath_entries[10]);
    for (const std::string& words : {std::string(200, 'x'), std::string(201, 'x'), std::string("\" \""), std::string("\"warm\\nrose\""), std::string("|\n  warm\n  rose")})
        spoiled.changed_to("hue.yaml", hue, "warm rose", words);
    const std::string colour = text(bath_entries[6]);
    for (const char* match : {"1 in", "1 in pale", "1 in 0.9", "1 in 1", "1 in 1000", "1 in 1001", "2 in 8"})
        spoiled.changed_to("colour.yaml", colour, "1 in 8", match);
    const std::string cake = text(bath_entries[9]);
    for (const char* mass : {"38.6", "38.6 g, damp", "38.6 g, wet, now", "0 g", "-1 g", "38,6 g"})
        spoiled.changed_to("cake.yaml", cake, "38.6 g, wet", mass);
    spoiled.changed_to("jarred.yaml", text(bath_entries[12]), "madder-two", "Madder Two");
    check_expected("shelf", "spoiled-bath-entries", spoiled.text());
}
