// Plans grinding from two sieve tests with the core library alone.
// By the two tests some 2/3 of what is left breaks in a round of 10 to 20 min: 4 rounds or so to 1 %.
// Prints:
//   grind 10 min, 6 times (5 to 9), and sieve each time
#include <cmath>
#include <cstdio>

#include "lakebound/particle/grind_answer.hpp"

namespace {

using namespace lakebound;

template <class Q> Estimate<Q> guess(const Q& value) {
    return Estimate<Q>::exact(value, {Origin::estimate, "judgement", false});
}

SieveRecord ground(double minutes_ground, const double (&on)[5], double pan) {
    SieveRecord record;
    record.grinding_time = minutes(minutes_ground);
    const double um[] = {250, 150, 106, 75, 45};
    for (int i = 0; i < 5; ++i)
        record.test.screens.push_back({micrometres(um[i]), grams(on[i])});
    record.test.pan = grams(pan);
    return record;
}

} // namespace

int main() {
    GrindQuestion question;
    question.tests = {ground(5, {5.56, 4.51, 3.09, 2.27, 1.94}, 2.38),
                      ground(15, {2.26, 3.27, 2.97, 2.82, 2.90}, 5.50)};
    question.usual_density = grams_per_cubic_centimetre(1.88);
    question.water = degrees_celsius(20);
    auto& habits = question.habits;
    habits.sieving_repeats_to = guess(MassFraction::of(0.01));
    habits.dry_efficiency = guess(Share::of(0.9));
    habits.wet_efficiency = guess(Share::of(0.95));
    habits.loss = guess(Share::of(0.01));
    habits.emptier_is_faster = guess(Share::of(0.5));
    habits.dry_handling = guess(minutes(4));
    habits.wet_handling = guess(minutes(10));
    habits.drying = guess(hours(12));
    habits.fill_and_stir = guess(minutes(3));
    habits.pour = guess(minutes(1));
    habits.solids = guess(VolumeFraction::of(0.02));
    habits.water_depth = guess(millimetres(100));
    habits.draw = guess(Share::of(0.8));
    habits.refills = 3;
    habits.dry_sieving_ends = guess(micrometres(75));
    habits.wet_screening_ends = guess(micrometres(40));
    habits.largest_grain = 2.0;
    habits.breakage = {std::log(0.9), 0.33, std::log(0.9), 0.33, 0.01, 2.0};
    habits.cushioning = {0.5, 2.6};
    question.target = plain_target(micrometres(75), MassFraction::of(0.01), habits);
    const auto answer = plan_grinding(question, [](double) {});
    for (const auto& way : answer.ways)
        if (way.plan.in_rounds && way.needed) {
            std::printf("grind %.0f min, %zu times (%u to %u), and sieve each time\n", in_minutes(way.plan.cycle),
                        grinds_of(way), way.needed->low, way.needed->high.value_or(0));
            return 0;
        }
    return 1;
}
