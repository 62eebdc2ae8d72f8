#include <catch2/catch.hpp>

#include <functional>

#include <nlohmann/json.hpp>

#include "lakebound/report/batch_json.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/weigh_sheet.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using nlohmann::json;

namespace {
void each_value(const json& value, const std::string& key,
                const std::function<void(const std::string&, const json&)>& visit) {
    if (value.is_object())
        for (const auto& [name, item] : value.items())
            each_value(item, name, visit);
    else if (value.is_array())
        for (const auto& item : value)
            each_value(item, key, visit);
    else
        visit(key, value);
}
constexpr Process processes[] = {Process::watercolour, Process::oil, Process::egg_tempera};
} // namespace

TEST_CASE("JSON has a schema version, snake_case keys and no null", "[unit]") {
    for (const auto process : processes) {
        const auto document = json::parse(batch_json(batch_subject(example_request(process), example_tests()), true));
        CHECK(document.at("schema_version") == batch_json_version);
        CHECK(document.at("working").size() > 10);
        each_value(document, "", [](const std::string& key, const json& value) {
            INFO(key);
            CHECK_FALSE(value.is_null()); // NaN would be written as null
            CHECK(key.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == std::string::npos);
        });
    }
}

TEST_CASE("Numbers of the JSON read back to the very double", "[identity]") {
    const auto subject = batch_subject(example_request(Process::watercolour), example_tests());
    const auto document = json::parse(batch_json(subject));
    const auto& batch = *subject.answer.batch;
    CHECK(document["batch"]["medium_g"].get<double>() ==
          in_grams(batch.medium)); // the same double, not computed again
    CHECK(document["batch"]["as_computed"]["pvc"]["value"].get<double>() == batch.film.pvc.value());
    CHECK(document["batch"]["chance"]["sigma_ln_k"].get<double>() == subject.chance->sigma);
}

TEST_CASE("Uncertain values carry uncertainty and provenance", "[unit]") {
    const auto document = json::parse(batch_json(batch_subject(example_request(Process::oil), example_tests())));
    const auto& density = document["pigments"][0]["density_g_per_cm3"];
    CHECK(density["value"].get<double>() == Approx(1.88).epsilon(1e-12));
    CHECK(density["standard_uncertainty"].get<double>() == Approx(0.2).epsilon(1e-12));
    CHECK(density["provenance"]["origin"] == "estimate");
    CHECK(density["provenance"]["library_default"] == true);
    const auto& k = document["batch"]["as_weighed"]["k"];
    CHECK(k["standard_uncertainty"].get<double>() > 0.05);
    CHECK(k["provenance"]["origin"] == "computed");
}

TEST_CASE("JSON and text agree on every weighing, the verdict and k", "[identity]") {
    for (const auto process : processes) {
        const auto subject = batch_subject(example_request(process), example_tests());
        const auto text = weigh_sheet_text(subject);
        const auto document = json::parse(batch_json(subject));
        for (const char* list : {"weigh", "medium_fresh"}) {
            if (std::string(list) == "medium_fresh" && document["batch"][list].size() < 2) continue;
            for (const auto& line : document["batch"][list]) {
                const auto amount = mass_text(grams(line["rounded_g"].get<double>()),
                                              grams(line["scale_step_g"].get<double>()));
                CHECK_THAT(text, Catch::Contains("[ ] " + std::string(9 - amount.size(), ' ') + amount));
            }
        }
        CHECK_THAT(text, Catch::Contains(document["batch"]["verdict_words"].get<std::string>(),
                                         Catch::CaseSensitive::No));
        CHECK_THAT(text, Catch::Contains(
                             "k " + ratio_text(document["batch"]["as_weighed"]["k"]["value"].get<double>())));
    }
}

TEST_CASE("A shortfall is in the JSON with what was asked for", "[unit]") {
    auto request = example_request(Process::watercolour);
    request.amount = VesselCount{*request.recipe.vessel, 90};
    const auto document = json::parse(batch_json(batch_subject(request, example_tests())));
    CHECK(document["enough"] == false);
    CHECK(document["shortfall"]["vessels_wanted"] == 90);
    CHECK(document["shortfall"]["vessels_possible"] == 22);
    CHECK(document["batch"]["filling"]["vessels"] == 22);
}
