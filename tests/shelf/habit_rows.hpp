#pragma once
// A file of habits written from rows of a key and its figure, for tests that every figure lands in its own place and
// is refused beyond its limits.

#include "faults_of.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

namespace lakebound::testing {

template <class Habits> struct HabitRow {
    std::string key, figure;
    double expected;
    double (*found)(const Habits&);
    std::vector<std::string> refused = {}; ///< figures just beyond the limits
    std::vector<std::string> taken = {};   ///< figures at the limits
};

/// The file with the rows' figures; the figure of `key` replaced by `instead`.
template <class Habits>
std::string written(const std::string& head, const std::vector<HabitRow<Habits>>& rows, const std::string& key = {},
                    const std::string& instead = {}) {
    std::string text = head;
    for (const auto& row : rows)
        text += row.key + ": {value: " + (row.key == key ? instead : row.figure) + ", origin: estimate}\n";
    return text;
}

/// Each figure in its place, each limit as it is told, and the fault in the line of its figure. habits_of: of a text.
template <class Habits, class Read>
void check_rows(const std::string& head, const std::vector<HabitRow<Habits>>& rows, Read&& habits_of) {
    const Habits habits = habits_of(written(head, rows));
    std::size_t line = static_cast<std::size_t>(std::count(head.begin(), head.end(), '\n'));
    for (const auto& row : rows) {
        ++line;
        CAPTURE(row.key);
        CHECK(row.found(habits) == Approx(row.expected).epsilon(1e-12));
        for (const std::string& figure : row.refused) {
            CAPTURE(figure);
            const auto faults = faults_of([&] { habits_of(written(head, rows, row.key, figure)); });
            REQUIRE(faults.size() == 1);
            CHECK(faults[0].at.place.line == line);
            CHECK((faults[0].id == "out-of-range" || faults[0].id == "quantity-negative" ||
                   faults[0].id == "fraction-above-one"));
        }
        for (const std::string& figure : row.taken) {
            CAPTURE(figure);
            CHECK(summary(faults_of([&] { habits_of(written(head, rows, row.key, figure)); })).empty());
        }
    }
}

} // namespace lakebound::testing
