#include "lakebound/quantity/ratio.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <string>
#include <type_traits>

#include "lakebound/quantity/canonical.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

static_assert(!std::is_convertible_v<MassFraction, VolumeFraction>);
static_assert(!std::is_convertible_v<MassFraction, double>);
static_assert(!std::is_convertible_v<double, MassFraction>);
static_assert(!std::is_convertible_v<OilAbsorption, MassFraction>);
static_assert(!std::is_convertible_v<PigmentVolumeConcentration, CriticalPigmentVolumeConcentration>);
template <class A, class B> concept Addable = requires(A a, B b) { a + b; };
template <class A, class B> concept Comparable = requires(A a, B b) { a < b; };
static_assert(!Addable<MassFraction, VolumeFraction>);
static_assert(!Comparable<MassFraction, VolumeFraction>);
static_assert(Comparable<MassFraction, MassFraction>);
static_assert(!std::is_default_constructible_v<Ph>); // 0 would be battery acid
static_assert(!std::is_convertible_v<double, Ph> && !std::is_convertible_v<Ph, double>);
static_assert(!std::is_convertible_v<Ph, Probability> && !Comparable<Ph, Probability>);
static_assert(!std::is_convertible_v<Ph::Difference, Ph> && !std::is_convertible_v<Ph, Ph::Difference>);
static_assert(std::is_trivially_copyable_v<MassFraction>);
static_assert(grams_per_cubic_centimetre(1.94).value() == 1940.0);

TEST_CASE("a ratio outside its range is refused with its name, value and range", "[unit][errors]") {
    CHECK(MassFraction::of(0.12).value() == 0.12);
    CHECK_NOTHROW(MassFraction::of(0.0));
    CHECK_NOTHROW(MassFraction::of(1.0));
    CHECK_THROWS_AS(MassFraction::of(std::nan("")), DomainError);
    CHECK_THROWS_AS(BinderSufficiency::of(std::numeric_limits<double>::infinity()), DomainError);
    CHECK_THROWS_AS(grams_per_100_grams(450), DomainError);
    try {
        VolumeFraction::of(1.25);
        FAIL("accepted");
    } catch (const DomainError& e) {
        CHECK(e.quantity() == "volume fraction");
        CHECK(e.value() == "1.25");
        CHECK(e.valid() == "0 to 1");
    }
}

TEST_CASE("a reckoned value out of range is told in six digits, and in all where six would be a rounder figure", "[unit][errors]") {
    const auto told = [](double x) {
        try {
            throw_out_of_range("share", x, "", "0 to 1");
        } catch (const DomainError& e) {
            return std::string(e.value());
        }
    };
    CHECK(told(1.9780219780219783) == "1.97802");
    CHECK(told(-1234567.25) == "-1.23457e+06");
    CHECK(told(0.000123456789) == "0.000123457");
    CHECK(told(1.25) == "1.25");
    CHECK(told(0.0) == "0");
    CHECK(told(123456.0) == "123456");
    CHECK(told(1.0000001) == "1.0000001");   // not "1", which is in the range
    CHECK(told(1.99999999) == "1.99999999"); // not "2"
    CHECK(told(12345000.0) == "12345000");
    CHECK(told(125000.4) == "125000.4"); // not "125000", to which a screen may go
    CHECK(told(100000.3) == "100000.3");
    try {
        (void)OilAbsorption::of(4.5);
        FAIL("accepted");
    } catch (const DomainError& e) {
        CHECK(e.value() == "450 g/100 g");
    }
}

TEST_CASE("canonical numbers go out and come back unchanged", "[unit]") {
    CHECK(from_canonical<Mass>(canonical(grams(12.5))) == grams(12.5));
    CHECK(from_canonical<OilAbsorption>(0.688).value() == 0.688);
    CHECK_THROWS_AS(from_canonical<MassFraction>(1.5), DomainError);
    CHECK(in_degrees_celsius(from_canonical<Temperature>(293.15)) == Approx(20.0));
    CHECK((degrees_celsius(25) - degrees_celsius(20)).value() == Approx(5.0));
}

namespace {
template <class R> bool takes(double x) {
    try {
        return R::of(x).value() == x;
    } catch (const DomainError&) {
        return false;
    }
}
template <class R> void holds_zero_to_one() {
    CHECK_FALSE(takes<R>(-1e-9));
    CHECK(takes<R>(0.0));
    CHECK(takes<R>(1e-9));
    CHECK(takes<R>(1.0));
    CHECK_FALSE(takes<R>(1.0 + 1e-9));
}
template <class R> void holds_zero_upward() {
    CHECK_FALSE(takes<R>(-1e-9));
    CHECK(takes<R>(0.0));
    CHECK(takes<R>(1e-9));
    CHECK(takes<R>(1e300));
}
} // namespace

TEST_CASE("every ratio ends where its words say", "[errors]") {
    holds_zero_to_one<MassFraction>();
    holds_zero_to_one<VolumeFraction>();
    holds_zero_to_one<PigmentVolumeConcentration>();
    holds_zero_to_one<CriticalPigmentVolumeConcentration>();
    holds_zero_to_one<RelativeHumidity>();
    holds_zero_to_one<Share>();
    holds_zero_to_one<Probability>();
    holds_zero_upward<ReducedPigmentVolumeConcentration>();
    holds_zero_upward<BinderSufficiency>();
    holds_zero_upward<MediumPerPigment>();
    CHECK(takes<OilAbsorption>(0.02));
    CHECK_FALSE(takes<OilAbsorption>(0.0199));
    CHECK(takes<OilAbsorption>(4.0));
    CHECK_FALSE(takes<OilAbsorption>(4.001));
    CHECK(takes<BinderIndex>(0.1));
    CHECK_FALSE(takes<BinderIndex>(0.099));
    CHECK(takes<BinderIndex>(1.0));
    CHECK_FALSE(takes<BinderIndex>(1.001));
    CHECK_FALSE(takes<Ph>(-1e-9));
    CHECK(takes<Ph>(0.0));
    CHECK(takes<Ph>(14.0));
    CHECK_FALSE(takes<Ph>(14.001));
    for (const double x : {0.0, 0.3, 1.0}) {
        CHECK(complement(MassFraction::of(x)).value() == Approx(1.0 - x).margin(1e-15));
        CHECK(complement(VolumeFraction::of(x)).value() == Approx(1.0 - x).margin(1e-15));
    }
    CHECK(Share().value() == Approx(0.0).margin(1e-300));
}
