// Reads a sieve test with the core library alone.
// By hand: 15.7 g of 19.7 g over 45 um.
// Prints:
//   79.7 % over 45 um: too coarse
#include <cstdio>

#include "lakebound/particle/sieve_answer.hpp"

int main() {
    using namespace lakebound;
    SieveQuestion question;
    question.record.test.screens = {{micrometres(250), grams(0.4)}, {micrometres(150), grams(2.1)},
                                    {micrometres(106), grams(3.6)}, {micrometres(75), grams(4.7)},
                                    {micrometres(45), grams(4.9)}};
    question.record.test.pan = grams(4.0);
    question.record.test.charge = grams(20.0);
    PowderHabits habits;
    habits.dry_sieving_ends = Estimate<Length>::exact(micrometres(75), {Origin::estimate, "judgement", false});
    habits.wet_screening_ends = Estimate<Length>::exact(micrometres(40), {Origin::estimate, "judgement", false});
    question.target = plain_target(micrometres(45), MassFraction::of(0.01), habits);
    const auto answer = read_sieving(question);
    std::printf("%.1f %% over 45 um: %s\n", 100 * answer.verdict->residue.share.value(),
                answer.verdict->verdict == FinenessVerdict::too_coarse ? "too coarse" : "not surely too coarse");
}
