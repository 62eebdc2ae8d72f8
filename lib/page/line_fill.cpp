#include "lakebound/page/line_fill.hpp"

#include <algorithm>

#include "characters.hpp"

namespace lakebound::page {

namespace {

/// A line may not break between these two words: "11.6 g", "± 0.2", "1 chance".
bool clings(std::string_view left, std::string_view right) {
    if (is_digit(left.back()) || left.ends_with("±") || right == "±" || left.ends_with("x/") || right == "x/")
        return true; // left may be several words that cling already
    return right == "%" || left.ends_with("x/÷");
}

/// The part of a word that fits into `width` columns, one character at least.
std::string_view fitting(std::string_view word, std::size_t width) {
    std::size_t at = 0, used = 0, end = 0;
    while (at < word.size()) {
        used += static_cast<std::size_t>(columns_of(next_character(word, at)));
        if (used > width && end > 0) break;
        end = at;
        if (used >= width) {
            // marks laid over the last letter stay with it
            for (std::size_t next = at; next < word.size() && columns_of(next_character(word, next)) == 0;)
                end = next;
            break;
        }
    }
    return word.substr(0, end);
}

std::vector<std::string> words_of(std::string_view text, std::size_t width) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < text.size();) {
        const auto start = text.find_first_not_of(' ', at);
        if (start == std::string_view::npos) break;
        const auto end = std::min(text.find(' ', start), text.size());
        auto word = text.substr(start, end - start);
        while (columns(word) > width) {
            const auto part = fitting(word, width);
            words.emplace_back(part);
            word.remove_prefix(part.size());
            if (columns(part) > width) break; // one wide letter, more than the line: nothing to be done
        }
        if (!word.empty()) words.emplace_back(word);
        at = end;
    }
    return words;
}

} // namespace

std::size_t columns(std::string_view text) {
    std::size_t sum = 0;
    for (std::size_t at = 0; at < text.size();)
        sum += static_cast<std::size_t>(columns_of(next_character(text, at)));
    return sum;
}

std::string padded(std::string text, std::size_t width) {
    const auto used = columns(text);
    if (used < width) text.append(width - used, ' ');
    return text;
}

std::string right_aligned(std::string text, std::size_t width) {
    const auto used = columns(text);
    if (used < width) text.insert(0, width - used, ' ');
    return text;
}

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
    width = std::max<std::size_t>(width, 1);
    const auto words = words_of(text, width);
    std::vector<std::string> lines;
    std::string line;
    for (std::size_t i = 0; i < words.size();) {
        std::string piece = words[i++];
        while (i < words.size() && clings(piece, words[i]) && columns(piece) + 1 + columns(words[i]) <= width)
            piece += ' ' + words[i++];
        if (line.empty()) {
            line = piece;
        } else if (columns(line) + 1 + columns(piece) <= width) {
            line += ' ' + piece;
        } else {
            lines.push_back(line);
            line = piece;
        }
    }
    lines.push_back(line);
    return lines;
}

} // namespace lakebound::page
