#pragma once
// The card of a jar, and the list of a studio's jars, as pages and as JSON.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/jar.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/record/jar_story.hpp"
#include "lakebound/record/poured.hpp"

namespace LAKEBOUND_EXPORT lakebound {

inline constexpr int jar_json_version = 1;

/// What an entry that was just written is answered with; all empty where none was.
struct JarAnswerWords {
    std::string kept;       ///< its file
    std::string taken_back; ///< what it takes back, when it is an undo
    std::vector<std::string> remarks; ///< what was taken for granted in it, and what may be a slip
};
[[nodiscard]] page::Page jar_page(const JarStory& story, const JarAnswerWords& words = {});
[[nodiscard]] std::string jar_json(const JarStory& story, const JarAnswerWords& words = {});

/// What to do now that another amount of medium was poured than the sheet of the last batch said.
[[nodiscard]] page::Page poured_page(const JarStory& story, const PouredQuestion& question, const PouredAnswer& answer);
[[nodiscard]] std::string poured_json(const JarStory& story, const PouredQuestion& question, const PouredAnswer& answer);

/// One line of a studio.
struct StudioLine {
    std::string id, name, plant;
    std::optional<Mass> left;
    Mass uncertainty{};
    std::size_t entries = 0;
    Probability in_window; ///< at the best mix
    std::string family;
    std::string next, next_key; ///< what to do, in words and as JSON has it
};
[[nodiscard]] StudioLine studio_line(const JarStory& story);
/// What a file that was just begun takes for granted.
[[nodiscard]] page::Page new_jar_page(const Jar& jar, const std::string& path);
[[nodiscard]] std::string new_jar_json(const Jar& jar, const std::string& path);

/// The same of a bench's file.
[[nodiscard]] page::Page new_bench_page(const Bench& bench, const std::string& path);

[[nodiscard]] page::Page studio_page(const std::string& studio, const std::vector<StudioLine>& lines);
[[nodiscard]] std::string studio_json(const std::string& studio, const std::vector<StudioLine>& lines);

} // namespace lakebound
