#include "lakebound/paint/spread.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/estimate/random.hpp"

using namespace lakebound;

namespace {
const BinderSufficiency worked_k = BinderSufficiency::of(1.30314); // reduced PVC .85 at c .41834
const CriticalPigmentVolumeConcentration worked_c = CriticalPigmentVolumeConcentration::of(0.41834);
// A maker with library figures only, and home practice (docs/theory.md, table of chance).
const LogSpread library{0.30, 0.10, 0.04, 0.04, 0.03, 0.006, 0.106}; // A
const LogSpread one_rub_out = library.with(SpreadTerm::oil_absorption, 0.10);      // B
const LogSpread three = library.with(SpreadTerm::oil_absorption, 0.07);            // C
const LogSpread three_and_history = three.with(SpreadTerm::method_transfer, 0.05); // D
const LogSpread states[] = {library, one_rub_out, three, three_and_history};
} // namespace

TEST_CASE("chance of an underbound batch in four states of knowledge", "[reference]") {
    // docs/theory.md, table of chance; computed independently (closed form and Monte Carlo): sigma and P
    // to their printed digits, k needed for 5 % and 10 % to two decimals.
    struct Row {
        double sigma, chance, k5, k10;
    };
    const Row rows[] = {{.3227, .206, 1.70, 1.51},
                        {.1554, .0442, 1.29, 1.22},
                        {.1380, .0276, 1.25, 1.19},
                        {.1074, .0069, 1.19, 1.15}};
    for (int i = 0; i < 4; ++i) {
        const double sigma = sufficiency_spread(states[i]);
        CHECK(sigma == Approx(rows[i].sigma).margin(6e-5));
        CHECK(chance_below({worked_k, sigma}).value() == Approx(rows[i].chance).epsilon(0.01));
        CHECK(sufficiency_for_risk(Probability::of(.05), sigma).value() == Approx(rows[i].k5).margin(0.0051));
        CHECK(sufficiency_for_risk(Probability::of(.10), sigma).value() == Approx(rows[i].k10).margin(0.0051));
    }
    // Library oil absorption is 86 % of the variance of ln k.
    CHECK(sufficiency_variance_shares(library)[0] == Approx(.86).margin(.005));
}

TEST_CASE("variance shares of PVC and reduced PVC after one rub-out", "[reference]") {
    // docs/theory.md, table of shares, in the order oil absorption, transfer, solids, binder density,
    // moisture, weighing, pigment density; printed digits.
    CHECK(pvc_spread(one_rub_out, worked_k, worked_c) == Approx(.080).margin(5e-4));
    const auto pvc = pvc_variance_shares(one_rub_out, worked_k, worked_c);
    const double expected[] = {0, 0, .10, .10, .06, .002, .73};
    for (std::size_t i = 0; i < pvc.size(); ++i)
        CHECK(pvc[i] == Approx(expected[i]).margin(i == 5 ? 5e-4 : 6e-3));
    CHECK(reduced_pvc_spread(one_rub_out, worked_k, worked_c) == Approx(.092).margin(5e-4));
    const auto lambda = reduced_pvc_variance_shares(one_rub_out, worked_k, worked_c);
    const double reduced[] = {.40, .40, .08, .08, .04, .002, .005};
    for (std::size_t i = 0; i < lambda.size(); ++i)
        CHECK(lambda[i] == Approx(reduced[i]).margin(i >= 5 ? 6e-4 : 6e-3));
}

TEST_CASE("shares sum to one and match central differences of the kernel", "[identity]") {
    for (double kk : {0.6, 1.0, 1.7})
        for (double cc : {0.25, 0.42, 0.7}) {
            const auto k = BinderSufficiency::of(kk);
            const auto c = CriticalPigmentVolumeConcentration::of(cc);
            for (const auto& shares : {sufficiency_variance_shares(library), pvc_variance_shares(library, k, c),
                                       reduced_pvc_variance_shares(library, k, c)}) {
                double sum = 0;
                for (const double x : shares)
                    sum += x;
                CHECK(sum == Approx(1).epsilon(1e-12));
            }
            // ln PVC and ln Lambda against steps of ln q and ln rho_p, through the kernel itself.
            const double q = 0.74e-3, rho = (1 / cc - 1) / q, vb = kk * q;
            const auto lambda_at = [&](double dq, double dvb, double drho, double* pvc_out) {
                const auto demand = SpecificVolume::from_value(q * std::exp(dq));
                const auto density = MassDensity::from_value(rho * std::exp(drho));
                const auto pvc = pigment_volume_concentration({.pigment = pigment_volume(kilograms(1), density),
                                                               .dry_binder = Volume::from_value(vb * std::exp(dvb))});
                if (pvc_out) *pvc_out = std::log(pvc.value());
                return std::log(reduced_pigment_volume_concentration(
                                    pvc, critical_pigment_volume_concentration(demand, density))
                                    .value());
            };
            const double h = 1e-5;
            const double by_q = (lambda_at(h, 0, 0, nullptr) - lambda_at(-h, 0, 0, nullptr)) / (2 * h);
            const double by_rho = (lambda_at(0, 0, h, nullptr) - lambda_at(0, 0, -h, nullptr)) / (2 * h);
            double up, down;
            const double by_vb = (lambda_at(0, h, 0, &up) - lambda_at(0, -h, 0, &down)) / (2 * h);
            const LogSpread none{0, 0, 0, 0, 0, 0, 0};
            CHECK(reduced_pvc_spread(none.with(SpreadTerm::oil_absorption, 1), k, c) ==
                  Approx(std::abs(by_q)).epsilon(1e-6));
            CHECK(reduced_pvc_spread(none.with(SpreadTerm::pigment_density, 1), k, c) ==
                  Approx(std::abs(by_rho)).margin(1e-6));
            CHECK(reduced_pvc_spread(none.with(SpreadTerm::binder_solids, 1), k, c) ==
                  Approx(std::abs(by_vb)).epsilon(1e-6));
            CHECK(pvc_spread(none.with(SpreadTerm::binder_density, 1), k, c) ==
                  Approx(std::abs(up - down) / (2 * h)).epsilon(1e-6));
        }
}

TEST_CASE("closed form and Monte Carlo agree on the chance", "[identity]") {
    // Independent draws of the seven factors through the kernel; 200 000 draws, five standard errors.
    for (const auto& state : states) {
        std::vector<UncertainInput> inputs;
        for (const auto t : spread_terms)
            inputs.push_back(
                {"", {state.term(t) > 0 ? Shape::lognormal : Shape::exact, 1.0, state.term(t)}, {}});
        MonteCarloOptions options;
        options.draws = 200000;
        const auto draws = monte_carlo(
            [](std::span<const double> x) {
                const auto demand = SpecificVolume::from_value(0.74e-3 * x[0] * x[1]);
                return binder_sufficiency(Volume::from_value(worked_k.value() * 0.74e-3 * x[2] / x[3]),
                                          kilograms(x[4] * x[5]), demand)
                    .value();
            },
            inputs, options);
        const auto p = probability_below(draws, 1.0);
        CHECK(p.value ==
              Approx(chance_below({worked_k, sufficiency_spread(state)}).value()).margin(5 * p.standard_error));
    }
}

TEST_CASE("among batches called ten per cent, a tenth is underbound", "[reference]") {
    // 20 000 makers whose true oil absorption, transfer, solids, density, moisture and weighing are
    // drawn from the stated priors. Each mixes for a stated risk of 10 % with what she knows: the
    // library alone, or the library prior drawn to a rub-out of her own. Between 9 and 11 % must fail;
    // 20 000 makers leave a standard error of 0.2 points.
    RandomEngine engine(20260711);
    for (const bool rub_out : {false, true}) {
        int failed = 0;
        for (int maker = 0; maker < 20000; ++maker) {
            const double ln_oa = std::log(0.65) + 0.30 * standard_normal(engine);
            double best = std::log(0.65), spread = 0.30;
            if (rub_out) {
                const double reading = ln_oa + 0.10 * standard_normal(engine);
                const double prior = 1 / (.30 * .30), weight = 1 / (.10 * .10);
                best = (prior * best + weight * reading) / (prior + weight);
                spread = 1 / std::sqrt(prior + weight);
            }
            const auto known = library.with(SpreadTerm::oil_absorption, spread);
            const auto k = sufficiency_for_risk(Probability::of(0.10), sufficiency_spread(known));
            const auto test_oil = grams_per_cubic_centimetre(0.93);
            const auto believed = binder_demand(OilAbsorption::of(std::exp(best)), test_oil);
            const auto binder = dry_binder_for(k, grams(10), believed);
            const auto factor = [&](double s) { return std::exp(s * standard_normal(engine)); };
            const auto truth = binder_sufficiency(
                binder * factor(.04) * factor(.04), grams(10) * factor(.03) * factor(.006),
                SpecificVolume::from_value(std::exp(ln_oa) / test_oil.value() * factor(.10)));
            if (truth < BinderSufficiency::of(1.0)) ++failed;
        }
        CAPTURE(rub_out, failed);
        CHECK(failed >= 1800);
        CHECK(failed <= 2200);
    }
}

TEST_CASE("spreads refuse what has no meaning", "[errors]") {
    CHECK_THROWS_AS(sufficiency_spread(library.with(SpreadTerm::weighing, -1)), DomainError);
    CHECK_THROWS_AS(sufficiency_spread(library.with(SpreadTerm::weighing, HUGE_VAL)), DomainError);
    CHECK_THROWS_AS(chance_below({BinderSufficiency::of(0), 0.1}), DomainError);
    CHECK_THROWS_AS(chance_above({worked_k, -0.1}, BinderSufficiency::of(2)), DomainError);
    CHECK_THROWS_AS(sufficiency_for_risk(Probability::of(0), 0.1), DomainError);
}
