// The report on limits: what it says, what it leaves out, and that text and JSON tell the same.
#include "lakebound/report/pvc_report.hpp"

#include <catch2/catch.hpp>

#include <sstream>

#include <nlohmann/json.hpp>

#include "lakebound/report/layer_report.hpp"
#include "lakebound/report/pvc_json.hpp"
#include "support/example_paint.hpp"
#include "support/page_width.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

PvcQuestion question(Process process, double k) {
    PvcQuestion asked;
    asked.request = example_request(process);
    asked.request.recipe.vessel.reset();
    asked.request.aim = BinderSufficiency::of(k);
    asked.pigment = grams(10.0);
    asked.tests = example_tests();
    asked.title = "10.0 g of Weld lake";
    return asked;
}

constexpr Process processes[] = {Process::watercolour, Process::oil, Process::egg_tempera};

} // namespace

TEST_CASE("No line of the report is wider than 80 columns", "[unit]") {
    for (const auto process : processes)
        for (const double k : {0.4, 0.98, 1.3, 4.0}) {
            auto asked = question(process, k);
            asked.rescue = RescueWish{};
            asked.with_packing = true;
            std::istringstream lines(pvc_report_text(pvc_subject(asked)));
            for (std::string line; std::getline(lines, line);) {
                INFO(line);
                CHECK(columns(line) <= 80);
            }
        }
}

TEST_CASE("What is not known is left out of text and JSON, and named", "[unit]") {
    auto asked = question(Process::oil, 1.35);
    asked.density_known = false;
    const auto subject = pvc_subject(asked);
    const auto text = pvc_report_text(subject);
    CHECK_THAT(text, Contains("CANNOT SAY") && !Contains("CPVC    PVC") && !Contains("ln PVC") &&
                         !Contains("order layers"));
    const auto json = nlohmann::json::parse(pvc_json(subject));
    for (const char* key : {"pvc", "cpvc", "reduced_pvc", "air_fraction"})
        CHECK(json.count(key) == 0);
    CHECK(json.at("pigments").at(0).count("density_g_per_cm3") == 0);
    CHECK(json.at("unanswered").size() == 4);

    asked = question(Process::oil, 1.35);
    asked.oil_absorption_known = false;
    const auto without = nlohmann::json::parse(pvc_json(pvc_subject(asked)));
    CHECK(without.count("k") == 0);
    CHECK(without.count("chance") == 0);
    CHECK(without.count("pvc") == 1);
    CHECK_THAT(pvc_report_text(pvc_subject(asked)), Contains("NO VERDICT YET"));
}

TEST_CASE("The verdict is no surer than its chance", "[unit]") {
    const auto head = [](double k) { return pvc_report_text(pvc_subject(question(Process::oil, k))); };
    CHECK_THAT(head(0.4), Contains("WILL CHALK"));
    CHECK_THAT(head(0.97), Contains("WILL PROBABLY CHALK"));
    CHECK_THAT(head(1.45), Contains("SHOULD HOLD   k 1.45"));
}

TEST_CASE("Text and JSON carry the figures of the domain, and rescues come back to the aim", "[identity]") {
    for (const auto process : processes)
        for (const double k : {0.5, 1.3, 3.0}) {
            auto asked = question(process, k);
            asked.rescue = RescueWish{BinderSufficiency::of(1.25), {}, {}, {}};
            asked.request.jar.reset(); // pigment enough
            const auto subject = pvc_subject(asked);
            const auto json = nlohmann::json::parse(pvc_json(subject));
            CHECK(json.at("k").at("value").get<double>() == Approx(k).epsilon(1e-12));
            CHECK(json.at("pvc").at("value").get<double>() ==
                  Approx(subject.batch().film.pvc.value()).epsilon(1e-12));
            CHECK(json.at("rescue").at("k_after").get<double>() == Approx(1.25).epsilon(1e-12));
            double shares = 0.0;
            for (const auto& line : json.at("chance").at("ln_k").at("lines"))
                shares += line.at("share").get<double>();
            CHECK(shares == Approx(1.0).epsilon(1e-9));
            // Air in the film above the CPVC and none below.
            CHECK((json.at("air_fraction").get<double>() > 0.0) == (k < 1.0));
        }
}

TEST_CASE("Layers: the order by volume, not by weight", "[unit]") {
    // docs/theory.md: lead white 13.0 % of oil by weight and 51.9 by volume; ultramarine 30.1 and 52.0. By
    // weight ultramarine is much the fatter, by volume they are alike.
    const auto layer = [](const char* name, double by_mass, double by_volume) {
        return LayerPaint{name, PigmentVolumeConcentration::of(1.0 - by_volume), MassFraction::of(by_mass)};
    };
    const auto white = layer("lead white", .130, .519), blue = layer("ultramarine", .301, .520);
    const auto lake = layer("alizarin", .602, .723);
    CHECK_THAT(layer_text(judge_layers({lake, white}, 0.02)), Contains("lead white lies over alizarin") &&
                                              Contains("BETTER IN THIS ORDER\n   1. lead white\n   2. alizarin"));
    for (const auto& fair : {std::vector{white, lake}, {blue, white}, {white, blue}})
        CHECK_THAT(layer_text(judge_layers(fair, 0.02)), !Contains("BETTER IN THIS ORDER"));
}

TEST_CASE("Doubts of a blend name their pigment, of one pigment they do not", "[unit]") {
    auto asked = question(Process::oil, 1.35);
    const auto alone = pvc_report_text(pvc_subject(asked));
    CHECK(alone.find("oil absorption, ") == std::string::npos);
    auto other = asked.request.recipe.pigments.front();
    other.pigment.id = "chalk";
    other.pigment.name = "Chalk";
    asked.request.recipe.pigments.front().share = MassFraction::of(0.5);
    other.share = MassFraction::of(0.5);
    asked.request.recipe.pigments.push_back(other);
    const auto both = pvc_report_text(pvc_subject(asked));
    CHECK_THAT(both, Contains(", weld lake") && Contains(", chalk"));
}

TEST_CASE("At its aim of 1 a paint has nothing short and nothing spare", "[unit]") {
    // "0.00000000000000042 mL short of what just fills the pigment".
    for (const auto process : processes) {
        const auto subject = pvc_subject(question(process, 1.0));
        CHECK_FALSE(std::abs(subject.check.spare_binder->value()) > 0.0);
        CHECK_THAT(pvc_report_text(subject), Contains("nothing short") && Contains("nothing spare"));
    }
}

TEST_CASE("A rescue says whether an aim can do what is accepted", "[unit]") {
    auto asked = question(Process::oil, 0.8);
    asked.rescue = RescueWish{};
    asked.rescue->accepted = Probability::of(0.5);
    CHECK_THAT(pvc_report_text(pvc_subject(asked)), Contains("no oftener than you accept is k 1."));
    asked.rescue->accepted = Probability::of(0.001);
    const auto beyond = pvc_subject(asked);
    CHECK_THAT(pvc_report_text(beyond), Contains("No aim misses the window as seldom as you accept"));
    CHECK(nlohmann::json::parse(pvc_json(beyond)).at("rescue").at("accepted_chance_in_reach") == false);
}

TEST_CASE("The k of the head stands in the figures", "[unit]") {
    // "k 1.35" stood above "1.4 ± 0.4".
    auto asked = question(Process::oil, 1.35);
    asked.request.recipe.pigments[0].pigment.oil_absorption =
        Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65.0), 1.35, library());
    CHECK_THAT(pvc_report_text(pvc_subject(asked)), Contains("k 1.35") && Contains(" 1.35 ±"));
}
