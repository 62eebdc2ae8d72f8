#include "lakebound/estimate/sampling_law.hpp"

#include <limits>

#include <catch2/catch.hpp>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

// The tables of every handbook of statistics (NIST/SEMATECH e-Handbook 1.3.6.7.2 to .4), three decimals; from memory.
TEST_CASE("Quantiles of Student's t and of chi squared are those of the tables", "[reference]") {
    struct Row {
        double p, degrees, t, chi2;
    };
    for (const auto& row : {Row{0.95, 1.0, 6.314, 3.841}, Row{0.95, 10.0, 1.812, 18.307},
                            Row{0.975, 5.0, 2.571, 12.833}, Row{0.99, 20.0, 2.528, 37.566}}) {
        CHECK(student_quantile(row.p, row.degrees) == Approx(row.t).margin(6e-4));
        CHECK(chi_squared_quantile(row.p, row.degrees) == Approx(row.chi2).margin(6e-4));
    }
}

// scipy.stats.f.isf, SciPy 1.10.
TEST_CASE("Where F has its limit, the chance beyond is that of the limit", "[reference]") {
    CHECK(variance_ratio_exceeds(4.964603, 1.0, 10.0) == Approx(0.05).margin(1e-6));
    CHECK(variance_ratio_exceeds(3.325835, 5.0, 10.0) == Approx(0.05).margin(1e-6));
    CHECK(variance_ratio_exceeds(10.044289, 1.0, 10.0) == Approx(0.01).margin(1e-6));
}

TEST_CASE("With infinitely many degrees of freedom t is the normal variate", "[identity]") {
    CHECK(student_quantile(0.975, std::numeric_limits<double>::infinity()) ==
          Approx(standard_normal_quantile(0.975)).epsilon(1e-12));
}

TEST_CASE("F of one degree above is the square of t, by definition", "[identity]") {
    for (const double p : {0.6, 0.9, 0.975, 0.999}) {
        const double t = student_quantile(p, 7.0);
        CHECK(variance_ratio_exceeds(t * t, 1.0, 7.0) == Approx(2.0 * (1.0 - p)).epsilon(1e-9));
    }
}

TEST_CASE("A law without degrees of freedom, or outside its chances, is refused", "[errors]") {
    for (const double bad : {0.0, -1.0}) {
        CHECK_THROWS_AS(student_quantile(0.9, bad), DomainError);
        CHECK_THROWS_AS(chi_squared_quantile(0.9, bad), DomainError);
        CHECK_THROWS_AS(variance_ratio_exceeds(1.0, bad, 3.0), DomainError);
        CHECK_THROWS_AS(variance_ratio_exceeds(1.0, 3.0, bad), DomainError);
    }
    for (const double bad : {0.0, 1.0}) {
        CHECK_THROWS_AS(student_quantile(bad, 3.0), DomainError);
        CHECK_THROWS_AS(chi_squared_quantile(bad, 3.0), DomainError);
    }
    CHECK_THROWS_AS(variance_ratio_exceeds(-0.1, 3.0, 3.0), DomainError);
}
