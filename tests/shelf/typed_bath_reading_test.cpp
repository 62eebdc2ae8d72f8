#include "lakebound/shelf/typed_bath_reading.hpp"

#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/typed_series.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;

namespace {
template <class Reader> std::string refused_reading(Reader&& reader, const std::string& text) {
    const auto faults = faults_of([&] { (void)reader("--x", text); });
    return faults.empty() ? std::string() : faults.front().id;
}
} // namespace

TEST_CASE("readings of a bath as they are typed", "[unit]") {
    CHECK(typed_colour_match("--colour", "1 in 8").dilution == Approx(8));
    CHECK(typed_colour_match("--colour", "1 in 2.5").dilution == Approx(2.5));
    CHECK(typed_cake("--cake", "38.6 g, wet").surface_wet);
    CHECK(in_grams(typed_cake("--cake", "38.6 g").mass) == Approx(38.6));
    CHECK(typed_hour("--at", "08:30") == std::chrono::minutes(510));
    CHECK(typed_hour("--at", "23:59") == std::chrono::minutes(1439));
    CHECK(in_hours(blanket_option("--blanket", "100 mm, 62 mm, 48 mm every 2 h").interval) == Approx(2));
    CHECK(typed_pieces("a , b", ',') == std::vector<std::string>{"a", "b"});
}

TEST_CASE("a pen shows conductivity, or solids by its factor", "[unit]") {
    CHECK(in_microsiemens_per_centimetre(typed_pen_reading("--decant", "350 uS/cm").shown) == Approx(350));
    CHECK_FALSE(typed_pen_reading("--decant", "350 uS/cm").compensation);
    CHECK(typed_pen_reading("--decant", "350 uS/cm, 16 degC").compensation == Compensation::none);
    CHECK(in_microsiemens_per_centimetre(typed_pen_reading("--decant", "175 mg/L, factor 0.5").shown) == Approx(350));
    CHECK(in_microsiemens_per_centimetre(typed_pen_reading("--decant", "245 mg/L, factor 0.7, 16 degC").shown) == Approx(350));
    CHECK(in_degrees_celsius(typed_pen_reading("--decant", "245 mg/L, factor 0.7, 16 degC").water) == Approx(16));
    for (const char* text : {"350", "350 ppm", "175 mg/L", "175 mg/L, 0.5", "175 mg/L, factor 5", "350 uS/cm, 16 degC, 17 degC", "x uS/cm"})
        CHECK(refused_reading(typed_pen_reading, text) == "bath-typed");
}

TEST_CASE("readings that are not in their form are refused", "[errors]") {
    for (const char* text : {"8", "1 in", "1 in eight", "1 in 0.9", "1 in 1001", "one in 8"})
        CHECK(refused_reading(typed_colour_match, text) == "bath-typed");
    for (const char* text : {"38.6 g, dry", "38.6 g, wet, wet", ""})
        CHECK_FALSE(refused_reading(typed_cake, text).empty());
    CHECK(refused_reading(typed_cake, "38.6") == "unit-missing");
    CHECK(refused_reading(typed_cake, "0 g") == "out-of-range");
    for (const char* text : {"8:30", "24:00", "08:60", "0830", "ab:cd", "08:30:00"})
        CHECK(refused_reading(typed_hour, text) == "bath-typed");
    // Any sign in any place of an hour: figures up to 23:59, and the colon.
    const std::string hour = "12:34";
    for (std::size_t place = 0; place < hour.size(); ++place)
        for (char sign = ' '; sign <= '~'; ++sign) {
            std::string text = hour;
            text[place] = sign;
            CAPTURE(text);
            const std::string may = place == 0 ? "012" : place == 2 ? ":" : place == 3 ? "012345" : "0123456789";
            CHECK(refused_reading(typed_hour, text) == (may.find(sign) == std::string::npos ? "bath-typed" : ""));
        }
    CHECK(refused_reading(blanket_option, "100 mm, 62 mm, 48 mm, 40 mm every 2 h") == "series-form");
}
