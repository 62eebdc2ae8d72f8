#include "lakebound/paint/medium_fit.hpp"

#include <catch2/catch.hpp>

#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Medium of(std::vector<MediumPart> parts) { return medium("m", PartsBasis::mass, std::move(parts)); }
} // namespace

TEST_CASE("Each kind of paint takes its own media and refuses the others", "[unit]") {
    const Medium gum_water = of({{gum(), 1}, {water(), 2}}), oil = of({{linseed_oil(), 1}}),
                 waxed = of({{linseed_oil(), 100}, {beeswax(), 2}}), yolk_water = of({{yolk(), 1}, {water(), 1}});
    const auto fits = [](const Medium& m, Process p) { return !medium_misfit(m, p); };
    CHECK(fits(gum_water, Process::watercolour));
    CHECK(fits(base_medium(), Process::watercolour));
    CHECK_FALSE(fits(gum_water, Process::oil));
    CHECK_FALSE(fits(gum_water, Process::egg_tempera));
    CHECK(fits(oil, Process::oil));
    CHECK(fits(waxed, Process::oil));
    CHECK_FALSE(fits(oil, Process::watercolour));
    CHECK_FALSE(fits(waxed, Process::watercolour));
    CHECK_FALSE(fits(oil, Process::egg_tempera));
    CHECK(fits(yolk_water, Process::egg_tempera));
    CHECK_FALSE(fits(yolk_water, Process::oil));
    CHECK_FALSE(fits(yolk_water, Process::watercolour));
    CHECK(fits(of({{yolk(), 2}, {linseed_oil(), 1}}), Process::egg_tempera));
}

TEST_CASE("The part that does not mix in is named", "[unit]") {
    CHECK(medium_misfit(of({{linseed_oil(), 1}, {gum(), 1}}), Process::oil)->part == "gum-arabic");
    CHECK(medium_misfit(of({{gum(), 1}}), Process::egg_tempera)->part.empty());
}

TEST_CASE("A formulation refuses a medium of another kind, and a powder too damp for oil", "[errors]") {
    Recipe r = oil_paint();
    r.medium = base_medium();
    CHECK_THROWS_WITH(formulate(r, aim_of(r)), Catch::Contains("does not mix"));
    r = oil_paint();
    r.pigments.front().pigment.excess_water = MassFraction::of(0.13);
    CHECK_THROWS_WITH(formulate(r, aim_of(r)), Catch::Contains("dry it first"));
    CHECK_THROWS_WITH(formulate(r, aim_of(r)), Catch::Contains("at most 12 % in an oil paint"));
    r.pigments.front().pigment.excess_water = MassFraction::of(0.12);
    CHECK_NOTHROW(formulate(r, aim_of(r)));
    r.family.most_excess_water = MassFraction::of(0.05); // a family of the maker's own
    CHECK_THROWS_WITH(formulate(r, aim_of(r)), Catch::Contains("at most 5 % in an oil paint"));
    r = watercolour();
    r.pigments.front().pigment.excess_water = MassFraction::of(0.30);
    CHECK_NOTHROW(formulate(r, aim_of(r)));
}

TEST_CASE("what mixes with what, role by role", "[unit]") {
    // Common practice, no source: fat and wax do not stay in gum, water and what it carries not in oil; yolk takes both.
    struct Row {
        Role role;
        bool gum_paint, oil_paint;
    };
    for (const Row& row : {Row{Role::gum, true, false}, Row{Role::plasticiser, true, false}, Row{Role::drying_oil, false, true},
                           Row{Role::resin, false, true}, Row{Role::wax, false, true}, Row{Role::emulsion, false, false},
                           Row{Role::protein, true, false}, Row{Role::water, true, false}, Row{Role::solvent, true, true},
                           Row{Role::preservative, true, true}, Row{Role::wetting_agent, true, true}, Row{Role::salt, true, true}}) {
        CAPTURE(static_cast<int>(row.role));
        CHECK(mixes_with(row.role, Process::watercolour) == row.gum_paint);
        CHECK(mixes_with(row.role, Process::oil) == row.oil_paint);
        CHECK(mixes_with(row.role, Process::egg_tempera));
    }
}
