// Makes the clock of pour-offs with the core library alone.
// By hand (Stokes, hindered by 2 % of others): 45 um fall 80 mm in 90 s.
// Prints:
//   wait 91 s, 4 pour-offs, 22 min in all
#include <cstdio>

#include "lakebound/particle/settle_answer.hpp"

int main() {
    using namespace lakebound;
    SettleQuestion question;
    question.cut = micrometres(45);
    question.depth = millimetres(100);
    question.density = {grams_per_cubic_centimetre(1.88), GivenBy::maker};
    question.temperature = {degrees_celsius(20), GivenBy::maker};
    question.solids = VolumeFraction::of(0.02);
    question.handling = {minutes(3), minutes(1)};
    question.usual_draw = Share::of(0.8);
    question.pours = 4;
    question.shortest_wait = seconds(5);
    question.longest_wait = hours(24);
    const auto answer = plan_settling(question);
    std::printf("wait %.0f s, %u pour-offs, %.0f min in all\n", in_seconds(answer.plan.how.wait),
                answer.plan.how.pours, in_minutes(answer.plan.elapsed));
}
