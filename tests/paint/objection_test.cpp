#include "lakebound/paint/objection.hpp"

#include <catch2/catch.hpp>

#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
const CohesionLimits limits{VolumeFraction::of(0.30), VolumeFraction::of(0.50)};
std::vector<ObjectionKind> kinds(double share, std::optional<double> soft) {
    std::vector<ObjectionKind> found;
    std::optional<VolumeFraction> in_room;
    if (soft) in_room = VolumeFraction::of(*soft);
    for (const Objection& o : objections(VolumeFraction::of(share), limits, in_room, testing::soft_shares()))
        found.push_back(o.kind);
    return found;
}
using Kinds = std::vector<ObjectionKind>;
} // namespace

TEST_CASE("The gravest objection comes first", "[unit]") {
    CHECK(kinds(1.0, 0.40).empty());
    CHECK(kinds(1.0, std::nullopt).empty());
    CHECK(kinds(0.2, std::nullopt) == Kinds{ObjectionKind::does_not_bind});
    CHECK(kinds(0.4, 0.60) == Kinds{ObjectionKind::binds_weakly, ObjectionKind::stays_sticky});
    CHECK(kinds(0.4, 0.75) == Kinds{ObjectionKind::never_sets, ObjectionKind::binds_weakly});
    CHECK(kinds(0.1, 0.75) == Kinds{ObjectionKind::does_not_bind});
    CHECK(kinds(1.0, 0.55).empty());
    CHECK(kinds(1.0, 0.56) == Kinds{ObjectionKind::stays_sticky});
}

TEST_CASE("What does not bind or set forbids the paint, what is weak or sticky does not", "[unit]") {
    CHECK(forbids(ObjectionKind::does_not_bind));
    CHECK(forbids(ObjectionKind::never_sets));
    CHECK_FALSE(forbids(ObjectionKind::binds_weakly));
    CHECK_FALSE(forbids(ObjectionKind::stays_sticky));
    CHECK_FALSE(forbids(std::vector<Objection>{}));
}

TEST_CASE("Thirteen grams of glycerol or honey on ten of pigment do not bind", "[unit]") {
    for (const Ingredient& filler : {glycerol(), honey()}) {
        BatchRequest r = request(watercolour(), grams(10));
        r.recipe.family.cohesion = limits;
        r.recipe.medium = medium("filler", PartsBasis::mass, {{filler, 1}});
        r.aim = MediumPerPigment::of(1.3);
        const Batch b = batch_of(r, grams(10));
        CHECK(forbids(b.objections));
        CHECK(b.objections.front().kind == ObjectionKind::does_not_bind);
    }
    BatchRequest r = request(oil_paint(), grams(10));
    r.recipe.family.cohesion = limits;
    r.recipe.medium = medium("wax", PartsBasis::mass, {{beeswax(), 1}});
    CHECK(batch_of(r, grams(10)).objections.front().kind == ObjectionKind::does_not_bind);
}

TEST_CASE("A damp room is an objection, and a leaner medium answers it", "[unit]") {
    BatchRequest r = request(watercolour(), grams(10));
    r.bench.humidity = RelativeHumidity::of(0.50);
    CHECK(batch_of(r, grams(10)).objections.empty());
    r.bench.humidity = RelativeHumidity::of(0.80);
    const Batch damp = batch_of(r, grams(10));
    REQUIRE(damp.objections.size() == 1);
    CHECK(damp.objections.front().kind == ObjectionKind::stays_sticky);
    REQUIRE(damp.watercolour->plasticiser_ratio_for_room);
    const double keep = *damp.watercolour->plasticiser_ratio_for_room / *damp.watercolour->plasticiser_ratio;
    CHECK(keep > 0.0);
    CHECK(keep < 1.0);
    // The medium it names comes down to the soft share it promises.
    for (MediumPart& part : r.recipe.medium.parts)
        if (part.ingredient.role == Role::plasticiser) part.parts *= keep;
    CHECK(batch_of(r, grams(10)).watercolour->soft_share.value() == Approx(0.48).epsilon(1e-9));
}
