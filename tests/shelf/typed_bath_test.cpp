#include "lakebound/shelf/typed_bath.hpp"

#include <catch2/catch.hpp>

#include "faults_of.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;

namespace {

Library shelf_for_baths() { return Library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}}); }

BathTexts usual_texts() {
    BathTexts texts;
    texts.alum = "potash-alum, 50 g";
    texts.alkali = "soda-ash";
    return texts;
}

template <class Code> std::string first_fault(Code&& code) {
    const auto faults = faults_of(std::forward<Code>(code));
    return faults.empty() ? std::string() : faults.front().id;
}

} // namespace

TEST_CASE("a bath as it is typed", "[unit]") {
    Library library = shelf_for_baths();
    BathTexts texts = usual_texts();
    texts.plant = "300 g fresh leaf";
    texts.pulls = "3";
    const BathWish wish = bath_wish(texts, library);
    CHECK(wish.plant->fresh);
    CHECK(wish.plant->part == PlantPart::leaf);
    CHECK(*wish.pulls == 3);
    CHECK(in_grams(*wish.aluminium_mass) == Approx(50));
    CHECK_FALSE(has_readings(texts));
    const BathPlan plan = plan_bath(wish, library.laking_habits(), library.wash_habits());
    texts.poured = {"100 mL", "20 mL"};
    texts.ph = {"5.3, strip, fizzing", "6.4, pen"};
    texts.decant = {"1200 uS/cm, 15 degC"};
    texts.drying = "38.6 g, 24.9 g, 17.9 g every 24 h";
    CHECK(has_readings(texts));
    const BathReadings read = bath_readings(texts, plan);
    CHECK(in_grams(read.alkali[0]) == Approx(10.0).epsilon(1e-6)); // of a 10 % w/v solution
    CHECK(read.ph[0].fizzing);
    CHECK(read.ph[1].means == PhMeans::pen);
    CHECK(in_microsiemens_per_centimetre(read.decants[0].shown) == Approx(1200));
    CHECK(in_degrees_celsius(read.decants[0].water) == Approx(15));
    CHECK(in_hours(read.weighings[2].time) == Approx(48));
}

TEST_CASE("what is not in its form is refused", "[errors]") {
    Library library = shelf_for_baths();
    const auto wish_fault = [&](auto change) {
        BathTexts texts = usual_texts();
        change(texts);
        return first_fault([&] { bath_wish(texts, library); });
    };
    CHECK(wish_fault([](BathTexts& t) { t.alum.reset(); }) == "alum-missing");
    CHECK(wish_fault([](BathTexts& t) { t.alkali.reset(); }) == "alkali-missing");
    CHECK(wish_fault([](BathTexts& t) { t.plant = "100 g dry twig"; }) == "bath-typed");
    CHECK(wish_fault([](BathTexts& t) { t.plant = "100 g root"; }) == "bath-typed");
    CHECK(wish_fault([](BathTexts& t) { t.pulls = "7"; }) == "bath-typed");
    CHECK(wish_fault([](BathTexts& t) { t.vessel = "0 L"; }) == "out-of-range");
    const BathPlan plan = plan_bath(bath_wish(usual_texts(), library), library.laking_habits(), library.wash_habits());
    const auto reading_fault = [&](auto change) {
        BathTexts texts = usual_texts();
        change(texts);
        return first_fault([&] { bath_readings(texts, plan); });
    };
    CHECK(reading_fault([](BathTexts& t) { t.ph = {"14.2, pen"}; }) == "ph-impossible");
    CHECK(reading_fault([](BathTexts& t) { t.ph = {"6.4"}; }) == "bath-typed");
    CHECK(reading_fault([](BathTexts& t) { t.ph = {"6.4, nose"}; }) == "bath-typed");
    CHECK(reading_fault([](BathTexts& t) { t.decant = {"1200"}; }) == "bath-typed");
    CHECK(reading_fault([](BathTexts& t) { t.filter = {"0.5 L"}; }) == "bath-typed");
    CHECK(reading_fault([](BathTexts& t) { t.swatch = "12a"; }) == "bath-typed");
    CHECK(reading_fault([](BathTexts& t) { t.swatch = "0"; }) == "bath-typed");
    CHECK(reading_fault([](BathTexts& t) { t.hue = "  "; }) == "bath-typed");
    BathTexts written = usual_texts();
    written.hue = " warm rose, wet ";
    written.swatch = "12";
    CHECK(has_readings(written));
    CHECK(bath_readings(written, plan).hue == "warm rose, wet");
    CHECK(bath_readings(written, plan).swatch == 12u);
}

TEST_CASE("a fault in a bath's file stands at its key", "[errors]") {
    Library library = shelf_for_baths();
    const auto faults = faults_of([&] {
        read_bath(load_document("b.yaml", "kind: bath\nname: B\nalum: potash-alum, 50 g\nalkali: soda-ash\npoured: [100 mL]\nph: ['15, pen']\n"),
                  library);
    });
    CHECK(lakebound::testing::summary(faults) == "ph-impossible 6:5");
}
