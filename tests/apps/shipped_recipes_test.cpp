// Identities over every shipped recipe with every demo jar: a new recipe inherits them all.

#include <catch2/catch.hpp>

#include <functional>

#include <nlohmann/json.hpp>

#include "lakebound/report/batch_json.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/weigh_sheet.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/library.hpp"
#include "run.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

Library shipped_library() {
    SearchInputs inputs;
    inputs.options = {studio("")};
    inputs.shipped = {LAKEBOUND_FORMULATIONS_DIR};
    return Library(search_path(inputs));
}

/// Every recipe from every jar of the demo studio, 10 g of pigment on the demo bench.
void for_every_paint(const std::function<void(const BatchRequest&)>& check) {
    auto library = shipped_library();
    const auto bench = read_bench_file(studio("bench.yaml"));
    const auto jars = library.ids(ShelfKind::jar);
    REQUIRE(jars.size() >= 2);
    std::size_t paints = 0;
    for (const auto& id : library.ids(ShelfKind::recipe))
        for (const auto& jar_id : jars) {
            const auto jar = library.jar(jar_id);
            BatchRequest request;
            request.recipe = library.recipe(id, &jar);
            request.bench = bench;
            request.practice = library.practice();
            request.amount = grams(10.0);
            INFO(id + " from " + jar_id);
            check(request);
            ++paints;
        }
    REQUIRE(paints >= 12);
}

// Sums of a dozen masses in double: a few ulp, 1e-12 is ample; the floor is far below any scale.
Approx near(double x) { return Approx(x).epsilon(1e-12).margin(1e-15); }

Mass sum(const std::vector<BatchLine>& lines) {
    Mass total;
    for (const auto& line : lines)
        total += line.mass;
    return total;
}

} // namespace

TEST_CASE("Mass balance: the parts add up to the paint", "[identity]") {
    for_every_paint([](const BatchRequest& request) {
        const auto batch = batch_of(request, grams(10.0));
        CHECK(canonical(sum(batch.pigments)) == near(canonical(batch.pigment)));
        CHECK(canonical(sum(batch.medium_parts)) == near(canonical(batch.medium)));
        CHECK(canonical(batch.pigment + batch.medium + sum(batch.additives) + batch.working_water) ==
              near(canonical(batch.paint)));
        CHECK(canonical(batch.volumes.pigment + batch.volumes.dry_binder) ==
              near(canonical(batch.volumes.dry)));
    });
}

TEST_CASE("Doubling the pigment doubles every mass and leaves the film alone", "[identity]") {
    for_every_paint([](const BatchRequest& request) {
        const auto once = batch_of(request, grams(10.0));
        const auto twice = batch_of(request, grams(20.0));
        CHECK(canonical(twice.medium) == near(2.0 * canonical(once.medium)));
        CHECK(canonical(twice.working_water) == near(2.0 * canonical(once.working_water)));
        CHECK(canonical(twice.paint) == near(2.0 * canonical(once.paint)));
        CHECK(canonical(twice.volumes.wet) == near(2.0 * canonical(once.volumes.wet)));
        REQUIRE(once.additives.size() == twice.additives.size());
        for (std::size_t i = 0; i < once.additives.size(); ++i)
            CHECK(canonical(twice.additives[i].mass) == near(2.0 * canonical(once.additives[i].mass)));
        for (std::size_t i = 0; i < once.medium_parts.size(); ++i)
            CHECK(canonical(twice.medium_parts[i].mass) == near(2.0 * canonical(once.medium_parts[i].mass)));
        CHECK(twice.film.k.value() == near(once.film.k.value()));
        CHECK(twice.film.pvc.value() == near(once.film.pvc.value()));
    });
}

TEST_CASE("k does not move when only the pigment density does", "[identity]") {
    for_every_paint([](const BatchRequest& request) {
        const auto batch = batch_of(request, grams(10.0));
        for (const double factor : {0.7, 1.5}) {
            auto other = request.recipe;
            for (auto& part : other.pigments)
                part.pigment.density = Estimate<MassDensity>::exact(part.pigment.density.value() * factor, {});
            const auto film = film_state(other, batch.composition);
            CHECK(film.k.value() == near(batch.film.k.value()));
            CHECK(film.pvc.value() != Approx(batch.film.pvc.value()).epsilon(1e-3)); // PVC must
        }
    });
}

TEST_CASE("At k 1 the PVC is the CPVC and the film holds no air", "[identity]") {
    for_every_paint([](const BatchRequest& request) {
        auto at_one = request;
        at_one.aim = BinderSufficiency::of(1.0);
        const auto batch = batch_of(at_one, grams(10.0));
        CHECK(batch.film.k.value() == near(1.0));
        CHECK(batch.film.pvc.value() == near(batch.film.cpvc.value()));
        CHECK(batch.film.reduced_pvc.value() == near(1.0));
        CHECK(batch.film.porosity.value() == Approx(0.0).margin(1e-12));
    });
}

TEST_CASE("A finer scale converges on the unrounded sheet", "[identity]") {
    for_every_paint([](const BatchRequest& request) {
        for (const double step : {0.1, 0.01, 0.001, 0.0001}) {
            auto finer = request;
            finer.bench.scales = {{"scale", grams(step), std::nullopt, std::nullopt}};
            const auto batch = batch_of(finer, grams(10.0));
            // Half a step on 10 g of pigment and on every part that binds, none of them under 1 g of
            // medium in all: 2 % per 0.1 g and part.
            const double parts = 1.0 + static_cast<double>(batch.sheet.slab.size());
            CHECK(batch.sheet.k_shift <= 0.5 * step * parts);
            // What a stock brings is taken off as the scale shows it: up to half a step more.
            for (const auto& weighing : batch.sheet.slab)
                CHECK(std::abs(in_grams(weighing.rounded - weighing.to_weigh)) <= step * (1.0 + 1e-9));
        }
    });
}

TEST_CASE("Every shipped paint aims at what it says: none fails", "[identity]") {
    for_every_paint([](const BatchRequest& request) {
        CHECK(batch_subject(request, {}).judgement->verdict == Verdict::green);
    });
}

TEST_CASE("JSON and text agree on every shipped paint", "[identity]") {
    for_every_paint([](const BatchRequest& request) {
        const auto subject = batch_subject(request, {});
        const auto text = weigh_sheet_text(subject);
        const auto json = nlohmann::json::parse(batch_json(subject));
        const auto& batch = json["batch"];
        for (const auto& line : batch["weigh"]) {
            if (line.contains("drops")) continue; // counted, not weighed
            const auto amount =
                mass_text(grams(line["rounded_g"].get<double>()), grams(line["scale_step_g"].get<double>()));
            CHECK_THAT(text, Catch::Contains("[ ] " + std::string(9 - amount.size(), ' ') + amount + "  "));
        }
        CHECK_THAT(text, Catch::Contains("k " + ratio_text(batch["as_weighed"]["k"]["value"].get<double>())));
        const auto figure = [&](const char* key) {
            const auto& value = batch["as_weighed"][key];
            return percent_value_text(value["value"].get<double>(),
                                      value["standard_uncertainty"].get<double>());
        };
        CHECK_THAT(text, Catch::Contains(figure("pvc")) && Catch::Contains(figure("cpvc")));
        CHECK_THAT(text, Catch::Contains(volume_text(millilitres(batch["wet_ml"].get<double>())) + " wet"));
        if (batch.contains("filling") && batch["filling"]["vessels"] > 0)
            CHECK_THAT(text, Catch::Contains("Fills         " +
                                             std::to_string(batch["filling"]["vessels"].get<int>()) + " "));
    });
}
