#pragma once
// Library: the shelves laid over each other. One file per id, read when it is first asked for; the
// same id in a folder searched earlier hides the later one.
//
// Not safe for use by several threads at once.
// Example: docs/examples/batch_from_the_shelf.cpp.

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"
#include "lakebound/material/ingredient.hpp"
#include "lakebound/material/jar.hpp"
#include "lakebound/material/medium.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/bath/laking_habits.hpp"
#include "lakebound/bath/salt.hpp"
#include "lakebound/bath/wash_habits.hpp"
#include "lakebound/paint/family.hpp"
#include "lakebound/paint/next_measurement.hpp"
#include "lakebound/paint/jar_remains.hpp"
#include "lakebound/paint/recipe.hpp"
#include "lakebound/paint/vessel.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/record/learning_habits.hpp"
#include "lakebound/shelf/document.hpp"
#include "lakebound/shelf/search_path.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class ShelfKind {
    pigment,
    ingredient,
    medium,
    family,
    vessel,
    recipe,
    jar,
    fineness_target,
    bench_test,
    bench_practice,
    powder_habits,
    learning_habits,
    salt,
    laking_habits,
    wash_habits,
};

/// "pigment", "medium": the word in files and messages.
[[nodiscard]] std::string_view kind_word(ShelfKind kind);
/// "pigments", "media": the name of the folder.
[[nodiscard]] std::string_view kind_folder(ShelfKind kind);

class Library {
public:
    /// Folders searched first come first; those not present are only shown by describe_search.
    explicit Library(std::vector<ShelfFolder> folders);

    // The thing of that id. Throws InputError: id-unknown with nearest names, id-form, and whatever is
    // wrong with its file. References stay valid as long as the library.
    const Pigment& pigment(std::string_view id);
    const Ingredient& ingredient(std::string_view id);
    const Medium& medium(std::string_view id);
    const Family& family(std::string_view id);
    const Vessel& vessel(std::string_view id);
    const FinenessTarget& fineness_target(std::string_view id); ///< its id is that of a family
    PowderHabits powder_habits() const; ///< habits/powder.yaml
    const LearningHabits& learning_habits(); ///< learning/home.yaml, with what practice/home.yaml has of it
    const Salt& salt(std::string_view id);
    LakingHabits laking_habits() const; ///< laking/home.yaml
    WashHabits wash_habits() const; ///< washing/home.yaml
    /// A recipe or a jar, by id or, when it has a '/', ends in ".yaml" or is "-", by path.
    /// jar: stands for `pigment: jar`, nullptr when no jar was named.
    Recipe recipe(const std::string& id_or_path, const Jar* jar);
    Jar jar(const std::string& id_or_path);
    /// Its file. Throws id-unknown, id-form.
    std::string jar_path(const std::string& id_or_path) const;
    /// The tests that a maker could do next, all that lie on the shelves, by id; and when one pays.
    BenchTests bench_tests();
    /// Those of the shelf that work as an acid, which alkali of a lake disables.
    std::vector<PreservativePart> preservatives();
    /// How far the work of a home bench scatters: practice/home.yaml.
    const BenchPractice& practice();

    // What is there and cannot be used is never passed over in silence, for then a figure of the maker
    // would be replaced by one of ours. Both throw InputError: shelf-unusable (a folder that cannot be looked
    // into), shelf-near-miss (a file of nearly that name, which would not be read).
    /// The path of the file of that id in the first folder that has it, be it readable or not.
    std::optional<std::string> find(ShelfKind kind, std::string_view id) const;
    /// A file of the maker's own as it was typed; what has no '/' and is not there is sought in that folder of each shelf
    /// ("sieve-tests") too. What is found nowhere comes back as it was typed: its reader says so.
    std::string own_file(const std::string& typed, std::string_view folder) const;
    /// bench.yaml of the first folder that has one.
    std::optional<std::string> find_bench() const;
    /// All ids of a kind, sorted. Throws InputError shelf-unusable.
    std::vector<std::string> ids(ShelfKind kind) const;
    /// The folders searched, one per line, and why; below each the files in it that are not read because of
    /// their names. Ends in '\n'.
    std::string describe_search() const;
    /// The fault "there is no such id", without place: nearest names or, failing that, where was searched.
    Diagnostic unknown(ShelfKind kind, std::string_view id) const;

private:
    std::string path_of(ShelfKind kind, std::string_view id) const; ///< throws id-unknown, id-form
    std::string path_or_id(ShelfKind kind, const std::string& id_or_path) const;

    /// The names in a folder, empty when it is not there.
    const std::vector<std::string>& names_in(const std::string& place) const;
    std::optional<std::string> entry_of(const std::string& place, std::string_view stem) const;

    std::vector<ShelfFolder> folders_;
    mutable std::map<std::string, std::vector<std::string>, std::less<>> names_; ///< by folder, as first seen
    std::map<std::string, Pigment, std::less<>> pigments_;
    std::map<std::string, Ingredient, std::less<>> ingredients_;
    std::map<std::string, Medium, std::less<>> media_;
    std::map<std::string, Family, std::less<>> families_;
    std::map<std::string, Vessel, std::less<>> vessels_;
    std::map<std::string, FinenessTarget, std::less<>> fineness_targets_;
    std::map<std::string, Salt, std::less<>> salts_;
    std::optional<BenchPractice> practice_;
    std::optional<LearningHabits> learning_habits_;
};

/// True for a file stem: lower-case letters and digits in groups joined by single hyphens.
[[nodiscard]] bool is_id(std::string_view text);

} // namespace lakebound
