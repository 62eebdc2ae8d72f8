#pragma once
// A studio of one's own on the disk, with one jar, which one stands in.

#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>

#include "lakebound/shelf/entry_typed.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/jar_record.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"
#include "support/bench_practice.hpp"

namespace lakebound::testing {

inline const std::chrono::sys_days studio_today = day_of_iso("2026-06-30").value();

inline Library shipped_library() { return Library({{LAKEBOUND_FORMULATIONS_DIR, "test", true}}); }

inline Bench studio_bench() {
    auto b = lakebound::testing::bare_bench();
    b.name = "test";
    b.scales = {{"kitchen scale", grams(0.1), {}, {}}, {"pocket scale", grams(0.01), {}, {}}};
    return b;
}

struct OwnStudio {
    TempDir folder;
    InFolder here{folder.path()};
    Library library = shipped_library();
    Jar jar;

    OwnStudio() {
        std::filesystem::create_directory("jars");
        std::ofstream("jars/weld.yaml") << "kind: jar\nname: Weld\npigment: alumina-lake\nnet_mass: 24 +- 0.1 g\n"
                                           "since: 2026-05-01\n";
        jar = library.jar("jars/weld.yaml");
    }
    Studio read() { return read_studio(".", library, studio_today); }
    void write(const TypedEntry& entry, const std::string& date) {
        const Studio studio = read();
        with_entries(studio, jar, date, {entry}, library, studio_today);
        write_entries(studio, jar, date, {entry});
    }
    EntryContext context(const std::string& date) const { return {"weld", date, {}, {}, studio_bench()}; }
    JarStory story() {
        RecordWish wish;
        wish.today = studio_today;
        const Studio studio = read();
        return jar_story(studio, 0, studio_bench(), false, library, wish);
    }
};

} // namespace lakebound::testing
