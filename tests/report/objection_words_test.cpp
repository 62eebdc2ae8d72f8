#include "lakebound/report/objection_words.hpp"

#include <catch2/catch.hpp>

#include "lakebound/report/weigh_sheet.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

TEST_CASE("Every objection has a head and a key of its own", "[unit]") {
    CHECK(std::string(objection_head(ObjectionKind::does_not_bind)) == "will not bind");
    CHECK(std::string(objection_head(ObjectionKind::never_sets)) == "will not set in this room");
    CHECK(std::string(objection_head(ObjectionKind::binds_weakly)) == "binds weakly");
    CHECK(key_of(ObjectionKind::does_not_bind) == "does_not_bind");
    CHECK(key_of(ObjectionKind::never_sets) == "never_sets");
    CHECK(key_of(ObjectionKind::binds_weakly) == "binds_weakly");
    CHECK(key_of(ObjectionKind::stays_sticky) == "stays_sticky");
}

TEST_CASE("At 80 % humidity the sheet opens with what will be sticky, and how to mend it", "[unit]") {
    auto request = example_request(Process::watercolour);
    request.bench.humidity = RelativeHumidity::of(0.80);
    const auto sheet = weigh_sheet_text(batch_subject(request, example_tests()));
    CHECK_THAT(sheet, Contains("STAYS STICKY IN THIS ROOM") && !Contains("SHOULD HOLD") &&
                          Contains("water that does not leave") && Contains("leaner medium"));
    CHECK(sheet.find("leaner medium") < sheet.find("WEIGH\n"));
}

TEST_CASE("What binds nothing is told apart from what binds too little", "[unit]") {
    const auto request = example_request(Process::watercolour);
    const Batch batch = *size_batch(request).batch;
    const auto text = [&](double share) {
        return objection_text({ObjectionKind::does_not_bind, VolumeFraction::of(share), VolumeFraction::of(0.3)}, request, batch);
    };
    CHECK_THAT(text(0.0), Catch::StartsWith("Nothing in it binds: "));
    CHECK_THAT(text(0.0006), Catch::StartsWith("Only 0.1 % of what dries is "));
    CHECK_THAT(text(0.12), Catch::StartsWith("Only 12 % of what dries is ") && Contains("wants 30 % or more (an estimate)."));
}

TEST_CASE("What binds weakly says how much of it binds, and how much its family wants", "[unit]") {
    for (const auto process : {Process::watercolour, Process::oil, Process::egg_tempera}) {
        const auto request = example_request(process);
        const Batch batch = *size_batch(request).batch;
        const auto text = objection_text({ObjectionKind::binds_weakly, VolumeFraction::of(0.4), VolumeFraction::of(0.5)}, request, batch);
        CHECK_THAT(text, Catch::StartsWith("Only 40 % of what dries is ") && Contains(request.recipe.family.name + " wants 50 % or more (an estimate)."));
    }
}
