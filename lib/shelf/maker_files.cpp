#include "lakebound/shelf/maker_files.hpp"

#include <algorithm>
#include <ctime>

#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

/// What stands in for a bench that no file describes; the sheet says so.
Bench assumed_bench(const AssumedBench& assumed) {
    Bench bench;
    bench.name = "assumed";
    bench.scales = {{quantity_text(assumed.scale_step, "g") + " scale", assumed.scale_step, std::nullopt, std::nullopt}};
    bench.slab_loss = {assumed.slab_loss, assumed.slab_loss_share};
    bench.weighing_tolerance = assumed.weighing_tolerance;
    bench.humidity = assumed.humidity;
    bench.temperature = assumed.temperature;
    return bench;
}

} // namespace

FoundBench find_bench(const std::optional<std::string>& file, Library& library) {
    if (file) return {read_bench_file(*file), false};
    if (const auto path = library.find_bench()) return {read_bench_file(*path), false};
    return {assumed_bench(library.practice().assumed_bench), true};
}

std::chrono::sys_days today_here() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    ::localtime_r(&now, &local);
    return std::chrono::year_month_day{std::chrono::year(local.tm_year + 1900),
                                       std::chrono::month(static_cast<unsigned>(local.tm_mon + 1)),
                                       std::chrono::day(static_cast<unsigned>(local.tm_mday))};
}

std::chrono::sys_days day_option(const std::optional<std::string>& text) {
    if (!text) return today_here();
    if (const auto day = day_of_iso(*text)) return *day;
    throw typed_fault("date-form", "--date \"" + *text + "\": no day of the calendar, written year-month-day",
                "write it like --date 2026-03-02");
}

Recipe find_recipe(const std::string& id_or_path, Library& library, const Jar* jar,
                   const StandardInput& standard_input) {
    try {
        if (id_or_path != "-") return library.recipe(id_or_path, jar);
        const std::string path(standard_input_path);
        return read_recipe(load_document(path, standard_input()), "standard-input", library, jar);
    } catch (const InputError& error) {
        // Not the recipe is at fault when it asks for the jar that the command line should have named.
        if (error.faults().size() > 1 || error.faults().front().id != "jar-missing") throw;
        throw typed_fault("jar-missing", "this recipe takes its pigment from a jar, and none is named",
                    "add --jar FILE; a jar file says what pigment it is and how much (page file-formats.md)");
    }
}

std::size_t jar_in_recipe(Recipe& recipe, const Jar& jar) {
    auto& parts = recipe.pigments;
    const auto is_jar = [&jar](const PigmentPart& part) {
        return part.pigment.id == jar.pigment.id && part.pigment.name == jar.pigment.name;
    };
    const auto same_pigment = [&jar](const PigmentPart& part) { return part.pigment.id == jar.pigment.id; };
    auto found = std::find_if(parts.begin(), parts.end(), is_jar);
    if (found == parts.end()) found = std::find_if(parts.begin(), parts.end(), same_pigment);
    if (found == parts.end())
        throw typed_fault("jar-not-used", "the recipe does not take its pigment from this jar",
                    "leave --jar out, or write 'pigment: jar' in a recipe of your own");
    found->pigment = jar.pigment;
    return static_cast<std::size_t>(found - parts.begin());
}

void ask_of_remains(BatchRequest& request, Library& library) {
    if (!request.jar || !request.jar->remains.known()) return;
    request.lake_limits = lake_limits(library.wash_habits());
    if (request.jar->remains.ph) request.preservatives = library.preservatives();
}

} // namespace lakebound
