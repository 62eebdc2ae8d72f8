// Paints as they are typed, whole: what is made of each, or the one fault with its message and its hint.

#include <catch2/catch.hpp>

#include <cstdio>

#include "faults_of.hpp"
#include "lakebound/material/medium_properties.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "small_shelf.hpp"
#include "support/expected_text.hpp"
#include "support/in_folder.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

using Texts = std::vector<std::string>;

std::string six_digits(double x) {
    char text[32];
    std::snprintf(text, sizeof text, "%.6g", x);
    return text;
}
std::string told_figure(const char* name, double value, double relative) {
    return std::string(", ") + name + " " + six_digits(value) + " (" + six_digits(relative) + ")";
}

std::string told_aim(const Aim& aim) {
    const auto* medium = std::get_if<MediumPerPigment>(&aim);
    return medium != nullptr ? six_digits(medium->value()) + " to one" : std::visit([](auto x) { return "aim " + six_digits(x.value()); }, aim);
}

/// The question in lines.
std::string told_question(const PvcQuestion& q) {
    std::string text = "  = " + q.title + "\n";
    const Recipe& recipe = q.request.recipe;
    for (const auto& part : recipe.pigments) {
        const Pigment& p = part.pigment;
        text += "    " + p.id + " " + six_digits(part.share.value());
        text += told_figure("oil", 100.0 * p.oil_absorption.value().value().value(), p.oil_absorption->relative_uncertainty());
        text += told_figure("density", in_grams_per_cubic_centimetre(p.density.value()), p.density.relative_uncertainty());
        if (p.moisture) text += told_figure("moisture", p.moisture->value().value(), p.moisture->relative_uncertainty());
        if (p.tapped_density) text += told_figure("tapped", in_grams_per_cubic_centimetre(p.tapped_density->value()), p.tapped_density->relative_uncertainty());
        if (p.median_size) text += told_figure("size", in_micrometres(p.median_size->value()), p.median_size->relative_uncertainty());
        text += p.oil_absorption_belief ? ", believed" : "";
        text += p.density_state == MoistureState::bone_dry ? ", bone dry\n" : "\n";
    }
    text += "    " + recipe.medium.id + " as " + recipe.family.id + ", " + told_aim(*q.request.aim) +
            ", spooned " + six_digits(q.request.medium_spooned) + (q.oil_absorption_known ? "" : ", no oil absorption") +
            (q.density_known ? "" : ", no density") + (q.blend_measured ? ", blend read" : "") + (q.request.jar ? ", of the jar" : "") + "\n";
    for (const auto& each : q.request.by_volume)
        text += "    by volume: " + std::to_string(each.pigment) + "\n";
    for (const auto& line : q.assumed)
        text += "    assumed: " + line + "\n";
    return text;
}

std::string oil_family() {
    std::string text = changed(plain_family, "process: watercolour",
                               "process: oil\nmost_excess_water: {value: 12 % w/w, origin: estimate}\n"
                               "cured_oil_loses: {least: 2 %, most: 15 %, evidence: {origin: estimate}}");
    const auto from = text.find("plasticiser"), to = text.find("evidence: {origin: estimate, note");
    return text.erase(from, to - from);
}

/// A shelf with a bench that has spoons, a jar, a record of it, and a gum that is spooned as powder.
struct TypedShelf {
    SmallShelf shelf;
    InFolder here{shelf.dir().path()};

    TypedShelf() {
        shelf.dir().write("bench.yaml", std::string(plain_bench) + "teaspoon: 5 mL\ndrop: 0.05 mL\n");
        shelf.dir().write("jars/weld.yaml", changed(std::string(plain_jar), "name: Jar", "name: Weld lake") + "since: 2026-05-01\ntapped_density: 0.4 +- 0.02 g/cm3\n");
        shelf.dir().write("families/watercolour-pan.yaml", plain_family);
        shelf.dir().write("families/oil-family.yaml", oil_family());
        shelf.dir().write("ingredients/heap-gum.yaml", std::string(plain_gum) + "bulk_density: {value: 0.6 x/ 1.1 g/cm3, origin: estimate}\n");
        shelf.dir().write("recipes/alone.yaml", changed(plain_recipe, "  - {pigment: jar, share: 70 % w/w}\n  - {pigment: test-lake, share: 30 % w/w}", "  - {pigment: test-lake, share: 100 % w/w}"));
    }
    std::string made_of(const PaintTexts& texts) const {
        Library library = shelf.library();
        std::string text;
        const auto faults = faults_of([&] { text = told_question(paint_question(texts, library, [] { return std::string(plain_recipe); })); });
        for (const auto& fault : faults)
            text += "  ! " + fault.id + ": " + fault.message + "\n    hint: " + fault.hint + "\n";
        return text;
    }
};

/// Gathers what each typed paint comes to.
class TypedPaints {
public:
    template <class Change> void with(const char* name, Change change) {
        PaintTexts texts;
        texts.pigments = {"test-lake: 10 g"};
        texts.binders = {"gum-water: 40 g"};
        texts.family = "test-family";
        change(texts);
        text_ += std::string(name) + "\n" + shelf_.made_of(texts);
    }
    const std::string& text() const { return text_; }

private:
    TypedShelf shelf_;
    std::string text_;
};

} // namespace

TEST_CASE("binders and parts as they are typed, whole", "[unit][errors]") {
    TypedPaints paints;
    const auto binder = [&paints](const char* name, Texts binders) { paints.with(name, [&](auto& t) { t.binders = binders; }); };
    binder("by mass", {"gum-water: 40 g"});
    binder("by volume", {"gum-water: 20 mL"});
    binder("by the spoon", {"gum-water: 2 tsp"});
    binder("powder by the spoon", {"heap-gum: 2 tsp", "water: 30 g"});
    binder("powder by the millilitre", {"heap-gum: 10 mL", "water: 2 tsp"});
    binder("powder of unknown heap", {"test-gum: 2 tsp"});
    binder("water by the spoon", {"gum-water: 5 g", "water: 2 tsp"});
    binder("a mass without a name", {"40 g"});
    binder("a name without a mass", {"gum-water"});
    binder("a name with a capital", {"Gum-water: 40 g"});
    binder("a name that is none", {"gum-wter: 40 g"});
    binder("nothing that stays", {"water: 40 g"});
    binder("none", {});
    binder("two, one without its mass", {"gum-water: 5 g", "test-gum"});
    binder("drops", {"gum-water: 12 drops"});
    paints.with("whose family must be told", [](auto& t) { t.family.reset(); });
    paints.with("of another kind of paint", [](auto& t) { t.family = "oil-family"; });
    const auto parts = [&paints](const char* text, Texts tapped = {}, const char* paste = nullptr) {
        paints.with(text, [&](auto& t) {
            t.pigments = {"test-lake"}, t.binders = {"gum-water"}, t.parts = text, t.tapped_densities = tapped;
            if (paste != nullptr) t.paste = paste;
        });
    };
    parts("1 binder : 2 pigment by weight");
    parts("2 pigment : 1 binder by weight");
    parts("1 binder : 1 pigment by volume", {"0.5 g/cm3"});
    parts("1 binder : 2 pigment by volume");
    parts("1 binder : 2 pigment by volume", {}, "30 % v/v");
    parts("1 binder : 2 pigment by volume", {}, "0 % v/v");
    parts("1:2");
    parts("1:2 by weight");
    parts("1:2 by volume");
    parts("1:2 by volume", {"0.5 g/cm3"});
    parts("1:1");
    parts("1:1", {"0.5 g/cm3"});
    parts("1:1 by weight");
    parts("1 binder : 2 pigment");
    parts("1 binder : 2 pigment", {"0.5 g/cm3"});
    parts("a lot");
    const auto unknown = [&paints](const char* name, const char* typed, bool density, const char* paste = nullptr) {
        paints.with(name, [&](auto& t) {
            t.pigments = {"mine"}, t.binders = {"gum-water"}, t.parts = typed, t.oil_absorptions = {"mine: 50 g/100g"};
            if (density) t.oil_absorptions = {}, t.densities = {"mine: 2.0 g/cm3"};
            if (paste != nullptr) t.paste = paste;
        });
    };
    unknown("powder without an oil absorption, parts unordered", "1:2 by weight", true);
    unknown("powder without an oil absorption, parts without basis", "1 binder : 2 pigment", true);
    unknown("powder without a density, parts by weight", "1 binder : 2 pigment by weight", false);
    unknown("powder without a density, as a paste", "1 binder : 2 pigment by volume", false, "30 % v/v");
    paints.with("parts and an amount", [](auto& t) { t.parts = "1 binder : 2 pigment by weight"; });
    paints.with("parts and what was used", [](auto& t) { t.binders = {"gum-water"}, t.used = "30 g", t.parts = "1 binder : 2 pigment by weight"; });
    paints.with("used by mass", [](auto& t) { t.binders = {"gum-water"}, t.used = "30 g"; });
    paints.with("used by volume", [](auto& t) { t.binders = {"gum-water"}, t.used = "20 mL"; });
    paints.with("used by the spoon", [](auto& t) { t.binders = {"gum-water"}, t.used = "4 tsp"; });
    check_expected("shelf", "typed-binders", paints.text());
}

TEST_CASE("pigments as they are typed, whole", "[unit][errors]") {
    TypedPaints paints;
    const auto pigments = [&paints](const char* name, Texts typed, auto change) {
        paints.with(name, [&](auto& t) { t.pigments = typed, change(t); });
    };
    const auto plain = [](auto&) {};
    pigments("of the shelf", {"test-lake: 10 g"}, plain);
    pigments("by the spoon", {"test-lake: 2 tsp"}, [](auto& t) { t.tapped_densities = {"0.35 x/ 1.1 g/cm3"}; });
    pigments("by the spoon, of unknown heap", {"test-lake: 2 tsp"}, plain);
    pigments("one without a name", {"10 g"}, plain);
    pigments("one without a name, read", {"10 g"}, [](auto& t) { t.oil_absorptions = {"50 +- 5 g/100g"}, t.densities = {"2.0 g/cm3"}; });
    pigments("one's own, only its density", {"mine: 10 g"}, [](auto& t) { t.densities = {"mine: 2.0 g/cm3"}; });
    pigments("a name that is none", {"test-lke: 10 g"}, plain);
    pigments("of the jar, and none named", {"jar: 10 g"}, plain);
    pigments("of the jar", {"jar: 10 g"}, [](auto& t) { t.jar = "weld"; });
    pigments("of the jar by its pigment", {"test-lake: 10 g"}, [](auto& t) { t.jar = "weld"; });
    pigments("of the jar, without saying so", {"10 g"}, [](auto& t) { t.jar = "weld"; });
    pigments("of the jar, figures said of it", {"jar: 10 g"}, [](auto& t) { t.jar = "weld", t.oil_absorptions = {"jar: 80 g/100g"}, t.median_sizes = {"jar: 12 um"}, t.moistures = {"jar: 8 % w/w"}; });
    pigments("of the jar by volume", {"jar: 2 tsp"}, [](auto& t) { t.jar = "weld"; });
    pigments("a jar that nothing is taken from", {"mine: 10 g"}, [](auto& t) { t.jar = "weld", t.oil_absorptions = {"mine: 50 g/100g"}, t.densities = {"mine: 2.0 g/cm3"}; });
    pigments("a jar that may rest", {"mine: 10 g"}, [](auto& t) { t.jar = "weld", t.jar_may_rest = true, t.oil_absorptions = {"mine: 50 g/100g"}, t.densities = {"mine: 2.0 g/cm3"}; });
    pigments("two", {"test-lake: 6 g", "mine: 2 g"}, [](auto& t) { t.oil_absorptions = {"mine: 20 g/100g"}, t.densities = {"mine: 2.7 +- 0.1 g/cm3"}; });
    pigments("three", {"test-lake: 6 g", "mine: 2 g", "other: 2 g"}, [](auto& t) { t.oil_absorptions = {"mine: 20 g/100g", "other: 30 g/100g"}, t.densities = {"mine: 2.7 g/cm3", "other: 4 g/cm3"}; });
    pigments("two, one without its figures", {"test-lake: 6 g", "mine: 2 g"}, [](auto& t) { t.densities = {"mine: 2.7 g/cm3"}; });
    pigments("a blend that was read", {"test-lake: 6 g", "mine: 2 g"}, [](auto& t) { t.blend_oil_absorption = "50 g/100g", t.oil_absorptions = {"mine: 20 g/100g"}, t.densities = {"mine: 2.7 g/cm3"}; });
    pigments("a blend that was read, its parts not", {"test-lake: 6 g", "mine: 2 g"}, [](auto& t) { t.blend_oil_absorption = "50 +- 2 g/100g", t.densities = {"mine: 2.7 g/cm3"}; });
    pigments("one that was read as a blend", {"test-lake: 6 g"}, [](auto& t) { t.blend_oil_absorption = "50 g/100g"; });
    pigments("shares", {"test-lake: 60 % w/w", "mine: 40 % w/w"}, [](auto& t) { t.total = "8 g", t.oil_absorptions = {"mine: 20 g/100g"}, t.densities = {"mine: 2.7 g/cm3"}; });
    pigments("shares of nothing", {"test-lake: 100 % w/w"}, plain);
    pigments("shares that are too few", {"test-lake: 60 % w/w", "mine: 30 % w/w"}, [](auto& t) { t.total = "8 g", t.oil_absorptions = {"mine: 20 g/100g"}, t.densities = {"mine: 2.7 g/cm3"}; });
    pigments("a share beside a mass", {"test-lake: 6 g", "mine: 30 % w/w"}, [](auto& t) { t.oil_absorptions = {"mine: 20 g/100g"}, t.densities = {"mine: 2.7 g/cm3"}; });
    pigments("a total beside masses", {"test-lake: 6 g"}, [](auto& t) { t.total = "8 g"; });
    pigments("twice the same", {"test-lake: 6 g", "test-lake: 2 g"}, plain);
    pigments("a figure of none", {"test-lake: 6 g"}, [](auto& t) { t.moistures = {"mine: 8 % w/w"}; });
    pigments("damp", {"test-lake: 10 g"}, [](auto& t) { t.moistures = {"15 +- 2 % w/w"}; });
    pigments("bone dry, and said", {"test-lake: 10 g"}, [](auto& t) { t.moistures = {"0 % w/w"}; });
    pigments("wet", {"test-lake: 10 g"}, [](auto& t) { t.moistures = {"90 % w/w"}; });
    pigments("bone dry", {"test-lake: 10 g"}, [](auto& t) { t.bone_dry = true, t.densities = {"2.1 g/cm3"}, t.moistures = {"10 % w/w"}; });
    pigments("bone dry, and not how damp", {"test-lake: 10 g"}, [](auto& t) { t.bone_dry = true, t.densities = {"2.1 g/cm3"}; });
    pigments("by another oil", {"test-lake: 10 g"}, [](auto& t) { t.test_oil = "0.92 x/ 1.01 g/cm3", t.oil_absorptions = {"70 x/ 1.1 g/100g"}; });
    for (const char* humidity : {"92.5 %", "92.6 %", "30 %", "-1 %"})
        pigments(humidity, {"test-lake: 10 g"}, [&](auto& t) { t.humidity = humidity; });
    for (const char* oil : {"0 g/100g", "401 g/100g", "400 g/100g", "1.9 g/100g", "50 +- 50 g/100g", "50 +- 49 g/100g", "50", "50 %"})
        pigments(oil, {"test-lake: 10 g"}, [&](auto& t) { t.oil_absorptions = {oil}; });
    for (const char* density : {"0 g/cm3", "0.005 g/cm3", "40 g/cm3", "2 +- 2 g/cm3", "0.01 g/cm3", "25 g/cm3", "25.1 g/cm3", "2 x/ 1.1 g/cm3", "2 kg"})
        pigments(density, {"test-lake: 10 g"}, [&](auto& t) { t.densities = {density}; });
    for (const char* size : {"0 um", "12 x/ 1.2 um", "12", "5 mm", "5.1 mm", "1 nm", "0.9 nm"})
        pigments(size, {"test-lake: 10 g"}, [&](auto& t) { t.median_sizes = {size}; });
    check_expected("shelf", "typed-pigments", paints.text());
}

TEST_CASE("a recipe as it is asked for, whole", "[unit][errors]") {
    TypedPaints paints;
    const auto recipe = [&paints](const char* name, auto change) {
        paints.with(name, [&](auto& t) { t = {}, t.recipe = "alone", change(t); });
    };
    recipe("as it stands", [](auto&) {});
    recipe("of so much", [](auto& t) { t.total = "8 g"; });
    recipe("of nothing", [](auto& t) { t.total = "0 g"; });
    recipe("what went in", [](auto& t) { t.total = "8 g", t.used = "20 g"; });
    recipe("what went in, to what", [](auto& t) { t.used = "20 g"; });
    recipe("as another family", [](auto& t) { t.family = "watercolour-pan"; });
    recipe("as another kind", [](auto& t) { t.family = "oil-family"; });
    recipe("with a figure of its pigment", [](auto& t) { t.oil_absorptions = {"70 g/100g"}; });
    recipe("with a figure of none", [](auto& t) { t.oil_absorptions = {"mine: 70 g/100g"}; });
    recipe("of the jar", [](auto& t) { t.recipe = "test-paint", t.jar = "weld"; });
    recipe("of the jar, read anew", [](auto& t) { t.recipe = "test-paint", t.jar = "weld", t.oil_absorptions = {"jar: 70 g/100g"}; });
    recipe("of a jar, and none named", [](auto& t) { t.recipe = "test-paint"; });
    recipe("from standard input", [](auto& t) { t.recipe = "-", t.jar = "weld"; });
    recipe("and pigments beside it", [](auto& t) { t.pigments = {"test-lake: 6 g"}; });
    recipe("and a binder beside it", [](auto& t) { t.binders = {"gum-water: 6 g"}; });
    recipe("that is none", [](auto& t) { t.recipe = "alne"; });
    check_expected("shelf", "typed-recipes", paints.text());
}
