#include <catch2/catch.hpp>

#include <algorithm>
#include <regex>
#include <sstream>

#include "lakebound/report/weigh_sheet.hpp"
#include "support/example_paint.hpp"
#include "support/page_width.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

constexpr Process processes[] = {Process::watercolour, Process::oil, Process::egg_tempera};

} // namespace

TEST_CASE("The sheet fits 80 columns and has no colour unless asked for", "[unit]") {
    for (const auto process : processes) {
        const auto text = weigh_sheet_text(batch_subject(example_request(process), example_tests()));
        CHECK(text.find('\x1b') == std::string::npos);
        CHECK(text.find('\t') == std::string::npos);
        std::istringstream lines(text);
        for (std::string line; std::getline(lines, line);) {
            INFO(line);
            CHECK(columns(line) <= 80);
            CHECK((line.empty() || line.back() != ' '));
        }
    }
}

TEST_CASE("No line ends in a number whose unit stands on the next", "[unit]") {
    for (const auto process : processes) {
        std::istringstream lines(weigh_sheet_text(batch_subject(example_request(process), example_tests())));
        for (std::string line; std::getline(lines, line);) {
            INFO(line);
            const bool table = line.find("   ") != std::string::npos; // columns of a table end where they end
            CHECK((table || line.empty() || line.back() < '0' || line.back() > '9'));
        }
    }
}

TEST_CASE("Colour marks the verdict and changes nothing else", "[unit]") {
    const auto subject = batch_subject(example_request(Process::oil), example_tests());
    const auto plain = weigh_sheet_text(subject);
    auto coloured = weigh_sheet_text(subject, {.colour = true});
    CHECK(coloured.find("\x1b[1;32m") != std::string::npos);
    for (auto at = coloured.find('\x1b'); at != std::string::npos; at = coloured.find('\x1b'))
        coloured.erase(at, coloured.find('m', at) - at + 1);
    CHECK(coloured == plain);
}

TEST_CASE("The sheet shows what the worked example of docs/theory.md weighs", "[unit]") {
    // 10 g of Lake M at k 1.35 in oil: 9.285 g of oil (docs/theory.md, computed).
    CHECK_THAT(weigh_sheet_text(batch_subject(example_request(Process::oil), example_tests())),
               Catch::Contains("[ ]    10.0 g  Weld lake") &&
                   Catch::Contains("[ ]     9.3 g  Linseed oil, refined") && Catch::Contains("SHOULD HOLD"));
    // 10 g at k 1.1, binder index 0.85: 22.0 g of yolk, 2 eggs.
    CHECK_THAT(weigh_sheet_text(batch_subject(example_request(Process::egg_tempera), example_tests())),
               Catch::Contains("[ ]    22.0 g  Egg yolk, hen, fresh") && Catch::Contains("Separate 2 eggs"));
}

TEST_CASE("The title counts vessels, if it is but one, and says nothing of vessels that none is filled of", "[unit]") {
    auto subject = batch_subject(example_request(Process::watercolour), example_tests());
    const auto lead = [&](int vessels) {
        subject.answer.batch->filling->vessels = vessels;
        return weigh_sheet_page(subject).title.lead.front().spans().front().text;
    };
    CHECK(lead(0) == "10.0 g of Weld lake");
    CHECK(lead(1) == "10.0 g of Weld lake, to fill 1 half pan");
    CHECK(lead(2) == "10.0 g of Weld lake, to fill 2 half pans");
}

TEST_CASE("What is tempered by eye has two digits", "[unit]") {
    // "to 1 g of paste 1.08 g of the yolk" stood there: nobody weighs a yolk so, and k is sure to a quarter.
    for (const double pigment : {3.0, 10.0}) {
        auto request = example_request(Process::egg_tempera, grams(pigment));
        for (const double k : {0.9, 1.1, 1.3}) {
            request.aim = BinderSufficiency::of(k);
            const auto text = weigh_sheet_text(batch_subject(request, example_tests()));
            CHECK(std::regex_search(text, std::regex("paste\\s+(0\\.[1-9][0-9]|[1-9]\\.[0-9])\\s+g\\s+of")));
        }
    }
}

TEST_CASE("A pinch too small for the scale becomes a stock solution", "[unit]") {
    CHECK_THAT(weigh_sheet_text(batch_subject(example_request(Process::watercolour, grams(6.0)), example_tests())),
               Catch::Contains("Ethanol with 5 % clove oil") &&
                   Catch::Contains("mix 0.20 g of it with 1.8 g of"));
}

TEST_CASE("A part of a fresh medium that the scale does not show is none, and is not warned of twice", "[unit]") {
    // "0 g  Glycerol" stood there to be ticked, and "Water" twice under what to look out for.
    auto request = example_request(Process::watercolour, grams(2.0));
    request.bench.scales = {{"kitchen scale", grams(1.0), {}, {}}};
    const auto text = weigh_sheet_text(batch_subject(request, example_tests()));
    INFO(text);
    CHECK_THAT(text, Catch::Contains("none  Honey") && !Catch::Contains("  0 g  ") &&
                         Catch::Contains("g is wanted, which the scale does not show.\n"));
    const auto first = text.find("! Water: ");
    REQUIRE(first != std::string::npos);
    CHECK(text.find("! Water: ", first + 1) == std::string::npos);
}

TEST_CASE("More pans than the jar holds: what was asked, and the most that fits", "[unit]") {
    auto request = example_request(Process::watercolour);
    request.amount = VesselCount{*request.recipe.vessel, 90};
    const auto subject = batch_subject(request, example_tests());
    REQUIRE(subject.answer.shortfall);
    REQUIRE(subject.answer.batch);
    CHECK_THAT(weigh_sheet_text(subject), Catch::Contains("NOT ENOUGH: Weld lake") &&
                                              Catch::Contains("You asked for 90 half pans.") &&
                                              Catch::Contains("The most that fits is 22 half pans."));
}

TEST_CASE("The verdict stands in the words of the trade", "[unit]") {
    const auto sheet_at = [](Process process, double k) {
        auto request = example_request(process);
        request.aim = BinderSufficiency::of(k);
        return weigh_sheet_text(batch_subject(request, example_tests()));
    };
    CHECK_THAT(sheet_at(Process::watercolour, 0.6),
               Catch::Contains("WILL CHALK") && Catch::Contains("LOOK OUT"));
    CHECK_THAT(sheet_at(Process::watercolour, 1.1), Catch::Contains("ON THE LEAN SIDE"));
    CHECK_THAT(sheet_at(Process::watercolour, 2.0),
               Catch::Contains("ON THE RICH SIDE") && Catch::Contains("crack or shine"));
    CHECK_THAT(sheet_at(Process::oil, 2.5), Catch::Contains("TOO RICH: WILL PROBABLY WRINKLE"));
    CHECK_THAT(sheet_at(Process::egg_tempera, 0.6), Catch::Contains("WILL POWDER OFF"));
}

TEST_CASE("A paint whose chance of chalking is 10 % or more holds not surely", "[unit]") {
    auto request = example_request(Process::oil);
    CHECK_THAT(weigh_sheet_text(batch_subject(request, example_tests())), !Catch::Contains("NOT SURELY"));
    request.recipe.pigments[0].pigment.oil_absorption =
        Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65.0), 1.35, library());
    CHECK_THAT(weigh_sheet_text(batch_subject(request, example_tests())), Catch::Contains("SHOULD HOLD, NOT SURELY"));
}

TEST_CASE("What the library filled in is named, what was measured is not", "[unit]") {
    const auto text = weigh_sheet_text(batch_subject(example_request(Process::oil), example_tests()));
    CHECK_THAT(text, Catch::Contains("density 1.88 ± 0.20 g/cm3 (estimate)"));
    CHECK(text.find("oil absorption 68.8") == std::string::npos);
    auto request = example_request(Process::oil);
    request.jar.reset();
    request.recipe.pigments[0].pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(
        grams_per_100_grams(65.0), 1.35, {Origin::estimate, "judgement", false});
    CHECK_THAT(weigh_sheet_text(batch_subject(request, example_tests())),
               Catch::Contains("oil absorption 65.0 x/ 1.35 g/100 g (estimate)"));
}

TEST_CASE("What is left over is told from half a tenth of a millilitre on", "[unit]") {
    auto subject = batch_subject(example_request(Process::watercolour), example_tests());
    auto& filling = *subject.answer.batch->filling;
    const auto says = [&](double left) {
        filling.wet_left_over = millilitres(left);
        return weigh_sheet_text(subject).find("Left over") != std::string::npos;
    };
    CHECK_FALSE(says(0.0499));
    CHECK(says(0.0501));
    // So is the water that the room's air holds in the paint.
    const auto damp = [&](double held) {
        subject.answer.batch->volumes.held_water = millilitres(held);
        return weigh_sheet_text(subject).find("water held in the room's air") != std::string::npos;
    };
    CHECK_FALSE(damp(0.0499));
    CHECK(damp(0.0501));
}

TEST_CASE("A scale that errs by more than the mass says so, and never is right to 100 %", "[unit]") {
    auto request = example_request(Process::watercolour, grams(6.0));
    request.bench.scales = {{"kitchen scale", grams(1.0), {}, {}}};
    request.recipe.additives[0].ingredient.stock.reset();
    const auto text = weigh_sheet_text(batch_subject(request, example_tests()));
    CHECK(text.find("right to") == std::string::npos);
    // Of 0.6 g on a step of 1 g; the standard uncertainty is 0.41 g.
    auto fine = request;
    fine.bench.scales = {{"kitchen scale", grams(0.1), {}, {}}};
    fine.amount = grams(1.0);
    CHECK_THAT(weigh_sheet_text(batch_subject(fine, example_tests())), Catch::Contains("% off here"));
}

TEST_CASE("Drops are counted into the medium, one line for one mass", "[unit]") {
    auto request = example_request(Process::watercolour, grams(6.0));
    request.bench.kitchen.drop = millilitres(0.03);
    const auto text = weigh_sheet_text(batch_subject(request, example_tests()));
    CHECK_THAT(text, Catch::Contains("1 drop  Clove oil to "));
    CHECK(text.find("ethanol with") == std::string::npos);
}

TEST_CASE("Hazards of what a stock is made with come from its own file", "[unit]") {
    // A sensitiser declared in the maker's own ethanol.yaml was ignored: carriers stood in the code.
    auto request = example_request(Process::watercolour, grams(6.0));
    for (auto& carrier : request.recipe.carriers)
        if (carrier.id == "ethanol") carrier.hazards = {Hazard::silica};
    const auto text = weigh_sheet_text(batch_subject(request, example_tests()));
    CHECK_THAT(text, Catch::Contains("Ethanol with 5 % clove oil") && Catch::Contains("Silica dust"));
}

TEST_CASE("A mass too small for the scale is counted in drops, one drop or more", "[unit]") {
    const auto sheet = [](double pigment) {
        auto request = example_request(Process::watercolour, grams(pigment));
        request.bench.kitchen.drop = millilitres(0.03);
        request.recipe.additives[0].dose = MassFraction::of(0.002);
        request.recipe.additives[0].ingredient.stock.reset();
        request.bench.scales.resize(1);
        return weigh_sheet_text(batch_subject(request, example_tests()));
    };
    CHECK_THAT(sheet(10.0), Catch::Matches("[\\s\\S]*[2-9] drops  Clove oil[\\s\\S]*"));
    CHECK_THAT(sheet(3.0), Catch::Contains("1 drop  Clove oil"));
}

TEST_CASE("Only a paint that is fluid is told to turn as fluid as cream", "[unit]") {
    auto subject = batch_subject(example_request(Process::watercolour), example_tests());
    const auto sheet = [&](bool fluid) {
        subject.answer.batch->watercolour->fluid = fluid;
        return weigh_sheet_text(subject);
    };
    CHECK_THAT(sheet(true), Catch::Contains("as fluid as cream"));
    CHECK_THAT(sheet(false), !Catch::Contains("as fluid as cream"));
}

TEST_CASE("A warning of the scale stands under what to look out for unless the line itself says it", "[unit]") {
    auto subject = batch_subject(example_request(Process::watercolour), example_tests());
    auto& batch = *subject.answer.batch;
    const auto warned = [&] {
        batch.warnings = {{WarningKind::below_scale_minimum, "weld", 0.02, 0.1}};
        return weigh_sheet_text(subject).find("LOOK OUT") != std::string::npos;
    };
    CHECK(warned()); // no line of the slab is below the scale
    batch.sheet.slab[0].below_minimum = true;
    CHECK(warned()); // that line is, and is weighed all the same
    auto& clove = *std::find_if(batch.sheet.slab.begin(), batch.sheet.slab.end(), [](const auto& line) { return line.id == "clove-oil"; });
    clove.stock.reset();
    clove.below_minimum = true, clove.rounded = grams(0), clove.exact = grams(0.02);
    batch.warnings = {{WarningKind::below_scale_minimum, clove.id, 0.02, 0.1}};
    CHECK(weigh_sheet_text(subject).find("LOOK OUT") == std::string::npos); // "none" stands there
}
