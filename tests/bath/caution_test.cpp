#include "lakebound/bath/caution.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "salts.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
bool warns(const std::vector<BathCaution>& all, BathCaution one) { return std::find(all.begin(), all.end(), one) != all.end(); }
} // namespace

TEST_CASE("cautions follow what is in the bath", "[unit]") {
    const auto usual = bath_cautions(potash_alum(), soda_ash(), true);
    CHECK(usual.front() == BathCaution::never_closed);
    CHECK(usual.back() == BathCaution::data_sheet);
    CHECK(warns(usual, BathCaution::poisonous_plant));
    CHECK_FALSE(warns(usual, BathCaution::ammonia));
    CHECK_FALSE(warns(usual, BathCaution::eye_damage));
    CHECK(warns(bath_cautions(ammonium_alum(), soda_ash(), true), BathCaution::ammonia));
    const auto limed = bath_cautions(potash_alum(), slaked_lime(), false); // no carbonate, no gas
    CHECK_FALSE(warns(limed, BathCaution::never_closed));
    CHECK_FALSE(warns(limed, BathCaution::poisonous_plant));
    Salt sulphate = aluminium_sulphate(18);
    sulphate.hazards = {Hazard::eye_damage};
    CHECK(warns(bath_cautions(sulphate, soda_ash(), true), BathCaution::eye_damage));
}
