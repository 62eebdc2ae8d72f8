#include "lakebound/shelf/reader.hpp"

#include <catch2/catch.hpp>

#include "shelf/faults_of.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;

namespace {

struct Text {
    Document document;
    explicit Text(const std::string& yaml) : document(load_document("f.yaml", yaml)) {}
    MapReader map(std::initializer_list<std::string_view> keys) {
        return MapReader(document.root, "the file", keys, document.faults);
    }
    std::vector<Diagnostic> faults() {
        return faults_of([&] { document.faults.throw_if_any(); });
    }
};

template <class Q> std::vector<Diagnostic> faults_reading(const std::string& value, const Range& allowed) {
    Text text("a: " + value + "\n");
    (void)text.map({"a"}).optional_exact<Q>("a", allowed);
    return text.faults();
}

} // namespace

TEST_CASE("quantities are read with their units", "[unit]") {
    Text text("mass: 12.5 g\ndensity: 1.92 +- 0.08 g/cm3\noil: {value: 65 x/ 1.35 g/100g, origin: published, "
              "source: s-1, note: n}\n"
              "plain: 0.25\nwords: two words\n");
    const MapReader map = text.map({"mass", "density", "oil", "plain", "words"});
    CHECK(in_grams(map.exact<Mass>("mass", range::positive)) == Approx(12.5));
    const auto density = map.figure<MassDensity>("density", range::density, FigureStyle::by_maker);
    CHECK(in_grams_per_cubic_centimetre(density.value()) == Approx(1.92));
    CHECK(in_grams_per_cubic_centimetre(density.standard_uncertainty()) == Approx(0.08));
    CHECK(density.provenance().origin == Origin::measured);
    const auto oil = map.needed_figure<OilAbsorption>("oil", range::positive, FigureStyle::with_origin);
    REQUIRE(oil);
    CHECK(oil->value().value() == Approx(0.65));
    CHECK(oil->distribution().shape == Shape::lognormal);
    CHECK(oil->relative_uncertainty() == Approx(std::log(1.35)));
    CHECK(oil->provenance().source == "s-1");
    CHECK(map.number("plain", range::positive) == Approx(0.25));
    CHECK(map.text("words") == "two words");
    CHECK(!map.optional_exact<Mass>("none", range::positive));
    CHECK(text.faults().empty());
}

TEST_CASE("a wrong unit is shown where it stands, in characters", "[errors]") {
    Text text("name: \"naïf\"\nµ: {value: \"2.7 g/cm2\", origin: measured}\n");
    text.map({"name", "µ"}).figure<MassDensity>("µ", range::density, FigureStyle::with_origin);
    const auto faults = text.faults();
    REQUIRE(summary(faults) == "unit-dimension 2:13");
    CHECK(faults[0].at.span_length == 9);
    CHECK(faults[0].hint.find("2.7 g/cm3") != std::string::npos);
    CHECK(faults[0].message.find("density must be mass per volume, got '2.7 g/cm2'") != std::string::npos);
}

TEST_CASE("numbers that yaml-cpp would let pass are refused", "[errors]") {
    const auto id = [](const std::string& value) {
        const auto faults = faults_reading<Mass>(value, range::positive);
        return faults.empty() ? std::string() : faults[0].id;
    };
    CHECK(id(".nan g") == "number-not-finite");
    CHECK(id(".inf g") == "number-not-finite");
    CHECK(id("1e-400 g") == "number-underflow");
    CHECK(id("1e400 g") == "number-overflow");
    CHECK(id("010 g") == "number-octal");
    CHECK(id("12,5 g") == "number-comma");
    CHECK(id("12.5") == "unit-missing");
    CHECK(id("12.5 stone") == "unit-unknown");
    CHECK(id("12.5 mL") == "unit-dimension");
    CHECK(id("5 +- 1 g") == "spread-unwanted");
    CHECK(id("-5 g") == "quantity-negative");
    CHECK(id("0 g") == "quantity-negative");
    CHECK(id("[1, 2]") == "value-shape");
    CHECK(id("{a: 1}") == "value-shape");
    CHECK(id("\"\"") == "number-missing");
    const auto volume = faults_reading<Volume>("1 cup", range::positive);
    CHECK(summary(volume) == "unit-unqualified 1:6");
}

TEST_CASE("a value outside its range names the range in the words of its unit", "[errors]") {
    auto faults = faults_reading<MassFraction>("120 % w/w", range::not_negative);
    REQUIRE(summary(faults) == "fraction-above-one 1:4");
    CHECK(faults[0].message == "a must be 0 to 100 % w/w, got '120 % w/w'");
    CHECK(summary(faults_reading<MassFraction>("1.2 g/g", range::not_negative)) == "fraction-above-one 1:4");
    CHECK(summary(faults_reading<MassFraction>("-1 % w/w", range::not_negative)) == "quantity-negative 1:4");
    CHECK(summary(faults_reading<OilAbsorption>("450 g/100g", range::any)) == "out-of-range 1:4");
    CHECK(summary(faults_reading<OilAbsorption>("1 g/100g", range::any)) == "out-of-range 1:4");
    CHECK(summary(faults_reading<MassDensity>("1.94 kg/m3", range::density)) == "out-of-range 1:4");
    CHECK(summary(faults_reading<Temperature>("-300 degC", range::any)) == "number-range 1:4");
    faults = faults_reading<MassDensity>("1.94 kg/m3", range::density);
    CHECK(faults[0].message == "a must be 10 to 25000 kg/m3, got '1.94 kg/m3'");
    faults = faults_reading<MassDensity>("0.005 g/cm3", range::density);
    CHECK(faults[0].message == "a must be 0.01 to 25 g/cm3, got '0.005 g/cm3'");
}

TEST_CASE("a range is told in the unit that was typed, and all that is named lies within it", "[unit]") {
    CHECK(range_words(range::water_depth, Dimension::length, "mm") == "1 to 5000 mm");
    CHECK(range_words(range::water_depth, Dimension::length, "m") == "1 mm to 5 m"); // its own words have that unit
    // By hand: 1 mm is 0.03937 in and 5 m are 196.85 in.
    CHECK(range_words(range::water_depth, Dimension::length, "in") == "0.0394 to 196 in");
    CHECK(range_words({0.0, 0.5, true, "above 0, at most 50 %", ""}, Dimension::mass_fraction, "g/g") ==
          "above 0, at most 0.5 g/g");
    CHECK(range_words({273.15, 373.15, false, "0 to 100 degC", ""}, Dimension::temperature, "degF") ==
          "32 to 212 degF");
    CHECK(range_words(range::positive, Dimension::mass, "kg") == "above 0");
    CHECK(range_words(range::aim, Dimension::pure_number, "") == "0.01 to 100");
    CHECK(range_words({1e-9, 1e-3, false, "0.001 to 1000 mL", ""}, Dimension::volume, "tsp") == "0.001 to 1000 mL");
}

TEST_CASE("a figure says where it comes from", "[errors]") {
    const auto id = [](const std::string& figure) {
        Text text("a: " + figure + "\n");
        text.map({"a"}).figure<Mass>("a", range::positive, FigureStyle::with_origin);
        return summary(text.faults());
    };
    CHECK(id("{value: 1 g, origin: measured}").empty());
    CHECK(id("{value: 1 g, origin: common practice}").empty());
    CHECK(id("1 g") == "figure-bare 1:4");
    CHECK(id("{value: 1 g}") == "key-missing 1:4");
    CHECK(id("{origin: measured}") == "key-missing 1:4");
    CHECK(id("{value: 1 g, origin: published}") == "source-missing 1:25");
    CHECK(id("{value: 1 g, origin: memory, source: ''}") == "value-missing 1:41");
    CHECK(id("{value: 1 g, origin: guesed}") == "word-unknown 1:25");
    CHECK(id("{value: 1 g, origin: measured, sauce: x}") == "key-unknown 1:35");
    CHECK(id("{value: 1 g/g, origin: publishd}") == "unit-dimension 1:12, word-unknown 1:27");
    CHECK(id("[1 g]") == "value-shape 1:4");
    CHECK(id("{value: 1 +- 1 g, origin: measured}") == "spread-too-wide 1:12");
}

TEST_CASE("keys are closed, and a slip is answered with the nearest name", "[errors]") {
    Text text("density: 1\nnaem: x\nzzz: y\ninclude: [a]\n");
    const MapReader map = text.map({"density", "name", "note"});
    CHECK(map.need("note") == nullptr);
    const auto faults = text.faults();
    REQUIRE(summary(faults) == "key-missing 1:1, key-unknown 2:1, key-unknown 3:1, key-unknown 4:1");
    CHECK(faults[1].hint.find("'name'") != std::string::npos);
    CHECK(faults[2].hint == "keys here: density, name, note");
    CHECK(faults[3].hint == "only jar and bench files may include others");
}

TEST_CASE("words and lists are checked", "[errors]") {
    Text text("w: grene\nl: []\nm: x\nn: [a, b]\n");
    const MapReader map = text.map({"w", "l", "m", "n"});
    map.word("w", {"green", "amber"});
    CHECK(map.word("absent", {"green", "amber"}, 1) == 1);
    map.list("l", true);
    map.list("m", true);
    CHECK(map.list("n", true).size() == 2);
    const auto faults = text.faults();
    REQUIRE(summary(faults) == "word-unknown 1:4, list-empty 2:4, value-shape 3:4");
    CHECK(faults[0].hint.find("'green'") != std::string::npos);
}

TEST_CASE("the kind of a file is checked before its keys", "[errors]") {
    Text wrong("kind: jar\nfoo: 1\n"), none("foo: 1\n"), right("kind: pigment\n");
    CHECK(summary(faults_of([&] { require_kind(wrong.document, "pigment"); })) == "kind-wrong 1:7");
    CHECK(summary(faults_of([&] { require_kind(none.document, "pigment"); })) == "key-missing 1:1");
    CHECK_NOTHROW(require_kind(right.document, "pigment"));
    CHECK(id_of_path("a/b/weld-3.yaml") == "weld-3");
    CHECK(id_of_path("weld") == "weld");
}

TEST_CASE("two words alike are both offered, and a long one is shown cut between characters", "[errors]") {
    Text text("w: greem\nv: aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\u00e4bcdef\nn: x\n");
    const MapReader map = text.map({"w", "v", "n"});
    map.word("w", {"green", "greed", "amber"});
    map.word("v", {"green"});
    CHECK(map.number("absent", range::positive) == Approx(0.0).margin(1e-15));
    const auto faults = text.faults();
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].id == "key-missing");
    CHECK_THAT(faults[1].hint, Catch::Contains("'green' or 'greed'?") || Catch::Contains("'greed' or 'green'?"));
    // 59 a and the first byte of a-umlaut are 60 bytes: the letter is left out whole.
    CHECK_THAT(faults[2].message, Catch::Contains("'" + std::string(59, 'a') + "...'"));
}
