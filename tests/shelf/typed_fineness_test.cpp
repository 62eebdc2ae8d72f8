#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/typed_fineness.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;

namespace {

std::string fault_of(const FinenessTexts& texts) {
    return summary(faults_of([&] {
        Library shelf({});
        (void)find_target(texts, shelf);
    }));
}

} // namespace

TEST_CASE("A screen is a size: No. 325 is 45 um (ISO 3310-1, ASTM E11)", "[unit][reference]") {
    CHECK(in_micrometres(size_option("--cut", "No. 325")) == Approx(45.0));
    CHECK(in_micrometres(size_option("--cut", "45 um")) == Approx(45.0));
}

TEST_CASE("The size of a grain is proposed in micrometres", "[errors]") {
    const auto faults = faults_of([] { (void)grain_size_option("--cut", "45"); });
    REQUIRE(summary(faults) == "unit-missing");
    CHECK(faults.front().hint == "write the unit as well, for example '45 um'");
    CHECK(summary(faults_of([] { (void)grain_size_option("--cut", "0 um"); })) == "out-of-range");
}

TEST_CASE("A target is a screen and what may stay on it", "[unit]") {
    Library shelf({{std::string(LAKEBOUND_FORMULATIONS_DIR), "shipped", true}}); // its powder habits say the rest
    const auto target = find_target({std::nullopt, "45 um", "2 %"}, shelf);
    REQUIRE(target);
    CHECK(target->allowed_residue.value().value() == Approx(0.02));
    CHECK(find_target({std::nullopt, "45 um", std::nullopt}, shelf)->allowed_residue.value().value() == Approx(0.01));
    CHECK_FALSE(find_target({}, shelf).has_value());
    CHECK(fault_of({std::nullopt, std::nullopt, "2 %"}) == "target-missing");
    CHECK(fault_of({std::nullopt, "45 um", "100 %"}) == "out-of-range");
    CHECK(fault_of({"oil", std::nullopt, std::nullopt}) == "id-unknown");
}

TEST_CASE("A size that is none says what was expected", "[errors]") {
    const auto told = [](auto read) {
        const auto faults = faults_of(read);
        return faults.empty() ? std::string() : faults.front().id + ": " + faults.front().message;
    };
    CHECK(told([] { (void)size_option("--cut", "No. 327"); }).find(": --cut \"No. 327\": ") != std::string::npos);
    CHECK(told([] { (void)size_option("--cut", "45 g"); }) == "unit-dimension: --cut \"45 g\": length must be in um, mm, cm, m, nm, in or mil, got '45 g'");
    CHECK(told([] { (void)size_option("--cut", "0 um"); }).find(": --cut \"0 um\": ") != std::string::npos);
    CHECK(told([] { (void)grain_size_option("--cut", "45 g"); }).find("unit-dimension: --cut \"45 g\": ") == 0);
}

TEST_CASE("What a kind of paint allows to stay on the screen gives way to what is asked", "[unit][errors]") {
    Library shelf({{std::string(LAKEBOUND_FORMULATIONS_DIR), "shipped", true}});
    const auto ids = shelf.ids(ShelfKind::fineness_target);
    REQUIRE_FALSE(ids.empty());
    const auto own = find_target({ids.front(), std::nullopt, std::nullopt}, shelf), asked = find_target({ids.front(), std::nullopt, "3 %"}, shelf);
    CHECK(asked->allowed_residue.value().value() == Approx(0.03));
    CHECK(asked->allowed_residue.provenance().source == "as asked");
    CHECK_FALSE(own->allowed_residue.value().value() == Approx(0.03));
    CHECK(in_micrometres(asked->residue_screen) == Approx(in_micrometres(own->residue_screen)));
    const auto told = [](const char* text) {
        const auto faults = faults_of([&] { (void)size_option("--cut", text); });
        return faults.empty() ? std::string() : faults.front().id + ": " + faults.front().message;
    };
    CHECK(told("20 m") == "sieve-aperture: --cut \"20 m\": a sieve aperture lies between 1 um and 125 mm");
    CHECK(told("mesh 200") .find("sieve-mesh: --cut \"mesh 200\": ") == 0);
    CHECK(summary(faults_of([] { (void)grain_size_option("--cut", "45 pixels"); })) == "unit-unknown");
}
