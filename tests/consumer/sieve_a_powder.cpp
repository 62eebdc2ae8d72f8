// Reads a sieve test with the core library alone.
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
    question.target = plain_target(micrometres(45), MassFraction::of(0.01));
    const auto answer = read_sieving(question);
    std::printf("%.1f %% over 45 um: %s\n", 100 * answer.verdict->residue.share.value(),
                answer.verdict->verdict == FinenessVerdict::too_coarse ? "too coarse" : "not surely too coarse");
}
