#pragma once
// Jar record: questions about one jar of a studio, put together from its files.

#include <chrono>
#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/record/jar_story.hpp"
#include "lakebound/record/poured.hpp"
#include "lakebound/record/stepwise_mix.hpp"
#include "lakebound/shelf/studio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What is asked beside the jar.
struct RecordWish {
    std::optional<std::string> family, medium, lot;
    std::optional<Probability> wanted; ///< chance of the window
    std::optional<Shortage> shortage;
    std::string asked_wish; ///< options that ask the last two again
    std::string asked_shelf; ///< and the folders that were named: " --shelf reedmere"
    std::chrono::sys_days today{};
};

/// The question that learning answers. medium: that swatches are painted with; nullptr: none. Throws InputError
/// id-unknown for a family that is not on the shelf.
[[nodiscard]] JarQuestion jar_question(const Studio& studio, std::size_t jar, const Family& family, const Medium* medium,
                         const Bench& bench, const LearningHabits& habits, const RecordWish& wish);

/// The whole story of a jar: its family and medium are those wished, else those of its last paint, else the usual ones.
/// Throws InputError: id-unknown, medium-unfit.
[[nodiscard]] JarStory jar_story(const Studio& studio, std::size_t jar, const Bench& bench, bool bench_assumed, Library& library,
                   const RecordWish& wish);

/// The wish with family, medium and bottle of the batch that --poured names: "7.9 g", of the last batch, or "1: 7.9 g", of
/// the first. Throws InputError entry-typed: no such batch.
[[nodiscard]] RecordWish as_batch(const Studio& studio, const JarStory& story, const std::string& text, RecordWish wish);
/// The question of that batch, which got another amount of medium. Throws InputError entry-typed: no such batch, or one
/// whose medium is not known; quantity faults.
[[nodiscard]] PouredQuestion poured_question(const Studio& studio, const JarStory& story, const std::string& text, Library& library);

/// A batch of this jar begun lean and brought up in doses. text: the powder, "6 g". Throws InputError: quantity faults; out-of-range when the batch is too small for its strokes.
[[nodiscard]] StepwisePlan stepwise_plan(const Studio& studio, const JarStory& story, const std::string& text, Library& library,
                           const RecordWish& wish);

/// A jar with what its record says of it: the powder that is left, and figures measured since its file was typed.
struct RecordedJar {
    Jar jar;
    Studio studio;
    std::size_t index = 0; ///< of the jar in the studio
    bool has_record() const noexcept { return studio.has_records(); }
};
/// path: of its file. Without any record in its studio the jar is as its file has it. Throws InputError as read_studio.
[[nodiscard]] RecordedJar recorded_jar(const std::string& path, Library& library, std::chrono::sys_days today);

/// The same as it was at the end of that day. Throws InputError out-of-range where the jar's file begins later.
[[nodiscard]] RecordedJar as_of(RecordedJar jar, std::chrono::sys_days day, Library& library);

/// What the record says of a paint of this family; nothing where the studio has no record.
[[nodiscard]] std::optional<JarOutlook> outlook_of(const RecordedJar& jar, const Recipe& recipe, const Bench& bench, Library& library,
                                     const RecordWish& wish);

} // namespace lakebound
