#include <catch2/catch.hpp>

#include "lakebound/particle/fineness_target.hpp"
#include "support/powder_habits.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {

// The worked sieve test of the project: 20.0 g charged, 19.7 g recovered, on a 0.1 g scale.
SieveAnalysis worked() {
    SieveTest test;
    for (const auto& [um, g] : {std::pair{250.0, 0.4}, {150.0, 2.1}, {106.0, 3.6}, {75.0, 4.7}, {45.0, 4.9}})
        test.screens.push_back({micrometres(um), grams(g)});
    test.pan = grams(4.0);
    test.charge = grams(20.0);
    test.scale_step = grams(0.1);
    return analyse(test);
}

} // namespace

TEST_CASE("the residue on a screen of the test is what that screen and the coarser ones kept", "[reference]") {
    // Regrind shares worked out by hand from the masses: 6.1/19.7, 10.8/19.7 and 15.7/19.7.
    const auto analysis = worked();
    CHECK(residue_over(analysis, micrometres(106.0)).share.value() == Approx(6.1 / 19.7).epsilon(1e-12));
    CHECK(residue_over(analysis, micrometres(75.0)).share.value() == Approx(10.8 / 19.7).epsilon(1e-12));
    CHECK(residue_over(analysis, micrometres(45.0)).share.value() == Approx(15.7 / 19.7).epsilon(1e-12));
    CHECK(residue_over(analysis, micrometres(45.0)).standard_uncertainty > 0.0);
}

TEST_CASE("beyond the screens a residue is only a bound", "[unit]") {
    const auto analysis = worked();
    const auto fine = residue_over(analysis, micrometres(38.0));
    CHECK(fine.reach == Reach::below_finest);
    CHECK(fine.share.value() == Approx(15.7 / 19.7));
    const auto coarse = residue_over(analysis, micrometres(300.0));
    CHECK(coarse.reach == Reach::above_coarsest);
    CHECK(coarse.share.value() == Approx(0.4 / 19.7));
}

TEST_CASE("the residue falls as the size rises", "[identity]") {
    const auto analysis = worked();
    double last = 1.0;
    for (double um = 45.0; um <= 250.0; um += 0.5) {
        const double share = residue_over(analysis, micrometres(um)).share.value();
        CHECK(share <= last + 1e-12);
        last = share;
    }
}

TEST_CASE("a verdict needs more than the scale's own doubt", "[unit]") {
    const auto limit = MassFraction::of(0.01);
    const auto verdict = [&](double share, double u, Reach reach = Reach::within) {
        return judge_fineness({MassFraction::of(share), u, 0.0, reach}, std::nullopt, limit);
    };
    CHECK(verdict(0.005, 0.002) == FinenessVerdict::fine_enough);
    CHECK(verdict(0.005, 0.003) == FinenessVerdict::cannot_tell);
    CHECK(verdict(0.02, 0.003) == FinenessVerdict::too_coarse);
    CHECK(verdict(0.02, 0.006) == FinenessVerdict::cannot_tell);
    CHECK(verdict(0.01, 0.0) == FinenessVerdict::fine_enough);
    CHECK(verdict(0.002, 0.0, Reach::below_finest) == FinenessVerdict::cannot_tell);
    CHECK(verdict(0.02, 0.0, Reach::below_finest) == FinenessVerdict::too_coarse);
    CHECK(verdict(0.002, 0.0, Reach::above_coarsest) == FinenessVerdict::fine_enough);
    CHECK(verdict(0.02, 0.0, Reach::above_coarsest) == FinenessVerdict::cannot_tell);
}

TEST_CASE("what a scale can see, and the charge that lets it", "[identity]") {
    const auto seen = smallest_residue_seen(grams(2.0), grams(0.1));
    CHECK(seen.value() == Approx(3.0 * 0.1 / std::sqrt(6.0) / 2.0).epsilon(1e-9)); // two roundings, jcgm-100
    CHECK(in_grams(charge_to_see(seen, grams(0.1))) == Approx(2.0).epsilon(1e-9));
    CHECK_THROWS_AS(charge_to_see(MassFraction::of(0.0), grams(0.1)), DomainError);
    CHECK_THROWS_AS(smallest_residue_seen(grams(0.0), grams(0.1)), DomainError);
}

TEST_CASE("dry sieving, wet screening and levigation follow each other", "[unit]") {
    const auto target = plain_target(micrometres(45.0), MassFraction::of(0.01), testing::usual_habits());
    CHECK(screening_advice(micrometres(75.0), target) == ScreeningAdvice::dry_sieving);
    CHECK(screening_advice(micrometres(74.99), target) == ScreeningAdvice::wet_screening);
    CHECK(screening_advice(micrometres(40.0), target) == ScreeningAdvice::wet_screening);
    CHECK(screening_advice(micrometres(39.99), target) == ScreeningAdvice::levigation);
    CHECK(screening_advice(micrometres(63.0), target) == ScreeningAdvice::wet_screening);
    CHECK(screening_advice(micrometres(38.0), target) == ScreeningAdvice::levigation);
    CHECK_FALSE(dry_sieving_clogs(worked(), target)); // 54.8 % is coarser than 75 um
}

TEST_CASE("what was lost bounds a residue from both sides", "[reference]") {
    // By hand: 15.7 g seen over 45 um of 20.0 g charged, 0.3 g lost: 15.7/20 to 16.0/20.
    const auto analysis = worked();
    const auto bounds = residue_with_loss(residue_over(analysis, micrometres(45.0)), analysis);
    REQUIRE(bounds);
    CHECK(bounds->low == Approx(15.7 / 20.0).epsilon(1e-12));
    CHECK(bounds->high == Approx(16.0 / 20.0).epsilon(1e-12));
    auto unknown = analysis;
    unknown.loss.reset();
    CHECK_FALSE(residue_with_loss(residue_over(unknown, micrometres(45.0)), unknown));
    auto gained = analysis;
    gained.loss = -0.001;
    CHECK_FALSE(residue_with_loss(residue_over(gained, micrometres(45.0)), gained));
}

TEST_CASE("a target and a scale that cannot be are refused", "[errors]") {
    const auto refused = [](auto question, const char* quantity) { CHECK_THROWS_WITH(question(), Catch::StartsWith(quantity)); };
    refused([] { (void)plain_target(micrometres(0), MassFraction::of(0.01), testing::usual_habits()); }, "target screen is 0 um");
    refused([] { (void)smallest_residue_seen(grams(0), grams(0.1)); }, "charge is 0 g");
    refused([] { (void)smallest_residue_seen(grams(20), grams(0)); }, "scale step is 0 g");
    refused([] { (void)charge_to_see(MassFraction::of(0), grams(0.1)); }, "residue is 0");
    refused([] { (void)charge_to_see(MassFraction::of(0.01), grams(0)); }, "scale step is 0 g");
}

TEST_CASE("a paint may want finer grains than the screen on which its powder is judged", "[unit]") {
    FinenessTarget target;
    target.residue_screen = micrometres(45);
    const auto grain = [&](double um) { target.grain = Estimate<Length>::exact(micrometres(um), {Origin::estimate, "", false}); };
    grain(20);
    CHECK(target.wants_finer_than_screen());
    grain(45);
    CHECK_FALSE(target.wants_finer_than_screen());
}
