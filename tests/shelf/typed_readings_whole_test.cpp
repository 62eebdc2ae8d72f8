// What is typed of baths, mortars and series, whole: what each text is taken for, or its fault with message and hint.

#include <catch2/catch.hpp>

#include <cstdio>
#include <functional>
#include <string>
#include <vector>

#include "faults_of.hpp"
#include "lakebound/shelf/typed_bath_reading.hpp"
#include "lakebound/shelf/typed_fineness.hpp"
#include "lakebound/shelf/typed_grinding.hpp"
#include "lakebound/shelf/typed_parts.hpp"
#include "lakebound/shelf/typed_salt.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"
#include "shelf/typed_masses.hpp"
#include "support/bench_practice.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

std::string figure(double x) {
    char text[40];
    std::snprintf(text, sizeof text, "%.9g", x);
    return text;
}

class TypedTexts {
public:
    /// Each of the texts as `told` takes it.
    void of(const std::string& what, const std::vector<std::string>& texts, const std::function<std::string(const std::string&)>& told) {
        text_ += "==== " + what + "\n";
        for (const std::string& text : texts) {
            std::string shown = text.size() > 60 ? text.substr(0, 20) + "... (" + std::to_string(text.size()) + ")" : text;
            for (char& c : shown)
                if (c == '\n' || c == '\t') c = '|';
            text_ += "'" + shown + "'";
            std::string found;
            const auto faults = faults_of([&] { found = " = " + told(text) + "\n"; });
            if (faults.empty()) text_ += found;
            for (const auto& fault : faults)
                text_ += "\n  " + fault.id + ": " + (text.size() > 60 ? fault.message.substr(0, 30) : fault.message) + "\n  hint: " + fault.hint + "\n";
        }
    }
    const std::string& text() const { return text_; }

private:
    std::string text_;
};

std::string pen_words(const PenReading& r) {
    return figure(in_microsiemens_per_centimetre(r.shown)) + " uS/cm at " + figure(in_degrees_celsius(r.water)) +
           (r.compensation ? (*r.compensation == Compensation::none ? " as it is" : " at 25") : "");
}
std::string joined_by(const std::vector<std::string>& all) {
    std::string text;
    for (const auto& each : all)
        text += "[" + each + "]";
    return text;
}

} // namespace

TEST_CASE("readings of a bath as they are typed, whole", "[unit][errors]") {
    TypedTexts t;
    t.of("pieces", {"a, b", "a,b,c", " a ", "", ",", "a,", "1.5 g, 2", "1,5", "1,5 g, 2,5 g", "a1,b", "a,1", "1,b", "0,9"},
         [](const std::string& text) { return joined_by(typed_pieces(text, ',')); });
    t.of("words", {"a b", "a  b", "1,5 g", ""}, [](const std::string& text) { return joined_by(typed_pieces(text, ' ')); });
    t.of("pH",
         {"6.4, pen", "6.4, strip", "6.4, pen, fizzing", "6.4, strip, fizzing", "0, pen", "14, pen", "-0.0001, pen", "14.0001, pen", "6.4", "6.4, nose", "6.4, pen, still",
          "6.4, pen, fizzing, yet", "six, pen", "6.4 g, pen", ", pen", "", "6,4, pen", "pen, 6.4"},
         [](const std::string& text) {
             const PhSeen seen = typed_ph("--ph", text);
             return figure(seen.ph.value()) + (seen.means == PhMeans::pen ? " pen" : " strip") + (seen.fizzing ? " fizzing" : "");
         });
    t.of("pen",
         {"350 uS/cm", "350 uS/cm, 16 degC", "0 uS/cm", "350 uS/cm, 61 degF", "350 uS/cm, 16", "350 uS/cm, 16 degC, 17 degC", "350", "350 mS/cm", " uS/cm", "x uS/cm",
          "175 mg/L, factor 0.5", "245 mg/L, factor 0.7, 16 degC", "175 mg/L", "175 mg/L, 0.5", "175 mg/L, factor 0.3", "175 mg/L, factor 0.2999", "175 mg/L, factor 1", "175 mg/L, factor 1.0001",
          "175 mg/L, factor x", "x mg/L, factor 0.5", "175 mg/L, factor 0.5, 16 degC, x", "175 mg/L, 16 degC, factor 0.5", "", ","},
         [](const std::string& text) { return pen_words(typed_pen_reading("--decant", text)); });
    t.of("filter", {"0.5 L, 4 min", "500 mL, 240 s", "0.5 L", "0.5 L, 4 min, x", "4 min, 0.5 L", "0 L, 4 min", "0.5 L, 0 min", "0,5 L, 4 min", ""}, [](const std::string& text) {
        const FilterReading r = typed_filter_reading("--filter", text);
        return figure(in_millilitres(r.filtrate)) + " mL in " + figure(in_seconds(r.time)) + " s";
    });
    t.of("colour", {"1 in 8", "1 in  8 ", "1 in 1", "1 in 0.9999", "1 in 1000", "1 in 1000.1", "1 in eight", "1 in ", "8", "1:8", ""},
         [](const std::string& text) { return figure(typed_colour_match("--colour", text).dilution); });
    t.of("cake", {"38.6 g", "38.6 g, wet", "38.6 g, dry", "38.6 g, wet, wet", "", "0 g", "38.6", "38.6 mL", "wet"}, [](const std::string& text) {
        const CakeEntry c = typed_cake("--cake", text);
        return figure(in_grams(c.mass)) + " g" + (c.surface_wet ? " wet" : "");
    });
    t.of("hue", {"warm rose", "  warm rose, wet ", "", "   ", "warm\nrose", std::string(200, 'a'), std::string(201, 'a')},
         [](const std::string& text) { return std::to_string(typed_hue("--hue", text).size()); });
    t.of("swatch", {"1", "12", "999999", "1000000", "0", "01", "1a", "-1", "+1", "", " 1", "1.0", "9:"},
         [](const std::string& text) { return std::to_string(typed_swatch_number("--swatch", text)); });
    t.of("hour", {"00:00", "08:30", "19:59", "23:59", "24:00", "23:60", "8:30", "08:3", "08.30", "0830", "", "08:300"},
         [](const std::string& text) { return std::to_string(typed_hour("--at", text).count()); });
    t.of("blanket",
         {"100 mm, 62 mm, 48 mm every 2 h", "10 cm, 6.2 cm, 4.8 cm every 30 min", "5 m, 1 mm, 1 mm every 1 s", "100 mm, 62 mm, 0.9 mm every 2 h", "100 mm, 5.1 m, 48 mm every 2 h",
          "5.1 m, 62 mm, 48 mm every 2 h", "100 mm, 62 mm every 2 h", "100 mm, 62 mm, 48 mm, 40 mm every 2 h", "100 mm, 62 g, 48 mm every 2 h"},
         [](const std::string& text) {
             const auto b = blanket_option("--blanket", text);
             return figure(in_millimetres(b.first)) + " " + figure(in_millimetres(b.second)) + " " + figure(in_millimetres(b.third)) + " mm every " + figure(in_seconds(b.interval)) + " s";
         });
    t.of("series",
         {"1 g, 2 g, 3 g every 24 h", " 1 g ,2 g,  3 g  every 24 h", "1 g,2 g,3 g,4 g every 1 min", "1 g, 2 g every 24 h", "1 g, 2 g, 3 g", "1 g, , 3 g every 24 h", ", 1 g, 2 g, 3 g every 24 h",
          "1 g, 2 g, 3 g, every 24 h", "1 g, 2 g, 3 g every 0 h", "1 g, 2 g, 3 g every -1 h", "1 g, 2 g, 3 g every 24", "1 g, 2 g, 3 g every 0.001 s", "1,5 g, 2 g, 3 g every 24 h", " every 24 h", ""},
         [](const std::string& text) {
             const auto s = series_option("--drying", text, "an example");
             return joined_by(s.readings) + " every " + figure(in_seconds(s.interval)) + " s";
         });
    check_expected("shelf", "typed-readings", t.text());
}

TEST_CASE("what is typed of mortars, parts and amounts, whole", "[unit][errors]") {
    TypedTexts t;
    t.of("stays",
         {"6.3 g after 2 rounds of 5 min", "6.3 g after 1 round of 5 min", "6.3 g after 99 rounds of 90 s, wet", "6.3 g after 2 rounds of 5 min, dry", "6.3 g after 2 rounds of 5 min,levigated",
          "6.3 g after 0 rounds of 5 min", "6.3 g after 100 rounds of 5 min", "6.3 g after two rounds of 5 min", "6.3 g after 2 goes of 5 min", "6.3 g after 2 of 5 min", "6.3 g after  rounds of 5 min",
          "6.3 g after 2 rounds", "6.3 g of 5 min after 2 rounds", "6.3 g after of 5 min", " after 2 rounds of 5 min", "6.3 g after 2 rounds of ", "6.3 g after 2 rounds of 5 min, sifted",
          "6.3 g after 2 rounds of 5 min,", "0 g after 2 rounds of 5 min", "6.3 g after 2 rounds of 0 min", "6.3 after 2 rounds of 5 min", "g after 1 round of s", ""},
         [](const std::string& text) {
             const auto s = stays_option("--stays", text);
             return figure(in_grams(s.stays)) + " g after " + std::to_string(s.rounds) + " of " + figure(in_seconds(s.cycle)) + " s" + (s.by ? ", by " + std::to_string(static_cast<int>(*s.by)) : "");
         });
    t.of("gauge",
         {"60 um, 38 um, 27 um every 10 min", "4 Hegman, 5 Hegman, 6.5 Hegman every 10 min", "0 Hegman, 8 Hegman, 8.1 Hegman every 10 min", "60 um, Hegman, 27 um every 10 min", "60, 38 um, 27 um every 10 min",
          "x Hegman, 38 um, 27 um every 10 min", "60 um, 0 um, 27 um every 10 min", "60 um, 38 um every 10 min"},
         [](const std::string& text) {
             std::string found;
             for (const auto& r : gauge_option("--mull", text))
                 found += figure(in_micrometres(r.fineness)) + " um at " + figure(in_seconds(r.time)) + " s; ";
             return found;
         });
    const auto say = [&](const char* what, const std::vector<std::string>& texts, std::optional<std::string> GrindTexts::* into, const std::function<std::string(const GrindSay&)>& of) {
        t.of(what, texts, [&](const std::string& text) {
            GrindTexts typed;
            typed.*into = text;
            return of(grind_say(typed));
        });
    };
    say("handling", {"5 min", "0 min", "-0.0001 min", "5", "5 g"}, &GrindTexts::handling, [](const GrindSay& s) { return figure(in_seconds(*s.handling)); });
    say("drying", {"10 h", "0 h", "-1 s"}, &GrindTexts::drying, [](const GrindSay& s) { return figure(in_seconds(*s.drying)); });
    say("loss", {"1 %", "50 %", "50.01 %", "0 %", "-1 %", "1"}, &GrindTexts::loss, [](const GrindSay& s) { return figure(s.loss->value()); });
    say("emptier", {"0", "0.7", "2", "2.0001", "-0.0001", "much", "1 %", ""}, &GrindTexts::emptier, [](const GrindSay& s) { return figure(s.emptier_is_faster->value()); });
    say("cycle", {"5 min", "0.001 s", "0 min"}, &GrindTexts::cycle, [](const GrindSay& s) { return figure(in_seconds(*s.cycle)); });
    say("density", {"1.9 g/cm3", "0 g/cm3"}, &GrindTexts::density, [](const GrindSay& s) { return figure(in_grams_per_cubic_centimetre(*s.density)); });
    say("largest", {"400 um", "0.4 mm", "400", "0 um", "No. 40"}, &GrindTexts::largest, [](const GrindSay& s) { return figure(in_micrometres(*s.largest_grain)); });
    t.of("size", {"45 um", "No. 325", "0.1 mm", "45", "0 um", "45 g", "", "mesh 325"}, [](const std::string& text) { return figure(in_micrometres(size_option("--cut", text))); });
    t.of("parts",
         {"1 binder : 2 pigment by weight", "2 powder:1 medium by volume", "1:1", "0.3 : 0.3 by mass", "1 : 2 pigment", "1 pigment : 2", "1 binder : 2 binder", "1 : 2 by spoon", "1 by volume : 2", "0 : 1", "1 : 0",
          "-1 : 2", "1e-5 : 1", "1 gum : 2", "1", ":", "", "1 : 1.0000000001", "1  binder  :  2  pigment  by  weight", "1 : 2 by ", "1 : 2 by weight "},
         [](const std::string& text) -> std::string {
             const auto p = typed_parts(text);
             if (!p) return "none";
             return p->ordered("a", "b") + (p->order_said() ? p->binder_first() ? ", binder first" : ", pigment first" : "") + (p->even() ? ", even" : "") +
                    (p->basis ? *p->basis == PartsBasis::mass ? ", mass" : ", volume" : "");
         });
    t.of("strength",
         {"10 % w/v", "10 % w/w", "8 g per 100 mL water", "0.5 % w/v", "0.49 % w/v", "25 % w/w", "25.1 % w/w", "0.5 g per 100 mL water", "0.4 g per 100 mL water", "25 g per 100 mL water", "26 g per 100 mL water",
          " per 100 mL water", "x per 100 mL water", "10 %", "10", "10 % v/v", "strong", ""},
         [](const std::string& text) {
             const auto s = typed_strength("--strength", text);
             return figure(s.value) + (s.basis == StrengthBasis::by_mass ? " by mass" : s.basis == StrengthBasis::by_volume ? " by volume" : " per water");
         });
    t.of("chance",
         {"95 %", "0.001 %", "99.999 %", "100 %", "100.1 %", "0 %", "-5 %", "0.95", "95", "1", "0.5", "0.0005", "99.9", "100", "0", "-1", " 95 ", "95 g", "sure", ""},
         [](const std::string& text) { return figure(chance_option("--sure", text).value()); });
    const KitchenMeasures kitchen{millilitres(.05), millilitres(5)};
    const auto amount = [](const TypedAmount& a) -> std::string {
        if (const auto* mass = std::get_if<Mass>(&a)) return figure(in_grams(*mass)) + " g";
        if (const auto* volume = std::get_if<Volume>(&a)) return figure(in_millilitres(*volume)) + " mL";
        if (const auto* share = std::get_if<MassFraction>(&a)) return figure(share->value()) + " w/w";
        if (const auto* share = std::get_if<VolumeFraction>(&a)) return figure(share->value()) + " v/v";
        return "nothing";
    };
    const std::vector<std::string> amounts{"12.5 g", "3 tsp", "2 teaspoons", "12 drops", "15 mL", "30 % w/w", "30 % v/v", "30 %", "0.3 v/v", "0 g", "0 mL", "2 parts", "1 part", "party", "3 cups", "3 stone", "3", "x", ""};
    t.of("amount with shares", amounts, [&](const std::string& text) { return amount(read_amount("--pigment", text, kitchen, true)); });
    t.of("amount", amounts, [&](const std::string& text) { return amount(read_amount("--binder", text, kitchen, false)); });
    t.of("amount without spoons", {"3 tsp", "12 drops", "15 mL"}, [&](const std::string& text) { return amount(read_amount("--binder", text, {}, false)); });
    t.of("spooned", amounts, [&](const std::string& text) { return std::string(is_spooned(text, kitchen) ? "yes" : "no"); });
    t.of("label", {"chalk: 3 g", "chalk:3 g", " 3 g ", ": 3 g", "Chalk: 3 g", "chalk: 3: g", "a--b: 3 g", ""}, [](const std::string& text) {
        const auto l = labelled("--pigment", text);
        return "[" + l.label + "][" + l.text + "]";
    });
    t.of("oil absorption",
         {"68 g/100g", "68 +- 7 g/100g", "68 x/ 1.2 g/100g", "68 +- 68 g/100g", "68 +- 67.9 g/100g", "1.9 g/100g", "2 g/100g", "400 g/100g", "401 g/100g", "0 g/100g", "0.68 g/g", "68", "-68 g/100g"},
         [](const std::string& text) {
             bool filled = false;
             const auto e = figure_option<OilAbsorption>("--oil-absorption", text, .1, filled);
             return figure(in_grams_per_100_grams(e.value())) + " (" + figure(e.relative_uncertainty()) + (filled ? ", filled in)" : ")");
         });
    t.of("moisture", {"5 % w/w", "0 % w/w", "0 +- 1 % w/w", "5 +- 5 % w/w", "50 % w/w", "51 % w/w", "-1 % w/w"}, [](const std::string& text) {
        bool filled = false;
        const auto e = figure_option<MassFraction>("--moisture", text, .1, filled, {0.0, 0.5, false, "0 to 50 % w/w", "is it dry?"});
        return figure(e.value().value()) + " (" + figure(e.value().value() > 0 ? e.relative_uncertainty() : 0) + (filled ? ", filled in)" : ")");
    });
    t.of("text of one",
         {"9 g/cm3", "weld: 9 g/cm3", "chalk: 9 g/cm3"},
         [](const std::string& text) { return text_for("--density", {text}, "weld", true).value_or("none"); });
    t.of("text of several",
         {"9 g/cm3", "weld: 9 g/cm3", "chalk: 9 g/cm3"},
         [](const std::string& text) { return text_for("--density", {text, "madder: 1 g/cm3"}, "weld", false).value_or("none"); });
    t.of("text given twice", {"9 g/cm3", "weld: 9 g/cm3", "chalk: 9 g/cm3"}, [](const std::string& text) { return text_for("--density", {text, "weld: 1 g/cm3"}, "weld", true).value_or("none"); });
    check_expected("shelf", "typed-amounts", t.text());
}

TEST_CASE("masses as they are typed, and the scale that shows them, whole", "[unit][errors]") {
    TypedTexts t;
    t.of("parted at a comma", {"a, b", "a,b,c", " a ", "", ",", "1.5 g, 2 g", "1,5 g"}, [](const std::string& text) {
        const auto [one, other] = parted(text, ',');
        return "[" + one + "][" + other + "]";
    });
    t.of("parted at a colon", {"a: b", "a:b:c", " a ", "", ":", "1,5 g: 2,5 g"}, [](const std::string& text) {
        const auto [one, other] = parted(text, ':');
        return "[" + one + "][" + other + "]";
    });
    t.of("grams", {"0", "1", "10", "0.5", "0.0001", "0.00004", "0.00005", "123.4567", "-2.50"}, [](const std::string& text) { return grams_text(grams(std::stod(text))); });
    Bench bench = bare_bench();
    bench.scales = {{"tenths", grams(.1), grams(2000), {}}, {"hundredths", grams(.01), grams(100), {}}, {"milligrams", grams(.001), grams(20), {}}, {"whole", grams(1), {}, {}}};
    t.of("scale", {"5 g", "5. g", "5.0 g", "5.00 g", "5.000 g", "5.0000 g", "5.00 mg", "5000 mg", "500 g", "500.00 g", "5", ".5 g", "5.0g"},
         [&](const std::string& text) { return scale_of(text, grams(std::atof(text.c_str()) * (text.ends_with("mg") ? 1e-3 : 1)), bench).name; });
    check_expected("shelf", "typed-masses", t.text());
}
