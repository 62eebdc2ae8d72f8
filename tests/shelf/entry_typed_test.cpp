#include "lakebound/shelf/entry_typed.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "faults_of.hpp"
#include "small_shelf.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// A bench with a fine scale and a coarse one; the finest is not the first.
EntryContext context() {
    EntryContext context;
    context.jar = "weld";
    context.date = "2026-05-02";
    context.bench.scales = {{"kitchen", grams(0.1), grams(500.0), std::nullopt},
                            {"pocket", grams(0.01), grams(100.0), std::nullopt}};
    return context;
}

/// The lines below `what`.
std::string lines(const TypedEntry& entry) {
    const std::string head = "kind: entry\njar: weld\ndate: 2026-05-02\nwhat: " + entry.what + "\n";
    REQUIRE(entry.text.rfind(head, 0) == 0);
    return entry.text.substr(head.size());
}

/// Message and hint of the one fault.
template <class Code> std::string told(Code&& code) {
    const auto faults = faults_of(code);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].id == "entry-typed");
    return faults[0].message + " | " + faults[0].hint;
}

bool begins(const std::string& text, const std::string& with) { return text.rfind(with, 0) == 0; }

StoryLine line_of(const std::string& name) {
    StoryLine line;
    line.name = name;
    return line;
}

} // namespace

TEST_CASE("A weighing alone is as sure as the scale that shows its decimals", "[unit]") {
    // A step read once and once more for the jar, each between two steps: the room of material says how much
    const auto& scales = context().bench.scales;
    const double kitchen = in_grams(standard_uncertainty(scales[0])), pocket = in_grams(standard_uncertainty(scales[1]));
    CHECK(kitchen == Approx(10.0 * pocket));
    const auto doubt = [](const std::string& typed) {
        const std::string text = lines(typed_weighed(context(), typed));
        const auto at = text.find(" +- ");
        REQUIRE(at != std::string::npos);
        CHECK(begins(text, "net: "));
        return std::stod(text.substr(at + 4));
    };
    CHECK(doubt("21.5 g") == Approx(kitchen).margin(5e-5));
    CHECK(doubt("21.50 g") == Approx(pocket).margin(5e-5));
    CHECK(begins(lines(typed_weighed(context(), "21.5 g")), "net: 21.500 +- "));
    CHECK(lines(typed_weighed(context(), "21.5 +- 0.3 g")) == "net: 21.5 +- 0.3 g\n");
    CHECK(lines(typed_weighed(context(), "much")) == "net: much\n"); // told where the entry is read
}

TEST_CASE("What is typed of a powder becomes the keys of its entry, in the order of the hands", "[unit]") {
    auto with = context();
    CHECK(lines(typed_drawn(with, "3 g")) == "mass: 3 g\n");
    CHECK(lines(typed_change(with)).empty());
    CHECK(lines(typed_measured(with, " density : 1.86 +- 0.05 g/cm3 ")) == "density: 1.86 +- 0.05 g/cm3\n");
    CHECK(lines(typed_rub_out(with, "2.00 g, 1.56 g", {})) == "pigment: 2.00 g\noil: 1.56 g\nscale: 0.01 g\n");
    CHECK(lines(typed_rub_out(with, "2.00 g, 43 drops", "50 drops, 1.81 g")) ==
          "pigment: 2.00 g\noil: 43 drops\nscale: 0.01 g\ndropper: {drops: 50, weighed: 1.81 g}\n");
    CHECK(lines(typed_swatch(with, "0.20 g, 0.83 g", "pan", "gum")) ==
          "family: pan\npigment: 0.20 g\nmedium: gum\nmedium_mass: 0.83 g\nscale: 0.01 g\n");
    with.lot = "new \"one\"";
    with.note = "by lamp";
    CHECK(lines(typed_swatch(with, "0.20 g, 0.83 g: stays sticky", "pan", "gum")) ==
          "family: pan\npigment: 0.20 g\nmedium: gum\nmedium_mass: 0.83 g\nscale: 0.01 g\n"
          "lot: \"new \\\"one\\\"\"\nsign: stays sticky\nnote: \"by lamp\"\n");
    CHECK(lines(typed_stroke(with, "6.0 g, 4.6 g: chalks", "pan", "gum")) ==
          "family: pan\npigment: 6.0 g\nmedium: gum\nmedium_mass: 4.6 g\nscale: 0.01 g\n"
          "lot: \"new \\\"one\\\"\"\nsign: chalks\nstroke: yes\nnote: \"by lamp\"\n");
    CHECK(lines(typed_note(with)) == "note: \"by lamp\"\n");
}

TEST_CASE("A batch that was mixed is kept with the binder that its medium brings", "[unit]") {
    SmallShelf shelf;
    Library library = shelf.library();
    const auto text = lines(typed_mixed(context(), "6.0 g, 9.0 g", "pan", library.medium("gum-water")));
    // gum 1 to water 2, of the gum 87 % stay, at 1.5 g/cm3: 9 * .87 / 3 / 1.5
    CHECK(text.find("family: pan\npigment: 6.0 g\nmedium: gum-water\nmedium_mass: 9.0 g\ndry_binder: 1.7400 mL\nk_spread: ") == 0);
    const double s = in_grams(standard_uncertainty(context().bench.scales[0]));
    CHECK(std::stod(text.substr(text.find("k_spread: ") + 10)) == Approx(std::hypot(s / 6.0, s / 9.0)).epsilon(1e-4));
    CHECK(begins(told([] { typed_mixed(context(), "6.0 g", "pan", Medium{}); }), "--mixed \"6.0 g\": expected the powder and the medium"));
    CHECK(summary(faults_of([&] { typed_mixed(context(), "0 g, 9 g", "pan", library.medium("gum-water")); })) == "out-of-range");
}

TEST_CASE("Each form that is typed wrongly is told with how to write it", "[errors]") {
    CHECK(begins(told([] { typed_rub_out(context(), "2.00 g", {}); }), "--rub-out \"2.00 g\": expected the powder and the oil | "));
    for (const char* dropper : {"50, 1.81 g", "50 drops", "drops, 1.81 g", "50drops, 1.81 g"})
        CHECK(begins(told([&] { typed_rub_out(context(), "2 g, 43 drops", dropper); }),
                     std::string("--dropper \"") + dropper + "\": expected how many drops weigh how much"));
    CHECK(begins(told([] { typed_measured(context(), "density"); }), "--measured \"density\": expected which figure"));
    CHECK(begins(told([] { typed_swatch(context(), "0.2 g: chalks", "pan", "gum"); }), "--swatch \"0.2 g: chalks\": expected the powder"));
    CHECK(begins(told([] { typed_stroke(context(), "6.0 g, 4.6 g", "pan", "gum"); }), "--stroke \"6.0 g, 4.6 g\": expected"));
    CHECK(begins(told([] { typed_stroke(context(), "6.0 g: chalks", "pan", "gum"); }), "--stroke \"6.0 g: chalks\": expected"));
    CHECK(told([] { typed_swatch(context(), "1 g, 2 g: chalk", "pan", "gum"); }) ==
          "--swatch \"chalk\": no such sign | did you mean 'chalks'? it is one of: chalks, does not chalk, holds, shines, "
          "cracks, stays sticky, wrinkles, grows mould, thrown away");
}

TEST_CASE("A sign goes to the swatch that waits, an outcome to the last batch, or to that number", "[unit][errors]") {
    JarStory story;
    CHECK(begins(told([&] { typed_sign(context(), "chalks", story); }), "--saw \"chalks\": no swatch of this jar waits"));
    CHECK(begins(told([&] { typed_outcome(context(), "holds", story); }), "--went \"holds\": no batch of this jar was kept"));
    CHECK(begins(told([&] { typed_undo(context(), "last", story); }), "--undo \"last\": this jar has no entries"));
    for (const char* name : {"s1", "b1", "s2", "b2"})
        story.lines.push_back(line_of(name));
    story.lines[0].number = 1, story.lines[2].number = 2; // the swatches
    story.open.resize(1);
    story.open[0].line = 2;
    story.batches = {1, 3};
    CHECK(lines(typed_sign(context(), "chalks", story)) == "of: s2\nsign: chalks\n");
    CHECK(lines(typed_outcome(context(), "holds", story)) == "of: b2\nsign: holds\n");
    CHECK(lines(typed_outcome(context(), "1 holds", story)) == "of: b1\nsign: holds\n");
    CHECK(lines(typed_outcome(context(), "1: holds", story)) == "of: b1\nsign: holds\n");
    CHECK(lines(typed_outcome(context(), "1:Holds", story)) == "of: b1\nsign: holds\n");
    for (const char* text : {"Does  not chalk", "doesn't chalk", "doesn\xE2\x80\x99t chalk", "DOES NOT CHALK"})
        CHECK(lines(typed_sign(context(), text, story)) == "of: s2\nsign: does not chalk\n");
    CHECK(lines(typed_outcome(context(), "2 does not chalk", story)) == "of: b2\nsign: does not chalk\n");
    for (const char* text : {"0 holds", "3 holds"})
        CHECK(told([&] { typed_outcome(context(), text, story); }) ==
              std::string("--went \"") + text + "\": there is no such batch | they are numbered from 1, the oldest, to 2");
    story.open.resize(2);
    story.open[0].line = 0;
    story.open[1].line = 2;
    CHECK(told([&] { typed_sign(context(), "chalks", story); }) ==
          "--saw \"chalks\": 2 swatches wait to be judged | say which, by its number on the card: --saw \"1 chalks\"");
    CHECK(lines(typed_sign(context(), "1 chalks", story)) == "of: s1\nsign: chalks\n");
    CHECK(lines(typed_sign(context(), "2 chalks", story)) == "of: s2\nsign: chalks\n");
    for (const char* text : {"0 chalks", "3 chalks"})
        CHECK(told([&] { typed_sign(context(), text, story); }) ==
              std::string("--saw \"") + text + "\": no swatch of that number waits | those that wait: 1, 2");
    CHECK(lines(typed_undo(context(), "last", story)) == "entry: b2\n");
    for (const char* name : {"s1", "s1.yaml", "records/weld/s1.yaml"})
        CHECK(lines(typed_undo(context(), name, story)) == "entry: s1\n");
    CHECK(told([&] { typed_undo(context(), "b9", story); }).find("its last one is 'b2'") != std::string::npos);
}

TEST_CASE("A sieve test stands in its entry as it was weighed", "[unit]") {
    const TempDir dir;
    const auto path = dir.write("fine.yaml", "kind: sieve test\nname: Fine\ncharge: 10.00 g\ngrinding_time: 5 min\nretained:\n"
                                             "  - {screen: 125 um, mass: 2.5 g}\n  - {screen: 63 um, mass: 4.25 g}\npan: 3.2 g\n"
                                             "scale_step: 0.01 g\ndensity: 1.9 g/cm3\n");
    CHECK(lines(typed_sieving(context(), path)) ==
          "test:\n  kind: sieve test\n  name: \"Fine\"\n  charge: 10 g\n  grinding_time: 5.0000 min\n  retained:\n"
          "    - {screen: 125.00 um, mass: 2.5 g}\n    - {screen: 63.000 um, mass: 4.25 g}\n  pan: 3.2 g\n  scale_step: 0.01 g\n"
          "  density: 1.9000 g/cm3\n");
}

TEST_CASE("A size without its unit is asked for in micrometres, not millimetres", "[errors]") {
    const auto faults = faults_of([] { typed_measured(context(), "median_size: 12"); });
    REQUIRE(summary(faults) == "unit-missing");
    CHECK(faults[0].hint == "write the unit as well: --measured \"median_size: 12 um\"");
    CHECK(lines(typed_measured(context(), "median_size: 12 um")) == "median_size: 12 um\n");
    CHECK(lines(typed_measured(context(), "moisture: 5")) == "moisture: 5\n"); // told where the entry is read
}

TEST_CASE("Swatches are entered as planned where the card asks for them, and only there", "[unit][errors]") {
    JarStory story;
    story.family.id = "pan", story.medium_id = "gum";
    auto& outlook = story.outlook;
    const auto refused = [&] { return told([&] { planned_swatches(context(), story); }); };
    CHECK(begins(refused(), "--as-planned: the card asks for no swatch now"));
    CoachStep step;
    step.cost.kind = StepKind::rub_out;
    outlook.coaching.steps = {step};
    outlook.coaching.recommended = 0;
    CHECK(begins(refused(), "--as-planned: the card asks for no swatch now"));
    outlook.coaching.steps[0].cost.kind = StepKind::swatches;
    outlook.swatches = {{1, grams(0.2), grams(0.71), BinderSufficiency::of(1.2), 0.03}, {0, grams(2.0), grams(8.8125), BinderSufficiency::of(1.5), 0.03}};
    const auto entries = planned_swatches(context(), story);
    REQUIRE(entries.size() == 2);
    CHECK(lines(entries[0]) == "family: pan\npigment: 0.2 g\nmedium: gum\nmedium_mass: 0.71 g\nscale: 0.01 g\n");
    CHECK(lines(entries[1]) == "family: pan\npigment: 2 g\nmedium: gum\nmedium_mass: 8.8125 g\nscale: 0.1 g\n");
    story.open.resize(1);
    CHECK(begins(refused(), "--as-planned: swatches of this jar wait to be judged first"));
}

TEST_CASE("A batch is kept by what its sheet lets be weighed, and by its own k", "[reference]") {
    // 10 g of Lake M in oil at k 1.35: the sheet rounds the oil to 9.3 g, which is 9.3/.93 = 10.000 mL of binder.
    auto request = example_request(Process::oil);
    const Batch batch = *size_batch(request).batch;
    const auto text = lines(kept_batch(context(), request, batch, 0, 0.0123456));
    CHECK(text == "recipe: example-tube\nfamily: oil\npigment: 10 g\nmedium: linseed\nmedium_mass: 9.3 g\n"
                  "dry_binder: 10.000 mL\nk_spread: 0.012346\n");
    // Of a blend the jar's own powder is told, by its place.
    auto second = request.recipe.pigments[0];
    second.pigment.id = "chalk", second.pigment.name = "Chalk";
    second.share = MassFraction::of(0.3), request.recipe.pigments[0].share = MassFraction::of(0.7);
    request.recipe.pigments.push_back(second);
    const Batch two = *size_batch(request).batch;
    CHECK(lines(kept_batch(context(), request, two, 0, 0.01)).find("pigment: 7 g\n") != std::string::npos);
    CHECK(lines(kept_batch(context(), request, two, 1, 0.01)).find("pigment: 3 g\n") != std::string::npos);
    CHECK(lines(kept_batch(context(), request, two, 1, 0.01)).find("blend: yes\n") != std::string::npos);
    CHECK(text.find("blend") == std::string::npos);
}

TEST_CASE("Drops are taken as they were last weighed, and that is said", "[unit]") {
    Studio studio;
    CHECK_FALSE(last_dropper(studio));
    const auto enter = [&](const char* id, int day, std::optional<int> drops) {
        ReadEntry read;
        read.entry.id = id;
        read.entry.day = std::chrono::sys_days(std::chrono::days(day));
        if (drops) read.dropper = DropCalibration{*drops, grams(1.81), {}};
        studio.entries.push_back(read);
    };
    enter("weld/2026-05-01-01-rub-out", 1, 50);
    enter("madder/2026-05-03-01-rub-out", 3, 40);
    enter("weld/2026-05-02-01-rub-out", 2, 30);
    enter("weld/2026-05-04-01-rub-out", 4, {});
    REQUIRE(last_dropper(studio));
    CHECK(last_dropper(studio)->calibration.drops == 40);
    enter("weld/2026-05-03-02-rub-out", 3, 45); // of the same day, later
    CHECK(last_dropper(studio)->calibration.drops == 45);
    studio.entries.pop_back();
    const auto known = last_dropper(studio);
    REQUIRE(known);
    CHECK(known->calibration.drops == 40);
    CHECK(known->date == "2026-05-03");
    const auto drops = typed_rub_out(context(), "2.00 g, 43 drops", {}, known);
    CHECK(lines(drops).find("dropper: {drops: 40, weighed: 1.81 g}\n") != std::string::npos);
    CHECK(drops.remark.find("rub-out of 2026-05-03: 40 drops, 1.81 g.") != std::string::npos);
    CHECK(lines(typed_rub_out(context(), "2.00 g, 43 drops", "50 drops, 1.90 g", known)).find("{drops: 50, weighed: 1.90 g}") != std::string::npos);
    const auto unknown = faults_of([] { typed_rub_out(context(), "2.00 g, 43 drops", {}); });
    REQUIRE(summary(unknown) == "rub-out-oil");
    CHECK(begins(unknown[0].message, "--rub-out \"2.00 g, 43 drops\": what a drop weighs is not said"));
    const auto weighed = typed_rub_out(context(), "2.00 g, 1.56 g", {}, known);
    CHECK(lines(weighed).find("dropper") == std::string::npos);
    CHECK(weighed.remark.empty());
}

TEST_CASE("A settling test stands in its entry as it was timed, and a blanket in none", "[unit][errors]") {
    const TempDir dir;
    const auto path = dir.write("grains.yaml", "kind: settling test\nname: Grains\ntemperature: 19 degC\n"
                                               "grains: {size: 49 um, depth: 100 mm, time: 150 s}\n");
    CHECK(lines(typed_settling(context(), path)) ==
          "test:\n  kind: settling test\n  name: \"Grains\"\n  temperature: 19.000 degC\n"
          "  grains: {size: 49.000 um, depth: 100.00 mm, time: 150.00 s}\n");
    const auto blanket = dir.write("fresh.yaml", "kind: settling test\nname: Fresh\nblanket:\n  - {time: 0 h, height: 100 mm}\n"
                                                 "  - {time: 2 h, height: 62 mm}\n  - {time: 4 h, height: 48 mm}\n");
    CHECK(told([&] { typed_settling(context(), blanket); }).find("a jar's test is of timed grains") != std::string::npos);
}

TEST_CASE("A sieve test is kept with what it says, and no more", "[unit]") {
    const TempDir folder;
    const auto kept = [&](const std::string& text) { return lines(typed_sieving(context(), folder.write("test.yaml", text))); };
    CHECK(kept("kind: sieve test\nname: \"Weld \\\"a\\\"\"\nretained:\n  - {screen: 75 um, mass: 1.5 g}\n  - {screen: 45 um, mass: 2 g}\npan: 6.4 g\n") ==
          "test:\n  kind: sieve test\n  name: \"Weld \\\"a\\\"\"\n  retained:\n    - {screen: 75.000 um, mass: 1.5 g}\n    - {screen: 45.000 um, mass: 2 g}\n  pan: 6.4 g\n");
    CHECK(kept("kind: sieve test\nname: Wet\nmethod: wet\ncharge: 10 g\ngrinding_time: 15 min\ndensity: 1.88 g/cm3\nscale_step: 0.01 g\nretained:\n  - {screen: 45 um, mass: 2.5 g}\n") ==
          "test:\n  kind: sieve test\n  name: \"Wet\"\n  method: wet\n  charge: 10 g\n  grinding_time: 15.000 min\n  retained:\n    - {screen: 45.000 um, mass: 2.5 g}\n"
          "  scale_step: 0.01 g\n  density: 1.8800 g/cm3\n");
}
