#include "text_lines.hpp"

#include <algorithm>
#include <cmath>

#include "characters.hpp"
#include "lakebound/page/line_fill.hpp"

namespace lakebound::page {

namespace {

constexpr const char* bold = "\x1b[1m";

const char* escape(Tone tone) {
    switch (tone) {
    case Tone::plain:
        return "";
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

TextLines::TextLines(const TextOptions& options)
    : width_(std::clamp(options.width, least_text_width, text_width)), colour_(options.colour),
      ascii_(options.ascii) {}

std::string TextLines::shown(const Words& words) const {
    std::string text;
    for (const auto& span : words.spans())
        text += span.style == Style::loud ? capitals(span.text) : span.text;
    auto kept = clean(text);
    return ascii_ ? in_ascii(kept) : kept;
}

void TextLines::blank() {
    if (!text_.empty() && !text_.ends_with("\n\n")) text_ += '\n';
}

void TextLines::put(std::string_view text, const char* code) {
    const auto last = text.find_last_not_of(' ');
    const auto kept = last == std::string_view::npos ? std::string_view{} : text.substr(0, last + 1);
    const bool coloured = colour_ && *code != '\0' && !kept.empty();
    if (coloured) text_ += code;
    text_ += kept;
    if (coloured) text_ += "\x1b[0m";
    text_ += '\n';
}

void TextLines::heading(std::string_view text) {
    blank();
    for (const auto& each : wrapped(capitals(std::string(text)), width_))
        put(each, bold);
}

void TextLines::strong_line(std::string_view text) {
    if (columns(text) <= width_) return put(text, bold);
    for (const auto& each : wrapped(text, width_))
        put(each, bold);
}

void TextLines::line(std::string_view text, Tone tone) {
    if (columns(text) <= width_) return put(text, escape(tone));
    const auto start = std::min(text.find_first_not_of(' '), text.size());
    paragraph(text.substr(start), start, tone);
}

std::size_t TextLines::indent(std::size_t wanted) const {
    return width_ >= 60 ? wanted : std::min(wanted, width_ / 8);
}

void TextLines::paragraph(std::string_view text, std::size_t wanted, Tone tone) {
    const auto in = indent(wanted);
    for (const auto& each : wrapped(text, width_ - in))
        put(std::string(in, ' ') + each, escape(tone));
}

void TextLines::item(std::string_view marker, std::string_view text, std::size_t wanted) {
    const auto in = indent(wanted);
    const auto beside = in + columns(marker) + 1;
    if (width_ < 60 && beside + 12 > width_) {
        paragraph(marker, wanted);
        return paragraph(text, wanted + 4);
    }
    if (beside + 8 > width_) return paragraph(std::string(marker) + ' ' + std::string(text), wanted);
    bool first = true;
    for (const auto& each : wrapped(text, width_ - beside)) {
        put(first ? std::string(in, ' ') + std::string(marker) + ' ' + each : std::string(beside, ' ') + each, "");
        first = false;
    }
}

std::string text_bar(double share, std::size_t width) {
    static constexpr const char* parts[] = {"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"};
    if (!(share > 0.0)) return {};
    const auto eighths =
        static_cast<std::size_t>(std::lround(std::min(share, 1.0) * static_cast<double>(width) * 8.0));
    std::string text;
    for (std::size_t i = 0; i < eighths / 8; ++i)
        text += "█";
    return text + parts[eighths % 8];
}

} // namespace lakebound::page
