#pragma once
// Goes to a folder and back, so that paths in messages are short and the same everywhere.

#include <filesystem>
#include <system_error>

namespace lakebound::testing {

class InFolder {
public:
    explicit InFolder(const std::filesystem::path& folder) : before_(std::filesystem::current_path()) {
        std::filesystem::current_path(folder);
    }
    ~InFolder() {
        std::error_code ignored;
        std::filesystem::current_path(before_, ignored);
    }
    InFolder(const InFolder&) = delete;
    InFolder& operator=(const InFolder&) = delete;

private:
    std::filesystem::path before_;
};

} // namespace lakebound::testing
