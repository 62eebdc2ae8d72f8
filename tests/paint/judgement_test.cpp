#include "lakebound/paint/judgement.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"

using namespace lakebound;

namespace {

const auto k = [](double x) { return BinderSufficiency::of(x); };
const SufficiencyWindow pans{k(1.0), k(1.2), k(1.8), k(2.4)};

} // namespace

TEST_CASE("chances lie where the closed form puts them and add up", "[identity]") {
    const NormalMixture doubt(0.2);
    for (const double at : {0.6, 1.0, 1.47, 2.0, 3.5}) {
        const WindowChances c = window_chances(k(at), doubt, pans);
        const auto below = [&](double limit) { return lognormal_probability_below(at, 0.2, limit); };
        CHECK(c.underbound.value() == Approx(below(1.0)).epsilon(1e-12));
        CHECK(c.below_amber.value() == Approx(below(1.0)).epsilon(1e-12));
        CHECK(c.below_green.value() == Approx(below(1.2)).epsilon(1e-12));
        CHECK(c.above_green.value() == Approx(1.0 - below(1.8)).margin(1e-14));
        CHECK(c.above_amber.value() == Approx(1.0 - below(2.4)).margin(1e-14));
        CHECK(c.below_green.value() + c.in_window.value() + c.above_green.value() ==
              Approx(1.0).margin(1e-14));
    }
    // A small chance keeps its digits on both sides: Phi(-6) = 9.8659e-10 (any table of the normal law).
    const NormalMixture small(std::log(2.4 / 1.5) / 6.0);
    CHECK(window_chances(k(1.5), small, pans).above_amber.value() == Approx(9.865876e-10).epsilon(1e-6));
}

TEST_CASE("the verdict is as sure as its chances", "[unit]") {
    const auto judged = [](double at, double sigma) { return judge(k(at), NormalMixture(sigma), pans); };
    const auto sure = Certainty::sure, doubtful = Certainty::doubtful;
    CHECK(judged(1.45, 0.15).certainty == sure);
    CHECK(judged(1.45, 0.35).certainty == doubtful);
    CHECK(judged(0.5, 0.15).certainty == sure);
    CHECK(judged(0.98, 0.15).certainty == doubtful);
    CHECK(judged(4.0, 0.15).certainty == sure);
    CHECK(judged(2.45, 0.15).certainty == doubtful);
    for (const double at : {0.5, 0.98, 2.45, 4.0})
        CHECK_FALSE(judged(at, 0.15).holds);
    for (const double at : {1.0, 1.1, 1.45, 2.0, 2.4})
        CHECK(judged(at, 0.15).holds);
    // One in ten exactly is where doubt begins: k for 10 % under 1, with all but no chance above.
    const double edge = std::exp(0.05 * 1.2815515655446004);
    CHECK(judged(edge * 1.0001, 0.05).certainty == sure);
    CHECK(judged(edge * 0.9999, 0.05).certainty == doubtful);
    // Both sides count together: 6 % here and 6 % there are more than one in ten.
    const double wide = 0.5 * std::log(2.4) / 1.5547735945968535;
    CHECK(judged(std::sqrt(2.4), wide).chances.below_amber.value() == Approx(0.06).margin(1e-9));
    CHECK(judged(std::sqrt(2.4), wide).certainty == doubtful);
    // A verdict of failing is sure when the chance of that very failure is nine in ten.
    CHECK(judged(0.9999 / edge, 0.05).certainty == sure);
    CHECK(judged(1.0001 / edge, 0.05).certainty == doubtful);
    CHECK(judged(2.4 * edge * 1.0001, 0.05).certainty == sure);
    CHECK(judged(2.4 * edge * 0.9999, 0.05).certainty == doubtful);
}

TEST_CASE("a limit belongs to the better side, to nine digits and no fewer", "[unit]") {
    const double limits[] = {1.0, 1.2, 1.8, 2.4};
    const Verdict outside[] = {Verdict::fails_under, Verdict::amber_under, Verdict::amber_over, Verdict::fails_over};
    const Verdict inside[] = {Verdict::amber_under, Verdict::green, Verdict::green, Verdict::amber_over};
    for (int i = 0; i < 4; ++i) {
        const double out = i < 2 ? -1.0 : 1.0;
        CHECK(verdict(k(limits[i]), pans) == inside[i]);
        CHECK(verdict(k(limits[i] * (1.0 + out * 1e-10)), pans) == inside[i]);
        CHECK(verdict(k(limits[i] * (1.0 + out * 1e-8)), pans) == outside[i]);
        CHECK(verdict(k(limits[i] * (1.0 + out * 1e-3)), pans) == outside[i]);
    }
    CHECK_THROWS_AS(verdict(k(1.0), {k(1.0), k(1.2), k(1.1), k(2.4)}), DomainError);
}

TEST_CASE("the likeliest aim is a maximum, skewed doubt or not", "[identity]") {
    // A blend of one guess and one known figure: skewed.
    const NormalGrid grid = normal_grid(0.3);
    std::vector<double> centres;
    for (const double z : grid.z)
        centres.push_back(-std::log(0.3 * std::exp(0.4 * z) + 0.7));
    for (const NormalMixture& doubt : {NormalMixture(0.16), NormalMixture(0.13, centres, grid.weights)}) {
        const auto best = likeliest_aim(doubt, pans);
        const double there = window_chances(best, doubt, pans).in_window.value();
        for (const double off : {-0.05, -0.002, 0.002, 0.05})
            CHECK(window_chances(k(best.value() * (1 + off)), doubt, pans).in_window.value() <= there);
        CHECK(judge(k(1.1), doubt, pans).in_window_there.value() == Approx(there).epsilon(1e-12));
    }
    CHECK(likeliest_aim(NormalMixture(0.3), pans).value() == Approx(std::sqrt(1.2 * 1.8)).epsilon(1e-12));
    CHECK(likeliest_aim(NormalMixture(0.13, centres, grid.weights), pans).value() != Approx(std::sqrt(1.2 * 1.8)).epsilon(1e-3));
}

TEST_CASE("what has no meaning is not judged", "[errors]") {
    CHECK_THROWS_AS(judge(k(0.0), NormalMixture(0.1), pans), DomainError);
    CHECK_THROWS_AS(judge(k(HUGE_VAL), NormalMixture(0.1), pans), DomainError);
    CHECK_THROWS_AS(judge(k(1.0), NormalMixture(0.1), {k(0.0), k(1.2), k(1.8), k(2.4)}), DomainError);
    CHECK_THROWS_AS(likeliest_aim(NormalMixture(0.1), {k(0.0), k(0.0), k(1.8), k(2.4)}), DomainError);
}

TEST_CASE("an objection is said in place of a k that would do, and a loose film before any k", "[unit]") {
    const Objection loose{ObjectionKind::does_not_bind, {}, {}}, sticky{ObjectionKind::stays_sticky, {}, {}},
        syrup{ObjectionKind::never_sets, {}, {}};
    const auto judged = [](double at, std::vector<Objection> objections) {
        return judge(k(at), NormalMixture(0.1), pans, std::move(objections));
    };
    const auto first = [](const Judgement& j) {
        const Objection* objection = said_first(j);
        return objection ? std::optional(objection->kind) : std::nullopt;
    };
    CHECK(first(judged(1.45, {})) == std::nullopt);
    CHECK(first(judged(1.45, {sticky})) == ObjectionKind::stays_sticky);
    CHECK(first(judged(0.5, {sticky})) == std::nullopt);
    CHECK(first(judged(0.5, {loose})) == ObjectionKind::does_not_bind);
    CHECK(judged(1.45, {sticky}).holds);
    CHECK_FALSE(judged(1.45, {syrup}).holds);
    CHECK_FALSE(judged(1.45, {loose}).holds);
    CHECK_FALSE(judged(0.5, {}).holds);
}

TEST_CASE("the nearest aim misses the window as often as is accepted, and no oftener", "[identity]") {
    const auto accepted = [](double p) { return Probability::of(p); };
    for (const NormalMixture& doubt : {NormalMixture(0.1), NormalMixture(0.2)})
        for (const double from : {0.4, 0.9, 1.3, 2.2, 5.0})
            for (const double miss : {0.35, 0.5, 0.7}) {
                const auto aim = nearest_aim(k(from), doubt, pans, accepted(miss));
                const double in = window_chances(aim, doubt, pans).in_window.value();
                CHECK(in >= 1.0 - miss - 1e-9);
                if (window_chances(k(from), doubt, pans).in_window.value() >= 1.0 - miss)
                    CHECK(aim.value() == Approx(from).epsilon(1e-12)); // nothing needs to be added
                else
                    CHECK(in == Approx(1.0 - miss).margin(1e-7));
                // Never beyond the likeliest aim.
                const double best = likeliest_aim(doubt, pans).value();
                CHECK(std::min(from, best) <= aim.value() * (1 + 1e-9));
                CHECK(aim.value() <= std::max(from, best) * (1 + 1e-9));
            }
    // Where no aim is sure enough, the likeliest it is; a paint without binder starts from far below.
    const NormalMixture wide(0.4);
    CHECK(nearest_aim(k(0.7), wide, pans, accepted(0.05)).value() ==
          Approx(likeliest_aim(wide, pans).value()).epsilon(1e-9));
    CHECK(window_chances(nearest_aim(k(0.0), NormalMixture(0.1), pans, accepted(0.5)), NormalMixture(0.1), pans)
              .in_window.value() == Approx(0.5).margin(1e-7));
}

TEST_CASE("a window that begins above k 1 wants the voids filled", "[unit]") {
    const auto from = [](double k) { return SufficiencyWindow{{}, BinderSufficiency::of(k), {}, {}}; };
    CHECK(from(1.001).wants_voids_filled());
    CHECK_FALSE(from(1.0).wants_voids_filled());
    CHECK_FALSE(from(0.6).wants_voids_filled());
}
