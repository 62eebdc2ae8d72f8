#include "lakebound/report/sweep_table.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

#include <nlohmann/json.hpp>

#include "lakebound/report/sweep_json.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

PvcQuestion question(Process process = Process::oil) {
    PvcQuestion asked;
    asked.request = example_request(process);
    asked.request.recipe.vessel.reset();
    asked.request.aim = BinderSufficiency::of(1.35);
    asked.pigment = grams(10.0);
    asked.title = "10.0 g";
    return asked;
}
/// Lake of 2 um and chalk of 6 um, 7 to 3.
PvcQuestion with_chalk() {
    auto asked = question();
    auto& pigments = asked.request.recipe.pigments;
    pigments.front().share = MassFraction::of(0.7);
    pigments.front().pigment.median_size = Estimate<Length>::exact(micrometres(2.0), measured());
    auto chalk = pigments.front();
    chalk.pigment.id = "chalk";
    chalk.pigment.name = "Chalk";
    chalk.pigment.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.70), library());
    chalk.pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(18.0), 1.1, library());
    chalk.pigment.median_size = Estimate<Length>::exact(micrometres(6.0), measured());
    chalk.share = MassFraction::of(0.3);
    pigments.push_back(chalk);
    asked.with_packing = true;
    return asked;
}
const std::vector<double>& column(const SweepTable& table, const std::string& key) {
    for (const auto& each : table.columns)
        if (each.key == key) return each.values;
    FAIL("no column " << key);
    return table.columns.front().values;
}
bool has(const SweepTable& table, const std::string& key) {
    return std::any_of(table.columns.begin(), table.columns.end(), [&](const auto& each) { return each.key == key; });
}

} // namespace

TEST_CASE("A sweep over the extender gives the paint's own figures at its own share", "[identity]") {
    const auto subject = pvc_subject(with_chalk());
    const auto table = sweep_table(subject, {SweepOver::extender, 0.0, 0.6, 3});
    const auto& batch = subject.batch();
    CHECK(column(table, "extender_mass_fraction") == std::vector<double>{0.0, 0.3, 0.6});
    CHECK(column(table, "k")[1] == Approx(1.35).epsilon(1e-9));
    CHECK(column(table, "pvc")[1] == Approx(batch.film.pvc.value()).epsilon(1e-9));
    // Binder that just fills, by hand: 68.78 and 18 g of oil of .93 to 100 g, by mass of the two.
    const auto& fills = column(table, "binder_demand_ml_per_g");
    CHECK(fills[0] == Approx(0.6878 / 0.93).epsilon(1e-9));
    CHECK(fills[1] == Approx((0.7 * 0.6878 + 0.3 * 0.18) / 0.93).epsilon(1e-9));
    CHECK(fills[2] == Approx((0.4 * 0.6878 + 0.6 * 0.18) / 0.93).epsilon(1e-9));
    // The binder is as it is: k times what fills is the same all along.
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(column(table, "k")[i] * fills[i] == Approx(1.35 * fills[1]).epsilon(1e-9));
    CHECK_THAT(sweep_text(table), Contains("fills mL/g") && Contains("30.0 %"));
}

TEST_CASE("Over the size of its grains an extender saves more the less it is like the pigment", "[identity]") {
    const auto subject = pvc_subject(with_chalk());
    const auto table = sweep_table(subject, {SweepOver::size_ratio, 1.0, 31.0, 4});
    CHECK(column(table, "size_ratio") == std::vector<double>{1.0, 11.0, 21.0, 31.0});
    const auto &additive = column(table, "additive_cpvc"), &possible = column(table, "possible_cpvc"),
               &saving = column(table, "possible_saving");
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(additive[i] == Approx(additive[0]).epsilon(1e-12)); // knows no sizes
        CHECK(possible[i] >= additive[i] * (1.0 - 1e-9));
        if (i > 0) CHECK(saving[i] > saving[i - 1]);
    }
    CHECK(saving[0] == Approx(0.0).margin(1e-9)); // grains of one size pack as either does
}

TEST_CASE("A curve over two pigments wants two, and what is known of them", "[errors]") {
    auto three = with_chalk();
    three.request.recipe.pigments.push_back(three.request.recipe.pigments.back());
    for (auto& part : three.request.recipe.pigments)
        part.share = MassFraction::of(1.0 / 3.0);
    for (const auto over : {SweepOver::extender, SweepOver::size_ratio}) {
        CHECK_THROWS_WITH(sweep_table(pvc_subject(three), {over, 1.0, 2.0, 3}), Contains("two, the second the extender"));
        CHECK_THROWS_WITH(sweep_table(pvc_subject(question()), {over, 1.0, 2.0, 3}), Contains("two, the second"));
        auto unknown = with_chalk();
        unknown.density_known = false;
        CHECK_THROWS_WITH(sweep_table(pvc_subject(unknown), {over, 0.1, 0.2, 3}), Contains("density and oil absorption"));
    }
    auto without = question();
    without.oil_absorption_known = false;
    CHECK_THROWS_WITH(sweep_table(pvc_subject(without), {SweepOver::medium, 1.0, 2.0, 3}), Contains("oil absorption"));
}

TEST_CASE("A sweep has two points at least, and as many as its room allows", "[errors]") {
    const auto subject = pvc_subject(with_chalk());
    const auto of = [&](SweepOver over, std::size_t points) { return sweep_table(subject, {over, 0.5, 1.0, points}); };
    for (const auto over : {SweepOver::medium, SweepOver::extender, SweepOver::size_ratio}) {
        CHECK_THROWS_AS(of(over, 1), DomainError);
        CHECK(of(over, 2).columns.front().values.size() == 2);
    }
    CHECK(of(SweepOver::size_ratio, 10'000).columns.front().values.size() == 10'000);
    CHECK_THROWS_AS(of(SweepOver::size_ratio, 10'001), DomainError);
    CHECK_NOTHROW(of(SweepOver::medium, 10'001));
    // One place is a range of no width.
    CHECK(sweep_table(subject, {SweepOver::medium, 1.0, 1.0, 2}).columns.front().values == std::vector<double>{1.0, 1.0});
}

TEST_CASE("What is swept where no range is named", "[unit]") {
    const auto subject = pvc_subject(question());
    const double now = subject.batch().formulation.medium_per_pigment.value();
    const auto medium = usual_range(SweepOver::medium, subject);
    CHECK(medium.from == Approx(now / 4).epsilon(1e-12));
    CHECK(medium.to == Approx(2 * now).epsilon(1e-12));
    CHECK(medium.points == 8); // a quarter of the paint's medium to a step: the paint itself is among them
    CHECK(column(sweep_table(subject, medium), "k")[3] == Approx(1.35).epsilon(1e-9));
    const auto extender = usual_range(SweepOver::extender, subject), ratio = usual_range(SweepOver::size_ratio, subject);
    CHECK(extender.from == Approx(0.0).margin(1e-15));
    CHECK(extender.to == Approx(1.0));
    CHECK(extender.points == 11);
    CHECK(ratio.from == Approx(1.0));
    CHECK(ratio.to == Approx(30.0));
    CHECK(ratio.points == 11);
}

TEST_CASE("Text, CSV and JSON tell one table", "[identity]") {
    const auto subject = pvc_subject(question());
    const auto table = sweep_table(subject, usual_range(SweepOver::medium, subject));
    const auto json = nlohmann::json::parse(sweep_json(table));
    CHECK(json.at("kind") == "sweep");
    CHECK(json.at("title") == table.title);
    std::istringstream csv(sweep_csv(table));
    std::string line;
    std::getline(csv, line);
    CHECK(line == "medium_per_pigment,k,pvc,cpvc,reduced_pvc,chance_underbound");
    for (std::size_t i = 0; std::getline(csv, line); ++i) {
        std::istringstream cells(line);
        for (const auto& each : table.columns) {
            std::string text;
            REQUIRE(std::getline(cells, text, ','));
            CHECK_FALSE(std::abs(std::stod(text) - each.values.at(i)) > 0.0); // to the very double
            CHECK(json.at("columns").at(each.key).at(i).get<double>() == Approx(each.values[i]).epsilon(1e-15));
        }
    }
    const auto text = sweep_text(table);
    CHECK_THAT(text, Catch::StartsWith(table.title + "\n\n") && Contains("underbound") && Contains("below 0.1 %"));
    std::istringstream lines(text);
    std::size_t count = 0;
    for (; std::getline(lines, line); ++count)
        CHECK(line.size() <= 80);
    CHECK(count == 2 + 1 + 8);
    // Narrower, its columns are no wider than they need be, and below each other where they do not fit.
    for (const std::size_t width : {60u, 44u, 30u}) {
        std::istringstream narrow(sweep_text(table, width));
        std::size_t blocks = 0, heads = 0;
        for (std::string each; std::getline(narrow, each);) {
            if (each.find("g/g") != std::string::npos && each.find("Over") == std::string::npos) ++blocks;
            for (const char* head : {" PVC", "CPVC", "Lambda", "underbound"})
                heads += each.find(head) != std::string::npos ? 1 : 0;
            if (each.find("Over") == std::string::npos) CHECK(each.size() <= width);
        }
        CHECK(blocks == (width == 60 ? 1u : width == 44 ? 2u : 3u));
        CHECK(heads == 4);
    }
    // Without a density there is no concentration by volume.
    auto unknown = question();
    unknown.density_known = false;
    const auto bare = sweep_table(pvc_subject(unknown), {SweepOver::medium, 0.5, 1.0, 2});
    CHECK_FALSE(has(bare, "pvc"));
    CHECK_FALSE(has(bare, "reduced_pvc"));
    CHECK(has(bare, "chance_underbound"));
}
