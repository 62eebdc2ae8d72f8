#pragma once
// The project's worked sieve test: 20.0 g charged, 19.7 g recovered, on a 0.1 g scale.

#include <string>
#include <utility>

#include "support/powder_habits.hpp"
#include "lakebound/particle/sieve_answer.hpp"

namespace lakebound::testing {

inline SieveQuestion worked_sieving() {
    SieveQuestion question;
    question.water_depth = millimetres(100.0);
    question.record.name = "Worked";
    for (const auto& [um, g] : {std::pair{250.0, 0.4}, {150.0, 2.1}, {106.0, 3.6}, {75.0, 4.7}, {45.0, 4.9}}) {
        question.record.test.screens.push_back({micrometres(um), grams(g)});
        question.record.sieves.push_back(
            {micrometres(um), SieveCloth::wire, std::to_string(int(um)) + " um", {}});
    }
    question.record.test.pan = grams(4.0);
    question.record.test.charge = grams(20.0);
    question.record.test.scale_step = grams(0.1);
    question.record.density = grams_per_cubic_centimetre(1.88);
    question.target = plain_target(micrometres(45.0), MassFraction::of(0.01), usual_habits());
    return question;
}

inline SieveQuestion wet_sieving(double residue_g, double charge_g, double step_g) {
    SieveQuestion question = worked_sieving();
    question.record.method = SieveMethod::wet;
    question.record.test = {
        {{micrometres(45.0), grams(residue_g)}}, grams(charge_g - residue_g), grams(charge_g), grams(step_g)};
    question.record.sieves = {{micrometres(45.0), SieveCloth::wire, "45 um", {}}};
    return question;
}

} // namespace lakebound::testing
