#include <catch2/catch.hpp>

#include "lakebound/particle/extended_curve.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {
PassingCurve seen() {
    PassingCurve curve;
    for (const auto& [um, p] : {std::pair{45.0, 0.203}, {75.0, 0.4518}, {106.0, 0.6904}, {150.0, 0.8731}})
        curve.points.push_back({micrometres(um), MassFraction::of(p)});
    return curve;
}
} // namespace

TEST_CASE("A curve carried on keeps what was seen and joins it without a step", "[identity]") {
    const auto fit = fit_size(seen(), SizeModel::rosin_rammler);
    const auto curve = extended_curve(seen(), fit, micrometres(1.0));
    check_curve(curve); // sizes rise, passing never falls
    REQUIRE(curve.points.size() == 12);
    CHECK(in_micrometres(curve.points.front().size) == Approx(1.0).epsilon(1e-9));
    for (std::size_t i = 0; i < 4; ++i)
        CHECK(curve.points[8 + i].passing.value() == Approx(seen().points[i].passing.value()).epsilon(1e-12));
    // The last carried-on point lies below the first screen by the ratio of the fit alone.
    const auto& last = curve.points[7];
    CHECK(last.passing.value() / 0.203 == Approx(predicted_passing(fit, last.size).passing.value() /
                                                 predicted_passing(fit, micrometres(45.0)).passing.value())
                                              .epsilon(1e-12));
}

TEST_CASE("A curve is carried on downward only", "[errors]") {
    const auto fit = fit_size(seen(), SizeModel::rosin_rammler);
    CHECK_THROWS_AS(extended_curve(seen(), fit, micrometres(45.0)), DomainError);
    CHECK_THROWS_AS(extended_curve(seen(), fit, micrometres(0.0)), DomainError);
}
