// Checks a paint that was mixed too lean, and rescues it, through lakebound::core alone.
// By hand: k = .5/.6878 = .727; PVC = (10/1.88)/(10/1.88 + 5/.93) = 49.7 %; CPVC 41.8 %; to 1.398 in all
// 9.617 g of oil: 4.62 g more.
// Prints:
//   k 0.727: fails; PVC 49.7 %, CPVC 41.8 %; add 4.62 g of oil for k 1.398
#include <cstdio>
#include <lakebound/paint/pvc_subject.hpp>
using namespace lakebound;

int main() {
    const auto density = [](double x) { return measured(grams_per_cubic_centimetre(x)); };
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    const Pigment lake{.id = "lake",
                       .density = density(1.88),
                       .oil_absorption = measured(grams_per_100_grams(68.78)),
                       .test_oil_density = density(0.93)};
    const Ingredient oil{.role = Role::drying_oil,
                         .density = density(0.93),
                         .non_volatile = measured(MassFraction::of(1.0)),
                         .solids_density = density(0.93)};
    PvcQuestion question;
    question.pigment = grams(10.0);
    BatchRequest& request = question.request;
    request.amount = question.pigment;
    request.aim = MediumPerPigment::of(0.5); // 5 g of oil went in
    request.recipe.pigments = {{lake, MassFraction::of(1.0)}};
    request.recipe.medium.parts = {{oil, 1.0}};
    Family& family = request.recipe.family;
    family.process = Process::oil;
    family.window = {k(1.0), k(1.15), k(1.7), k(2.2)};
    family.binder_index = measured(BinderIndex::of(1.0));
    family.method_transfer = 0.10;
    request.bench.scales = {{.name = "pocket scale", .step = grams(0.01)}};
    request.bench.weighing_tolerance = Share::of(0.05);
    request.bench.humidity = RelativeHumidity::of(0.5);
    request.practice.test_oil = density(0.93);
    question.rescue = RescueWish{};

    const PvcSubject paint = pvc_subject(question);
    std::printf("k %.3f: %s; PVC %.1f %%, CPVC %.1f %%; add %.2f g of oil for k %.3f\n", paint.check.k->value(),
                will_not_hold(paint) ? "fails" : "holds", 100 * paint.check.pvc->value(),
                100 * paint.check.cpvc->value(), in_grams(paint.rescue->rescue.medium),
                paint.rescue->checked.value());
}
