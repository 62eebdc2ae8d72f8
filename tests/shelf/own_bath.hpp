#pragma once
// A bath of one's own on the disk, which one stands by.

#include <catch2/catch.hpp>

#include <chrono>
#include <filesystem>
#include <functional>
#include <string>

#include "lakebound/shelf/bath_record.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

namespace lakebound::testing {

inline const std::chrono::sys_days end_of_june = day_of_iso("2026-06-30").value();

/// A folder with one bath, which one stands in.
struct OwnBath {
    TempDir folder;
    InFolder here{folder.path()};
    Library library{{{LAKEBOUND_FORMULATIONS_DIR, "test", true}}};

    OwnBath() {
        BathTexts texts;
        texts.alum = "potash-alum, 50 g";
        texts.alkali = "soda-ash";
        texts.water = "1.0 L";
        CHECK(begin_bath_file("madder", texts, "2026-06-01") == "baths/madder.yaml");
    }
    BathRecord read() { return read_bath_record(bath_path("madder", library), library); }
    BathStory told(const BathRecord& record) {
        const WashHabits washing = library.wash_habits();
        const LakingHabits laking = library.laking_habits();
        const BathPlan plan = plan_bath(bath_wish(record.texts, library), laking, washing);
        Bench bench;
        bench.scales = {{"scale", grams(0.1), {}, {}}};
        return told_bath(record, plan, bath_setting(plan, laking, washing, library.powder_habits(), bench), end_of_june);
    }
    /// As the command does it: all that could be wrong shows before anything is written.
    std::string enter(const BathTexts& texts, const BathEntryContext& context) {
        const BathRecord before = read();
        const auto entries = typed_bath_entries(before, texts, context);
        (void)told(with_bath_entries(before, context.date, entries));
        return write_bath_entries(before, context.date, entries);
    }
};

inline BathTexts that_says(const std::function<void(BathTexts&)>& say) {
    BathTexts texts;
    say(texts);
    return texts;
}

inline std::size_t entries_on_disk() {
    std::error_code none;
    const std::filesystem::directory_iterator all("baths/madder", none);
    return none ? 0 : static_cast<std::size_t>(std::distance(all, std::filesystem::directory_iterator()));
}

} // namespace lakebound::testing
