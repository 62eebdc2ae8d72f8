#include "lakebound/shelf/record_places.hpp"

#include <catch2/catch.hpp>

#include "lakebound/shelf/domain_fault.hpp"

using namespace lakebound;

namespace {

Excerpt line(unsigned number) {
    Excerpt at;
    at.place.line = number;
    return at;
}

RecordPlaces places(unsigned first) {
    return {line(first), line(first + 1), line(first + 2), line(first + 3), line(first + 4)};
}

const DomainError wrong("grinding time", "3 min", "above 5 min", "order the tests");

} // namespace

TEST_CASE("Each part of a record is told where it stands, or at the whole where it is not written", "[unit]") {
    const RecordPlaces all = places(10);
    CHECK(all.at(RecordPart::whole).place.line == 10);
    CHECK(all.at(RecordPart::grinding_time).place.line == 11);
    CHECK(all.at(RecordPart::retained).place.line == 12);
    CHECK(all.at(RecordPart::density).place.line == 13);
    CHECK(all.at(RecordPart::timed_grains).place.line == 14);
    const RecordPlaces bare{line(7), {}, {}, {}, {}};
    for (const auto part : {RecordPart::whole, RecordPart::grinding_time, RecordPart::retained, RecordPart::density, RecordPart::timed_grains})
        CHECK(bare.at(part).place.line == 7);
}

TEST_CASE("What two tests say against each other is told at both", "[unit]") {
    const RecordPlaces records[] = {places(10), places(20)};
    const Diagnostic alone = record_fault(RecordError(wrong, RecordPart::retained, 1), records);
    CHECK(alone.id == "out-of-range");
    CHECK(alone.message == "grinding time is 3 min; it must be above 5 min");
    CHECK(alone.hint == "order the tests");
    CHECK(alone.at.place.line == 22);
    CHECK_FALSE(alone.second.has_value());
    const Diagnostic both = record_fault(RecordError(wrong, RecordPart::grinding_time, 1, 0), records);
    CHECK(both.at.place.line == 21);
    REQUIRE(both.second.has_value());
    CHECK(both.second->at.place.line == 11);
    CHECK(both.second->message == "the test that it is held against");
}

TEST_CASE("A figure beyond a model is a fault of the file or the command line that it came from", "[unit]") {
    CHECK(domain_sentence(wrong) == "grinding time is 3 min; it must be above 5 min");
    const Diagnostic of_file = domain_fault("tests.yaml", wrong);
    CHECK(of_file.id == "out-of-range");
    CHECK(of_file.at.place.line == 0);
    CHECK(of_file.message == domain_sentence(wrong));
    CHECK(of_file.hint == "order the tests");
    CHECK(domain_fault(line(3), wrong).at.place.line == 3);
    CHECK(domain_fault(line(3), wrong).hint == "order the tests");
}
