#include "lakebound/shelf/typed_bath.hpp"

#include <catch2/catch.hpp>

#include <functional>

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

TEST_CASE("all that is at hand for a bath is taken as typed", "[unit]") {
    Library library = shelf_for_baths();
    BathTexts texts = usual_texts();
    texts.alum = "potash-alum"; // how much of it follows from the lake
    texts.lake = "20 g", texts.water = "3 L", texts.pot = "5 L", texts.vessel = "6 L", texts.strength = "10 % w/v", texts.foam = "60 s";
    const BathWish wish = bath_wish(texts, library);
    CHECK(wish.aluminium.id == "potash-alum");
    CHECK_FALSE(wish.aluminium_mass);
    CHECK_FALSE(wish.plant);
    CHECK_FALSE(wish.pulls);
    CHECK(in_grams(wish.lake.value()) == Approx(20));
    CHECK(in_litres(wish.water.value()) == Approx(3));
    CHECK(in_litres(wish.pot.value()) == Approx(5));
    CHECK(in_litres(wish.vessel.value()) == Approx(6));
    CHECK(in_seconds(wish.foam_life.value()) == Approx(60));
    CHECK(wish.strength.has_value());
    const std::vector<std::function<void(BathTexts&)>> at_hand{
        [](BathTexts& t) { t.plant = "x"; }, [](BathTexts& t) { t.alum = "x"; },  [](BathTexts& t) { t.lake = "x"; },
        [](BathTexts& t) { t.alkali = "x"; }, [](BathTexts& t) { t.water = "x"; }, [](BathTexts& t) { t.pulls = "x"; },
        [](BathTexts& t) { t.pot = "x"; },   [](BathTexts& t) { t.vessel = "x"; }, [](BathTexts& t) { t.strength = "x"; }};
    for (const auto& say : at_hand) {
        BathTexts one;
        say(one);
        CHECK(says_what_is_at_hand(one));
        CHECK_FALSE(has_readings(one));
    }
    CHECK_FALSE(says_what_is_at_hand({}));
}

TEST_CASE("each reading at a bath counts as one, and comes into the readings", "[unit]") {
    Library library = shelf_for_baths();
    const BathPlan plan = plan_bath(bath_wish(usual_texts(), library), library.laking_habits(), library.wash_habits());
    const auto read = [&](const std::function<void(BathTexts&)>& say) {
        BathTexts one;
        say(one);
        CHECK(has_readings(one));
        CHECK_FALSE(says_what_is_at_hand(one));
        return bath_readings(one, plan);
    };
    CHECK_FALSE(has_readings({}));
    CHECK_FALSE(has_readings(usual_texts()));
    CHECK(in_millilitres(read([](BathTexts& t) { t.filter = {"0.5 L, 4 min"}; }).filter.at(0).filtrate) == Approx(500));
    CHECK(in_grams(read([](BathTexts& t) { t.poured = {"50 mL"}; }).alkali.at(0)) == Approx(5).epsilon(1e-6));
    CHECK(read([](BathTexts& t) { t.ph = {"5.3, strip"}; }).ph.at(0).means == PhMeans::strip);
    CHECK(in_microsiemens_per_centimetre(read([](BathTexts& t) { t.wash_water = "310 uS/cm"; }).wash_water.value().shown) == Approx(310));
    // 175 mg/L shown by a pen that multiplies by 0.5 are 350 uS/cm.
    CHECK(in_microsiemens_per_centimetre(read([](BathTexts& t) { t.decant = {"175 mg/L, factor 0.5, 16 degC"}; }).decants.at(0).shown) ==
          Approx(350));
    CHECK(read([](BathTexts& t) { t.drying = "38.6 g, 24.9 g, 17.9 g every 24 h"; }).weighings.size() == 3);
    CHECK(in_grams(read([](BathTexts& t) { t.alum_added = "6 g"; }).aluminium.at(0)) == Approx(6));
    CHECK(read([](BathTexts& t) { t.colour = "1 in 8"; }).colour.value().dilution == Approx(8));
    CHECK(read([](BathTexts& t) { t.blanket = "100 mm, 62 mm, 48 mm every 2 h"; }).blanket.has_value());
    const auto cake = read([](BathTexts& t) { t.cake = "38.6 g, wet"; }).weighings;
    REQUIRE(cake.size() == 1);
    CHECK(in_grams(cake[0].mass) == Approx(38.6));
    CHECK(cake[0].surface_wet);
    CHECK(in_litres(read([](BathTexts& t) { t.to_filter = "1.5 L"; }).to_filter.value()) == Approx(1.5));
    CHECK(read([](BathTexts& t) { t.hue = "rose"; }).hue == "rose");
    CHECK(read([](BathTexts& t) { t.swatch = "3"; }).swatch == 3u);
    BathTexts foam; // how long it holds is at hand before anything is laid
    foam.foam = "40 s";
    CHECK_FALSE(has_readings(foam));
    CHECK(in_seconds(bath_readings(foam, plan).foam_life.value()) == Approx(40));
}

TEST_CASE("what a pen reads in the last water is of the salts that the bath leaves", "[unit]") {
    Library library = shelf_for_baths();
    const WashHabits washing = library.wash_habits();
    const LakingHabits laking = library.laking_habits();
    Bench bench;
    bench.scales = {{"scale", grams(0.1), {}, {}}};
    const auto setting = [&](const char* alum) {
        BathTexts texts = usual_texts();
        texts.alum = alum;
        return bath_setting(plan_bath(bath_wish(texts, library), laking, washing), laking, washing, library.powder_habits(), bench);
    };
    CHECK(in_grams(setting("potash-alum, 50 g").scale.step) == Approx(0.1));
    // A pen cannot tell the chloride that aluminium chloride leaves: it is read as what alum and soda leave.
    const auto potash_to_soda = [](const DissolvedSalts& salts) { return salts.ions[Ion::potassium] / salts.ions[Ion::sodium]; };
    CHECK(potash_to_soda(setting("aluminium-chloride, 50 g").salts) == Approx(potash_to_soda(salts_of_alum_and_soda())));
    CHECK(potash_to_soda(setting("aluminium-sulphate-18, 50 g").salts) == Approx(0.0).margin(1e-9));
}

TEST_CASE("an option that is of a plant or of the filter is refused alone", "[errors]") {
    const auto told = [](const std::function<void(BathTexts&)>& say) {
        BathTexts texts;
        say(texts);
        const auto faults = faults_of([&] { refuse_lone_options(texts); });
        return faults.empty() ? std::string() : faults[0].id + ": " + faults[0].message;
    };
    CHECK(told([](BathTexts& t) { t.pulls = "2"; }) == "option-alone: '--pulls' is of a plant, and none is named");
    CHECK(told([](BathTexts& t) { t.pot = "5 L"; }) == "option-alone: '--pot' is of a plant, and none is named");
    CHECK(told([](BathTexts& t) { t.pot = "5 L", t.pulls = "2", t.plant = "100 g dry root"; }).empty());
    CHECK(told([](BathTexts& t) { t.to_filter = "1 L"; }) == "option-alone: '--to-filter' goes with a reading at the filter");
    CHECK(told([](BathTexts& t) { t.to_filter = "1 L", t.filter = {"0.5 L, 4 min"}; }).empty());
    CHECK(told([](BathTexts&) {}).empty());
}

TEST_CASE("a jar out of a bath holds what was read, else what was planned", "[unit]") {
    Library library = shelf_for_baths();
    const WashHabits washing = library.wash_habits();
    const LakingHabits laking = library.laking_habits();
    Bench bench;
    bench.scales = {{"scale", grams(0.1), {}, {}}};
    const auto jar = [&](const std::function<void(BathTexts&)>& say) {
        BathTexts texts = usual_texts();
        say(texts);
        const BathPlan plan = plan_bath(bath_wish(texts, library), laking, washing);
        return bath_jar(texts, plan, bath_standing(bath_readings(texts, plan), bath_setting(plan, laking, washing, library.powder_habits(), bench)), washing);
    };
    const BathJar planned = jar([](BathTexts&) {});
    CHECK_FALSE(planned.ph);
    CHECK(planned.net_mass.provenance().origin == Origin::computed);
    // The source names what went in: 50 g, and the alkali of the plan, or what was poured and added.
    CHECK(planned.density.provenance().source.find("50.0 g Potash alum") != std::string::npos);
    const BathJar read = jar([](BathTexts& t) {
        t.poured = {"150 mL"}, t.alum_added = "2 g";
        t.weighed = "10.4 +- 0.1 g", t.moisture = "14 +- 2 % w/w", t.water_ph = "6.8, pen";
        t.hue = "warm rose", t.swatch = "12";
    });
    CHECK(read.density.provenance().source.find("52.0 g Potash alum, 15.0 g Soda ash") != std::string::npos);
    CHECK(in_grams(read.net_mass.value()) == Approx(10.4));
    CHECK(in_grams(read.net_mass.standard_uncertainty()) == Approx(0.1));
    CHECK(read.moisture.value().value() == Approx(0.14));
    CHECK(read.moisture.provenance().origin == Origin::measured);
    REQUIRE(read.ph);
    CHECK(read.ph->value().value() == Approx(6.8));
    CHECK(read.ph->standard_uncertainty().value() == Approx(shelf_for_baths().wash_habits().ph_read_to.pen.value()));
    CHECK(read.colour.hue == "warm rose");
    CHECK(read.colour.swatch == 12u);
    CHECK(first_fault([&] { jar([](BathTexts& t) { t.weighed = "10.4"; }); }) == "unit-missing");
}
