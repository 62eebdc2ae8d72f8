#pragma once
// Sieve tests of one powder at two times, for tests of grinding plans. Invented masses.

#include <string>
#include <utility>
#include <vector>

#include "lakebound/particle/grind_answer.hpp"
#include "support/powder_habits.hpp"

namespace lakebound::testing {

inline SieveRecord ground_test(double minutes_ground, const std::vector<std::pair<double, double>>& kept, double pan) {
    SieveRecord record;
    record.name = "After " + std::to_string(static_cast<int>(minutes_ground)) + " min";
    record.grinding_time = minutes(minutes_ground);
    for (const auto& [um, g] : kept) {
        record.test.screens.push_back({micrometres(um), grams(g)});
        record.sieves.push_back({micrometres(um), SieveCloth::wire, "", {}});
    }
    record.test.pan = grams(pan);
    record.test.scale_step = grams(0.01);
    return record;
}
inline SieveRecord early() {
    return ground_test(5, {{250, 5.56}, {150, 4.51}, {106, 3.09}, {75, 2.27}, {45, 1.94}}, 2.38);
}
inline SieveRecord late() {
    return ground_test(15, {{250, 2.26}, {150, 3.27}, {106, 2.97}, {75, 2.82}, {45, 2.90}}, 5.50);
}
/// Hardly finer after twice the time.
inline SieveRecord slow() {
    return ground_test(30, {{250, 1.9}, {150, 3.27}, {106, 2.97}, {75, 2.82}, {45, 2.90}}, 5.86);
}

inline GrindQuestion grind_question(std::vector<SieveRecord> tests, double um = 75.0, double residue = 0.01) {
    GrindQuestion question;
    question.tests = std::move(tests);
    question.target = plain_target(micrometres(um), MassFraction::of(residue), usual_habits());
    question.habits = usual_habits();
    question.usual_density = grams_per_cubic_centimetre(1.88);
    question.water = degrees_celsius(20.0);
    return question;
}

inline GrindAnswer planned(GrindQuestion asked) {
    return plan_grinding(std::move(asked), [](double) {});
}

} // namespace lakebound::testing
