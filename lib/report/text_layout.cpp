#include "text_layout.hpp"

#include <algorithm>

namespace lakebound::layout {

namespace {

bool ends_in(std::string_view word, std::string_view tail) {
    return word.size() >= tail.size() && word.substr(word.size() - tail.size()) == tail;
}

const char* escape(Tone tone) {
    switch (tone) {
    case Tone::plain:
        return "";
    case Tone::heading:
        return "\x1b[1m";
    case Tone::good:
        return "\x1b[1;32m";
    case Tone::care:
        return "\x1b[1;33m";
    case Tone::bad:
        return "\x1b[1;31m";
    }
    return "";
}

} // namespace

std::string joined(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
        text += names[i];
    }
    return text;
}

std::string capitalised(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string capitals(std::string text) {
    for (auto& c : text)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return text;
}

void Page::blank() {
    if (!text_.empty() && !ends_in(text_, "\n\n")) text_ += '\n';
}

void Page::heading(std::string_view text) {
    blank();
    std::string capital(text);
    std::transform(capital.begin(), capital.end(), capital.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
    line(capital, Tone::heading);
}

void Page::line(std::string_view text, Tone tone) {
    const auto last = text.find_last_not_of(' ');
    const auto kept = last == std::string_view::npos ? std::string_view{} : text.substr(0, last + 1);
    if (colour_ && tone != Tone::plain && !kept.empty()) {
        text_ += escape(tone);
        text_ += kept;
        text_ += "\x1b[0m\n";
    } else {
        text_ += kept;
        text_ += '\n';
    }
}

void Page::paragraph(std::string_view text, std::size_t indent, Tone tone) {
    for (const auto& each : wrapped(text, page_width - indent))
        line(std::string(indent, ' ') + each, tone);
}

void Page::item(std::string_view marker, std::string_view text, std::size_t indent) {
    const std::size_t beside = indent + columns(marker) + 1;
    bool first = true;
    for (const auto& each : wrapped(text, page_width - beside)) {
        line(first ? std::string(indent, ' ') + std::string(marker) + ' ' + each
                   : std::string(beside, ' ') + each);
        first = false;
    }
}

} // namespace lakebound::layout
