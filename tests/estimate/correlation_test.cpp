#include "lakebound/estimate/correlation.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <initializer_list>

#include "support/told.hpp"

using namespace lakebound;

namespace {

struct At {
    std::size_t i, j;
    double r;
};

CorrelationMatrix matrix(std::size_t size, std::initializer_list<At> coefficients) {
    CorrelationMatrix m(size);
    for (const At& at : coefficients)
        m.set(at.i, at.j, at.r);
    return m;
}

/// How far F F^T lies from the matrix, at most.
double miss(const CorrelationMatrix& m) {
    const auto f = m.factor();
    const std::size_t n = m.size();
    double most = 0.0;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j) {
            double sum = 0.0;
            for (std::size_t k = 0; k < n; ++k)
                sum += f[i * n + k] * f[j * n + k];
            most = std::max(most, std::abs(sum - m(i, j)));
        }
    return most;
}

} // namespace

TEST_CASE("A coefficient stands on both sides of the diagonal, which is 1", "[unit]") {
    const auto m = matrix(3, {{0, 2, -0.4}});
    CHECK(m.size() == 3);
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j)
            CHECK(m(i, j) == Approx(i == j ? 1.0 : i + j == 2 ? -0.4 : 0.0).margin(0));
    CHECK(m.correlated(0));
    CHECK_FALSE(m.correlated(1));
    CHECK(m.correlated(2));
    CHECK_FALSE(m.independent());
    CHECK(CorrelationMatrix(3).independent());
    CHECK(CorrelationMatrix().independent());
    CHECK(CorrelationMatrix().size() == 0);
    CHECK(CorrelationMatrix().factor().empty());
    CHECK_FALSE(matrix(2, {{1, 0, 1e-9}}).independent());
    CHECK(matrix(2, {{1, 0, 0.5}, {0, 1, 0.0}}).independent()); // the last word counts
}

TEST_CASE("A coefficient is from -1 to 1, of two different inputs", "[unit][errors]") {
    CorrelationMatrix m(2);
    for (const double r : {-1.0, 0.0, 1.0})
        CHECK_NOTHROW(m.set(0, 1, r));
    CHECK(told([&] { m.set(0, 1, 1.5); }) == "correlation coefficient: 1.5");
    CHECK(told([&] { m.set(0, 1, -1.5); }) == "correlation coefficient: -1.5");
    CHECK(told([&] { m.set(0, 1, std::nan("")); }) == "correlation coefficient: not a number");
    CHECK(told([&] { m.set(0, 0, 0.5); }) == "place of a correlation coefficient: 0, 0");
    CHECK(told([&] { m.set(2, 1, 0.5); }) == "place of a correlation coefficient: 2, 1");
    CHECK(told([&] { m.set(1, 2, 0.5); }) == "place of a correlation coefficient: 1, 2");
}

TEST_CASE("The factor times its turned self is the matrix", "[identity]") {
    CHECK(miss(CorrelationMatrix(3)) < 1e-15);
    CHECK(miss(matrix(2, {{0, 1, 0.6}})) < 1e-14);
    CHECK(miss(matrix(4, {{0, 1, 0.3}, {0, 2, -0.2}, {0, 3, 0.1}, {1, 2, 0.5}, {1, 3, -0.4}, {2, 3, 0.25}})) < 1e-14);
    // Complete correlation, and the last n variables that can all disagree by -1/(n - 1)
    CHECK(miss(matrix(3, {{0, 1, 1.0}, {0, 2, 1.0}, {1, 2, 1.0}})) < 1e-14);
    CHECK(miss(matrix(3, {{0, 1, -1.0}, {0, 2, 1.0}, {1, 2, -1.0}})) < 1e-14);
    CHECK(miss(matrix(3, {{0, 1, -0.5}, {0, 2, -0.5}, {1, 2, -0.5}})) < 1e-8);
}

TEST_CASE("An input that stands alone keeps a variate of its own", "[unit]") {
    const auto f = matrix(4, {{0, 2, 0.7}, {2, 3, 0.6}}).factor();
    for (std::size_t other : {0u, 2u, 3u}) {
        CHECK(std::abs(f[1 * 4 + other]) < 1e-15);
        CHECK(std::abs(f[other * 4 + 1]) < 1e-15);
    }
    CHECK(std::abs(f[1 * 4 + 1]) == Approx(1.0));
}

TEST_CASE("Coefficients that contradict one another are refused", "[errors]") {
    const std::string refusal = "correlation matrix: one that no set of variables can have";
    CHECK(told([] { matrix(3, {{0, 1, 0.9}, {0, 2, 0.9}, {1, 2, -0.9}}).factor(); }) == refusal);
    CHECK(told([] { matrix(3, {{0, 1, -0.51}, {0, 2, -0.51}, {1, 2, -0.51}}).factor(); }) == refusal);
    CHECK(told([] { matrix(3, {{0, 1, 1.0}, {0, 2, 1.0}, {1, 2, 0.99}}).factor(); }) == refusal);
    CHECK(told([] { matrix(3, {{0, 1, -0.49}, {0, 2, -0.49}, {1, 2, -0.49}}).factor(); }) == "taken");
}
