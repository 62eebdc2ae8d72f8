#include "scalar_text.hpp"

namespace lakebound {
namespace {

bool is_word(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}
bool is_blank(char c) { return c == ' ' || c == '\n'; }

} // namespace

std::size_t quoted_end(std::string_view text, std::size_t start) {
    const char quote = text[start];
    for (std::size_t i = start + 1; i < text.size(); ++i) {
        if (quote == '"' && text[i] == '\\')
            ++i;
        else if (text[i] == quote && quote == '\'' && i + 1 < text.size() && text[i + 1] == '\'')
            ++i;
        else if (text[i] == quote)
            return i + 1;
    }
    return not_closed;
}

std::size_t plain_end(std::string_view text, std::size_t start, std::string_view value) {
    std::size_t i = start;
    for (std::size_t v = 0; v < value.size(); ++v) {
        if (is_blank(value[v])) {
            std::size_t next = i;
            while (next < text.size() && is_blank(text[next]))
                ++next;
            if (text.substr(i, next - i).find('\n') != std::string_view::npos) {
                i = next;
                while (v + 1 < value.size() && value[v + 1] == '\n')
                    ++v;
                continue;
            }
        }
        if (i >= text.size() || text[i] != value[v]) break; // never seen; the caller clips to the line
        ++i;
    }
    return i;
}

std::size_t swallowed_line(std::string_view text, std::size_t start, std::size_t end, bool spaced,
                           bool list_items) {
    for (std::size_t line = text.find('\n', start); line < end; line = text.find('\n', line + 1)) {
        std::size_t i = line + 1;
        while (i < end && text[i] == ' ')
            ++i;
        const std::size_t first = i;
        if (i + 1 < end && text[i] == '-' && text[i + 1] == ' ') {
            if (list_items) return first;
            i += 2;
            while (i < end && text[i] == ' ')
                ++i;
        }
        if (i < end && (text[i] == '"' || text[i] == '\'')) ++i;
        const std::size_t word = i;
        while (i < end && is_word(text[i]))
            ++i;
        if (i == word) continue;
        if (i < end && (text[i] == '"' || text[i] == '\'')) ++i;
        if (i >= text.size() || text[i] != ':') continue;
        const bool space_behind = i + 1 >= text.size() || is_blank(text[i + 1]);
        const bool address = text.substr(i, 3) == "://"; // a web address folded into a note is no key
        if (space_behind || (!spaced && !address)) return first;
    }
    return not_closed;
}

bool quote_ends_well(std::string_view text, std::size_t end) {
    std::size_t i = end;
    while (i < text.size() && text[i] == ' ')
        ++i;
    if (i >= text.size() || text[i] == '\n' || text[i] == ',' || text[i] == ']' || text[i] == '}' ||
        text[i] == ':')
        return true;
    return text[i] == '#' && i > end;
}

} // namespace lakebound
