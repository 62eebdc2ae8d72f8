// Sizes a batch, judges it and asks what to measure next, through lakebound::core alone.
// By hand: the middle of the window sqrt(1.15 x 1.7) = 1.398, x 65/100 x 10 g = 9.09 g; sd hypot(.3001, .1, .03)
// = .3178: Phi(.1954/.3178) - Phi(-.1954/.3178) = 46 %; with .10 for .3001 sd .1446, 82 %.
// Prints:
//   9.09 g oil: k 1.40, holds, not surely, in the window 46 %; one rub-out makes it 82 %
#include <cstdio>
#include <lakebound/paint/batch_subject.hpp>
using namespace lakebound;

int main() {
    const Provenance guess{Origin::estimate, "", true};
    const auto density = [](double x) { return measured(grams_per_cubic_centimetre(x)); };
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    const Pigment lake{.id = "lake",
                       .pigment_class = PigmentClass::lake,
                       .density = density(1.88),
                       .oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), 1.35, guess),
                       .test_oil_density = density(0.93)};
    const Ingredient oil{.role = Role::drying_oil,
                         .density = density(0.93),
                         .non_volatile = measured(MassFraction::of(1.0)),
                         .solids_density = density(0.93)};
    BatchRequest request;
    request.amount = grams(10.0);
    request.recipe.pigments = {{lake, MassFraction::of(1.0)}};
    request.recipe.medium.parts = {{oil, 1.0}};
    Family& family = request.recipe.family;
    family.process = Process::oil;
    family.start = k(1.35);
    family.window = {k(1.0), k(1.15), k(1.7), k(2.2)};
    family.binder_index = measured(BinderIndex::of(1.0));
    family.method_transfer = 0.10;
    request.practice.moisture_drift = 0.03;
    request.bench.scales = {{.name = "pocket scale", .step = grams(0.01)}};
    request.bench.weighing_tolerance = Share::of(0.05);
    request.bench.humidity = RelativeHumidity::of(0.5);

    // A miss in twenty is borne; a test that brings a point in ten minutes pays.
    const BenchTests tests{{{"rub-out", "one rub-out", minutes(10), SpreadTerm::oil_absorption, 0.10, grams(2)}},
                           {Probability::of(0.05), 0.001}};
    const BatchSubject answer = batch_subject(request, tests);
    const Judgement& judged = *answer.judgement;
    std::printf("%.2f g oil: k %.2f, %s%s, in the window %.0f %%; %s makes it %.0f %%\n",
                in_grams(answer.answer.batch->medium), judged.k.value(), judged.holds ? "holds" : "fails",
                judged.certainty == Certainty::sure ? "" : ", not surely",
                100 * judged.chances.in_window.value(), tests.candidates.at(answer.next->recommended.value()).name.c_str(),
                100 * answer.next->gains.front().after.value());
}
