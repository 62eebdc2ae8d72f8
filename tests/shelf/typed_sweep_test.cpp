#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/paint/sweep.hpp"
#include "lakebound/shelf/typed_sweep.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;

namespace {

const PvcSubject& swept_paint() {
    static const PvcSubject subject = [] {
        PvcQuestion asked;
        asked.request = lakebound::testing::example_request(Process::oil);
        asked.request.recipe.vessel.reset();
        asked.request.aim = BinderSufficiency::of(1.35);
        asked.pigment = grams(10.0);
        return pvc_subject(asked);
    }();
    return subject;
}
std::string sweep_fault(const SweepTexts& texts) {
    return summary(faults_of([&] { (void)sweep_wish(texts, swept_paint()); }));
}

} // namespace

TEST_CASE("A sweep is typed over one of three things, each with bounds of its own kind", "[unit]") {
    const auto medium = sweep_wish({"medium", "0.5 g/g", "1 g/g", "50"}, swept_paint());
    CHECK(medium.over == SweepOver::medium);
    CHECK(medium.from == Approx(0.5));
    CHECK(medium.to == Approx(1.0));
    CHECK(medium.points == 50);
    const auto extender = sweep_wish({"extender", "10 % w/w", "60 % w/w", {}}, swept_paint());
    CHECK(extender.from == Approx(0.1));
    CHECK(extender.to == Approx(0.6));
    CHECK(extender.points == usual_range(SweepOver::extender, swept_paint()).points);
    const auto ratio = sweep_wish({"size-ratio", "2", {}, {}}, swept_paint());
    CHECK(ratio.over == SweepOver::size_ratio);
    CHECK(ratio.from == Approx(2.0));
    CHECK(ratio.to == Approx(usual_range(SweepOver::size_ratio, swept_paint()).to));
}

TEST_CASE("A sweep that is none says what is expected", "[errors]") {
    CHECK(sweep_fault({"grain", {}, {}, {}}) == "sweep-over");
    CHECK(sweep_fault({"size_ratio", {}, {}, {}}) == "sweep-over");
    CHECK(sweep_fault({"medium", "10 g", {}, {}}) == "unit-dimension");
    CHECK(sweep_fault({"size-ratio", "5 um", {}, {}}) != "");
    CHECK(sweep_fault({"medium", {}, {}, "many"}) == "points-form");
    CHECK(sweep_fault({"medium", {}, {}, "-5"}) == "points-form");
    CHECK(sweep_fault({"medium", {}, {}, ""}) == "points-form");
    // Too many for a number: refused with all others that are too many.
    CHECK(sweep_wish({"medium", {}, {}, "99999999999999999999"}, swept_paint()).points > greatest_sweep);
}
