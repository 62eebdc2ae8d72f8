#pragma once
// What a maker's question starts from: bench, jar and recipe, with faults that say how to mend them.

#include <chrono>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/material/jar.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/recipe.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Yields all of standard input: called at most once, where a file is named "-".
using StandardInput = std::function<std::string()>;

struct FoundBench {
    Bench bench;
    bool assumed = false; ///< none was found; the reports say so
};

/// The bench of the file, else of the shelf, else a kitchen scale.
[[nodiscard]] FoundBench find_bench(const std::optional<std::string>& file, Library& library);

/// The day it is where the program runs.
[[nodiscard]] std::chrono::sys_days today_here();
/// The day of an option; today when it is absent. Throws InputError date-form.
[[nodiscard]] std::chrono::sys_days day_option(const std::optional<std::string>& text);

/// A recipe by id or path, or from standard input for "-". jar: of the command line, may be nullptr.
/// Throws InputError jar-missing when the recipe wants a jar that was not named.
[[nodiscard]] Recipe find_recipe(const std::string& id_or_path, Library& library, const Jar* jar,
                                 const StandardInput& standard_input);

/// Index of the pigment that comes from the jar. A recipe that names the pigment the jar stands for,
/// instead of `jar`, gets the jar's measurements too. Throws InputError jar-not-used.
[[nodiscard]] std::size_t jar_in_recipe(Recipe& recipe, const Jar& jar);
/// Where the jar on hand tells what its bath left in it, the limits and the preservatives of the shelf go with the request.
void ask_of_remains(BatchRequest& request, Library& library);

} // namespace lakebound
