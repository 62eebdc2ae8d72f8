#include "lakebound/quantity/nearest.hpp"

#include <algorithm>

namespace lakebound {

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        above[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = above[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U);
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, replaced});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before[j - 2] + 1);
        }
        std::swap(before, above);
        std::swap(above, row);
    }
    return above[b.size()];
}

namespace {

// A mistyped word longer than this is not a name; it also bounds the work on hostile input.
constexpr std::size_t longest_word = 128;

std::string folded(std::string_view word) {
    std::string out(word);
    for (char& c : out) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == '_' || c == ' ') c = '-';
    }
    return out;
}

std::size_t farthest(std::size_t length) {
    if (length < 2) return 0;
    if (length <= 4) return 1;
    return length <= 8 ? 2 : 3;
}

bool begins_or_has_part(const std::string& candidate, const std::string& word) {
    if (word.size() < 3) return false;
    return candidate.compare(0, word.size(), word) == 0 ||
           ("-" + candidate + "-").find("-" + word + "-") != std::string::npos;
}

} // namespace

std::vector<std::string> nearest_names(std::string_view word, std::span<const std::string_view> candidates,
                                       std::size_t most) {
    struct Found {
        std::size_t rank;
        std::string_view name;
    };
    std::vector<Found> found;
    if (word.empty() || word.size() > longest_word) return {};
    const std::string wanted = folded(word);
    const std::size_t limit = farthest(wanted.size());
    for (const std::string_view name : candidates) {
        const std::string candidate = folded(name);
        const std::size_t longer = std::max(candidate.size(), wanted.size());
        const std::size_t shorter = std::min(candidate.size(), wanted.size());
        const std::size_t distance = longer - shorter > limit ? limit + 1 : edit_distance(wanted, candidate);
        if (distance <= limit)
            found.push_back({distance, name});
        else if (begins_or_has_part(candidate, wanted))
            found.push_back({longest_word + longer - shorter, name});
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Found& a, const Found& b) { return a.rank < b.rank; });
    std::vector<std::string> names;
    for (std::size_t i = 0; i < found.size() && i < most; ++i)
        names.emplace_back(found[i].name);
    return names;
}

std::vector<std::string> nearest_names(std::string_view word, const std::vector<std::string>& candidates,
                                       std::size_t most) {
    const std::vector<std::string_view> views(candidates.begin(), candidates.end());
    return nearest_names(word, std::span<const std::string_view>(views), most);
}

} // namespace lakebound
