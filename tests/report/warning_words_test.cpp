#include "lakebound/report/warning_words.hpp"

#include <catch2/catch.hpp>

#include <set>

#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

constexpr WarningKind kinds[] = {
    WarningKind::film_holds_air,     WarningKind::plasticiser_low,   WarningKind::plasticiser_high,
    WarningKind::below_scale_minimum, WarningKind::medium_part_below_minimum, WarningKind::weighed_in_portions,
    WarningKind::rounding_shifts_k,  WarningKind::powder_damp,       WarningKind::dose_unusual,
    WarningKind::loss_large,         WarningKind::all_lost,          WarningKind::no_vessel_filled,
    WarningKind::reserve_not_kept,   WarningKind::preservative_dead, WarningKind::salts_bloom,
    WarningKind::salts_in_oil,       WarningKind::salts_in_tube,     WarningKind::alkali_shifts_hue,
    WarningKind::alkali_makes_soap};

std::string said(WarningKind kind, const char* subject, double value, double limit) {
    return warning_text({kind, subject, value, limit}, example_request(Process::watercolour));
}

} // namespace

TEST_CASE("Every warning is a sentence with a key of its own", "[unit]") {
    std::set<std::string> keys, texts;
    for (const auto kind : kinds) {
        const std::string key = key_of(kind), text = said(kind, "weld", 0.125, 0.25);
        INFO(key);
        CHECK_FALSE(key.empty());
        CHECK(key.find_first_not_of("abcdefghijklmnopqrstuvwxyz_") == std::string::npos);
        CHECK(text.back() == '.');
        CHECK(keys.insert(key).second);
        texts.insert(text);
    }
    CHECK(std::size(kinds) == std::size(WordTable<WarningKind>::rows));
    CHECK(texts.size() == std::size(kinds) - 1); // a part of a medium is too little as any other line is
    CHECK(key_of(WarningKind::medium_part_below_minimum) == "medium_part_below_minimum");
}

TEST_CASE("A warning tells its own numbers, in the units of the bench", "[unit]") {
    CHECK_THAT(said(WarningKind::film_holds_air, "", 0.12, 0.0), Contains("holds 12 % air"));
    CHECK_THAT(said(WarningKind::plasticiser_low, "", 0.12, 0.15), Contains("0.12 g") && Contains("where 0.15 or more"));
    CHECK_THAT(said(WarningKind::plasticiser_high, "", 0.62, 0.50), Contains("0.62 g") && Contains("where 0.50 is"));
    CHECK_THAT(said(WarningKind::below_scale_minimum, "clove-oil", 0.0234, 0.5),
               Contains("Clove oil: 0.0234 g is below the 0.500 g"));
    CHECK_THAT(said(WarningKind::weighed_in_portions, "water", 2500.0, 2000.0),
               Contains("Water: 2500 g is more than the 2000 g"));
    CHECK_THAT(said(WarningKind::rounding_shifts_k, "", 0.034, 0.02), Contains("moves k by 3.4 %"));
    CHECK_THAT(said(WarningKind::powder_damp, "", 1.4, 0.14), Contains("1.4 g of the powder is water"));
    CHECK_THAT(said(WarningKind::dose_unusual, "clove-oil", 0.02, 0.005), Contains("Clove oil: 2.0 % of the medium, where 0.5 %"));
    CHECK_THAT(said(WarningKind::loss_large, "", 0.31, 0.2), Contains("31 % of the pigment"));
    CHECK_THAT(said(WarningKind::all_lost, "", 0.5, 0.615), Contains("(0.61 g)") || Contains("(0.62 g)"));
    CHECK_THAT(said(WarningKind::no_vessel_filled, "half-pan", 0.4, 1.0), Contains("1 half pan: it fills 40 % of one"));
    CHECK_THAT(said(WarningKind::preservative_dead, "clove-oil", 0.86, 7.4), Contains("Clove oil: chance 86 %") && Contains("pH 7.4"));
    for (const auto kind : {WarningKind::salts_bloom, WarningKind::salts_in_oil, WarningKind::salts_in_tube})
        CHECK_THAT(said(kind, "", 0.25, 0.005), Contains("chance 25 %") && Contains("more than 0.5 % of the pigment"));
    for (const auto kind : {WarningKind::alkali_shifts_hue, WarningKind::alkali_makes_soap})
        CHECK_THAT(said(kind, "", 0.25, 8.0), Contains("chance 25 %") && Contains("above pH 8 in water"));
    CHECK_THAT(said(WarningKind::reserve_not_kept, "weld", 0.2, 0.5), Contains("Only 0.20 g stay") && Contains("the 0.50 g you keep"));
}

TEST_CASE("A name is that of the pigment, medium, part, additive or vessel, else the id", "[unit]") {
    auto request = example_request(Process::watercolour);
    CHECK(name_of("weld", request) == "Weld lake");
    CHECK(name_of("gum-glycerol-honey", request) == "Gum water with glycerol and honey");
    CHECK(name_of("honey", request) == "Honey");
    CHECK(name_of("clove-oil", request) == "Clove oil");
    CHECK(name_of("half-pan", request) == "Half pan");
    request.vessel = example_vessel("shell", "Mussel shell", 3.0, 0.9, FilledBy::dry_volume);
    CHECK(name_of("shell", request) == "Mussel shell");
    CHECK(name_of("nowhere", request) == "nowhere");
}
