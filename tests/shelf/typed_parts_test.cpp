#include <catch2/catch.hpp>

#include "lakebound/shelf/typed_parts.hpp"

using namespace lakebound;

TEST_CASE("Parts say which side is which, and by what", "[unit]") {
    const auto parts = typed_parts("2 pigment : 1.5 binder by volume");
    REQUIRE(parts);
    CHECK(parts->first.of == PartOf::pigment);
    CHECK(parts->first.number == Approx(2.0));
    CHECK(parts->second.of == PartOf::binder);
    CHECK(parts->second.number == Approx(1.5));
    CHECK(parts->basis == PartsBasis::volume);
    CHECK(parts->order_said());
    CHECK_FALSE(parts->binder_first());
    CHECK_FALSE(parts->even());
    CHECK(parts->ordered("binder", "pigment") == "2 binder : 1.5 pigment");
}

TEST_CASE("The trade's other words for the two are understood", "[unit]") {
    CHECK(typed_parts("1 medium : 2 powder by mass")->binder_first());
    CHECK(typed_parts("1 medium : 2 powder by mass")->basis == PartsBasis::mass);
    CHECK(typed_parts("1 : 2 pigment by weight")->binder_first());
    CHECK(typed_parts("1 : 2 binder by weight")->order_said());
    CHECK_FALSE(typed_parts("1 : 2 binder by weight")->binder_first());
}

TEST_CASE("What is left out of parts stays open", "[unit]") {
    CHECK_FALSE(typed_parts("1:2")->order_said());
    CHECK_FALSE(typed_parts("1:2")->basis.has_value());
    CHECK(typed_parts("1:1")->even());
    CHECK(typed_parts("0.3 : 0.3")->even());
    CHECK_FALSE(typed_parts("1:2 by volume")->order_said());
    CHECK(typed_parts("1:2 by volume")->basis == PartsBasis::volume);
}

TEST_CASE("Text of another form is no parts", "[errors]") {
    for (const char* text : {"", "1", "1 to 2", "1 binder : 2 binder", "0 : 1", "-1 : 2", "1 gum : 2 pigment",
                             "1 : 2 by spoon", "1 by volume : 2", "one : two", ":", "1 : ", "1,5 : 2"}) {
        INFO(text);
        CHECK_FALSE(typed_parts(text).has_value());
    }
}
